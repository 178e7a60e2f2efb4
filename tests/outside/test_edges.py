# SPDX-License-Identifier: MIT
"""Edges cut in a pattern: what is cut is what shapely makes of discs, strips and triangles, grown by half the kerf.

A scalloped edge is a strip less the discs of its tongues; a wave a strip less discs at its crests, with discs at its troughs; a
zigzag triangles; a notch half a disc. Nothing here walks along an edge as the program does.
"""

import json
import math
import random

import pytest
from conftest import run_kit
from read import Kit
from shapely import affinity
from shapely.geometry import Point, Polygon, box

import shape

#: How far a cut may be from what is worked out here, mm.
NEAR = 0.003
SIDES = ("tail", "right", "head", "left")


def disc(x, y, radius):
    return Point(x, y).buffer(radius, quad_segs=400)


def circle(chord, rise):
    """Radius of the circle of which an arc has this chord and rise."""
    return (chord * chord / 4 + rise * rise) / (2 * rise)


def taken(finish, length, size, depth):
    """What is taken off an edge that lies on the x axis from 0 on, the card above it, piece after piece."""
    if finish == "notch":
        yield disc(length / 2, depth - circle(size, depth), circle(size, depth)).intersection(box(0, 0, length, depth))
        return
    flat = 0.5 if finish == "zigzag" else 0
    count = max(1, round(length / size - flat))
    repeat = length / (count + flat)
    for index in range(count):
        start = repeat * (index + flat / 2)
        middle, end = start + repeat / 2, start + repeat
        if finish == "zigzag":
            yield Polygon([(start, 0), (middle, depth), (end, 0)])
        elif finish == "scallop":
            radius = circle(repeat, depth)
            tongues = [disc(x, radius, radius) for x in (start, end)]
            yield box(start, 0, end, depth).difference(tongues[0]).difference(tongues[1])
        else:
            radius = circle(repeat / 2, depth / 2)
            crests = [disc(x, radius, radius) for x in (start, end)]
            yield box(start, 0, end, depth / 2).difference(crests[0]).difference(crests[1])
            yield disc(middle, depth - radius, radius).intersection(box(start, depth / 2 - 1e-7, end, depth))


def placed(piece, side, width, height):
    """The same at a side of a card."""
    if side == "tail":
        return piece
    if side == "head":
        return affinity.translate(affinity.rotate(piece, 180, origin=(0, 0)), width, height)
    if side == "right":
        return affinity.translate(affinity.rotate(piece, 90, origin=(0, 0)), width, 0)
    return affinity.translate(affinity.rotate(piece, -90, origin=(0, 0)), 0, height)


def card(width, height, edges):
    """The card that is meant."""
    whole = box(0, 0, width, height)
    off = []
    for edge in edges:
        if "corners" in edge:
            size = edge["size"]
            square = box(0, 0, size, size)
            corner = square.difference(disc(size, size, size))
            if edge["corners"] == "clipped":
                corner = Polygon([(0, 0), (size, 0), (0, size)])
            middle = (width / 2, height / 2)
            for x, y in ((1, 1), (-1, 1), (1, -1), (-1, -1)):
                off.append(affinity.scale(corner, x, y, origin=middle))
            continue
        length = width if edge["on"] in ("tail", "head") else height
        pieces = taken(edge["finish"], length, edge["size"], edge["depth"])
        off.extend(placed(piece, edge["on"], width, height) for piece in pieces)
    for piece in off:
        whole = whole.difference(piece)
    # Slivers of rounding are no card.
    return max(getattr(whole, "geoms", [whole]), key=lambda one: one.area)


