# SPDX-License-Identifier: MIT
"""What is done on the backs of sheets, several of them on a bed: once each sheet is turned over in its place, like a page, its scores meet
those of its front, its words stand in their own parts, and its register marks lie on those that are printed.

Which sheet lies where is the report's; SVG comes through svgelements, DXF through ezdxf, and shapely does the turning.
"""

import json

import pytest
from shapely import affinity
from shapely.geometry import Polygon, box

from conftest import run_kit
from read import read_dxf, read_svg
from verdict import no_faults

KERF, PEN = 0.1, 0.6
#: What is written has four decimals.
SAME = 1e-3
#: Hinges, whose outer folds work both ways; on A4 and in a second stock that has none.
ALBUM = {
    "format": "hingeleaf-album/1",
    "title": "Both ways",
    "copies": 8,
    "stocks": {"card": {"sheet": "A4", "caliper": 0.3}, "paper": {"sheet": "A4", "caliper": 0.15}},
    "page": {"width": 120, "height": 160, "seam": 12, "stock": "card"},
    "pages": [{"kind": kind, **more} for kind, more in (("pocket", {}), ("wallet", {"pocket": 90, "overflap": 40}), ("pocket", {}), ("pocket", {}))],
    "spine": {"kind": "flexi-hinge", "pitch": 6, "tab": 12, "gusset": 6, "lead_in": 6},
    "panels": {"reveal": 4, "stock": "paper"},
}
CUTTER = {"format": "hingeleaf-cutter/1", "kerf": KERF, "gap": 2, "margin": 5, "both_ways": "both-sides"}
MARKS = {"shape": "corner", "number": 3, "size": 6, "inset": 7, "line": 0.5}
#: Beds: as many as it takes, standing and turned; a number of them; at places that are stated, apart from each other; with marks and words.
BEDS = {
    "standing": {"bed": "640x300mm", "sheets_a_bed": "fill"},
    "turned": {"bed": "610x420mm", "sheets_a_bed": "fill"},
    "two of them": {"bed": "600x430mm", "sheets_a_bed": 2},
    "stated": {"bed": "700x650mm", "sheets_a_bed": [{"x": 11, "y": 7}, {"x": 235.5, "y": 20}, {"x": 470, "y": 330}]},
    "marks": {"bed": "610x420mm", "sheets_a_bed": "fill", "marks": MARKS},
    "words": {"bed": "700x650mm", "sheets_a_bed": [{"x": 3, "y": 0}, {"x": 300, "y": 100}], "text_side": "back", "text": "names-and-sizes", "pen": PEN},
    "words, turned": {"bed": "610x420mm", "sheets_a_bed": "fill", "text_side": "back", "pen": PEN, "both_ways": "front"},
}


class Beds:
    """A kit cut on beds."""

    def __init__(self, folder, asked):
        (folder / "cutter.json").write_text(json.dumps({**CUTTER, **asked}))
        (folder / "album.json").write_text(json.dumps(ALBUM))
        words = ("--cutter", folder / "cutter.json", "--formats", "svg,dxf,html", "--effort", "low", "--labels", "everywhere")
        run_kit(folder / "album.json", folder / "kit", *words)
        self.folder = folder / "kit"
        self.report = json.loads((self.folder / "report.json").read_text())
        self.sheets = {sheet["name"]: sheet for sheet in self.report["sheets"]}

    def drawing(self, name, kind):
        file = self.folder / "sheets" / f"{name}.{kind}"
        return (read_svg if kind == "svg" else read_dxf)(file) if file.is_file() else None

    def lying(self, bed):
        """Each sheet of a bed and the room that it takes there."""
        for one in bed["sheets"]:
            sheet = self.sheets[one["sheet"]]
            sides = (sheet["width_mm"], sheet["height_mm"])
            wide, tall = sides[::-1] if one["turn_deg"] else sides
            yield sheet, box(one["x_mm"], one["y_mm"], one["x_mm"] + wide, one["y_mm"] + tall)


def turned(line, room):
    """Turned over like a page, in its place: left and right change sides about the room's upright middle line."""
    return affinity.scale(line, -1, 1, origin=((room.bounds[0] + room.bounds[2]) / 2, 0))


def within(paths, room):
    return [path for path in paths if room.buffer(SAME).contains(path.line)]


def apart(ones, others):
    """What of two lots of lines has no like in the other."""
    left = list(others)
    for one in ones:
        like = next((other for other in left if one.hausdorff_distance(other) < SAME), None)
        if like is None:
            yield one
        else:
            left.remove(like)
    yield from left


