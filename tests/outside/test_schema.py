# SPDX-License-Identifier: MIT
"""The schemas are sound, and they say the same as the program: its files pass, files with a slip do not."""

import copy
import json

import jsonschema
import pytest

from conftest import ALBUMS, ROOT
from verdict import no_faults, not_run

DRAFT = "https://json-schema.org/draft/2020-12/schema"
KINDS = sorted((ROOT / "fixtures" / "kinds").glob("*.json"))
CUTTERS = sorted((ROOT / "fixtures" / "cutters").glob("*.json"))


def load(file):
    return json.loads(file.read_text(encoding="utf-8"))


def schema(name):
    return load(ROOT / "fixtures" / "schemas" / f"{name}.json")


def faults(name, value):
    """What the schema `name` has to say against a value."""
    validator = jsonschema.Draft202012Validator(schema(name))
    return [f"{error.json_path}: {error.message[:200]}" for error in validator.iter_errors(value)]


@pytest.mark.parametrize("name", ["album", "cutter", "kind", "report"])
def test_a_schema_is_sound(name):
    jsonschema.Draft202012Validator.check_schema(schema(name))
    assert schema(name).get("$schema") == DRAFT


def test_an_album_passes(album):
    no_faults(faults("album", load(album)))


@pytest.mark.parametrize("cutter", CUTTERS or [None], ids=lambda file: file.stem if file else "no-cutter")
def test_a_cutter_passes(cutter):
    if cutter is None:
        not_run("there is no cutter in fixtures/cutters/")
    no_faults(faults("cutter", load(cutter)))


@pytest.mark.parametrize("kind", KINDS, ids=lambda file: file.stem)
def test_a_kind_passes(kind):
    no_faults(faults("kind", load(kind)))


def test_a_kind_with_a_slip_does_not():
    """A misspelt field anywhere in a kind is none that there is."""
    for file in KINDS:
        kind = load(file)
        piece = next(iter(kind["pieces"]))
        for slip in (
            {**kind, "joint": []},
            {**kind, "is": "cover"},
            {**kind, "pieces": {**kind["pieces"], piece: {**kind["pieces"][piece], "panel": []}}},
            {name: value for name, value in kind.items() if name != "pieces"},
        ):
            assert faults("kind", slip), (file.stem, slip)


def test_a_report_passes(kit):
    no_faults(faults("report", kit.report))


@pytest.mark.parametrize("name", ["album", "cutter"])
def test_a_file_may_name_its_schema(name):
    file = ALBUMS[0] if name == "album" else CUTTERS[0]
    no_faults(faults(name, {"$schema": f"schemas/{name}.json", **load(file)}))


#: A small file of each kind, and what is then put in a place of it; none of it may pass.
GOOD = {
    "album": {
        "format": "hingeleaf-album/1",
        "stocks": {"card": {"sheet": "A4", "caliper": 0.3}},
        "page": {"width": 100, "height": 150},
        "pages": [{"kind": "pocket"}, {"kind": "wallet", "pocket": 60, "overflap": 30}],
        "spine": {"kind": "flexi-hinge", "tab": 12},
        "inserts": [{"kind": "tag", "width": 60, "height": 90, "count": 2, "pages": [1]}],
    },
    "cutter": {"format": "hingeleaf-cutter/1", "kerf": 0.1, "score": {"dash": 2, "gap": 1}, "svg_units": "in"},
}
SLIPS = {
    "album: an unknown field": ("album", ["colour"], "red"),
    "album: an unknown field of a stock": ("album", ["stocks", "card", "colour"], "red"),
    "album: an unknown field of a page": ("album", ["pages", 0, "overflap"], 30),
    "album: an unknown field of an insert": ("album", ["inserts", 0, "heigth"], 30),
    "album: another format": ("album", ["format"], "hingeleaf-album/2"),
    "album: a list for a length": ("album", ["page", "width"], [100]),
    "album: a text for a number": ("album", ["copies"], "three"),
    "album: a broken number of kits": ("album", ["copies"], 1.5),
    "album: an object for the pages": ("album", ["pages"], {"kind": "pocket"}),
    "album: no pages": ("album", ["pages"], []),
    "album: a truth for a title": ("album", ["title"], True),
    "album: a length below zero": ("album", ["page", "height"], -150),
    "album: a misspelt page": ("album", ["pages", 0, "kind"], "poket"),
    "album: a misspelt spine": ("album", ["spine", "kind"], "flexi-hings"),
    "album: a misspelt insert": ("album", ["inserts", 0, "kind"], "tags"),
    "album: a misspelt unit": ("album", ["units"], "inch"),
    "album: a misspelt pattern": ("album", ["stocks", "card", "pattern"], "oneway"),
    "album: a stock's name in capitals": ("album", ["stocks", "Card"], {"sheet": "A4"}),
    "album: a stock's name with a sign": ("album", ["stocks", "=1+1"], {"sheet": "A4"}),
    "cutter: an unknown field": ("cutter", ["power"], 20),
    "cutter: a speed of nothing": ("cutter", ["speed"], 0),
    "cutter: an unknown field of a speed": ("cutter", ["speed"], {"cut": 20, "lift": 1}),
    "cutter: an unknown field of a score": ("cutter", ["score", "length"], 2),
    "cutter: a list for a length": ("cutter", ["kerf"], [0.1]),
    "cutter: a misspelt version": ("cutter", ["dxf_version"], "R13"),
    "cutter: a misspelt unit": ("cutter", ["svg_units"], "px100"),
    "cutter: a number for a truth": ("cutter", ["shared_cuts"], 1),
}


def put(value, way, new):
    """A copy of a value with something new in one place; None takes what is there away."""
    changed = copy.deepcopy(value)
    place = changed
    for step in way[:-1]:
        place = place[step]
    if new is None:
        del place[way[-1]]
    else:
        place[way[-1]] = new
    return changed


@pytest.mark.parametrize("name", GOOD)
def test_a_good_file_passes(name):
    no_faults(faults(name, GOOD[name]))


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_refused(slip):
    name, way, new = SLIPS[slip]
    assert faults(name, put(GOOD[name], way, new))


@pytest.mark.parametrize("way", [["format"], ["page"], ["pages"], ["page", "width"], ["pages", 1, "pocket"]], ids=str)
def test_what_is_missing_is_noticed(way):
    assert faults("album", put(GOOD["album"], way, None))


def test_a_slip_in_a_report_is_refused(kits):
    # An album whose first part has scores.
    report = kits.get(ROOT / "fixtures" / "tide-table.json", "plain").report
    for way, new in (
        (["author"], "me"),
        (["title"], 7),
        (["sheets", 0, "times"], "1"),
        (["sheets", 0, "tool", "cut"], 1.0),
        (["sheets", 0, "placements", 0, "turn_deg"], "90"),
        (["parts", 0, "scores", 0, "fold"], "valey"),
        (["sheets", 0, "name"], None),
    ):
        assert faults("report", put(report, way, new)), way
