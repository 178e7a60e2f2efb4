# SPDX-License-Identifier: MIT
"""Every DXF version, SVG unit and split of layers: six readers see the same strokes at true size, as the report says.

Every version meets every unit; whole and split files take turns, so that each version and each unit has both. Two
more runs let neighbours share cuts and make scores as perforations; a few ask for other kinds of file (`FORMS`).
"""

import json
import math
import shutil
from dataclasses import dataclass

import ezdxf
import numpy as np
import pytest
import shapely
from shapely.geometry import LineString
from svgpathtools import Document

import shape
from conftest import CUTTER, ROOT, flags, run_kit
from read import LAYERS, Kit, dxf_stroke
from readers import DXF_READERS, MILLIMETRES, SVG_READERS, OnLayer, Readers, length_of
from test_dxf import RELEASES, header, tags
from verdict import no_faults

FIXTURES = ("tide-table", "pantry")
VERSIONS = {
    **RELEASES,
    **dict(zip(("R2004", "R2007", "R2010", "R2013", "R2018"), ("AC1018", "AC1021", "AC1024", "AC1027", "AC1032"))),
}
TRUE_COLOURS = {"cut": 0x000000, "score": 0xE69F00, "draw": 0xCC79A7}
#: Report and DXF are rounded to less than this, mm.
NEAR = 1e-3
#: SVG numbers have at least four decimals, in the file's unit (inches six).
DECIMAL = 1e-4


@dataclass(frozen=True)
class Asked:
    """One run of the program."""

    version: str = "R2000"
    unit: str = "mm"
    split: bool = False
    shared: bool = False
    perforated: bool = False
    #: What a cutter file asks besides.
    forms: tuple = ()

    @property
    def name(self):
        words = [word for word in ("split", "shared", "perforated") if getattr(self, word)]
        return "-".join([self.version, self.unit, *words, *(str(value) for _, value in self.forms)])

    def form(self, name, usual):
        return dict(self.forms).get(name, usual)

    @property
    def flags(self):
        cutter = {**CUTTER, "dxf_version": self.version, "svg_units": self.unit, "formats": "svg,dxf"}
        cutter |= {"gap": 0} if self.shared else {}
        cutter |= {"score": "2,1"} if self.perforated else {}
        words = {"--split-layers": self.split, "--shared-cuts": self.shared}
        return [*flags(cutter), *(word for word, wanted in words.items() if wanted)]


GRID = [
    Asked(version, unit, split=(row + column) % 2 == 1)
    for row, version in enumerate(VERSIONS)
    for column, unit in enumerate(MILLIMETRES)
]
SHARED = Asked("R2004", "in", shared=True)
PERFORATED = Asked("R12", "px90", split=True, perforated=True)
#: Kinds of file, each choice once at least; on one album.
FORMS = [
    Asked("R2000", "mm", forms=(("curves", "cubics"), ("layer_order", "cut-score-draw"))),
    Asked("R12", "in", forms=(("dxf_lines", "single"), ("dxf_layers", "names"))),
    Asked("R2018", "px96", forms=(("dxf_lines", "single"), ("curves", "cubics"), ("layer_order", "score-draw-cut"))),
    Asked("R12", "mm", forms=(("curves", "cubics"), ("curve_tolerance", 0.01), ("split_layers", True)), split=True),
]
COLOURED = Asked("R2004", "mm", forms=(("dxf_layers", "colours"), ("svg_lines", "shapes"), ("hairline", 0.2)))


@pytest.fixture(scope="module")
def readers():
    return Readers()


@pytest.fixture(scope="module")
def matrix(tables):
    """How each run went, for the table at the end."""
    went = {}
    yield went
    width = max(len(name) for name in FIXTURES)
    for fixture in FIXTURES:
        rows = [f"{fixture:{width}} {'':5} " + "".join(f"{unit:>14}" for unit in MILLIMETRES)]
        for version in VERSIONS:
            cells = [went.get((fixture, asked), "not run") for asked in GRID if asked.version == version]
            rows.append(f"{'':{width}} {version:5} " + "".join(f"{cell:>14}" for cell in cells))
        for name, asked in (("shared cuts", SHARED), ("perforated", PERFORATED)):
            rows.append(f"{'':{width}} {name}, {asked.version}, {asked.unit}: {went.get((fixture, asked), 'not run')}")
        tables["six readers and the report", fixture] = rows