def faults(kit, bed, front, back, in_dxf):
    """What is wrong with the back of a bed; counts what was looked at."""
    name, looked = bed["name"], {"score": 0, "draw": 0, "register": 0}
    rooms = list(kit.lying(bed))
    for path in back.paths:
        if path.layer not in looked:
            yield f"{name}: {path} on a back"
        elif sum(room.buffer(SAME).contains(path.line) for _, room in rooms) != 1:
            yield f"{name}: {path} lies in no place of a sheet"
    if list(apart([path.line for path in back.paths], [path.line for path in in_dxf.paths])):
        yield f"{name}: SVG and DXF do other things"
    for sheet, room in rooms:
        over = {layer: [turned(path.line, room) for path in within(back.on(layer), room)] for layer in looked}
        wanted = {
            "score": [path.line for path in within(front.on("score"), room) if path.fold == "both" and kit.both],
            "register": [path.line for path in within(front.on("register"), room)] if "tool_back" in sheet else [],
        }
        for layer, lines in wanted.items():
            looked[layer] += len(lines)
            if odd := list(apart(over[layer], lines)):
                yield f"{name}, {sheet['name']} in {room.bounds}: {len(odd)} of {layer} do not meet, such as {odd[0].wkt}"
        cuts = within(front.on("cut"), room)
        for path, line in zip(within(back.on("draw"), room), over["draw"]):
            looked["draw"] += 1
            mine = [Polygon(cut.line.coords) for cut in cuts if (cut.part, cut.copy) == (path.part, path.copy)]
            outer = max(mine, key=lambda one: one.area, default=Polygon())
            if not outer.buffer(-KERF / 2 - PEN + SAME).contains(line):
                yield f"{name}, {sheet['name']}: {path} is not in its part"
    kit.looked = {layer: kit.looked.get(layer, 0) + many for layer, many in looked.items()}


@pytest.fixture(scope="module")
def beds(tmp_path_factory):
    made = {}

    def get(case):
        if case not in made:
            made[case] = Beds(tmp_path_factory.mktemp("beds"), BEDS[case])
            made[case].both = BEDS[case].get("both_ways") != "front"
            made[case].looked = {}
        return made[case]

    return get


@pytest.mark.parametrize("case", BEDS)
def test_backs_on_a_bed_meet_their_fronts(beds, case):
    kit, found, several = beds(case), [], 0
    for bed in kit.report["beds"]:
        names = [bed["name"], f"{bed['name']}.back"]
        wanted = any("tool_back" in sheet for sheet, _ in kit.lying(bed))
        assert wanted == ("tool_back" in bed), names
        (front, _), (back, in_dxf) = ([kit.drawing(name, kind) for kind in ("svg", "dxf")] for name in names)
        assert (back is not None) == (in_dxf is not None) == wanted, names
        if not wanted:
            continue
        assert (back.width, back.height) == (front.width, front.height)
        several += len(bed["sheets"]) > 1
        found += faults(kit, bed, front, back, in_dxf)
    no_faults(found)
    assert several, "no bed with several sheets has a back"
    needed = {"marks": ("score", "register"), "words": ("score", "draw"), "words, turned": ("draw",)}.get(case, ("score",))
    assert all(kit.looked[layer] > 8 for layer in needed), kit.looked
    # No sheet that lies on a bed has a file of its own, on either side.
    names = {file.stem for file in (kit.folder / "sheets").glob("*.svg")}
    assert not names & {name + more for name in kit.sheets for more in ("", ".back")}
    turns = {one["turn_deg"] for bed in kit.report["beds"] for one in bed["sheets"]}
    assert turns == ({90} if case in ("turned", "two of them", "marks", "words, turned") else {0}), turns


def test_the_check_sees_what_does_not_meet(beds):
    """Backs of the whole bed turned over, of sheets that are turned heads over, that are not turned at all, moved, and one that is lost."""
    kit = beds("stated")
    bed = next(bed for bed in kit.report["beds"] if "tool_back" in bed and len(bed["sheets"]) > 1)
    front, back = kit.drawing(bed["name"], "svg"), kit.drawing(f"{bed['name']}.back", "svg")
    middle = (bed["width_mm"] / 2, bed["height_mm"] / 2)

    def spoilt(change):
        for path in back.paths:
            room = next(room for _, room in kit.lying(bed) if room.buffer(SAME).contains(path.line))
            path.__dict__["line"] = change(path.line, room)
        try:
            return list(faults(kit, bed, front, back, back))
        finally:
            for path in back.paths:
                del path.__dict__["line"]

    assert not spoilt(lambda line, room: line)
    assert spoilt(lambda line, room: affinity.scale(turned(line, room), -1, 1, origin=middle))
    assert spoilt(lambda line, room: affinity.scale(turned(line, room), 1, -1, origin=room.centroid))
    assert spoilt(turned)
    assert spoilt(lambda line, room: affinity.translate(line, 0.01, 0))
    back.paths.pop()
    assert spoilt(lambda line, room: line)


def test_guide_and_job_sheet_say_how_sheets_are_turned(beds):
    """Both name the files of the backs before those of the fronts, and that each sheet is turned over in its own place."""
    for case, says in (("turned", "Turn each sheet over sideways in its own place"), ("marks", "lay it by its printed marks")):
        kit = beds(case)
        backs = [bed["name"] for bed in kit.report["beds"] if "tool_back" in bed]
        pages = [file.read_text() for file in kit.folder.glob("*.html")]
        assert len(pages) > 1, sorted(kit.folder.iterdir())
        told = [page for page in pages if says in page]
        assert told
        for page in told:
            assert all(f"{name}.back" in page for name in backs)
            assert page.index(f"{backs[0]}.back") < page.index(says)
            assert not any(f"{name}.back" in page for name in kit.sheets)
        assert any("leave the others where they are" in page for page in pages)
