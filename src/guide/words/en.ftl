# SPDX-License-Identifier: MIT
# The guide in English. One table for each language; keys stay, words change.
# {$n} is a number as it is read; {$n_is} is the same number to ask about. Sentences of at most twenty words, verb first.

## The page
page-contents = In this guide
page-caution = Mind
page-maker = Designed by
page-done = steps done
page-notes = From the maker
page-again = Clear all ticks
page-book-title = The maker's handbook
page-book-about = From an idea to a kit that others put together: how the program is used, what it knows, what its files say, what its answers mean.
page-book-offline = It needs no network. The files that it speaks of lie in its folder, in "files".
page-book-english = This text is in English.
page-book-contents = Contents
page-book-search = Search
page-book-search-hint = a word or two
page-book-nothing = Nothing has these words.
page-book-first = The first kit
page-book-album = An album of your own
page-book-parts = Pages, spines, covers, inserts
page-book-kinds = Kinds of your own
page-book-machine = Your machine
page-book-files = What the files say
page-book-messages = When something is wrong
page-book-commands = Every command
page-book-mind = Take care
page-book-field = Field
page-book-says = What it says
page-book-takes = What it takes
page-book-typed = Typed
page-book-does = What it does
page-book-pages = Pages
page-book-spines = Spines
page-book-covers = Covers
page-book-inserts = Inserts
page-book-files-must = Fields in bold must be there.
page-book-files-name = NAME stands for a name of your own, […] for each entry of a list.
page-book-files-kinds = What a page, spine, cover or insert says besides depends on its kind:
page-book-files-own = Kind files have a table of their own:
page-book-answer = The answer:
page-book-answer-says = An answer says what is wrong, and where (file, line and column); it shows the line, and says what to do.
page-book-answer-way = Behind the place stands the way to the field: pages[1].pocket is the pocket of the second page, as counting begins with 0 there.
page-book-answer-grave = What begins with "stop" must be put right, with "warn" something may disappoint, and a "note" is good to know.
page-book-answer-all = All that is wrong is told at once. Mend the first and try again: others often go with it.
page-book-answer-of = Each of these files was given to the command kit. Nothing was written.

## Numbers
number-decimal = .
unit-inch = in
unit-foot = ft
unit-hour = h

## Joining
list-more = { $these }, { $this }
list-last = { $these } and { $this }
list-or = { $these } or { $this }
page-one = page { $pages }
page-range = { $from } to { $to }
page-several = pages { $pages }
part-named = { $mark } ({ $kind })
part-times = { $n } × { $part }
these-parts = { $parts }.
panel-of = the { $panel } of { $part }
panels-of = the { $panels } of { $part }
panel-number = { $panel } no. { $n }
own-panel = its own { $panel }
own-face = its own { $face }
own-other = its other panels
place-on = { $what } on { $on }
face-front = front face
face-back = back face

## What you get
given-heading = What you get
given-album = A photo album of { $n_is ->
    [one] one page,
   *[other] { $n } pages,
} each { $width } wide and { $height } tall.
given-page = { $pages }: { $kind }
given-spine = Spine: { $spine }
given-cover = Cover: { $cover }
given-insert = To go into the pockets: { $n } × { $insert }
given-insert-loose = To go with it: { $n } × { $insert }
given-thick = Closed, its pages are about { $thick } thick.
given-bound-left = Bound at the left, seen from the front.
given-bound-right = Bound at the right, seen from the front.
given-bound-top = Bound at the top. It is made with its spine at the left, as the pictures show it, and turned when it is done: what is left then becomes the head.
given-picture-closed = The finished album, closed, its spine at the left.
given-picture-fan = The finished album, standing on its tail and opened like a fan.
given-picture-open = The finished album, lying open.

## What you need
need-heading = Get ready
need-words = Lay everything out before you start.
need-words-shop = Buy this for all that you make. A tenth of the sheets and of the tape is to spare.
need-heading-shop = Buy and get ready
need-caption = Card and paper to buy
need-caption-given = Card and paper in your kit
need-head-stock = Stock
need-head-sheet = Sheet
need-head-weight = Weight
need-head-count = To cut
need-head-buy = Buy, with spares
need-head-price = Cost of a kit
need-sheet = { $name }: { $width } × { $height }
need-stick = Tape and glue
need-stick-shop = Tape and glue for all kits, where you hand these over
need-drawer = Take from the drawer
need-drawer-take = { $stock }, { $width } × { $height }: take { $n } of { $lie }. Left there: { $left }.
need-tape = Double-sided tape, { $width } wide: { $length }, with a tenth to spare.
need-ready-cover = { $n_is ->
    [one] A ready-made cover { $mark }
   *[other] { $n } ready-made covers { $mark }
}: { $width } × { $height } laid open.
need-glue = White craft glue that stays movable for some minutes, for card.
need-ribbon = Ribbon, { $width } wide: { $n } pieces of { $length }.
need-thread = Strong thread for sewing: { $length }.
need-corners = Photo corners to stick on: { $n }.
need-tools = Tools
need-time = Allow about { $time } for one kit, once you know how.
need-cost = The sheets for one kit cost { $cost }.
need-weight = The card and paper of one kit weigh { $weight }.
tool-trimmer = Trimmer with a stop
tool-pencil = Soft pencil, for the letters on the backs
tool-rule = Metal rule
tool-knife = Craft knife and a mat, for corners and openings
tool-scorer = Scoring board with a fence, or a rule and a blunt point
tool-folder = Bone folder
tool-punch = Hole punch
tool-compass = Compass, for round openings
tool-awl = Awl, for narrow holes
tool-needle = Needle for the thread
tool-brush = Flat brush for the glue
tool-paper = Waste paper, to keep glue off what stays dry
tool-weight = A flat weight, such as some books

## Cautions
caution-rules = Follow your machine's manual and local rules first, and whoever is licensed or trained to use it.
caution-blade = Cut along a metal rule in light passes, your holding hand on the rule, out of the blade's way.
caution-blade-cap = Cap the knife whenever you put it down.
caution-trimmer = Keep the trimmer's guard down and your hand off the cutting line. Lock its arm when you stop.
caution-machine = Keep hands, hair and sleeves away from a machine's moving carriage.
caution-laser = Never leave a laser unattended. Extract the fumes. Keep an extinguisher at hand.
caution-laser-light = Run a laser with its lid closed, or wear eyewear made for its light.
caution-laser-vinyl = Never cut PVC, vinyl, coated or unknown plastics with a laser.
caution-glue = Air the room while you glue.
caution-glue-label = Read the label of each glue and tape, and do as it says.
caution-glue-photo = Keep wet glue and tape off photographs.
caution-photo = Put photographs in pockets or corners only. Never stick them down with glue or tape.
caution-photo-paper = Use lignin-free paper without PVC near photographs.
caution-first = Let the machine's manual, local rules and licensed or trained practice come before this guide.
caution-keep = Keep knives, machines and glue away from small children.
mind-heading = Know what comes first

