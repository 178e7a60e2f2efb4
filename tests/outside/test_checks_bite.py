# SPDX-License-Identifier: MIT
"""The checks themselves, tried on folders made by hand: a good one passes, and each planted fault is found.

Needs no program: a check that would let anything pass shows here.
"""

import copy

import pytest

import make
import shape
import test_areas
import test_determinism
import test_dxf
import test_folding
import test_handedness
import test_kerf
import test_report
import test_same
import test_scores
import test_sheets
import test_svg

CHECKS = (test_dxf, test_svg, test_same, test_sheets, test_scores, test_report, test_handedness)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
@pytest.mark.parametrize("kerf, dxf_version", [(0.1, "R2000"), (0.1, "R12"), (0.0, "R2000")])
def test_a_good_folder_passes(tmp_path, check, kerf, dxf_version):
    assert not check.faults(make.Plan(kerf=kerf, dxf_version=dxf_version).write(tmp_path / "kit"))


def test_a_hand_is_seen(tmp_path):
    kit = make.Plan().write(tmp_path / "kit")
    handed = {
        part: test_handedness.has_a_hand(seen[0][1], kit.parts[part])
        for part, seen in test_handedness.looks(kit, test_handedness.by_name).items()
    }
    assert handed == {"corner": True, "strip": False}


GROUPS = [
    {"of": [{"parts": ["strip"], "count": 2}], "sheets": 1, "each_alone": False},
    {"of": [{"parts": ["corner"], "count": 8}], "sheets": 1, "each_alone": True},
]


def counted(part, count):
    return {"parts": [part], "count": count}


def because(**why):
    """Gives the layout a reason."""
    return report("layouts", why={"too_few": 1, "argument": "weighed", "text": "", **why})


# How a fault is planted: each of these gives a function that spoils one thing of the plan.


def svg_text(old, new):
    return lambda plan: plan.edits.append(("card-01.svg", old, new))


def dxf_text(old, new):
    return lambda plan: plan.edits.append(("card-01.dxf", old, new))


def dxf_document(change):
    return lambda plan: plan.on_dxf.append(change)


def strokes(change, files=("svg", "dxf"), **which):
    """Changes every stroke that has the given attributes."""

    def plant(plan):
        for file in files:
            found = plan.find(getattr(plan, file), **which)
            assert found, f"there is no stroke with {which}"
            for path in found:
                change(path)

    return plant


def moved(part, number, dx, dy, report_too=True):
    return lambda plan: plan.move(part, number, dx, dy, report_too)


def report(part=None, **values):
    """Changes the first entry of a list in the report."""
    return lambda plan: plan.report[part][0].update(values)


def placement(number, **values):
    return lambda plan: plan.report["sheets"][0]["placements"][number].update(values)


def pair_of(copy_, partner):
    """Lets the report say that two corners lie head to tail."""
    spots = {"part": "corner", "copy": partner}
    return lambda plan: plan.report["sheets"][0]["placements"][copy_ - 1].update(pair_of=spots)


def head_to_tail(plan):
    """Lays two corners clip to clip, so that each reaches into the other's box."""
    plan.move("corner", 1, 80 - 3.05, 80 - 3.05)
    plan.move("corner", 3, 137 - 105.25, 117 - 3.05)


def offcut(**values):
    return lambda plan: plan.report["sheets"][0]["offcuts"][0].update(values)


# What is done to a stroke.


def nudge(path):
    make.shift(path, 0, 0.02)


def drop(path):
    make.shift(path, 0, -2.5)


def shorten(path):
    (x, y, bulge), end = path.points
    path.points = [(x + 0.05, y, bulge), end]


def leave_open(path):
    path.closed = False


def half_circles(path):
    path.points = [(x, y, 1.0) for x, y, _ in path.points[::2]]


def run_backwards(path):
    """The same contour from end to start: each bulge moves to its edge's other end and bends the other way."""
    bulges = [-bulge for *_, bulge in path.points][::-1]
    bulges = bulges[1:] + bulges[:1]
    path.points = [(x, y, bulge) for (x, y, _), bulge in zip(path.points[::-1], bulges)]


def mirror_second_corner(path):
    """Mirrors a stroke left to right within the box of the second corner, which is 40 wide as it lies."""
    path.points = [(2 * 64.15 + 40 - x, y, -bulge) for x, y, bulge in path.points]
    run_backwards(path)


def cross_itself(path):
    path.points[0], path.points[1] = path.points[1], path.points[0]


# What is done to the plan.


def join_scores(plan):
    """One score right across the hole instead of one on either side."""
    for paths in (plan.svg, plan.dxf):
        left, right = plan.find(paths, fold="valley", part="corner", copy=1)
        left.points[1] = right.points[1]
        paths.remove(right)


