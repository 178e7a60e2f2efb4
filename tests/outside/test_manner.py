# SPDX-License-Identifier: MIT
"""What a cutter file asks of strokes is what other people's readers find in the files: nicks exactly as asked, nothing cut
twice unless passes say so, overrun, start, direction, curves, order; a blade that trails behind its axis cuts the outline.

Every stroke is walked along the contours that the same album has where nothing is asked, by shapely.
"""

import json
import math
from collections import Counter

import numpy as np
import pytest
import shapely
import svgelements
from shapely.geometry import LineString, Point, box

import shape
from conftest import run_kit
from read import read_dxf, read_svg

PLAIN = {"format": "hingeleaf-cutter/1", "kerf": 0.2, "gap": 2, "margin": 5}
#: Seams, hinge tabs, scores, round corners, holes.
ALBUM = {
    "format": "hingeleaf-album/1",
    "page": {"width": 120, "height": 160, "seam": 12},
    "pages": [{"kind": "pocket"}, {"kind": "wallet", "pocket": 90, "overflap": 40}],
    "spine": {"kind": "flexi-hinge", "pitch": 6, "tab": 12, "gusset": 6, "lead_in": 6},
    "inserts": [{"kind": "tag", "width": 70, "height": 100, "hole": 6, "corner": 6, "count": 4}],
}
#: Nearer than this is the same, mm: the rounding of both ends of both files, and the chords of flattened arcs.
NEAR = 2e-3
#: Nicks keep this far from corners and ends of scores (our choice).
CLEAR = 1.0
#: Arcs tighter than this are corners (our choice).
ROUND = 3.0


class Cut:
    """Sheets as a cutter file with these fields makes them, read from SVG or DXF; each album is made once."""

    def __init__(self, folders):
        self.folders = folders
        self.made = {}

    def folder(self, **asked):
        key = json.dumps(asked, sort_keys=True)
        if key not in self.made:
            folder = self.folders.mktemp("manner")
            (folder / "cutter.json").write_text(json.dumps({**PLAIN, **asked}))
            (folder / "album.json").write_text(json.dumps(ALBUM))
            run_kit(folder / "album.json", folder / "kit", "--cutter", folder / "cutter.json", "--formats", "svg,dxf", "--effort", "low")
            self.made[key] = folder / "kit" / "sheets"
        return self.made[key]

    def __call__(self, kind="svg", **asked):
        read = read_svg if kind == "svg" else read_dxf
        return {file.stem: read(file) for file in sorted(self.folder(**asked).glob(f"*.{kind}"))}


@pytest.fixture(scope="module")
def cut(tmp_path_factory):
    return Cut(tmp_path_factory)


def signed(path):
    """Twice the area that a closed contour goes round, negative with the clock."""
    points = shape.flatten(path.points, True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:], strict=False))


def contours(drawing):
    """The closed cuts of a plain sheet, each with its ring and whether it is an outline."""
    return [(path, LineString(shape.flatten(path.points, True)), signed(path) > 0) for path in drawing.on("cut")]


def on_ring(drawing, ring):
    """The cuts of a sheet that run along a ring."""
    found = []
    for path in drawing.on("cut"):
        if shapely.distance(ring, shapely.points(path.line.coords)).max() < NEAR:
            found.append(path)
    return found


def coverage(found, ring):
    """How often each stretch of a ring is run over: (from, to, times), the stretches without one another's ends in them."""
    length, spans = ring.length, []
    for path in found:
        start, long = ring.project(Point(path.line.coords[0])) % length, path.line.length
        while long > NEAR:
            step = min(long, length - start)
            spans.append((start, start + step))
            start, long = 0.0, long - step
    ends = sorted({0.0, length, *(end for span in spans for end in span)})
    pairs = [(one, two) for one, two in zip(ends, ends[1:], strict=False) if two - one > NEAR]
    return [(one, two, sum(a <= (one + two) / 2 <= b for a, b in spans)) for one, two in pairs]


def bare(stretches, length):
    """How long each stretch without a cut is; one over the ring's start counts as one."""
    found = [(one, two) for one, two, times in stretches if times == 0]
    if len(found) > 1 and found[0][0] == 0.0 and found[-1][1] == length:
        found[0] = (found.pop()[0] - length, found[0][1])
    return [two - one for one, two in found]


