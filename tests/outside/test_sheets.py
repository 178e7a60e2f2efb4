# SPDX-License-Identifier: MIT
"""On every sheet the tool stays inside the margin, the parts keep their distance and lie where the report says."""

import json

import shapely
from shapely.geometry import box

import shape
from conftest import CUTTER, flags, run_kit
from placed import by_name, by_place, unlike
from read import Kit
from verdict import no_faults

NEAR = 1e-3

#: Pockets whose slants lie against each other where they lie head to tail.
POCKETS = {
    "format": "hingeleaf-album/1",
    "stocks": {"card": {"sheet": "A4", "caliper": 0.3}},
    "page": {"width": 110, "height": 140, "stock": "card"},
    "pages": [{"kind": "library-card", "pocket": 80, "height": 120, "slant": 70}] * 4,
}


def faults(kit):
    return [
        f"{sheet.name}.{kind}: {fault}"
        for sheet in kit.sheets
        for kind, find in (("svg", by_name), ("dxf", by_place))
        for fault in on_sheet(kit, sheet, find)
    ]


def test_sheets(kit):
    no_faults(faults(kit))


def test_pairs(tmp_path):
    album = tmp_path / "pockets.json"
    album.write_text(json.dumps(POCKETS), encoding="utf-8")
    run_kit(album, tmp_path / "kit", "--formats", "svg,dxf", "--effort", "low", *flags(CUTTER))
    kit = Kit(tmp_path / "kit", album=POCKETS, **CUTTER)
    spots = [spot for sheet in kit.sheets for spot in sheet.facts["placements"]]
    assert sum("pair_of" in spot for spot in spots) == 4
    no_faults(faults(kit))


def on_sheet(kit, sheet, find):
    """Every fault of one sheet, read from one of its files."""
    placed, left = find(kit, sheet)
    yield from (f"{path} lies on no part of the report" for path in left)
    yield from (f"{owner} is not where the report puts it" for owner in placed.values() if owner.outer is None)
    owners = [owner for owner in placed.values() if owner.outer is not None]
    crossing = [owner for owner in owners if not owner.tool_path.is_valid]
    yield from (f"{owner}: {shapely.is_valid_reason(owner.tool_path)}" for owner in crossing)
    if crossing:
        return
    yield from (f"{owner}: the outline runs clockwise" for owner in owners if shape.signed_area(owner.outer.area) < 0)
    yield from margins(kit, sheet, owners)
    yield from gaps(kit, owners)
    yield from boxes(owners)
    yield from marks(owners)
    yield from offcuts(sheet, owners)
    yield from windows(sheet.svg.paths if find is by_name else sheet.dxf.paths, owners)
    yield from pairs(owners)


def margins(kit, sheet, owners):
    """Tool paths stay inside the sheet less its margin."""
    inset = kit.margin - NEAR
    usable = box(inset, inset, sheet.facts["width_mm"] - inset, sheet.facts["height_mm"] - inset)
    for owner in owners:
        if not usable.covers(owner.tool_path):
            yield f"{owner}: {[round(side, 4) for side in owner.tool_path.bounds]} is not inside the margin"


def gaps(kit, owners):
    """Tool paths of any two parts are the gap apart; at no gap they may touch, not overlap."""
    # Each is first made smaller by half of what we let pass, so that gaps and overlaps are one question.
    areas = [owner.tool_path.buffer(-NEAR / 2, join_style="mitre") for owner in owners]
    pairs = shapely.STRtree(areas).query(areas, predicate="dwithin", distance=kit.gap).T
    for first, second in pairs:
        if first < second:
            distance = owners[first].tool_path.distance(owners[second].tool_path)
            yield f"{owners[first]} and {owners[second]} are {distance:.4f} mm apart, the gap is {kit.gap}"


def boxes(owners):
    """The nominal part fills exactly the box that the report places."""
    for owner in owners:
        wanted = shape.box_on_sheet(owner.placement, owner.part)
        off = unlike(owner.nominal.bounds, wanted)
        if off > NEAR:
            found = [round(side, 4) for side in owner.nominal.bounds]
            yield f"{owner}: its box {found} is {off:.4f} mm off the report's"


def marks(owners):
    """Draw marks stay inside their part."""
    for owner in owners:
        for mark in owner.marks:
            if not owner.nominal.buffer(NEAR).covers(mark.line):
                yield f"{mark} leaves its part"


def offcuts(sheet, owners):
    """What is kept of a sheet lies on it, and nothing is cut from it."""
    whole = box(-NEAR, -NEAR, sheet.facts["width_mm"] + NEAR, sheet.facts["height_mm"] + NEAR)
    for offcut in sheet.facts.get("offcuts", []):
        x, y = offcut["x_mm"], offcut["y_mm"]
        kept = box(x, y, x + offcut["width_mm"], y + offcut["height_mm"])
        if not whole.covers(kept):
            yield f"offcut {kept.bounds} is not on the sheet"
        for owner in owners:
            if kept.buffer(-NEAR, join_style="mitre").intersects(owner.tool_path):
                yield f"offcut {kept.bounds} holds {owner}"


def windows(paths, owners):
    """What lies in a window is what the report says, and is cut before that window."""
    turn = {id(path): number for number, path in enumerate(paths)}
    for owner in owners:
        said = owner.placement.get("window_of")
        round_it = [
            (host, window)
            for host in owners
            for window in host.inner
            if host is not owner and window.area.buffer(NEAR).covers(owner.outer.area)
        ]
        smallest = min(round_it, key=lambda found: found[1].area.area, default=None)
        found = smallest and {"part": smallest[0].part["id"], "copy": smallest[0].placement["copy"]}
        if found != said:
            yield f"{owner} lies in the window of {found}, the report says {said}"
        for host, window in round_it:
            if any(turn[id(cut)] > turn[id(window)] for cut in [owner.outer, *owner.inner]):
                yield f"{owner} is cut after the window of {host} that it lies in"


def pairs(owners):
    """What lies head to tail with a part of its own kind, each in the other's box, is what the report says."""
    boxes_ = [box(*owner.nominal.bounds).buffer(-NEAR, join_style="mitre") for owner in owners]
    found = {id(owner): [] for owner in owners}
    for first, second in shapely.STRtree(boxes_).query(boxes_, predicate="intersects").T:
        one, other = owners[first], owners[second]
        turned = (one.placement["turn_deg"] + 180) % 360 == other.placement["turn_deg"]
        if turned and one.part["id"] == other.part["id"]:
            found[id(one)].append({"part": other.part["id"], "copy": other.placement["copy"]})
    for owner in owners:
        said = owner.placement.get("pair_of")
        if found[id(owner)] != ([said] if said else []):
            yield f"{owner} lies head to tail with {found[id(owner)]}, the report says {said}"
