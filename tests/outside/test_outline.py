# SPDX-License-Identifier: MIT
"""Outlines from drawings: what is cut lies within 0.01 mm of what was drawn.

The drawings are made here; svgpathtools says where their curves run, ezdxf writes them a second time, shapely measures.
"""

import json
import math
import random

import ezdxf
import numpy
import pytest
import shapely
from conftest import run_kit
from lxml import etree
from shapely.geometry import LineString, Polygon
from svgpathtools import parse_path

MOST = 0.01
"""What is promised, mm."""


def curves(seed):
    """Cubic Bezier curves round a middle, as control points in mm, y down; they do not cross themselves."""
    draw = random.Random(seed)
    while True:
        count = draw.randint(3, 9)
        size = draw.uniform(12, 60)
        angles = sorted(draw.uniform(0, 2 * math.pi) for _ in range(count))
        if min((b - a) % (2 * math.pi) for a, b in zip(angles, angles[1:] + angles[:1])) < 0.3:
            continue
        knots = [size * draw.uniform(0.5, 1) * numpy.array([math.cos(a), math.sin(a)]) for a in angles]
        made = []
        for index, (start, end) in enumerate(zip(knots, knots[1:] + knots[:1])):
            reach = numpy.linalg.norm(end - start)
            bend = [draw.uniform(-0.7, 0.7) if draw.random() < 0.8 else 0.0 for _ in range(2)]
            along = (end - start) / reach
            turn = lambda angle: numpy.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
            one = start + turn(bend[0]) @ along * reach * draw.uniform(0.05, 0.6)
            two = end - turn(bend[1]) @ along * reach * draw.uniform(0.05, 0.6)
            made.append((start, one, two, end))
        # Loops of a few hundredths show only this finely.
        line = polygon(path(made), 1500)
        if line.is_valid and line.buffer(-1.5).geom_type == "Polygon" and not line.buffer(-1.5).is_empty:
            if math.isclose(line.buffer(-1.5).buffer(1.5).area, line.area, rel_tol=0.02):
                return made


def path(made):
    """Path data, nine decimals."""
    point = lambda at: f"{at[0]:.9f} {at[1]:.9f}"
    first = point(made[0][0])
    return f"M{first}" + "".join(f" C{point(a)} {point(b)} {point(c)}" for _, a, b, c in made) + " Z"


def polygon(data, steps):
    """What path data encloses, y up, so many points to a curve."""
    points = []
    for segment in parse_path(data):
        points.extend(segment.point(step / steps) for step in range(steps))
    return Polygon([(point.real, -point.imag) for point in points])


def album(folder, outlines):
    """An album of a leaf without a pocket, and a shape for each outline."""
    inserts = [{"kind": "shape", "outline": outline} for outline in outlines]
    text = {
        "format": "hingeleaf-album/1",
        "stocks": {"card": {"sheet": "A2", "caliper": 0.3}},
        "page": {"width": 120, "height": 120},
        "pages": [{"kind": "divider"}],
        "inserts": inserts,
    }
    file = folder / "album.json"
    file.write_text(json.dumps(text))
    return file


