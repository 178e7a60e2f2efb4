# SPDX-License-Identifier: MIT
# How the parts lie on their sheets, and how they are cut.

## Sheets
out-of-sheets = there are not enough sheets: { $more ->
        [0] { "" }
       *[other] { $needed } are needed, { $more } more than there are;{" "}
    }{ $pieces ->
        [one] 1 piece is
       *[other] { $pieces } pieces are
    } left without one ({ $parts })
out-of-sheets-help = raise { $field } of the stock, add another sheet size to it, or make fewer kits
out-of-sheets-part = { $count } x { $part }
pattern-jumps = its pattern jumps by { $jump } from piece to piece: kerf and gap part what lies side by side
pattern-jumps-help = make { $field } larger, or kerf and gap smaller
offcut-size = { $width } x { $height } comes free on the sheets of { $stock }
offcut-none = no size of it comes free on the sheets of { $stock }: even { $width } x { $height } takes a sheet more, or does not go in; none is made
offcut-no-room = there is no room for one that is of use; none is made
offcut-none-help = write its { $width } and { $height } if you want it all the same; that may take another sheet
why-apart = { $groups }, and none of these go together on one sheet
why-apart-group = { $parts } take { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    }
why-area = the parts, with what must stay free between them, take more card than { $sheets ->
        [one] 1 sheet has
       *[other] { $sheets } sheets have
    }
why-at-most = { $most ->
        [one] no two of these { $count } pieces go onto one sheet
       *[other] no sheet holds more than { $most } of these { $count } pieces
    }: { $parts }
why-each-kit = of each kit, { $why }
why-more-parts = { $more ->
        [one] pieces of another part
       *[other] pieces of { $more } other parts
    }
why-part = { $count } x { $part }
    .page = { $count } × { $part }
why-points = counted in points ({ $points }), no sheet has room for more than { $most }, and these pieces come to { $all }
why-points-more = { $these }; { $this }
why-points-of = { $points } each: { $parts }
why-weighed = every way to fill a sheet was weighed up, and { $sheets ->
        [one] 1 sheet never holds
       *[other] { $sheets } sheets never hold
    } it all
spares-cost = { $then ->
        [0] what is spare takes { $now ->
            [one] a sheet
           *[other] { $now } sheets
        } of its own
       *[other] what is spare takes { $more ->
            [one] a sheet
           *[other] { $more } sheets
        } more: { $now } instead of { $then }
    }
spares-cost-help = ask for less in { $field } if that is too much; what still finds room on the other sheets costs none
spare = { $count ->
        [0] none comes free: the sheets of { $stock } leave no room for one in each kit
        [one] 1 a kit comes free on the sheets of { $stock }
       *[other] { $count } a kit come free on the sheets of { $stock }
    }
spare-help = give it a { $field } if you want it all the same; that may take another sheet
too-big-for-all = it goes onto no sheet of { $stock }
too-big-for-all-help = take a larger sheet, or make it smaller
too-many-pieces = { $pieces } pieces are more than can be laid at once ({ $most })
too-many-pieces-help = make fewer kits at a time

## What it costs
narrower = { $by } narrower
one-above-the-other = one above the other
page-size = { $ways } ({ $width } x { $height }) it takes { $sheets }
page-size-help = hingeleaf sizes lists what other sizes of page take
    .page = { "" }
page-size-sheets = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } of { $stock } instead of { $before }
price-of-cutting = { $count } sheets with { $lost }, and { $fewer } without
price-of-cutting-help = make { $lost } smaller if your machine can, or look at other sizes of page
price-of-cutting-mend = make each { $less } smaller that way and { $sheets ->
        [one] 1 will
       *[other] { $sheets } sheets will
    } do; or bring { $lost } down so that they take no more than { $spare } of the sheet there
price-of-cutting-mend-to-nothing = make each { $less } smaller that way and { $sheets ->
        [one] 1 will
       *[other] { $sheets } sheets will
    } do; or bring { $lost } down to nothing
price-of-cutting-pair = { $count } sheets with { $lost }, and { $fewer } without: a { $kind } of { $side } and a { $other } of { $beside } { $way } need { $need }, and there are { $room }
price-of-cutting-row = { $count } sheets with { $lost }, and { $fewer } without: { $many } { $kind }s of { $side } { $way } need { $need }, and there are { $room }
other-way-machine = { $count } sheets from edge to edge, as it is trimmed, and { $fewer } by machine with { $settings }
other-way-machine-help = say "by": "machine" of it if your machine is worth that to you
    .page = let a machine cut it if that is worth it to you
