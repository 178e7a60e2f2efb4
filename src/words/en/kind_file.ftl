# SPDX-License-Identifier: MIT
# What is wrong with a kind file, and with kinds made from one.

a-corner = a corner
a-face = a face that takes paper
a-flap = a flap
a-hole = a hole
a-mark = a mark
a-join = a join
a-kind-file = a kind file
a-need = a need
a-notch = a notch
a-panel = a panel
a-pocket = a pocket
a-size = a size

## Names
bad-kind-name = { $name } is no name for a kind
bad-kind-name-help = take small letters a to z, digits and hyphens, beginning with a letter: step-pocket
bad-panel-name = { $name } is no name for a piece or panel
bad-panel-name-help = take letters, digits, spaces and hyphens, at most 40
bad-size-name = { $name } is no name for a size
bad-size-name-help = take small letters a to z, digits and underscores, beginning with a letter: mouth
bad-words = this is no list of words to choose from
bad-words-help = write two words or more, of letters, digits and underscores: ["front", "back"]
size-name-taken = { $name } means something already
size-name-taken-help = call the size otherwise: width, height, seam, tab, caliper, nth, words of formulas, and what every entry has are taken
twice-panel = a panel called { $name } stands in this piece twice
twice-panel-help = give each panel a name of its own; equal ones side by side are one with times, and two that are never there together may share a name if both have a when

## Formulas
formula-area = a length times a length is an area, and nothing takes one
formula-area-help = multiply a length by a number: height * 2
formula-bad-length = { $what }
formula-bad-number = { $number } is no number
formula-bad-number-help = write it with one point: 0.5
formula-bare-number = { $number } is a number, and a length is wanted here
formula-bare-number-help = write its unit: "{ $number } mm"
formula-calls-help = there are min(a, b), max(a, b) and ruler(a)
formula-empty = this formula is empty
formula-empty-help = write a length or a formula: "height / 2"
formula-ends = the formula ends where a value should follow
formula-ends-help = take the last sign away, or write a value behind it
formula-is-word = { $name } is a word, and a length or number is wanted here
formula-is-word-help = words are compared in conditions: when { $name } is a word of it, write { $name } = …
formula-mixed = a length and a number do not go together
formula-mixed-help = give the number its unit: 5 mm, 1/4 in
formula-names-help = there are { $names }
formula-no-comparison = a condition compares two values, and here is only one
formula-no-comparison-help = write one of < <= > >= = and a second value: flap > 0
formula-odd-sign = { $sign } is no sign of a formula
formula-odd-sign-help = formulas have + - * / ( ) , and conditions < <= > >= = besides
formula-one-value = { $name } wants two values or more
formula-open = this bracket is not closed
formula-open-help = write ) behind what it holds
formula-over-length = a number is divided by a length
formula-over-length-help = divide a length by a number, or a length by a length
formula-ruler-number = ruler rounds lengths, and this is a number
formula-ruler-one = { $name } wants one value
formula-too-deep = brackets lie more than { $most } deep in each other
formula-too-deep-help = make a size of a part of it
formula-too-long = this formula has { $letters } letters; { $most } are the most
formula-too-long-help = make sizes of parts of it
formula-unexpected = { $found } does not belong here
formula-unexpected-help = a sign stands between two values: height - seam
formula-unknown-call = there is no { $name } to call
formula-unknown-call-help = there are min(a, b), max(a, b) and ruler(a)
formula-unknown-name = no size is called { $name } here
formula-unknown-word = { $word } is none of its words
formula-wants-length = this comes to a number, and a length is wanted
formula-wants-length-help = give a number its unit (5 mm), or multiply a length by it
formula-wants-number = this comes to a length, and a number is wanted
formula-wants-number-help = divide it by a length: width / 20 mm
formula-words-help = it may be { $names }

