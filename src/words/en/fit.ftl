# SPDX-License-Identifier: MIT
# Whether an album goes together.

## Clearances
tight-by-hand = { $spare } to spare { $way }, and { $sizes } sizes that may each be off by { $off }: it may not fit{ $more ->
        [0] { "" }
        [one] ; one other place is as tight
       *[other] ; { $more } other places are as tight
    }
tight-by-hand-help = cut it with care, or by machine; or give it more room

## Inserts
no-pocket = there is no pocket for it on the pages named
no-pocket-help = name pages that have a pocket, or leave { $pages } out
insert-too-wide = it is { $size } wide, and the pocket of page { $page } has room for { $room } beside the hinge's tab
insert-too-wide-flap = it is { $size } wide, and page { $page } has room for { $room } between the hinge's tab and the fold of its flap
insert-too-wide-sealed = it is { $size } wide, and the pocket of page { $page } takes at most { $room } with { $stack } of thickness in it
insert-too-tall = it is { $size } tall, and the pocket of page { $page } takes at most { $room } with { $stack } of thickness in it
insert-size-help = make its { $field } at most { $most }
insert-size-or-pages-help = make its { $field } at most { $most }, or leave page { $page } out of its { $pages }
insert-too-thick = { $stack } of thickness is too much for the pocket of page { $page }: nothing goes in
insert-too-thick-help = put fewer of them into one pocket, or thinner ones
insert-snug = it is { $size } tall and binds in the pocket of page { $page }, which is { $inside } tall inside where its folds are round
insert-snug-across = it is { $size } wide and binds in the pocket of page { $page }, which is { $inside } wide inside where its folds are round
mouth-cut-too-deep = its mouth is cut so deep that only { $held } of { $what } stay behind its front: { $half } are half of it
mouth-cut-too-deep-help = make the { $depth } of its mouth smaller, or the pocket larger
its-pocket = its pocket
leaf-bulges = { $stack } of thickness between its seams makes the leaf bulge, which gives way to { $quiet } at most
leaf-bulges-help = put less into it, or take a page whose two sheets both give: "pocket" or "sleeve"
no-grip = { $more ->
        [0] its edge lies { $deep } inside the pocket of page { $page }, with nothing to take hold of
       *[other] it and { $more } more lie up to { $deep } inside their pockets, with nothing to take hold of
    }
no-grip-sunk = its head lies { $deep } below the mouth of the pocket of page { $page }, with nothing to take hold of
no-grip-help = make it wider, or stick a ribbon on it
no-grip-help-hole = give it a hole for a ribbon, or make it wider
no-grip-sunk-help = make it taller, or stick a ribbon on it
no-grip-sunk-help-hole = give it a hole for a ribbon, or make it taller
catches-on-corners = the corners of the print are tucked into the pocket of page { $page }, and it catches on them
catches-on-corners-help = put it into the pocket of another page, or mount that print under triangles

## Flaps
pocket-too-wide-wallet = the pocket is { $pocket } wide, and its page only { $page }
pocket-too-wide-wallet-help = make { $field } at most { $most }, or the page wider
flap-too-wide-wallet = the flap is { $flap } wide, and its page only { $page }: it would stick out at the spine
flap-too-wide-wallet-help = make { $field } at most { $most }
flap-too-short = the flap ends { $short } short of the pocket that it should close
flap-too-short-help-pocket = make { $pocket } wider: no flap that fits its page reaches over it
flap-too-short-help = make { $flap } at least { $least }, or { $pocket } wider
flap-open = over { $thick } of thickness its flap ends { $short } short of what it should close
flap-open-help = make its { $field } at least { $least }, or put less inside
flap-open-help-two = make its { $field } at least { $least }, or put less inside; or let it fold on two scores: { $depth } of { $apart }
flap-barely = closed, its flap reaches { $left } over what it should close: under { $holds } it slips off
flap-barely-help = make its { $field } at least { $least }
one-score = its doors fold on one score over up to { $thick } of thickness: each ends up to { $lost } short, and they stand up
one-score-leaf = its leaf folds on one score over up to { $thick } of thickness: it ends up to { $lost } short, and stands up
one-score-help = let it fold on two scores: { $field } of { $depth }

