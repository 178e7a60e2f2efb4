# SPDX-License-Identifier: MIT
# What buying and selling can not be read by.

a-pack = a pack
a-supply = a supply
form-packs = a group of packs by their stocks
form-supplies = a group of supplies by their names
packs-help = write "packs": {"{"} "card": {"{"} "of": 25, "price": 9.5 {"}"} {"}"}
supplies-help = write "supplies": {"{"} "tape 6 mm": {"{"} "of": "25 m", "price": 3.2 {"}"} {"}"}
unknown-pack = there is no stock { $name } to be in packs
unknown-pack-help = packs are of these: { $names }
too-fine = { $field } has more than { $most } decimals
too-fine-help = shorten it
unknown-supply = { $name } is nothing that kits take besides sheets
unknown-supply-help = write tape, glue, ribbon, thread, corners or cover; tape and ribbon may have their width: "tape 6 mm"
bad-supply-length = { $name } is sold by its length
bad-supply-volume = { $name } is sold by its volume
bad-supply-count = { $name } are sold by the piece
bad-supply-help = write "of": "25 m" for tape, ribbon and thread, "of": "100 ml" for glue, "of": 250 for corners, "of": 1 for a ready-made cover
share-without-sign = { $field } takes a share with its sign, not a number
share-help = write "{ $share }"
bad-share = { $field } can't be { $said }
bad-share-help = write a share: "15 %"
share-too-large = { $field } is { $said }, and can't be more than { $most } %
nothing-left = fees and tax take the whole price
nothing-left-help = both are shares of the price, and come to less than 100 % together
bad-currency = money can't be called { $said }
bad-currency-help = write its letters or its sign, as it is to be shown: "EUR"
terms-differ = the albums of the batch have { $field } in different ways
terms-differ-help = say it in the batch file: that holds for the whole order
