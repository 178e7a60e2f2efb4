# SPDX-License-Identifier: MIT
"""The drawer, from the report and the drawer's file alone: taken and left are what lay there, the new file is what is left and the
offcuts of the job, and nothing is bought for what stays in the drawer. Spares and sizes that come free are counted anew as well.
"""

import json
import random
from collections import Counter
from decimal import ROUND_FLOOR, Decimal
from math import ceil

import pytest

from conftest import ROOT, run_kit

NAMED = {"A4": (210, 297), "A3": (297, 420), "A5": (148, 210), "12x12in": (304.8, 304.8)}


def sides(name):
    """Width and height of a sheet by its name, mm."""
    if name in NAMED:
        return NAMED[name]
    return tuple(float(side) for side in name.removesuffix("mm").split("x"))


def counted(drawer):
    """How many sheets of which stock and size lie in a drawer."""
    count = Counter()
    for stock, sheets in drawer["stocks"].items():
        for sheet in sheets:
            count[stock, sides(sheet["sheet"])] += sheet.get("count", 1)
    return count


def report_of(folder):
    return json.loads((folder / "report.json").read_text(encoding="utf-8"))


def tenth(mm):
    return float(Decimal(repr(round(mm, 6))).quantize(Decimal("0.1"), ROUND_FLOOR))


def held(report, before, after):
    """Holds a report against the drawer's file as it was and as it is."""
    rows = {(row["stock"], (row["width_mm"], row["height_mm"])): row for row in report.get("drawer", [])}
    taken = Counter()
    for sheet in report["sheets"]:
        if sheet.get("from_drawer"):
            size = sheet["width_mm"], sheet["height_mm"]
            key = sheet["stock"], size
            # A sheet is turned so that its grain runs up.
            key = key if key in before else (sheet["stock"], size[::-1])
            taken[key] += sheet["times"]
    used = {sheet["stock"] for sheet in report["sheets"]}
    for key, row in rows.items():
        assert row["taken"] + row["left"] == row["lie"] == before[key], key
        assert row["taken"] == taken[key], key
    assert sum(taken.values()) == sum(row["taken"] for row in rows.values())
    assert {key for key, count in before.items() if key[0] in used and count} == set(rows)
    offcuts = Counter()
    for sheet in report["sheets"]:
        for one in sheet["offcuts"]:
            offcuts[sheet["stock"], (tenth(one["width_mm"]), tenth(one["height_mm"]))] += sheet["times"]
    assert all(min(size) >= 40 - 0.1 for _, size in offcuts)
    wanted = Counter(before)
    wanted.subtract(taken)
    wanted.update(offcuts)
    assert +wanted == +after
    # Nothing is bought for what a sheet as large in the drawer would have held.
    for sheet in (one for one in report["sheets"] if not one.get("from_drawer")):
        for (stock, size), row in rows.items():
            same = stock == sheet["stock"] and size == (sheet["width_mm"], sheet["height_mm"])
            assert not (same and row["left"]), (sheet["name"], row)


def areas(report):
    """The area of all pieces, part by part, once from the list and once from the sheets."""
    listed, laid = Counter(), Counter()
    for part in report["parts"]:
        listed[part["id"]] = part["count"] * report["copies"] + part.get("besides", 0)
    for sheet in report["sheets"]:
        for one in sheet["placements"]:
            laid[one["part"]] += sheet["times"]
    return listed, laid


@pytest.mark.parametrize("seed", range(10))
def test_taken_and_left_are_what_lay_there(seed, tmp_path):
    rng = random.Random(seed)
    album = json.loads((ROOT / "fixtures" / "tide-table.json").read_text(encoding="utf-8"))
    copies, kits, more = rng.randint(1, 4), rng.randint(0, 1), rng.choice([0, 2, "3 %", "12.5 %"])
    sheets = {
        "card": [{"sheet": "A4", "count": rng.randint(0, 9)}],
        "paper": [{"sheet": "12x12in", "count": rng.randint(0, 5)}],
        "felt": [{"sheet": "A5", "count": 3}],
    }
    for stock in ("card", "paper"):
        for _ in range(rng.randint(0, 4)):
            size = f"{rng.randint(45, 320)}x{rng.randint(45, 320)}mm"
            if size not in {sheet["sheet"] for sheet in sheets[stock]}:
                sheets[stock].append({"sheet": size, "count": rng.randint(1, 3)})
    album.update(copies=copies, spares={"kits": kits, "parts": more}, drawer="drawer.json")
    drawer = tmp_path / "drawer.json"
    drawer.write_text(json.dumps({"format": "hingeleaf-drawer/1", "stocks": sheets}), encoding="utf-8")
    before = counted(json.loads(drawer.read_text(encoding="utf-8")))
    file = tmp_path / "album.json"
    file.write_text(json.dumps(album), encoding="utf-8")
    words = ["--formats", "csv", "--effort", "low", "--margin", rng.choice(["0", "4"]), "--gap", "1"]
    run_kit(file, tmp_path / "looked", *words)
    assert counted(json.loads(drawer.read_text(encoding="utf-8"))) == before
    run_kit(file, tmp_path / "kit", *words, "--update-drawer")
    report = report_of(tmp_path / "kit")
    assert report == {**report_of(tmp_path / "looked"), "files": report["files"]}
    after = counted(json.loads(drawer.read_text(encoding="utf-8")))
    held(report, before, after)
    listed, laid = areas(report)
    assert listed == laid
    for part in report["parts"]:
        made = part["count"] * (copies + kits)
        share = Decimal(more.rstrip(" %")) / 100 if isinstance(more, str) else None
        assert listed[part["id"]] == made + (more if share is None else ceil(made * share))
    # Without a drawer as many sheets are bought at least.
    del album["drawer"]
    file.write_text(json.dumps(album), encoding="utf-8")
    run_kit(file, tmp_path / "plain", *words)
    for stock in ("card", "paper"):
        bought = [
            sum(s["times"] for s in one["sheets"] if s["stock"] == stock and not s.get("from_drawer"))
            for one in (report, report_of(tmp_path / "plain"))
        ]
        assert bought[0] <= bought[1], (stock, bought)


