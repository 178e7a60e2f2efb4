# SPDX-License-Identifier: MIT
"""Kinds of one's own, and built-in ones that stand in kind files: what is cut of them is what their files say.

The files are read a second time by Python (`kind_shapes`); shapely holds the cut parts to that, kerf included.
"""

import json
import os
import random
import subprocess
from pathlib import Path

import pytest
from conftest import run_kit
from kind_shapes import Sizes, pieces
from shapely import affinity
from test_outline import apart, cut

PROJECT = Path(__file__).parents[2]
OWN = sorted(PROJECT.glob("fixtures/kinds/*.json")) + [PROJECT / "tests/all/kinds/step-pocket.json"]
BUILT_IN = ["pocket", "wallet", "tag", "journal-card"]
TAB = 12.0


def source(name):
    if isinstance(name, Path):
        return json.loads(name.read_text())
    program = os.environ["HINGELEAF_BIN"]
    return json.loads(subprocess.run([program, "catalogue", "--source", name], check=True, capture_output=True, text=True).stdout)


def drawn(kind, draw, page):
    """Sizes of one of a kind, within what the kind allows."""
    given, example = {}, kind.get("example", {})
    for name, size in kind.get("sizes", {}).items():
        needed = "usual" not in size
        if not needed and draw.random() < 0.4:
            continue
        takes = size.get("takes", "length")
        if isinstance(takes, list):
            given[name] = draw.choice(takes)
            continue
        known = Sizes({**kind, "sizes": {n: s for n, s in kind["sizes"].items() if n in given or "usual" in s}}, given, page)
        usual = example.get(name, 20) if needed else known(size["usual"]) if not isinstance(size["usual"], list) else 8
        least = known(size["least"]) if "least" in size else 0
        most = known(size["most"]) if "most" in size else usual * 1.4 + 2
        least, most = max(least, usual * 0.5), min(max(most, least), usual * 1.5 + 2, known(size["most"]) if "most" in size else 1e9)
        if takes == "count":
            given[name] = draw.randint(round(least), max(round(least), int(most)))
        else:
            given[name] = round(draw.uniform(least, max(least, most)) * 4) / 4
    return given


def is_allowed(kind, sizes):
    """Whether sizes keep to the kind's own limits."""
    for name, size in kind.get("sizes", {}).items():
        value = sizes.names[name]
        if isinstance(value, (int, float)):
            if "least" in size and value < sizes(size["least"]) or "most" in size and value > sizes(size["most"]):
                return False
    return all(sizes(need["that"]) for need in kind.get("needs", []))


def goes_together(file):
    return subprocess.run([os.environ["HINGELEAF_BIN"], "check", file], capture_output=True).returncode == 0


@pytest.mark.parametrize("name", [*OWN, *BUILT_IN], ids=lambda name: getattr(name, "stem", name))
def test_what_is_cut_is_what_the_kind_says(tmp_path, tables, name):
    # Half the kinds with kerf, half without: `test_kerf` has all parts with it.
    kerf = 0.4 if len(source(name)["name"]) % 2 else 0.0
    kind = source(name)
    draw = random.Random(f"{kind['name']} {kerf}")
    width, height, seam, caliper = 150.0, 200.0, 11.0, 0.3
    page = {"width": width, "height": height, "seam": seam, "tab": TAB, "caliper": caliper, "nth": 1}
    insert = kind["is"] == "insert"
    file = tmp_path / "album.json"

    def put(entries):
        album = {
            "format": "hingeleaf-album/1",
            "kinds": [] if name in BUILT_IN else [kind],
            "stocks": {"card": {"sheet": "1500x1500mm", "caliper": caliper}},
            "page": {"width": width, "height": height, "seam": seam},
            "pages": [{"kind": "pocket"}] * 3 if insert else entries,
            "inserts": entries if insert else [],
        }
        file.write_text(json.dumps(album))
        return file

    entries, wanted, tried = [], [], 0
    while len(entries) < 12:
        entry, around = {"kind": kind["name"]}, page
        if insert:
            sides = {"width": draw.randint(60, 110), "height": draw.randint(70, 150)}
            entry, around = {**entry, **sides}, {**page, **{side: float(value) for side, value in sides.items()}}
        given = drawn(kind, draw, around)
        sizes = Sizes(kind, given, around)
        tried += 1
        assert tried < 600, "next to nothing of what the kind allows goes together"
        # What does not go together for other reasons (a flap too short for its page) is for other checks.
        if is_allowed(kind, sizes) and goes_together(put([{**entry, **given}])):
            entries.append({**entry, **given})
            wanted.append(pieces(kind, sizes))
    file = put(entries)
    run_kit(file, tmp_path / "kit", "--formats", "svg", "--effort", "low", "--kerf", str(kerf), "--gap", "2")
    report = json.loads((tmp_path / "kit" / "report.json").read_text())
    used = {use: part["id"] for part in report["parts"] for use in part["used_in"]}
    found = cut(tmp_path / "kit", once=True)
    compared, worst = 0, 0.0
    for number, shapes in enumerate(wanted, 1):
        for piece, shape in shapes.items():
            called = kind["name"].replace("-", " ")
            own = f"{called} {number} {piece}" if len(shapes) > 1 else f"{called} {number}"
            use = own if insert else f"page {number} {piece}"
            shape = shape.buffer(kerf / 2, quad_segs=200) if kerf else shape
            part = found[used[use]]
            off = min(apart(part, one) for one in (placed(shape, part), placed(affinity.rotate(shape, 180, origin=(0, 0)), part)))
            assert off < 0.01, (use, entries[number - 1], off)
            assert abs(part.area - shape.area) < 0.002 * shape.length, use
            compared, worst = compared + 1, max(worst, off)
    tables["pieces of kind files", f"{kind['name']}, kerf {kerf}"] = [f"{compared} pieces, at most {worst:.5f} mm off"]
    assert compared >= 12


def placed(shape, part):
    """A shape moved to where a part lies."""
    (x, y, *_), (left, low, *_) = part.bounds, shape.bounds
    return affinity.translate(shape, x - left, y - low)
