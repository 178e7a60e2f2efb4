# SPDX-License-Identifier: MIT
"""Writes small folders by hand, without the program: a good one, and through changes to its plan, faulty ones."""

import cmath
import copy
import json
import math
from dataclasses import dataclass, field

import ezdxf
import shapely

import shape
from read import LAYERS, Kit, Path

COLOURS = {"cut": ("#000000", 7), "score": ("#E69F00", 30), "draw": ("#CC79A7", 6)}
SHEET = (210.0, 297.0)


def ring(x, y, radius):
    """A circle of four quarter arcs."""
    quarter = shape.QUARTER
    return [(x + radius, y, quarter), (x, y + radius, quarter), (x - radius, y, quarter), (x, y - radius, quarter)]


def rounded(width, height, radius):
    """A rectangle with its corners rounded."""
    places = [(radius, 0), (width - radius, 0), (width, radius), (width, height - radius)]
    places += [(width - radius, height), (radius, height), (0, height - radius), (0, radius)]
    return [(x, y, shape.QUARTER if n % 2 else 0.0) for n, (x, y) in enumerate(places)]


#: A part with a hand: one corner clipped, a hole left of the middle, a score across and one that the hole divides.
CORNER = {
    "outline": [(0, 0, 0.0), (60, 0, 0.0), (60, 30, 0.0), (50, 40, 0.0), (0, 40, 0.0)],
    "holes": [ring(15, 20, 5)],
    "scores": [((0, 10), (60, 10), "mountain"), ((0, 20), (10, 20), "valley"), ((20, 20), (60, 20), "valley")],
    "marks": [((30, 2), (40, 3))],
}
#: A part with round corners and nothing in it.
STRIP = {"outline": rounded(80, 20, 3), "holes": [], "scores": [], "marks": []}
SHAPES = {"corner": CORNER, "strip": STRIP}
PLACES = [
    ("corner", 1, 3.05, 3.05, 0),
    ("corner", 2, 64.15, 3.05, 90),
    ("corner", 3, 105.25, 3.05, 180),
    ("corner", 4, 166.35, 3.05, 270),
    ("strip", 1, 3.05, 70.0, 90),
]


def offset(points, distance):
    """A counter-clockwise contour moved out by `distance`; no corner of it may point inwards.

    A round one, all its edges running smoothly into each other, may be moved in as well.
    """
    moved = []
    for (x, y, bulge), end in zip(points, points[1:] + points[:1]):
        start, end = complex(x, y), complex(*end[:2])
        lean = cmath.rect(1, 2 * math.atan(bulge))
        out = -1j * (end - start) / abs(end - start) * distance
        moved.append((start + out / lean, end + out * lean, bulge))
    found = []
    for n, (start, end, bulge) in enumerate(moved):
        found.append((start.real, start.imag, bulge))
        following = moved[(n + 1) % len(moved)][0]
        if abs(following - end) > 1e-9:
            corner = complex(*points[(n + 1) % len(points)][:2])
            angle = cmath.phase((following - corner) / (end - corner))
            found.append((end.real, end.imag, math.tan(angle / 4)))
    return found


@dataclass
class Plan:
    """What will be written: the report, the strokes of either file (one sheet), and edits to their text."""

    kerf: float = 0.1
    gap: float = 1.0
    margin: float = 3.0
    dxf_version: str = "R2000"
    album: dict = field(default_factory=dict)

    def __post_init__(self):
        self.report = report()
        self.svg = [path for spot in PLACES for path in strokes(spot, self.kerf)]
        self.dxf = copy.deepcopy(self.svg)
        self.edits = []
        self.on_dxf = []

    def both(self, change, **which):
        """Applies `change` to every stroke of both files that has the given attributes."""
        for path in self.find(self.svg, **which) + self.find(self.dxf, **which):
            change(path)

    @staticmethod
    def find(paths, **which):
        return [path for path in paths if all(getattr(path, name) == value for name, value in which.items())]

    def move(self, part, number, dx, dy, report_too=True):
        """Moves one placement in both files, and in the report."""
        self.both(lambda path: shift(path, dx, dy), part=part, copy=number)
        for spot in self.report["sheets"][0]["placements"]:
            if report_too and (spot["part"], spot["copy"]) == (part, number):
                spot["x_mm"] += dx
                spot["y_mm"] += dy

    def write(self, folder):
        """Writes the folder and gives it as the checks take it."""
        sheets = folder / "sheets"
        sheets.mkdir(parents=True)
        (folder / "report.json").write_text(json.dumps(self.report), encoding="utf-8")
        (sheets / "card-01.svg").write_text(svg_text(self.svg), encoding="utf-8")
        write_dxf(self, sheets / "card-01.dxf")
        for name, old, new in self.edits:
            text = (sheets / name).read_text(encoding="utf-8")
            assert old in text, f"{old!r} is not in {name}, so there is nothing to make faulty"
            (sheets / name).write_text(text.replace(old, new, 1), encoding="utf-8")
        return Kit(folder, self.kerf, self.gap, self.margin, self.dxf_version, self.album)


def shift(path, dx, dy):
    path.points = [(x + dx, y + dy, bulge) for x, y, bulge in path.points]