def test_fields_at_their_usual_change_nothing(cut):
    plain, said = cut(), cut(passes=1, order="travel", direction="part-left", curves="arcs", overrun=0, start="nearest")
    for name, drawing in plain.items():
        assert [path.points for path in drawing.paths] == [path.points for path in said[name].paths]


@pytest.mark.parametrize("kind", ["svg", "dxf"])
def test_passes_are_as_many_as_asked(cut, kind):
    plain, many = cut(), cut(kind, passes={"cut": 3, "score": 2})
    for name, drawing in plain.items():
        for layer, times in (("score", 2), ("draw", 1)):
            one, more = (sum(path.line.length for path in sheet.on(layer)) for sheet in (drawing, many[name]))
            assert abs(more - times * one) < 0.05, (name, layer)
        for path, ring, _ in contours(drawing):
            assert {times for _, _, times in coverage(on_ring(many[name], ring), ring)} == {3}, (name, str(path))


@pytest.mark.parametrize("kind", ["svg", "dxf"])
@pytest.mark.parametrize("asked", [{"length": 0.5, "count": 2, "small_under": 120}, {"length": 1.2, "count": 3, "small_count": 4, "small_under": 120}])
def test_nicks_are_exactly_as_asked(cut, asked, kind):
    plain, sheets = cut(), cut(kind, nicks=asked)
    sizes = Counter()
    for name, drawing in plain.items():
        ends = places(path.points[at][:2] for path in drawing.on("score") for at in (0, -1))
        for path, ring, outer in contours(drawing):
            found = on_ring(sheets[name], ring)
            stretches = coverage(found, ring)
            assert all(times <= 1 for _, _, times in stretches), (name, str(path))
            gaps = bare(stretches, ring.length)
            if not outer:
                assert not gaps, "a hole has nicks"
                continue
            x0, y0, x1, y1 = ring.bounds
            small = max(x1 - x0, y1 - y0) - PLAIN["kerf"] < asked["small_under"]
            sizes[small] += 1
            wanted = asked.get("small_count", asked["count"] + 1) if small else asked["count"]
            assert len(gaps) == wanted, (name, str(path), gaps)
            # What the tool leaves of the part's edge is shorter by its own width.
            assert all(abs(gap - PLAIN["kerf"] - asked["length"]) < NEAR for gap in gaps), (name, str(path), gaps)
            keep_clear(found, path, ring, ends)
    assert min(sizes[False], sizes[True]) >= 3


def places(found):
    """Points of shapely, none of them where there are none."""
    return shapely.points(np.reshape([place for place in found], (-1, 2)))


def keep_clear(found, path, ring, ends):
    """Nicks stand clear of corners and of the ends of scores."""
    corners = places(bends(path))
    near = ends[shapely.distance(ring, ends) < PLAIN["kerf"]]
    tips = Counter(tuple(round(value, 2) for value in run.points[at][:2]) for run in found for at in (0, -1))
    # The contour's own start is the end of two runs; every other end is one side of a nick.
    for tip in (Point(place) for place, times in tips.items() if times == 1):
        assert not len(corners) or shapely.distance(tip, corners).min() > CLEAR - 0.02, (str(path), tip)
        assert not len(near) or shapely.distance(tip, near).min() > CLEAR - PLAIN["kerf"], (str(path), tip)


def bends(path):
    """The corners of a plain contour: both ends of tight arcs, and where straight edges meet at an angle."""
    points = path.points
    for index, (x, y, bulge) in enumerate(points):
        (x0, y0, before), (x1, y1, _) = points[index - 1], points[(index + 1) % len(points)]
        if bulge and math.hypot(x1 - x, y1 - y) * (1 + bulge * bulge) / (4 * abs(bulge)) < ROUND:
            yield from ((x, y), (x1, y1))
        elif not bulge and not before:
            turn = math.atan2(y1 - y, x1 - x) - math.atan2(y - y0, x - x0)
            if abs((turn + math.pi) % math.tau - math.pi) > 0.02:
                yield x, y


def test_closed_cuts_run_past_their_start(cut):
    plain, more = cut(), cut(overrun=1.5)
    for name, drawing in plain.items():
        for path, ring, _ in contours(drawing):
            twice = [two - one for one, two, times in coverage(on_ring(more[name], ring), ring) if times == 2]
            assert abs(sum(twice) - 1.5) < NEAR, (name, str(path), twice)


