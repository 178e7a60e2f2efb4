# SPDX-License-Identifier: MIT
# What parts can not be made as the album says.

## What a finding is about
about-cover = cover
about-insert = { $kind } { $number }
about-more = { $first }{ $more ->
        [0] { "" }
       *[other] {" "}and { $more } more
    }
about-panels = panels
about-part = { $part }

## Pages
corners-meet-on-print = corners of { $measured } meet on its print: { $allowed } is the most
make-smaller = make { $field } smaller
corners-meet-on-print-help = make { $field } smaller; 15 mm or 5/8 in is usual
flap-lead-in-too-large = a lead-in of { $measured } clips away too much of its flap: { $allowed } is the most
flap-lead-in-too-large-help = make { $field } smaller
fold-out-tight = its leaves are { $has } narrower each, and folds in this card take up to { $wants }: they may jut out
fold-out-tight-help = make { $field } larger, or take thinner card
front-too-tall = its front is { $measured } tall, and its page only { $allowed }
front-too-tall-help = make { $field } smaller
gap-too-large = a gap of { $measured } leaves next to nothing of its doors: on this page it may be { $allowed }
gap-too-large-help = make { $field } smaller; 2 mm or 1/16 in is usual
no-such-place = its tab is in place { $position }, and there are only { $places }
no-such-place-help = make { $field } at most { $places }, or { $tab_of } larger
notch-between-seams = a notch of { $measured } does not go between its seams, { $allowed } apart
notch-too-large = a notch of { $measured } does not go into its front: there is room for { $allowed } between the seams and beside the tab
notch-too-large-help = make { $field } smaller; 20 mm or 3/4 in is usual
overlap-too-large = its window overlaps the print by { $measured }, which leaves no window: { $allowed } is the most
overlap-too-large-help = make { $field } smaller; 3 mm or 1/8 in is usual
overlap-too-small = its window overlaps the print by { $measured }, and the print can lie { $allowed } aside: its edge would show
overlap-too-small-help = make { $field } larger, or { $play } smaller
pocket-too-low = the pocket is { $measured } tall, and two seams alone take { $allowed }
pocket-too-low-help = make the pocket taller, or { $seam } smaller
pocket-too-narrow = the pocket is { $measured } wide, and two seams alone take { $allowed }
pocket-too-narrow-help = make { $field } wider, or { $seam } smaller
pocket-too-tall = its pocket ends { $measured } above the tail, and its page is { $allowed } tall
pocket-too-tall-help = make { $field } or { $raise } smaller
pocket-too-wide = the pocket is { $measured } wide, and its page only { $allowed }
pocket-too-wide-help = make { $field } smaller, or the page wider
print-too-large-help = take a smaller { $field }, turn it with { $lies }, or make the page larger
print-too-tall = its print wants a page { $measured } tall, and it is { $allowed }
print-too-wide = its print wants a page { $measured } wide, and it is { $allowed }
step-too-large = steps of { $measured } in all leave next to nothing of its last leaf: on this page they may be { $allowed }
step-too-large-help = make { $field } smaller; 2 mm or 1/8 in is usual
steps-too-tall = its steps are { $measured } tall together, and two seams leave { $allowed } of the page for them
steps-too-tall-help = make { $field } smaller, or have fewer { $steps }
tab-too-low = its tab is { $measured } tall, and below { $allowed } it carries no word
tab-too-low-help = make { $field } smaller, or the page taller
tuck-too-deep = its flap goes in { $measured }, more than half of its front, { $allowed }: nothing else would go in
tuck-too-deep-help = make { $field } smaller, or { $front } taller

## Edges
unknown-edge = there is no edge { $on }
edge-no-side = { $on } says no side
edge-names = it has: { $names }
edge-choose = choose one that is free: { $names }
edge-none-free = none of its edges is free: leave it out
edge-is-fold = { $on } is a fold: it can not be cut
edge-is-stuck = { $on } is stuck: cut, it would not hold
edge-at-spine = { $on } is at the spine, which holds it: it can not be cut
no-free-corner = { $on } has no corner whose two edges are free
edge-twice = { $on } is cut once already
edge-twice-help = leave one of the two out
edge-crosses = what { $on } is cut to meets another cut
edge-crosses-help = make it smaller, or leave one of the two out
edge-too-short = a repeat of { $measured } does not go onto { $on }, of which { $allowed } are free
edge-too-short-notch = a notch of { $measured } does not go onto { $on }, of which { $allowed } are free
edge-too-steep = { $on } is { $measured } deep: with repeats of { $repeat } it may be { $allowed }
notch-too-deep = { $on } is { $measured } deep: a notch of { $repeat } may be { $allowed }
edge-reaches = { $on } is { $measured } deep, and at { $allowed } it comes to { $what ->
        [seam] a seam
        [hinge] the hinge
        [score] a score
        [hole] a hole
       *[other] another edge
    }
