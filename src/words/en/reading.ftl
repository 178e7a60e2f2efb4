# SPDX-License-Identifier: MIT
# What a file can not be read by.

## Text that is no JSON
file-too-large = this file has { $megabytes } MB; an album file has a few KB, 8 MB at the very most
file-too-large-help = check that this is the file you meant
not-text = this is no plain text (UTF-8)
not-text-help = save the file as UTF-8 (plain text), not as a word processor's document or in an older encoding
not-json = this file could not be read as JSON
not-json-bare-fraction = { $fraction } must stand in double quotes
not-json-bare-fraction-help = write "{ $fraction }"
not-json-empty = this file is empty
not-json-empty-help = `hingeleaf new FILE` writes one to start from
    .page = { "" }
    .shown = { "" }
not-json-ends-early = the file ends too early
not-json-ends-early-help = a closing {"}"} or ] or a quote is missing; perhaps the file was cut off when it was copied
not-json-too-deep = brackets are nested too deeply
not-json-too-deep-help = an album file has a bracket in a bracket four times at most: check that this is the file you meant
not-json-last-comma = there is a comma with nothing after it
not-json-last-comma-help = take the last comma away
not-json-too-large = this number is too large to mean anything
not-json-too-large-help = lengths go up to 100 m
not-json-no-comma = a comma is missing before this, or a bracket or quote is not closed
not-json-no-comma-help = put a comma between two fields or two entries
not-json-no-colon = a colon is missing before this
not-json-no-colon-help = write "name": value
not-json-bare-name = a field name must stand in double quotes here
not-json-bare-name-help = write it as "name": value; comments are not allowed
not-json-no-value = this is neither a number nor a text in double quotes
not-json-no-value-help = write 140, or "5 1/2 in": a text stands in double quotes, never in single ones
not-json-open-text = a text in quotes goes over the end of its line, or holds a character that can't be typed
not-json-open-text-help = close the quote on the same line; a new line within a text is written \n
not-json-backslash = a backslash does not go with what stands behind it
not-json-backslash-help = write \\ for one backslash
not-json-behind = something stands behind the end of the album
not-json-behind-help = take away what stands behind the last {"}"}

## What stands in the file
found-flag = true or false
found-list = a list [ … ]
found-null = null
found-number = a number
found-object = a group of fields {"{"} … {"}"}
found-text = a text

## What a field takes
form-amount = a number
form-any-length = a length
form-count = a whole number
form-count-or = a whole number or { $word }
form-counts = a list of whole numbers, [1, 4]
form-flag = true or false
form-length = a length, 140 or "5 1/2 in"
form-text = a text in double quotes

## What is being read
a-kind-of = a { $role } of kind { $kind }
a-cutter = a stock's own cutter
a-sheet-size = a sheet size
a-stock = a stock
the-file = the file
an-edge = an entry of edges
the-spine = the spine