## Lay out
bag-heading = Lay out the pieces
bag-words = Your pieces come cut. Find each one by its size, and count them.
bag-words-scored = Your pieces come cut and scored. Find each one by its size, and count them.
bag-words-mixed = Your pieces come cut, some of them scored. Find each one by its size, and count them.
bag-words-letters = Pencil its letter on the back of each piece: the steps call it by that.
bag-front = The front of a scored piece is the face with the scores, of patterned paper the face with the pattern.
bag-missing = Ask for what is missing before you start.
cut-head-there = There

## Cut
cut-heading = Cut the pieces
cut-words = Pencil the letter of each piece on its back as soon as it is cut.
cut-caption = Pieces of { $stock }
cut-head-mark = Letter
cut-head-piece = Piece
cut-head-name = Piece
cut-head-count = Cut
cut-head-size = Width × height
cut-head-size-mm = In millimetres
cut-head-size-in = In inches
cut-head-scores = Scores
cut-head-lies = Grain, pattern
cut-head-back = Write on the back
cut-piece = { $kind }, { $id }
cut-size = { $width } × { $height }
cut-size-long = { $width } × { $height } ▸
cut-back = { $mark }: { $uses }
cut-back-alike = { $mark }: all are alike
card-stock = { $stock } · { $pieces }
card-kind = { $kind }: { $pieces }.
card-kind-lies = { $kind }, { $lies }: { $pieces }.
card-piece = { $mark } { $size }
card-sheets = { $what } { $n }
card-sheets-weight = { $n }
card-sheets-count = { $n } to cut
card-sheets-buy = { $n } to buy, with spares
card-sheets-price = { $n } for each kit
card-at = { $at }
card-at-part = { $at } in part
card-between = { $at } ◇
card-between-part = { $at } ◇ in part
card-folds = { $at } { $fold }
card-scored = { $piece } ({ $scores })
lies-any = any way
lies-grain = ↕ grain upright
lies-pattern = ↑ pattern upright
lies-sideways = ← pattern's top at the left
scores-left = from the left { $scores }
scores-top = from the top { $scores }
scores-slanted = slanted, see its picture
scores-none = none
score-groove = { $at } { $fold }
score-groove-part = { $at } { $fold } in part
score-between = { $at } ◇ { $fold }
score-between-part = { $at } ◇ { $fold } in part
fold-valley = valley
fold-mountain = mountain
fold-both = both ways
cut-note-edges = Measure scores from the left or top edge, the front of the piece towards you.
cut-note-between = ◇ lies between the grooves of common boards (⅛ in, 1/16 in, 5 mm). Mark it and score along a rule.
cut-note-long = ▸ is longer than a trimmer of { $trimmer } cuts. Use a longer one, or knife and rule.
cut-note-shaped = By hand, cut every piece as a full rectangle first. Corners and openings come later.
cut-note-ruler = Some sizes lie between sixteenths of an inch. Ask the maker for a rounded kit if your ruler has none finer.
cut-no-sheets = Cut every piece to its size, as often as the list says.
ways-trimmer = On the trimmer: { $stocks }.
ways-machine = By machine: { $stocks }.
machine-words = Load each file below into your cutting software and compare the sheet's size before the first cut.
machine-back = First the back: { $lay } and let it score lightly. The front is scored on the same lines.
machine-back-names = First the back: { $lay } and let it draw the words.
machine-back-both = First the back: { $lay }, let it draw the words and score lightly. The front is scored on the same lines.
machine-back-lay = lay the sheet face down, load { $file }
machine-back-lay-bed = lay the sheet face down in each of its places on the bed, load { $files }
machine-prick = Prick every register mark of the printed front through with a fine needle: a corner or a square at its outer corner, a ring or a cross in its middle. Mind your fingers.
machine-lay-by = Before the machine begins, shift the sheet until the pricks lie on the marks of the layer register. They are there to lay it by: do not cut them.
machine-turn-by = Turn the sheet over sideways, like a page, and lay it by its printed marks.
machine-turn-by-bed = Turn each sheet over sideways in its own place, like a page, and lay it by its printed marks.
machine-turn = Turn the sheet over sideways, like a page, and push it against the same stops. It must be { $width } wide: what it is off, the scores of its two sides are apart.
machine-turn-bed = Turn each sheet over sideways in its own place, like a page, and lay it against the same stops or lines. As it lies it must be { $width } wide: what it is off, the scores of its two sides are apart.
machine-cut = Cut the sheet { $sheet }.
machine-cut-on-bed = Cut the sheet { $sheet } where it lies on the bed: { $files }.
machine-window = { $n } × { $piece } in the window of { $host }: it is cut before that window. If your software sorts cuts, let it cut what is inside first.
machine-pair = { $n } × { $piece } lie in pairs, head to tail, and reach past each other: a straight cut would go through one of them.
machine-picture = The pieces on the sheet { $sheet }.
sheet-heading = { $n_is ->
    [one] Cut up sheet { $sheet }: { $width } × { $height }
   *[other] Cut up { $n } sheets { $sheet }: { $width } × { $height }
}

sheet-offcut = offcut
sheet-times = { $n_is ->
    [one] { $sheet }: cut once
   *[other] { $sheet }: cut { $n } times
}

sheet-from-drawer = Take it from the drawer.
sheet-stands = Lay it { $width } wide and { $height } tall.
sheet-stands-grain = Lay it { $width } wide and { $height } tall, its grain running away from you.
sheet-stands-across = Lay it { $width } wide and { $height } tall, its grain running from left to right.
sheet-stands-pattern = Lay it { $width } wide and { $height } tall, the top of its pattern away from you.
cut-stack = Cut these sheets in stacks, as many at once as your trimmer cuts cleanly. Look over the first stack before you go on.
offcuts-heading = Keep the offcuts
offcut-spare = { $what }, { $stock }, { $width } × { $height }: large enough for a spare { $part }.
offcut-try = { $what }, { $stock }, { $width } × { $height }: to try scores and glue on.

