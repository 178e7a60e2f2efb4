# SPDX-License-Identifier: MIT
# Words on the true-size templates.

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