@pytest.mark.parametrize("seed", range(6))
def test_a_size_that_follows_costs_no_sheet(seed, tmp_path):
    rng = random.Random(seed)
    album = json.loads((ROOT / "fixtures" / "tide-table.json").read_text(encoding="utf-8"))
    kind = rng.choice(["tag", "journal-card", "envelope"])
    kits = [{"name": f"k{number}", "album": "album.json", "copies": rng.randint(1, 3)} for number in range(rng.randint(1, 3))]

    def made(name, inserts):
        (tmp_path / "album.json").write_text(json.dumps({**album, "inserts": inserts}), encoding="utf-8")
        batch = tmp_path / "order.json"
        batch.write_text(json.dumps({"format": "hingeleaf-batch/1", "kits": kits}), encoding="utf-8")
        run_kit(batch, tmp_path / name, "--formats", "csv", "--effort", "low", "--margin", "3", "--gap", "1")
        return report_of(tmp_path / name)

    plain = made("plain", album["inserts"])
    free = made("free", [*album["inserts"], {"kind": kind, "size": "offcut", "pages": [4]}])

    def sheets(report):
        count = Counter()
        for sheet in report["sheets"]:
            count[sheet["stock"]] += sheet["times"]
        return count

    assert sheets(plain) == sheets(free)
    before = {part["id"] for part in plain["parts"]}
    new = [part for part in free["parts"] if part["id"] not in before]
    told = [finding for finding in free["findings"] if finding["id"] == "offcut-size"]
    assert len(told) == 1
    if told[0]["level"] == "note":
        # One size for all kits, on the ruler, and one for each kit that is made.
        (part,) = new
        assert part["count"] == sum(kit["copies"] for kit in kits)
        if kind != "envelope":
            assert all((side * 2).is_integer() for side in (part["width_mm"], part["height_mm"]))
    else:
        assert not new


def test_the_checks_bite(tmp_path):
    album = json.loads((ROOT / "fixtures" / "tide-table.json").read_text(encoding="utf-8"))
    sheets = {"card": [{"sheet": "A4", "count": 1}, {"sheet": "200x205mm", "count": 1}], "paper": [{"sheet": "12x12in", "count": 9}]}
    (tmp_path / "album.json").write_text(json.dumps({**album, "drawer": "drawer.json"}), encoding="utf-8")
    (tmp_path / "drawer.json").write_text(json.dumps({"format": "hingeleaf-drawer/1", "stocks": sheets}), encoding="utf-8")
    before = counted({"stocks": sheets})
    run_kit(tmp_path / "album.json", tmp_path / "kit", "--formats", "csv", "--effort", "low", "--update-drawer")
    report = report_of(tmp_path / "kit")
    after = counted(json.loads((tmp_path / "drawer.json").read_text(encoding="utf-8")))
    held(report, before, after)

    def planted(change):
        changed = json.loads(json.dumps(report))
        change(changed)
        return changed

    def taken(one):
        return next(sheet for sheet in one["sheets"] if sheet.get("from_drawer"))

    for change in (
        lambda one: one["drawer"][0].update(left=one["drawer"][0]["left"] + 1),
        lambda one: one["drawer"][0].update(taken=one["drawer"][0]["taken"] + 1, left=one["drawer"][0]["left"] - 1),
        lambda one: taken(one).update(from_drawer=False),
        lambda one: taken(one).update(times=taken(one)["times"] + 1),
        lambda one: one["sheets"][0]["offcuts"].append({"x_mm": 0, "y_mm": 0, "width_mm": 50, "height_mm": 50}),
        lambda one: one["drawer"].pop(),
    ):
        with pytest.raises(AssertionError):
            held(planted(change), before, after)
    with pytest.raises(AssertionError):
        held(report, before, after + Counter({("card", (50.0, 50.0)): 1}))
    listed, laid = areas(planted(lambda one: one["sheets"][0]["placements"].pop()))
    assert listed != laid