def test_every_pair_is_there():
    pairs = {pair for asked in GRID for pair in ((asked.version, asked.split), (asked.unit, asked.split))}
    assert len(pairs) == 2 * (len(VERSIONS) + len(MILLIMETRES))
    assert len({(asked.version, asked.unit) for asked in GRID}) == len(VERSIONS) * len(MILLIMETRES)


def asked_kit(fixture, asked, folder):
    """A kit as it is asked for."""
    words = asked.flags
    if asked.forms:
        # `split` says what must come of `split_layers`.
        words = [word for word in words if word != "--split-layers"]
        (folder / "cutter.json").write_text(json.dumps({"format": "hingeleaf-cutter/1", **dict(asked.forms)}))
        words += ["--cutter", folder / "cutter.json"]
    run_kit(ROOT / "fixtures" / f"{fixture}.json", folder / "kit", *words)
    return Kit(folder / "kit", kerf=CUTTER["kerf"], dxf_version=asked.version)


@pytest.mark.parametrize("asked", FORMS, ids=lambda asked: asked.name)
def test_forms(asked, readers, tmp_path):
    kit = asked_kit("pantry", asked, tmp_path)
    found = [*faults(kit, asked, readers), *order(kit, asked)]
    curved = any(e.dxftype() in ("SPLINE", "ARC") for sheet in kit.sheets for e in entities(sheet, asked))
    if curved != (asked.form("curves", "arcs") == "cubics" and asked.version != "R12" or asked.form("dxf_lines", "") == "single"):
        found.append("other kinds of entity than were asked for")
    no_faults(found)


def entities(sheet, asked):
    """The entities of a sheet's whole file, or of its cuts."""
    name = f"{sheet.name}.cut.dxf" if asked.split else f"{sheet.name}.dxf"
    return ezdxf.readfile(sheet.dxf_file.with_name(name)).modelspace()


def order(kit, asked):
    """Layers stand in the order that is asked for."""
    wanted = asked.form("layer_order", "draw-score-cut").split("-")
    for sheet in kit.sheets if not asked.split else ():
        groups = [group.get("id") for group in Document(str(sheet.svg_file)).root.findall("{*}g")]
        layers = list(dict.fromkeys(e.dxf.layer for e in entities(sheet, asked)))
        if groups != wanted or layers != [layer for layer in wanted if layer in layers]:
            yield f"{sheet.name}: layers stand as {groups} and {layers}"


def test_colours_alone_and_shapes(tmp_path):
    """All on layer 0: a layer's colour is how long its strokes are; a shape holds its line's length times its width."""
    kit = asked_kit("pantry", COLOURED, tmp_path)
    found = []
    for sheet in kit.sheets:
        tool, long, colours = sheet.facts["tool"], dict.fromkeys(LAYERS, 0.0), {value: key for key, value in TRUE_COLOURS.items()}
        for entity in entities(sheet, COLOURED):
            assert entity.dxf.layer == "0"
            stroke = dxf_stroke(entity)
            long[colours[entity.dxf.true_color]] += length_of(stroke.points, stroke.closed)
        for layer in LAYERS:
            if abs(long[layer] - tool[f"{layer}_mm"]) > NEAR:
                found.append(f"{sheet.name}, {layer}: {long[layer]} mm of its colour, {tool[f'{layer}_mm']} in the report")
            rings = [path for path in sheet.svg.on(layer)]
            assert all(path.closed for path in rings)
            points = [np.array(shape.flatten(path.points, True, chord=1e-4)) for path in rings]
            area = abs(sum(float(np.sum(p[:-1, 0] * p[1:, 1] - p[1:, 0] * p[:-1, 1])) / 2 for p in points))
            # Letters are short lines: at their corners shapes overlap.
            wide = tool[f"{layer}_mm"] * 0.2
            if abs(area - wide) > (0.15 if layer == "draw" else 0.002) * wide + 0.01:
                found.append(f"{sheet.name}, {layer}: shapes hold {area} mm², lines and width make {wide}")
    no_faults(found)