cover-depth-help = make { $field } at least { $depth }, or put less into the pages
flap-slack = closed, the pages are { $thick } thick at the fore-edge, and the flap goes round { $room }: it stands { $gap } off the front
band-slack = closed, the pages are { $thick } thick at the fore-edge, and the belly band goes round { $room }: it hangs loose by { $gap }
flap-slack-help = as long as no more goes in, a { $field } of { $depth } is enough; or say with { $content } how thick the pages will be
band-slack-help = say with { $content } how thick the pages will be, or make their share of the spine smaller

## Tabs
tab-too-wide = a tab of { $tab } does not go into the sleeve of page { $page }, which is { $width } wide
tab-too-wide-help = make { $field } smaller; 12 mm or 1/2 in is usual
no-lead-in = tabs without a lead-in are as tall as their page, whose sleeve is up to { $lower } lower inside: there is no way in
lead-in-too-small = a lead-in of { $lead } lets the tabs in only up to { $in } of their { $tab }
lead-in-help = make { $lead } half the tab, or give the strips a { $ease } of a millimetre
tab-over-seam = the hinge's tab is to be stuck where { $piece } is stuck, too
tab-over-seam-wide = the hinge's tab of { $tab } is to be stuck where { $piece } is stuck, too
tab-over-seam-help = make the page wider, or what is stuck on it narrower, or turn the page with { $faces }
corner-blocked = { $count ->
        [one] one corner of its print goes
       *[other] { $count } corners of its print go
    } up to { $over } over the hinge's tab, which is stuck inside: there is no way in
corner-blocked-help = hold the print under triangles, { $mount }; or turn it with { $lies }, or take a smaller one

## What it is about
about-pages = pages
about-the-page = page
about-stock = stock { $stock }
about-page-numbers = { $count ->
        [one] page
       *[other] pages
    } { $pages }

## The album closed
gapes = closed, its pages are { $thick } thick and the spine has { $spine }: it gapes by { $degrees } degrees
gapes-help = make { $field } at least { $pitch }, or put less into the pages
gapes-run = closed, pages { $from } to { $to } take { $wants } from the middle of the first to the middle of the last, and their roots with a gusset on either side give { $has }: they gape
gapes-run-help = put thick and thin pages in turn, put less into these, or make { $field } at least { $pitch }
gusset-spent = closed, its pages are { $thick } thick and the spine has { $spine }: each outer gusset of { $gusset } has to give { $spent } of itself, and turns with what is left
page-thick = it is { $thick } thick, and its share of the spine is { $pitch }: its neighbours have to stand aside
page-thick-help = put a thin page on either side of it, or less into it
film-uncounted = films of tape and glue are not counted: at { $film } a film they add up to { $more }, and closed the pages are { $thick } thick where the spine has { $spine }
film-uncounted-help = say with { $content } what comes on each page, or make { $pitch } larger
springs-open = closed, its pages are { $thick } thick and the spine has { $spine }: with nothing to hold it shut it springs open by { $degrees } degrees
springs-open-help = give it { $ways }, or make { $pitch } larger

## The album open
opens-high = opened between pages { $page } and { $next }, a page rises by { $lift } over its width, { $degrees } degrees
opens-high-help = make { $field } at least { $gusset }, or the pages thinner
opens-high-help-pages = make the pages thinner, or fewer

## Card too thick to fold, too thin to carry
folded-part = { $part }{ $more ->
        [0] { "" }
       *[other] {" "}and { $more } more
    }