row-at-edge = the cuts along { $on } are { $measured } from it: card torn off so easily needs { $allowed }
free-corner-too-large = corners of { $measured } do not go onto { $on }: { $allowed } is the most
corner-reaches = the corners of { $on } would reach { $what ->
        [seam] a seam
        [hinge] the hinge
       *[other] a hole
    }
corner-reaches-help = make { $field } smaller
make-edge-at-most = make { $field } at most { $best }
make-edge-at-least = make { $field } at least { $best }
edge-leave-it = leave it out: there is no room for it

## Spines
ease-too-large = an ease of { $ease } leaves nothing of strips for a page { $page } tall
ease-too-large-help = make { $field } smaller; 0 is usual
hinge-wing-too-wide = wings of { $wing } reach under the next page, which stands { $pitch } further on
hinge-wing-too-wide-help = leave { $wing } out, or make it a little smaller than { $pitch }
lead-in-too-large = a lead-in of { $lead_in } clips the whole tab away: it must be under half the strip's height, { $half }
lead-in-too-large-help = make { $field } smaller; half the tab is usual
piece-too-long = a piece with a single pleat is { $least } long, and { $longest } is to be the longest
piece-too-long-help = leave { $field } out, or make it larger
tab-too-large = a tab of { $tab } is too large for strips whose half height is { $half }
tab-too-large-help = make { $field } smaller; 12 mm or 1/2 in is usual
too-many-stubs = page { $page } is { $thick } thick: in card of { $caliper } that takes { $stubs } stubs, and { $most } is the most
too-many-stubs-help = put less into it, make { $pitch } smaller, or take thicker card for the spine: { $stock }

## Covers
a-spine = a spine
a-spine-board = a spine board
band-too-tall = a band { $band } tall is taller than its cover, which is { $cover }
band-too-tall-help = make { $field } smaller: { $third } is a third of the cover
board-thin = boards of { $board } are thin for a case: { $least } or more is usual
board-thin-help = give the case a stock of board: { $field }
cover-lap-narrow-help = make { $field } wider; 13 mm or 1/2 in is usual
cover-spine-jams = { $what } of { $spine } has no room for what stands on it, which is { $foot } wide: with the cover round that, { $needed } is needed
cover-spine-narrow = { $what } of { $spine } is too narrow: { $why }; with the cover round that, { $needed } is needed
cover-spine-narrow-help = leave { $field } out, or make it at least { $least }
cover-spine-wide = its spine of { $spine } is far wider than the { $needed } that the pages and the cover round them need: they wander in it
cover-spine-wide-help = leave { $spine } out; { $enough } is enough
ready-spine-jams = the cover's spine has { $spine } inside, and what stands on it is { $foot } wide
ready-spine-jams-help = take a cover with a wider spine, or fewer pages; a narrower pitch lets pages stand closer
ready-spine-narrow = the cover's spine has { $spine } inside and needs { $needed }: { $why }
ready-spine-less-help = take a cover with { $least } inside its spine, or fewer pages
ready-spine-narrow-help = take a cover with { $least } inside its spine, fewer pages, or put less into the pockets; closed, it gapes
ready-spine-wide = the cover's spine has { $spine } inside, far more than the { $needed } that the pages need: they wander in it
ready-spine-wide-help = wider pitches fill it; so does a strip of board, glued into the spine before the pages
ready-pages-stand-out = the pages stand { $square } out of its boards, whose { $field } is { $board }
ready-pages-stand-out-help = take a larger cover, or make the pages smaller
ready-square-small = its boards, whose { $field } is { $board }, stand { $square } out beyond the pages: less than shields them
ready-square-small-help = 3 to 5 mm or 1/8 to 3/16 in is usual: take a larger cover, or make the pages smaller
ready-square-large = its boards, whose { $field } is { $board }, stand { $square } out beyond the pages: it looks made for a larger album
ready-square-large-help = 3 to 5 mm or 1/8 to 3/16 in is usual: make the pages larger, or take a smaller cover
spine-takes-foot = what stands on it is { $foot } wide
spine-takes-lined-pages = closed, the pages are { $pages } thick with all that is in them, and the panels inside the cover { $lining }
spine-takes-mix = another mix of pages needs more
spine-takes-pages = closed, the pages are { $pages } thick with all that is in them
spine-takes-pitches = the pages stand on { $pitches } of spine
flap-too-wide = a flap of { $flap } is wider than the front of { $front }
joint-jams = a joint of { $joint } jams on boards { $board } thick
joint-stiff = a joint of { $joint } is stiff: one and a half boards or more is usual
joint-wide = a joint of { $joint } lets the boards flap about: up to { $most } is usual
joint-wide-help = leave { $joint } out, or make it at most { $most }
make-cover-at-least = make { $field } at least { $least }
make-cover-at-most = make { $field } at most { $most }
mitre-large = a mitre of { $mitre } makes thick corners: up to { $most } is usual
mitre-large-help = make { $field } at most { $most }, or leave it out
mitre-small = a mitre of { $mitre } leaves the corners of boards { $board } thick bare
square-too-large = a square of { $square } leaves nothing of the end papers
square-too-large-help = make { $field } smaller; 3 mm is usual
ties-too-wide = ribbons of { $ties } need slots for which the cover has no room
turn-in-too-wide = turn-ins of { $turn_in } or laps of { $lap } have no room on boards { $width } x { $height }
turn-in-too-wide-help = make { $turn_in } and { $lap } smaller, or { $joint }
turn-ins-hold-badly = turn-ins of { $turn_in } hold badly: { $usual } or more is usual
turn-ins-in-mitres = turn-ins of { $turn_in } end in the mitres
window-covered = the flap of { $flap } closes over part of the window
window-covered-help = make { $field } at most { $most }, or the window narrower
window-half-said = a window needs a width and a height; one of them is 0
window-half-said-help = give { $field } too, or neither of them
window-too-large = a window of { $window } leaves too little card round it in a front of { $front }

