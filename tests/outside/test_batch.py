# SPDX-License-Identifier: MIT
"""Batches against their albums: a kit's parts times how many are made, and what is spare, lie on the order's sheets.

Each album is made alone as well; parts are matched by stock, kind, size, area and scores, not by their names.
"""

import json
from collections import Counter
from math import ceil

import pytest

from conftest import ROOT, run_kit

#: Name, the albums with how many of each, what is spare: three colourways, five albums, five hundred kits.
ORDERS = {
    "colourways": ([("tide-table", 20), ("tide-table", 20), ("tide-table", 20)], {}),
    "albums": ([("tide-table", 3), ("night-train", 2), ("sketchbook", 4), ("orchard-notes", 2), ("pantry", 1)], {"kits": 1}),
    "singles": ([("sketchbook", 7), ("sketchbook", 5), ("sketchbook", 3), ("sketchbook", 2), ("sketchbook", 1)], {}),
    "hundreds": ([("sketchbook", 300), ("sketchbook", 200)], {"parts": "2 %"}),
}


def likeness(part):
    """What a part is, whatever it is called."""
    scores = sorted((s["fold"], *sorted([tuple(s["from_mm"]), tuple(s["to_mm"])])) for s in part["scores"])
    sizes = part["width_mm"], part["height_mm"], part["area_mm2"]
    return part["stock"].split(".")[0], part["kind"], sizes, tuple(scores)


def report_of(path, out):
    run_kit(path, out, "--formats", "csv", "--effort", "low", "--margin", "5", "--gap", "1")
    return json.loads((out / "report.json").read_text(encoding="utf-8"))


def placed(report):
    """How often each part lies on all sheets."""
    count = Counter()
    for sheet in report["sheets"]:
        for one in sheet["placements"]:
            count[one["part"]] += sheet["times"]
    return count


@pytest.mark.parametrize("name", ORDERS)
def test_sheets_hold_every_kit(name, tmp_path):
    kits, spares = ORDERS[name]
    file = tmp_path / "order.json"
    entries = []
    for number, (album, copies) in enumerate(kits):
        path = ROOT / "fixtures" / f"{album}.json"
        entries.append({"name": f"kit-{number}", "album": str(path), "copies": copies})
    file.write_text(json.dumps({"format": "hingeleaf-batch/1", "title": name, "spares": spares, "kits": entries}))
    whole = report_of(file, tmp_path / "order")
    wanted, sheets_alone = Counter(), 0
    for number, (album, copies) in enumerate(kits):
        alone = tmp_path / f"alone-{number}.json"
        text = json.loads((ROOT / "fixtures" / f"{album}.json").read_text(encoding="utf-8"))
        alone.write_text(json.dumps({**text, "copies": copies}))
        report = report_of(alone, tmp_path / f"alone-{number}")
        sheets_alone += sum(sheet["times"] for sheet in report["sheets"])
        for part in report["parts"]:
            wanted[likeness(part)] += part["count"] * (copies + spares.get("kits", 0))
    share = float(spares.get("parts", "0 %").rstrip(" %"))
    wanted = {key: count + ceil(round(count * share / 100, 6)) for key, count in wanted.items()}
    # Together they never take more sheets than one by one; spare parts come on top.
    if not spares:
        assert sum(sheet["times"] for sheet in whole["sheets"]) <= sheets_alone
    found, on_sheets = Counter(), placed(whole)
    for part in whole["parts"]:
        assert on_sheets[part["id"]] == part["count"], part["id"]
        assert sum(part["kits"].values()) > 0
        found[likeness(part)] += part["count"]
    assert found == wanted
    assert len({part["id"] for part in whole["parts"]}) == len(whole["parts"])
    assert [(kit["name"], kit["copies"]) for kit in whole["kits"]] == [(e["name"], e["copies"]) for e in entries]