## Pieces
bad-angle = { $found } is no angle of a fold
bad-angle-help = 0 is flat, 90 stands up, 180 lies back on its neighbour; fold says which way
fold-before-first = nothing is before this panel that it could be folded on
fold-before-first-help = leave fold out here: it says how a panel is folded on the one before it
hung-along-row = { $field } is an edge at which a row of panels goes on that runs { $row }
hung-along-row-help = put the panel into the row itself; only at the two ends of a piece's own row, on a panel without times, may a row hang along it
no-fold = this panel does not say how it is folded on the one before it
no-fold-help = write "fold": "mountain" if it falls away from you, "valley" if it rises; with "angle": 0 if it stays flat
no-panels = there is no panel here
no-panels-help = write one at least: {"{"} "name": "page", "width": "width" {"}"}
no-pieces = there is no piece here
no-pieces-help = name one at least, with its panels
no-side = { $field } is missing, and a row that runs { $row } has it here
no-side-help = add { $field }: a length or a formula
not-of-this-role = { $field } is not for { $role ->
        [page] a page
       *[other] an insert
    }
not-of-this-role-help = leave it out
one-of-two = one of { $one } and { $other } is wanted here
rows-too-deep = rows hang on rows more than { $most } deep
rows-too-deep-help = make a second piece, and stick it on
side-help = leave { $field } out here
side-of-panels = the panels of a row that runs { $row } say { $field }; the row itself says { $wanted }
side-of-row = a row that runs { $row } says { $field } for all its panels; each of them says { $wanted }
wants-so-many = { $field } takes { $count } values, and { $found ->
        [0] none is here
        [one] one is here
       *[other] { $found } are here
    }
wants-so-many-help = write { $count } of them between [ and ], with a comma between two

## What holds them together
no-such-panel = there is no panel { $panel }
no-such-panel-help = there are { $names }
no-such-size = there is no size { $name }
no-such-size-help = there are { $names }
pocket-shut = nothing gets into this pocket
pocket-shut-help = name the side at which hands reach in: spine, fore-edge, head or tail

