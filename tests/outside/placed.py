# SPDX-License-Identifier: MIT
"""Which strokes of a sheet belong to which placed part.

An SVG says so itself; a DXF does not, so there a part is found by the place that the report gives it.
"""

from dataclasses import dataclass, field
from functools import cached_property

from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

import shape

#: How far a contour's box may be from the report's before it is no longer taken for the part.
FOUND = 0.5


@dataclass
class Placed:
    """One part on one sheet."""

    part: dict
    placement: dict
    outer: object = None
    inner: list = field(default_factory=list)
    scores: list = field(default_factory=list)
    marks: list = field(default_factory=list)
    kerf: float = 0.0

    def __str__(self):
        return f"{self.part['id']} copy {self.placement['copy']}"

    @cached_property
    def tool_path(self):
        """The area within the outer cut, less what lies within the inner ones."""
        return Polygon(self.outer.area.exterior, [cut.area.exterior for cut in self.inner])

    @cached_property
    def nominal(self):
        """The finished part, kerf taken off, as it lies on the sheet."""
        return shape.shrunk(orient(self.tool_path), self.kerf)


def empty(kit, sheet):
    """The report's placements on a sheet by (part, copy), without strokes yet."""
    return {
        (spot["part"], spot["copy"]): Placed(kit.parts[spot["part"]], spot, kerf=kit.kerf)
        for spot in sheet.facts["placements"]
    }


def by_name(kit, sheet):
    """The placed parts of a sheet's SVG, told by `data-part` and `data-copy`; and the strokes left over."""
    placed, left = empty(kit, sheet), []
    for path in sheet.svg.paths:
        owner = placed.get((path.part, path.copy))
        (left if owner is None else strokes(owner, path)).append(path)
    for owner in placed.values():
        owner.inner.sort(key=lambda cut: cut.area.area)
        owner.outer = owner.inner.pop() if owner.inner else None
    return placed, left


def by_place(kit, sheet):
    """The placed parts of a sheet's DXF, told by where they lie; and the strokes left over."""
    placed, left = empty(kit, sheet), []
    cuts = [path for path in sheet.dxf.on("cut") if path.closed]
    for owner in placed.values():
        left_, bottom, right, top = shape.box_on_sheet(owner.placement, owner.part)
        half = kit.kerf / 2
        box = (left_ - half, bottom - half, right + half, top + half)
        fitting = [cut for cut in cuts if unlike(cut.area.bounds, box) < FOUND]
        if fitting:
            owner.outer = min(fitting, key=lambda cut: unlike(cut.area.bounds, box))
            cuts.remove(owner.outer)
    found = sorted((o for o in placed.values() if o.outer), key=lambda owner: owner.outer.area.area)
    taken = [id(owner.outer) for owner in found]
    for path in sheet.dxf.paths:
        if id(path) in taken:
            continue
        middle = path.line.interpolate(0.5, normalized=True)
        owner = next((owner for owner in found if owner.outer.area.covers(middle)), None)
        (left if owner is None else strokes(owner, path)).append(path)
    return placed, left


def strokes(owner, path):
    """The list of a part's strokes that a path goes to. What is on no layer of ours counts as a mark."""
    return {"cut": owner.inner, "score": owner.scores}.get(path.layer, owner.marks)


def unlike(one, other):
    """The greatest difference between two boxes' sides."""
    return max(abs(a - b) for a, b in zip(one, other))
