# SPDX-License-Identifier: MIT
# What only the page says.

## Places
place-a-page = page { $name }
place-insert = insert { $name }
place-stock = the { $name }
place-every-page = every page
place-panels = the panels
place-spine = the spine
place-cover = the cover
place-album = the album
place-machine = your machine

## Fields whose name on the page is not their name in the file
field-about = what it is
field-across = lies across
field-bound = bound at the
field-by = cut by
field-brings = what you bring besides
field-choice-pages = pages in each album
field-caliper = thickness of one sheet
field-content = what goes in, thickness
field-copies = how many albums
field-corner = clipped corner
field-count = how many
field-covering = covering paper
field-edge-corners = its corners are
field-edge-depth = how deep
field-edge-finish = it is cut to a
field-edge-on = where
field-edge-size = size
field-ease = ease (shorter than the page by)
field-endpaper = end paper
field-faces = worked face
field-grammage = weight
field-fees = fees, out of the price
field-hour = an hour of hands
field-kit-album = its album
field-kit-copies = how many to make
field-kit-name = name of the kit
field-group-album = its album
field-group-by = what they cut by
field-group-count = how many makers
field-group-name = name of the group
field-language = language of guide and job sheet
field-lies-count = how many lie there
field-lies-sheet = sheet or offcut
field-lead-in = lead-in (clipped corner of the tab)
field-machine-hour = an hour of the machine
field-minutes-a-kit = minutes of hands a kit takes besides
field-outline-fold = its scores fold as
field-outline-layer = layer of its outline
field-outline-scores = layer of its scores
field-outline-unit = unit of the drawing
field-overflap = closing flap
field-packaging = packaging of a kit
field-packs-of = sheets in a pack
field-pitch = page to page at the spine (pitch)
field-price = price of one sheet
field-profit = profit, on cost and overhead
field-reveal = border of card left showing
field-sold-price = what that costs
field-shared-by = makers who share a trimmer, a machine, a punch
field-shared-cuts = neighbours share one cut
field-spare-kits = spare kits of each
field-spare-parts = spare parts
field-square = how far it stands out (square)
field-stock = cut from
field-title = name of the album
field-supplies-of = how much is sold together
field-tax = tax, out of the price
field-together = what shares sheets
field-tolerance = how far off a hand may be
field-turn-in = turn-in

## Choices whose word on the page is not their word in the file
choice-deckle = deckle, as if torn
choice-notch = thumb notch
choice-perforated = row of cuts along it
choice-slits = row of cuts square to it
choice-all-over = all over, no up or down
choice-batch = the parts of all kits
choice-de = German
choice-en = English
choice-free = any way
choice-height = along its height
choice-kit = the parts of one kit and its copies
choice-long = along the long side
choice-machine = a machine
choice-one-way = with an up and a down
choice-short = along the short side
choice-spine = along the spine
choice-trimmer = hand, on a trimmer
choice-width = along its width

## What is changed
about-measured = What was read off the test piece
about-machine = Your machine, { $setting }
count-of-the-other-sheet = The number of sheets at hand was the other sheet's: give the new one's.
field-at-place = { $place }, { $field }
field-of-all = all pages of the kind { $kind }, { $field }
gone = { $what } is not there any more
insert-lost-its-page = Insert { $insert } was for that page alone; it now goes where there is room.
mend = { $field }: { $to }
mend-instead = { $field }: { $to } instead of { $was }
mend-short = Make it { $to }
no-unit = this is no unit
no-unit-help = take mm, cm or in
nothing-was-changed = nothing was changed
on-another-ruler = Sizes that are worked out now lie on the marks of another ruler: parts change by { $most } at most.
paper-is-new = It is cut from { $paper }, which is new among the papers: give your own sizes there.
price-of-the-other-sheet = The price was the other sheet's: give the new one's.
stock-name = { $name } can't be the name of a paper
stock-name-help = use up to 32 small letters, figures and hyphens, such as kraft-card
stock-twice = there is a paper called { $name } already
stock-twice-help = give it another name
take-other-sheet = Take { $sheet } for { $paper }
the-kind = the kind { $kind }
what-a-finding-speaks-of = what a finding speaks of

