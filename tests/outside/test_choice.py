# SPDX-License-Identifier: MIT
"""Kits whose pages are chosen against plain albums: every mix is written out page by page and made alone.

What is packed is, part by part, the most that any of these albums takes; the sheets of each mix are those of its album. The
albums have no cover, for that is made for the thickest mix.
"""

import json
from collections import Counter
from itertools import product

import pytest

from conftest import run_kit
from test_batch import likeness, placed, report_of

POCKET = {"kind": "pocket"}
WALLET = {"kind": "wallet", "pocket": 110, "overflap": 45}
LEAF = {"kind": "divider"}
ALBUM = {
    "format": "hingeleaf-album/1",
    "stocks": {
        "card": {"sheet": "A4", "caliper": 0.35, "grain": "long"},
        "paper": {"sheet": "12x12in", "caliper": 0.2, "pattern": "one-way"},
    },
    "page": {"width": 148, "height": 190},
    "panels": {"stock": "paper"},
    "spine": {"kind": "flexi-hinge", "pitch": 6},
    "inserts": [{"kind": "tag", "width": 90, "height": 130, "count": 3}],
}

#: How many pages of which kinds, for how many copies.
CHOICES = {"two": (4, [POCKET, WALLET], 3), "three": (3, [POCKET, LEAF, WALLET], 2), "one": (2, [WALLET], 1)}


def mixes(pages, kinds):
    """By counts: the pages of every mix, in the order of the kinds. Each choice of a kind for each page, sorted."""
    chosen = {tuple(sorted(places)) for places in product(range(kinds), repeat=pages)}
    return {tuple(places.count(kind) for kind in range(kinds)): places for places in chosen}


@pytest.mark.parametrize("name", CHOICES)
def test_every_mix_can_be_made(name, tmp_path):
    pages, kinds, copies = CHOICES[name]
    (tmp_path / "album.json").write_text(json.dumps({**ALBUM, "pages": [POCKET]}))
    choice = {"pages": pages, "of": kinds}
    kit = {"name": "own", "album": "album.json", "copies": copies, "choice": choice}
    order = tmp_path / "order.json"
    order.write_text(json.dumps({"format": "hingeleaf-batch/1", "kits": [kit]}))
    whole = report_of(order, tmp_path / "order")
    table = whole["kits"][0]["choice"]
    listed = {tuple(row["pages"]): row for row in table["sheets"]}
    every = mixes(pages, len(kinds))
    assert set(listed) == set(every) and table["mixes"] == len(every) and table["all"]
    most, sums = Counter(), {}
    for counts, places in every.items():
        alone = tmp_path / ("mix-" + "-".join(map(str, counts)) + ".json")
        alone.write_text(json.dumps({**ALBUM, "copies": copies, "pages": [kinds[kind] for kind in places]}))
        report = report_of(alone, alone.with_suffix(""))
        sums[counts] = sum(layout["sheets"] for layout in report["layouts"])
        by_stock = {layout["stock"]: layout["sheets"] for layout in report["layouts"]}
        assert listed[counts]["stocks"] == by_stock and listed[counts]["sheets"] == sums[counts], counts
        for part in report["parts"]:
            most[likeness(part)] = max(most[likeness(part)], part["count"])
    assert table["worst"]["sheets"] == max(sums.values())
    assert sums[tuple(table["worst"]["pages"])] == max(sums.values())
    packed, on_sheets = Counter(), placed(whole)
    for part in whole["parts"]:
        packed[likeness(part)] += part["kits"]["own"]
        assert part["count"] == part["kits"]["own"] * copies == on_sheets[part["id"]], part["id"]
    assert table["packed_for_all"] and packed == most


def test_a_choice_writes_all_that_a_batch_does(tmp_path):
    (tmp_path / "album.json").write_text(json.dumps({**ALBUM, "pages": [POCKET]}))
    kit = {"name": "own", "album": "album.json", "choice": {"pages": 2, "of": [POCKET, WALLET]}}
    order = tmp_path / "order.json"
    order.write_text(json.dumps({"format": "hingeleaf-batch/1", "kits": [kit]}))
    run_kit(order, tmp_path / "out", "--formats", "svg,csv,html", "--effort", "low")
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert names >= {"job.html", "guide-own.html", "cutting-list.csv", "report.json", "sheets"}