## Trimmer plan
plan-words = Measure from the blade to the stop. What lies between them is what you cut off.
plan-words-names = Write its name on each strip and offcut that the steps name.
plan-set = Set the stop to { $stop }.
plan-leave = Leave the stop at { $stop }.
plan-left = Keep { $piece } as it lies, its left edge at the stop.
plan-left-each = Take each { $piece } as it lies, its left edge at the stop.
plan-lower = Keep { $piece } as it lies, its lower edge at the stop.
plan-lower-each = Take each { $piece } as it lies, its lower edge at the stop.
plan-turn = Turn { $piece } a quarter clockwise: its lower edge comes to the stop.
plan-turn-each = Turn each { $piece } a quarter clockwise: its lower edge comes to the stop.
plan-turn-back = Turn { $piece } a quarter back: its left edge comes to the stop.
plan-turn-back-each = Turn each { $piece } a quarter back: its left edge comes to the stop.
plan-cut = { $n_is ->
    [one] Cut off { $what }.
   *[other] Cut off { $n } × { $what }, pushing the rest up to the stop each time.
}
plan-trim = Trim off the strip at the stop; it is waste.
plan-rest-more = Keep the rest of { $what }, { $width } × { $height }, for a later step.
plan-rest-strip = Name the rest { $what }: { $width } × { $height }.
plan-rest-part = The rest is { $what }.
plan-rest-offcut = Keep the rest as { $what }: { $width } × { $height }.
plan-rest-waste = Throw away the rest; it is waste.
plan-long = This cut is { $length } long: use a long trimmer, or knife and rule.
plan-picture = { $piece } at the stop, with the blade and what comes off.
thing-sheet = the sheet
thing-strip = strip { $n }
thing-offcut = offcut { $n }
thing-waste = waste

## Shape
shape-heading = Clip, round and punch
shape-words = Leave this out where a machine has cut the sheets. Work from the front, measuring from the left and top edges.
shape-head = { $n_is ->
    [one] Shape { $part }.
   *[other] Shape all { $n } of { $part }.
}
shape-heads = Shape each of these pieces in the same way.
shape-mark = Mark the distances in the picture along the edges. Cut along straight lines between the marks.
shape-trace-edge = Trace the curved edge from its page in templates.pdf, printed at true size, and cut along it.
shape-trace = Trace it from its page in templates.pdf, printed at true size. Cut along the lines, openings first.
shape-edge = Trace { $edges } from its page in templates.pdf, printed at true size. Cut along that line by hand: a trimmer cuts straight.
cut-scallop = the scalloped edge
cut-wave = the wavy edge
cut-zigzag = the zigzag edge
cut-deckle = the deckle edge
cut-notch = the notch
shape-row-level = Cut { $n } slits { $width } × { $height } in a row, { $aside } from the top. The first is { $first } from the left, each next one { $apart } further.
shape-row-upright = Cut { $n } slits { $width } × { $height } in a row, { $aside } from the left. The first is { $first } from the top, each next one { $apart } further.
shape-clip = { $n_is ->
    [one] Clip the { $corners } corner, { $across } along the level edge and { $up } along the upright one.
   *[other] Clip the { $corners } corners, { $across } along the level edge and { $up } along the upright one.
}
shape-round = { $n_is ->
    [one] Round the { $corners } corner to a radius of { $radius }.
   *[other] Round the { $corners } corners to a radius of { $radius }.
}
shape-step = { $n_is ->
    [one] Cut a rectangle out of the { $corners } corner, { $across } wide and { $up } tall.
   *[other] Cut a rectangle out of the { $corners } corners, { $across } wide and { $up } tall.
}
shape-notch-round-level = { $n_is ->
    [one] Cut a round notch into the { $edge } edge, { $wide } wide and { $deep } deep. Its middle is { $at } from the left.
   *[other] Cut round notches into the { $edge } edge, { $wide } wide and { $deep } deep. Their middles are { $at } from the left.
}
shape-notch-round-upright = { $n_is ->
    [one] Cut a round notch into the { $edge } edge, { $wide } wide and { $deep } deep. Its middle is { $at } from the top.
   *[other] Cut round notches into the { $edge } edge, { $wide } wide and { $deep } deep. Their middles are { $at } from the top.
}
shape-notch-pointed-level = { $n_is ->
    [one] Cut a pointed notch into the { $edge } edge, { $wide } wide and { $deep } deep. Its middle is { $at } from the left.
   *[other] Cut pointed notches into the { $edge } edge, { $wide } wide and { $deep } deep. Their middles are { $at } from the left.
}
shape-notch-pointed-upright = { $n_is ->
    [one] Cut a pointed notch into the { $edge } edge, { $wide } wide and { $deep } deep. Its middle is { $at } from the top.
   *[other] Cut pointed notches into the { $edge } edge, { $wide } wide and { $deep } deep. Their middles are { $at } from the top.
}
shape-notch-square-level = { $n_is ->
    [one] Cut a square notch into the { $edge } edge, { $wide } wide and { $deep } deep. Its middle is { $at } from the left.
   *[other] Cut square notches into the { $edge } edge, { $wide } wide and { $deep } deep. Their middles are { $at } from the left.
}
shape-notch-square-upright = { $n_is ->
    [one] Cut a square notch into the { $edge } edge, { $wide } wide and { $deep } deep. Its middle is { $at } from the top.
   *[other] Cut square notches into the { $edge } edge, { $wide } wide and { $deep } deep. Their middles are { $at } from the top.
}
shape-slot = Cut a slanting slot { $width } wide. One end is { $left } from the left and { $top } from the top. The other end is { $to_left } from the left and { $to_top } from the top.
shape-punch = { $n_is ->
    [one] Punch a hole { $across } wide, its middle { $left } from the left and { $top } from the top.
   *[other] Punch holes { $across } wide, their middles { $left } from the left. From the top they are at { $top }.
}
shape-compass = { $n_is ->
    [one] Draw a circle { $across } wide with a compass, its middle { $left } from the left and { $top } from the top. Cut it out.
   *[other] Draw circles { $across } wide with a compass, their middles { $left } from the left. From the top they are at { $top }. Cut them out.
}
shape-pierce = { $n_is ->
    [one] Pierce a hole { $across } wide, its middle { $left } from the left and { $top } from the top.
   *[other] Pierce holes { $across } wide, their middles { $left } from the left. From the top they are at { $top }.
}
shape-open = Cut an opening { $width } × { $height }, { $left } from the left and { $top } from the top.
shape-open-soft = Cut an opening { $width } × { $height }, { $left } from the left and { $top } from the top. Round its corners to a radius of { $radius }.
shape-open-trace = Trace the opening from its page in templates.pdf, printed at true size. It is { $width } × { $height } in all, { $left } from the left and { $top } from the top. Cut it out.
shape-open-shape = Cut the opening in the picture, { $width } × { $height } in all, { $left } from the left and { $top } from the top.
shape-picture = { $part } lying flat, with its distances from the left and the top.
corners-all = four
corner-upper-right = upper right
corner-upper-left = upper left
corner-lower-right = lower right
corner-lower-left = lower left