## Inserts
band-lap-too-wide = a lap of { $lap } is wider than its back, which is { $back }
band-lap-too-wide-help = make its { $field } smaller; 12 mm or 1/2 in is usual
booklet-too-narrow = at { $width } wide its innermost leaf is trimmed to { $trimmed }, and needs { $least }
booklet-too-narrow-help = make it wider, or give it fewer leaves
corners-off-fold = its corners take { $clipped } off its fold, and it is { $width } wide
corners-off-fold-help = make its { $field } smaller; 4 mm or 1/8 in is usual
envelope-too-small = { $width } x { $height } is too small for an envelope: { $least_width } x { $least_height } is the least
envelope-too-small-help = make its { $field } and { $height } larger
flap-too-deep = a flap { $flap } deep is too deep for an envelope of { $width } x { $height }: its ends come in at 45 degrees
holes-too-close = its sewing holes of { $hole } stand { $apart } apart: the card between them tears
holes-too-close-help = make it taller, or its holes smaller
lap-narrow = a lap of { $lap } holds badly: { $usual } or more is usual
lap-narrow-help = make its { $field } wider; 12 mm or 1/2 in is usual
laps-meet = laps of { $lap } meet in the middle of it: there is room for { $most }
make-at-most = make its { $field } at most { $most }
mat-too-low = its height is { $size }, and that of its print { $print }
mat-too-narrow = its width is { $size }, and that of its print { $print }
mat-too-small-help = take a smaller print, turn it with { $across }, or name pages with a larger pocket
no-height-in-pocket = the pocket of page { $page } leaves no height for it, with { $stack } of thickness in it
no-room-help = put fewer or thinner things into that pocket, or make the page larger
no-size = its { $size } is left out, and there is no pocket to take it from
no-size-help = give its { $size }, or name pages that have a pocket
no-width-in-pocket = the pocket of page { $page } leaves no width for it, with { $stack } of thickness in it
overlap-too-wide = an overlap of { $overlap } leaves no window for a print { $print } wide
overlap-too-wide-help = make its { $field } smaller; 3 mm or 1/8 in is usual
round-corners-meet = corners of radius { $radius } meet in the middle of it: there is room for { $most }

## Panels
block-too-large = its pattern does not run on: a block of { $width } x { $height } goes onto no sheet of its design
block-too-large-help = take larger sheets for the panels; until then each is cut by itself
no-cover = panels are for the cover alone, and the album has none: there are no panels
no-cover-help = say what the cover is: { $line }; or leave { $on } out
    .page = say what the cover is; or leave { $on } out
panel-too-small = a border of { $border } all round leaves next to nothing of a panel: it is left out
panel-too-small-help = make { $reveal } smaller

## Any part
fold-off-edge = one of its folds does not lie on the edge of both its panels
fold-off-edge-help = make its clipped corners smaller
hole-over-edge = a hole reaches over its edge or into another hole
hole-over-edge-help = make the hole smaller, or move it further in
outline-crosses = its outline crosses itself
outline-crosses-help = make its flaps or clipped corners smaller
panel-without-shape = its { $panel } has no sound shape: what is clipped off its corners meets in the middle, or it has no width
panel-without-shape-help = make the clipped corners smaller, or the part larger

## Prints
bad-print = there is no print of the name { $name }
bad-print-help = names are { $names }; or write width x height and a unit, for example "4x6in"

## What there is to spare
the-case = the case
the-cover = the cover
the-flap-of = the flap of { $page }
the-frame-of = the frame of { $page }
the-gate-of = the gate of { $page }
the-belly-band = the belly band
the-print-of = the print of { $page }
the-window-of = the window of { $page }

## Designs that take turns
design-short = its sheets reach for { $had ->
        [one] 1 of its turns
       *[other] { $had } of its turns
    }; { $passed ->
        [one] 1 more is taken
       *[other] { $passed } more are taken
    } by the design that comes next
design-short-help = raise its { $count }; or let it be: what faces each other is of one design all the same