@pytest.mark.parametrize("asked", ["clockwise", "part-right"])
def test_cuts_run_the_way_that_is_asked(cut, asked):
    plain, sheets = cut(), cut("dxf", direction=asked)
    for name, drawing in plain.items():
        for path, ring, outer in contours(drawing):
            [mine] = on_ring(sheets[name], ring)
            against = {"clockwise": False, "counter-clockwise": True, "part-right": not outer}[asked]
            assert (signed(mine) > 0) == against, (name, str(path))


def test_small_parts_come_first(cut):
    for name, drawing in cut(order="small-first").items():
        inner, outer = ([path for path, _, is_outer in contours(drawing) if is_outer == out] for out in (False, True))
        assert drawing.on("cut") == inner + outer, name
        for group in (inner, outer):
            areas = [path.area.area for path in group]
            assert all(one <= two + 0.5 for one, two in zip(areas, areas[1:], strict=False)), (name, areas)


@pytest.mark.parametrize("kind", ["svg", "dxf"])
def test_curves_come_as_short_lines(cut, kind):
    arcs, lines = cut(), cut(kind, curves="lines", curve_tolerance=0.05)
    assert sum(1 for sheet in arcs.values() for path in sheet.on("cut") for point in path.points if point[2]) > 30
    for name, drawing in lines.items():
        assert all(point[2] == 0 for path in drawing.paths for point in path.points)
        for one, other in zip(arcs[name].on("cut"), drawing.on("cut"), strict=True):
            assert one.line.hausdorff_distance(other.line) < 0.05 + NEAR


def test_curves_come_as_cubics(cut):
    """svgelements evaluates the cubics itself; they stand on the arcs."""
    arcs = cut()
    seen = 0
    for file in sorted((cut.folder(curves="cubics")).glob("*.svg")):
        per_mm = svgelements.Length("1mm").value(ppi=96)
        svg = svgelements.SVG.parse(str(file))
        height, points = svg.height / per_mm, []
        for element in svg.elements(lambda one: isinstance(one, svgelements.Path)):
            assert not any(isinstance(segment, svgelements.Arc) for segment in element)
            for segment in element:
                if isinstance(segment, svgelements.CubicBezier):
                    places = [segment.point(step / 8) for step in range(9)]
                    points += [(place.x / per_mm, height - place.y / per_mm) for place in places]
        rings = shapely.union_all([ring for _, ring, _ in contours(arcs[file.stem])])
        if points:
            assert shapely.distance(rings, shapely.points(points)).max() < NEAR, file.stem
        seen += len(points)
    assert seen > 300


def test_a_trailing_blade_cuts_the_outline(cut):
    """The axis is pulled along its way in small steps, the tip follows as a towed point does (a tractrix): where the tip was is
    the outline."""
    trail = 0.4
    plain, led = cut(), cut(trail=trail, corner_help=True, overrun=2)
    name, drawing = next(iter(plain.items()))
    for path, ring, _ in contours(drawing):
        mine = [run for run in led[name].on("cut") if (run.part, run.copy) == (path.part, path.copy)]
        [axis] = [run.line for run in mine if abs(run.line.hausdorff_distance(ring)) < 2 * trail]
        way = np.array(axis.segmentize(0.01).coords)
        # The blade is set down on the contour's start; it swivels in where the overrun cuts once more.
        tip = np.array(path.points[0][:2])
        tips = [tip]
        for place in way[1:]:
            off = place - tip
            tip = place - off / np.linalg.norm(off) * trail
            tips.append(tip)
        assert ring.hausdorff_distance(LineString(tips)) < 0.02, str(path)
        # The axis itself runs elsewhere: without it the blade would leave its corners.
        assert axis.hausdorff_distance(ring) > trail / 2


def pieces(sheet, path, kerf):
    """The sheet after one more stroke of a round tool."""
    return sheet.difference(path.line.buffer(kerf / 2, quad_segs=16))


def loose(sheet, drawing):
    """What does not hang on the sheet's border any more."""
    border = box(0, 0, drawing.width, drawing.height).exterior
    return [piece for piece in getattr(sheet, "geoms", [sheet]) if not piece.intersects(border)]


