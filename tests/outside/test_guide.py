# SPDX-License-Identifier: MIT
"""Opens guides from disk in Chromium: nothing on the console, nothing fetched, nothing that axe-core minds, nothing cut off.

axe-core and playwright-core run on node, see page.mjs; pypdfium2 reads what was printed.
"""

import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import pypdfium2
import pytest

from conftest import PROGRAM, ROOT, run_kit
from readers import MODULES
from verdict import no_faults, not_run

ALBUMS = ["tide-table", "seed-ledger", "lighthouse-log"]
OUT = Path(os.environ.get("HINGELEAF_OUTSIDE") or ROOT / "target" / "outside").absolute() / "pages"
#: axe-core knows about a hundred rules, of which a page with tables, pictures and boxes to tick meets some dozens.
LEAST_RULES = 25


def in_browser(files):
    """What page.mjs tells of each file; of the handbook's pages what it tells at a glance."""
    node = shutil.which("node")
    program = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if node is None or program is None or not (MODULES / "node_modules" / "playwright-core").is_dir():
        not_run("node, Chromium or the node packages are missing; tests/run installs them")
    command = [node, Path(__file__).with_name("page.mjs"), MODULES, program, OUT]
    asked = json.dumps([str(file) if isinstance(file, Path) else file for file in files])
    told = subprocess.run(list(map(str, command)), input=asked, capture_output=True, text=True, timeout=600)
    assert told.returncode == 0, told.stderr
    return json.loads(told.stdout)


def faults(seen):
    """All that is wrong with a page as it was seen."""
    name = Path(seen["file"]).name
    for what in ("console", "requests", "axe", "beyond", "tall"):
        yield from (f"{name}: {what}: {one}" for one in seen[what])
    if seen["passes"] < LEAST_RULES:
        yield f"{name}: axe-core tried only {seen['passes']} rules"
    if seen["ticks"] not in (None, [False, True]):
        yield f"{name}: ticks do not stay: {seen['ticks']}"
    yield from (f"{name}: not on paper: {word}" for word in missing(seen))


def missing(seen):
    """Words of the page that its print does not have, and pages whose words reach into the margin."""
    printed = pypdfium2.PdfDocument(seen["pdf"])
    words = ""
    for number, page in enumerate(printed, 1):
        width, height = page.get_size()
        text = page.get_textpage()
        words += text.get_text_range()
        for index in range(text.count_chars()):
            left, low, right, high = text.get_charbox(index)
            if left < 0 or low < 0 or right > width or high > height:
                yield f"letters reach over the edge of page {number}: {text.get_text_range(index, 20)}"
                break
    there = squeezed(words)
    for line in seen["words"].splitlines():
        if squeezed(line) not in there:
            yield line


def squeezed(text):
    """Letters and figures alone: lines break elsewhere on paper, and spaces are set as they fall."""
    return re.sub(r"[^0-9A-Za-z]", "", text)


@pytest.fixture(scope="module")
def looked_at(tmp_path_factory):
    """Each album's guide and card, for the trimmer and in both systems."""
    folder = tmp_path_factory.mktemp("guides")
    files = []
    for name in ALBUMS:
        words = ["--trimmer", "--formats", "html", "--kit-card", "--both-units"]
        run_kit(ROOT / "fixtures" / f"{name}.json", folder / name, *words)
        files += [folder / name / "guide.html", folder / name / "kit-card.html"]
    # All of the handbook in English, and what of it is German.
    for language, names in (("en", ["*.html"]), ("de", ["index.html", "first-kit.html"])):
        command = [PROGRAM, "handbook", "--out", folder / language, "--language", language]
        subprocess.run([str(word) for word in command], check=True, capture_output=True, timeout=60)
        pages = [file for name in names for file in sorted((folder / language).glob(name))]
        files += [{"glance": str(file), "all": file.stem in ("index", "commands", "messages")} for file in pages]
    return in_browser(files)


@pytest.fixture(scope="module")
def seen(looked_at):
    """The guides and cards, which come first."""
    return looked_at[: 2 * len(ALBUMS)]


def test_the_handbook_is_sound_in_a_browser(looked_at):
    pages = looked_at[2 * len(ALBUMS) :]
    assert len(pages) >= 12
    for page in pages:
        name = "/".join(Path(page["file"]).parts[-2:])
        no_faults(f"{name}: {what}: {one}" for what in ("console", "requests", "axe", "beyond") for one in page[what])
        # axe-core meets fewer rules on pages without boxes to tick and pictures.
        assert page["passes"] >= 15, f"{name}: axe-core tried only {page['passes']} rules"
        assert page["found"] > 0, f"{name}: nothing is found"


def test_pages_are_sound_in_a_browser_and_on_paper(seen):
    assert len(seen) == 2 * len(ALBUMS)
    no_faults(fault for page in seen for fault in faults(page))


def test_the_card_is_one_page(seen):
    cards = [page for page in seen if page["file"].endswith("kit-card.html")]
    pages = {Path(card["file"]).parent.name: len(pypdfium2.PdfDocument(card["pdf"])) for card in cards}
    assert pages == dict.fromkeys(ALBUMS, 1)


def test_paper_follows_the_album(seen):
    """A4 for albums in millimetres, letter for those in inches; points of 1/72 in."""
    for page in seen:
        name = Path(page["file"]).parent.name
        size = [round(side * 25.4 / 72) for side in pypdfium2.PdfDocument(page["pdf"])[0].get_size()]
        assert size == ([210, 297] if name == "tide-table" else [216, 279]), name


PLANTED = {
    "console": ("<main>", '<main><img alt="" src="data:image/png;base64,AAAA"><script>1</script>'),
    "axe": ("<main>", '<main><svg role="img" width="9" height="9"></svg>'),
    "beyond": ("<main>", "<main><pre>" + "wide " * 90 + "</pre>"),
    "tall": ("<main>", '<main><div class="caution">' + "<p>tall</p>" * 90 + "</div>"),
}


@pytest.mark.parametrize("what", ["console", "axe", "beyond", "tall"])
def test_each_check_finds_a_planted_fault(seen, what, tmp_path):
    good = Path(seen[1]["file"]).read_text(encoding="utf-8")
    old, new = PLANTED[what]
    assert old in good
    file = tmp_path / "kit-card.html"
    file.write_text(good.replace(old, new, 1), encoding="utf-8")
    assert in_browser([file])[0][what]