## Any field
allowed = allowed: { $names }
amount-below-zero = { $field } is { $found }, and can't be less than 0
amount-too-large = { $field } is { $found }, and can't be more than { $most }
amount-too-large-help = check the number
bad-speed = { $field } must lie between 0.1 and 10000 mm a second
bad-speed-help = write mm a second: 40, or {"{"} "cut": 20, "score": 40, "draw": 60 {"}"}
bad-passes = { $field } must be a whole number from 1 to { $most }
bad-passes-help = write how often each stroke is made: 2, or {"{"} "cut": 2, "score": 1 {"}"}
bad-length = { $field }: { $what }
count-out-of-range = { $field } is { $found }, and must be a whole number from { $least } to { $most }
count-without-quotes = write { $number } without quotes
did-you-mean = did you mean { $name }?
empty = { $field } is an empty list
empty-help = give { $form }
form-handed-over = "sheets", "cut" or "scored", or one of these for each stock
handed-over-help = write "handed_over": "scored", or "handed_over": {"{"} "card": "scored" {"}"}
labels-too-wide = the labels side by side take { $takes }, and the paper is { $room } wide
labels-too-tall = the labels one above the other take { $takes }, and the paper is { $room } tall
labels-too-large-help = measure a sheet of yours from its left and upper edge: left, top, width, height and the gaps
missing = { $what } needs { $field }: { $about }
missing-help = add { $field }: { $form }
out-of-range = { $field } is { $found }, and must lie between { $least } and { $most }
out-of-range-help = check the number and its unit
size-below-zero = { $field } is { $found }, and a size can't be less than 0
too-long = { $field } has more than { $most } letters
too-long-help = shorten it
too-many-entries = { $field }: { $count } entries, and at most { $most } make sense
twice = { $name } stands here twice
twice-help = take one of the two away
unknown-field = { $what } has no field { $name }
unknown-word = { $field } can't be { $word }
unknown-word-or-count-help = write a whole number, or { $word }
unprintable = { $field } has a character that can't be printed, { $character }
unprintable-help = write it anew; copying from another program may bring such characters along
newer-format = the format is { $found }, which is newer than this program: it reads { $format }
newer-format-help = get a newer hingeleaf; the file is left as it is
    .page = get a newer version of this program; the file is left as it is
older-format = the format is { $found }, which is older than what this program reads, { $format }
older-format-help = write "format": "{ $format }" and check it again: what is called otherwise now is told at its place. Of an album, `check --mend NEW` writes such a copy
    .page = write “format”: “{ $format }”: what is called otherwise now is told at its place then
    .shown = write "format": "{ $format }": what is called otherwise now is told at its place then
format-missing-help = add "format": "{ $format }" as the first field
wrong-format = the format is { $found }, and this must be a file of format { $format }
wrong-format-help = write "format": "{ $format }" if it is one
wrong-type = { $field } takes { $form }, not { $found }
wrong-type-count-help = write a whole number, { $number }
wrong-type-length-help = write a number, or a text with its unit: "8 1/2 in", "216 mm"
wrong-type-list = { $field } must be a list [ … ], not { $found }
wrong-type-list-help = put what there is between [ and ], with commas between
wrong-type-object = { $what } must be a group of fields {"{"} … {"}"}, not { $found }
wrong-type-object-help = write {"{"} "name": value, … {"}"}; `hingeleaf new FILE` writes a file to look at
    .page = { "" }
    .shown = { "" }

## Lengths
comma-in-number = { $found } has a comma in its number
lift-too-long = { $field } can't be more than { $most } seconds
length-bad-fraction = { $found } holds a fraction that cannot be read
length-bad-fraction-help = write whole numbers over and under the line, and less than 1 after a whole number, for example "8 1/2 in" or "17/2 in"
length-by-zero = { $found } divides by zero
length-by-zero-help = write the parts of an inch under the line, for example "8 1/2 in" or "5/16 in"
length-comma-help = write { $pointed } with a point
length-comma-help-either = write { $pointed } with a point, or { $joined } without the comma
length-in-feet = { $found } is in feet
length-in-feet-help = write it in inches, 12 to the foot, for example "18 in"
length-in-points = { $found } is in points
length-in-points-help = a point means 1/72 in for type and 0.001 in for card, so it is taken for a caliper only; use mm, cm or in, for example "8 1/2 in"
length-not-finite = { $found } is not a number that can be measured
length-of-two-numbers = { $found } has more than one number
length-of-two-numbers-help = write one length, for example "216 mm" or "8 1/2 in"
length-of-two-units = { $found } has more than one unit
length-of-two-units-help = write it in one unit, for example "216 mm" or "8 1/2 in"
length-of-unknown-unit = { $found }: there is no unit { $unit } here
length-of-unknown-unit-help = use mm, cm or in (or pt, but for a caliper only), for example "216 mm"
length-of-unknown-unit-help-meant = did you mean { $instead }? Units are mm, cm and in (and pt, but for a caliper only)
length-too-long = { $found } is more than 100 m
length-too-long-help = check the number and its unit (mm, cm or in), for example "216 mm" or "8 1/2 in"
length-without-number = { $found } does not begin with a number
no-length = no length given
no-length-help = write a number and its unit (mm, cm or in), for example "216 mm" or "8 1/2 in"

