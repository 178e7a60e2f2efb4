# SPDX-License-Identifier: MIT
"""True-size templates, read by pdfplumber and pikepdf (qpdf), against the flat parts that ezdxf reads from the sheets.

Every part of a kit is on its templates once, at its size within 0.05 mm, with its scores, its letter and its name. What
comes in tiles is put together again, ring on ring, and has neither gap nor double.
"""

import json
import math
import re
from itertools import count

import pdfplumber
import pikepdf
import pytest
import shapely
from shapely import affinity
from shapely.geometry import LineString, Polygon

from conftest import ALBUMS, run_kit
from hunt_pieces import flats, folds
from printed import area, groups, pages, strokes, ways
from read import read_dxf, read_svg
from verdict import no_faults

#: As close as a template has to be, mm.
CLOSE = 0.05
#: Pens, mm: what is cut, what is scored, rings and thin lines, where a tile ends.
CUT, SCORE, THIN, END = 0.35, 0.25, 0.18, 0.1
#: Things on a page stand this far apart, mm, and a little less counts as apart.
APART = 3.9
MARGIN = 6.35
FOOT = 23.0
PAPERS = {"letter": (215.9, 279.4), "A4": (210, 297), "A3": (297, 420), "tabloid": (279.4, 431.8)}


#: What the guide calls in words of its own, so that templates do, too.
CALLED = {"hinge T": "middle hinge"}


def pen(strokes, width):
    """What is drawn with a pen; what is glued is hatched in a paler colour."""
    return [stroke for stroke in strokes if abs(stroke.width - width) < 0.005 and stroke.dark == (width != END)]


class Templates:
    """A templates.pdf: its pages, what lies on them, and its feet."""

    def __init__(self, file):
        self.pages = pages(file)
        self.groups, self.feet = [], []
        for size, strokes, words in self.pages:
            low = MARGIN + FOOT + 1
            self.feet.append(([one for one in strokes if one.line.bounds[3] < low], [one for one in words if one.at[1] < low]))
            above = ([one for one in strokes if one.line.bounds[3] >= low], [one for one in words if one.at[1] >= low])
            self.groups += groups(*above, APART)
        self.tiles = [group for group in self.groups if pen(group.strokes, END)]
        self.plans = [group for group in self.groups if not pen(group.strokes, END) and not pen(group.strokes, CUT)]
        self.wholes = [group for group in self.groups if group not in self.tiles and group not in self.plans]


def same(drawn, meant):
    """Whether outlines and scores lie on each other, turned as they may be; how far they are off, mm."""
    best = math.inf
    sides = [sorted((box[2] - box[0], box[3] - box[1])) for box in (drawn.bounds, meant.bounds)]
    off = max(abs(one - other) for one, other in zip(*sides))
    if off > CLOSE:
        return off
    for quarters in range(4):
        turned = affinity.rotate(drawn, 90 * quarters, origin=(0, 0))
        x, y = turned.bounds[:2]
        moved = affinity.translate(turned, meant.bounds[0] - x, meant.bounds[1] - y)
        best = min(best, shapely.hausdorff_distance(moved, meant, densify=0.2))
    return best


def lines(outline, scores):
    """Everything that a part is drawn with, as one figure."""
    return shapely.union_all([outline.boundary, *scores])


def drawn_whole(group):
    cut = sorted((area(stroke) for stroke in pen(group.strokes, CUT)), key=lambda figure: -figure.area)
    scores = [stroke.line for stroke in pen(group.strokes, SCORE)]
    return lines(Polygon(cut[0].exterior, [hole.exterior for hole in cut[1:]]), folds(scores))


def label(group):
    """The letter that it is called by, the first of its lines; of a tile with its number, the tallest words there are."""
    return max(group.words, key=lambda words: words.size).text if pen(group.strokes, END) else group.words[0].text


def joints(group, name):
    """By the neighbour's name: the middle of the joint, and the way out of the tile."""
    letter = name.split()[0]
    rings = [area(stroke).centroid for stroke in pen(group.strokes, THIN) if stroke.closed]
    found = {}
    for words in group.words:
        if words.text == name or not re.fullmatch(rf"{letter} \d+", words.text):
            continue
        # Its two rings lie beside it, as far from it one way as the other.
        pairs = [(one, other) for one in rings for other in rings if one is not other]
        off = lambda pair: math.dist(words.at, ((pair[0].x + pair[1].x) / 2, (pair[0].y + pair[1].y) / 2))
        one, other = min(pairs, key=off)
        middle = ((one.x + other.x) / 2, (one.y + other.y) / 2)
        found[words.text] = (middle, math.atan2(words.at[1] - middle[1], words.at[0] - middle[0]))
    return found


