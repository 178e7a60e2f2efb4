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
field-caliper = thickness of one sheet
field-content = what goes in, thickness
field-copies = how many albums
field-corner = clipped corner
field-count = how many
field-covering = covering paper
field-ease = ease (shorter than the page by)
field-endpaper = end paper
field-faces = pocket on the
field-grammage = weight
field-lead-in = lead-in (clipped corner of the tab)
field-overflap = closing flap
field-pitch = page to page at the spine (pitch)
field-price = price of one sheet
field-reveal = border of card left showing
field-square = how far it stands out (square)
field-stock = cut from
field-title = name of the album
field-tolerance = how far off a hand may be
field-turn-in = turn-in

## Choices whose word on the page is not their word in the file
choice-all-over = all over, no up or down
choice-free = any way
choice-height = along its height
choice-long = along the long side
choice-one-way = with an up and a down
choice-short = along the short side
choice-spine = along the spine
choice-width = along its width

## What is changed
about-machine = Your machine, { $setting }
count-of-the-other-sheet = The number of sheets at hand was the other sheet's: give the new one's.
field-at-place = { $place }, { $field }
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
the-kind = the kind { $kind }
what-a-finding-speaks-of = what a finding speaks of

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
