# SPDX-License-Identifier: MIT
"""A part keeps its hand: every placement is the same part, turned as the report says and never mirrored."""

import warnings

import shapely

import shape
from conftest import ALBUMS
from placed import by_name, by_place
from verdict import no_faults

NEAR = 0.005


def faults(kit, model_kit=None):
    """Holds every placement, in the part's own frame, against the same part of `model_kit` (or of the kit itself)."""
    models = looks(model_kit or kit, by_name)
    return [
        f"{name} in the {kind}: {fault}"
        for kind, find in (("SVG", by_name), ("DXF", by_place))
        for part, seen in looks(kit, find).items()
        for name, look in seen
        for fault in unlike(look, models[part][0][1])
    ]


def test_handedness(kit, plain):
    no_faults(faults(kit, plain))


def test_a_mirror_would_show(kits):
    """Only a note: where every part is its own mirror image, the fixtures cannot show a lost hand."""
    for album in ALBUMS:
        kit = kits.get(album, "plain")
        if any(has_a_hand(seen[0][1], kit.parts[part]) for part, seen in looks(kit, by_name).items()):
            return
    warnings.warn("no part of any album in fixtures/ would show that it was mirrored", stacklevel=1)


def looks(kit, find):
    """Per part, its placements brought back to the part's own frame: name, edges and scores. Unturned ones first."""
    found = {}
    for sheet in kit.sheets:
        for owner in find(kit, sheet)[0].values():
            if owner.outer is None:
                continue
            edges = owner.nominal.boundary
            scores = shapely.MultiLineString([path.line for path in owner.scores])
            look = {
                "outline": shape.to_part(edges, owner.placement, owner.part),
                "scores": shape.to_part(scores, owner.placement, owner.part),
            }
            turn = owner.placement["turn_deg"]
            found.setdefault(owner.part["id"], []).append((turn, f"{sheet.name}, {owner} turned {turn}", look))
    return {
        part: [(name, look) for _, name, look in sorted(seen, key=lambda entry: entry[0])]
        for part, seen in found.items()
    }


def unlike(look, model):
    """In what a placement differs from its model."""
    for what, geometry in look.items():
        off = shape.apart(geometry, model[what])
        if off > NEAR:
            yield f"the {what} is {off:.4f} mm off its model, turned back"


def has_a_hand(look, part):
    """Whether no turn brings the part's mirror image onto the part."""
    width, height = part["width_mm"], part["height_mm"]
    mirrored = {what: shapely.transform(line, lambda rows: rows * [-1, 1] + [width, 0]) for what, line in look.items()}
    for turn in (0, 90, 180, 270):
        if turn in (90, 270) and abs(width - height) > NEAR:
            continue
        spot = {"turn_deg": turn, "x_mm": 0.0, "y_mm": 0.0}
        turned = {what: shape.to_sheet(line, spot, part) for what, line in mirrored.items()}
        if not list(unlike(turned, look)):
            return False
    return True
