# SPDX-License-Identifier: MIT
# Two editions of a kit, side by side.

## Reading an earlier report
a-block = a block
a-part = a part
a-placement = an entry
a-score = a score
a-sheet = a sheet
bad-digest = { $field } is no digest
bad-score-ends = "from_mm" and "to_mm" of a score take two numbers each
made-again-help = a report is written by hingeleaf kit, and not to be changed: take the one that it wrote, or make the kit again
no-such-part = the report has no part { $name }
report-of-recut = this is the report of sheets that are cut again, not of a whole kit
report-of-recut-help = name the report of a whole kit, or its album
report-without-digests = this report was written by an earlier version, which does not say how its parts are cut
report-without-digests-help = name the album or batch that it was made from
report-without-uses = this report of a batch was written by an earlier version, which does not say what its parts are in each kit
twice-part = there are two parts { $name }

## The files
not-an-edition = the format of { $file } is { $found }, and editions are compared by albums, batches and reports
not-an-edition-help = name an album file ({ $album }), a batch file ({ $batch }), or the report.json that a kit was written with ({ $report })
only-changed-of-report = --only-changed draws sheets, and a report does not hold how parts are drawn
only-changed-of-report-help = name the new album or batch itself
recut-format = { $format } speaks of a whole kit, and is not written for sheets that are cut again
recut-format-help = write { $formats }; hingeleaf kit makes the rest of the new edition

## What changed
compare-all-same = All { $parts } parts of { $new } are as they were in { $old }.
compare-same = { $same } of { $parts } parts of { $new } are as they were in { $old }.
compare-changed = Changed:
compare-new = New:
compare-gone = Gone:
compare-renamed = The same piece under another name:
compare-counted = As it was, and another number of it:
compare-part = { $part } ({ $kind } of { $stock }): { $differs }
compare-part-gone = { $part } ({ $kind } of { $stock })
differs-count = { $is } a kit instead of { $was }
differs-first-count = { $is } a kit
differs-kind = { $is } instead of { $was }
differs-name = was { $was }
differs-outline = corners, notches or holes are cut another way
differs-size = { $way } ({ $is } instead of { $was })
differs-stock = of { $is } instead of { $was }
first-size = { $width } x { $height }
score-gone = no score { $place } any more
score-moved = a score { $is } instead of { $was }
score-new = one more score { $place } ({ $fold })
score-refolded = the score { $place } is a { $is } fold instead of a { $was } one
score-left = { $at } from the left
score-top = { $at } from the top
score-slanted = slanting from { $x } from the left and { $y } from the top to { $to_x } and { $to_y }

## What to do
compare-recut = To turn an old kit into a new one, cut for each kit:
compare-recut-part = { $count } x { $part } of { $stock }
compare-recut-nothing = Whoever has an old kit has every piece of the new one: nothing is cut again.
compare-over = Left over of an old kit:
compare-sheets = Sheets of the new edition that hold it, with what lies on them besides: { $sheets }. What is cut again can be laid on sheets of its own.
compare-sheet = { $name }
compare-sheet-times = { $name } ({ $times } x)
compare-pages = Pages of the album that are made of other pieces: { $pages }.
compare-pages-gone = Pages that are gone: { $pages }.
compare-head = The head of the guide changed: its title, its maker, its edition or its notes.
compare-chapters = Chapters of the guide to print again: { $chapters }.
compare-not-written = Nothing has to be cut again: { $out } was not written.

## An order
order-all-same = All { $kits } kits of { $new } are as they were in { $old }.
order-same = { $same } of { $kits } kits of { $new } { $same ->
        [one] is as it was
       *[other] are as they were
    } in { $old }.
order-kits = { $kits }:
order-renamed = { $kit } was called { $was }, and is made of the same pieces.
order-new = New, all their pieces cut: { $kits }.
order-gone = Gone: { $kits }.
order-more = { $kit }: { $is } instead of { $was } are made; the { $by } more are cut whole.
order-fewer = { $kit }: { $is } instead of { $was } are made.
order-recut = Cut again over the whole order, for kits that are there and kits that come, spare parts among it:
order-recut-nothing = Over the whole order nothing is cut again.
