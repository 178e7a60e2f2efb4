# SPDX-License-Identifier: MIT
"""Sheets that are printed before they are cut, on stocks that have a picture: what pdfium paints on the page is the picture, at the place
that the report and the picture's file alone say, on every part and past its cut by the bleed; it is white everywhere else.

The picture is a field of squares of random colours, dark ones among them, so that no shift, turn or mirror image looks the same.
"""

import io
import json
import random

import numpy
import pikepdf
import pypdfium2
import pytest
import shapely
from PIL import Image
from shapely.geometry import LineString, Point, Polygon, box

from conftest import run_kit
from read import read_dxf, read_svg
from verdict import no_faults

MM = 25.4 / 72
KERF, GAP, MARGIN, BLEED = 0.2, 5.0, 6.0, 2.0
#: As close as the page has to be to the cut file, mm, and as fine as it is looked at for that, points a mm.
CLOSE, FINE = 0.05, 40
#: Nearer to a line between colours, to an edge or to what is drawn nothing is asked, mm.
CLEAR = 0.3
#: Half of the broadest printed line.
INK = 0.25
#: Squares of the picture, mm.
SQUARE = 7.0
ALBUM = {
    "format": "hingeleaf-album/1",
    "copies": 2,
    "page": {"width": 110, "height": 150, "seam": 12, "stock": "card"},
    "pages": [{"kind": "pocket"}, {"kind": "wallet", "pocket": 80, "overflap": 40}],
    "inserts": [
        {"kind": "tag", "width": 55, "height": 165, "hole": 9, "corner": 6, "count": 3, "pages": []},
        {"kind": "tag", "width": 180, "height": 46, "hole": 3, "count": 2, "pages": []},
    ],
}