def leave_out_score(plan):
    for paths in (plan.svg, plan.dxf):
        paths.remove(plan.find(paths, fold="mountain", copy=1)[0])


def leave_mark_out_of_dxf(plan):
    plan.dxf.remove(plan.find(plan.dxf, layer="draw")[0])


def cut_outline_first(plan):
    hole, outline = plan.find(plan.svg, layer="cut", part="corner", copy=1)
    here, there = plan.svg.index(hole), plan.svg.index(outline)
    plan.svg[here], plan.svg[there] = outline, hole


def renumber(path):
    path.copy = 2


def one_way(plan):
    plan.album = {"stocks": {"card": {"pattern": "one-way"}}}


def one_way_from_the_top(plan):
    plan.album = {"bound": "top", "stocks": {"card": {"pattern": "one-way"}}}


def sheet_twice(plan):
    plan.report["sheets"].append({**plan.report["sheets"][0], "name": "card-02"})


# What is done to the DXF through ezdxf.


def inches(document):
    document.header["$INSUNITS"] = 1


def text(document):
    document.modelspace().add_text("corner", dxfattribs={"layer": "draw"})


def circle(document):
    document.modelspace().add_circle((100, 200), 5, dxfattribs={"layer": "cut"})


def off_our_layers(document):
    document.modelspace().add_line((10, 200), (20, 200), {"layer": "0"})


def stray_layer(document):
    document.layers.add("notes")


def green_cut(document):
    document.layers.get("cut").color = 3


def small_extents(document):
    document.modelspace().reset_extents((1, 1, 0), (100, 100, 0))


def unknown_line_type(document):
    document.modelspace().add_line((10, 200), (20, 200), {"layer": "cut", "linetype": "NOT-THERE"})