@pytest.mark.parametrize("asked", [*GRID, SHARED, PERFORATED], ids=lambda asked: asked.name)
@pytest.mark.parametrize("fixture", FIXTURES)
def test_matrix(fixture, asked, readers, matrix, tmp_path):
    run_kit(ROOT / "fixtures" / f"{fixture}.json", tmp_path / "kit", *asked.flags)
    kit = Kit(tmp_path / "kit", kerf=CUTTER["kerf"], dxf_version=asked.version)
    found = [*faults(kit, asked, readers), *idle(kit, asked)]
    matrix[fixture, asked] = f"{'split' if asked.split else 'whole'} " + (f"{len(found)} off" if found else "agree")
    no_faults(found)


def faults(kit, asked, readers):
    """In what the readers, or a reader and the report, do not agree."""
    files = sorted((kit.folder / "sheets").iterdir())
    wanted = [
        f"{sheet.name}{part}.{kind}"
        for sheet in kit.sheets
        for part in ([f".{layer}" for layer in LAYERS] if asked.split else [""])
        for kind in ("svg", "dxf")
    ]
    if sorted(wanted) != [file.name for file in files]:
        return [f"the files are {[file.name for file in files]}"]
    seen = {file.name: views for file, views in readers.read(files, asked.unit).items()}
    found = [fault for file in files if file.suffix == ".dxf" for fault in sound(file, asked)]
    for sheet in kit.sheets:
        views = {}
        for kind, names in (("dxf", DXF_READERS), ("svg", SVG_READERS)):
            for name in names:
                if asked.split:
                    parts = {layer: seen[f"{sheet.name}.{layer}.{kind}"][name] for layer in LAYERS}
                    found += [f"{sheet.name}, {name}: {fault}" for fault in strays(parts)]
                    views[name] = {layer: parts[layer].on(layer) for layer in LAYERS}
                    sizes = [part.size for part in parts.values()]
                else:
                    whole = seen[f"{sheet.name}.{kind}"][name]
                    views[name], sizes = whole.layers, [whole.size]
                if kind == "svg":
                    found += [f"{sheet.name}, {name}: {fault}" for fault in size(sizes, sheet.facts, asked.unit)]
        found += [f"{sheet.name}, {fault}" for fault in agreement(kit, sheet.facts, views, asked)]
    return found


def idle(kit, asked):
    """Shared cuts, where they are asked for, are made."""
    if asked.shared and all(path.closed for sheet in kit.sheets for path in sheet.dxf.on("cut")):
        yield "no neighbours share a cut"


def strays(parts):
    """A file of one layer holds nothing of another."""
    for layer, seen in parts.items():
        for other, on in seen.layers.items():
            if other != layer and on.strokes:
                yield f"the file of {layer} holds {on.strokes} strokes of {other}"


def size(sizes, facts, unit):
    """The SVG is as large as the sheet."""
    wanted = (facts["width_mm"], facts["height_mm"])
    for found in sizes:
        if not all(abs(a - b) <= DECIMAL * MILLIMETRES[unit] for a, b in zip(found, wanted)):
            yield f"the file is {found} mm, the sheet {wanted}"


