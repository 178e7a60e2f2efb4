# SPDX-License-Identifier: MIT
"""Kind files read a second time: what the pieces of one of a kind look like, by Python's own arithmetic and shapely."""

import ast
import math
import re

import shapely
from shapely import affinity
from shapely.geometry import Point, Polygon, box

UNITS = {"mm": 1.0, "cm": 10.0, "in": 25.4}
LENGTH = re.compile(r"(\d+\s+\d+/\d+|\d+/\d+|\d*\.?\d+)\s*(mm|cm|in)\b")


def millimetres(text):
    """`5 1/4 in` in mm."""
    number, unit = LENGTH.fullmatch(text.strip()).groups()
    parts = number.split()
    total = sum((lambda a, b: a / b)(*map(float, part.split("/"))) if "/" in part else float(part) for part in parts)
    return total * UNITS[unit]


class Sizes:
    """The names of one of a kind and what they stand for, mm."""

    def __init__(self, kind, given, page, inches=False):
        self.names = dict(page)
        for name, size in kind.get("sizes", {}).items():
            usual = size.get("usual")
            if name in given:
                value = given[name]
            elif isinstance(usual, list):
                value = millimetres(usual[1 if inches else 0])
            elif isinstance(size.get("takes"), list):
                value = usual
            else:
                value = self(usual)
            self.names[name] = value

    def __call__(self, formula, **more):
        """What a formula or a condition comes to."""
        if isinstance(formula, (int, float)):
            return float(formula)
        text = LENGTH.sub(lambda found: repr(millimetres(found.group(0))), formula)
        text = re.sub(r"(?<![<>=])=(?!=)", "==", text)
        names = {**self.names, **more}
        tree = ast.parse(text, mode="eval")
        calls = {"min": min, "max": max, "ruler": lambda mm: math.floor(mm * 2 + 1e-6) / 2}
        # A word of a choice stands for itself.
        words = {node.id: node.id for node in ast.walk(tree) if isinstance(node, ast.Name) and node.id not in names}
        return eval(compile(tree, "formula", "eval"), {"__builtins__": {}}, {**words, **names, **calls})


def pieces(kind, sizes):
    """By name, the shape of each piece as it lies flat, its lower left at the origin."""
    mirrored = "mirrored" in kind and sizes(kind["mirrored"])
    shapes = {}
    for name, piece in kind["pieces"].items():
        across = piece.get("row", "across") == "across"
        breadth = sizes(piece["height" if across else "width"])
        solid, holes, at = [], [], 0.0
        for panel, depth, nth in row(piece["panels"], sizes, "width" if across else "height"):
            low = (at, 0.0) if across else (0.0, at)
            size = (depth, breadth) if across else (breadth, depth)
            add(panel, low, size, sizes, nth, ("right" if across else "head"), solid, holes)
            at += depth
        shape = shapely.unary_union([one.buffer(1e-7, join_style="mitre") for one in solid])
        shape = shape.difference(shapely.unary_union(holes)) if holes else shape
        if mirrored:
            shape = affinity.scale(shape, -1, 1, origin=(0, 0))
        left, bottom, *_ = shape.bounds
        shapes[name] = affinity.translate(shape, -left, -bottom)
    return shapes


def row(panels, sizes, along):
    """The panels of a row that are there: each with its depth, and which of several it is."""
    for panel in panels:
        if "when" in panel and not sizes(panel["when"]):
            continue
        for nth in range(1, round(sizes(panel.get("times", 1))) + 1):
            yield panel, sizes(panel[along], nth=nth), nth


