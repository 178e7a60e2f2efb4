# SPDX-License-Identifier: MIT
"""The report's counts, areas and layouts add up with what is on the sheets."""

from collections import Counter

import pytest

from placed import by_place
from verdict import no_faults


def faults(kit):
    checks = (counts, copies, equal_sheets, patterns, areas, layouts)
    return [fault for check in checks for fault in check(kit)]


def test_report(kit):
    no_faults(faults(kit))


def placements(kit):
    """Every placement with the sheet it lies on."""
    return [(sheet.facts, spot) for sheet in kit.sheets for spot in sheet.facts["placements"]]


def counts(kit):
    """Each part is cut as often as its count in a kit, times the number of kits."""
    cut = Counter()
    for sheet, spot in placements(kit):
        cut[spot["part"]] += sheet["times"]
    wanted = Counter({part["id"]: part["count"] * kit.report["copies"] for part in kit.report["parts"]})
    for part in sorted(cut.keys() | wanted.keys()):
        if cut[part] != wanted[part]:
            yield f"{part} is cut {cut[part]} times, needed {wanted[part]} times"
    for sheet, spot in placements(kit):
        if kit.parts[spot["part"]]["stock"] != sheet["stock"]:
            yield f"{sheet['name']}: {spot['part']} is on {sheet['stock']}"


def copies(kit):
    """A part's placements over the written sheets are numbered from 1."""
    seen = {}
    for _, spot in placements(kit):
        seen.setdefault(spot["part"], []).append(spot["copy"])
    for part, numbers in seen.items():
        if sorted(numbers) != list(range(1, len(numbers) + 1)):
            yield f"{part}: the copies are numbered {sorted(numbers)}"


def equal_sheets(kit):
    """No sheet is written twice."""
    seen = Counter(
        (
            sheet.facts["stock"],
            sheet.facts["width_mm"],
            sheet.facts["height_mm"],
            tuple(sorted((p["part"], p["x_mm"], p["y_mm"], p["turn_deg"]) for p in sheet.facts["placements"])),
        )
        for sheet in kit.sheets
    )
    for (stock, *_), times in seen.items():
        if times > 1:
            yield f"the same sheet of {stock} is written {times} times"


def patterns(kit):
    """Nothing is turned on stock whose pattern has one way up; bound at the top, a part's left is up, and nothing else is."""
    up = 270 if kit.album.get("bound") == "top" else 0
    one_way = {name for name, stock in kit.album.get("stocks", {}).items() if stock.get("pattern") == "one-way"}
    for sheet, spot in placements(kit):
        if sheet["stock"] in one_way and spot["turn_deg"] != up:
            yield f"{sheet['name']}: {spot['part']} is turned by {spot['turn_deg']} on one-way stock"


def areas(kit):
    """`area_mm2` is what shapely measures, wherever the tool takes nothing away and the path is the part."""
    if kit.kerf:
        return
    for sheet in kit.sheets:
        for owner in by_place(kit, sheet)[0].values():
            measured = owner.tool_path.area if owner.outer is not None else 0.0
            if abs(measured - owner.part["area_mm2"]) > 0.01:
                yield f"{owner}: area is {measured:.4f} mm2, {owner.part['area_mm2']} in the report"


def layouts(kit):
    """Sheets, their bound and the share used, stock by stock."""
    stocks = [layout["stock"] for layout in kit.report["layouts"]]
    if sorted(stocks) != sorted({sheet.facts["stock"] for sheet in kit.sheets}):
        yield f"layouts are named for {sorted(stocks)}"
    for layout in kit.report["layouts"]:
        sheets = [sheet.facts for sheet in kit.sheets if sheet.facts["stock"] == layout["stock"]]
        number, bound, least = layout["sheets"], layout["lower_bound"], layout["proven_least"]
        if number != sum(sheet["times"] for sheet in sheets):
            yield f"{layout['stock']}: {number} sheets, but {sum(sheet['times'] for sheet in sheets)} are cut"
        if bound > number:
            yield f"{layout['stock']}: {number} sheets are fewer than the bound {bound}"
        if least != (bound == number) and not mixed(kit, layout["stock"]):
            yield f"{layout['stock']}: proven_least is {least} at {number} sheets and bound {bound}"
        whole = sum(sheet["times"] * sheet["width_mm"] * sheet["height_mm"] for sheet in sheets)
        used = sum(
            sheet["times"] * kit.parts[spot["part"]]["area_mm2"] for sheet in sheets for spot in sheet["placements"]
        )
        if whole and layout["used_percent"] != pytest.approx(100 * used / whole, abs=0.051):
            yield f"{layout['stock']}: used {100 * used / whole:.2f} %, {layout['used_percent']} in the report"


def mixed(kit, stock):
    """Whether the stock comes in several sizes, for which no bound is promised."""
    return isinstance(kit.album.get("stocks", {}).get(stock, {}).get("sheet"), list)
