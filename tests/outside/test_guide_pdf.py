# SPDX-License-Identifier: MIT
"""The guide and the kit card as PDF, read by pdfplumber and pikepdf (qpdf), against the same guide as a page.

Every word, number and letter of the page stands in the PDF in the same order, in tags that a screen reader can go by:
headings, lists, tables with their heads, pictures with words for them. Nothing lies in the margins.
"""

import re
from collections import Counter
from html.parser import HTMLParser

import pdfplumber
import pikepdf
import pytest

from conftest import ALBUMS, run_kit
from verdict import no_faults

MM = 25.4 / 72
#: White at the edges of a guide and of a card, mm, and how near a letter may come to it: glyphs reach a little over their advance.
MARGINS = {"guide": 14.0, "kit-card": 10.0}
NEAR = 0.3
#: What the page has and paper has not, or has as pictures.
UNREAD = {"nav", "svg", "style", "script", "title"}
VOID = {"meta", "input", "link", "br"}
PAPERS = [(210, 297), (215.9, 279.4)]


def squeezed(text):
    return "".join(text.split())


class Web(HTMLParser):
    """A guide's page: its words in order, its numbers and letters, its headings and what its pictures show."""

    def __init__(self, text):
        super().__init__()
        self.language = ""
        self.stack, self.words, self.marked, self.headings, self.pictures = [], [], [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        if tag in VOID:
            return
        attributes = dict(attributes)
        if tag == "html":
            self.language = attributes["lang"]
        self.stack.append((tag, attributes.get("class", "")))
        if tag == "svg" and attributes.get("role") == "img":
            self.pictures.append(attributes["aria-label"])
        if self.marks():
            self.marked.append("")
        if tag == "h2":
            self.headings.append("")

    def handle_endtag(self, tag):
        while self.stack.pop()[0] != tag:
            pass

    def marks(self):
        return bool(self.stack) and (self.stack[-1][0] == "data" or self.stack[-1] == ("b", "mark")) and not self.unread()

    def unread(self):
        return any(tag in UNREAD for tag, _ in self.stack)

    def handle_data(self, data):
        if self.unread():
            return
        self.words.append(data)
        if self.marks():
            self.marked[-1] += data
        if any(tag == "h2" for tag, _ in self.stack):
            self.headings[-1] += data

    @property
    def text(self):
        return squeezed("".join(self.words))


class Paper:
    """A PDF: its tags in order, and the words that each has."""

    def __init__(self, file):
        self.file = file
        with pdfplumber.open(file) as pdf:
            self.sizes = [(float(page.width) * MM, float(page.height) * MM) for page in pdf.pages]
            self.chars = [page.chars for page in pdf.pages]
        #: By page and number of marked content.
        self.said = {}
        for number, chars in enumerate(self.chars):
            for char in chars:
                if char.get("mcid") is not None and char.get("tag") != "Artifact":
                    self.said.setdefault((number, char["mcid"]), []).append(char["text"])
        self.pdf = pikepdf.open(file)
        self.pages = {page.objgen: number for number, page in enumerate(self.pdf.pages)}
        #: Role, the way there, the words of its own, the tag itself.
        self.tags = list(self.walk(self.pdf.Root.StructTreeRoot, (), None))

    def walk(self, node, way, page):
        page = self.pages.get(node.Pg.objgen, page) if "/Pg" in node else page
        role = str(node.get("/S", ""))[1:]
        kids = node.get("/K", [])
        kids = list(kids) if isinstance(kids, pikepdf.Array) else [kids]
        own = "".join(letter for kid in kids for letter in self.content(kid, page))
        below = [kid for kid in kids if isinstance(kid, pikepdf.Dictionary) and "/S" in kid]
        if role:
            yield role, way, own, node
            way = (*way, role)
        for kid in below:
            yield from self.walk(kid, way, page)

    def content(self, kid, page):
        if isinstance(kid, pikepdf.Dictionary):
            if "/MCID" not in kid:
                return []
            page = self.pages[kid.Pg.objgen] if "/Pg" in kid else page
            return self.said.get((page, int(kid.MCID)), [])
        return self.said.get((page, int(kid)), [])

    @property
    def text(self):
        """All that is read out, but what a list's label and a picture say."""
        return squeezed("".join(own for role, _, own, _ in self.tags if role != "Figure" and not dash(role, own)))

    def of(self, role):
        return [(way, own, node) for one, way, own, node in self.tags if one == role]


def dash(role, own):
    return role == "Lbl" and (own == "–" or re.fullmatch(r"\d+\.", own))


def kids(node, *roles):
    """What a tag holds, of some roles."""
    found = node.get("/K", [])
    found = found if isinstance(found, pikepdf.Array) else [found]
    return [kid for kid in found if isinstance(kid, pikepdf.Dictionary) and str(kid.get("/S", ""))[1:] in roles]


def attribute(node, name):
    found = node.get("/A", [])
    found = found if isinstance(found, pikepdf.Array) else [found]
    return next((str(one[name]) for one in found if isinstance(one, pikepdf.Dictionary) and name in one), None)


def faults(web, paper, form):
    """All that is wrong with a PDF of a page, a word before each fault for what is wrong with it."""
    yield from words(web, paper)
    yield from margins(paper, MARGINS[form])
    yield from headings(web, paper)
    yield from lists(paper)
    yield from tables(paper)
    yield from pictures(web, paper)
    yield from document(web, paper)


def words(web, paper):
    if paper.text != web.text:
        same = next((at for at, (one, other) in enumerate(zip(paper.text, web.text)) if one != other), 0)
        yield f"words: …{paper.text[max(same - 30, 0) : same + 30]}… for …{web.text[max(same - 30, 0) : same + 30]}…"
    at = 0
    for mark in map(squeezed, web.marked):
        found = paper.text.find(mark, at)
        if found < 0:
            yield f"marked: {mark} is not where it should be"
            return
        at = found + len(mark)


def margins(paper, margin):
    for number, (size, chars) in enumerate(zip(paper.sizes, paper.chars), 1):
        if not any(abs(size[0] - wide) < 0.01 and abs(size[1] - high) < 0.01 for wide, high in PAPERS):
            yield f"margins: page {number} is {size}"
        if not any(char.get("tag") != "Artifact" for char in chars):
            yield f"margins: page {number} is empty"
        for char in chars:
            # A foot stands lower.
            low = size[1] - margin + (2.5 if char.get("tag") == "Artifact" else 0.0)
            box = [char["x0"] * MM, char["top"] * MM, char["x1"] * MM, char["bottom"] * MM]
            beyond = box[0] < margin - NEAR or box[1] < margin - NEAR or box[2] > size[0] - margin + NEAR or box[3] > low + NEAR
            if beyond and char["text"].strip():
                yield f"margins: page {number}: “{char['text']}” at {[round(side, 1) for side in box]}"
                break
        foot = "".join(char["text"] for char in chars if char.get("tag") == "Artifact")
        if not foot.endswith(f"{number} / {len(paper.sizes)}"):
            yield f"margins: page {number} ends with “{foot[-10:]}”"


def headings(web, paper):
    levels = [int(role[1]) for role, *_ in paper.tags if re.fullmatch(r"H\d", role)]
    if levels[:1] != [1] or levels.count(1) != 1:
        yield f"headings: the first are {levels[:3]}"
    yield from (f"headings: level {two} after {one}" for one, two in zip(levels, levels[1:]) if two > one + 1)
    said = [own for _, own, _ in paper.of("H2")]
    marks = [str(one.title) for one in outline(paper.pdf)]
    for what, found in (("headings", said), ("bookmarks", marks)):
        if list(map(squeezed, found)) != list(map(squeezed, web.headings)):
            yield f"headings: {what} are {found}"


def outline(pdf):
    with pdf.open_outline() as found:
        return list(found.root)


def lists(paper):
    for _, _, node in paper.of("LI"):
        if [len(kids(node, role)) for role in ("Lbl", "LBody")] != [1, 1]:
            yield "lists: something of a list has no label, or no body"
    for _, _, node in paper.of("L"):
        if not kids(node, "LI"):
            yield "lists: a list has nothing in it"


def tables(paper):
    for _, _, node in paper.of("Table"):
        heads = [row for part in kids(node, "THead") for row in kids(part, "TR")]
        rows = [row for part in kids(node, "TBody") for row in kids(part, "TR")]
        columns = [kids(row, "TH") for row in heads]
        if len(columns) != 1 or any(attribute(cell, "/Scope") != "/Column" for cell in columns[0]):
            yield "tables: a table without column heads"
            continue
        for row in rows:
            cells = kids(row, "TH", "TD")
            if len(cells) != len(columns[0]):
                yield f"tables: a row of {len(cells)} cells for {len(columns[0])} columns"
            if str(cells[0].S) != "/TH" or attribute(cells[0], "/Scope") != "/Row":
                yield "tables: a row without a head"


def pictures(web, paper):
    said = [str(node.get("/Alt", "")) for _, _, node in paper.of("Figure")]
    if said != web.pictures:
        yield f"pictures: {list((Counter(said) - Counter(web.pictures)).items())[:3]} for {list((Counter(web.pictures) - Counter(said)).items())[:3]}"


def document(web, paper):
    root = paper.pdf.Root
    problems = paper.pdf.check_pdf_syntax() if hasattr(paper.pdf, "check_pdf_syntax") else paper.pdf.check()
    yield from (f"document: {one}" for one in problems)
    if str(root.get("/Lang", "")) != web.language or not root.MarkInfo.Marked or not root.ViewerPreferences.DisplayDocTitle:
        yield "document: no language, not tagged, or its title is not shown"
    if b"pdfuaid:part" not in bytes(root.Metadata.read_bytes()):
        yield "document: it does not promise PDF/UA"
    for page in paper.pdf.pages:
        for font in page.Resources.get("/Font", {}).values():
            below = font.DescendantFonts[0] if "/DescendantFonts" in font else font
            if not {"/FontFile2", "/FontFile3"} & set(below.FontDescriptor.keys()) or "/ToUnicode" not in font:
                yield f"document: the font {below.get('/BaseFont')} is not in the file"


@pytest.fixture(scope="module", params=["tide-table", "orchard-year", "garden-year", "lighthouse-log", "sketchbook"])
def folder(request, kits):
    return kits.get(named(request.param), "R2000").folder


def named(name):
    return next(album for album in ALBUMS if album.stem == name)


def read(folder, form):
    return Web((folder / f"{form}.html").read_text(encoding="utf-8")), Paper(folder / f"{form}.pdf")


def test_the_guide_is_on_paper_as_on_the_page(folder):
    web, paper = read(folder, "guide")
    assert len(web.marked) > 50 and len(paper.tags) > 100
    no_faults(faults(web, paper, "guide"))


@pytest.fixture(scope="module", params=["en", "de"])
def card(request, tmp_path_factory):
    """Guide and card of one album in each language, in both systems and for the trimmer."""
    folder = tmp_path_factory.mktemp("card")
    language = ("--language", request.param)
    for name in ("one", "two"):
        run_kit(named("tide-table"), folder / name, "--formats", "html,pdf", "--kit-card", "--both-units", "--trimmer", "--effort", "low", *language)
    return folder


@pytest.mark.parametrize("form", MARGINS)
def test_in_both_systems_for_the_trimmer(card, form):
    no_faults(faults(*read(card / "one", form), form))


@pytest.mark.parametrize("name", ["tide-table", "seed-ledger", "lighthouse-log"])
def test_a_card_is_one_page(name, tmp_path):
    """Those whose card is one page in a browser, too."""
    run_kit(named(name), tmp_path / "kit", "--formats", "pdf", "--kit-card", "--both-units", "--trimmer", "--effort", "low")
    assert len(Paper(tmp_path / "kit" / "kit-card.pdf").sizes) == 1


@pytest.mark.parametrize("form", MARGINS)
def test_the_same_bytes_twice(card, form):
    assert (card / "one" / f"{form}.pdf").read_bytes() == (card / "two" / f"{form}.pdf").read_bytes()


def first(paper, role, fit=lambda node: True):
    return next(node for _, _, node in paper.of(role) if fit(node))


def drop(node, key):
    del node[key]


def leave_out(node, role):
    node.K = pikepdf.Array([kid for kid in node.K if str(kid.S) != role])


def move(paper):
    """The first page, to the left."""
    page = paper.pdf.pages[0]
    page.contents_add(paper.pdf.make_stream(b"1 0 0 1 -20 0 cm"), prepend=True)


def swap(paper):
    """Two of the things in a section."""
    section = first(paper, "Sect", lambda node: len(node.K) > 2)
    section.K = pikepdf.Array([section.K[0], *reversed(list(section.K)[1:])])


def empty_font(paper):
    font = next(iter(paper.pdf.pages[0].Resources.Font.values()))
    del font.DescendantFonts[0].FontDescriptor.FontFile2


def no_bookmark(paper):
    with paper.pdf.open_outline() as found:
        found.root.pop()


def set_role(node, role):
    node.S = pikepdf.Name(role)


PLANTED = {
    "words": [swap],
    "margins": [move, lambda paper: paper.pdf.pages.append(paper.pdf.pages[0])],
    "headings": [no_bookmark, lambda paper: set_role(first(paper, "H2"), "/H4"), lambda paper: set_role(first(paper, "H1"), "/P")],
    "lists": [lambda paper: leave_out(first(paper, "LI"), "/Lbl")],
    "tables": [
        lambda paper: set_role(first(paper, "TH", lambda node: attribute(node, "/Scope") == "/Row"), "/TD"),
        lambda paper: drop(first(paper, "TH"), "/A"),
        lambda paper: leave_out(first(paper, "TR", lambda node: kids(node, "TD")), "/TH"),
    ],
    "pictures": [lambda paper: drop(first(paper, "Figure"), "/Alt")],
    "document": [empty_font, lambda paper: drop(paper.pdf.Root, "/Lang")],
}


@pytest.mark.parametrize(("what", "plant"), [(what, plant) for what, plants in PLANTED.items() for plant in plants])
def test_each_check_finds_a_planted_fault(card, what, plant, tmp_path):
    web, paper = read(card / "one", "guide")
    plant(paper)
    paper.pdf.save(tmp_path / "spoilt.pdf")
    found = list(faults(web, Paper(tmp_path / "spoilt.pdf"), "guide"))
    assert any(fault.startswith(what) for fault in found), found


def test_another_number_is_found(card):
    web, paper = read(card / "one", "guide")
    number = max(web.marked, key=web.marked.count)
    text = (card / "one" / "guide.html").read_text(encoding="utf-8")
    other = Web(text.replace(f">{number}</data>", f">{number}1</data>", 1))
    assert any(fault.startswith("words") for fault in faults(other, paper, "guide"))
    other.marked.append("no such letter")
    assert any(fault.startswith("marked") for fault in faults(other, paper, "guide"))
