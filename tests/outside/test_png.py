# SPDX-License-Identifier: MIT
"""Every PNG shows its sheet edge to edge: outlines dark in grey, holes through to the table, words in the parts."""

import dataclasses
import itertools
import shutil

import numpy as np
import pytest
from PIL import Image
from shapely import Polygon

import shape
from conftest import ROOT
from placed import by_name
from verdict import no_faults

#: Ink is darker than this in grey; card, paper and hatching are lighter.
DARK = 110
#: A panel with this much room both ways has words in it, mm.
ROOM = (40.0, 15.0)
#: How far from an outline, a score or a hole nothing but words is dark, mm.
CLEAR = 1.0
#: A hole no wider than this is a slit: half of each line, 0.35 mm wide, and a pixel at its middle fill it, mm.
SLIT = 0.6
#: The least area of ink that words leave, mm2: a few letters of the smallest size.
WORDS = 2.0


class View:
    """A sheet's picture in grey, asked in millimetres, y up."""

    def __init__(self, file, facts):
        with Image.open(file) as picture:
            picture.load()
            self.mode, self.dpi = picture.mode, picture.info.get("dpi")
            self.pixels = np.asarray(picture.convert("L"))
        self.rows, self.columns = self.pixels.shape
        self.width, self.height = facts["width_mm"], facts["height_mm"]

    def at(self, places, reach=1):
        """The darkest pixel within `reach` pixels of each place, and the lightest."""
        column = np.clip((places[:, 0] / self.width * self.columns).astype(int), 0, self.columns - 1)
        row = np.clip(((1 - places[:, 1] / self.height) * self.rows).astype(int), 0, self.rows - 1)
        near = []
        for down, across in itertools.product(range(-reach, reach + 1), repeat=2):
            rows, columns = np.clip(row + down, 0, self.rows - 1), np.clip(column + across, 0, self.columns - 1)
            near.append(self.pixels[rows, columns])
        return np.min(near, axis=0), np.max(near, axis=0)

    def box(self, left, bottom, right, top):
        """Where the pixels of a box are."""
        across, down = self.columns / self.width, self.rows / self.height
        rows = slice(max(0, round((self.height - top) * down)), max(0, round((self.height - bottom) * down)))
        return rows, slice(max(0, round(left * across)), max(0, round(right * across)))


def faults(kit):
    stray = kit.stray_files("png")
    return stray or [f"{sheet.name}.png: {fault}" for sheet in kit.sheets for fault in in_sheet(kit, sheet)]


def in_sheet(kit, sheet):
    view = View(sheet.svg_file.with_suffix(".png"), sheet.facts)
    if found := [*aspect(view), *blank(view)]:
        return found
    owners = list(by_name(kit, sheet)[0].values())
    return [*outlines(view, owners), *holes(view, owners), *words(view, owners)]


@pytest.mark.parametrize("setting", ["R2000", "plain"])
def test_png(kit):
    no_faults(faults(kit))


def aspect(view):
    """The picture has the sheet's sides, to the pixel, and says how large it is meant to be."""
    if abs(view.columns - view.width / view.height * view.rows) > 1:
        if abs(view.rows - view.height / view.width * view.columns) > 1:
            yield f"{view.columns} x {view.rows} pixels for {view.width} x {view.height} mm"
    if min(view.columns, view.rows) < 300:
        yield f"only {view.columns} x {view.rows} pixels"
    for dpi, pixels, side in zip(view.dpi or (), (view.columns, view.rows), (view.width, view.height)):
        if abs(pixels / dpi * 25.4 - side) > 0.005 * side:
            yield f"{pixels} pixels at {dpi} to an inch for {side} mm"


def blank(view):
    """There are light and dark pixels."""
    if view.pixels.min() >= DARK or view.pixels.max() < 200:
        yield f"it is blank: grey from {view.pixels.min()} to {view.pixels.max()}"


