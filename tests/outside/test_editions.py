# SPDX-License-Identifier: MIT
"""Two editions side by side: exactly the parts whose nets differ are named, and what is cut again is what is lacking.

The nets are taken from the sheets of both kits: what is cut and scored of each part, brought back into the part's own frame.
"""

import functools
import json
import random
import subprocess

import jsonschema
import pytest
from shapely.affinity import rotate

import shape
from conftest import album_text, ALBUMS, PROGRAM, ROOT, ask_kit
from placed import by_name
from read import Kit
from test_schema import faults as schema_faults
from verdict import no_faults, not_run

#: Files have four decimals; what differs by less is one, mm.
SAME = 0.002
#: Fields that words and prices stand in: nothing is cut to them.
WORDS = [("title", "Another"), ("notes", ["Mind the glue"]), ("maker", "M"), ("edition", "second")]
WORDS += [("price", 0.75), ("copies", 2)]


def compare(old, new, *words):
    """What `hingeleaf compare` says, as data."""
    command = [PROGRAM, "compare", old, new, "--json", "--effort", "low", *words]
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout + done.stderr
    return json.loads(done.stdout)


class Net:
    """What is cut and scored of a part, in its own frame, and what it is cut from."""

    def __init__(self, placed, one_way):
        def bring(line):
            return shape.to_part(line, placed.placement, placed.part)

        self.stock = placed.part["stock"]
        self.shape = bring(placed.tool_path)
        self.scores = [(path.fold, bring(path.line)) for path in placed.scores]
        self.count = placed.part["count"]
        self.one_way = one_way

    @functools.cached_property
    def turned(self):
        """The same upside down."""
        other = object.__new__(Net)
        middle = self.shape.envelope.centroid
        other.__dict__ = dict(self.__dict__)
        other.shape = rotate(self.shape, 180, origin=middle)
        other.scores = [(fold, rotate(line, 180, origin=middle)) for fold, line in self.scores]
        return other

    def lies_on(self, other):
        if len(self.scores) != len(other.scores) or unlike(self.shape.boundary, other.shape.boundary):
            return False
        left = list(other.scores)
        for fold, line in self.scores:
            match = next((one for one in left if one[0] == fold and not unlike(one[1], line)), None)
            if match is None:
                return False
            left.remove(match)
        return True

    @functools.cache  # asked of every two nets once a planted fault
    def is_like(self, other):
        """Whether one can be cut in place of the other."""
        if self.stock != other.stock:
            return False
        return self.lies_on(other) or (not self.one_way and self.turned.lies_on(other))


def unlike(one, other):
    # What is as near as that has a box as near: most pairs need no more than these.
    if any(abs(mine - theirs) > SAME for mine, theirs in zip(one.bounds, other.bounds)):
        return True
    return one.hausdorff_distance(other) > SAME


def one_way_stocks(album):
    return {name for name, stock in album.get("stocks", {}).items() if stock.get("pattern") == "one-way"}


def nets(kit):
    one_way = one_way_stocks(kit.album)
    found = {}
    for sheet in kit.sheets:
        for placed in by_name(kit, sheet)[0].values():
            part = placed.part
            found.setdefault(part["id"], Net(placed, part["stock"] in one_way))
    return found


def lengths(value, way=()):
    """The way to every number that is a size."""
    if isinstance(value, dict):
        for name, inner in value.items():
            if name not in ("stocks", "caliper", "thickness", "count", "copies", "tolerance", "labels", "pages_"):
                yield from lengths(inner, (*way, name))
    elif isinstance(value, list) and (not way or way[-1] != "pages" or len(way) == 1):
        for number, inner in enumerate(value):
            yield from lengths(inner, (*way, number))
    elif isinstance(value, (int, float)) and not isinstance(value, bool) and value > 2:
        yield way


def edited(draw, text):
    """An album with one thing changed: a size, or the pages."""
    text = json.loads(json.dumps(text))
    what = draw.choice(["size", "size", "size", "drop", "twice", "swap"])
    pages = text["pages"]
    if what == "size":
        ways = list(lengths(text))
        if not ways:
            return None
        *way, last = draw.choice(ways)
        holder = text
        for step in way:
            holder = holder[step]
        step = 0.125 if text.get("units") == "in" else 1
        holder[last] = holder[last] + step * draw.choice([-2, -1, 1, 2])
    elif what == "drop" and len(pages) > 1:
        pages.pop(draw.randrange(len(pages)))
    elif what == "twice":
        at = draw.randrange(len(pages))
        pages.insert(at, dict(pages[at]))
    elif what == "swap" and len(pages) > 1:
        one, other = draw.sample(range(len(pages)), 2)
        pages[one], pages[other] = pages[other], pages[one]
    else:
        return None
    return text


def made(text, folder, name):
    """An album's file and its kit; none where it does not go together."""
    file = folder / f"{name}.json"
    file.write_text(json.dumps(text), encoding="utf-8")
    done = ask_kit(file, folder / name, "--effort", "low", "--formats", "svg", "--shared-cuts=false")
    assert done.returncode in (0, 1, 2), done.stderr
    return (file, Kit(folder / name, album=text)) if done.returncode == 0 else None


