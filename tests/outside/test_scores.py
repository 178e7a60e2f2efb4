# SPDX-License-Identifier: MIT
"""Scores run inside their part from edge to edge, and where the report says once it is turned and placed."""

import shapely
from shapely.geometry import LineString, Point

import shape
from placed import by_name, by_place
from verdict import no_faults

NEAR = 0.002


def faults(kit):
    return [
        f"{sheet.name}.{kind}: {fault}"
        for sheet in kit.sheets
        for kind, find in (("svg", by_name), ("dxf", by_place))
        for owner in find(kit, sheet)[0].values()
        if owner.outer is not None
        for fault in (*runs(owner), *places(owner, folds=kind == "svg"))
    ]


def test_scores(kit):
    no_faults(faults(kit))


def runs(owner):
    """Each score is one straight line inside the part, with both ends on its outline or on a hole's edge."""
    inside, edge = owner.nominal.buffer(NEAR), owner.nominal.boundary
    for score in owner.scores:
        if score.closed or len(score.points) != 2 or score.points[0][2] != 0:
            yield f"{owner}: {score} is not one straight line"
        if not inside.covers(score.line):
            yield f"{owner}: {score} leaves the part"
        for end in (score.points[0], score.points[-1]):
            off = edge.distance(Point(end[:2]))
            if off > NEAR:
                yield f"{owner}: {score} ends {off:.4f} mm from the edge"


def places(owner, folds):
    """The scores are the report's, less what a hole takes out of them; an SVG tells the folds apart, too."""
    wanted = [
        (shape.to_sheet(LineString([score["from_mm"], score["to_mm"]]), owner.placement, owner.part), score["fold"])
        for score in owner.part["scores"]
    ]
    for fold in sorted({f for _, f in wanted} | {s.fold for s in owner.scores}) if folds else ["any"]:
        asked = shapely.MultiLineString([line for line, f in wanted if f == fold or not folds])
        asked = asked.intersection(owner.nominal.buffer(NEAR))
        there = shapely.MultiLineString([s.line for s in owner.scores if s.fold == fold or not folds])
        off = shape.apart(there, asked)
        if off > NEAR:
            yield f"{owner}: the scores ({fold} fold) are {off:.4f} mm off the report's"
        elif abs(there.length - asked.length) > 2 * NEAR * (1 + len(owner.scores)):
            yield f"{owner}: scores of {there.length:.3f} mm ({fold} fold), {asked.length:.3f} mm in the report"
