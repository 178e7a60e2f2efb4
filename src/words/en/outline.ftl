# SPDX-License-Identifier: MIT
# What is wrong with an outline that comes from a drawing.

outline-and-more = { $text }; { $more } more like it
# What is drawn has a left edge and a bottom; places are measured from there.
outline-spot = { $x } from the left and { $y } from the bottom

## The file
outline-bad-attribute = { $attribute } is { $value }, which can't be read
outline-bad-attribute-help = draw it anew, or save the drawing as plain SVG
outline-bad-entity = { $what } can't be read
outline-bad-entity-help = draw it anew, or turn it into a polyline and save the drawing again
outline-empty = nothing is drawn in { $file }
outline-empty-help = turn text, symbols and blocks into paths, put the outline where it is not hidden, and save it again
outline-no-group = this is neither SVG nor DXF: here should be the number of a DXF group, and there is { $found }
outline-no-group-help = save the drawing as SVG, or as DXF in text form
outline-no-svg = this is XML, but no SVG: it begins with { $found }
outline-no-svg-help = save the drawing as SVG or DXF
outline-no-xml = this is no sound SVG: { $error }
outline-no-xml-help = save the drawing again as plain SVG
outline-tangled = { $what } and what lies round it come near each other in too many places
outline-too-deep = groups lie more than { $most } deep in each other
outline-too-deep-help = ungroup what is drawn
outline-too-many = there are more than { $most } curves
outline-too-many-help = draw it simpler: no knife follows so many
outline-unread = the drawing { $file } has not been read
    .page = the drawing { $file } is not on the table
outline-unread-help = check and kit read it
    .page = choose its file at the insert, or drop it on this page

## What is left out
outline-has-block = { $what } is a block, and blocks are left out
outline-has-block-help = if it belongs to the shape, explode it in the drawing
outline-has-clip = { $what } is not looked at: what it hides would be cut
outline-has-clip-help = cut the shapes themselves where it clips them
outline-has-image = { $what } is a picture, and pictures are left out
outline-has-image-help = if it shows the shape, trace it in the drawing program
outline-has-other = { $what } is left out
outline-has-other-help = if it belongs to the shape, turn it into a path
outline-has-text = { $what } is text, and text is left out
outline-has-text-help = if it belongs to the shape, turn its letters into paths
outline-has-use = { $what } is a copy of something drawn elsewhere, and copies are left out
outline-has-use-help = if it belongs to the shape, unlink it in the drawing program
outline-speck = { $what } is { $size } large, { $at }: it is left out
outline-speck-help = delete it in the drawing
outline-twice = { $what }, { $at }, is drawn twice: it is cut once
outline-twice-help = delete one of the two in the drawing

## What is asked
outline-no-layer = nothing in { $file } stands in a layer or group { $layer }
outline-no-layer-help = there are: { $names }
outline-no-layers-help = give the group a name in the drawing, or leave the field out
outline-no-unit = { $file } does not say in which unit it is drawn
outline-no-unit-help = say how wide it is to be, as "width": "80 mm", or in which unit it is drawn, as "unit": "mm"
outline-proportions = at this width it is { $height } tall
outline-proportions-help = ask for its width or for its height
outline-size = it is { $width } wide and { $height } tall: from { $least } to { $most } can be made
outline-size-help = say how wide it is to be, as "width": "80 mm"

## The shape
outline-branches = { $count } lines meet { $at }, one of them { $what }
outline-branches-help = delete what is no edge of the shape there
drawn-crosses = { $what } and { $other } cross or touch { $at }
drawn-crosses-itself = { $what } crosses or touches itself { $at }
drawn-crosses-help = move them apart, or join them to one shape
outline-flat = { $what }, { $at }, encloses nothing
outline-flat-help = delete it, or put it into the layer of the scores if it is one
outline-island = { $what }, { $at }, lies in a hole: it would fall out
outline-island-help = delete it, or join it to the edge of the hole
outline-open = { $what } is open: it ends { $from }, and the next end is { $gap } away, { $to }
outline-open-help = join the two ends in the drawing
outline-several = { $what }, { $width } x { $height }, with its middle { $at }, lies beside { $first }: there are two pieces
outline-several-help = leave one piece in the drawing, or name the layer or group of one of them, as "layer": "cloud"

## Scores
outline-many-scores = there are more scores than a shape can have
outline-score-bent = the score { $what } is bent, { $at }
outline-score-bent-help = draw scores straight
outline-score-ends = the score { $what }, with its middle { $at }, does not run from edge to edge
outline-score-ends-help = draw it from one edge to another; holes may lie on its way
outline-scores-cross = the score { $what } crosses another { $at }
outline-scores-cross-help = let one of the two end before it
