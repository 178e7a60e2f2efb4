# SPDX-License-Identifier: MIT
"""Two editions of a batch side by side: kit by kit exactly the parts whose nets differ are named, and over the whole order what is
cut again is what old kits lack, kits that came, and spare parts of these.

The nets are taken from the sheets of both orders; how many of each kit there are comes from the batch files alone.
"""

import copy
import json
import random
from collections import Counter
from math import ceil

import pytest

from conftest import ALBUMS, PROGRAM, ask_kit
from read import Kit
from test_editions import compare, edited, nets, one_way_stocks, part_faults
from test_schema import faults as schema_faults
from verdict import no_faults, not_run


class Made:
    """A batch's file, what it was written as, and the nets of each of its kits."""

    def __init__(self, folder, name, batch):
        self.batch = batch
        self.file = folder / f"{name}.json"
        self.file.write_text(json.dumps(batch), encoding="utf-8")
        self.out = folder / name
        done = ask_kit(self.file, self.out, "--effort", "low", "--formats", "svg", "--shared-cuts=false")
        assert done.returncode in (0, 1, 2), done.stderr
        self.sound = done.returncode == 0
        if not self.sound:
            return
        texts = {kit["name"]: json.loads((folder / kit["album"]).read_text(encoding="utf-8")) for kit in batch["kits"]}
        kit = Kit(self.out, album={})
        self.report, self.sheets = kit.report, kit.sheets
        self.whole = nets(kit)
        self.made = {kit["name"]: kit["copies"] + batch["spares"]["kits"] for kit in batch["kits"]}
        self.kits = {kit: dict(self.of_kit(kit, text)) for kit, text in texts.items()}

    def of_kit(self, kit, text):
        """The nets of a kit, each on the stock that its album names."""
        for part in self.report["parts"]:
            if kit in part["kits"]:
                net = copy.copy(self.whole[part["id"]])
                net.count = part["kits"][kit]
                net.stock = net.stock.split(".")[0]
                net.one_way = net.stock in one_way_stocks(text)
                yield part["id"], net


def a_batch(draw, folder):
    """A batch of two or three kits: two of one album, and another one."""
    albums = [json.loads(draw.choice(ALBUMS).read_text(encoding="utf-8")) for _ in range(2)]
    # How many sheets there are is another matter.
    for album in albums:
        for stock in album.get("stocks", {}).values():
            stock.pop("count", None)
    texts = {"one": albums[0], "two": edited(draw, albums[0]) or albums[0], "three": albums[1]}
    kits = []
    for name, text in texts.items():
        (folder / f"{name}-album.json").write_text(json.dumps(text), encoding="utf-8")
        kits.append({"name": name, "album": f"{name}-album.json", "copies": draw.randint(1, 4)})
    spares = {"kits": draw.choice([0, 0, 1]), "parts": draw.choice(["0 %", "10 %"])}
    return {"format": "hingeleaf-batch/1", "spares": spares, "kits": kits}


def another(draw, folder, batch):
    """The batch with one thing changed."""
    new = copy.deepcopy(batch)
    kits = new["kits"]
    what = draw.choice(["edit", "edit", "edit", "come", "go", "copies", "name"])
    kit = draw.choice(kits)
    text = json.loads((folder / kit["album"]).read_text(encoding="utf-8"))
    if what in ("edit", "come"):
        text = edited(draw, text)
        if text is None:
            return None
        (folder / "edited.json").write_text(json.dumps(text), encoding="utf-8")
        if what == "edit":
            kit["album"] = "edited.json"
        else:
            kits.insert(draw.randrange(3), {"name": "come", "album": "edited.json", "copies": 2})
    elif what == "go":
        kits.remove(kit)
    elif what == "copies":
        kit["copies"] = max(1, kit["copies"] + draw.choice([-1, 2]))
    else:
        kit["name"] = "called-otherwise"
    return new


