# SPDX-License-Identifier: MIT
"""Every DXF opens cleanly elsewhere, states millimetres and holds the three layers and nothing else."""

import ezdxf
import shapely
from ezdxf import recover
from shapely.geometry import box

import shape
from read import LAYERS
from verdict import no_faults

COLOURS = {"cut": 7, "score": 30, "draw": 6}
RELEASES = {"R12": "AC1009", "R2000": "AC1015"}
ALLOWED = {"R12": {"LINE", "ARC", "POLYLINE"}, "R2000": {"LINE", "ARC", "LWPOLYLINE"}}


def faults(kit):
    stray = kit.stray_files("dxf")
    return stray or [f"{sheet.name}.dxf: {fault}" for sheet in kit.sheets for fault in in_sheet(kit, sheet)]


def in_sheet(kit, sheet):
    """The file first; what it draws is only asked once the file is sound."""
    for checks in ((audit, units, layers, entities), (contours, extents)):
        if found := [fault for check in checks for fault in check(kit, sheet)]:
            return found
    return []


def test_dxf(kit):
    no_faults(faults(kit))


def audit(_kit, sheet):
    """ezdxf finds nothing wrong and nothing to mend, read as it is or read to be rescued."""
    strict = ezdxf.readfile(sheet.dxf_file).audit()
    _, lenient = recover.readfile(sheet.dxf_file)
    for way, auditor in (("read as it is", strict), ("rescued", lenient)):
        for word, entries in (("error", auditor.errors), ("fix", auditor.fixes)):
            yield from (f"audit, {way}: {word}: {entry.message}" for entry in entries)


def tags(sheet):
    """The file's bare (group code, value) pairs: ezdxf itself adds what a file lacks."""
    rows = sheet.dxf_file.read_bytes().decode("ascii").splitlines()
    return [(int(code), value.strip()) for code, value in zip(rows[::2], rows[1::2])]


def header(sheet):
    """The header variables, each with its values by group code."""
    variables, name = {}, None
    for code, value in tags(sheet):
        if (code, value) == (0, "ENDSEC"):
            return variables
        if code == 9:
            name = value
            variables[name] = {}
        elif name:
            variables[name][code] = value
    return variables


def units(kit, sheet):
    """Millimetres where the release can say so; R12 cannot."""
    head = header(sheet)
    release = head.get("$ACADVER", {}).get(1)
    if release != RELEASES[kit.dxf_version]:
        yield f"$ACADVER is {release}, asked for was {kit.dxf_version}"
    for name, wanted in (("$INSUNITS", "4"), ("$MEASUREMENT", "1")):
        found = head.get(name, {}).get(70)
        if found != (None if kit.dxf_version == "R12" else wanted):
            yield f"{name} is {found} in a {kit.dxf_version} file"


def layers(_kit, sheet):
    """Layer 0 and our three, each in its colour, none of them switched off."""
    table, entry = {}, None
    for code, value in tags(sheet):
        if code == 0:
            entry = {} if value == "LAYER" else None
        elif entry is not None and code in (2, 62):
            entry[code] = value
            if len(entry) == 2:
                table[entry[2]] = int(entry[62])
    if set(table) != {"0", *LAYERS}:
        yield f"layers are {sorted(table)}"
    for name, colour in COLOURS.items():
        if table.get(name, colour) != colour:
            yield f"layer {name} has colour {table[name]}, not {colour}"


def entities(kit, sheet):
    """Only plain strokes, all in model space and on our layers."""
    document = ezdxf.readfile(sheet.dxf_file)
    for entity in document.modelspace():
        if entity.dxftype() not in ALLOWED[kit.dxf_version]:
            yield f"a {entity.dxftype()} in a {kit.dxf_version} file"
        if entity.dxf.layer not in LAYERS:
            yield f"a {entity.dxftype()} on layer {entity.dxf.layer}"
    for block in document.blocks:
        if len(block) and block.name.lower() not in ("*model_space", "$model_space"):
            yield f"block {block.name} holds {len(block)} entities"


def contours(_kit, sheet):
    """What is cut is closed, and no arc passes a quarter circle."""
    for path in sheet.dxf.paths:
        if path.layer == "cut" and not path.closed:
            yield f"{path} is open"
        if max(abs(bulge) for _, _, bulge in path.points) > shape.QUARTER + 1e-6:
            yield f"{path} has an arc over 90 degrees"


def extents(_kit, sheet):
    """$EXTMIN and $EXTMAX go round all that is drawn, and stay on the sheet."""
    head = header(sheet)
    low, high = head.get("$EXTMIN", {}), head.get("$EXTMAX", {})
    if not {10, 20} <= low.keys() & high.keys():
        yield "$EXTMIN or $EXTMAX is missing"
        return
    stated = [float(corner[code]) for corner in (low, high) for code in (10, 20)]
    drawn = [round(side, 4) for side in shapely.MultiLineString([path.line for path in sheet.dxf.paths]).bounds]
    if not box(*stated).buffer(1e-4).covers(box(*drawn)):
        yield f"the extents {stated} do not hold what is drawn, {drawn}"
    facts = sheet.facts
    if min(stated[:2]) < -1 or stated[2] > facts["width_mm"] + 1 or stated[3] > facts["height_mm"] + 1:
        yield f"the extents {stated} reach beyond the sheet"
