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
insert-too-thick = { $stack } of thickness is too much for the pocket of page { $page }: nothing goes in
insert-too-thick-help = put fewer of them into one pocket, or thinner ones
insert-snug = it is { $size } tall and binds in the pocket of page { $page }, which is { $inside } tall inside where its folds are round
insert-snug-across = it is { $size } wide and binds in the pocket of page { $page }, which is { $inside } wide inside where its folds are round
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
pocket-too-wide = the pocket is { $pocket } wide, and its page only { $page }
pocket-too-wide-help = make { $field } at most { $most }, or the page wider
flap-too-wide = the flap is { $flap } wide, and its page only { $page }: it would stick out at the spine
flap-too-wide-help = make { $field } at most { $most }
flap-too-short = the flap ends { $short } short of the pocket that it should close
flap-too-short-help = make { $flap } at least { $least }, or { $pocket } wider
flap-open = over { $thick } of thickness its flap ends { $short } short of what it should close
flap-open-help = make its { $field } at least { $least }, or put less inside
flap-open-help-two = make its { $field } at least { $least }, or put less inside; or let it fold on two scores: { $depth } of { $apart }
flap-barely = closed, its flap reaches { $left } over what it should close: under { $holds } it slips off
flap-barely-help = make its { $field } at least { $least }
one-score = its doors fold on one score over up to { $thick } of thickness: each ends up to { $lost } short, and they stand up
one-score-leaf = its leaf folds on one score over up to { $thick } of thickness: it ends up to { $lost } short, and stands up
one-score-help = let it fold on two scores: { $field } of { $depth }

## Tabs
tab-too-wide = a tab of { $tab } does not go into the sleeve of page { $page }, which is { $width } wide
tab-too-wide-help = make { $tab } smaller; 12 mm or 1/2 in is usual
no-lead-in = tabs without a lead-in are as tall as their page, whose sleeve is up to { $lower } lower inside: there is no way in
lead-in-too-small = a lead-in of { $lead } lets the tabs in only up to { $in } of their { $tab }
lead-in-help = make { $lead } half the tab, or give the strips a { $ease } of a millimetre
tab-over-seam = the hinge's tab is to be stuck where { $piece } is stuck, too
tab-over-seam-wide = the hinge's tab of { $tab } is to be stuck where { $piece } is stuck, too
tab-over-seam-help = make the page wider, or what is stuck on it narrower, or turn the page with { $faces }
