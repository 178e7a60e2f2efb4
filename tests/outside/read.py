# SPDX-License-Identifier: MIT
"""A folder written by `hingeleaf kit`, read by other people's libraries into one common form.

SVG comes through svgelements and DXF through ezdxf. Both end as `Path`s in millimetres, y up, so that every check
can ask the same of either file.
"""

import json
import math
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path as File

import ezdxf
import svgelements
from shapely.geometry import LineString

import shape

LAYERS = ("draw", "score", "cut")


class Unreadable(Exception):
    """A file holds something that none of its kind may hold, so it cannot be brought into the common form."""


@dataclass
class Path:
    """One stroke of the tool: (x, y, bulge) in mm, y up. A DXF knows no part, copy or fold."""

    layer: str
    points: list
    closed: bool
    part: str | None = None
    copy: int | None = None
    fold: str | None = None

    @cached_property
    def line(self):
        """The stroke as a line, arcs flattened."""
        return LineString(shape.flatten(self.points, self.closed))

    @cached_property
    def area(self):
        """What a closed stroke goes round."""
        return shape.polygon(self.points)

    def __str__(self):
        x, y, _ = self.points[0]
        name = f"{self.part} copy {self.copy}" if self.part else "path"
        return f"{self.layer} {name} from ({x:.3f}, {y:.3f})"


@dataclass
class Drawing:
    """All strokes of one sheet, in the file's order, and the sheet's size where the file states it."""

    paths: list
    width: float | None = None
    height: float | None = None

    def on(self, layer):
        return [path for path in self.paths if path.layer == layer]


def contour(layer, points, closed, **names):
    """A `Path` without doubled places; a first place repeated at the end is dropped from a closed one."""
    kept = [points[0]]
    for point in points[1:]:
        if math.dist(point[:2], kept[-1][:2]) < 1e-9:
            kept[-1] = point
        else:
            kept.append(point)
    if closed and len(kept) > 1 and math.dist(kept[0][:2], kept[-1][:2]) < 1e-9:
        kept.pop()
    if len(kept) < 2:
        raise Unreadable(f"{layer}: a stroke without length at {points[0][:2]}")
    return Path(layer, kept, closed, **names)


def read_svg(file):
    """Every path of an SVG at the size svgelements gives it."""
    svg = svgelements.SVG.parse(str(file))
    per_mm = svgelements.Length("1mm").value(ppi=96)
    width, height = svg.width / per_mm, svg.height / per_mm

    def place(point):
        return point.x / per_mm, height - point.y / per_mm

    paths = []
    for group in svg:
        for element in group if isinstance(group, svgelements.Group) else ():
            if not isinstance(element, svgelements.Path):
                continue
            copy = element.values.get("data-copy")
            names = {
                "part": element.values.get("data-part"),
                "copy": int(copy) if copy and copy.isdigit() else None,
                "fold": element.values.get("data-fold"),
            }
            for points, closed in svg_strokes(element, place):
                paths.append(contour(group.id, points, closed, **names))
    return Drawing(paths, width, height)


def svg_strokes(path, place):
    """The strokes of one SVG path, each a list of (x, y, bulge) and whether it is closed."""
    strokes = []
    for segment in path:
        if isinstance(segment, svgelements.Move):
            strokes.append(([(*place(segment.end), 0.0)], False))
            continue
        if not strokes:
            raise Unreadable("a path that starts without a move")
        points, _ = strokes[-1]
        if isinstance(segment, svgelements.Arc):
            if abs(segment.rx - segment.ry) > 1e-6 * segment.rx:
                raise Unreadable(f"an arc with two radii, {segment.rx} and {segment.ry}")
            # A positive sweep turns clockwise as seen, for SVG counts y down.
            points[-1] = (*points[-1][:2], -math.tan(segment.sweep / 4))
        elif isinstance(segment, svgelements.Close):
            strokes[-1] = (points, True)
            continue
        elif isinstance(segment, svgelements.CubicBezier):
            points.extend((*place(segment.point(step / 32)), 0.0) for step in range(1, 32))
        elif not isinstance(segment, svgelements.Line):
            raise Unreadable(f"a {type(segment).__name__} in a path")
        points.append((*place(segment.end), 0.0))
    return strokes


def read_dxf(file):
    """Every entity of a DXF's model space."""
    return Drawing([dxf_stroke(entity) for entity in ezdxf.readfile(file).modelspace()])


def dxf_stroke(entity):
    """One DXF entity as a `Path`."""
    kind, layer = entity.dxftype(), entity.dxf.layer
    if tuple(entity.dxf.get("extrusion", (0, 0, 1))) != (0, 0, 1):
        raise Unreadable(f"a {kind} seen from below or aslant")
    if kind == "LWPOLYLINE":
        return contour(layer, list(entity.get_points("xyb")), bool(entity.closed))
    if kind == "POLYLINE" and entity.is_2d_polyline:
        points = [(v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in entity.vertices]
        return contour(layer, points, bool(entity.is_closed))
    if kind == "LINE":
        ends = [entity.dxf.start, entity.dxf.end]
        return contour(layer, [(end.x, end.y, 0.0) for end in ends], False)
    if kind == "ARC":
        start, end = entity.start_point, entity.end_point
        sweep = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360)
        return contour(layer, [(start.x, start.y, math.tan(sweep / 4)), (end.x, end.y, 0.0)], False)
    if kind == "SPLINE":
        points = [(place.x, place.y, 0.0) for place in entity.flattening(1e-4)]
        return contour(layer, points, bool(entity.closed))
    raise Unreadable(f"a {kind} on layer {layer}")


@dataclass
class Sheet:
    """One written sheet: what the report says of it, and its two files."""

    facts: dict
    svg_file: File
    dxf_file: File

    @property
    def name(self):
        return self.facts["name"]

    @cached_property
    def svg(self):
        return read_svg(self.svg_file)

    @cached_property
    def dxf(self):
        return read_dxf(self.dxf_file)


@dataclass
class Kit:
    """A written folder, with what was asked for when it was written."""

    folder: File
    kerf: float = 0.0
    gap: float = 0.0
    margin: float = 0.0
    dxf_version: str = "R2000"
    album: dict = field(default_factory=dict)

    @cached_property
    def report(self):
        return json.loads((self.folder / "report.json").read_text(encoding="utf-8"))

    @cached_property
    def parts(self):
        return {part["id"]: part for part in self.report["parts"]}

    @cached_property
    def sheets(self):
        folder = self.folder / "sheets"
        return [
            Sheet(facts, folder / f"{facts['name']}.svg", folder / f"{facts['name']}.dxf")
            for facts in self.report["sheets"]
        ]

    def stray_files(self, kind):
        """Sheet files that the report does not name, and named ones that are not there."""
        there = {file.stem for file in (self.folder / "sheets").glob(f"*.{kind}")}
        named = {sheet.name for sheet in self.sheets}
        return [f"{name}.{kind} is in the folder but not in the report" for name in sorted(there - named)] + [
            f"{name}.{kind} is in the report but not in the folder" for name in sorted(named - there)
        ]
