# SPDX-License-Identifier: MIT
# Batches: several kits made as one order.

about-kit = { $kits }
about-of-kit = { $kits }, { $about }
a-kit = a kit
no-kits = a batch needs at least one kit
no-kits-help = give it one, such as { "{" } "name": "grey", "album": "my-album.json", "copies": 12 { "}" }
batch-too-many-kits = it is { $count } kits, { $most } are the most
batch-too-many-kits-help = make fewer at a time
bad-kit-name = a kit can not be called { $name }
bad-kit-name-help = small letters, digits and hyphens, up to 32, beginning with a letter or digit: its files are called by it
twice-kit = there are two kits called { $name }
twice-kit-help = give one of them another name
change-help = write ways and values, such as { "{" } "pages[0].pocket": 120 { "}" }
change-no-place = { $file } has nothing that { $way } leads to
change-no-place-help = write the way as findings print it: "pages[0].pocket", "stocks.card.count"; only its last step may be new
bad-spares = spare parts can not be { $said }
bad-spares-help = write a whole number from 0 to 1000, or a share such as "2 %"
kit-by-kit = { $now } sheets for all kits together; sheets of its own for each kind of kit would be { $then }
all-together = { $now } sheets, each kind of kit on its own; all kits laid together would take { $then }
option-of-one-album = { $option } is for one album, and this is a batch
option-of-one-album-help = leave it out, or give it an album file; a batch says "copies" of each kit
no-album-of-batch-help = check its name; albums are found from the batch file's folder
