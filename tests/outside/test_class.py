# SPDX-License-Identifier: MIT
"""A class: the order is the sum over its makers, and a group by itself is an album on the sheets and with the tool that it has."""

import copy
import csv
import json
import random
from collections import Counter
from math import ceil

import pytest

from conftest import ROOT, run_kit
from test_batch import likeness, placed
from test_schema import faults as schema_faults
from verdict import no_faults

FLAGS = ("--formats", "csv", "--effort", "low", "--margin", "4", "--gap", "1", "--kerf", "0.2")
#: Sheets of nearly one size, by sides in mm (ISO 216; ANSI/ASME Y14.1).
SIZES = {"A4": (210.0, 297.0), "letter": (215.9, 279.4), "A3": (297.0, 420.0), "tabloid": (279.4, 431.8)}


def made(text, folder, name):
    file = folder / f"{name}.json"
    file.write_text(json.dumps(text), encoding="utf-8")
    out = folder / name
    run_kit(file, out, *FLAGS)
    return json.loads((out / "report.json").read_text(encoding="utf-8"))


def is_near(size, other):
    """Whether no side differs by more than a tenth."""
    return all(abs(a - b) <= 0.1 * max(a, b) for a, b in zip(sorted(SIZES[size]), sorted(SIZES[other])))


def on_sheets(album, group):
    """The album as this group makes it."""
    album = json.loads(json.dumps(album))
    for name, stock in album["stocks"].items():
        said = group.get("sheet")
        size = said.get(name) if isinstance(said, dict) else said
        if isinstance(said, str) and not (stock["sheet"] in SIZES and is_near(stock["sheet"], said)):
            size = None
        if size:
            stock["sheet"] = size
        if "by" in group:
            stock["by"] = group["by"]
    return {**album, "copies": group["count"], "handed_over": "sheets"}


def sheets_of(report, kit):
    """How many sheets of each stock and size lie ready for a kit, by the names of the sheets."""
    count = Counter()
    for sheet in report["sheets"]:
        if kit is None or f".{kit}-" in sheet["name"]:
            size = tuple(sorted((sheet["width_mm"], sheet["height_mm"])))
            count[(sheet["stock"].split(".")[0], size)] += sheet["times"]
    return count


def a_class(draw):
    groups = []
    for number in range(draw.randint(2, 4)):
        group = {"name": f"table-{number}", "count": draw.randint(1, 6)}
        if draw.random() < 0.7:
            group["sheet"] = draw.choice(["A4", "letter", {"card": "tabloid"}, {"card": "letter"}])
        if draw.random() < 0.7:
            group["by"] = draw.choice(["machine", "trimmer"])
        groups.append(group)
    if draw.random() < 0.7:
        groups.append({"name": "guests", "count": draw.randint(1, 5), "handed_over": draw.choice(["cut", "scored"])})
    return groups


@pytest.mark.parametrize("seed", range(8))
def test_the_order_is_the_sum_over_its_makers(seed, tmp_path):
    draw = random.Random(f"a class {seed}")
    album = json.loads((ROOT / "fixtures" / "tide-table.json").read_text(encoding="utf-8"))
    (tmp_path / "album.json").write_text(json.dumps(album), encoding="utf-8")
    groups, spare = a_class(draw), draw.choice([0, 0, 1])
    packs = {"card": {"of": 25, "price": 9.5}, "paper": {"of": 10, "price": 8}}
    whole = made(
        {
            "format": "hingeleaf-batch/1",
            "class": {"album": "album.json", "makers": groups},
            "spares": {"kits": spare},
            "packs": packs,
        },
        tmp_path,
        "class",
    )
    no_faults(schema_faults("report", whole))
    told = {group["name"]: group for group in whole["class"]}
    assert [group["name"] for group in groups] == list(told)
    wanted, parts = Counter(), Counter()
    for group in groups:
        name, makers = group["name"], group["count"] + spare
        alone = made(on_sheets(album, {**group, "count": makers}), tmp_path, f"alone-{name}")
        for part in alone["parts"]:
            parts[likeness(part)] += part["count"] * makers
        if "handed_over" in group:
            assert told[name]["sheets"] == []
            continue
        by_size = sheets_of(alone, None)
        # The same sheets as for the album by itself, the same for each maker.
        assert sheets_of(whole, name) == by_size, name
        assert told[name]["makers"] == group["count"]
        assert sum(one["all"] for one in told[name]["sheets"]) == sum(by_size.values())
        for one in told[name]["sheets"]:
            assert one["each"] * makers == one["all"]
            assert one["by"] == group.get("by", "machine")
        wanted.update(by_size)
    # Every piece of every maker lies on the order's sheets once.
    found, lies = Counter(), placed(whole)
    for part in whole["parts"]:
        assert lies[part["id"]] == part["count"], part["id"]
        found[likeness(part)] += part["count"]
    assert found == parts
    handed = Counter()
    for sheet in whole["sheets"]:
        if not any(f".{name}-" in sheet["name"] for name in told):
            size = tuple(sorted((sheet["width_mm"], sheet["height_mm"])))
            handed[(sheet["stock"].split(".")[0], size)] += sheet["times"]
    assert bool(handed) == any("handed_over" in group for group in groups)
    total = wanted + handed
    assert total == sheets_of(whole, None)
    # What is bought is that, each stock and size in its own packs.
    with open(tmp_path / "class" / "cost.csv", encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["of"] == "order" and row["unit"] == "sheets"]
    bought = Counter({row["what"]: int(row["quantity"]) for row in rows})
    by_name = Counter()
    for (stock, size), count in total.items():
        names = [name for name, sides in SIZES.items() if all(abs(a - b) < 0.01 for a, b in zip(sorted(sides), size))]
        by_name[f"{stock} {names[0] if names else '12x12in'}"] += count
    assert bought == by_name
    for row in rows:
        assert int(row["packs"]) == ceil(int(row["quantity"]) / packs[row["what"].split()[0]]["of"]), row


def test_a_planted_fault_is_found():
    """The reckoning above tells sizes apart."""
    assert is_near("A4", "letter") and is_near("A3", "tabloid")
    assert not is_near("A4", "A3") and not is_near("letter", "tabloid")
    one = {"sheets": [{"name": "card.one-01", "stock": "card", "width_mm": 210, "height_mm": 297, "times": 3}]}
    other = copy.deepcopy(one)
    other["sheets"][0]["times"] = 4
    assert sheets_of(one, "one") != sheets_of(other, "one") and not sheets_of(one, "two")
