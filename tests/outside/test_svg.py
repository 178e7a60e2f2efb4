# SPDX-License-Identifier: MIT
"""Every SVG has its true size and holds three groups of plain paths, each with its part's name."""

import math
import re
import xml.etree.ElementTree as ElementTree

import svgelements

import shape
from placed import by_name
from read import LAYERS
from verdict import no_faults

NAMESPACE = "{http://www.w3.org/2000/svg}"
COLOURS = {"cut": "#000000", "score": "#e69f00", "draw": "#cc79a7"}
FOLDS = ("valley", "mountain", "both")
WORD = re.compile(r"[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
NUMBER = re.compile(r"-?\d+(\.\d{0,3}[1-9])?")
VALUES = {"M": 2, "L": 2, "A": 7, "Z": 0}


def faults(kit):
    stray = kit.stray_files("svg")
    return stray or [f"{sheet.name}.svg: {fault}" for sheet in kit.sheets for fault in in_sheet(kit, sheet)]


def in_sheet(kit, sheet):
    """The text first; what it holds is only asked once the text is sound."""
    for checks in ((groups, elements, numbers), (size, names, contours, order)):
        if found := [fault for check in checks for fault in check(kit, sheet)]:
            return found
    return []


def test_svg(kit):
    no_faults(faults(kit))


def root(sheet):
    return ElementTree.parse(sheet.svg_file).getroot()


def plain_name(element):
    return element.tag.removeprefix(NAMESPACE)


def size(_kit, sheet):
    """Width and height are the sheet's, in mm, and one user unit is 1 mm."""
    wanted = (sheet.facts["width_mm"], sheet.facts["height_mm"])
    box = [float(number) for number in root(sheet).get("viewBox", "").replace(",", " ").split()]
    if len(box) != 4 or box[:2] != [0, 0]:
        yield f"viewBox is {box}"
        box = [0, 0, math.nan, math.nan]
    seen = (sheet.svg.width, sheet.svg.height)
    for name, found, units, millimetres in zip(("width", "height"), seen, box[2:], wanted):
        text = root(sheet).get(name, "")
        if not text.endswith("mm"):
            yield f"{name} is {text!r}, not in mm"
        elif not math.isclose(float(text[:-2]), units, rel_tol=1e-9):
            yield f"{name} is {text}, but the viewBox says {units}"
        if not math.isclose(found, millimetres, rel_tol=1e-6):
            yield f"{name} is read as {found} mm, the sheet is {millimetres} mm"


def groups(_kit, sheet):
    """`draw`, `score`, `cut`, in this order, as svgelements and a plain XML reader see them."""
    written = [child.get("id") for child in root(sheet) if plain_name(child) == "g"]
    seen = [group.id for group in svgelements.SVG.parse(str(sheet.svg_file)) if isinstance(group, svgelements.Group)]
    if not written == seen == list(LAYERS):
        yield f"the groups are {written}, read as {seen}"


def elements(_kit, sheet):
    """Paths and nothing else, without transforms and style sheets, in their layer's colour and unfilled."""
    svg = root(sheet)
    for child in svg.iter():
        if plain_name(child) not in ("svg", "g", "path", "title", "desc"):
            yield f"holds a <{plain_name(child)}>"
        for name in {"transform", "style", "class"}.intersection(child.keys()):
            yield f"<{plain_name(child)}> has {name}={child.get(name)!r}"
    for group in svg:
        for path in group if plain_name(group) == "g" else ():
            if plain_name(path) != "path":
                yield f"group {group.get('id')} holds a <{plain_name(path)}>"
            ink = {name: path.get(name) or group.get(name) or svg.get(name) for name in ("fill", "stroke")}
            if ink["fill"] != "none" or (ink["stroke"] or "").lower() != COLOURS.get(group.get("id")):
                yield f"a path of {group.get('id')} has {ink}"


def numbers(_kit, sheet):
    """Absolute M, L, A and Z; at most four decimals, no needless zeros, never -0; arcs round and short."""
    for path in root(sheet).iter(f"{NAMESPACE}path"):
        data = path.get("d", "")
        if WORD.sub("", data).strip(" ,\n"):
            yield f"cannot read d={data[:60]!r}"
        values = []
        letter = None
        for word in [*WORD.findall(data), "end"]:
            if not word[0].isalpha():
                values.append(word)
                if not NUMBER.fullmatch(word) or word == "-0":
                    yield f"the number {word}"
                continue
            if letter and (letter not in VALUES or not right_count(letter, len(values))):
                yield f"{letter} with {len(values)} values"
            elif letter == "A":
                yield from (f"arc {' '.join(arc)}" for arc in zip(*[iter(values)] * 7) if not plain_arc(arc))
            letter, values = word, []


def right_count(letter, count):
    each = VALUES[letter]
    return count == 0 if each == 0 else count > 0 and count % each == 0


def plain_arc(arc):
    """One radius, no turned axis, the short way round."""
    return arc[0] == arc[1] and arc[2] == "0" and arc[3] == "0" and arc[4] in "01"


def names(kit, sheet):
    """Every path names a part and copy that the report places here, and every one of these is cut."""
    placed, left = by_name(kit, sheet)
    yield from (f"{path} belongs to no placement of the report" for path in left)
    yield from (f"{owner} is not cut" for owner in placed.values() if owner.outer is None)
    for path in sheet.svg.paths:
        if (path.fold in FOLDS) != (path.layer == "score"):
            yield f"{path} has data-fold={path.fold!r}"


def contours(_kit, sheet):
    """What is cut is closed, and no arc passes a quarter circle by more than its last decimal."""
    for path in sheet.svg.paths:
        if path.layer == "cut" and not path.closed:
            yield f"{path} is open"
        ends = path.points[1:] + path.points[:1]
        for (x, y, bulge), end in zip(path.points, ends):
            if bulge and abs(bulge) > shape.QUARTER + 2e-4 / math.dist((x, y), end[:2]):
                yield f"{path} has an arc of {math.degrees(4 * math.atan(abs(bulge))):.3f} degrees"


def order(kit, sheet):
    """The outline of a part is its last cut: a part that is free no longer lies still."""
    place = {id(path): number for number, path in enumerate(sheet.svg.on("cut"))}
    for owner in by_name(kit, sheet)[0].values():
        if any(place[id(cut)] > place[id(owner.outer)] for cut in owner.inner):
            yield f"{owner}: a hole is cut after the outline"