## An earlier edition
compare-with-nothing = nothing is named to compare with
nothing-cut-again = nothing is cut again
old-edition-not-read = { $file } can’t be compared with: it can’t be read
old-edition-stopped = { $file } can’t be compared with: it does not go together

## A batch
album-not-on-the-table = open that album file here, or give the kit another album
batch-goes-together = { $stops ->
        [0] All kits go together.{ $warns ->
                [0] { "" }
                [one] {" "}One thing may disappoint.
               *[other] {" "}{ $warns } things may disappoint.
            }
        [one] Not all kits go together yet: one thing stops it.
       *[other] Not all kits go together yet: { $stops } things stop it.
    }
batch-machine-can-not-be-used = Nothing can be cut: a size of your machine can’t be used. The kits themselves: { $sentence }
batch-nothing-to-cut = Nothing to cut yet: mend first what stops it. The batch file can be kept at any time.
batch-not-read = this batch file can't be read
batch-not-together-yet = the kits do not all go together yet
batch-of-kits = { $kits ->
        [one] 1 kind of kit
       *[other] { $kits } kinds of kit
    }, { $copies ->
        [one] 1 kit
       *[other] { $copies } kits
    } to be made in all.
class-brings = several things with a semicolon between
class-of-groups = { $kits ->
        [one] 1 group
       *[other] { $kits } groups
    } of makers, { $copies ->
        [one] 1 album
       *[other] { $copies } albums
    } to be made in all.
class-to-cut = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } to cut for the whole class. The zip holds them as SVG and DXF with their pictures, a page for the makers of each group, the teacher’s job sheet, the guides, and the class file with its albums.
batch-to-cut = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } to cut for all kits. The zip holds them as SVG and DXF with their pictures, the job sheet, each kit’s guide, and the batch file with its albums.
group-in-short = { $makers ->
        [one] 1 maker
       *[other] { $makers } makers
    } of { $album }, on { $sheets }
group-is-called = small letters, figures and hyphens: its page is called by it
handed-cut = cut
handed-scored = cut and scored
handed-sheets = whole sheets
handed-as-albums = as each album says
handed-as-whole = whole sheets
handed-over-of = How { $stock } is handed over
machine-as-all = your machine, as set below
machine-of-group = Machine of this group
machine-of-its-own = one with settings of its own
sheet-of-stock = Sheet of { $stock }
kind-wants-paper = this kind is cut from { $paper } too, which the album has not
kind-wants-paper-help = add a paper called so to the album first
kit-has-its-paper = This kit is cut from { $paper } instead of { $like }: give its sheet and price among the changes.
kit-is-called = small letters, figures and hyphens: its files are called by it
kit-in-short = { $copies } × { $album }{ $own ->
        [0] { "" }
       *[other] , with { $papers }
    }{ $changes ->
        [0] { "" }
        [one] , 1 change
       *[other] , { $changes } changes
    }{ $chosen ->
        [0] { "" }
        [one] , 1 page of the buyer’s choice
       *[other] , { $chosen } pages of the buyer’s choice
    }
name-twice = a file of the zip is called { $name }: give the album another name
pack-lacks = how much it is and its price belong together
pack-lacks-help = say both
page-changes-gone = { $count ->
        [one] A change of the album’s pages is gone: the buyer’s pages take their place.
       *[other] { $count } changes of the album’s pages are gone: the buyer’s pages take their place.
    }
not-on-the-table = there is no { $file } on the table
kind-not-on-the-table = open that kind file here, or take its name out of the album file
picture-not-on-the-table = choose it at its stock, under Card, paper and board; without it the stock is shown in its colour
cutter-not-on-the-table = open that cutter file here, or choose another machine
the-album = the album
the-batch = the batch