def add(panel, low, size, sizes, nth, way, solid, holes):
    """Adds what a panel covers, and what is cut out of it; `way` is where its row goes on."""
    (x, y), (width, height) = low, size
    shape = box(x, y, x + width, y + height)
    if "taper" in panel:
        start, end = (sizes(side, nth=nth) for side in panel["taper"])
        shape = {
            "right": Polygon([(x, y + start), (x + width, y + end), (x + width, y + height - end), (x, y + height - start)]),
            "left": Polygon([(x + width, y + start), (x, y + end), (x, y + height - end), (x + width, y + height - start)]),
            "head": Polygon([(x + start, y), (x + end, y + height), (x + width - end, y + height), (x + width - start, y)]),
            "tail": Polygon([(x + start, y + height), (x + end, y), (x + width - end, y), (x + width - start, y + height)]),
        }[way]
    # What hangs on it is as broad as its broader end.
    stands = shape.bounds
    corners = {}
    for corner in panel.get("corners", []):
        cut, kind = (corner["clipped"], "clipped") if "clipped" in corner else (corner["rounded"], "rounded")
        for up in ("tail", "head"):
            for side in ("left", "right"):
                if corner.get("at", "all") in ("all", up, side, f"{up} {side}"):
                    corners[up, side] = (sizes(cut, nth=nth), kind)
    for (up, side), (cut, kind) in corners.items():
        if cut <= 0:
            continue
        at = (x if side == "left" else x + width, y if up == "tail" else y + height)
        right, high = (1 if side == "left" else -1), (1 if up == "tail" else -1)
        if kind == "clipped":
            shape = shape.difference(Polygon([at, (at[0] + right * cut, at[1]), (at[0], at[1] + high * cut)]))
        else:
            square = box(*sorted_box(at, (at[0] + right * cut, at[1] + high * cut)))
            disc = Point(at[0] + right * cut, at[1] + high * cut).buffer(cut, quad_segs=400)
            shape = shape.difference(square.difference(disc))
    for notch in panel.get("notches", []):
        if "when" in notch and not sizes(notch["when"], nth=nth):
            continue
        middle = {
            "left": (x, y + height / 2),
            "right": (x + width, y + height / 2),
            "head": (x + width / 2, y + height),
            "tail": (x + width / 2, y),
        }[notch.get("at", "head")]
        across = sizes(notch["across"], nth=nth)
        if across > 0:
            shape = shape.difference(Point(middle).buffer(across / 2, quad_segs=400))
    for hole in panel.get("holes", []):
        if "when" in hole and not sizes(hole["when"], nth=nth):
            continue
        if "round" in hole:
            across, up = (sizes(value, nth=nth) for value in hole["round"])
            holes.append(Point(x + across, y + up).buffer(sizes(hole["across"], nth=nth) / 2, quad_segs=400))
        else:
            across, up, wide, tall = (sizes(value, nth=nth) for value in hole["window"])
            window = box(x + across, y + up, x + across + wide, y + up + tall)
            radius = min(sizes(hole.get("rounded", 0), nth=nth), wide / 2, tall / 2)
            holes.append(window.buffer(-radius).buffer(radius, quad_segs=400) if radius > 0 else window)
    solid.append(shape)
    for edge in ("left", "right", "head", "tail"):
        if edge not in panel:
            continue
        upright = edge in ("head", "tail")
        out = dict(zip(("left", "tail", "right", "head"), stands))[edge]
        start, broad = (stands[0], stands[2] - stands[0]) if upright else (stands[1], stands[3] - stands[1])
        for inner, depth, inner_nth in row(panel[edge], sizes, "height" if upright else "width"):
            towards = out if edge in ("right", "head") else out - depth
            low = (start, towards) if upright else (towards, start)
            area = (broad, depth) if upright else (depth, broad)
            add(inner, low, area, sizes, inner_nth, edge, solid, holes)
            out = out + depth if edge in ("right", "head") else out - depth
            # The next one hangs on this one, so it is as broad as this one's broader end.
            back = min((sizes(side, nth=inner_nth) for side in inner.get("taper", [0])), default=0)
            start, broad = start + back, broad - 2 * back


def sorted_box(one, two):
    return min(one[0], two[0]), min(one[1], two[1]), max(one[0], two[0]), max(one[1], two[1])
