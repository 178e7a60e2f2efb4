# SPDX-License-Identifier: MIT
"""A thousand random outlines with arcs and holes: the tool path is shapely's buffer by half the kerf.

The Rust suite writes kerf.json: objects with `kerf`, the nominal `outline` and `holes`, and what the program makes of
them, `path` and `path_holes`. Every contour is a list of [x, y, bulge].
"""

import json
import multiprocessing
import os
from pathlib import Path

from shapely.geometry import Polygon

import shape
from conftest import ROOT
from verdict import no_faults, not_run

NEAR = 1e-3
CASES = 1000
#: Arcs of the nominal shape and of the path are flattened this finely; together well under NEAR.
CHORD = 1e-4


def faults(cases):
    """One line for every case that is off."""
    with multiprocessing.Pool() as pool:
        found = pool.map(faults_of, cases, chunksize=20)
    return [f"case {number}: {fault}" for number, faults_ in enumerate(found) for fault in faults_]


def faults_of(case):
    """Holds the outer path and every hole's path against shapely's."""
    half = case["kerf"] / 2
    found = ring_faults("outline", case["outline"], case["path"], half)
    if len(case["holes"]) != len(case["path_holes"]):
        return found + [f"{len(case['holes'])} holes have {len(case['path_holes'])} paths"]
    for number, path in pair(case["holes"], case["path_holes"]):
        found += ring_faults(f"hole {number}", case["holes"][number], path, -half)
    return found


def pair(holes, paths):
    """Each path with the number of the hole it lies in; the program may order them as it likes."""
    middles = [shape.polygon(path, chord=0.01).representative_point() for path in paths]
    areas = [shape.polygon(hole, chord=0.01).buffer(0.01) for hole in holes]
    left = list(range(len(paths)))
    for number, area in enumerate(areas):
        inside = [n for n in left if area.covers(middles[n])] or left[:1]
        left.remove(inside[0])
        yield number, paths[inside[0]]


def ring_faults(name, nominal, path, distance):
    """In what a path differs from the nominal ring moved out by `distance`."""
    area = shape.polygon(nominal, chord=CHORD)
    if not area.is_valid:
        return [f"{name}: the nominal shape crosses itself"]
    wanted = area.buffer(distance, quad_segs=64)
    there = shape.polygon(path, chord=CHORD)
    found = []
    if not there.is_valid:
        return [f"{name}: the path crosses itself"]
    if not isinstance(wanted, Polygon) or wanted.is_empty or wanted.interiors:
        return [f"{name}: shapely makes {wanted.geom_type} of it, not one ring"]
    off = shape.apart(there.exterior, wanted.exterior)
    if off > NEAR:
        found.append(f"{name}: the path is {off:.5f} mm off")
    if max(abs(bulge) for *_, bulge in path) > shape.QUARTER + 1e-9:
        found.append(f"{name}: the path has an arc over 90 degrees")
    return found


def worth_testing(cases):
    """A thousand different outlines, with arcs, holes and kerfs of every kind among them."""
    different = len({json.dumps(case["outline"]) for case in cases})
    arcs = sum(any(bulge for *_, bulge in case["outline"]) for case in cases)
    inward = sum(any(bulge < 0 for *_, bulge in case["outline"]) for case in cases)
    holes = sum(bool(case["holes"]) for case in cases)
    kerfs = len({case["kerf"] for case in cases})
    for what, found, needed in (
        ("outlines that differ", different, CASES),
        ("outlines with arcs", arcs, CASES // 4),
        ("outlines with arcs that bend inwards", inward, CASES // 20),
        ("outlines with holes", holes, CASES // 4),
        ("kerfs", kerfs, 5),
    ):
        if found < needed:
            yield f"{found} {what}, at least {needed} are needed"


def test_kerf():
    file = Path(os.environ.get("HINGELEAF_OUTSIDE") or ROOT / "target" / "outside") / "kerf.json"
    if not file.is_file():
        not_run(f"there is no {file}; the Rust suite writes it when HINGELEAF_OUTSIDE names its folder")
    cases = json.loads(file.read_text(encoding="utf-8"))
    no_faults(worth_testing(cases))
    no_faults(faults(cases))