## The drawer
drawer-after = What lies there after the job
drawer-head-count = How many
drawer-head-new = Of these new
drawer-head-sheet = Sheet or offcut
drawer-head-stock = Stock
drawer-in-short = { $state ->
        [none] no drawer is used
        [unread] can’t be used yet
        [lies] { $lie ->
            [one] 1 sheet or offcut lies there
           *[other] { $lie } sheets and offcuts lie there
        }
       *[taken] { $taken } of { $lie } sheets and offcuts are taken
    }
drawer-new = { $new ->
        [0] { "" }
       *[other] { $new }
    }
drawer-not-on-the-table = open that drawer file here, or use no drawer
drawer-not-used = not used: nothing is cut from { $stock } here
drawer-takes = { $taken ->
        [0] nothing is taken
        [one] 1 is taken
       *[other] { $taken } are taken
    }, { $left ->
        [0] nothing is left
        [one] 1 is left
       *[other] { $left } are left
    }
lies-as = a name such as A4, or its size as it lies: across, then along the grain or up the pattern, such as 210x83mm
lies-count = { $count } is no count of sheets
lies-count-help = say it in figures, such as 12
lies-lacks = a sheet or its stock is missing
lies-lacks-help = say of which stock, and how large: A4, or 210x83mm
no-drawer = no drawer is used, or nothing is laid yet
the-drawer = the drawer
the-machine = the machine

## Whether it goes together
goes-together = { $stops ->
        [0] Goes together.{ $warns ->
                [0] { "" }
                [one] {" "}One thing may disappoint.
               *[other] {" "}{ $warns } things may disappoint.
            }
        [one] Does not go together yet: one thing stops it.
       *[other] Does not go together yet: { $stops } things stop it.
    }
goes-together-with-spare = Goes together; { $spare } to spare at the tightest place.{ $warns ->
        [0] { "" }
        [one] {" "}One thing may disappoint.
       *[other] {" "}{ $warns } things may disappoint.
    }
machine-can-not-be-used = Nothing can be cut: a size of your machine can’t be used. The album itself: { $sentence }

## What there is of an album
all-of-kind = All { $count } pages of the kind { $kind }
all-of-kind-pages = Pages { $pages }: what is changed here is changed in each of them.
pages-differ = They differ: { $each }.
page-has = page { $page } has { $value }
they-differ = they differ
follows-from-sizes = follows from the others
album-in-a-cover = { $pages ->
        [one] 1 page
       *[other] { $pages } pages
    } of { $size }, spine: { $spine }, a { $cover } cover{ $copies ->
        [one] { "" }
       *[other] ; to be made { $copies } times
    }.
album-without-cover = { $pages ->
        [one] 1 page
       *[other] { $pages } pages
    } of { $size }, spine: { $spine }, no cover{ $copies ->
        [one] { "" }
       *[other] ; to be made { $copies } times
    }.
laid-open = Laid open between pages { $page } and { $next }.
paper-thick = { $sheets }, { $caliper } thick
number-across = On the drawing: { $panel }, across ({ $piece })
number-up = On the drawing: { $panel }, up ({ $piece })
pieces-of-a-kit = { $pieces ->
        [one] 1 piece
       *[other] { $pieces } pieces
    }, { $different } of them different.

## How it comes together
mind-cover-face = The border of card is alike all round.
mind-cover-tab = The page hangs by its card: the paper goes over the tab afterwards.
mind-fill-pocket = They go in last.
mind-hang-page = The lead-in goes in first.
mind-line-cover = The end flaps of the spine are stuck on it first, and lie under the paper.
mind-line-sleeve = Do it while the pages are still open; afterwards nobody reaches in.
mind-make-cover = Let what is glued dry under a weight.
mind-make-insert = Fold along the scores before you glue.
mind-make-page = Score first, fold along the scores, then tape or glue the seams.
mind-meet-cover = The same distance is left at head and tail.
mind-put-round = The album is closed for that.
mind-stack-strips = Leave the gussets free.
step-cover-face = Stick the panels on the pages, { $places ->
        [one] 1 place
       *[other] { $places } places
    }
