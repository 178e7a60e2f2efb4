# SPDX-License-Identifier: MIT
"""How far the head travels with the tool lifted: the report adds up, and no other order is much shorter.

Scores, inner cuts and outer cuts are made one group after the other. Within each, OR-tools looks for the shortest
order of the same strokes, each begun where the file begins it; ours may be at most 1.05 times as long. Normal runs ask
this of three large sheets; HINGELEAF_LONG=1 asks it of every sheet of every fixture, and gives OR-tools more time.
"""

import dataclasses
import json
import os
from dataclasses import dataclass

import numpy as np
import pytest
from ortools.constraint_solver import pywrapcp, routing_enums_pb2

from conftest import ALBUMS, flags, run_kit
from placed import by_name
from read import Kit
from verdict import no_faults

LONG = os.environ.get("HINGELEAF_LONG") == "1"
#: How much longer than the other order ours may be.
MOST = 1.05
#: Ends of strokes are rounded to this in an SVG, mm.
DECIMAL = 1e-4
#: A large sheet has at least so many contours.
LARGE = 60
GROUPS = ("scores", "inner cuts", "outer cuts")
TITLE = "travel, mm"
HEAD = f"{'sheet':28} {'group':10} {'strokes':>7} {'as placed':>10} {'OR-tools':>10} {'ours':>10} {'ratio':>6}"


def tag(width, height, count, **more):
    return {"kind": "tag", "width": width, "height": height, "count": count, "pages": [1], **more}


def album(inserts, **more):
    """One page of small card on A4, and many inserts on an A2 sheet."""
    return {
        "format": "hingeleaf-album/1",
        "stocks": {"card": {"sheet": "A4", "caliper": 0.3}, "large": {"sheet": "A2", "caliper": 0.3}},
        "page": {"width": 90, "height": 130, "stock": "card"},
        "pages": [{"kind": "pocket"}],
        "inserts": [{**insert, "stock": "large"} for insert in inserts],
        **more,
    }


#: Eighty tags alike; tags of five sizes, some without a hole; many small pages, scored, with their hinge strips.
LARGE_ALBUMS = {
    "eighty-tags": album([tag(40, 55, 80, hole=4, corner=3)]),
    "mixed-tags": album(
        [
            tag(40, 55, 24, hole=4),
            tag(62, 35, 18, hole=3, corner=5),
            tag(30, 30, 30, hole=5, corner=2),
            tag(75, 48, 14, hole=0, corner=0),
            tag(25, 80, 12, hole=3),
        ]
    ),
    "small-pages": {
        "format": "hingeleaf-album/1",
        "stocks": {"large": {"sheet": "A2", "caliper": 0.2}},
        "page": {"width": 42, "height": 36, "seam": 6},
        "pages": [{"kind": "pocket"}] * 6,
        "spine": {"kind": "flexi-hinge", "pitch": 6, "tab": 8, "gusset": 6},
        "inserts": [tag(32, 26, 6, hole=3, corner=3)],
        "copies": 4,
    },
}


@dataclass
class Stop:
    """A stroke as the head meets it: where it begins and where it ends, and whose it is."""

    start: complex
    end: complex
    owner: tuple


def stops(kit, sheet):
    """The strokes of each group in the file's order, draw first; and where each begins and ends."""
    owners = by_name(kit, sheet)[0].values()
    outer = {id(owner.outer) for owner in owners}
    within = depths(sheet)
    in_windows = [f"{name}, {depth} deep" for depth in range(max(within.values()), 0, -1) for name in GROUPS[1:]]
    groups = {name: [] for name in ("draw", "scores", *in_windows, *GROUPS[1:])}
    for path in sheet.svg.paths:
        name = {"draw": "draw", "score": "scores"}.get(path.layer)
        if name is None:
            depth = within[path.part, path.copy]
            name = GROUPS[1 + (id(path) in outer)] + (f", {depth} deep" if depth else "")
        ends = [complex(*path.points[n][:2]) for n in (0, 0 if path.closed else -1)]
        groups[name].append(Stop(*ends, (path.part, path.copy)))
    return groups


def depths(sheet):
    """In how many windows each placed part lies, one within the other, by the report, which test_sheets.py holds to the cuts."""
    hosts = {(spot["part"], spot["copy"]): spot.get("window_of") for spot in sheet.facts["placements"]}

    def depth(owner):
        host = hosts[owner]
        return 1 + depth((host["part"], host["copy"])) if host else 0

    return {owner: depth(owner) for owner in hosts}


def travel(head, stops_):
    """How far the head goes between strokes, from where it stands before the first."""
    total = 0.0
    for stop in stops_:
        total += abs(stop.start - head)
        head = stop.end
    return total


def file_order(kit, sheet):
    """Inner cuts all come before the outer ones; what lies in windows comes before all that is round it."""
    groups = stops(kit, sheet)
    paths = sheet.svg.on("cut")
    outer = {id(owner.outer) for owner in by_name(kit, sheet)[0].values()}
    within = depths(sheet)
    kinds = [(-within[path.part, path.copy], id(path) in outer) for path in paths]
    if kinds != sorted(kinds):
        yield "an inner cut comes after an outer one"
    if sum(len(stops_) for stops_ in groups.values()) != len(sheet.svg.paths):
        yield "some strokes belong to no group"


def reported(kit, sheet):
    """`travel_mm` and `lifts` are what the SVG says."""
    strokes = [stop for stops_ in stops(kit, sheet).values() for stop in stops_]
    tool = sheet.facts["tool"]
    if tool["lifts"] != len(strokes):
        yield f"{len(strokes)} strokes, {tool['lifts']} lifts in the report"
    off = abs(travel(0, strokes) - tool["travel_mm"])
    if off > 1e-3 + 2 * DECIMAL * len(strokes):
        yield f"the head travels {travel(0, strokes):.3f} mm, {tool['travel_mm']} in the report"


