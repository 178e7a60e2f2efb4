# SPDX-License-Identifier: MIT
"""Neighbours that touch share one cut, where nothing else is said: with neither kerf nor gap nothing is cut twice, and every outline is
still closed by the union of the strokes. The outlines are those of the same sheets cut without sharing."""

import shapely
from shapely.geometry import Polygon

from conftest import ROOT, run_kit
from read import read_dxf, read_svg
from verdict import no_faults

#: What is written has four decimals.
SAME = 1e-3


def cuts(folder):
    """The cuts of each sheet in each kind of file."""
    files = sorted((folder / "sheets").glob("*.svg")) + sorted((folder / "sheets").glob("*.dxf"))
    return {file.name: (read_svg if file.suffix == ".svg" else read_dxf)(file).on("cut") for file in files}


def snapped(lines):
    """Ends that are the same to what is written are the same."""
    return shapely.set_precision(shapely.union_all(lines), SAME)


def test_shared_by_itself(tmp_path):
    """Random enough: an album with holes, curves and slanted sides; straight neighbours abut on all of its sheets."""
    album = ROOT / "fixtures" / "tide-table.json"
    run_kit(album, tmp_path / "usual", "--formats", "svg,dxf")
    run_kit(album, tmp_path / "alone", "--formats", "svg,dxf", "--shared-cuts=false")
    usual, alone = cuts(tmp_path / "usual"), cuts(tmp_path / "alone")
    assert usual.keys() == alone.keys() and usual
    found, saved = [], 0.0
    for name, paths in usual.items():
        assert all(path.closed for path in alone[name])
        made = sum(path.line.length for path in paths)
        union = snapped([path.line for path in paths])
        if made - union.length > SAME * len(paths):
            found.append(f"{name}: {made - union.length:.3f} mm are cut twice")
        wanted = snapped([path.line for path in alone[name]])
        if union.hausdorff_distance(wanted) > 2 * SAME:
            found.append(f"{name}: the cuts are not those of the outlines")
        faces = list(shapely.polygonize([union.normalize()] if union.geom_type == "LineString" else list(union.geoms)).geoms)
        for path in alone[name]:
            ring = Polygon(path.line.coords)
            inside = shapely.union_all([face for face in faces if ring.buffer(2 * SAME).contains(face)])
            if inside.symmetric_difference(ring).area > 4 * SAME * ring.length:
                found.append(f"{name}: {path} is not closed by the strokes")
        saved += sum(path.line.length for path in alone[name]) - made
    assert saved > 100, f"only {saved} mm are shared"
    no_faults(found)
