# SPDX-License-Identifier: MIT
"""Panels that are stuck on one another share what shapely says they share.

The Rust suite writes overlaps.json: objects with a panel (`one`) as it lies on another (`other`), both lists of [x, y],
the `area` that the program says they share and how far the one reaches `beyond` the other.
"""

import json
import os
from pathlib import Path

from shapely.geometry import Point, Polygon

from conftest import ROOT
from verdict import no_faults, not_run

#: Relative to the smaller of the two, and in millimetres.
NEAR = 1e-6


def faults(rows):
    """One line for every overlap that is off."""
    for row in rows:
        one, other = Polygon(row["one"]), Polygon(row["other"])
        shared = one.intersection(other).area
        if abs(shared - row["area"]) > NEAR * min(one.area, other.area):
            yield f"{row['bond']}: they share {shared:.6f} mm2, the program says {row['area']:.6f}"
        beyond = max(Point(corner).distance(other) for corner in row["one"])
        if abs(beyond - row["beyond"]) > 1e-5:
            yield f"{row['bond']}: it reaches {beyond:.6f} mm beyond, the program says {row['beyond']:.6f}"


def worth_testing(rows):
    """Whole overlaps, part ones, and none at all."""
    whole = sum(abs(row["area"] - Polygon(row["one"]).area) < 1e-6 for row in rows)
    part = sum(1 < row["area"] < Polygon(row["one"]).area - 1 for row in rows)
    for what, found, needed in (("whole overlaps", whole, 100), ("part overlaps", part, 100)):
        if found < needed:
            yield f"{found} {what}, at least {needed} are needed"


def test_overlaps():
    file = Path(os.environ.get("HINGELEAF_OUTSIDE") or ROOT / "target" / "outside") / "overlaps.json"
    if not file.is_file():
        not_run(f"there is no {file}; the Rust suite writes it when HINGELEAF_OUTSIDE names its folder")
    rows = json.loads(file.read_text(encoding="utf-8"))
    no_faults(worth_testing(rows))
    no_faults(faults(rows))