fold-thick = { $stock } is { $caliper } thick, and a score by hand takes no more than 0.5 mm: it cracks or springs open
fold-thick-help = cut half through on the outer face of each fold, or press a groove there, and fold it that way only; or take thinner card
fold-thick-help-hinge = cut what bends both ways from another, thinner stock: "stock" of the spine; other folds want a half cut or a groove on the outer face
fold-too-thick = { $stock } is { $caliper } thick: board over 1.5 mm does not fold
fold-too-thick-help = take thinner card, or cut it apart at its folds and hinge it with strips of another sheet
fold-too-thick-help-hinge = cut the hinges from another sheet, 0.2 to 0.5 mm thick: "stock" of the spine
card-thin = { $stock } is { $caliper } thick, and under 0.2 mm pages and strips are limp
card-thin-help = take thicker card, or line it with a second sheet

## Folds
scores-too-close = two of its scores are { $apart } apart; in card { $caliper } thick a crease alone is { $crease } wide
scores-too-close-help = make that panel wider, or take thinner card
across-the-grain = its strips may be cut across the grain, where folds crack sooner
across-the-grain-help = leave { $field } out for the spine; sheets permitting, its strips then keep to the grain
cover-across-the-grain = its boards and what is glued on them may be cut with their grain crossed: in damp air paper grows by 0.2 to 0.4 % across its grain and by half of that along it, and they pull each other crooked
cover-across-the-grain-help = leave { $field } out; sheets permitting, the grain of every layer then runs along the spine
score-behind = the valley folds of { $who } are scored on the front; card as thick as this folds cleaner with the groove outside
score-behind-help = score valley lines again from the back, or try one part before the run

## Seams and bases
seam-too-large = seams of { $seam } stick out of a page { $tall } tall
seam-too-large-help = make { $field } smaller; 12 mm or 1/2 in is usual
tape-too-wide = a tape of { $tape } is wider than its seam of { $seam }
tape-too-wide-help = take a narrower tape, or make { $field } at least { $tape }
seam-narrow = seams of { $seam } hold badly: { $usual } or more is usual
seam-narrow-help = make { $field } wider; 12 mm or 1/2 in is usual; or name the tape: { $tape }
wing-over-strip = wings of { $wing } stand over the strip below, which has room for { $room } on each side
wing-over-strip-help = leave { $wing } out, or make it a little smaller than { $pitch }
base-narrow = the narrowest base is { $wide }, and the narrowest common tape { $tape }
base-narrow-roots = the roots are { $wide }, and the narrowest common tape { $tape }
base-narrow-wings = the wings are { $wide }, and the narrowest common tape { $tape }
base-narrow-wings-of-the-t = wings of the T are { $wide }, and the narrowest common tape { $tape }
base-narrow-help = make { $field } larger, or be ready to use wet glue with care

## Stocks
beyond-notches = a notch
beyond-openings = { $count ->
        [one] an opening
       *[other] { $count } openings
    }
beyond-round = round edges
shaped-on-trimmer = a trimmer cuts it as a rectangle, { $width } x { $height }: { $what } are left to be cut by hand
shaped-on-trimmer-help = say "by": "machine" for it, and it lies on sheets of its own for the machine; or cut that by hand, as the guide shows
    .page = let a machine cut it, and it lies on sheets of its own; or cut that by hand, as the guide shows
shaped-on-trimmer-more = { $parts ->
        [one] 1 more part of it is
       *[other] { $parts } more parts of it are
    } more than a trimmer cuts
cutter-unread = its cutter file { $file } is not read here, so it is laid for the machine that all is cut with
cutter-unread-help = put the file's settings in its place, between {"{"} and {"}"}
    .page = put the file's settings in its place in the album's text
