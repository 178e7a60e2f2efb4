# SPDX-License-Identifier: MIT
"""Words that a machine draws, as other people's readers see them: single strokes on the layer `draw`, inside the outline of the part that
the file says they belong to, off its scores and cuts by the pen's width; on the back, once the sheet is turned over."""

import json

import pytest
from shapely import affinity
from shapely.geometry import Polygon

from conftest import run_kit
from read import read_dxf, read_svg
from verdict import no_faults

KERF, PEN = 0.1, 0.6
#: What is written has four decimals; arcs are flattened.
SAME = 2e-3
ALBUM = {
    "format": "hingeleaf-album/1",
    "title": "Żółta Größe à ñ",
    "stocks": {"card": {"sheet": "A4", "caliper": 0.3}, "paper": {"sheet": "A4", "caliper": 0.2}},
    "page": {"width": 120, "height": 140, "seam": 14, "stock": "card"},
    "pages": [{"kind": "pocket"}, {"kind": "wallet", "pocket": 80, "overflap": 40}, {"kind": "gate-fold"}],
    "panels": {"reveal": 3, "stock": "paper"},
    "inserts": [{"kind": "tag", "width": 70, "height": 100, "hole": 5, "corner": 8}],
}


def faults(front, drawn, width, turned):
    """What is wrong with the words of a sheet; `turned` says that they stand in a file of its back."""
    if odd := {path.layer for path in drawn.paths} - ({"draw"} if turned else {"draw", "score", "cut"}):
        yield f"layers {odd}"
    for path in drawn.on("draw"):
        line = affinity.scale(path.line, -1, 1, origin=(width / 2, 0)) if turned else path.line
        if path.closed or len(path.points) < 2:
            yield f"{path} is no open stroke"
        mine = [cut for cut in front.on("cut") if (cut.part, cut.copy) == (path.part, path.copy)]
        outer = max((Polygon(cut.line.coords) for cut in mine), key=lambda one: one.area)
        holes = [cut.line for cut in mine if Polygon(cut.line.coords).area < outer.area - 1]
        if not outer.buffer(-KERF / 2 - PEN + SAME).contains(line) or any(hole.distance(line) < PEN + KERF / 2 - SAME for hole in holes):
            yield f"{path} is not in its part, clear of its cuts"
        scores = [score for score in front.on("score") if (score.part, score.copy) == (path.part, path.copy)]
        if any(score.line.distance(line) < PEN - SAME for score in scores):
            yield f"{path} comes nearer to a score than the pen is wide"


@pytest.mark.parametrize("side", ["front", "back"])
def test_words(tmp_path, side):
    (tmp_path / "album.json").write_text(json.dumps(ALBUM), encoding="utf-8")
    cutter = {"format": "hingeleaf-cutter/1", "kerf": KERF, "gap": 1, "margin": 3, "text": "titles-names-and-sizes", "text_side": side, "pen": PEN}
    (tmp_path / "cutter.json").write_text(json.dumps(cutter))
    # On the front what stands there besides, such as lines to lay other parts by, may come nearer: words alone are looked at.
    words = ["--cutter", tmp_path / "cutter.json", "--formats", "svg,dxf", "--effort", "low", "--labels", "everywhere"]
    run_kit(tmp_path / "album.json", tmp_path / "kit", *words)
    (tmp_path / "cutter.json").write_text(json.dumps({**cutter, "text": "nothing"}))
    run_kit(tmp_path / "album.json", tmp_path / "bare", *words)
    found, seen = [], 0
    for file in sorted((tmp_path / "kit" / "sheets").glob("*.svg")):
        if file.stem.endswith(".back"):
            continue
        front, bare = read_svg(file), read_svg(tmp_path / "bare" / "sheets" / file.name)
        drawn = read_svg(file.with_name(f"{file.stem}.back.svg")) if side == "back" else front
        named = file.stem + (".back" if side == "back" else "")
        in_dxf = read_dxf(file.with_name(f"{named}.dxf")).on("draw")
        lines = drawn.on("draw")
        if len(in_dxf) != len(lines) or any(a.line.hausdorff_distance(b.line) > SAME for a, b in zip(in_dxf, lines)):
            found.append(f"{named}: SVG and DXF draw other words")
        if side == "front":
            besides = {path.line.normalize().wkt for path in bare.on("draw")}
            drawn.paths = [path for path in drawn.paths if path.layer != "draw" or path.line.normalize().wkt not in besides]
        found += [f"{named}: {fault}" for fault in faults(front, drawn, front.width, side == "back")]
        seen += len(drawn.on("draw"))
    assert seen > 200, f"only {seen} strokes"
    no_faults(found)