def put_together(tiles):
    """The strokes of all tiles of a part in the frame of the first, each tile laid on its neighbour ring on ring."""
    names = {label(group): group for group in tiles}
    first = min(names)
    at, left = {first: (0.0, (0.0, 0.0))}, [first]
    while left:
        name = left.pop()
        angle, shift = at[name]
        for other, (middle, out) in joints(names[name], name).items():
            if other in at or other not in names:
                continue
            back, inward = joints(names[other], other)[name]
            turn = angle + out + math.pi - inward
            turn = round(turn / (math.pi / 2)) * math.pi / 2
            goal = turned(middle, angle, shift)
            x, y = turned(back, turn, (0.0, 0.0))
            at[other] = (turn, (goal[0] - x, goal[1] - y))
            left.append(other)
    placed = {}
    for name, (angle, shift) in at.items():
        placed[name] = [
            [LineString([turned(point, angle, shift) for point in stroke.points]) for stroke in pen(names[name].strokes, width)]
            for width in (CUT, SCORE)
        ]
    return placed, names


def whole(placed):
    """All tiles as one figure."""
    cuts = [line for of_tile in placed.values() for line in of_tile[0]]
    return shapely.union_all([*cuts, *folds([line for of_tile in placed.values() for line in of_tile[1]])])


def turned(point, angle, shift):
    sine, cosine = math.sin(angle), math.cos(angle)
    return (point[0] * cosine - point[1] * sine + shift[0], point[0] * sine + point[1] * cosine + shift[1])


@pytest.fixture(scope="module", params=ALBUMS, ids=lambda album: album.stem)
def made(request, kits):
    kit = kits.get(request.param, "R2000")
    return kit, flats(kit), Templates(kit.folder / "templates.pdf")


def test_every_part_is_there_once_at_its_size(made):
    kit, parts, templates = made
    left = {name: lines(flat.outline, flat.scores) for name, flat in parts.items()}
    faults = []
    found = [(label(group), drawn_whole(group), group.words) for group in templates.wholes]
    by_letter = {}
    for group in templates.tiles:
        by_letter.setdefault(label(group).split()[0], []).append(group)
    for letter, tiles in by_letter.items():
        placed, names = put_together(tiles)
        if len(placed) < len(tiles):
            faults.append(f"{letter}: {sorted(set(names) - set(placed))} hang on to nothing")
        found.append((letter, whole(placed), [words for group in tiles for words in group.words]))
    for letter, figure, words in found:
        off = {name: same(figure, meant) for name, meant in left.items()}
        near = [name for name in sorted(off, key=off.get) if off[name] <= CLOSE]
        # Of parts of one shape it is the one that it is called.
        said = {text.text.removesuffix(" …") for text in words}
        called = [name for name in near if CALLED.get(use := parts[name].facts["used_in"][0], use) in said]
        if not near:
            faults.append(f"{letter} is like no part that is left: {min(off.values(), default=math.inf):.3f} mm off")
            continue
        small = not any(len(text.text) > 5 for text in words)
        if not called and not small:
            faults.append(f"{letter} is {near[0]}, and called {[text.text for text in words]}")
        del left[(called or near)[0]]
    faults += [f"{name} is on no page" for name in left]
    no_faults(faults)


def test_tiles_overlap_and_show_the_same_there(made):
    """Where two tiles lie on each other they show the same lines: a tenth of a millimetre to either side of each."""
    templates = made[2]
    by_letter = {}
    for group in templates.tiles:
        by_letter.setdefault(label(group).split()[0], []).append(group)
    faults = []
    for letter, tiles in by_letter.items():
        placed, names = put_together(tiles)
        for one, of_one in placed.items():
            for other in joints(names[one], one):
                theirs = shapely.union_all([line for lines in placed.get(other, []) for line in lines])
                mine = shapely.union_all([line for lines in of_one for line in lines])
                # Within the strip that both have, half of it on either side of the joint.
                strip = mine.envelope.intersection(theirs.envelope).buffer(-CLOSE)
                gone = mine.intersection(strip).difference(theirs.buffer(2 * CLOSE))
                if gone.length > 0.2:
                    faults.append(f"{one} shows {gone.length:.1f} mm that {other} does not")
    no_faults(faults)