kerf-large = a kerf of { $kerf } is far more than a laser or a blade takes out of card
kerf-large-help = a bare number is in mm; a laser's kerf is about 0.13 mm
caliper-in-points = { $points } pt ({ $inches } in)
caliper-from-weight = its caliper is worked out from its weight: { $caliper }, give or take 15 %
caliper-taken = its caliper is not given: { $caliper } is taken
caliper-unknown-help = measure a stack of ten sheets and give a tenth of it as { $field }
bed-too-small = a sheet of { $sheet } does not go into the machine, whose bed is { $width } x { $height }
sheet-left-out = a sheet of { $sheet } does not go into the machine, whose bed is { $width } x { $height }: it is left out
bed-too-small-help = take a smaller sheet, or cut the sheets down and give the size they have then
bed-holds-fewer = { $count ->
        [0] no sheet of { $sheet } lies on a bed of { $width } x { $height } as the layout has it
        [one] one sheet of { $sheet } lies on a bed of { $width } x { $height }, and no more
       *[other] { $count } sheets of { $sheet } lie on a bed of { $width } x { $height }, and no more
    }
bed-place-outside = at place { $place } a sheet of { $sheet } sticks out of the bed of { $width } x { $height }
bed-places-overlap = at places { $one } and { $other } sheets of { $sheet } lie on each other on the bed of { $width } x { $height }
bed-alone = a sheet of { $sheet } from the drawer can't lie on the bed as { $field } asks: it is cut by itself, from a file of its own
bed-places-help = set { $field } to fewer or to "fill", or state other places
marks-left-out = a sheet of { $sheet } is too small for { $number } register marks of { $size }, { $inset } from its edges: it is laid and cut without them
marks-left-out-help = make marks smaller or fewer, or leave them out; what goes on this sheet can't be printed first
picture-coarse = { $file } has { $points } points to an inch where it is { $width } wide: printed before the sheets are cut, it looks coarse
picture-coarse-help = take a scan or a photograph of { $least } points across or more, { $good } for fine print
sheet-tolerance = { $part } uses a sheet of { $sheet } to its edge, and sheets may be cut up to { $off } small
sheet-tolerance-help = measure a sheet of your pack before you cut

## Patterns that stand on their heads, albums bound at the top
its-panel = its { $panel }
pattern-upside-down = folded, the pattern of { $stock } is upside down on { $panels }
pattern-upside-down-help = cut it from paper without an up and a down, or take a kind that is made of two pieces
read-from-the-top = bound at the top, its pages are read { $wide } wide and { $tall } tall
read-from-the-top-help = { $width } runs from the spine down, { $height } from side to side
mouth-down = held upright, what is in the pocket can slide out at the foot, where its mouth is
mouth-down-help = take a wallet, whose flap closes it, or a kind with its mouth at the side: waterfall, library-card

## Many pages
not-laid-open = how it lies open is not worked out: it has { $pages } pages, and { $most } are the most
not-laid-open-help = check an album of fewer pages like these: how they lie shows on it too

## Pieces that do not meet
a-piece = a piece
front-hidden = the face that should show is stuck on { $piece }
front-hidden-help = turn it over
flap-turned-over = it folds away from the pocket that it should close
flap-turned-over-help = fold it the other way
it = it
joined-to-nothing = nothing joins it to the rest of the album
leave-the-fore-edge-open = leave the fore-edge open
misses = { $it } misses its place on the { $panel } of { $piece } by { $by }
misses-help = check its size
mouth-at-the-spine = its pocket is open only at the spine, where nobody can reach in
no-way-for-the-tab = its pocket is stuck shut at the spine, where the hinge's tab goes in
no-way-for-the-tab-help = leave the spine edge open
out-of-order-help = check which tab carries which page
out-of-order-left = it stands to the left of page { $page }, or in its place
out-of-order-right = it stands to the right of page { $page }, or in its place
of-kind-help = look at the folds and joins of its kind; it is made at { $sizes }
outside-its-pocket = more than half of it lies outside the pocket on { $piece }
outside-its-pocket-help = check which way it goes in
passes-through = it would have to pass through { $piece }
passes-through-help = check which way its folds go
passes-through-itself = it would have to pass through itself
seam-loose = its { $panel } is stuck to nothing
seam-loose-help = join it, or leave the seam out
sticks-out = { $it } sticks out beyond the { $panel } of { $piece } by { $by }
sticks-out-help = make it smaller, or move it
strip-short = { $it } is { $long } long, and the page that it carries { $tall }
strip-short-help = make the strip about as tall as the page
stuck-shut = its pocket is stuck shut on every side
turned-over = { $it } does not lie on the { $panel } of { $piece }: they are turned against each other
turned-over-help = turn it over, or fold it the other way
upside-down = its tabs point away from the pages
upside-down-help = turn the strip over
wrong-way-round = its head is at the spine's tail, or its fore-edge at the spine
wrong-way-round-help = turn the page round