@pytest.mark.parametrize("asked", [{"overrun": 1, "order": "small-first"}, {"start": "hidden", "passes": 2}])
def test_parts_come_loose_at_their_size_and_in_their_turn(cut, asked):
    """The kerf is taken off along each stroke in the file's order by shapely."""
    report = json.loads((cut.folder(**asked).parent / "report.json").read_text())
    sizes = {part["id"]: (part["width_mm"], part["height_mm"], part["area_mm2"]) for part in report["parts"]}
    met = 0
    for name, drawing in cut(**asked).items():
        holes = {id(path) for path in drawing.on("cut") if abs(path.area.area) < min(size[2] for size in sizes.values()) / 2}
        sheet, free = box(0, 0, drawing.width, drawing.height), 0
        for path in drawing.on("cut"):
            sheet = pieces(sheet, path, PLAIN["kerf"])
            now = [piece for piece in loose(sheet, drawing) if piece.area > min(size[2] for size in sizes.values()) / 2]
            if id(path) in holes:
                assert len(now) == free == 0, (name, "a part is loose before a hole is cut")
            elif len(now) > free:
                assert len(now) == free + 1, (name, str(path))
                piece = max(now, key=lambda one: one.intersection(path.line.buffer(1)).area)
                x0, y0, x1, y1 = piece.bounds
                width, height, area = sizes[path.part]
                found, wanted = sorted((x1 - x0, y1 - y0)), sorted((width, height))
                assert all(abs(a - b) < 0.01 for a, b in zip(found, wanted, strict=True)), (name, str(path), found)
                assert abs(piece.area - area) < 0.01 * piece.length, (name, str(path))
                free, met = len(now), met + 1
        assert free == len({(path.part, path.copy) for path in drawing.on("cut")}), name
    assert met > 3


def test_nicks_hold_until_the_end(cut):
    for drawing in cut(nicks={"length": 0.5, "count": 2, "small_under": 120}).values():
        sheet = box(0, 0, drawing.width, drawing.height)
        for path in drawing.on("cut"):
            sheet = pieces(sheet, path, PLAIN["kerf"])
        # Only what falls out of holes is loose.
        assert all(piece.area < 400 for piece in loose(sheet, drawing))


def test_beds_hold_every_sheet_as_often_as_it_is_cut(cut):
    """Each stroke of the plain sheets lies on the beds where the report says, as often as its sheet is cut, and no other."""
    folder = cut.folder(bed="600x430mm", sheets_a_bed=2)
    report = json.loads((folder.parent / "report.json").read_text())
    beds = {bed["name"]: bed for bed in report["beds"]}
    assert len(beds) > 1 and any(sheet["turn_deg"] for bed in beds.values() for sheet in bed["sheets"])
    lie = Counter()
    for kind, read in (("svg", read_svg), ("dxf", read_dxf)):
        files = {file.stem: read(file) for file in folder.glob(f"*.{kind}")}
        assert files.keys() == beds.keys()
        for name, drawing in files.items():
            wanted = Counter()
            for sheet in beds[name]["sheets"]:
                high = next(one["height_mm"] for one in report["sheets"] if one["name"] == sheet["sheet"])
                for path in cut(kind)[sheet["sheet"]].paths:
                    wanted[key(path.layer, [lying(point, sheet, high) for point in path.points])] += 1
                if kind == "svg":
                    lie[sheet["sheet"]] += beds[name]["times"]
            found = Counter(key(path.layer, [point[:2] for point in path.points]) for path in drawing.paths)
            assert not wanted - found and not found - wanted, name
            assert all(0 < x < 600 and 0 < y < 430 for path in drawing.paths for x, y, _ in path.points)
    assert lie == {sheet["name"]: sheet["times"] for sheet in report["sheets"]}


def lying(point, sheet, high):
    """A point of a sheet where the sheet lies on its bed."""
    x, y = (high - point[1], point[0]) if sheet["turn_deg"] else point[:2]
    return x + sheet["x_mm"], y + sheet["y_mm"]


def key(layer, points):
    """A stroke as it can be counted: its middle and its size, to a hundredth of a millimetre or so."""
    across, up = zip(*points)
    return layer, len(points), *(round(sum(side) / len(side) * 50 + 0.123) for side in (across, up))