def test_the_print_can_be_checked(made):
    """A line of 100 mm and one of 4 in on every page, each named, and the page as large as its paper."""
    templates = made[2]
    for (size, _, _), (strokes, words) in zip(templates.pages, templates.feet):
        assert any(all(abs(a - b) < 0.01 for a, b in zip(size, paper)) for paper in PAPERS.values()), size
        level = [stroke for stroke in strokes if abs(stroke.line.bounds[1] - stroke.line.bounds[3]) < 1e-3]
        for length, name in ((100.0, "100 mm"), (101.6, "4 in")):
            name = next(one for one in words if one.text == name)
            near = [stroke for stroke in level if abs(stroke.line.length - length) < 0.01]
            assert any(stroke.line.distance(shapely.Point(name.at)) < 3 for stroke in near), (length, size)


def test_nothing_lies_in_the_margin_or_on_anything_else(made):
    templates = made[2]
    faults = []
    for number, (size, strokes, words) in zip(count(1), templates.pages):
        inside = shapely.box(MARGIN - 0.2, MARGIN - 0.2, size[0] - MARGIN + 0.2, size[1] - MARGIN + 0.2)
        faults += [f"page {number}: a line in the margin, {one.line.bounds}" for one in strokes if not inside.covers(one.line)]
        faults += [f"page {number}: “{one.text}” in the margin" for one in words if not inside.buffer(0.5).covers(one.room)]
        rooms = [one.room for one in words]
        for index, room in enumerate(rooms):
            for other in range(index + 1, len(rooms)):
                if room.buffer(-0.4).intersects(rooms[other].buffer(-0.4)):
                    faults.append(f"page {number}: “{words[index].text}” on “{words[other].text}”")
    no_faults(faults)


def test_every_tiled_part_has_a_plan(made):
    templates = made[2]
    letters = {label(group).split()[0]: 0 for group in templates.tiles}
    for group in templates.tiles:
        letters[label(group).split()[0]] += 1
    headings = {words.text for group in templates.plans for words in group.words}
    no_faults(f"{letter}: no plan of its {tiles} tiles" for letter, tiles in letters.items() if f"{letter}: {tiles} tiles" not in headings)


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_on_any_paper(paper, tmp_path):
    """The same parts on every paper, and larger paper needs no more pages."""
    album = next(album for album in ALBUMS if album.stem == "seed-ledger")
    run_kit(album, tmp_path / "kit", "--formats", "pdf,dxf", "--paper", paper, "--kerf", "0.1", "--gap", "1", "--margin", "3")
    templates = Templates(tmp_path / "kit" / "templates.pdf")
    assert all(abs(size[0] - PAPERS[paper][0]) < 0.01 and abs(size[1] - PAPERS[paper][1]) < 0.01 for size, _, _ in templates.pages)
    letters = {label(group).split()[0] for group in [*templates.wholes, *templates.tiles]}
    run_kit(album, tmp_path / "a4", "--formats", "pdf,dxf", "--paper", "A4")
    usual = Templates(tmp_path / "a4" / "templates.pdf")
    assert letters == {label(group).split()[0] for group in [*usual.wholes, *usual.tiles]}
    assert paper in ("letter", "A4") or len(templates.pages) <= len(usual.pages)


def test_others_find_nothing_wrong_with_it(made):
    """qpdf's own check; a title, a language, a bookmark a page, a figure a page with words for it, every font in the file."""
    file = made[0].folder / "templates.pdf"
    with pikepdf.open(file) as pdf:
        assert pdf.check_pdf_syntax() == [] if hasattr(pdf, "check_pdf_syntax") else pdf.check() == []
        root = pdf.Root
        assert str(root.Lang) == "en" and root.MarkInfo.Marked and root.ViewerPreferences.DisplayDocTitle
        assert "templates" in str(pdf.docinfo.get("/Title", "")) or "templates" in str(root.Metadata.read_bytes())
        with pdf.open_outline() as outline:
            assert len(list(outline.root)) == len(pdf.pages)
        alternatives = [str(one.Alt) for one in figures(root.StructTreeRoot)]
        assert len(alternatives) == len(pdf.pages) and all("true size" in words for words in alternatives)
        for page in pdf.pages:
            for font in page.Resources.get("/Font", {}).values():
                below = font.DescendantFonts[0] if "/DescendantFonts" in font else font
                assert "/FontFile2" in below.FontDescriptor or "/FontFile3" in below.FontDescriptor
                assert "/ToUnicode" in font


def figures(node):
    """All figures of a tag tree."""
    if isinstance(node, pikepdf.Dictionary):
        if node.get("/S") == "/Figure":
            yield node
        kids = node.get("/K", [])
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
            yield from figures(kid)