def faults(said, old, new):
    rows = {row.get("name"): row for row in said["kits"] if row["what"] != "gone"}
    if set(rows) != set(new.kits):
        yield f"kits are {sorted(rows)}, and not {sorted(new.kits)}"
    known = {row.get("was", name) for name, row in rows.items() if row["what"] != "new"}
    gone = {row["name"] for row in said["kits"] if row["what"] == "gone"}
    if gone | known != set(old.kits) or gone & known:
        yield f"gone are {sorted(gone)}, still there {sorted(known)}, of {sorted(old.kits)}"
    wanted = Counter()
    for name, after in new.kits.items():
        row = rows[name]
        was = row.get("was", name)
        before = old.kits.get(was, {}) if row["what"] != "new" else {}
        blocks = any(block["kit"] == name for block in new.report.get("blocks", []))
        for fault in part_faults(row, before, after, blocks):
            yield f"{name}: {fault}"
        if row["what"] == "new" and (name in old.kits or len(row["recut"]) != len(after)):
            yield f"{name} is no new kit, or is not cut whole"
        there = min(old.made.get(was, 0), new.made[name]) if row["what"] != "new" else 0
        for one in row["recut"]:
            wanted[one["part"]] += one["count"] * there
        for part, net in after.items():
            wanted[part] += net.count * (new.made[name] - there)
    share = float(new.batch["spares"]["parts"].rstrip(" %"))
    wanted = {part: count + ceil(round(count * share / 100, 6)) for part, count in wanted.items() if count}
    told = {row["part"]: row["count"] for row in said["recut"]}
    if told != wanted:
        yield f"cut again are {told}, reckoned {wanted}"
    holding = {sheet.name for sheet in new.sheets if set(told) & {spot["part"] for spot in sheet.facts["placements"]}}
    if {sheet["name"] for sheet in said["sheets"]} != holding:
        yield f"sheets to cut again are {said['sheets']}, by the report {sorted(holding)}"


def two_editions(seed, folder):
    draw = random.Random(f"editions of a batch {seed}")
    for number in range(60):
        place = folder / str(number)
        place.mkdir()
        batch = a_batch(draw, place)
        other = another(draw, place, batch)
        old = other and Made(place, "old", batch)
        new = old and old.sound and Made(place, "new", other)
        if new and new.sound:
            return old, new
    return pytest.fail("no edit of any batch goes together")


@pytest.mark.parametrize("seed", range(20))
def test_the_parts_that_differ_are_named_kit_by_kit(seed, tmp_path):
    if not PROGRAM.is_file():
        not_run(f"there is no program at {PROGRAM}; `tests/run` builds it")
    old, new = two_editions(seed, tmp_path)
    said = compare(old.file, new.file, "--only-changed", "--out", tmp_path / "again", "--formats", "svg")
    no_faults(schema_faults("compare", said))
    no_faults(faults(said, old, new))
    by_report = compare(old.out / "report.json", new.file)
    no_faults(faults(by_report, old, new))
    assert by_report["recut"] == said["recut"]
    # Only what is cut again lies on the sheets that are written, all of it and no more.
    laid = Counter()
    if said["recut"]:
        report = json.loads((tmp_path / "again" / "report.json").read_text(encoding="utf-8"))
        for sheet in report["sheets"]:
            for spot in sheet["placements"]:
                laid[spot["part"]] += sheet["times"]
    assert laid == {row["part"]: row["count"] for row in said["recut"]}


def test_a_planted_fault_is_found(tmp_path):
    """The reckoning above fails where a kit, a part or a count is told otherwise."""
    old, new = two_editions(0, tmp_path)
    said = compare(old.file, new.file)
    assert not list(faults(said, old, new))
    spoilt = copy.deepcopy(said)
    spoilt["kits"].pop(0)
    assert list(faults_or_lost(spoilt, old, new))
    for row in range(len(said["recut"])):
        spoilt = copy.deepcopy(said)
        spoilt["recut"][row]["count"] += 1
        assert list(faults(spoilt, old, new)), row
    for kit in range(len(said["kits"])):
        for part in range(len(said["kits"][kit]["parts"])):
            spoilt = copy.deepcopy(said)
            row = spoilt["kits"][kit]["parts"][part]
            if row["what"] in ("same", "changed"):
                row["what"] = "changed" if row["what"] == "same" else "same"
                assert list(faults(spoilt, old, new)), (kit, part)


def faults_or_lost(said, old, new):
    """Where a whole kit is missing, looking for it fails as well."""
    try:
        yield from faults(said, old, new)
    except KeyError as lost:
        yield f"no row of {lost}"