def drawn(draw):
    """A card and what is done to its edges, at random."""
    width, height = draw.randint(50, 100), draw.randint(60, 130)
    if draw.random() < 0.25:
        return width, height, [
            {"on": "journal-card", "corners": draw.choice(["rounded", "clipped"]), "size": draw.randint(10, 240) / 10}
        ]
    edges = []
    for side in draw.sample(SIDES, draw.randint(1, 4)):
        finish = draw.choice(["scallop", "scallop", "wave", "zigzag", "notch"])
        size = draw.randint(40, 160) / 10
        length = width if side in ("tail", "head") else height
        flat = 0.5 if finish == "zigzag" else 0
        repeat = size if finish == "notch" else length / (max(1, round(length / size - flat)) + flat)
        depth = round(repeat * draw.uniform(0.05, 0.5 if finish == "notch" else 0.39), 2)
        edges.append({"on": side, "finish": finish, "size": size, "depth": max(0.2, depth)})
    return width, height, edges


def kit(folder, cards, kerf):
    """Cuts cards and reads them back."""
    inserts = [
        {"kind": "journal-card", "width": width, "height": height, "corner": 0, "edges": edges}
        for width, height, edges in cards
    ]
    album = {
        "format": "hingeleaf-album/1",
        "stocks": {"card": {"sheet": "A2", "caliper": 0.3}},
        "page": {"width": 150, "height": 190},
        "pages": [{"kind": "pocket"}, {"kind": "pocket"}],
        "inserts": inserts,
    }
    file = folder / "album.json"
    file.write_text(json.dumps(album))
    run_kit(file, folder / "kit", "--kerf", kerf, "--gap", 1, "--margin", 3, "--formats", "svg,dxf")
    return Kit(folder / "kit", kerf=kerf, gap=1, margin=3, album=album)


def cuts(made):
    """The first cut of every part in its own frame."""
    found = {}
    for sheet in made.sheets:
        for placement in sheet.facts["placements"]:
            part = made.parts[placement["part"]]
            for path in sheet.svg.on("cut"):
                if path.part == placement["part"] and path.copy == placement["copy"] and path.part not in found:
                    found[path.part] = shape.to_part(path.area, placement, part)
    return found


def off(one, other):
    """How far the rims of two shapes are apart."""
    return one.exterior.hausdorff_distance(other.exterior)


@pytest.mark.parametrize("kerf", [0.0, 0.25])
def test_edges_are_cut_as_meant(tmp_path, kerf):
    draw = random.Random(f"edges {kerf}")
    cards = [drawn(draw) for _ in range(16)]
    made = kit(tmp_path, cards, kerf)
    found = cuts(made)
    for number, (width, height, edges) in enumerate(cards, 1):
        meant, name = card(width, height, edges), f"journal-card-{number}"
        part = made.parts.get(name)
        if part is None:
            continue
        assert abs(part["area_mm2"] - meant.area) < 0.02, (name, edges, part["area_mm2"], meant.area)
        assert found[name].is_valid
        grown = meant.buffer(kerf / 2, quad_segs=200) if kerf else meant
        assert off(found[name], grown) < NEAR, (name, edges, off(found[name], grown))
        # Cut along the tool's rim the card is what was meant, but for what a round tool leaves in corners that bend in.
        assert found[name].buffer(-kerf / 2, quad_segs=200).difference(meant).area < 0.1 * kerf * meant.length + NEAR
    assert len(found) >= 12


def test_the_check_sees_a_hundredth():
    meant = card(90, 130, [{"on": "head", "finish": "scallop", "size": 9, "depth": 3}])
    for wrong in (
        [{"on": "head", "finish": "scallop", "size": 9, "depth": 3.01}],
        [{"on": "head", "finish": "scallop", "size": 9.5, "depth": 3}],
        [{"on": "tail", "finish": "scallop", "size": 9, "depth": 3}],
        [{"on": "head", "finish": "wave", "size": 9, "depth": 3}],
    ):
        assert off(card(90, 130, wrong), meant) > NEAR, wrong
    assert math.isclose(card(90, 130, [{"on": "tail", "finish": "notch", "size": 20, "depth": 10}]).area, 11700 - 50 * math.pi, abs_tol=1e-3)
