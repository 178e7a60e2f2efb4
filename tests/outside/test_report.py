# SPDX-License-Identifier: MIT
"""The report's counts, areas and layouts add up with what is on the sheets."""

from collections import Counter

import pytest
import shapely
from ortools.sat.python import cp_model

from placed import by_place
from verdict import no_faults


def faults(kit):
    checks = (counts, copies, equal_sheets, patterns, areas, layouts, reasons)
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


def reasons(kit):
    """Why no fewer sheets do: true of the parts that are cut, of every sheet, and of every sheet that a solver can think of."""
    for layout in kit.report["layouts"]:
        why = layout.get("why")
        if why is None:
            continue
        stock, few = layout["stock"], why["too_few"]
        times = kit.report["copies"] if why.get("each_kit") else 1
        if layout["lower_bound"] != times * (few + 1):
            yield f"{stock}: {few} sheets are too few, but the bound is {layout['lower_bound']}"
        sheets = [
            sheet
            for sheet in kit.sheets
            if sheet.facts["stock"] == stock and sheet.facts.get("by") == layout.get("by")
        ]
        if why["argument"] == "area":
            yield from by_area(kit, stock, sheets, few)
        if why["argument"] == "at-most":
            yield from by_points(kit, stock, sheets, why, times)
        if why["argument"] == "apart":
            yield from by_groups(stock, sheets, why)


def by_area(kit, stock, sheets, few):
    """The tool paths, half the gap round each, have more area than the sheets less their margins and half the gap round each."""
    blocks = [kit.parts[part["part"]]["stock"] for block in kit.report.get("blocks", []) for part in block["parts"]]
    # Register marks take of the sheet, and blocks have their own gaps, which are as much theirs as the parts are.
    if stock in blocks or any(sheet.facts.get("marks") for sheet in sheets):
        return

    def grown(area):
        return area.buffer(kit.gap / 2).area

    needed, usable = 0.0, []
    for sheet in sheets:
        outer = [owner.tool_path.exterior for owner in by_place(kit, sheet)[0].values() if owner.outer]
        needed += sheet.facts["times"] * sum(grown(shapely.Polygon(ring)) for ring in outer)
        sides = [sheet.facts[side] - 2 * kit.margin for side in ("width_mm", "height_mm")]
        usable.append(grown(shapely.box(0, 0, *sides)))
    if needed <= few * min(usable) * (1 - 1e-9):
        yield f"{stock}: the parts have no more area than {few} sheets"


def by_points(kit, stock, sheets, why, times):
    """As many pieces as are cut; they come to more than so few sheets hold, and no sheet holds more."""
    most, cut = why["most"], Counter()
    for sheet in sheets:
        for spot in sheet.facts["placements"]:
            cut[spot["part"]] += sheet.facts["times"]
    single = {of["parts"][0]: of for of in why["of"] if len(of["parts"]) == 1}
    for part, of in single.items():
        # Of a part that lies in blocks as well, so many lie alone.
        if cut[part] < times * of["count"]:
            yield f"{stock}: {of['count']} x {part} are spoken of, and {cut[part]} are cut"
    if sum(of["count"] * of.get("points", 1) for of in why["of"]) <= most * why["too_few"]:
        yield f"{stock}: the pieces come to no more than {why['too_few']} times {most}"
    alone = {part: of.get("points", 1) for part, of in single.items() if cut[part] == times * of["count"]}
    for sheet in sheets:
        holds = sum(alone.get(spot["part"], 0) for spot in sheet.facts["placements"])
        if holds > most:
            yield f"{stock}: {sheet.name} holds {holds} points, more than {most}"
    if sheets and can_hold_more(kit, sheets[0].facts, single.values(), most):
        yield f"{stock}: a sheet can hold more than {most} points"


def can_hold_more(kit, sheet, counted, most):
    """Whether a solver finds boxes of more points on one sheet; the boxes turn where no grain and no pattern says otherwise."""
    stock = kit.album.get("stocks", {}).get(sheet["stock"], {})
    turns = (0, 1) if stock and not stock.get("grain") and not stock.get("pattern") else (0,)

    def unit(mm):
        return round(mm * 1000)

    grown = kit.kerf + kit.gap + 0.002
    sides = [unit(sheet[side] - 2 * kit.margin + kit.gap) for side in ("width_mm", "height_mm")]
    model, held, across, upward = cp_model.CpModel(), [], [], []
    for of in counted:
        part = kit.parts[of["parts"][0]]
        box = [unit(part[side] + grown) for side in ("width_mm", "height_mm")]
        for number in range(min(of["count"], most + 1)):
            ways = []
            for turn in turns:
                there = model.new_bool_var(f"{part['id']} {number} {turn}")
                for side, length, intervals in zip(sides, box[::-1] if turn else box, (across, upward)):
                    if length > side:
                        model.add(there == 0)
                        length = side
                    start = model.new_int_var(0, side - length, "")
                    intervals.append(model.new_optional_fixed_size_interval_var(start, length, there, ""))
                ways.append(there)
            model.add_at_most_one(ways)
            held.append((of.get("points", 1), ways))
    model.add_no_overlap_2d(across, upward)
    model.add(sum(points * way for points, ways in held for way in ways) > most)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 2
    return solver.solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE)


def by_groups(stock, sheets, why):
    """No sheet holds parts of two groups, and the groups take more than so few sheets."""
    groups = [{of["parts"][0] for of in group["of"] if len(of["parts"]) == 1} for group in why["groups"]]
    for sheet in sheets:
        there = {spot["part"] for spot in sheet.facts["placements"]}
        if sum(bool(group & there) for group in groups) > 1:
            yield f"{stock}: {sheet.name} holds parts of two groups"
    if sum(group["sheets"] for group in why["groups"]) <= why["too_few"]:
        yield f"{stock}: the groups take no more than {why['too_few']} sheets"
    for group in why["groups"]:
        if group["each_alone"] and group["sheets"] != sum(of["count"] for of in group["of"]):
            yield f"{stock}: parts that lie alone take {group['sheets']} sheets"


def mixed(kit, stock):
    """Whether the stock comes in several sizes, for which no bound is promised."""
    return isinstance(kit.album.get("stocks", {}).get(stock, {}).get("sheet"), list)