def test_the_same_bytes_twice(tmp_path):
    for name in ("one", "two"):
        run_kit(ALBUMS[0], tmp_path / name, "--formats", "pdf", "--effort", "low")
    assert (tmp_path / "one" / "templates.pdf").read_bytes() == (tmp_path / "two" / "templates.pdf").read_bytes()


#: What is printed first: parts with holes and round corners in a colour of their own, cut with a kerf.
PRINTED_FIRST = {
    "format": "hingeleaf-album/1",
    "stocks": {"card": {"sheet": "A4", "caliper": 0.3, "colour": "#8FA3B0"}},
    "page": {"width": 120, "height": 160, "seam": 12, "stock": "card"},
    "pages": [{"kind": "pocket"}, {"kind": "wallet", "pocket": 90, "overflap": 40}],
    "inserts": [{"kind": "tag", "width": 70, "height": 100, "hole": 6, "corner": 6, "count": 2}],
}
KERF, GAP = 0.3, 4


def rgb(colour):
    """Whatever way a PDF says it."""
    return tuple(round(255 * part) for part in (colour * 3 if len(colour) == 1 else colour))


def filled(page, colour):
    """Rings that are filled with a colour."""
    height = float(page.height)
    shapes = [one for one in [*page.rects, *page.curves] if one["fill"] and rgb(one["non_stroking_color"]) == colour]
    return [Polygon(points) for one in shapes for points in ways(one["path"], height)]


@pytest.mark.parametrize(("shape", "number", "bleed"), [("ring", 5, 0), ("square", 3, 1.5)])
def test_what_is_printed_first_is_what_is_cut(shape, number, bleed, tmp_path):
    """Marks and outlines on the printed page lie where SVG and DXF have them, within 0.05 mm; marks are clear of all cuts."""
    marks = {"shape": shape, "number": number, "bleed": bleed, "size": 7, "inset": 9, "line": 0.6}
    asked = {"format": "hingeleaf-cutter/1", "kerf": KERF, "gap": GAP, "margin": 4, "marks": marks}
    (tmp_path / "cutter.json").write_text(json.dumps(asked))
    (tmp_path / "album.json").write_text(json.dumps(PRINTED_FIRST))
    kit = tmp_path / "kit"
    words = ("--cutter", tmp_path / "cutter.json", "--formats", "svg,dxf,pdf", "--effort", "low")
    run_kit(tmp_path / "album.json", kit, *words)
    sheets = json.loads((kit / "report.json").read_text())["sheets"]
    with pdfplumber.open(kit / "print-first.pdf") as pdf:
        assert len(pdf.pages) == len(sheets)
        for page, sheet in zip(pdf.pages, sheets):
            drawings = [read(kit / "sheets" / f"{sheet['name']}.{kind}") for kind, read in (("svg", read_svg), ("dxf", read_dxf))]
            sides = [float(side) * 25.4 / 72 for side in (page.width, page.height)]
            assert all(abs(a - b) < CLOSE for a, b in zip(sides, (sheet["width_mm"], sheet["height_mm"])))
            lines = [one.line for one in strokes(page) if abs(one.width - 0.6) < 0.005 and one.dark]
            lines += [ring.exterior for ring in filled(page, (0, 0, 0))]
            boxes = [shapely.box(x, y, x + 7, y + 7) for x, y in ((one["x_mm"], one["y_mm"]) for one in sheet["marks"])]
            assert len(boxes) == number and len(lines) == number, (len(boxes), len(lines))
            ink = shapely.union_all(lines)
            rings = filled(page, (0x8F, 0xA3, 0xB0))
            for drawing in drawings:
                printed = shapely.union_all([path.line for path in drawing.on("register")])
                assert shapely.hausdorff_distance(ink, printed, densify=0.25) <= CLOSE
                cuts = drawing.on("cut")
                assert len(cuts) == len(rings)
                for cut in cuts:
                    path = cut.area
                    ring = min(rings, key=lambda ring: shapely.hausdorff_distance(ring.exterior, path.exterior))
                    # The tool runs outside an outline, inside a hole.
                    off = -KERF / 2 if ring.area < path.area else KERF / 2
                    edge = path.buffer(off, join_style="mitre").exterior
                    assert shapely.hausdorff_distance(ring.exterior, edge, densify=0.25) <= CLOSE, str(cut)
                    assert all(box.buffer(0.3).distance(path) >= GAP - CLOSE for box in boxes), str(cut)
            past = [one for one in strokes(page) if abs(one.width - 2 * bleed) < 0.005 and not one.dark]
            assert len(past) == (len(rings) if bleed else 0)