def agreement(kit, facts, views, asked):
    """Layer by layer, each reader against the report; what the report does not tell, against ezdxf."""
    first = views["ezdxf"]
    single = asked.form("dxf_lines", "polylines") == "single"
    # Lines and arcs by themselves are as many as the edges that the SVG has; what closes does so with an edge of its own.
    total = sum(on.strokes for on in first.values())
    if single:
        wanted = sum(on.edges for on in views["svgelements"].values())
        if asked.form("curves", "arcs") != "cubics" and total != wanted:
            yield f"{total} lines and arcs, {wanted} edges in the SVG"
    elif total != facts["tool"]["lifts"]:
        yield f"{total} strokes, but the tool lifts {facts['tool']['lifts']} times in the report"
    scores = sum(len(kit.parts[spot["part"]]["scores"]) for spot in facts["placements"])
    found = first["score"].strokes
    if (found <= scores if asked.perforated and scores else found != scores):
        yield f"{found} strokes of scores, {scores} scores in the report"
    told = boxes(kit, facts)
    for name, layers in views.items():
        if extra := set(layers) - set(LAYERS):
            yield f"{name}: layers {sorted(extra)}"
        for layer in LAYERS:
            on = layers.get(layer, OnLayer())
            yield from (f"{name}, {layer}: {fault}" for fault in off(name, on, first[layer], layer, facts, asked))
            box = first[layer].box if layer == "draw" or (layer == "score" and asked.perforated) else told[layer]
            near = NEAR + (DECIMAL * MILLIMETRES[asked.unit] if name in SVG_READERS else 0.0)
            if (on.box is None) != (box is None) or (box and max(abs(a - b) for a, b in zip(on.box, box)) > near):
                yield f"{name}, {layer}: the extents are {on.box}, should be {box}"


def off(name, on, first, layer, facts, asked):
    """Number of strokes and length of one layer."""
    single = asked.form("dxf_lines", "polylines") == "single"
    if on.strokes != first.strokes and not (single and name in SVG_READERS):
        yield f"{on.strokes} strokes, ezdxf has {first.strokes}"
    told = facts["tool"][f"{layer}_mm"]
    near = NEAR
    if name == "GDAL" or asked.form("curves", "arcs") == "cubics":
        near += told / 1000
    if name in SVG_READERS:
        # At worst every end of an edge is rounded away from the other; in many small marks, some one way, some another.
        most = 2 * first.edges
        near += DECIMAL * MILLIMETRES[asked.unit] * (min(most, 5 * math.sqrt(most)) if layer == "draw" else most)
    if abs(on.length - told) > near:
        yield f"{on.length:.4f} mm, {told} in the report"


def boxes(kit, facts):
    """What the cuts and the scores of a sheet must fill, from where the report places its parts."""
    half = kit.kerf / 2
    cuts, scores = [], []
    for spot in facts["placements"]:
        part = kit.parts[spot["part"]]
        left, bottom, right, top = shape.box_on_sheet(spot, part)
        cuts.append((left - half, bottom - half, right + half, top + half))
        for score in part["scores"]:
            scores.append(shape.to_sheet(LineString([score["from_mm"], score["to_mm"]]), spot, part).bounds)
    return {"cut": round_all(cuts), "score": round_all(scores)}


def round_all(boxes_):
    """The box round several boxes; none round none."""
    return shapely.union_all([shapely.box(*box) for box in boxes_]).bounds if boxes_ else None


AUDITED = {}


def sound(file, asked):
    """ezdxf has nothing to mend; the version is the one asked for; true colours from R2004 on. Equal files once."""
    text = file.read_bytes()
    if (asked.version, text) not in AUDITED:
        AUDITED[asked.version, text] = [f"{file.name}: {fault}" for fault in in_file(file, asked)]
    return AUDITED[asked.version, text]


@dataclass
class Text:
    """A DXF as test_dxf reads its tags."""

    dxf_file: object


def in_file(file, asked):
    auditor = ezdxf.readfile(file).audit()
    for word, entries in (("error", auditor.errors), ("fix", auditor.fixes)):
        yield from (f"audit: {word}: {entry.message}" for entry in entries)
    head = header(Text(file))
    release = head.get("$ACADVER", {}).get(1)
    if release != VERSIONS[asked.version]:
        yield f"$ACADVER is {release}, asked for was {asked.version}"
    unit = None if asked.version == "R12" else "4"
    if head.get("$INSUNITS", {}).get(70) != unit:
        yield f"$INSUNITS is {head.get('$INSUNITS')}"
    plain = asked.version in ("R12", "R2000") or asked.form("dxf_layers", "") == "names"
    wanted = {} if plain else TRUE_COLOURS
    found = true_colours(file)
    if found != wanted:
        yield f"true colours are {found}, should be {wanted}"


