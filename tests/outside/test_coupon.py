# SPDX-License-Identifier: MIT
"""The test piece as other people's readers see it, cut and measured by a machine that is made up: a scale, a kerf, a ruler that is
read to 0.1 mm. What the program makes of the readings is what the machine was."""

import json
import subprocess

import pytest

from conftest import PROGRAM
from read import read_dxf, read_svg
from verdict import not_run

SAME = 2e-3


def run(*words):
    if not PROGRAM.is_file():
        not_run(f"there is no program at {PROGRAM}; `tests/run` builds it")
    done = subprocess.run([str(PROGRAM), "coupon", *map(str, words)], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    return done.stderr


@pytest.fixture(scope="module")
def piece(tmp_path_factory):
    folder = tmp_path_factory.mktemp("coupon") / "piece"
    run("--out", folder)
    return folder


def of(drawing, name, layer):
    return [path for path in drawing.on(layer) if path.part == name]


def box(path):
    xs, ys = zip(*(point[:2] for point in path.points), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def test_both_files_hold_the_same(piece):
    svg, dxf = read_svg(piece / "sheets" / "coupon.svg"), read_dxf(piece / "sheets" / "coupon.dxf")
    for layer in ("draw", "score", "cut"):
        one, two = ([path.line for path in drawing.on(layer)] for drawing in (svg, dxf))
        assert len(one) == len(two) > 5
        assert all(a.hausdorff_distance(b) < SAME for a, b in zip(one, two, strict=True)), layer
    assert all(0 < x < svg.width and 0 < y < svg.height for path in svg.paths for x, y, _ in path.points)


@pytest.mark.parametrize("scale, kerf", [(1, 0.13), (1.004, 0.2), (0.995, 0), (1.01, 0.08), (0.9985, 0.31)])
def test_a_machine_is_found_again(piece, tmp_path, scale, kerf):
    drawing = read_svg(piece / "sheets" / "coupon.svg")
    strips = of(drawing, "strips", "cut")
    [slot] = [path for path in strips if path.closed]
    left, low, right, high = box(slot)
    lines = sorted(path.points[0][0] for path in strips if not path.closed)
    assert len(lines) == 9 and all(path.line.length == pytest.approx(high - low, abs=SAME) for path in strips if not path.closed)
    edges = [left, *lines, right]
    row = sum(scale * (two - one) - kerf for one, two in zip(edges, edges[1:], strict=False))
    marks = [box(path) for path in of(drawing, "scale", "draw")]
    ticks = sorted(x0 for x0, y0, x1, y1 in marks if x1 - x0 < SAME and abs(y1 - y0 - 5) < SAME)
    assert len(ticks) == 2
    read = lambda mm: round(mm * 10) / 10  # noqa: E731
    said = json.loads((piece / "measured.json").read_text())
    said["scale"]["across"] = read(scale * (ticks[1] - ticks[0]))
    said["strips"], said["slots"] = read(row), read(scale * (right - left) + kerf)
    (tmp_path / "measured.json").write_text(json.dumps(said))
    told = run("--measured", tmp_path / "measured.json", "--save", tmp_path / "mine.json")
    found = json.loads((tmp_path / "mine.json").read_text())["kerf"]
    # Two readings, each off by 0.05 mm at most, over eleven kerfs; the file has two decimals.
    assert abs(found - kerf) <= 0.1 / 11 + 0.005 + 1e-9
    assert ("warn[scale]" in told) == (abs(said["scale"]["across"] - 100) > 0.06)


def test_ladders_are_what_the_page_says(piece):
    """Nicks, overruns and perforations, each by its length in the file."""
    drawing = read_svg(piece / "sheets" / "coupon.svg")
    runs = of(drawing, "nicks", "cut")
    around = 2 * (15 + 12)
    whole = {}
    for path in runs:
        x = round((box(path)[0] - min(box(run)[0] for run in runs)) / 20 - 0.2)
        whole[x] = whole.get(x, 0) + path.line.length
    assert [around - whole[x] for x in sorted(whole)] == pytest.approx([2 * long for long in (0.2, 0.3, 0.5, 0.8, 1.2)], abs=SAME)
    # Two equal strips without a score, one each way.
    across, up = sorted(of(drawing, "plain", "cut"), key=lambda path: box(path)[0])
    sides = [(box(path)[2] - box(path)[0], box(path)[3] - box(path)[1]) for path in (across, up)]
    assert sides[0] == pytest.approx((110, 12), abs=SAME) and sides[1] == pytest.approx((12, 110), abs=SAME)
    assert all(path is across or path is up or not path.line.intersects(strip.area) for strip in (across, up) for path in drawing.on("cut") + drawing.on("score"))
    squares = sorted(of(drawing, "overrun", "cut"), key=lambda path: box(path)[0])
    assert [path.line.length - 48 for path in squares] == pytest.approx([0, 0.5, 1, 1.5], abs=SAME)
    for name in ("scores-across", "scores-up"):
        lengths = {}
        for path in of(drawing, name, "score"):
            middle = box(path)[1 if name == "scores-up" else 0]
            lengths.setdefault(round(middle, 2), []).append(path.line.length)
        cuts = [lengths[place] for place in sorted(lengths)]
        assert [max(each) for each in cuts] == pytest.approx([20, 20, 1, 1, 1, 1, 2, 2, 3, 3], abs=SAME), name