## Score
score-section = Score the folds
score-words = Leave out what a machine has scored. Lay the named edge against the fence and keep it there while you score.
score-words-face = Score with the front of the piece up. Press lightly twice rather than hard once.
score-heading = Score at { $at }
score-heading-many = Score at { $n } distances
score-between-words = Mark any distance that your board has no groove for, and score along a rule.
score-left-edge = Lay the left edge of { $part } at the fence.
score-left-edges = Lay the left edge of each of these pieces at the fence.
score-top-edge = Turn { $part } so that its top edge lies at the fence.
score-top-edges = Turn each of these pieces so that its top edge lies at the fence.
score-at = Score at { $at }.
score-part-left = Score at { $at }, but only between { $from } and { $to } from the top edge.
score-part-top = Score at { $at }, but only between { $from } and { $to } from the left edge.
score-again = Turn it end for end and score again at { $at }.
score-all = { $n_is ->
    [2] Do the same with both.
   *[other] Do the same with all { $n }.
}
score-picture = { $part } at the fence, with the distances of its scores.
score-slanted-heading = Score from corner to corner
score-slanted = Score the slanted lines of { $part } along a rule.

## Fold
fold-heading = Fold each piece
fold-words = Fold every piece once with its front up, before anything is stuck.
fold-words-spring = Sharpen each crease with the bone folder, then let it spring open.
fold-head = { $n_is ->
    [one] Fold { $part }.
    [2] Fold both of { $part }.
   *[other] Fold all { $n } of { $part }.
}
fold-heads = Fold each of these pieces.
fold-valley-at-left = Fold towards you at { $at } from the left (valley).
fold-valley-at-top = Fold towards you at { $at } from the top (valley).
fold-mountain-at-left = Fold away from you at { $at } from the left (mountain).
fold-mountain-at-top = Fold away from you at { $at } from the top (mountain).
fold-both-at-left = Fold both ways at { $at } from the left.
fold-both-at-top = Fold both ways at { $at } from the top.
fold-each = Fold each of these at its own distances.
fold-valley-head-left = Towards you, from the left (valley)
fold-valley-head-top = Towards you, from the top (valley)
fold-mountain-head-left = Away from you, from the left (mountain)
fold-mountain-head-top = Away from you, from the top (mountain)
fold-both-head-left = Both ways, from the left
fold-both-head-top = Both ways, from the top
fold-valley-askew = Fold towards you along the slanted scores (valley).
fold-mountain-askew = Fold away from you along the slanted scores (mountain).
fold-both-askew = Fold both ways along the slanted scores.
work-how = Work each score that folds both ways flat to the front, then flat to the back, several times.
work-why = Feel that the panels outside these scores swing freely: these tabs carry the pages when the album opens.
fold-over = Look at the picture: it shows the back.
fold-picture = { $part } being folded, with arrows for the way its flaps go.
key-shows = The lines of the pictures: cut solid, valley dashed, mountain dash and dot, both ways dash and two dots.
key-faces = In the pictures the back of a piece is darker than its front. For folding, always measure on the front.
key-faces-pictured = In the pictures the back of a piece is darker than its front; where its paper is printed on both sides, it shows that print. For folding, always measure on the front.
key-cut = cut
key-valley = valley
key-mountain = mountain
key-both = both ways
key-tape = tape
key-glue = glue

## Stick
stick-words = Let tape hold what stays where it is. Use wet glue where you must still move things. When sticking, left, right, top and bottom are as the picture shows them.
stick-paper = Hold paper on pages with tape: wet glue on one face alone makes a page curl.
stick-times = Do this at all { $n } places.
stick-elsewhere = For { $pages } it is { $what } on { $on }.
stick-again = Do the same with { $places }.
stick-picture = Where { $what } goes on { $on }.
tape-head = Stick { $what } to { $on }.
tape-run = Run { $length } of tape, { $width } wide, along the { $face } of the { $panel }.
tape-run-each = Run { $length } of tape, { $width } wide, along the { $face } of each: { $panel }.
tape-press = { $n_is ->
    [one] Peel off the liner. Fold the { $panel } and press it onto the { $side } of { $on }.
   *[other] Peel off the liners. Fold the seams and press them onto the { $side } of { $on }.
}
round-run = Run tape, { $width } wide, along all four edges of its { $face }: { $length } in all.
round-run-each = Run tape, { $width } wide, along all four edges of the { $face } of each, as long as the table says.
together-stick = Stick each of these in its place.
together-glue = Glue each of these in its place.
together-glue-order = Glue each of these in its place, in this order.
together-on = { $side } of { $on }
together-head-on = Goes on
together-head-pages = Where
together-head-tape = Tape
together-lay = Peel off the liner of each, lay it on its face, and press.
together-press = Press each onto its face, and rub it down.
round-press = Peel off the liner, lay it on the { $side } of { $on }, and press.
border-round = Leave a border of { $border } all round.
border-sides = Leave { $sides } free.
border-flush = Keep it flush with the { $edges } { $n_is ->
    [one] edge.
   *[other] edges.
}
side-left = { $free } at the left
side-right = { $free } at the right
side-above = { $free } at the top
side-below = { $free } at the bottom
edge-left = left
edge-right = right
edge-above = upper
edge-below = lower
glue-head = Glue { $what } to { $on }.
glue-spread = Spread a thin film of glue on the { $face } of the { $panel }.
glue-spread-each = Spread a thin film of glue on the { $face } of each: { $panel }.
glue-press = { $n_is ->
    [one] Press it onto the { $side } of { $on }, and rub it down.
   *[other] Press them onto the { $side } of { $on }, and rub them down.
}
glue-warn = Wipe off glue that comes out at the edges at once.
glue-warn-gusset = Keep glue off the free panels beside it: they must bend.
round-head = Close the album, and slide { $what } over it to the middle of its height.
slide-head = Slide { $what } into { $on }.
nest-head = Lay { $what } in { $on }.
nest-how = Lay each one in the one before, fold in fold.
pile-named = the pile of { $mark } for { $pages }
pile-head = Stick the pieces { $part } in piles, face to face and flush.
pile-glue = Spread a thin film of glue between them and rub them down.
pile-of = { $piles_is ->
    [one] Make a pile of { $n } for { $pages }.
   *[other] Make { $piles } piles of { $n }, one each for { $pages }.
}
turn-level-head = Turn { $part } in at head and tail.
turn-upright-head = Turn { $part } in at the fore-edges.
turn-glue = Spread a thin film of glue on the back of what stands over.
turn-level-how = Pull it over the boards' edges and the spine board, and rub it down. Tuck it in at each corner.
turn-upright-how = Pull it over the boards' edges, over the tucked corners, and rub it down.
joint-head = Run the folder along both joints.
joint-how = Press the paper down into each joint from the outside, while the glue is moist.
tie-head = Pull a ribbon, { $width } wide, through the slot of { $parts }.
tie-through = Push it in from the outside, and leave the long end hanging there.
tie-end = Glue { $end } of its inner end flat on the inside, away from the edge.