def outlines(view, owners):
    """All along what is cut there is ink."""
    for owner in owners:
        for contour in [owner.nominal.exterior, *owner.nominal.interiors]:
            count = max(20, int(contour.length / 2))
            places = np.array([contour.interpolate(n / count, normalized=True).coords[0] for n in range(count)])
            pale = places[view.at(places)[0] >= DARK]
            if len(pale):
                yield f"{owner}: {len(pale)} of {count} places of an outline are pale, the first at {pale[0].round(1)}"


def holes(view, owners):
    """A hole is as light as the table. Of a slit the two lines of its outline leave nothing; that they are there is seen above."""
    for owner in owners:
        for hole in owner.nominal.interiors:
            if Polygon(hole).buffer(-SLIT / 2).is_empty:
                continue
            middle = np.array([hole.centroid.coords[0]])
            if any(other is not owner and other.nominal.covers(hole.centroid) for other in owners):
                continue  # another part lies in it
            if view.at(middle, reach=0)[0][0] < 250:
                yield f"{owner}: a hole is filled"


def words(view, owners):
    """A part with a roomy panel has ink in a panel, away from every line."""
    for owner in owners:
        panels = list(between_scores(owner))
        roomy = [panel for panel in panels if has_room(panel)]
        inks = [ink(view, owner, panel) for panel in panels]
        if roomy and max(inks) < WORDS:
            yield f"{owner}: no words in it"


def between_scores(owner):
    """The boxes into which the scores divide the part's box; hinge strips and pages have them all one way."""
    left, bottom, right, top = shape.box_on_sheet(owner.placement, owner.part)
    xs, ys = {left, right}, {bottom, top}
    for score in owner.scores:
        (x, y, _), (end_x, end_y, _) = score.points
        (xs if abs(x - end_x) < abs(y - end_y) else ys).add(x if abs(x - end_x) < abs(y - end_y) else y)
    for (x, end_x), (y, end_y) in itertools.product(itertools.pairwise(sorted(xs)), itertools.pairwise(sorted(ys))):
        yield (x + CLEAR, y + CLEAR, end_x - CLEAR, end_y - CLEAR)


def has_room(panel):
    width, height = panel[2] - panel[0], panel[3] - panel[1]
    return max(width, height) >= ROOM[0] and min(width, height) >= ROOM[1]


def ink(view, owner, panel):
    """The dark area in a panel, in mm2, without what belongs to its holes."""
    dark = view.pixels < DARK
    for hole in owner.nominal.interiors:
        dark[view.box(*hole.buffer(CLEAR).bounds)] = False
    return np.count_nonzero(dark[view.box(*panel)]) * view.width * view.height / view.pixels.size


# What the checks find in pictures that are not right.


def without_words(picture, kit, sheet):
    """Every panel painted over, its lines left."""
    pixels = np.array(picture)
    view = View(sheet.svg_file.with_suffix(".png"), sheet.facts)
    for owner in by_name(kit, sheet)[0].values():
        for panel in between_scores(owner):
            pixels[view.box(*panel)] = (237, 230, 218)
    return Image.fromarray(pixels)


SPOILS = {
    "cropped": (lambda picture, *_: picture.crop((0, 0, picture.width, picture.height - 5)), "pixels for"),
    "white": (lambda picture, *_: Image.new("RGB", picture.size, "white"), "blank"),
    "turned over": (lambda picture, *_: picture.transpose(Image.Transpose.FLIP_TOP_BOTTOM), "are pale"),
    "pale": (lambda picture, *_: picture.point(lambda value: 128 + value // 2), "blank"),
    "without words": (without_words, "no words"),
    "holes filled": (without_words, "a hole is filled"),
}


@pytest.mark.parametrize("name", SPOILS)
def test_a_fault_is_found(kits, tmp_path, name):
    spoil, words_ = SPOILS[name]
    good = kits.get(ROOT / "fixtures" / "tide-table.json", "R2000")
    folder = tmp_path / "kit"
    shutil.copytree(good.folder, folder)
    kit = dataclasses.replace(good, folder=folder)
    for sheet in kit.sheets:
        file = sheet.svg_file.with_suffix(".png")
        with Image.open(file) as picture:
            changed = spoil(picture.convert("RGB"), kit, sheet)
        changed.save(file)
    found = faults(kit)
    assert any(words_ in fault for fault in found), found