## Kinds that are made
clipped-corners-meet = corners clipped by { $radius } meet: { $most } is the most
kind-corner-help = make it less at { $with }: min(…) keeps a size below another
kind-endless = { $formula } comes to no length at { $with }
kind-fold-off = the fold of panel { $panel } does not lie on an edge of both its panels at { $with }
one-form = a hole has one form
one-form-help = write "round" with "across", or "window", or "slit", or "outline" with "at"
times-and-step = "times" and "step" go together
times-and-step-help = write "times": 5, "step": ["10 mm", "0"] for five of it, each 10 mm to the right of the one before
drawn-island = something in { $file } lies inside its outline: it would fall out of the window
drawn-island-help = take it out of the drawing, or name the "layer" in which the outline alone stands
drawn-panel-place = only the last panel of a row that hangs on another panel may be as a drawing shows it
drawn-panel-place-help = hang it at a free edge of a panel, its head, tail, left or right; with "angle": 0 no score parts the two
drawn-panel-more = { $field } does not go with a panel that a drawing shows
drawn-panel-more-help = leave it out, and draw it
drawn-no-base = { $file } has no straight edge at its { $side }, where panel { $panel } hangs on the one before it
drawn-no-base-help = draw a straight line from corner to corner there, exactly level or upright
kind-paper-drawn = no paper can be cut for { $panel }, whose form is drawn
kind-paper-drawn-help = take it out of the papers
kind-mark-off = a mark on panel { $panel } reaches over its edge or into a hole at { $with }
kind-mark-off-help = move it, make it shorter, or put a limit on the size that it comes from
kind-over-fold-edge = a hole in panel { $panel } reaches over more than a fold with a neighbouring panel at { $with }
kind-over-fold-left = a hole in panel { $panel } leaves too little of the fold that it reaches over at { $with }
kind-over-fold-help = a quarter of the fold must be left, no bit of it shorter than { $tie }; beside it the hole keeps to the two panels that the fold joins
kind-paper-over-cut = paper on { $panel } lies over a cut that reaches over a fold
kind-paper-over-cut-help = let the cut end within the border round the paper, or take the paper out
kind-slit-short = a slit is only { $long } long at { $with }
kind-slit-short-help = let it begin and end in different places
kind-hole-over-edge = a hole in panel { $panel } reaches over an edge or fold of it, into a notch or another hole at { $with }
kind-hole-over-edge-help = move it, make it smaller, or put a limit on the size that it comes from
kind-join-gone = panel { $panel } is not there
kind-join-help = say when the join is there with the same "when" as its panel
kind-join-misses = seam { $seam } comes to lie { $by } beside the place on { $panel } that at says, for another join holds its piece
kind-join-misses-help = it comes to lie { $x } from the spine and { $y } above the tail of the page: change at, or the sizes of its panels
kind-join-misses-help-insert = it comes to lie { $x } from the left and { $y } above the lower edge of the panel that stays put: change at, or the sizes of its panels
kind-join-stands = panel { $panel } stands up between two folds, and nothing is stuck on it
kind-name-taken = there is a kind called { $name } already
kind-name-taken-help = call it otherwise
kind-need = { $because }: { $condition } does not hold at { $with }
kind-need-help = change one of these sizes
kind-need-size-help = change { $field }
kind-no-number = { $name } comes to no number at { $with }
kind-no-panel = piece { $piece } has no panel at { $with }
kind-no-panel-help = one panel at least must be there whatever the sizes are
kind-no-size = { $formula } comes to { $has } at { $with }
kind-no-size-help = put a limit on the sizes that it comes from (least, most), or say "when" it is there
kind-notch = a notch of { $across } does not go into its edge at { $with }
kind-notch-help = make it smaller, or put a limit on the size that it comes from
kind-outline-crosses = the outline of piece { $panel } crosses itself at { $with }
kind-outline-crosses-help = rows that hang on neighbouring edges run into each other: taper them, or make them less deep
kind-panel-crosses = panel { $panel } has no shape at { $with }
kind-panel-crosses-help = what is cut off its edges and corners is more than it has: make that less
kind-piece-loose = piece { $piece } is joined to nothing
kind-piece-loose-help = add a join that sticks one of its panels onto another piece
kind-layers = folded it is { $found } cards thick, and layers says { $said }
kind-layers-help = write "layers": { $found }; what goes into a pocket is judged by it
kind-paper-under-seam = paper on { $panel } lies where something is stuck on that face
kind-paper-under-seam-help = take paper for the other face, or part the panel where the seams end ("angle": 0) and paper what is free
kind-pocket-open = nothing closes this pocket at the { $side } at { $with }
kind-pocket-open-help = stick a seam there, or add { $side } to open
kind-pocket-shut = this pocket is to be open at the { $side }, and a seam closes it there at { $with }
kind-pocket-shut-help = leave that seam out, or take { $side } out of open
kind-seam-beside = seam { $seam } lies { $by } beside panel { $panel }, where there is nothing to stick on, at { $with }
kind-seam-beside-help = change at, or the sizes of the two
kind-size-above = { $name } is { $has }, and { $limit } is the most here
kind-size-below = { $name } is { $has }, and { $limit } is the least here
kind-size-formula-help = { $field } follows from other sizes: its limit is { $formula }
kind-size-help = change { $field }
kind-size-is = { $name } { $value }
kind-times = a panel stands here { $times } times at { $with }; 0 to { $most } are allowed
kind-hole-times = a hole stands here { $times } times at { $with }; 0 to { $most } are allowed
kind-times-help = put a limit on the size that times comes from
kind-page-is = page { $width } by { $height }
kind-tried = { $what }, tried at { $with }
kind-no-picture = { $file } can't be drawn: its example makes no album
kind-no-picture-help = give it an example: an entry with every size that must be given
kind-usual = where an album leaves { $name } out, it does not go on a page { $width } by { $height }
kind-usual-help = keep usual within least and most: max(…) and min(…) do that
kind-unread = the kind file { $file } has not been read
    .page = the kind file { $file } lies in a folder, and the page sees no folder
kind-unread-help = check and kit read it
    .page = put the kind itself into the list of kinds
kind-no-version = none
kind-version = the album was made with version { $said } of kind { $kind }, and its file says { $now }
kind-version-help = check that all still fits, then write the new version here
too-many-kinds = too many kinds were tried since the program was started
too-many-kinds-help = start it again
