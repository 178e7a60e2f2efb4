# SPDX-License-Identifier: MIT
# What parts can not be made as the album says.

## What a finding is about
about-cover = cover
about-insert = { $kind } { $number }
about-more = { $first } and { $more } more
about-page = page { $number }
about-panels = panels
about-spine = spine

## Pages
corners-meet-on-print = corners of { $measured } meet on its print: { $allowed } is the most
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