class Pattern:
    """A picture of so many mm as a file: squares of random colours, as many points a mm as is said."""

    def __init__(self, wide, tall, fine, jpeg=False, held=False):
        dice = random.Random(5)
        across, down = round(wide * fine), round(tall * fine)
        columns, rows = int(wide // SQUARE) + 1, int(tall // SQUARE) + 1
        colours = [[[dice.choice((0, 60, 120, 190, 255)) for _ in range(3)] for _ in range(columns)] for _ in range(rows)]
        x = ((numpy.arange(across) + 0.5) / across * wide // SQUARE).astype(int)
        y = ((numpy.arange(down) + 0.5) / down * tall // SQUARE).astype(int)
        self.wide, self.tall = wide, wide * down / across
        self.points = numpy.array(colours, dtype=numpy.uint8)[y][:, x]
        self.near = 25 if jpeg else 2
        image = Image.fromarray(self.points)
        file = io.BytesIO()
        if held:
            # EXIF's orientation 6: the camera was turned, the picture is upright once it is turned by a quarter with the clock.
            exif = Image.Exif()
            exif[0x0112] = 6
            exif[0x010F] = "who took it"
            image.rotate(90, expand=True).save(file, "JPEG", quality=97, subsampling=0, exif=exif)
        elif jpeg:
            exif = Image.Exif()
            exif[0x010F] = "who took it"
            image.save(file, "JPEG", quality=97, subsampling=0, exif=exif)
        else:
            image.save(file, "PNG")
        self.file = file.getvalue()

    def at(self, across, down):
        """The colour at so many mm from its upper left, again and again; none near a line between two."""
        x, y = across % self.wide, down % self.tall
        fine = (self.points.shape[1] / self.wide, self.points.shape[0] / self.tall)
        about = [(x + dx, y + dy) for dx in (-CLEAR, 0, CLEAR) for dy in (-CLEAR, 0, CLEAR)]
        seen = {tuple(int(one) for one in self.points[int(v % self.tall * fine[1]), int(u % self.wide * fine[0])]) for u, v in about}
        return seen.pop() if len(seen) == 1 else None


class Page:
    """A page as pdfium paints it; places in mm, y up."""

    def __init__(self, page):
        self.page = page
        self.size = tuple(side * MM for side in page.get_size())
        self.whole = self.painted(10, (0, 0, 0, 0))

    def painted(self, fine, crop):
        image = self.page.render(scale=fine * MM, crop=tuple(side / MM for side in crop), rev_byteorder=True).to_numpy()
        return image[:, :, :3]

    def at(self, x, y):
        down, across = self.whole.shape[0] / self.size[1], self.whole.shape[1] / self.size[0]
        return tuple(int(one) for one in self.whole[int((self.size[1] - y) * down), int(x * across)])

    def along(self, start, way, long):
        """Colours every 1/40 mm on a line along x or y, from a place on: cut out of the page and painted finely."""
        ends = (start[0] + way[0] * long, start[1] + way[1] * long)
        low = [min(pair) - 0.5 for pair in zip(start, ends)]
        high = [max(pair) + 0.5 for pair in zip(start, ends)]
        image = self.painted(FINE, (low[0], low[1], self.size[0] - high[0], self.size[1] - high[1]))
        found = []
        for step in range(int(long * FINE)):
            x, y = (start[axis] + way[axis] * (step + 0.5) / FINE for axis in (0, 1))
            # What is cut out has a whole number of points: its own measure counts.
            across = (x - low[0]) / (high[0] - low[0]) * image.shape[1]
            down = (high[1] - y) / (high[1] - low[1]) * image.shape[0]
            found.append(image[int(down), int(across)].astype(int))
        return found


class Printed:
    """A kit that is printed first, its pictures, its pages."""

    def __init__(self, folder, stock, pattern, bleed=BLEED, **more):
        self.pattern, self.bleed = pattern, bleed
        self.stock = {"caliper": 0.3, **stock}
        marks = {"shape": "ring", "number": 5, "size": 6, "inset": 8, "line": 0.5, "bleed": bleed}
        cutter = {"format": "hingeleaf-cutter/1", "kerf": KERF, "gap": GAP, "margin": MARGIN, "marks": marks}
        (folder / "cutter.json").write_text(json.dumps(cutter))
        (folder / self.stock["picture"]).write_bytes(pattern.file)
        (folder / "album.json").write_text(json.dumps({**ALBUM, "stocks": {"card": self.stock}, **more}))
        self.folder = folder / "kit"
        run_kit(folder / "album.json", self.folder, "--cutter", folder / "cutter.json", "--formats", "svg,dxf,pdf", "--effort", "low")
        self.sheets = json.loads((self.folder / "report.json").read_text())["sheets"]
        self.file, self.lines = self.folder / "print-first.pdf", 0
        self.pages = [Page(page) for page in pypdfium2.PdfDocument(self.file)]

    def drawn(self, sheet, kind="svg"):
        read = read_svg if kind == "svg" else read_dxf
        return read(self.folder / "sheets" / f"{sheet['name']}.{kind}")

    def parts(self, sheet):
        """By placement: what of the sheet the part is, without its kerf, holes taken out."""
        cuts = {}
        for cut in self.drawn(sheet).on("cut"):
            cuts.setdefault((cut.part, cut.copy), []).append(cut.area)
        found = []
        for placed in sheet["placements"]:
            rings = sorted(cuts[placed["part"], placed["copy"]], key=lambda ring: -ring.area)
            outer = rings[0].buffer(-KERF / 2, join_style="mitre")
            holes = [hole.buffer(KERF / 2, join_style="mitre") for hole in rings[1:]]
            assert abs(outer.bounds[0] - placed["x_mm"]) < 0.01 and abs(outer.bounds[1] - placed["y_mm"]) < 0.01
            found.append((placed, shapely.difference(outer, shapely.union_all(holes))))
        return found

    def on_picture(self, sheet, x, y):
        """Where a place of the sheet is on the picture, mm from its upper left: the sheet's own as it is named. One that lies turned for
        its grain was turned against the clock: its left edge is the named one's head."""
        named = NAMED[self.stock["sheet"]]
        if abs(sheet["width_mm"] - named[0]) < 0.01:
            return x, sheet["height_mm"] - y
        assert abs(sheet["height_mm"] - named[0]) < 0.01
        return y, x


NAMED = {"A4": (210, 297), "A3": (297, 420), "300x260mm": (300, 260)}


def faults(kit, sheet, page, pattern, bleed):
    """What is wrong with a page: colours inside parts, in the ring of the bleed, outside."""
    dice = random.Random(11)
    parts = kit.parts(sheet)
    ink = shapely.union_all([path.line for path in kit.drawn(sheet).paths if path.layer in ("draw", "register")]).buffer(CLEAR + INK)
    asked = {"inside": 0, "past the cut": 0, "outside": 0}
    for placed, part in parts:
        ring = part.buffer(bleed - CLEAR).difference(part.buffer(CLEAR)) if bleed else Polygon()
        for where, area, many in (("inside", part.buffer(-CLEAR), 40), ("past the cut", ring, 40)):
            for x, y in places(dice, area.difference(ink), many):
                wanted = pattern.at(*kit.on_picture(sheet, x, y))
                if wanted is None:
                    continue
                asked[where] += 1
                found = page.at(x, y)
                if max(abs(one - other) for one, other in zip(found, wanted)) > pattern.near:
                    yield f"{sheet['name']}, {placed['part']} turned by {placed['turn_deg']}, {where} at {x:.2f}, {y:.2f}: {found}, not {wanted}"
        for ring in part.interiors:
            hole = Polygon(ring).buffer(-bleed - CLEAR)
            for x, y in places(dice, hole, 5):
                if page.at(x, y) != (255, 255, 255):
                    yield f"{sheet['name']}, {placed['part']} has {page.at(x, y)} in its hole at {x:.2f}, {y:.2f}"
    past = shapely.union_all([part for _, part in parts]).buffer(bleed + CLEAR)
    outside = box(0.5, 0.5, *(side - 0.5 for side in page.size)).difference(past).difference(ink)
    for x, y in places(dice, outside, 200):
        asked["outside"] += 1
        if page.at(x, y) != (255, 255, 255):
            yield f"{sheet['name']} has {page.at(x, y)} outside its parts at {x:.2f}, {y:.2f}"
    # Most places are clear of lines, or nothing was looked at.
    if asked["inside"] < 15 * len(parts) or (bleed and asked["past the cut"] < 12 * len(parts)) or asked["outside"] < 150:
        yield f"{sheet['name']}: only {asked} places were looked at"


def places(dice, area, many):
    """Places in an area, by chance."""
    found, tried = [], 0
    if area.is_empty:
        return found
    x0, y0, x1, y1 = area.bounds
    shapely.prepare(area)
    while len(found) < many and tried < 400 * many:
        tried += 1
        x, y = dice.uniform(x0, x1), dice.uniform(y0, y1)
        if area.contains(Point(x, y)):
            found.append((x, y))
    return found


def edges(kit, sheet, page, bleed):
    """What is wrong with where print ends: at the middle of each straight edge along x or y it is the bleed past the part."""
    seen = 0
    ink = shapely.union_all([path.line for path in kit.drawn(sheet).paths if path.layer in ("draw", "register")])
    for placed, part in kit.parts(sheet):
        for ring in (part.exterior, *part.interiors):
            for (x0, y0), (x1, y1) in zip(ring.coords, ring.coords[1:]):
                if max(abs(x1 - x0), abs(y1 - y0)) < 12 or min(abs(x1 - x0), abs(y1 - y0)) > 1e-3:
                    continue
                middle = ((x0 + x1) / 2, (y0 + y1) / 2)
                way = (0, 1) if abs(y1 - y0) < 1e-3 else (1, 0)
                if part.contains(Point(middle[0] + way[0], middle[1] + way[1])):
                    way = (-way[0], -way[1])
                # From a millimetre inside.
                start = (middle[0] - way[0], middle[1] - way[1])
                line = page.along(start, way, bleed + 2)
                run = LineString([start, (start[0] + way[0] * (bleed + 2), start[1] + way[1] * (bleed + 2))])
                dark = [step for step, colour in enumerate(line) if colour.min() < 128]
                end = [middle[axis] + way[axis] * bleed for axis in (0, 1)]
                wanted = kit.pattern.at(*kit.on_picture(sheet, *end))
                # A light square of the picture, or a line between two of them, tells nothing of where it ends.
                if run.distance(ink) < 1 or not dark or wanted is None or min(wanted) > 60:
                    continue
                seen += 1
                ends = (max(dark) + 1) / FINE - 1
                if abs(ends - bleed) > CLOSE:
                    yield f"{sheet['name']}, {placed['part']} turned by {placed['turn_deg']}: print ends {ends:.3f} mm past {middle}, not {bleed}"
    if not seen:
        yield f"{sheet['name']}: no edge was looked at"


def lines(kit, sheet, page, pattern):
    """What is wrong with where the picture's own lines run on the page: within parts, on lines along x and y, each change of colour."""
    ink = shapely.union_all([path.line for path in kit.drawn(sheet).paths if path.layer in ("draw", "register")])
    for placed, part in kit.parts(sheet):
        x0, y0, x1, y1 = part.bounds
        ways = [((x0 + 2, y0 + share * (y1 - y0)), (1, 0)) for share in (0.2, 0.4, 0.6, 0.8)]
        ways += [((x0 + share * (x1 - x0), y0 + 2), (0, 1)) for share in (0.2, 0.4, 0.6, 0.8)]
        for start, way in ways:
            run = LineString([start, (start[0] + 20 * way[0], start[1] + 20 * way[1])])
            if part.buffer(-CLEAR).contains(run) and run.distance(ink) > CLEAR + INK:
                for off in changes(kit, sheet, page.along(start, way, 20), start, way, pattern):
                    kit.lines += 1
                    if off > CLOSE:
                        yield f"{sheet['name']}, {placed['part']}: colours change {off:.3f} mm beside a line of the picture, from {start} on"


def changes(kit, sheet, line, start, way, pattern):
    """How far each change of colour on a line is from the nearest line of the picture."""
    for step in range(CLEAR_STEPS, len(line) - CLEAR_STEPS):
        before, after = line[step - CLEAR_STEPS], line[step + CLEAR_STEPS - 1]
        if abs(before - after).max() < 60:
            continue
        # The change is where the page is as far from the one colour as from the other.
        nearer = [abs(line[step + by] - before).sum() - abs(line[step + by] - after).sum() for by in (-1, 0)]
        if not nearer[0] <= 0 < nearer[1]:
            continue
        x, y = (start[axis] + way[axis] * step / FINE for axis in (0, 1))
        here, there = kit.on_picture(sheet, x, y), kit.on_picture(sheet, x + way[0], y + way[1])
        axis = 0 if abs(here[1] - there[1]) < 1e-6 else 1
        side = (pattern.wide, pattern.tall)[axis]
        lies = here[axis] % side
        yield min(lies % SQUARE, SQUARE - lies % SQUARE, side - lies)


CLEAR_STEPS = int(CLEAR * FINE)
#: What a stock says, and its picture: the whole sheet; one that lies turned for its grain; one with an up; small ones that repeat, the
#: last of them a photograph of a camera that was held on its side.
CASES = {
    "whole sheet": ({"sheet": "A4"}, lambda: Pattern(210, 297, 12)),
    "grain across": ({"sheet": "A4", "grain": "short"}, lambda: Pattern(210, 297, 12)),
    "sheet named on its side": ({"sheet": "300x260mm", "grain": "long", "pattern": "all-over"}, lambda: Pattern(300, 260, 12)),
    "one way": ({"sheet": "A3", "pattern": "one-way", "picture_width": 61}, lambda: Pattern(61, 47, 20)),
    "repeats": ({"sheet": "A4", "picture_width": 44}, lambda: Pattern(44, 52, 20)),
    "photograph": ({"sheet": "A4", "picture": "reeds.jpg"}, lambda: Pattern(210, 297, 12, jpeg=True)),
    "camera on its side": ({"sheet": "A4", "picture": "reeds.jpg", "picture_width": 120}, lambda: Pattern(120, 93, 16, jpeg=True, held=True)),
}


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    made = {}

    def get(case):
        if case not in made:
            stock, pattern = CASES[case]
            made[case] = Printed(tmp_path_factory.mktemp("printed"), {"picture": "reeds.png", "colour": "#FF00FF", **stock}, pattern())
        return made[case]

    return get


@pytest.mark.parametrize("case", CASES)
def test_parts_are_printed_with_what_lies_there(printed, case):
    kit = printed(case)
    assert len(kit.pages) == len(kit.sheets)
    turns = {placed["turn_deg"] for sheet in kit.sheets for placed in sheet["placements"]}
    assert len(turns) > 1 or kit.stock.get("pattern") == "one-way", turns
    found = []
    for sheet, page in zip(kit.sheets, kit.pages):
        assert all(abs(a - b) < CLOSE for a, b in zip(page.size, (sheet["width_mm"], sheet["height_mm"])))
        found += faults(kit, sheet, page, kit.pattern, kit.bleed)
        found += edges(kit, sheet, page, kit.bleed)
        found += lines(kit, sheet, page, kit.pattern)
    no_faults(found)
    assert kit.lines > 30, kit.lines


def test_without_bleed_print_ends_at_the_cut(tmp_path):
    stock, pattern = CASES["whole sheet"]
    kit = Printed(tmp_path, {"picture": "reeds.png", **stock}, pattern(), bleed=0)
    found = []
    for sheet, page in zip(kit.sheets, kit.pages):
        found += faults(kit, sheet, page, kit.pattern, 0)
        found += edges(kit, sheet, page, 0)
    no_faults(found)


@pytest.mark.parametrize("case", CASES)
def test_the_picture_is_in_the_file_once_and_as_it_came(printed, case):
    """As many points as the picture's own file has; of what a camera wrote beside them nothing is handed on."""
    kit = printed(case)
    assert b"who took it" not in kit.file.read_bytes()
    with pikepdf.open(kit.file) as pdf:
        images = [one for one in pdf.objects if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Image"]
        assert len(images) == 1
        height, width, _ = kit.pattern.points.shape
        assert (int(images[0].Width), int(images[0].Height)) == (width, height)
        held = numpy.array(pikepdf.PdfImage(images[0]).as_pil_image().convert("RGB")).astype(int)
        off = abs(held - kit.pattern.points)
        assert numpy.percentile(off, 99) < kit.pattern.near if "jpg" in kit.stock["picture"] else off.max() == 0
        if case == "photograph":
            # Point for point the file's own data: nothing was squeezed a second time.
            assert kit.pattern.file.endswith(bytes(images[0].read_raw_bytes())[-5000:])


def test_the_checks_see_what_is_wrong(printed):
    """A picture that is moved, mirrored or turned, a bleed that is missing, a page of another sheet."""
    kit = printed("whole sheet")
    sheet, page = kit.sheets[0], kit.pages[0]

    def spoilt(change):
        other = Pattern(210, 297, 12)
        other.points = change(other.points)
        return list(faults(kit, sheet, page, other, kit.bleed))

    assert not spoilt(lambda points: points)
    for change in (numpy.fliplr, numpy.flipud, lambda points: numpy.rot90(points, 2), lambda points: numpy.roll(points, 12, axis=0)):
        assert len(spoilt(change)) > 10
    assert any("past the cut" in fault for fault in faults(kit, sheet, page, kit.pattern, kit.bleed + 1.5))
    assert any("outside" in fault for fault in faults(kit, sheet, page, kit.pattern, 0))
    assert list(edges(kit, sheet, page, kit.bleed + 0.1)) and list(edges(kit, sheet, page, kit.bleed - 0.1))
    kit_moved = lambda sheet, x, y: (x + 0.1, sheet["height_mm"] - y)  # noqa: E731
    kept, kit.on_picture = kit.on_picture, kit_moved
    try:
        assert list(lines(kit, sheet, page, kit.pattern))
    finally:
        kit.on_picture = kept