## Pages
pages-heading = Make the pages
pages-words = Lay out the folded pieces of one page at a time.
job-line = Line the sleeve of { $what }
job-page = Make { $what }
job-face = Put the panels on { $what }

## Spine
spine-heading = Build the spine
spine-words = Lay its parts out in order, fronts up, before you join any.
spine-words-flexi-hinge = Each strip has its base in the middle, a gusset at either side, and a tab at each end. Start with the narrow strip and work towards the wide one.
spine-words-concertina = Lay its pieces out in order, fronts up. Panels of one name are counted from the left.
job-strips = Join the parts of the spine

## Cover
cover-heading = Make the cover
cover-words = Dry-fit every part before you glue it.
cover-words-case = Draw first where each board goes on the back of the covering. Let the case dry flat under a weight before the spine goes in.
job-cover = Put the cover together
job-meet = Set the spine into the cover
meet-bases = Glue its other bases down beside it in the same way: { $n } more.
job-line-cover = Line the inside of the cover
flaps-head = Glue the end flaps to the insides of the cover.
flaps-glue = Stand the cover open. Brush a thin film of glue on the outer face of each end flap.
flaps-press = Press each flap onto the inside of its cover, and rub it down.
flaps-why = They carry the book: paper goes over them afterwards.

## Bind
bind-heading = Hang the pages
bind-words = Start with the last page, so that no page is in your way. Work towards the first.
job-hang = Hang { $what }
hang-head = Hang { $page } on { $tab }.
hang-heads = Hang pages { $pages }.
hang-as = Do it as with { $page }.
hang-where = Put { $page } on { $tab }.
hang-tape = Run { $length } of tape, { $width } wide, along the { $face } of the tab. Leave its liner on, one end folded out.
hang-glue = Brush a thin film of glue on the tab's other face.
hang-glue-only = Brush a thin film of glue on one face of the tab.
hang-slide = Slide the page on until it meets the fold, and move it until head and tail are flush.
hang-peel = Pull the liner out by its end, then press both faces down.
hang-warn-plain = Keep glue off the score, and put waste paper between the pages.
hang-warn = Keep glue off the gusset, and put waste paper between the pages.
job-over = Put the panels over the tabs of { $what }
hang-picture = { $page } sliding onto { $tab }.
leaf-glue = Brush a thin film of glue on the { $face } of the tab. Lay it on the { $side } of its page.
leaf-press = Move it until head and tail are flush, then press it down.

## Check
check-heading = Check before the glue sets
check-words = Do this while the wet glue can still be moved, within some minutes.
check-flush = Look along the tail: all pages are flush.
check-pitch = Look from the tail: the pages stand { $pitch } apart at the spine.
check-turn = Turn every page both ways: none catches on its neighbour.
check-gusset = Bend each gusset: it is free of glue and moves.
check-squeeze = Look into every sleeve from the fore-edge: no glue shows.
check-close = Close the album: its pages lie about { $thick } thick without pressing.
check-dry = Put waste paper between the pages and a weight on top until dry, as the label says.

## Fill
fill-heading = Fill the pockets
fill-words = Wait until everything is dry.
job-insert = Make the { $what }
job-fill = Put in the { $what }
job-round = Put the band round
job-prints = Put the prints in
job-clips = Stick the tabs over edges
job-loose = Keep what goes into no pocket
sew-head = Sew { $parts } together through the fold.
sew-pierce = Open the leaves in the middle, clip them flush, and push the awl through every hole.
sew-thread = Cut a thread three times as long as the fold, and thread the needle.
sew-three = From inside go out in the middle, in at the top, out at the bottom, in again in the middle.
sew-five-up = From inside go out in the middle, in at hole 2, out at hole 1, in again at hole 2.
sew-five-down = Pass over the middle, out at hole 4, in at hole 5, out at hole 4, in at the middle.
sew-knot = Pull tight along the fold, knot both ends over the long stitch inside, and cut them short.
mount-head = Put a print of { $width } × { $height } on { $part }.
mount-corners = Push four photo corners on its corners: no glue touches the print.
mount-place = Lay it { $left } from the left and { $top } from the top, and press the corners down.
mount-behind = Turn it over and lay the print face down over the window, as far over each edge.
mount-behind-hold = Push four photo corners on its corners and press these down: no glue touches the print.
print-slots = Tuck a print of { $width } × { $height } into the slots of { $part }.
print-slots-how = Push one corner after the other through its slot from the front.
print-corners = Put a print of { $width } × { $height } under the corners on { $part }.
print-corners-how = Bend it a little and slide one corner after the other in.
print-window = Slide a print of { $width } × { $height } into { $part }.
print-window-how = Push it in from the open side until it fills the window.
print-pages = Do this on { $pages }.
clip-head = Fold { $part } over an edge.
clip-where = Choose the edge of a page or card at which you want to find it.
clip-glue = Brush glue on the last { $grip } of both inner faces, and press one on either face.
loose-head = Lay { $part } by: no pocket holds it.
fill-head = Put { $part } into { $page }.
fill-picture = { $part } sliding into { $page }.
fill-folded = Fold it up first: it goes in folded.
fill-which = There is more than one pocket: take the one in the picture.
order-heading = Work in this order

## What fits where
fits-heading = See what fits where
fits-words = Measure your own prints: they may be off by a millimetre or two. A pocket that holds something takes less.
fits-caption = Common prints and cards, upright or lying on their side
fits-head-print = Print or card
fits-place = { $page }, pocket of { $width } × { $height }
fits-more = Other pages take what is as large as their own pockets.
fits-print = { $name }: { $width } × { $height }
fits-upright = upright
fits-upright-shows = upright, { $shows } stands out
fits-lying = lying
fits-lying-shows = lying, { $shows } stands out
fits-not = –

print-2r = 2R print
print-3r = 3R print
print-4r = 4R print
print-5r = 5R print
print-8r = 8R print
print-9x13 = 9 × 13 cm print
print-10x15 = 10 × 15 cm print
print-3x4-card = 3 × 4 in card
print-4x6-card = 4 × 6 in card
print-id-card = identity card
print-instant-54x86 = instant print 54 × 86
print-instant-72x86 = instant print 72 × 86
print-instant-86x108 = instant print 86 × 108
print-instant-88x107 = instant print 88 × 107
print-cabinet = cabinet card
print-carte = visiting card photograph

## To teach by
teach-time = About { $time }.
teach-step = { $n } · { $head }