## Changes of a file's text
edit-no-length = what stands at { $path } is not a length
edit-no-place = the file has no place for { $path }
edit-not-finite = the new length at { $path } can't be measured
edit-not-json = the file could not be read as JSON
edit-twice = { $path } is to be changed twice

## Albums
bad-name = a stock can't be called { $name }
bad-name-help = use 1 to 32 small letters a-z, digits and hyphens, not a hyphen first: "kraft-card"
no-kind = a { $role } must say its "kind" between {"{"} and {"}"}
no-kind-help = write {"{"} "kind": … {"}"} with one of these in place of the dots: { $kinds }
no-pages = an album needs at least one page
no-pages-help = add one: {"{"} "kind": "pocket" {"}"}
    .page = put another page in first
no-such-page = there is no page { $page }: the album has { $pages }
no-such-page-help = use 1 to { $pages }
rounded = rounded to { $step }: { $sizes ->
        [0] no size changed
        [one] 1 size changed, by { $most }
       *[other] { $sizes } sizes changed, by { $most } at most
    }
too-many-inserts = { $count } inserts are more than an album can hold ({ $most })
too-many-inserts-help = lower their { $field }
twice-stock = the stock { $name } stands here twice
twice-stock-help = give one of them another name
unknown-kind = there is no { $role } of kind { $kind }
unknown-kind-help = there are: { $names }
offcut-and-spare = { $field } and count are both left to what the sheets leave over
offcut-and-sides = { $field } follows what the sheets leave over, and all its sides are said
offcut-and-help = leave one of the two out: { $field }, or what is said besides
unknown-stock = there is no stock { $name } in { $stocks }
unknown-stock-help = the file has: { $names }
wrong-type-stocks = { $field } must be a group of stocks by their names, not { $found }
wrong-type-stocks-help = "stocks": {"{"} "card": {"{"} "sheet": "A4" {"}"} {"}"}

## Machines
bad-colour = the colour of { $layer } can't be read
bad-stock-colour = no colour is called { $said }
bad-stock-colour-help = write it by its red, green and blue as "#RRGGBB": "#8FA3B0"
no-stock-picture = { $file } is no picture of a stock: neither PNG nor JPEG
broken-stock-picture = { $file } is a picture that breaks off, or is damaged: it is left out
large-stock-picture = { $file } has { $across } by { $down } points: at most { $side } each way and { $millions } million in all are read
heavy-stock-picture = { $file } is a file of more than { $megabytes } MB, which is not read
no-stock-picture-help = take a photograph or a scan of the sheet, save it as PNG or JPEG, smaller if need be; without it the stock is shown in its colour
picture-width-alone = there is no picture that it is the width of, so it changes nothing
picture-width-alone-help = name a "picture" or a "picture_back" beside it, or leave it out
turned-stock-picture = { $file } lies on its side: the sheet is { $width } wide and { $height } tall
turned-stock-picture-help = turn the picture by a quarter, so that it lies as the sheet is named
shaped-stock-picture = { $file } is { $tall } tall at the sheet's width of { $width }, the sheet { $height }: it is no picture of the whole sheet
shaped-stock-picture-help = crop it to the sheet's edges, or say how wide the paper in it is: "picture_width"
bad-colour-help = write it as "#RRGGBB": "#E69F00"
colours-alike = the colours of { $one } and { $other } are one and the same in a DXF file, and nothing else tells these layers apart there
colours-alike-help = choose colours that differ clearly, or set dxf_layers to names or names-and-colours
corner-help-trail = cuts can only be drawn for a swivelling blade when it is known how far its tip trails
corner-help-trail-help = give trail, from the blade's own data or the test piece, or set corner_help to false
cuts-not-last = cuts stand before other layers in the files, and a part that is cut out first moves when it is scored or drawn on
cuts-not-last-help = right for a machine that begins with what stands last; for any other set layer_order to draw-score-cut
nicks-gap = nicks hold nothing where parts touch: a neighbour's cut runs through them
nicks-gap-help = set gap to 1 mm or more, or leave nicks out
bleed-gap = printed { $bleed } past the cut, neighbours print on each other: the gap is { $has }
bleed-gap-help = set gap to { $needs } or more, or bleed to less
bleed-margin = printed { $bleed } past the cut, a part at the sheet's edge runs off the sheet: the margin is { $has }
bleed-margin-help = set margin to { $needs } or more, or bleed to less
sheets-a-bed = several sheets can only be laid on the bed when it is known how large that is
sheets-a-bed-help = give the bed, as "610x420mm", or leave sheets_a_bed out
bad-sheets-a-bed = { $field } takes { $form }
bad-sheets-a-bed-help = "fill" lays as many sheets on the bed as it takes
perforated-both-sides = perforated scores go through the card and fold both ways as they are, so no file is made for the back
perforated-both-sides-help = nothing need be done; for strokes on both sides set score to line
shared-cuts-gap = neighbours can only share a cut when no gap is left between their paths
shared-cuts-gap-help = set gap to 0, or shared_cuts to false
wrong-type-score = { $field } takes { $form }

