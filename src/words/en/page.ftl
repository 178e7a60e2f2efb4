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