def report():
    """The report of the good folder: two kits, cut as the same sheet twice."""
    parts = [
        {
            "id": name,
            "kind": name,
            "stock": "card",
            "count": sum(spot[0] == name for spot in PLACES),
            "width_mm": max(x for x, _, _ in made["outline"]),
            "height_mm": max(y for _, y, _ in made["outline"]),
            "area_mm2": area,
            "scores": [{"from_mm": a, "to_mm": b, "fold": fold} for a, b, fold in made["scores"]],
        }
        for (name, made), area in zip(SHAPES.items(), (2350 - 25 * math.pi, 1600 - 9 * (4 - math.pi)))
    ]
    placements = [dict(zip(("part", "copy", "x_mm", "y_mm", "turn_deg"), spot)) for spot in PLACES]
    used = 4 * parts[0]["area_mm2"] + parts[1]["area_mm2"]
    sheet = {"name": "card-01", "stock": "card", "width_mm": SHEET[0], "height_mm": SHEET[1], "times": 2}
    layout = {"stock": "card", "sheets": 2, "lower_bound": 2, "proven_least": True, "cut_short": False}
    layout["used_percent"] = round(100 * used / (SHEET[0] * SHEET[1]), 1)
    offcut = {"x_mm": 30.0, "y_mm": 160.0, "width_mm": 100.0, "height_mm": 100.0}
    return {
        "format": "hingeleaf-report/1",
        "title": "By hand",
        "copies": 2,
        "parts": parts,
        "sheets": [{**sheet, "placements": placements, "offcuts": [offcut]}],
        "layouts": [layout],
        "findings": [],
    }


def strokes(spot, kerf):
    """The strokes of one placed part: draw, score, inner cuts, outer cut."""
    name, number, x, y, turn = spot
    made = SHAPES[name]
    part = {"width_mm": max(p[0] for p in made["outline"]), "height_mm": max(p[1] for p in made["outline"])}
    where = {"x_mm": x, "y_mm": y, "turn_deg": turn}

    def stroke(layer, points, closed, fold=None):
        corners = shapely.get_coordinates(shape.to_sheet(shapely.MultiPoint([p[:2] for p in points]), where, part))
        placed = [(x, y, point[2] if len(point) > 2 else 0.0) for (x, y), point in zip(corners, points)]
        return Path(layer, placed, closed, name, number, fold)

    return [
        *(stroke("draw", mark, False) for mark in made["marks"]),
        *(stroke("score", (a, b), False, fold) for a, b, fold in made["scores"]),
        *(stroke("cut", offset(hole, -kerf / 2), True) for hole in made["holes"]),
        stroke("cut", offset(made["outline"], kerf / 2), True),
    ]


def svg_text(paths):
    """An SVG as design.md has it."""
    width, height = SHEET
    rows = [f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" viewBox="0 0 210 297">']
    for layer in LAYERS:
        rows.append(f'<g id="{layer}" fill="none" stroke="{COLOURS[layer][0]}" stroke-width="0.1">')
        for path in paths:
            if path.layer == layer:
                fold = f' data-fold="{path.fold}"' if path.fold else ""
                rows.append(f'<path data-part="{path.part}" data-copy="{path.copy}"{fold} d="{path_data(path)}"/>')
        rows.append("</g>")
    return "\n".join([*rows, "</svg>", ""])


def path_data(path):
    """The strokes of one path, y down."""
    places = [f"{number(x)} {number(SHEET[1] - y)}" for x, y, _ in path.points]
    words = [f"M{places[0]}"]
    for n, (x, y, bulge) in enumerate(path.points):
        if n + 1 == len(path.points) and (not path.closed or bulge == 0):
            break
        end = (n + 1) % len(path.points)
        if bulge == 0:
            words.append(f"L{places[end]}")
        else:
            chord = math.dist((x, y), path.points[end][:2])
            radius = number(chord * (1 + bulge * bulge) / (4 * abs(bulge)))
            words.append(f"A{radius} {radius} 0 {int(abs(bulge) > 1)} {int(bulge < 0)} {places[end]}")
    return " ".join(words) + (" Z" if path.closed else "")


def number(value):
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def write_dxf(plan, file):
    """A DXF as design.md has it, through ezdxf."""
    document = ezdxf.new(plan.dxf_version)
    for layer in list(document.layers):
        if layer.dxf.name != "0":
            document.layers.remove(layer.dxf.name)
    for layer in LAYERS:
        document.layers.add(layer, color=COLOURS[layer][1])
    space = document.modelspace()
    for path in plan.dxf:
        attributes = {"layer": path.layer}
        if len(path.points) == 2 and not path.closed:
            space.add_line(path.points[0][:2], path.points[1][:2], attributes)
        elif plan.dxf_version == "R12":
            space.add_polyline2d(path.points, format="xyb", close=path.closed, dxfattribs=attributes)
        else:
            space.add_lwpolyline(path.points, format="xyb", close=path.closed, dxfattribs=attributes)
    # ezdxf takes a corner at the origin for none at all.
    space.reset_extents((1, 1, 0), (SHEET[0] - 1, SHEET[1] - 1, 0))
    document.header["$INSUNITS"], document.header["$MEASUREMENT"] = 4, 1
    for change in plan.on_dxf:
        change(document)
    document.saveas(file)