## When it goes wrong
wrong-heading = Put right what goes wrong
wrong-caption = Most of it can be mended for a while
wrong-head-what = What happened
wrong-head-do = What to do
wrong-head-until = Until when
wrong-cut = A piece is cut or scored wrong.
wrong-cut-do = Cut another one from an offcut or a spare sheet. Its size and scores stand in the list.
wrong-cut-until = Any time before its page is stuck
wrong-fold = A score is folded the wrong way.
wrong-fold-do = Fold it sharply the right way, and rub it with the folder. If its face cracks, take a new piece.
wrong-fold-until = Before it is stuck
wrong-seam = A seam stays open, or tape took hold crookedly.
wrong-seam-do = Lift tape at once, slowly and flat. Slip glue into an open seam on a strip of card, and press it.
wrong-seam-until = Tape: some seconds. Glue: any time
wrong-strips = The strips of the spine lie in the wrong order.
wrong-strips-do = Pull them apart and wipe them. When they hold, take new strips rather than tear these.
wrong-strips-until = While the glue is wet
wrong-page = A page hangs upside down, or on the wrong tab.
wrong-page-do = Slide it off. When it is dry, cut the tab off along its score, and hang the page on a new strip.
wrong-page-until = While the glue is wet
wrong-cover = The cover is on the wrong way round.
wrong-cover-do = Lift it off and wipe both. When it is dry, cut the spine free along its base. Make both anew.
wrong-cover-until = While the glue is wet
wrong-panel = A panel is crooked, or has bubbles.
wrong-panel-do = Lift a corner and lay it anew. Prick a bubble with a needle and rub it down through paper.
wrong-panel-until = Before the tape is pressed, or the glue is dry
wrong-tight = Something sticks in its pocket.
wrong-tight-do = Trim a millimetre off it, and round its corners. Leave the pocket as it is.
wrong-tight-until = Any time

## Labels
label-maker = Designed by { $maker }
label-ready = { $n_is ->
    [one] One ready-made cover
   *[other] { $n } ready-made covers
}
label-pieces = { $n_is ->
    [one] One piece of { $stock }, cut
   *[other] { $n } pieces of { $stock }, cut
}
label-scored = { $n_is ->
    [one] One piece of { $stock }, cut and scored
   *[other] { $n } pieces of { $stock }, cut and scored
}
label-sheets = { $n_is ->
    [one] One whole sheet of { $stock }
   *[other] { $n } whole sheets of { $stock }
}
label-needs = You still need: { $needs }.
label-tape = { $length } of tape, { $width } wide
label-glue = white craft glue
label-brush = a brush
label-folder = a bone folder
label-mind = Read the guide first. Keep blades and glue away from small children.
label-counts = { $n } in each kit, { $all } in all

## For whoever makes all kits
order-made = Know what is made
order-words = Make { $n_is ->
    [one] one kit
   *[other] { $n } kits
} of this album.{ $n_is ->
    [one] {""}
   *[other] {" "}What is said of sheets and pieces here is for all of them.
}
order-spare = { $n_is ->
    [one] One of them is to spare, for what goes wrong.
   *[other] { $n } of them are to spare, for what goes wrong.
}
order-sheets = Hand over { $stock } in whole sheets: each kit has sheets of its own.
order-cut = Hand over { $stock } cut, not scored.
order-scored = Hand over { $stock } cut and scored.
order-unsaid = The album does not say what is handed over. So this sheet cuts and scores all kits, and the guide tells the same for one.
batch-words = This order is of several kits. The letters of its pieces are the same in every kit, on the sheets and in the guides.
batch-caption = { $n_is ->
    [one] One kit
   *[other] { $n } kits, those to spare among them
}
batch-head-kit = Kit
batch-head-album = Album
batch-head-copies = Make
batch-head-pieces = Pieces
batch-head-price = Cost
batch-cost = The sheets of the whole order cost { $cost }.
batch-kit = { $kit }: { $n_is ->
    [one] one bag
   *[other] { $n } bags
}
batch-stick = { $n_is ->
    [one] Tape and glue for { $kit }, where you hand these over
   *[other] Tape and glue for all { $n } of { $kit }, where you hand these over
}
cost-heading = Know what it costs
cost-words = The order pays for whole packs. Each kit bears its share: of sheets by the area of its parts, of all else by what it takes. Amounts are rounded here once, so sums may differ by a cent.
cost-caption = What the order takes, amounts in { $currency }
cost-no-currency = your currency
cost-head-what = What
cost-head-amount = Amount
cost-head-buy = Buy
cost-head-left = Left over
cost-head-cost = Cost
cost-head-kit = Kit
cost-head-sold = Sold
cost-head-costs = One costs
cost-head-ask = Ask
cost-head-more = One more costs
cost-unknown = not known
cost-no-price = no price
cost-packs = { $n } × { $of }
cost-machine = Machine
cost-hands = Hands
cost-packaging = Packaging
cost-tape = tape
cost-tape-wide = tape, { $width } wide
cost-ribbon = ribbon
cost-ribbon-wide = ribbon, { $width } wide
cost-glue = glue
cost-thread = thread
cost-corners = photo corners
cost-cover = ready-made cover
cost-order = From the cost to the price, all kits
cost-is-cost = Cost
cost-is-overhead = Overhead, on the cost
cost-is-profit = Profit, on cost and overhead
cost-is-fees = Fees, out of the price
cost-is-tax = Tax, out of the price
cost-is-price = Price to ask
cost-kits = Cost and price of one kit
cost-without = In no amount, for want of a price or of knowing how much: { $these }.
cost-another = One more kit would need another pack: { $these }. What it uses of that is in what one more costs.
cost-another-of = One more of { $kit } would need another pack: { $these }. What it uses of that is in what one more costs.

## Pages that are chosen
chosen-heading = Choose your pages
chosen-words = { $n_is ->
    [one] Your album has one page, and you choose which.
   *[other] Your album has { $n } pages, and you choose each of them. Take a kind as often as you like, or not at all.
}
chosen-caption = The kinds of page, and the pieces that one page takes
chosen-head-kind = Kind
chosen-head-page = Page
chosen-head-pieces = Pieces
chosen-order = In the album, pages of kind 1 come first, then those of kind 2, and so on.
chosen-rest = The kit holds enough for any choice, so some pieces are left over.
chosen-places = Papers take turns from page to page: for each page, take the paper that comes at its place. The kit holds enough for any choice, so some pieces are left over.
chosen-page = page of kind { $n }
chosen-page-at = page of kind { $n } at place { $pages }
chosen-chapter = Make pages of kind { $n }: { $kind }
chosen-group = With pages of kind { $kinds }
mixes-heading = Know what each choice takes
mixes-words = Whoever gets such a kit chooses its pages. Every bag holds enough for any choice.
mixes-kind = Kind { $n }: { $kind }
mixes-pages = { $n } of kind { $kind }
mixes-caption = { $n_is ->
    [one] Sheets of each choice
   *[other] Sheets, if all { $n } kits make the same choice
}
mixes-head-mix = Pages
mixes-head-all = All sheets
mixes-head-note = Note
mixes-most = the most
mixes-bound = Of { $n } choices, { $tried } are worked out. None takes more than { $most } sheets; that is a bound, the most may be less.
mixes-tried = Of { $n } choices, { $tried } are worked out. How many sheets the others take is not known.
mixes-places = Papers take turns from page to page, so the order of pages counts. What is packed is enough for any order.
mixes-in-order = What is packed is enough for pages in the order of the kinds. For another order that is not proven.
mixes-not-proven = What is packed is enough for the choices in the table. For others that is not proven.