def cut(folder, once=False):
    """By part, what is cut of it (of its first copy alone where that is asked), as shapely polygons where it stands once unturned with its lower left at the origin."""
    report = json.loads((folder / "report.json").read_text())
    parts = {part["id"]: part for part in report["parts"]}
    found, first = {}, {}
    for sheet in report["sheets"]:
        placed = {(one["part"], one["copy"]): one for one in sheet["placements"]}
        root = etree.parse(folder / "sheets" / f"{sheet['name']}.svg").getroot()
        for node in root.iter("{http://www.w3.org/2000/svg}path"):
            if node.getparent().get("id") != "cut":
                continue
            name, copy = node.get("data-part"), int(node.get("data-copy"))
            if once and first.setdefault(name, (sheet["name"], copy)) != (sheet["name"], copy):
                continue
            place = placed[name, copy]
            points = []
            for segment in parse_path(node.get("d")):
                steps = 40 if type(segment).__name__ == "Arc" else 1
                points.extend(segment.point(step / steps) for step in range(steps))
            xy = numpy.array([(point.real, sheet["height_mm"] - point.imag) for point in points])
            xy -= (place["x_mm"], place["y_mm"])
            part = parts[name]
            for _ in range(place["turn_deg"] // 90):
                # A quarter turn back; the turned box is as wide as the part is tall.
                xy = numpy.column_stack([xy[:, 1], -xy[:, 0]])
            turned = {0: (0, 0), 90: (0, part["height_mm"]), 180: (part["width_mm"], part["height_mm"]), 270: (part["width_mm"], 0)}
            xy += turned[place["turn_deg"]]
            found.setdefault(name, []).append(Polygon(xy))
    whole = {}
    for name, rings in found.items():
        rings.sort(key=lambda ring: -ring.area)
        whole[name] = Polygon(rings[0].exterior, [ring.exterior for ring in rings[1:]])
    return whole


def at_origin(shape):
    left, low, *_ = shape.bounds
    return shapely.affinity.translate(shape, -left, -low)


def apart(one, two):
    """How far the edges of two shapes are from each other at most, looked at from both sides."""
    def edges(shape):
        return [LineString(ring.coords) for ring in (shape.exterior, *shape.interiors)]

    def reach(these, those):
        those = shapely.MultiLineString(those)
        shapely.prepare(those)
        points = shapely.points(numpy.concatenate([shapely.get_coordinates(line) for line in these]))
        return shapely.distance(points, those).max()

    return max(reach(edges(one), edges(two)), reach(edges(two), edges(one)))


SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="-100 -100 200 200"><path d="{}"/>{}</svg>'


def test_curves_are_cut_within_a_hundredth(tmp_path, tables):
    drawn = {}
    for number in range(1, 201):
        data = path(curves(number))
        (tmp_path / f"{number}.svg").write_text(SVG.format(data, ""))
        drawn[f"shape-{number}"] = at_origin(polygon(data, 400))
    file = album(tmp_path, [{"file": f"{number}.svg"} for number in range(1, 201)])
    run_kit(file, tmp_path / "kit", "--formats", "svg", "--effort", "low")
    found = {name: shape for name, shape in cut(tmp_path / "kit").items() if name in drawn}
    assert len(found) == 200
    worst = max((apart(found[name], shape), name) for name, shape in drawn.items())
    areas = max((abs(found[name].area - shape.area) / shape.length, name) for name, shape in drawn.items())
    tables["curves from drawings", "shape"] = [
        f"{len(found)} shapes: at most {worst[0]:.5f} mm off ({worst[1]}), area at most {areas[0]:.5f} mm all round",
    ]
    assert worst[0] < MOST, worst
    # What lies between the two curves is no more than a strip of what arcs may stray.
    assert areas[0] < 0.004, areas


def test_kerf_of_drawn_curves(tmp_path):
    drawn = {}
    for number in range(1, 41):
        made = curves(1000 + number)
        data = path(made)
        shape = polygon(data, 800)
        middle = shapely.maximum_inscribed_circle(shape)
        radius = min(4.0, middle.length * 0.4)
        x, y = middle.coords[0]
        (tmp_path / f"{number}.svg").write_text(SVG.format(data, f'<circle cx="{x:.9f}" cy="{-y:.9f}" r="{radius:.9f}"/>'))
        hole = shapely.Point(x, y).buffer(radius, quad_segs=400)
        drawn[f"shape-{number}"] = at_origin(shape.difference(hole))
    file = album(tmp_path, [{"file": f"{number}.svg"} for number in range(1, 41)])
    run_kit(file, tmp_path / "kit", "--formats", "svg", "--effort", "low", "--kerf", "0.3", "--gap", "1")
    found = cut(tmp_path / "kit")
    for name, shape in drawn.items():
        wanted = shape.buffer(0.15, quad_segs=200)
        assert len(found[name].interiors) == 1
        assert apart(found[name], wanted) < MOST, name
        assert abs(found[name].area - wanted.area) < 0.004 * wanted.length, name


def test_svg_and_dxf_give_one_part(tmp_path):
    outlines = []
    for number in range(1, 31):
        made = curves(2000 + number)
        (tmp_path / f"{number}.svg").write_text(SVG.format(path(made), ""))
        document = ezdxf.new("R2010", units=ezdxf.units.MM)
        for points in random.Random(number).sample(made, len(made)):
            spline = document.modelspace().add_spline(degree=3)
            spline.control_points = [(x, -y, 0) for x, y in points]
            spline.knots = [0, 0, 0, 0, 1, 1, 1, 1]
        document.saveas(tmp_path / f"{number}.dxf")
        outlines += [{"file": f"{number}.svg"}, {"file": f"{number}.dxf"}]
    file = album(tmp_path, outlines)
    run_kit(file, tmp_path / "kit", "--formats", "svg", "--effort", "low")
    report = json.loads((tmp_path / "kit" / "report.json").read_text())
    parts = {part["id"]: part for part in report["parts"]}
    found = cut(tmp_path / "kit")
    for number in range(1, 31):
        one, two = f"shape-{2 * number - 1}", f"shape-{2 * number}"
        if two not in parts:
            # Equal to the last digit: they are one part, cut twice.
            assert parts[one]["count"] == 2
            continue
        assert apart(found[one], found[two]) < MOST
        assert parts[one]["area_mm2"] == pytest.approx(parts[two]["area_mm2"], abs=0.05)


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
def test_dxf_entities_of_another_writer(tmp_path, version):
    """One shape of each sort of entity, written by ezdxf, against what shapely and arithmetic make of it."""
    document = ezdxf.new(version, units=ezdxf.units.MM)
    space = document.modelspace()
    space.add_line((0, 0), (60, 0))
    space.add_arc((60, 20), 20, -90, 90)
    space.add_line((60, 40), (0, 40))
    if version == "R12":
        space.add_polyline2d([(0, 40, -0.3), (0, 0)], format="xyb")
        space.add_polyline2d([(10, 10, 0.2), (20, 10, 0), (20, 20, 0)], format="xyb", close=True)
    else:
        space.add_lwpolyline([(0, 40, -0.3), (0, 0)], format="xyb")
        space.add_lwpolyline([(10, 10, 0.2), (20, 10, 0), (20, 20, 0)], format="xyb", close=True)
        space.add_ellipse((40, 20), major_axis=(6, 3, 0), ratio=0.5)
    space.add_circle((60, 20), 5)
    document.saveas(tmp_path / "a.dxf")
    outline = {"file": "a.dxf"} if version != "R12" else {"file": "a.dxf", "unit": "mm"}
    run_kit(album(tmp_path, [outline]), tmp_path / "kit", "--formats", "svg")
    report = json.loads((tmp_path / "kit" / "report.json").read_text())
    part = next(part for part in report["parts"] if part["id"] == "shape-1")

    def segment(chord, bulge):
        """What an arc adds to its chord: radius² (angle - sine) / 2."""
        angle = 4 * math.atan(bulge)
        radius = chord * (1 + bulge**2) / (4 * bulge)
        return radius**2 * (angle - math.sin(angle)) / 2

    # From (0, 40) down to (0, 0) clockwise: it bows to the right, out of the shape's room.
    wanted = 60 * 40 + math.pi * 200 - segment(40, 0.3) - (50 + segment(10, 0.2)) - math.pi * 25
    wanted -= math.pi * (6**2 + 3**2) * 0.5 if version != "R12" else 0
    assert part["area_mm2"] == pytest.approx(wanted, abs=0.02)