def true_colours(file):
    """Group 420 of each layer of ours that has one."""
    colours, entry = {}, None
    for code, value in tags(Text(file)):
        if code == 0:
            entry = {} if value == "LAYER" else None
        elif entry is not None:
            entry[code] = value
            if code == 420:
                colours[entry.get(2)] = int(value)
    return {name: colour for name, colour in colours.items() if name in LAYERS}


# What the checks find in a folder that is not right.


def in_text(name, old, new):
    """Changes the first place of a text in a file."""

    def spoil(kit):
        file = kit.folder / "sheets" / name
        text = file.read_bytes()
        assert old in text, f"{old} is not in {name}"
        file.write_bytes(text.replace(old, new, 1))

    return spoil


def in_tool(name, more):
    def spoil(kit):
        kit.report["sheets"][0]["tool"][name] += more

    return spoil


def without_a_cut(kit):
    file = kit.folder / "sheets" / "card-01.dxf"
    document = ezdxf.readfile(file)
    space = document.modelspace()
    space.delete_entity(next(entity for entity in space if entity.dxf.layer == "cut"))
    document.saveas(file)


def a_part_elsewhere(kit):
    kit.report["sheets"][0]["placements"][0]["x_mm"] -= 0.01


def in_another_place(kit):
    (kit.folder / "sheets" / "card-01.svg").rename(kit.folder / "sheets" / "card-1.svg")


GOOD = Asked("R2004", "mm")
SPOILS = {
    "a size in pixels": (in_text("card-01.svg", b'width="210mm"', b'width="210"'), GOOD, "the file is"),
    "another size": (in_text("card-01.svg", b'"0 0 210 ', b'"0 0 211 '), GOOD, "the file is"),
    "a score on the cut layer": (in_text("card-01.dxf", b"8\r\nscore\r\n", b"8\r\ncut\r\n"), GOOD, "ezdxf has"),
    "a cut missing from the DXF": (without_a_cut, GOOD, "strokes, but the tool lifts"),
    "a group that is none of ours": (in_text("card-01.svg", b'id="draw"', b'id="marks"'), GOOD, "layers ['marks']"),
    "a cut length": (in_tool("cut_mm", 0.05), GOOD, "mm, "),
    "a score length": (in_tool("score_mm", -0.05), GOOD, "mm, "),
    "a draw length": (in_tool("draw_mm", 0.05), GOOD, "mm, "),
    "a lift too many": (in_tool("lifts", 1), GOOD, "the tool lifts"),
    "a part elsewhere": (a_part_elsewhere, GOOD, "the extents are"),
    "a file under another name": (in_another_place, GOOD, "the files are"),
    "another unit": (lambda _: None, Asked("R2004", "in"), "the file is"),
    "another version": (lambda _: None, Asked("R2007", "mm"), "$ACADVER is AC1018"),
    "no true colours wanted": (lambda _: None, Asked("R2000", "mm"), "true colours are"),
    "files that should be split": (lambda _: None, Asked("R2004", "mm", split=True), "the files are"),
}


@pytest.fixture(scope="module")
def good(tmp_path_factory):
    folder = tmp_path_factory.mktemp("matrix") / "kit"
    run_kit(ROOT / "fixtures" / "tide-table.json", folder, *GOOD.flags)
    return folder


@pytest.mark.parametrize("name", [None, *SPOILS], ids=lambda name: name or "nothing")
def test_a_fault_is_found(good, readers, tmp_path, name):
    spoil, asked, words = SPOILS.get(name, (lambda _: None, GOOD, None))
    shutil.copytree(good, tmp_path / "kit")
    kit = Kit(tmp_path / "kit", kerf=CUTTER["kerf"])
    spoil(kit)
    found = faults(kit, asked, readers)
    assert any(words in fault for fault in found) if words else not found, found