## The order of joining
bond-without-step = no step says when it is joined (bond { $bond })
bond-without-step-help = add the step
cover-before-itself = it meets { $piece } before the cover is made
cover-before-itself-help = make the cover first
cover-before-strips = it meets { $piece } before its strips are together
into-closed-seams = it goes inside { $piece }, which is closed by then
into-closed-seams-help = stick it in before the seams
into-open-seams = it goes into { $piece }, whose seams are not stuck yet
into-open-seams-help = make the page first
page-behind-pages = it carries page { $page }, and a page before that is already in the way
page-behind-pages-help = hang the last page first
stack-all-strips-first = stack all strips first
strip-behind-pages = it is stuck on { $piece } with pages already in the way

## Room on the sheets
grain-against-pattern = the pattern of { $stock } has to stand upright, and then its grain lies across the parts that keep to it
grain-against-pattern-help = take a stock whose grain runs the way its pattern stands, or say "grain": "free" for those parts
    .page = take a stock whose grain runs the way its pattern stands, or let the grain of those parts run any way
or-else = { $one }; or { $other }
too-big = { $width } x { $height } is { $over } for a sheet of { $sheet }{ $reasons ->
        [0] { "" }
       *[other] {" "}with { $why }
    }
too-big-help = make this part smaller, or take a larger sheet
too-big-help-drawn = make its { $field } at most { $most }
too-big-help-height = make the page at most { $height } tall at this width
too-big-help-sheet = take a larger sheet: all parts of this stock fit on { $sheet }
too-big-help-size = make the page at most { $width } x { $height }
too-big-help-width = make the page at most { $width } wide at this height
too-big-more = { $parts } more parts are too big for their sheet
too-tall = { $up } too tall
too-wide = { $across } too wide
too-wide-and-tall = { $across } too wide and { $up } too tall
with-its-way = its grain or pattern upright
with-kerf = a kerf of { $kerf }
with-margin = a margin of { $margin } on every side
with-marks = its register marks, which take { $band } of two sides

## What there is to spare
in-the-pocket-of = { $insert } in the pocket of page { $page }

## In a few sentences
closed-too-thick = Closed, the pages are { $thickest } thick, { $at-spine } at the spine and { $at-fore-edge } at the fore-edge; the spine gives them { $spine }; page { $page } is { $room } thicker than its pitch.
closed-with-room = Closed, the pages are { $thickest } thick, { $at-spine } at the spine and { $at-fore-edge } at the fore-edge; the spine gives them { $spine }; every page has room for { $room } more.
nothing = nothing
open-flat = Open, it lies flat everywhere.{ $gains ->
        [0] { "" }
       *[other] {" "}Hinged on a single score, a page would rise by { $one-score }.
    }
open-least-flat = Open, it is least flat between pages { $page } and { $next }: a page rises by { $lift } over its width.{ $gains ->
        [0] { "" }
       *[other] {" "}Hinged on a single score, a page would rise by { $one-score }.
    }
tightest = Tightest is { $about }: { $spare } to spare { $way }, { $left } when all its sizes are off by { $off } the wrong way.