def faults(said, old, new):
    """What the comparison says otherwise than the sheets."""
    yield from part_faults(said, nets(old), nets(new), new.report.get("blocks"))
    cut = {row["part"] for row in said["recut"]}
    holding = {
        sheet.name for sheet in new.sheets if cut & {spot["part"] for spot in sheet.facts["placements"]}
    }
    if {sheet["name"] for sheet in said["sheets"]} != holding:
        yield f"sheets to cut again are {said['sheets']}, by the report {sorted(holding)}"


def twins(kit):
    """Parts with a like one in their own kit, which is cut in another block of a pattern, or in none."""
    return {name for name, net in kit.items() if sum(net.is_like(other) for other in kit.values()) > 1}


def part_faults(said, before, after, blocks):
    """What is said of one kit's parts otherwise than their nets are.

    Of two twins one may be new, or gone, while the other one stays.
    """
    lost = {name for name, net in before.items() if not any(net.is_like(other) for other in after.values())}
    come = {name for name, net in after.items() if not any(net.is_like(other) for other in before.values())}
    rows = said["parts"]
    named = {row["id"] for row in rows if row["what"] in ("changed", "new")}
    gone = {row["id"] for row in rows if row["what"] == "gone"}
    was = {row.get("was", row["id"]) for row in rows if row["what"] == "changed"}
    if not come <= named or not named <= come | twins(after):
        yield f"changed or new are {sorted(named)}, by their nets {sorted(come)}"
    if not gone <= lost | twins(before) or not lost <= gone | was:
        yield f"gone are {sorted(gone)}, changed were {sorted(was)}, by their nets {sorted(lost)} are no more"
    if sorted(row["id"] for row in rows if row["what"] != "gone") != sorted(after):
        yield "not every part is told"
    for rows, mine, theirs, what in [
        (said["recut"], after, before, "cut again"),
        (said["left_over"], before, after, "left over"),
    ]:
        counts = {row["part"]: row["count"] for row in rows}
        for name, net in mine.items():
            need = sum(one.count for one in mine.values() if one.is_like(net))
            have = sum(one.count for one in theirs.values() if one.is_like(net))
            told = sum(counts.get(other, 0) for other, one in mine.items() if one.is_like(net))
            # What is cut in one block is cut as a whole.
            if told != max(0, need - have) and not (blocks and told > need - have):
                yield f"{name}: {told} are {what}, {need} and {have} there are"


@pytest.mark.parametrize("seed", range(20))
def test_the_parts_that_differ_are_named(seed, tmp_path):
    if not PROGRAM.is_file():
        not_run(f"there is no program at {PROGRAM}; `tests/run` builds it")
    draw = random.Random(f"editions {seed}")
    for number in range(60):
        album = draw.choice(ALBUMS)
        text = album_text(album)
        other = edited(draw, text)
        new = other and made(other, tmp_path, f"new-{number}")
        old = new and made(text, tmp_path, f"old-{number}")
        if old:
            break
    else:
        pytest.fail("no edit of any album goes together")
    by_report = compare(old[0].with_suffix("") / "report.json", new[0])
    said = compare(old[0], new[0])
    no_faults(schema_faults("compare", said))
    no_faults(faults(said, old[1], new[1]))
    no_faults(faults(by_report, old[1], new[1]))
    # A report says of the old edition all that its album does, but for its guide.
    for name in ("parts", "recut", "left_over", "sheets", "pages", "pages_gone"):
        assert by_report[name] == said[name], name


@pytest.mark.parametrize("field,value", WORDS, ids=[field for field, _ in WORDS])
def test_words_are_nothing_to_cut(album, field, value, tmp_path):
    text = album_text(album)
    if field == "price":
        for stock in text.get("stocks", {}).values():
            if not isinstance(stock.get("sheet"), (list, dict)):
                stock["price"] = value
    elif field == "copies" and any("count" in stock for stock in text.get("stocks", {}).values()):
        # There may be no sheets for two.
        text[field] = text.get(field, 1)
    else:
        text[field] = value
    file = tmp_path / "new.json"
    file.write_text(json.dumps(text), encoding="utf-8")
    said = compare(album, file)
    assert {row["what"] for row in said["parts"]} == {"same"}
    assert (said["recut"], said["left_over"], said["sheets"], said["pages"]) == ([], [], [], [])


def test_the_schema_of_a_comparison_is_sound():
    schema = json.loads((ROOT / "fixtures" / "schemas" / "compare.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)


def test_a_planted_fault_is_found(tmp_path):
    """The reckoning above fails where a part is left out, or one too many is named."""
    folder = ROOT / "fixtures" / "golden" / "compare"
    sides = [made(json.loads((folder / f"{name}.json").read_text()), tmp_path, name) for name in ("old", "new")]
    said = compare(folder / "old.json", folder / "new.json")
    kits = [kit for _, kit in sides]
    assert not list(faults(said, *kits))
    for part in said["parts"]:
        if part["what"] in ("changed", "same"):
            spoilt = json.loads(json.dumps(said))
            row = next(row for row in spoilt["parts"] if row["id"] == part["id"])
            row["what"] = "same" if part["what"] == "changed" else "changed"
            assert list(faults(spoilt, *kits)), part
    for rows in ("recut", "left_over"):
        spoilt = json.loads(json.dumps(said))
        spoilt[rows][0]["count"] += 1
        assert list(faults(spoilt, *kits)), rows
    spoilt = json.loads(json.dumps(said))
    spoilt["sheets"].pop()
    assert list(faults(spoilt, *kits))
