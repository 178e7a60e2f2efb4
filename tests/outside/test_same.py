# SPDX-License-Identifier: MIT
"""The SVG and the DXF of a sheet hold the same strokes, path by path, within 0.01 mm."""

import shapely

import shape
from read import LAYERS
from verdict import no_faults

NEAR = 0.01


def faults(kit):
    return [
        f"{sheet.name}, {layer}: {fault}"
        for sheet in kit.sheets
        for layer in LAYERS
        for fault in differences(sheet.svg.on(layer), sheet.dxf.on(layer))
    ]


def test_same(kit):
    no_faults(faults(kit))


def differences(svg, dxf):
    """Pairs every path of one file with one of the other, then holds the whole layers against each other."""
    if len(svg) != len(dxf):
        yield f"the SVG has {len(svg)} paths, the DXF {len(dxf)}"
    if not svg or not dxf:
        return
    left = list(range(len(dxf)))
    tree = shapely.STRtree([path.line for path in dxf])
    for path in svg:
        near = [n for n in tree.query(path.line.buffer(2 * NEAR)) if n in left and alike(path, dxf[n])]
        if near:
            left.remove(near[0])
        else:
            yield f"{path} is not in the DXF"
    yield from (f"{dxf[n]} of the DXF is not in the SVG" for n in left)
    off = shape.apart(*(shapely.MultiLineString([path.line for path in paths]) for paths in (svg, dxf)))
    if off > NEAR:
        yield f"the layers are {off:.4f} mm apart"


def alike(one, other):
    """Whether two paths run over the same places."""
    if one.closed != other.closed:
        return False
    if max(abs(a - b) for a, b in zip(one.line.bounds, other.line.bounds)) > NEAR:
        return False
    return shape.apart(one.line, other.line) <= NEAR
