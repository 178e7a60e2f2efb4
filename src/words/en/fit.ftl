# SPDX-License-Identifier: MIT
# Whether an album goes together.

## Clearances
tight-by-hand = { $spare } to spare { $way }, and { $sizes } sizes that may each be off by { $off }: it may not fit{ $more ->
        [0] { "" }
        [one] ; one other place is as tight
       *[other] ; { $more } other places are as tight
    }
tight-by-hand-help = cut it with care, or by machine; or give it more room

## What it is about
about-spine = spine
about-page = page { $page }

## The album closed
gapes = closed, its pages are { $thick } thick and the spine has { $spine }: it gapes by { $degrees } degrees
gapes-help = make spine.pitch at least { $pitch }, or put less into the pages
gapes-run = closed, pages { $from } to { $to } take { $wants } from the middle of the first to the middle of the last, and their roots with a gusset on either side give { $has }: they gape
gapes-run-help = put thick and thin pages in turn, put less into these, or make spine.pitch larger
gusset-spent = closed, its pages are { $thick } thick and the spine has { $spine }: each outer gusset of { $gusset } has to give { $spent } of itself, and turns with what is left
page-thick = it is { $thick } thick, and its share of the spine is { $pitch }: its neighbours have to stand aside
page-thick-help = put a thin page on either side of it, or less into it

## The album open
opens-high = opened between pages { $page } and { $next }, a page rises by { $lift } over its width, { $degrees } degrees
opens-high-help = make spine.gusset at least { $gusset }, or the pages thinner
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
