# SPDX-License-Identifier: MIT
# Batches: several kits made as one order.

about-kit = { $kits }
about-of-kit = { $kits }, { $about }
a-kit = a kit
no-kits = a batch needs at least one kit
no-kits-help = give it one, such as { "{" } "name": "grey", "album": "my-album.json", "copies": 12 { "}" }
a-group = a group of makers
no-makers = a class needs at least one group of makers
no-makers-help = give it one, such as { "{" } "name": "table-one", "count": 6, "sheet": "A4", "by": "trimmer" { "}" }
class-and-kits = a batch is of kits or of a class
class-and-kits-help = put the kits into a batch of their own, or take out the class
no-such-sheet = no stock of the album comes in a sheet of nearly { $sheet }
no-such-sheet-help = say which stock it is for: { "{" } "{ $stock }": "{ $sheet }" { "}" }
form-sheet = a sheet's name or size
class-group = { $group }, { $makers ->
        [one] one maker
       *[other] { $makers } makers
    }: each { $sheets }
class-group-pieces = { $group }, { $makers ->
        [one] one maker, with
       *[other] { $makers } makers, each with
    } pieces that are handed over cut
class-sheets = { $each } of { $stock } { $sheet } ({ $by })
class-by-trimmer = trimmer
class-by-machine = machine
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
no-choice = pages are chosen from nothing
no-choice-help = name at least one kind, such as { "{" } "kind": "pocket" { "}" }
change-and-choice = { $way } changes the album's pages, and { $choice } puts others in their place
change-and-choice-help = take it out, and say it in { $of }
mix = { $pages }
mix-pages = { $count } { $kind }
chosen-kind = { $kind }
chosen-kind-numbered = { $kind } (no. { $number })
about-mix = { $mix }{ $more ->
        [0] { "" }
        [one] {" "}(and another mix)
       *[other] {" "}(and { $more } other mixes)
    }
about-of-mix = { $mix }{ $more ->
        [0] { "" }
        [one] {" "}(and another mix)
       *[other] {" "}(and { $more } other mixes)
    }, { $about }
choice-mixes = { $mixes } mixes of { $pages } pages take from { $least } to { $sheets } sheets; the most for { $worst }
choice-mixes-tried = of { $mixes } mixes of { $pages } pages { $tried } are worked out: { $worst } takes the most sheets of these, { $sheets }; how many others take is not known
choice-mixes-bound = of { $mixes } mixes of { $pages } pages { $tried } are worked out: { $worst } takes the most sheets of these, { $sheets }; no mix takes more than { $at_most }, and some mix takes { $at_least } or more, so this is a bound only
choice-order = pages take papers in turn, so it counts where a page stands: sheets of a mix are those of its pages in the order of the choice, and what is packed is enough for any order
choice-not-proven = what is packed is enough for the { $tried } mixes that are worked out, of { $mixes }; for the others that is not proven
choice-order-not-proven = papers that are counted go by what the pages before took: what is packed is enough for every mix whose pages stand in the order of the choice; for another order that is not proven
choice-order-not-proven-help = leave the count of the papers out, or tell whoever chooses to keep to that order
choice-not-proven-help = give inserts a width and a height, the spine a pitch, and papers no count, so that they are the same in every mix; or choose from fewer kinds
choice-no-pocket = page { $page } has no pocket in the mix { $mix }{ $more ->
        [0] { "" }
        [one] {" "}and another one
       *[other] {" "}and { $more } others
    }
choice-no-pocket-help = take the page out of { $pages }, or give every kind a pocket: { $kinds } has none
choice-spare = as many as come free is another number for every mix: none are made
choice-spare-help = give it a { $count }
choice-cover = its spine is made for { $widest }; with { $thinnest } it is { $wider } wider than that needs