step-cover-tab = Stick the panels over the tabs, { $places ->
        [one] 1 place
       *[other] { $places } places
    }
step-fill-pocket = Put the inserts into their pockets
step-hang-page = Slide the pages on, the last one first, { $places ->
        [one] 1 place
       *[other] { $places } places
    }
step-line-cover = Line the inside of the cover
step-line-sleeve = Stick what lies inside the pockets
step-make-cover = Make the cover
step-make-insert = Make what goes into the pockets
step-make-page = Fold and stick the pages, { $places ->
        [one] 1 place
       *[other] { $places } places
    }
step-meet-cover = Stick the spine into the cover
step-put-round = Put the band round
step-stack-strips = Fold and stick the hinge strips, the narrow ones on the wide

## Sheets
nothing-to-cut = Nothing to cut yet: mend first what stops it. The album file can be kept at any time.
paper-cheapest = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    }{ $priced ->
        [0] { "" }
       *[other] {" "}(cost: { $cost })
    }, { $used } % used; no layout { $by_price ->
        [0] takes less card.
       *[other] costs less.
    }
paper-of-several-sizes = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    }{ $priced ->
        [0] { "" }
       *[other] {" "}(cost: { $cost })
    }, { $used } % used; with several sizes of sheet it is not known whether fewer would do.
paper-or-cheaper = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    }{ $priced ->
        [0] { "" }
       *[other] {" "}(cost: { $cost })
    }, { $used } % used; another layout might { $by_price ->
        [0] take { $savable } % less card,
       *[other] cost { $savable } % less,
    } not more than that.
paper-or-fewer = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    }{ $priced ->
        [0] { "" }
       *[other] {" "}(cost: { $cost })
    }, { $used } % used; perhaps it can be done in { $bound }, surely not in fewer.
paper-proven = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    }{ $priced ->
        [0] { "" }
       *[other] {" "}(cost: { $cost })
    }, { $used } % used; no layout can do it in fewer.
paper-why = Why not in fewer: { $why }.
sheet-cut = { $times ->
        [one] cut once
       *[other] cut { $times } times
    }, { $parts ->
        [one] 1 part
       *[other] { $parts } parts
    }
sheets-in-all = { $counts }{ $priced ->
        [0] { "" }
       *[other] {" "}(cost in all: { $cost })
    }; no layout can do it in fewer.
sheets-in-all-or-fewer = { $counts }{ $priced ->
        [0] { "" }
       *[other] {" "}(cost in all: { $cost })
    }; whether the { $papers } can be done in fewer is not known.
sheets-line = { $counts }{ $priced ->
        [0] { "" }
       *[other] {" "}(cost in all: { $cost })
    }
sheets-of = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } of { $paper }
to-cut = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } to cut. The zip holds them as SVG and DXF with their pictures, the cutting list, the guide, and the album file with its drawings.

## Other sizes of page
size-apart = { $size } ({ $apart })
size-counts = { $counts ->
        [0] as many sheets
       *[other] { $sheets }
    }{ $way ->
        [less] , { $money } less a kit
        [more] , { $money } more a kit
       *[none] { "" }
    }
size-sheets = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } of { $paper } instead of { $before }
size-sheets-or-fewer = { $sheets ->
        [one] 1 sheet
       *[other] { $sheets } sheets
    } of { $paper } or fewer instead of { $before }
sizes-near = { $saving ->
        [0] None of { $tried } sizes near yours takes fewer sheets.
        [one] 1 size near yours would save something.
       *[other] { $saving } sizes near yours would save something.
    }

