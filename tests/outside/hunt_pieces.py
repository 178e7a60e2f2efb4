# SPDX-License-Identifier: MIT
"""Flat parts as they come out of the DXF of a written folder, and folded flat along their scores.

The report says what a part is called and where it lies on its sheet; its outline and its scores are measured.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import shapely
from shapely import affinity
from shapely.geometry import LineString, Point
from shapely.ops import polygonize

import shape
from placed import by_place

#: Two lengths are the same within this, in mm: DXF has four decimals.
SAME = 0.002


@dataclass
class Flat:
    """One distinct part: its outline and its scores, lower left at the origin."""

    facts: dict
    outline: object
    scores: list

    @property
    def kind(self):
        return self.facts["kind"]

    @cached_property
    def panels(self):
        """What the scores part the outline into."""
        longer = [longer_by(score, SAME) for score in self.scores]
        # Snapped to whole micrometres, a score that runs on along a cut edge meets its corner.
        edges = shapely.unary_union([*shapely.get_parts(self.outline.boundary), *longer], grid_size=0.001)
        # A panel may be no wider than a gusset, but never a hair.
        found = [panel for panel in polygonize(edges) if panel.area > 0.5]
        return [panel for panel in found if self.outline.contains(panel.representative_point())]

    def borders(self, panel):
        """The scores that lie along a panel's edge."""
        return [score for score in self.scores if self.joined(panel, score)]

    def panel_like(self, width, height):
        """The panel of this size; of several the one that hangs on to most others."""
        return self.choose(lambda box: abs(box[2] - box[0] - width) < 1e-2 and abs(box[3] - box[1] - height) < 1e-2)

    def main(self):
        """The panel that hangs on to most others, of those the largest."""
        return self.choose(lambda box: True)

    def choose(self, wanted):
        found = [panel for panel in self.panels if wanted(panel.bounds)]
        return max(found, key=lambda panel: (len(self.borders(panel)), panel.area), default=None)

    def folded(self, root, riser=0.0):
        """Every panel as it lies when all scores are folded flat round `root`.

        A riser, so wide, stands up: what is beyond it lies as if it began at its foot.
        """
        lying, todo = [(root, root)], [(root, lambda figure: figure)]
        seen = [root]
        while todo:
            panel, move = todo.pop()
            for score in self.borders(panel):
                for other in self.panels:
                    if other in seen or not self.joined(other, score):
                        continue
                    seen.append(other)
                    turn = turned(score, move)
                    if riser and is_strip(other, riser):
                        turn = lowered(score, other, move)
                        lying.append((other, None))
                    else:
                        lying.append((other, turn(other)))
                    todo.append((other, turn))
        return [place for _, place in lying if place is not None]

    def mirrored(self):
        """The same part for an album that is bound at the other hand."""
        over = LineString([(self.outline.bounds[2] / 2, 0), (self.outline.bounds[2] / 2, 1)])
        return Flat(self.facts, mirrored(self.outline, over), [mirrored(score, over) for score in self.scores])

    @staticmethod
    def joined(panel, score):
        """Whether a score is one of a panel's edges; holes may be punched through it."""
        return panel.exterior.buffer(SAME).intersection(score).length > 0.5 * score.length


def longer_by(line, by):
    """The line with so much more at either end."""
    (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
    share = by / line.length
    dx, dy = (x1 - x0) * share, (y1 - y0) * share
    return LineString([(x0 - dx, y0 - dy), (x1 + dx, y1 + dy)])


def mirrored(figure, line):
    """The figure turned over about a line."""
    (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
    dx, dy = (x1 - x0) / line.length, (y1 - y0) / line.length
    a, b = dx * dx - dy * dy, 2 * dx * dy
    return affinity.affine_transform(figure, [a, b, b, -a, x0 - a * x0 - b * y0, y0 - b * x0 + a * y0])


def turned(score, move):
    """The move of what hangs on a score when it is folded flat, that before being `move`."""
    return lambda figure: move(mirrored(figure, score))


def lowered(score, riser, move):
    """The same for what hangs on a riser: it folds over as if the riser were not there, back at its foot."""
    middle, foot = riser.centroid, score.centroid
    return lambda figure: move(affinity.translate(figure, 2 * (foot.x - middle.x), 2 * (foot.y - middle.y)))


def is_strip(panel, wide):
    x0, y0, x1, y1 = panel.bounds
    return min(abs(x1 - x0 - wide), abs(y1 - y0 - wide)) < 1e-2


def flats(kit):
    """Every distinct part of a folder by its id."""
    found = {}
    for sheet in kit.sheets:
        if all(spot["part"] in found for spot in sheet.facts["placements"]):
            continue
        for owner in by_place(kit, sheet)[0].values():
            if owner.outer is None or owner.part["id"] in found:
                continue

            def own(figure, owner=owner):
                return shape.to_part(figure, owner.placement, owner.part)

            scores = [own(score.line) for score in owner.scores]
            found[owner.part["id"]] = Flat(owner.part, own(owner.nominal), list(folds(scores)))
    return found


def folds(scores):
    """Each fold once: a score that a hole parts is one fold, from its first piece's start to its last one's end."""
    left = list(scores)
    while left:
        line = longer_by(left[0], 1e4).buffer(SAME)
        same = [score for score in left if line.covers(score)]
        left = [score for score in left if not line.covers(score)]
        ends = [Point(place) for score in same for place in score.coords]
        yield LineString(max(combinations(ends, 2), key=lambda pair: pair[0].distance(pair[1])))


def named(parts, bound="left"):
    """Each piece's flat part by what it is used as: `page 1 front`. One bound at the right is turned to the left."""
    turn = (lambda flat: flat.mirrored()) if bound == "right" else (lambda flat: flat)
    return {name: own for flat in parts.values() for own in [turn(flat)] for name in flat.facts["used_in"]}