## Sheets of card
bad-sheet = there is no sheet { $name }
bad-sheet-help = name one of { $names }, or give its size as "12x12in" or "300x200mm"
bad-sheet-help-meant = did you mean { $name }? Sizes of your own are written "12x12in" or "300x200mm"
bad-sheet-sides = a sheet of { $size } is no sheet
bad-sheet-sides-help = each side must lie between 5 mm and 5 m
size-of-no-sides = { $found } is not a width and a height
size-of-no-sides-help = write width x height and a unit, for example "12x12in" or "300x200mm"
size-of-nothing = { $found } has a side that is not more than zero
size-of-nothing-help = both sides must be, for example "12x12in" or "300x200mm"
size-with-bad-side = in { $found }, { $what }
size-without-unit-help = write "{ $found }in" or "{ $found }mm"
without-unit = { $found } has no unit

## Weights of card
out-of-range-grammage = { $field } is { $found } g/m², and must lie between 20 and 5000
weight-comma-help = write a decimal with a point and thousands with nothing between, for example "97.5 gsm" or "1290 gsm"
weight-help = write the weight with its unit, for example "280 gsm" or "65 lb cover"
weight-in-grade = { $grade } { $gsm }
weight-of-nothing = { $found } is not more than zero
weight-of-unknown-grade = { $found }: there is no grade { $grade } here
weight-of-unknown-grade-help = grades are { $grades }, as in "{ $figures } lb cover"; or write the weight in gsm
weight-of-unknown-grade-help-meant = did you mean "{ $figures } lb { $grade }"? Grades are { $grades }
weight-of-unknown-unit = { $found }: there is no unit { $unit } for weight here
weight-too-heavy = { $found } is heavier than any card or board
weight-without-grade = { $found } does not say pounds of what grade
weight-without-grade-help = name the grade, for example "{ $figures } lb cover"; { $figures } lb of each would be, in g/m²: { $grades }
weight-without-number = { $found } does not begin with a weight
weight-without-unit-help = write "{ $figures } gsm", or pounds with their grade, for example "65 lb cover"

## Edges
edge-nothing = it says nothing that is done to its edge
edge-two-things = it says two things that are done to its edge
edge-what-help = say one of { $finish } and { $corners }; have an entry for each
corner-depth = a corner has no depth
corner-depth-help = leave it out; the size says what is taken off along either edge