## The machine
machine-heading = Set up the machine
machine-caption = The files are made for these settings
machine-caption-of = The files of { $stocks } are made for these settings
machine-head-what = Setting
machine-head-is = Is
machine-bed = Largest sheet that goes in
machine-sheets-a-bed = Sheets on the bed at once
machine-bed-fill = as many as it takes
machine-bed-places = { $n }, each in its place
machine-bed-caption = What lies on the bed at once
machine-bed-file = File
machine-bed-files = { $back }, then { $front }
machine-bed-lies = Sheets, and where the lower left corner of each lies
machine-lies = { $sheet }: { $places }
machine-lies-at = { $x } | { $y }
machine-lies-apart = { $these }; { $this }
machine-lies-turned = { $sheet }, a quarter turned to the left: { $places }
machine-bed-backs = For a file of backs each sheet lies face down in the same place. Turn it over sideways there, like a page, and leave the others where they are.
machine-kerf = Width that the tool removes (kerf)
machine-margin = Border that stays free
machine-gap = Least distance between two cuts
machine-score = Scores
machine-score-line = one light stroke
machine-score-dash = cuts of { $dash }, { $gap } apart
machine-shared = Neighbours share one cut
machine-passes = Each stroke is made
machine-passes-are = { $cut } × cuts, { $score } × scores, { $draw } × marks; the files hold them all
machine-nicks = Uncut bits that hold a part (nicks)
machine-nicks-are = { $n } of { $length }; { $small } on parts under { $under }
machine-marks = Register marks
machine-marks-are = { $n } { $shape }, { $size } large, { $inset } from the edges
machine-marks-corner = corners
machine-marks-ring = rings
machine-marks-square = filled squares
machine-marks-cross = crosses
machine-bleed = Print runs on past the cut by
machine-print-first = Print the sheets of print-first.pdf before you cut, each as often as its page's name says.
machine-print-true = Print at 100 %, without fitting to the page. Measure from mark to mark on the first sheet.
machine-print-align = Lay each sheet as the file that you cut shows it. Let the machine find the marks, then cut.
machine-overrun = Closed cuts run on past their start by
machine-trail = The blade's tip trails by
machine-trail-plain = { $trail }; let the machine or its program help at corners
machine-trail-helped = { $trail }; the files lead it round corners, so turn other help off
machine-start = Closed cuts begin
machine-start-hidden = at a corner that is glued over, where there is one
machine-first = Cut out first
machine-first-small = small parts
machine-direction = Closed cuts run
machine-part-right = with the part at the tool's right
machine-clockwise = with the clock
machine-counter-clockwise = against the clock
machine-curves = Curves are
machine-cubics = cubic curves; short lines in DXF files of version R12, which knows none
machine-lines = short lines, { $off } off the curve at most
machine-both-ways = Folds that work both ways are scored
machine-both-sides = on both sides, the back first, by a file of its own
machine-text = Words drawn on parts
machine-text-sizes = names and sizes
machine-text-all = titles, names and sizes
machine-text-nothing = none
machine-text-side = Words are drawn
machine-text-back = on the back, by a file of its own that comes first
machine-layers = Layers stand in the files as
machine-layers-draw-score-cut = marks, scores, cuts
machine-layers-score-draw-cut = scores, marks, cuts
machine-layers-cut-score-draw = cuts, scores, marks: let the machine begin with the last
machine-layers-cut-draw-score = cuts, marks, scores: let the machine begin with the last
machine-layers-draw-cut-score = marks, cuts, scores: score before you cut
machine-layers-score-cut-draw = scores, cuts, marks: draw before you cut
machine-split = Each layer has a file of its own
machine-svg-lines = Lines of SVG files are
machine-svg-shapes = filled shapes, { $wide } wide
machine-dxf-layers = Layers of DXF files are told apart
machine-dxf-names = by their names alone
machine-dxf-colours = by their colours alone
machine-dxf-lines = Lines of DXF files are
machine-dxf-single = single lines and arcs
machine-time-caption = How long the machine is busy with all strokes of its files
machine-time-sheet = Sheet
machine-time-times = How often
machine-time-each = Each
machine-time-all = All
machine-time-total = All sheets
machine-time-unknown = not known
machine-none = none
machine-yes = yes
machine-try = Try a cut and a score on an offcut of each stock, and write down what pressure or power is right.
machine-try-unscored = Try a cut on an offcut of each stock, and write down what pressure or power is right.
machine-order = Let the machine draw and score first, and cut last.
machine-order-unscored = Let the machine draw first, and cut last. The files hold no scores: the pieces are handed over cut, and whoever makes a kit scores them.
first-heading = Make one kit first
first-words = A fault in one kit is a fault in all. Cut the others when this one is right.
first-cut = Cut one of each sheet, and go on until the pieces of one kit are there.
first-measure = Measure three of them against the list, the longest one among them.
first-fold = Score and fold each piece once: no score cracks or tears.
first-make = Put the kit together by its guide, and write down where you had to think.
first-sign = Sign it off, and keep it as the pattern.
first-signed = Name: ____________________  Date: ______________
pack-heading = Pack the bags
pack-words = Put the pieces into each bag in the order of the list. The largest go in first.
pack-caption = { $n_is ->
    [one] In the bag
   *[other] In each of { $n } bags
}
pack-head-mark = Letter
pack-head-piece = Piece
pack-head-size = Width × height
pack-head-each = In each bag
pack-head-all = In all bags
pack-sheet = whole sheets of { $stock }
pack-picture = The pieces of one bag, all at one scale, each with its letter and how many there are.
pack-guide = Add the printed guide.
pack-needs = The label says that a maker still needs tape, glue and tools. Strike out what you add to the bag.
pack-bag = A bag of { $width } × { $height } holds them. Piled on each other they are { $thick } thick at most.
pack-over = When all bags are packed, these pieces are over. Keep them for what goes wrong.
pack-parcel = A parcel for all { $n } bags: { $width } × { $height }, { $thick } high at most.
pack-weight = { $n_is ->
    [one] Card and paper of the bag weigh { $weight }.
   *[other] Card and paper of a bag weigh { $weight }, of all bags { $all }.
}
pack-weight-unknown = Their weight is not known: weigh one bag.

