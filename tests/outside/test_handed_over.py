# SPDX-License-Identifier: MIT
"""What is handed over, against the report: bags, stacks, labels, and how long the handout is.

The job sheet says how many of each part go into a bag and into all of them; the report says how many a kit takes. Labels are
read out of their PDF by pdfplumber: one a bag, one a stack, each in its place on the sheet of labels.
"""

import json
import random
import re

import pdfplumber
import pypdfium2
import pytest

from conftest import album_text, ALBUMS, ROOT, run_kit
from verdict import no_faults

DATA = re.compile(r'<data value="([^"]*)" data-what="([^"]*)"(?: data-of="([^"]*)")?>')
STATES = ["sheets", "cut", "scored"]
#: A sheet of labels, mm: 3 across, 8 down.
GRID = {"paper": "A4", "across": 3, "down": 8, "width": 63.5, "height": 33.9, "left": 7.2, "top": 12.9, "gap_x": 2.5}
#: Pages that a ready-scored album of four pages may take.
HANDOUT = 8


def section(page, name):
    """What stands in a section of a page."""
    return page.split(f'<section id="{name}"', 1)[1].split("</section>", 1)[0]


def numbers(page):
    """Every number as what it is of, what it measures, and its value."""
    return [(of, what, float(value)) for value, what, of in DATA.findall(page)]


def faults(page, report, handed):
    """What of the bags is not as the report has it."""
    found = numbers(section(page, "pack"))
    kits = report["copies"]
    for part in report["parts"]:
        each = [value for of, what, value in found if (of, what) == (part["id"], "in-bag")]
        every = [value for of, what, value in found if (of, what) == (part["id"], "count")]
        packed = handed[part["stock"]] != "sheets"
        if each != [part["count"]] * packed or every != [part["count"] * kits] * packed:
            yield f'{part["id"]}: {each} in a bag, {every} in {kits}; a kit takes {part["count"]}'
    for stock, state in handed.items():
        laid = sum(sheet["times"] for sheet in report["sheets"] if sheet["stock"] == stock)
        each = sum(value for of, what, value in found if (of, what) == (stock, "sheets-in-bag"))
        every = sum(value for of, what, value in found if (of, what) == (stock, "sheets"))
        wanted = laid if state == "sheets" else 0
        if every != wanted or each * kits != wanted:
            yield f"{stock}: {each} sheets in a bag, {every} in {kits}; {laid} are cut"


@pytest.mark.parametrize("seed", range(3))
def test_bags_hold_what_the_report_counts(album, seed, tmp_path):
    draw = random.Random(f"{album.stem} {seed}")
    text = album_text(album)
    stocks = text.get("stocks") or {"card": {}}
    # However many kits are drawn, there are sheets enough.
    for stock in stocks.values():
        stock.pop("count", None)
    album = tmp_path / album.name
    album.write_text(json.dumps(text), encoding="utf-8")
    handed = {stock: draw.choice(STATES) for stock in stocks}
    kits = draw.choice([2, 3, 5, 12])
    words = [word for stock, state in handed.items() for word in ("--handed-over", f"{stock}={state}")]
    run_kit(album, tmp_path / "kit", "--copies", kits, "--effort", "low", "--formats", "html", *words)
    report = json.loads((tmp_path / "kit" / "report.json").read_text(encoding="utf-8"))
    page = (tmp_path / "kit" / "job.html").read_text(encoding="utf-8")
    no_faults(faults(page, report, handed))
    if "cut" in handed.values() or "scored" in handed.values():
        worse = json.loads(json.dumps(report))
        packed = [part for part in worse["parts"] if handed[part["stock"]] != "sheets"]
        if packed:
            packed[0]["count"] += 1
            assert list(faults(page, worse, handed)), "a part too many is not noticed"


def test_labels_stand_on_their_sheet(tmp_path):
    text = json.loads((ROOT / "fixtures" / "tide-table.json").read_text(encoding="utf-8"))
    text.update(copies=20, handed_over="cut", labels=GRID)
    file = tmp_path / "album.json"
    file.write_text(json.dumps(text), encoding="utf-8")
    run_kit(file, tmp_path / "kit", "--effort", "low", "--formats", "pdf,csv")
    report = json.loads((tmp_path / "kit" / "report.json").read_text(encoding="utf-8"))
    places, titles = [], 0
    with pdfplumber.open(tmp_path / "kit" / "labels.pdf") as pdf:
        for number, page in enumerate(pdf.pages):
            assert (round(page.width / 72 * 25.4, 1), round(page.height / 72 * 25.4, 1)) == (210.0, 297.0)
            for word in page.extract_words():
                left, right, top, low = (word[side] / 72 * 25.4 for side in ("x0", "x1", "top", "bottom"))
                column = int((left - GRID["left"]) // (GRID["width"] + GRID["gap_x"]))
                row = int(((top + low) / 2 - GRID["top"]) // GRID["height"])
                start = GRID["left"] + column * (GRID["width"] + GRID["gap_x"])
                assert start <= left and right <= start + GRID["width"] and 0 <= row < GRID["down"], word["text"]
                places.append((number, row, column))
            titles += page.extract_text().count("You still need")
    assert titles == 20
    assert len(set(places)) == 20 + len(report["parts"])


def test_the_handout_is_short(tmp_path):
    """A four-page album that comes ready scored: at most eight printed pages, in both languages."""
    for language in ("en", "de"):
        out = tmp_path / language
        words = ["--handed-over", "scored", "--language", language, "--formats", "pdf", "--effort", "low"]
        run_kit(ROOT / "fixtures" / "tide-table.json", out, *words)
        assert len(pypdfium2.PdfDocument(out / "guide.pdf")) <= HANDOUT, language


def test_there_are_albums():
    assert len(ALBUMS) > 10
