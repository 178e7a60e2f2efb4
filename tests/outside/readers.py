# SPDX-License-Identifier: MIT
"""The same sheet through six readers that know nothing of each other, each asked what lies on every layer.

DXF: ezdxf, GDAL (through pyogrio) and dxf-parser. SVG: svgelements, svgpathtools, and saxes with svg-path-commander.
dxf-parser, saxes and svg-path-commander run on node, see readers.mjs.
"""

import hashlib
import json
import math
import os
import re
import shutil
import subprocess
from dataclasses import dataclass, field
from pathlib import Path as File

import ezdxf
import numpy as np
import pyogrio
import shapely
import svgelements
from svgpathtools import Document

import shape
from read import LAYERS, contour, dxf_stroke, read_svg
from verdict import not_run

ROOT = File(__file__).resolve().parents[2]
MODULES = File(os.environ.get("HINGELEAF_NODE") or ROOT / "target" / "outside-node").absolute()
#: Millimetres in one user unit of an SVG, by the name of its unit.
MILLIMETRES = {"mm": 1.0, "in": 25.4, "px72": 25.4 / 72, "px90": 25.4 / 90, "px96": 25.4 / 96}


@dataclass
class OnLayer:
    """What a reader finds on one layer: strokes, edges where it tells them, mm drawn, and the box in mm, y up."""

    strokes: int = 0
    edges: int = 0
    length: float = 0.0
    boxes: list = field(default_factory=list)

    def add(self, length, box, strokes=1, edges=0):
        self.strokes += strokes
        self.edges += edges
        self.length += length
        self.boxes.append(box)

    @property
    def box(self):
        """Left, bottom, right, top of all strokes together; none where there are none."""
        boxes = np.array(self.boxes)
        return (*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0)) if self.boxes else None


@dataclass
class Seen:
    """What a reader finds in one file; only an SVG tells the sheet's size in mm."""

    layers: dict = field(default_factory=lambda: {layer: OnLayer() for layer in LAYERS})
    size: tuple | None = None

    def on(self, layer):
        return self.layers.setdefault(layer, OnLayer())


def length_of(points, closed):
    """How long a contour of (x, y, bulge) is, arcs exact."""
    total = 0.0
    for (x, y, bulge), end in zip(points, points[1:] + (points[:1] if closed else [])):
        chord = math.dist((x, y), end[:2])
        angle = 4 * math.atan(abs(bulge))
        total += chord * angle / (2 * math.sin(angle / 2)) if bulge else chord
    return total


def measured(paths, scale=1.0):
    """Adds up strokes in the common form of read.py."""
    seen = Seen()
    for path in paths:
        line = shape.flatten(path.points, path.closed, chord=1e-4) * scale
        edges = len(path.points) - (0 if path.closed else 1)
        box = (*line.min(axis=0), *line.max(axis=0))
        seen.on(path.layer).add(scale * length_of(path.points, path.closed), box, edges=edges)
    return seen


def by_ezdxf(file):
    return measured([dxf_stroke(entity) for entity in ezdxf.readfile(file).modelspace()])


def by_gdal(file):
    """GDAL turns arcs into short straight lines."""
    found, _, shapes, (layers,) = pyogrio.raw.read(file, columns=["Layer"])
    seen = Seen()
    for line, layer in zip(shapely.from_wkb(shapes), layers):
        seen.on(layer).add(line.length, line.bounds)
    return seen


def by_dxf_parser(_file, told):
    entities = told["entities"]
    return measured([contour(e["layer"], [tuple(p) for p in e["points"]], e["closed"]) for e in entities])


def by_svgelements(file, unit):
    """svgelements turns every unit into pixels and takes one for 1/96 in; its millimetre is 5e-7 off that."""
    drawing = read_svg(file)
    pixels = svgelements.Length("1mm").value(ppi=96)
    scale = 1.0 if unit == "mm" else pixels * MILLIMETRES[unit if unit.startswith("px") else "px96"]
    seen = measured(drawing.paths, scale)
    seen.size = (drawing.width * scale, drawing.height * scale)
    return seen


def by_svgpathtools(file, unit):
    """svgpathtools measures in user units, y down."""
    document = Document(str(file))
    seen = Seen()
    seen.size, place = in_user_units(document.root.attrib, unit)
    for layer in [group.get("id") for group in document.root.findall("{http://www.w3.org/2000/svg}g")]:
        for path in document.paths_from_group([layer]):
            left, right, top, bottom = path.bbox()
            strokes = len(path.continuous_subpaths())
            seen.on(layer).add(path.length() * MILLIMETRES[unit], place(left, top, right, bottom), strokes, len(path))
    return seen


def by_path_commander(_file, unit, told):
    """saxes and svg-path-commander, in user units, y down."""
    seen = Seen()
    seen.size, place = in_user_units(told["root"], unit)
    for layer, paths in told["groups"].items():
        for path in paths:
            seen.on(layer).add(path["length"] * MILLIMETRES[unit], place(*path["box"]), path["strokes"])
    return seen


def in_user_units(root, unit):
    """The size that the root states, in mm; and what brings a box in user units to mm, y up.

    The size is not a number where root and viewBox do not say the same, or not in the unit.
    """
    suffix = "" if unit.startswith("px") else unit
    box = [float(number) for number in root["viewBox"].split()]
    wanted = [re.fullmatch(rf"([\d.]+){suffix}", root[name]) for name in ("width", "height")]
    size = [float(found[1]) if found else math.nan for found in wanted]
    if box != [0, 0, *size]:
        size = [math.nan, math.nan]
    scale = MILLIMETRES[unit]

    def place(left, top, right, bottom):
        return (left * scale, (box[3] - bottom) * scale, right * scale, (box[3] - top) * scale)

    return tuple(side * scale for side in size), place


DXF_READERS = {"ezdxf": by_ezdxf, "GDAL": by_gdal, "dxf-parser": by_dxf_parser}
SVG_READERS = {"svgelements": by_svgelements, "svgpathtools": by_svgpathtools, "svg-path-commander": by_path_commander}
ON_NODE = (by_dxf_parser, by_path_commander)


class Readers:
    """Reads files through every reader that there is for their kind; equal bytes are read once."""

    def __init__(self):
        self.seen = {}

    def read(self, files, unit="mm"):
        """For each file what each reader saw, by the reader's name."""
        keys = {file: self.key(file, unit) for file in files}
        new = {key: file for file, key in keys.items() if key not in self.seen}
        told = on_node(list(new.values()))
        for key, file in new.items():
            readers, about = (DXF_READERS, ()) if file.suffix == ".dxf" else (SVG_READERS, (unit,))
            self.seen[key] = {
                name: reader(file, *about, *([told[str(file)]] if reader in ON_NODE else []))
                for name, reader in readers.items()
            }
        return {file: self.seen[key] for file, key in keys.items()}

    @staticmethod
    def key(file, unit):
        return file.suffix, unit if file.suffix == ".svg" else None, hashlib.sha256(file.read_bytes()).digest()


def on_node(files):
    """What the readers on node tell of each file."""
    node = shutil.which("node")
    if not files:
        return {}
    if node is None or not (MODULES / "node_modules").is_dir():
        not_run(f"the readers on node are not in {MODULES}; tests/run installs them")
    command = [node, str(File(__file__).with_name("readers.mjs")), str(MODULES)]
    asked = json.dumps([str(file) for file in files])
    done = subprocess.run(command, input=asked, capture_output=True, text=True, encoding="utf-8", timeout=120)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