## Why nothing is answered
album-not-read = this album file can't be read
kit-not-written = the kit could not be written: { $error }
machine-not-read = a size of your machine can't be read; put it right first
no-such-file = the kit has no such file
nobody-waits = nobody waits for this
not-done-here = this can't be done here
not-together-yet = the album does not go together yet
nothing-here = there is nothing here
page-of-its-own-machine = this page answers to its own machine alone
program-ends = the program is ending
program-failed = the program failed at this: please report it with your album file
question-broke-off = the request broke off
question-not-read = this can't be read: { $error }
question-too-large = an album file has some KB, and with its drawings 8 MB at the very most
question-too-slow = the request took too long to arrive

## The machine
machine-sheet = Sheet and cut
machine-strokes = How it cuts and scores
machine-way = Where it begins and which way it goes
machine-print = Sheets that are printed first
machine-files = What is in its files
machine-time = How fast it is
field-cutter-margin = border that can’t be used (margin)
field-cutter-gap = least distance between parts (gap)
field-cutter-kerf = what the tool takes away (kerf)
field-cutter-bed = largest sheet that goes in
field-cutter-sheets-a-bed = sheets on the bed at once
field-cutter-passes-cut = times that it goes over cuts
field-cutter-passes-score = times that it goes over scores
field-cutter-passes-draw = times that it goes over marks
field-cutter-score = scores are made as
field-cutter-score-dash = length of each cut of a score
field-cutter-score-gap = card left between two such cuts
field-cutter-both-ways = folds that work both ways are scored
field-cutter-text = words drawn on parts
field-cutter-text-side = words are drawn on the
field-cutter-pen = how broad the pen draws
field-cutter-nicks = nicks that hold the parts
field-cutter-nicks-length = length of a nick
field-cutter-nicks-count = nicks of a part
field-cutter-nicks-small-count = nicks of a small part
field-cutter-nicks-small-under = a part is small under
field-cutter-marks = register marks
field-cutter-marks-shape = each mark is
field-cutter-marks-size = size of a mark
field-cutter-marks-inset = from the sheet’s edges to a mark
field-cutter-marks-number = marks of a sheet
field-cutter-marks-line = breadth of a mark’s lines
field-cutter-marks-along = marks stand
field-cutter-marks-bleed = print runs on past the cut (bleed)
field-cutter-overrun = runs on past the start (overrun)
field-cutter-trail = blade trails by
field-cutter-corner-help = corners drawn for a trailing blade
field-cutter-start = closed cuts begin
field-cutter-order = parts are cut out
field-cutter-direction = closed cuts run
field-cutter-shared-cuts = neighbours share one cut
field-cutter-smallest-inner = narrowest hole or notch
field-cutter-curves = curves are written as
field-cutter-curve-tolerance = short lines stand off their curve by
field-cutter-layer-order = layers stand in this order
field-cutter-split-layers = a file of its own for each layer
field-cutter-svg-units = unit of SVG files
field-cutter-svg-lines = lines of SVG files are
field-cutter-hairline = such shapes are as wide as
field-cutter-dxf-version = version of DXF files
field-cutter-dxf-layers = layers of DXF files have
field-cutter-dxf-lines = lines of DXF files are
field-cutter-colours-cut = colour of cuts
field-cutter-colours-score = colour of scores
field-cutter-colours-draw = colour of marks
field-cutter-colours-register = colour of register marks
field-cutter-speed-cut = speed of cuts, mm a second
field-cutter-speed-score = speed of scores, mm a second
field-cutter-speed-draw = speed of marks, mm a second
field-cutter-lift = seconds from one stroke to the next
about-cutter-margin = of the sheet; a machine may want 5 mm
about-cutter-gap = 1 mm is usual for a machine; nicks want one
about-cutter-kerf = width of the cut; a blade takes nothing. Measure it with the test piece
about-cutter-bed = a sheet that is larger is told
about-cutter-sheets-a-bed = a bed larger than the sheet takes several; each bed is one file then
about-cutter-passes-cut = each time a laser goes over it takes more away: measure the kerf anew
about-cutter-passes-score = twice may cut through: try it on a scrap
about-cutter-score = a row of short cuts folds in thick card; try it on a scrap
about-cutter-both-ways = on both sides a file for the back comes first: you turn the sheet over. For machines that can’t crease
about-cutter-text = in single strokes, where they will not show
about-cutter-text-side = on the back a file for the back comes first: you turn the sheet over
about-cutter-pen = words keep so far from scores and cuts
about-cutter-nicks = parts stay in their sheet until you cut the nicks by hand: mind your fingers
about-cutter-marks = printed on each sheet before it is cut, for the machine to find the print by; parts keep clear of them
about-cutter-marks-number = three or five tell which way round the sheet lies
about-cutter-marks-bleed = the gap must be twice as large, and the margin as large
about-cutter-overrun = a blade needs it to come free; a laser burns there twice
about-cutter-trail = of a swivelling blade alone; a laser or a fixed blade has none
about-cutter-corner-help = only where the machine’s own software does not do it already
about-cutter-smallest-inner = what is narrower is told; nothing is changed
about-cutter-layer-order = cuts last, unless your machine begins with what stands last
about-cutter-svg-lines = shapes only where a program shows nothing else: many machines would cut round each of them
about-cutter-dxf-layers = colours alone put all on one layer
about-cutter-dxf-lines = single ones where a program knows no polylines; the machine may lift its tool between them
about-cutter-lift = the way there among them, for the cost
bed-one = one, a file for each sheet
bed-fill = as many as it takes
bed-stated = at places that the file says
marks-none = none
marks-some = some
score-line = one stroke
score-dashes = a row of short cuts
nicks-none = none
nicks-some = some
choice-corner = a corner
choice-ring = a ring
choice-square = a filled square
choice-cross = a cross
choice-short-sides = along the two short sides
choice-long-sides = along the two long sides
choice-nearest = where the head travels least
choice-hidden = at a corner that is hidden later
choice-travel = on the shortest way
choice-small-first = the smallest first
choice-part-left = with the part on the left
choice-part-right = with the part on the right
choice-clockwise = clockwise
choice-counter-clockwise = against the clock
choice-arcs = true arcs
choice-cubics = cubic curves
choice-lines = short lines
choice-draw-score-cut = marks, scores, cuts
choice-score-draw-cut = scores, marks, cuts
choice-cut-score-draw = cuts, scores, marks
choice-cut-draw-score = cuts, marks, scores
choice-draw-cut-score = marks, cuts, scores
choice-score-cut-draw = scores, cuts, marks
choice-strokes = strokes
choice-front = front
choice-back = back
choice-names-and-sizes = names and sizes
choice-titles-names-and-sizes = titles, names and sizes
choice-nothing = nothing
choice-both-sides = both sides
choice-shapes = narrow filled shapes
choice-names-and-colours = names and colours
choice-names = names alone
choice-colours = colours alone
choice-polylines = polylines
choice-single = single lines and arcs

## The test piece
field-measured-scale-across = marks for 100 mm, left to right
field-measured-scale-up = marks for 100 mm, bottom to top
field-measured-strips = ten strips pushed together
field-measured-slots = slot that the strips came from
field-measured-folds-d-valley = D: first score with a clean valley
field-measured-folds-d-mountain = D: first score with a clean mountain
field-measured-folds-e-valley = E: first score with a clean valley
field-measured-folds-e-mountain = E: first score with a clean mountain
field-measured-hang-k = plain strip K hangs down by
field-measured-hang-l = plain strip L hangs down by
field-measured-best-score = score that you like best, if another
field-measured-nick-held = first piece that its nicks held
field-measured-best-overrun = first square that came free
field-measured-best-trail = square with the sharpest corners