SECOND = {"part": "corner", "copy": 2}
CUT = {"layer": "cut", "part": "corner", "copy": 1}
FOLD = {"fold": "mountain", "copy": 1}
STRIP = {"layer": "cut", "part": "strip"}
FAULTS = {
    test_handedness: {
        "a mirrored part": (strokes(mirror_second_corner, **SECOND), "in the SVG"),
        "a part mirrored in the SVG": (strokes(mirror_second_corner, ["svg"], **SECOND), "in the SVG"),
        "a part mirrored in the DXF": (strokes(mirror_second_corner, ["dxf"], **SECOND), "in the DXF"),
        "a part turned the other way": (placement(1, turn_deg=270), "off its model"),
    },
    test_scores: {
        "a score that stops short": (strokes(shorten, **FOLD), "from the edge"),
        "a score in the wrong place": (strokes(nudge, **FOLD), "off the report's"),
        "a score of the wrong fold": (svg_text('fold="mountain"', 'fold="valley"'), "fold) are"),
        "a score across a hole": (join_scores, "leaves the part"),
        "a score left out": (leave_out_score, "off the report's"),
        "a score turned the other way": (placement(0, turn_deg=180), "off the report's"),
    },
    test_sheets: {
        "two parts 0.9 apart": (moved("corner", 2, -0.1, 0), "0.9000 mm apart"),
        "two parts one upon the other": (moved("corner", 2, -20, 0), "0.0000 mm apart"),
        "a part in the margin": (moved("corner", 1, -0.01, 0), "margin"),
        "a part off its place": (moved("strip", 1, 0.01, 0, False), "off the report's"),
        "a part somewhere else": (moved("strip", 1, 9, 0, False), "not where the report"),
        "a mark off its part": (strokes(drop, layer="draw", copy=1), "leaves its part"),
        "an outline run backwards": (strokes(run_backwards, **STRIP), "clockwise"),
        "an outline that crosses itself": (strokes(cross_itself, **STRIP), "Self-intersection"),
        "an offcut off the sheet": (offcut(width_mm=200.0), "not on the sheet"),
        "a pair that is none": (pair_of(1, 3), "the report says {"),
        "a pair that is not told": (head_to_tail, "lies head to tail with [{"),
        "an offcut with a part in it": (offcut(x_mm=3.0, y_mm=140.0), "holds strip"),
    },
    test_svg: {
        "no closing Z": (svg_text(' Z"', '"'), "is open"),
        "the wrong size": (svg_text('width="210mm"', 'width="211mm"'), "width"),
        "pixels": (svg_text('width="210mm"', 'width="210"'), "not in mm"),
        "another sheet's size": (report("sheets", height_mm=297.01), "height"),
        "a shifted view": (svg_text('viewBox="0 0', 'viewBox="0 1'), "viewBox"),
        "groups out of order": (svg_text('id="draw"', 'id="score"'), "the groups are"),
        "a fourth group": (svg_text("</svg>", '<g id="notes"/></svg>'), "the groups are"),
        "a transform": (svg_text('id="cut"', 'id="cut" transform="translate(1 0)"'), "transform"),
        "a style": (svg_text('id="cut"', 'id="cut" style="fill:none"'), "style"),
        "a text": (svg_text("</svg>", "<text>corner</text></svg>"), "<text>"),
        "a circle": (svg_text("</g>\n</svg>", '<circle r="5"/></g>\n</svg>'), "<circle>"),
        "a filled cut": (svg_text('id="cut" fill="none"', 'id="cut"'), "fill"),
        "a cut in red": (svg_text("#000000", "#FF0000"), "#FF0000"),
        "a relative stroke": (svg_text(' d="M', ' d="m'), "m with"),
        "a curve": (svg_text(" Z", " C1 1 2 2 3 3 Z"), "C with"),
        "five decimals": (svg_text('d="M33.05 ', 'd="M33.05001 '), "33.05001"),
        "a needless zero": (svg_text('d="M33.05 ', 'd="M33.050 '), "33.050"),
        "a zero below zero": (svg_text('d="M33.05 ', 'd="M-0 '), "-0"),
        "an arc with two radii": (svg_text("A4.95 4.95", "A4.95 4.96"), "arc 4.95 4.96"),
        "half circles": (strokes(half_circles, ["svg"], **CUT), "an arc of 180"),
        "a part without a name": (svg_text('data-part="strip"', ""), "belongs to no placement"),
        "a copy that the report does not know": (strokes(renumber, ["svg"], part="strip"), "strip copy 1 is not cut"),
        "a hole cut last": (cut_outline_first, "after the outline"),
        "a fold on a cut": (svg_text('part="strip"', 'part="strip" data-fold="both"'), "data-fold='both'"),
        "a sheet without a file": (sheet_twice, "but not in the folder"),
    },
    test_dxf: {
        "inches": (dxf_document(inches), "$INSUNITS is 1"),
        "a text": (dxf_document(text), "a TEXT"),
        "a circle": (dxf_document(circle), "a CIRCLE"),
        "a line on layer 0": (dxf_document(off_our_layers), "on layer 0"),
        "a stray layer": (dxf_document(stray_layer), "layers are"),
        "a green cut": (dxf_document(green_cut), "colour 3"),
        "small extents": (dxf_document(small_extents), "extents"),
        "a line type that is not there": (dxf_document(unknown_line_type), "audit"),
        "another release": (dxf_text("AC1015", "AC1018"), "$ACADVER"),
        "an open cut": (strokes(leave_open, ["dxf"], **STRIP), "is open"),
        "half circles": (strokes(half_circles, ["dxf"], **CUT), "over 90 degrees"),
        "a sheet without a file": (sheet_twice, "but not in the folder"),
    },
    test_same: {
        "a part mirrored in the SVG": (strokes(mirror_second_corner, ["svg"], **SECOND), "is not in the DXF"),
        "a stroke that differs by 0.02": (strokes(nudge, ["dxf"], **FOLD), "is not in the DXF"),
        "a stroke missing from the DXF": (leave_mark_out_of_dxf, "paths, the DXF"),
    },
    test_report: {
        "too few sheets": (report("sheets", times=1), "is cut 4 times"),
        "a copy numbered twice": (placement(0, copy=2), "numbered"),
        "a part on another stock": (report("parts", stock="board"), "is on card"),
        "the same sheet twice": (sheet_twice, "written 2 times"),
        "a turn on one-way stock": (one_way, "one-way"),
        "no turn where the left is up": (one_way_from_the_top, "turned by 0 on one-way"),
        "a wrong share used": (report("layouts", used_percent=20.0), "used"),
        "a wrong number of sheets": (report("layouts", sheets=3), "3 sheets, but 2"),
        "a bound that was not met": (report("layouts", lower_bound=1), "proven_least is True"),
        "a bound above the sheets": (report("layouts", lower_bound=3), "fewer than the bound"),
        "a reason for another bound": (because(too_few=2), "2 sheets are too few"),
        "no more area than one sheet": (because(argument="area"), "no more area than 1 sheets"),
        "more of a part than are cut": (because(argument="at-most", most=1, of=[counted("strip", 9)]), "9 x strip are spoken of"),
        "pieces that come to too little": (because(argument="at-most", most=2, of=[counted("strip", 2)]), "come to no more than"),
        "a sheet that holds more": (because(argument="at-most", most=3, of=[counted("corner", 8)]), "holds 4 points"),
        "a sheet that could hold more": (because(argument="at-most", most=1, of=[counted("strip", 2)]), "can hold more than 1"),
        "groups on one sheet": (because(argument="apart", groups=GROUPS), "parts of two groups"),
        "groups that take too few": (because(argument="apart", groups=GROUPS[:1]), "the groups take no more"),
        "alone on fewer sheets": (because(argument="apart", groups=GROUPS[1:]), "parts that lie alone take 1"),
        "a layout without sheets": (report("layouts", stock="board"), "layouts are named"),
    },
}
PLANTED = {
    f"{check.__name__.removeprefix('test_')}: {name}": (check, *fault)
    for check, faults in FAULTS.items()
    for name, fault in faults.items()
}


