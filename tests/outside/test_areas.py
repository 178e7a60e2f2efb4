# SPDX-License-Identifier: MIT
"""Area and cut length of every kind of part are what shapely says they are.

The Rust suite writes areas.json: objects with a `kind`, a `part`, its `panels` and `net_holes` as they were stated, the
`outline` and `holes` that the program made of them (lists of [x, y, bulge]), its `area` and the `length` of its cuts.
"""

import json
import os
from pathlib import Path

import shapely

import shape
from conftest import ROOT
from verdict import no_faults, not_run

#: Relative; arcs are taken as chords that stand off them by shape.CHORD.
NEAR = 1e-6
#: Panels that share an edge may leave a gap of rounding between them; this closes it, mm.
CLOSED = 1e-7


def faults(rows):
    """One line for every part whose numbers are off."""
    for row in rows:
        name = f"{row['kind']}, {row['part']}"
        flat = shape.polygon(row["outline"], row["holes"])
        if not flat.is_valid:
            yield f"{name}: its outline is not simple"
            continue
        if abs(flat.area - row["area"]) > NEAR * flat.area:
            yield f"{name}: {flat.area:.6f} mm2, the program says {row['area']:.6f}"
        if abs(flat.length - row["length"]) > NEAR * flat.length:
            yield f"{name}: {flat.length:.6f} mm of cuts, the program says {row['length']:.6f}"
        panels = shapely.union_all([shape.polygon(panel).buffer(CLOSED, join_style="mitre") for panel in row["panels"]])
        for hole in row["net_holes"]:
            panels = panels.difference(shape.polygon(hole))
        if abs(panels.area - row["area"]) > 10 * NEAR * flat.area:
            yield f"{name}: its panels cover {panels.area:.6f} mm2, the part {row['area']:.6f}"


def worth_testing(rows):
    """Many kinds, some parts with holes, some with arcs."""
    kinds = len({row["kind"] for row in rows})
    holes = sum(bool(row["holes"]) for row in rows)
    arcs = sum(any(bulge for ring in [row["outline"], *row["holes"]] for _, _, bulge in ring) for row in rows)
    for what, found, needed in (("kinds", kinds, 25), ("parts with holes", holes, 4), ("parts with arcs", arcs, 4)):
        if found < needed:
            yield f"{found} {what}, at least {needed} are needed"


def test_areas():
    file = Path(os.environ.get("HINGELEAF_OUTSIDE") or ROOT / "target" / "outside") / "areas.json"
    if not file.is_file():
        not_run(f"there is no {file}; the Rust suite writes it when HINGELEAF_OUTSIDE names its folder")
    rows = json.loads(file.read_text(encoding="utf-8"))
    no_faults(worth_testing(rows))
    no_faults(faults(rows))