def faults(kit):
    checks = (file_order, reported)
    return [f"{sheet.name}: {fault}" for sheet in kit.sheets for check in checks for fault in check(kit, sheet)]


def test_report(kit):
    no_faults(faults(kit))


def other_order(head, stops_, seconds):
    """The shortest travel that OR-tools finds: from `head`, each stroke once and in its direction, ending anywhere."""
    starts = np.array([stop.start for stop in stops_])
    leave = np.array([head, *(stop.end for stop in stops_), head])
    # Node 0 is where the head stands, the last one is the free end, which costs nothing to reach.
    cost = np.zeros((len(leave), len(leave)), dtype=int)
    cost[:, 1:-1] = np.rint(np.abs(starts[None, :] - leave[:, None]) * 1000)
    manager = pywrapcp.RoutingIndexManager(len(leave), 1, [0], [len(leave) - 1])
    routing = pywrapcp.RoutingModel(manager)
    routing.SetArcCostEvaluatorOfAllVehicles(routing.RegisterTransitMatrix(cost.tolist()))
    search = pywrapcp.DefaultRoutingSearchParameters()
    search.first_solution_strategy = routing_enums_pb2.FirstSolutionStrategy.PATH_CHEAPEST_ARC
    search.local_search_metaheuristic = routing_enums_pb2.LocalSearchMetaheuristic.GUIDED_LOCAL_SEARCH
    search.time_limit.FromMilliseconds(round(seconds * 1000))
    found = routing.SolveWithParameters(search)
    assert found, "OR-tools finds no order at all"
    order, index = [], found.Value(routing.NextVar(routing.Start(0)))
    while not routing.IsEnd(index):
        order.append(stops_[manager.IndexToNode(index) - 1])
        index = found.Value(routing.NextVar(index))
    assert len(order) == len(stops_)
    return travel(head, order)


def compare(kit, sheet, seconds):
    """Ours against OR-tools', group by group; gives the faults and the table's rows."""
    found, rows, head = [], [], 0
    groups = stops(kit, sheet)
    places = {(spot["part"], spot["copy"]): n for n, spot in enumerate(sheet.facts["placements"])}
    asked = [name for name in GROUPS if len(groups[name]) > 1]
    for name, stops_ in groups.items():
        if name in asked:
            ours = travel(head, stops_)
            placed = travel(head, sorted(stops_, key=lambda stop: places[stop.owner]))
            other = other_order(head, stops_, min(seconds / len(asked), 0.25 * len(stops_)))
            ratio = ours / other if other else 1.0
            numbers = f"{len(stops_):7} {placed:10.1f} {other:10.1f} {ours:10.1f} {ratio:6.3f}"
            rows.append(f"{kit.folder.name + ' ' + sheet.name:28} {name:10} {numbers}")
            if ours > MOST * other + DECIMAL * len(stops_):
                found.append(f"{sheet.name}, {name}: {ours:.1f} mm, OR-tools {other:.1f} mm, ratio {ratio:.3f}")
        head = stops_[-1].end if stops_ else head
    return found, rows


@pytest.mark.parametrize("name", LARGE_ALBUMS)
def test_large(name, tables, tmp_path):
    file = tmp_path / f"{name}.json"
    file.write_text(json.dumps(LARGE_ALBUMS[name]), encoding="utf-8")
    cutter = {"kerf": 0.1, "gap": 1.0, "margin": 3.0, "labels": "none", "formats": "svg,dxf"}
    run_kit(file, tmp_path / name, *flags(cutter))
    kit = Kit(tmp_path / name, kerf=0.1, gap=1.0, margin=3.0)
    no_faults(faults(kit))
    largest = max(kit.sheets, key=lambda sheet: len(sheet.svg.on("cut")))
    assert len(largest.svg.on("cut")) >= LARGE
    found, rows = compare(kit, largest, 90 if LONG else 10)
    tables[TITLE, "head"] = [HEAD]
    tables[TITLE, name] = rows
    no_faults(found)


def test_a_long_way_is_found():
    places = [0, 3, 1, 2, 5, 4]
    zigzag = [Stop(start=place, end=place, owner=("part", 1)) for place in places]
    assert travel(0, zigzag) == 10 and other_order(0, zigzag, 0.5) == 5


def test_a_direction_is_kept():
    there = [Stop(start=10 * place, end=10 * place + 9, owner=("part", 1)) for place in (2, 0, 1)]
    back = [Stop(start=stop.end, end=stop.start, owner=stop.owner) for stop in there]
    assert other_order(0, there, 0.5) == 2 and other_order(0, back, 0.5) > 30


@pytest.mark.parametrize("name, words", [("travel_mm", "the head travels"), ("lifts", "lifts in the report")])
def test_a_wrong_report_is_found(kits, name, words):
    kit = dataclasses.replace(kits.get(ALBUMS[0], "plain"))
    kit.report["sheets"][0]["tool"][name] += 1
    assert any(words in fault for fault in faults(kit))


if LONG:

    @pytest.mark.parametrize("setting", ["R2000"])
    def test_every_sheet(kit, album, tables):
        tables[TITLE, "head"] = [HEAD]
        told = [compare(kit, sheet, 15) for sheet in kit.sheets]
        tables[TITLE, album.stem] = [row for _, rows in told for row in rows]
        no_faults(fault for faults_, _ in told for fault in faults_)