@pytest.mark.parametrize("name", PLANTED)
def test_a_fault_is_found(tmp_path, name):
    check, plant, words = PLANTED[name]
    plan = make.Plan()
    plant(plan)
    found = check.faults(plan.write(tmp_path / "kit"))
    assert any(words in fault for fault in found), found


def test_a_wrong_area_is_found(tmp_path):
    plan = make.Plan(kerf=0.0)
    plan.report["parts"][0]["area_mm2"] += 0.02
    assert any("area is" in fault for fault in test_report.faults(plan.write(tmp_path / "kit")))


def test_a_unit_in_an_old_dxf_is_found(tmp_path):
    plan = make.Plan(dxf_version="R12")
    dxf_text("$EXTMIN", "$INSUNITS\n 70\n4\n  9\n$EXTMIN")(plan)
    assert any("$INSUNITS is 4" in fault for fault in test_dxf.faults(plan.write(tmp_path / "kit")))


def test_a_changed_byte_is_found(tmp_path):
    one, other = (make.Plan().write(tmp_path / name).folder for name in ("one", "other"))
    svg = "sheets/card-01.svg"
    (other / svg).write_bytes((one / svg).read_bytes() + b" ")
    (other / "notes.txt").write_text("stray")
    assert {f"{svg} differs", "notes.txt is in one folder only"} <= set(test_determinism.faults(one, other))


def kerf_case(kerf):
    """Round and sharp corners, an arc that bends inwards, two holes; `make.offset` works out the paths."""
    outline = make.rounded(80, 50, 6)
    outline[1:3] = [(20, 0, -shape.QUARTER), (40, 0, 0.0), (80, 0, 0.0)]
    holes = [make.ring(20, 25, 5), make.rounded(30, 30, 4)]
    holes[1] = [(x + 40, y + 10, bulge) for x, y, bulge in holes[1]]
    return {
        "kerf": kerf,
        "outline": outline,
        "holes": holes,
        "path": make.offset(outline, kerf / 2),
        "path_holes": [make.offset(hole, -kerf / 2) for hole in holes],
    }


def test_a_good_kerf_passes():
    cases = [kerf_case(kerf / 100) for kerf in range(5, 51, 5)]
    for case in cases:
        case["path_holes"].reverse()
    assert not test_kerf.faults(cases)


@pytest.mark.parametrize("name", ["path", "path_holes"])
@pytest.mark.parametrize("off", [0.0015, -0.0015, 0.2])
def test_a_wrong_kerf_is_found(name, off):
    case = kerf_case(0.2)
    other = kerf_case(0.2 + 2 * off)
    assert test_kerf.faults_of({**case, name: other[name]})


def test_a_lost_hole_is_found():
    case = kerf_case(0.2)
    assert test_kerf.faults_of({**case, "path_holes": case["path_holes"][:1]})


def test_too_few_kerfs_are_found():
    cases = [copy.deepcopy(kerf_case(0.2)) for _ in range(1000)]
    assert any("outlines that differ" in fault for fault in test_kerf.worth_testing(cases))


@pytest.mark.parametrize("field, value", [("area", 11.0), ("beyond", 4.0)])
def test_a_wrong_overlap_is_found(field, value):
    row = {"bond": "a on b", "one": [[0, 0], [4, 0], [4, 5], [0, 5]], "other": [[-5, -5], [2, -5], [2, 9], [-5, 9]]}
    row |= {"area": 10.0, "beyond": 2.0}
    assert not list(test_folding.faults([row]))
    assert list(test_folding.faults([row | {field: value}]))
    assert list(test_folding.worth_testing([row]))


NARROW = [[0, 0, 0], [9, 0, 0], [9, 10, 0], [0, 10, 0]]


@pytest.mark.parametrize("field, value", [("area", 99.0), ("length", 41.0), ("panels", [NARROW])])
def test_a_wrong_area_is_found(field, value):
    halves = [[[x, 0, 0], [x + 5, 0, 0], [x + 5, 10, 0], [x, 10, 0]] for x in (0, 5)]
    square = [[0, 0, 0], [10, 0, 0], [10, 10, 0], [0, 10, 0]]
    row = {"kind": "a", "part": "b", "panels": halves, "net_holes": [], "outline": square, "holes": []}
    row |= {"area": 100.0, "length": 40.0}
    assert not list(test_areas.faults([row]))
    assert list(test_areas.faults([row | {field: value}]))
    assert list(test_areas.worth_testing([row]))
