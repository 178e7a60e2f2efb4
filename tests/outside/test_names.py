# SPDX-License-Identifier: MIT
"""Quotes, markup, signs and letters from everywhere in a title harm no file; what can't be printed is refused.

Nor do the oddest names that a stock may have.
"""

import csv
import json
import unicodedata

import ezdxf
import pytest
from ezdxf import recover
from lxml import etree

from conftest import ask_kit, run_kit
from read import LAYERS, Kit
from verdict import no_faults

TITLE = 'He said "hi" <b>&amp; ☂ مرحبا =1+1 ]]>'
OTHERS = {
    "a formula": "=1+1",
    "a function": "@SUM(A1)",
    "a sign": "-",
    "a comment": "<!--",
    "joined": "🗺\ufe0f👩\u200d👩\u200d👧",
    "long": "é" * 300,
}
UNPRINTABLE = {
    "turned round": "\u202egnitfil",
    "nothing inside": "A\u0000B",
    "a bell": "A\u0007B",
    "a terminal's command": "\u009b31m",
    "a line": "A\u2028B",
}
HEADER = ["name", "stock", "width", "height", "count", "scores", "grain"]
FORMULA = ("=", "+", "-", "@", "\t", "\r")
NAMES = {
    "svg": "{http://www.w3.org/2000/svg}svg",
    "title": "{http://www.w3.org/2000/svg}title",
    "g": "{http://www.w3.org/2000/svg}g",
    "path": "{http://www.w3.org/2000/svg}path",
}
ALBUM = {
    "format": "hingeleaf-album/1",
    "title": TITLE,
    "stocks": {"card": {"sheet": "A4", "caliper": 0.3}, "paper": {"sheet": "A4", "caliper": 0.2}},
    "page": {"width": 100, "height": 150},
    "pages": [{"kind": "pocket"}, {"kind": "wallet", "pocket": 60, "overflap": 45}],
    "panels": {"reveal": 3, "stock": "paper"},
    "inserts": [{"kind": "tag", "width": 60, "height": 90, "pages": [1]}],
}


def as_xml(text):
    """What XML cannot hold, and controls that it could, come out as the sign for a lost letter."""
    lost = [letter in "\ufffe\uffff" or unicodedata.category(letter) == "Cc" for letter in text]
    return "".join("\ufffd" if gone else letter for gone, letter in zip(lost, text))


def faults(kit):
    checks = (in_report, in_csv)
    found = [fault for check in checks for fault in check(kit)]
    for sheet in kit.sheets:
        found += [f"{sheet.name}.svg: {fault}" for fault in in_svg(sheet)]
        found += [f"{sheet.name}.dxf: {fault}" for fault in in_dxf(sheet)]
    return found


@pytest.mark.parametrize("version", ["R12", "R2000", "R2007", "R2018"])
def test_names(tmp_path, version):
    album = tmp_path / "album.json"
    album.write_text(json.dumps(ALBUM), encoding="utf-8")
    run_kit(album, tmp_path / "kit", "--dxf-version", version, "--labels", "everywhere")
    no_faults(faults(Kit(tmp_path / "kit", dxf_version=version)))


@pytest.mark.parametrize("name", OTHERS)
def test_other_titles(tmp_path, name):
    title = OTHERS[name]
    album = tmp_path / "album.json"
    album.write_text(json.dumps({**ALBUM, "title": title}), encoding="utf-8")
    run_kit(album, tmp_path / "kit", "--formats", "svg,dxf,csv")
    no_faults(faults(Kit(tmp_path / "kit", album={"title": title})))


@pytest.mark.parametrize("name", UNPRINTABLE)
def test_unprintable_titles(tmp_path, name):
    title = UNPRINTABLE[name]
    album = tmp_path / "album.json"
    album.write_text(json.dumps({**ALBUM, "title": title}), encoding="utf-8")
    run = ask_kit(album, tmp_path / "kit", "--formats", "svg")
    assert run.returncode == 2 and "stop[unprintable]" in run.stderr and not (tmp_path / "kit").exists()
    odd = next(letter for letter in title if not letter.isprintable())
    assert f"U+{ord(odd):04X}" in run.stderr and odd not in run.stderr


@pytest.mark.parametrize("stock", ["-1-1", "0x10", "1e9", "nul", "-" * 32])
def test_odd_stocks(tmp_path, stock):
    """A stock's name stands in lists and in file names, so it is harmless in both, or it is refused."""
    album = tmp_path / "album.json"
    text = json.dumps(ALBUM).replace('"card"', json.dumps(stock))
    album.write_text(text, encoding="utf-8")
    done = ask_kit(album, tmp_path / "kit", "--formats", "svg,dxf,csv")
    if done.returncode == 2:
        assert "stocks" in done.stderr and not (tmp_path / "kit").exists()
        return
    assert done.returncode == 0, done.stderr
    kit = Kit(tmp_path / "kit")
    assert stock in {sheet.facts["stock"] for sheet in kit.sheets}
    no_faults([*faults(kit), *(f"a file {sheet.name}.svg" for sheet in kit.sheets if sheet.name.startswith("-"))])


def in_report(kit):
    """The report keeps the title to the letter."""
    wanted = kit.album.get("title", TITLE)
    if kit.report["title"] != wanted:
        yield f"report.json: the title is {kit.report['title']!r}"


def in_csv(kit):
    """The list has the header that it must, as many cells in each row, and none that a spreadsheet works out."""
    with open(kit.folder / "cutting-list.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file, strict=True))
    if rows[:1] != [HEADER]:
        yield f"cutting-list.csv: the header is {rows[:1]}"
    if sorted(row[0] for row in rows[1:]) != sorted(kit.parts):
        yield f"cutting-list.csv: lists {[row[0] for row in rows[1:]]}"
    for row in rows:
        if len(row) != len(HEADER):
            yield f"cutting-list.csv: {len(row)} cells in {row}"
        yield from (f"cutting-list.csv: a cell {cell!r}" for cell in row if cell.startswith(FORMULA))


def in_svg(sheet):
    """lxml, strict and without mending, finds the title's very words and nothing but groups of paths."""
    root = etree.parse(sheet.svg_file, etree.XMLParser(recover=False, resolve_entities=False)).getroot()
    kinds = {element.tag for element in root.iter()} - set(NAMES.values())
    if kinds:
        yield f"holds {kinds}"
    titles = [title.text for title in root.iter(NAMES["title"])]
    wanted = as_xml(json.loads((sheet.svg_file.parents[1] / "report.json").read_text("utf-8"))["title"])
    if len(titles) != 1 or not titles[0].startswith(wanted) or sheet.name not in titles[0]:
        yield f"the title is {titles}, should begin {wanted!r} and name the sheet"
    if [group.get("id") for group in root.iter(NAMES["g"])] != list(LAYERS):
        yield "the groups are not the three layers"


def in_dxf(sheet):
    """Plain ASCII, in lines as they should be, with nothing for ezdxf to mend."""
    text = sheet.dxf_file.read_bytes()
    if not text.isascii():
        yield "is not plain ASCII"
    if set(text) & (set(range(32)) - {10, 13}):
        yield "holds control characters"
    _, rescued = recover.readfile(sheet.dxf_file)
    for auditor in (ezdxf.readfile(sheet.dxf_file).audit(), rescued):
        yield from (f"audit: {entry.message}" for entry in [*auditor.errors, *auditor.fixes])