other-way-trimmer = all of it is straight-sided: { $count } sheets by machine with { $settings }, and { $fewer } on a trimmer, from edge to edge and without a margin
other-way-trimmer-help = say "by": "trimmer" of it
    .page = let it be cut by hand, on a trimmer
kerf-gap-margin = kerf { $kerf }, gap { $gap } and margin { $margin }
price-of-apart = { $field } says that whole sheets are handed over, so that each kit has its own: { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } more than for all kits at once
price-of-apart-help = hand over pieces, "cut" or "scored", if that is too many
in-windows = { $pieces ->
        [one] 1 piece lies in a window of another
       *[other] { $pieces } pieces lie in windows of others
    } on { $sheet }{ $more ->
        [0] { "" }
        [one] {" "}and 1 more sheet
       *[other] {" "}and { $more } more sheets
    }; the files cut it before the window
in-windows-help = keep the order of cuts in the file: if your software sorts cuts, let it cut what is inside first
price-of-grain = keeping the grain along the spine takes { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } more
price-of-grain-help = say "grain": "free" for the spine if that is worth more to you than strips that fold cleanly
    .page = let the grain of the spine run any way if that is worth more to you than strips that fold cleanly
shorter = { $by } shorter
side-by-side = side by side
taller = { $by } taller
wider = { $by } wider

## What the tool can not do
hole-at = hole { $number } (at { $x }, { $y } mm, { $width } x { $height } mm)
hole-splits = { $hole } has a neck narrower than the kerf of { $kerf }: it would fall into several
hole-unsound = { $hole } crosses itself or runs the wrong way round
few-nicks = it has room for { $found } of { $wanted } nicks, clear of its corners and of the ends of scores
few-nicks-help = nothing need be done; shorter nicks leave more room
perforated-hinge = { $count ->
        [one] a fold that a page hangs by is
       *[other] { $count } folds that pages hang by are
    } perforated, on { $parts }; less than half of each is cut there, and card is left at both its ends
perforated-hinge-help = a scored line holds longer: set score to line for this stock, or score these folds by hand
narrow-holes = { $holes ->
        [one] a hole is
       *[other] { $holes } holes are
    } narrower than { $least }, or { $holes ->
        [one] has
       *[other] have
    } an arm that is; the machine's smallest_inner says so much
narrow-notch = a notch is narrower than { $least }; the machine's smallest_inner says so much
inner-too-small-help = make it larger, cut it by hand, or try it on the test piece and set smallest_inner
hole-vanishes = { $hole } is narrower than the kerf of { $kerf }: nothing of it would be left
outline-splits = it has a notch that a kerf of { $kerf } can't follow
outline-unsound = its outline crosses itself or runs the wrong way round
uncuttable-help = make the hole or notch larger, or cut with a finer tool and give its kerf

## Names on the parts
about-parts = { $count ->
        [one] 1 part
       *[other] { $count } parts
    }
shortened-words = not all words that are asked for go onto { $parts }: fewer are drawn there
shortened-words-help = set text to names, or let --labels everywhere draw on faces that show, too
    .page = draw names alone
undrawn-letters = there are no strokes for { $letters } of the title
undrawn-letters-help = the rest of it is drawn; write the title in other letters
unnamed-parts = no name is drawn on { $parts }: it has no room where it does not show
unnamed-parts-everywhere = the names of { $parts } do not fit on them
unnamed-parts-everywhere-help = mark them by hand
unnamed-parts-help = --labels everywhere draws names on faces that show, too
    .page = { "" }

## Prints that a page is to hold
print-not-known = { $print } is no print that is known here
print-not-known-help = write one of { $names }, or any size: 4x6in, 100x150mm

## Grain that nobody stated
grain-unknown = its grain is not stated, and hinge strips lie both ways on its sheets: whichever way it runs, some fold across it, where folds crack sooner
grain-unknown-help = bend a sheet both ways: it gives more easily along the grain; then state { $grain }, "long" or "short", and the strips keep to it