## Names: of pieces, of parts and panels
name-panel = panel for { $what }
name-of-page = page { $number } { $what }
name-of-kind = kind { $number } { $what }
name-on-page = { $what } of page { $number }
name-of-insert = { $insert } { $what }
name-leaf = { $what } leaf { $number }
name-no = { $what } no. { $number }
name-counted = { $what } { $number }
name-length = { $what }, piece { $number }
name-block = block for { $what }
term-pocket-front = pocket piece
term-panel = panel
term-page = page panel
term-hinge-t = middle hinge
## Kinds: where the album's own words of a kind read badly
insert-photo-mat = photo mat
insert-journal-card = journal card
insert-belly-band = belly band
insert-file-tab = file tab

## A class
class-heading = Bring this to the class
class-words = { $n_is ->
    [one] One maker makes
   *[other] { $n } makers make
} this album, each from sheets of their own, unless they are handed pieces. Hand out the sheets as the table says.
class-sheets = Sheets to hand out
class-head-group = Group
class-head-makers = Makers
class-head-stock = Stock
class-head-sheet = Sheet
class-head-by = Cut
class-head-each = Each maker
class-head-all = All, with spares
class-by-trimmer = on the trimmer
class-by-machine = by machine
class-handed = { $group }: hand out { $n_is ->
    [one] one bag
   *[other] { $n } bags
} with { $pieces } pieces in each, cut by you.
class-tools = Tools for all groups
class-head-tool = Tool
class-head-many = How many
class-shared = { $n_is ->
    [one] Every maker has each tool.
   *[other] Up to { $n } makers of a group share a trimmer, a machine, a scoring board, a punch, an awl, a weight. Every maker has the rest.
}
class-pages = A page for each maker: print the one of their group.
class-templates = For each group that cuts by hand, the parts at true size: templates.pdf.
class-spares = The spare sheets and pieces that this order counts.
class-no-spares = Nothing is to spare in this order: bring some sheets more, for what goes wrong.
class-yours = Make one album: { $group }
class-you = { $n_is ->
    [one] You have the sheets and tools below.
   *[other] You are { $n } makers. Each of you makes one album, from the sheets below.
}
class-you-pieces = { $n_is ->
    [one] You make one album, from pieces that are cut.
   *[other] You are { $n } makers. Each of you makes one album, from pieces that are cut.
}
class-pieces = Your pieces
class-stick = Tape and glue for all
class-cut-trimmer = Cut on the trimmer: { $sheets }.
class-cut-machine = Cut by machine: { $sheets }.
class-cut-done = Lay out your pieces: they are cut.
class-score = Score the pieces at the distances in the list
tool-machine = Cutting machine

## Words in pictures
bench-stop = stop
bench-fence = fence
bench-blade = blade
bench-rest = rest

## Templates at true size
prepress-title = { $title }: sheets to print first
prepress-page = { $sheet }, { $times } ×
prepress-shows = Sheet { $sheet } at true size, to be printed { $times } times before it is cut: register marks, and what is printed on its parts.
template-title = { $title }: templates
template-count = { $count } in a kit
template-plan = { $part }: { $tiles } tiles
template-page = { $title }: templates at true size, page { $page } of { $pages }.
template-check = Check the two lines with a ruler. If they are off, print again at 100 %, without fitting to the page.
template-cut = cut
template-valley = valley fold
template-mountain = mountain fold
template-both = folds both ways
template-glued = glued
template-tiles = Tiles: cut one of two along the dotted line, lay it on the other's with rings on rings, tape.
template-shows = Page { $page } of { $pages } of the templates at true size. Parts: { $parts }. Lines of 100 mm and of 4 in to check the print by.

## The test piece
coupon-title = Test piece for a machine
coupon-shows = The test piece: marks, strips in a slot, squares, strips with scores, plain strips, and letters A to I, K and L
coupon-before = Cut the test piece
coupon-words = One piece tells what your machine does. Cut it once for each card and tool, measure it, and write down what you read.
coupon-step-card = Take the card that your albums are of. Lay its grain along the upright strip of scores, E, as far as you know it: strips K and L tell.
coupon-step-scale = Load the cutting file. See that your program shows the sheet as large as it is. Change no size.
coupon-step-cut = Let the machine draw first, score next, and cut last.
coupon-step-wait = Leave the sheet lying until all is cut. Do not press anything out yet.
coupon-measure = Measure
coupon-step-marks = A: measure between the long marks, from left to right and from bottom to top, to the nearest 0.1 mm.
coupon-step-strips = B: take out the ten strips. Push them together along a rule and measure the whole row.
coupon-step-slot = B: measure the slot that the strips came from, along its long side.
coupon-step-square = C: lay the small square back into its hole. It has the tool's width as play, both ways.
coupon-judge = Judge
coupon-step-fold = D and E: fold every score, those with a V as a valley, those with an M as a mountain, once all the way over.
coupon-step-clean = D and E: on each strip note the first number that folds clean as a valley, and as a mountain: straight, no crack, no fuzz. Write 0 where none does.
coupon-step-free = F: press on each square. Note the first that comes free at its corner without a tear.
coupon-step-sharp = G: look at the corners. Note the square with the sharpest. Leave this out without a swivelling blade.
coupon-step-held = H: lift the sheet. Note the first piece that hangs firm and can still be pressed out clean.
coupon-step-read = I: see which words can be read. Draw none smaller.
coupon-step-hang = K and L: hold each plain strip flat under a rule at the table's edge, 90 mm of it sticking out. Measure how far its free end hangs down, to the millimetre. Turn it over, measure again, and write the middle of both.
coupon-boxes = Write here, then into the file measured.json
coupon-head-letter = By
coupon-head-what = What
coupon-head-read = Read
coupon-head-field = In the file
coupon-box-across = Marks from left to right, mm
coupon-box-up = Marks from bottom to top, mm
coupon-box-strips = Row of ten strips, mm
coupon-box-slots = Slot, mm
coupon-box-valley = First number with a clean valley fold
coupon-box-mountain = First number with a clean mountain fold
coupon-box-score = Number that you like best, only if it is another
coupon-box-overrun = Number of the first square that came free
coupon-box-trail = Number of the sharpest square
coupon-box-nick = Number of the first piece that held
coupon-box-hang = Free end hangs down, mm
coupon-ladders = What the numbers stand for, in mm
coupon-head-number = Number
coupon-head-score = D, E: score
coupon-head-overrun = F: run on
coupon-head-trail = G: trail
coupon-head-nick = H: left uncut
coupon-after = Make the cutter file
coupon-step-write = Write what you read into measured.json in place of null. What you did not measure stays null.
coupon-step-save = Let the program make your cutter file of it: coupon --measured measured.json --save { $save }
coupon-step-save-from = Let the program make your new cutter file of it. All else stays as in the file that this piece was made with: coupon --cutter { $cutter } --measured measured.json --save { $save }
coupon-step-again = If it says that the scale is off, mend that in the machine or its program, then cut a new piece.
