# SPDX-License-Identifier: MIT
"""The hunt itself, tried on albums of which everything is known: it has nothing to say of a program that is right, and says
so of each fault that is planted in what the program said or cut.

A fault is a finding left out or put in, a program that takes the album for another, or a piece that is cut otherwise.
"""

import copy

import pytest
from shapely import affinity
from shapely.geometry import box

from conftest import PROGRAM
from hunt import Hunt
from hunt_pieces import Flat
from verdict import not_run

LARGE = {"sheet": "700x1000mm"}
#: A page of 150 x 190, pockets between a seam of 12 at head and tail, tabs of 12.
SOUND = {
    "format": "hingeleaf-album/1",
    "units": "mm",
    "stocks": {
        "card": {**LARGE, "caliper": 0.3}, "paper": {**LARGE, "caliper": 0.2},
        "strong": {**LARGE, "caliper": 0.4}, "board": {**LARGE, "caliper": 2.0},
    },
    "page": {"width": 150, "height": 190, "seam": 12, "stock": "card"},
    "pages": [{"kind": "pocket"}, {"kind": "pocket"}, {"kind": "pocket"}, {"kind": "pocket"}],
    "spine": {"kind": "flexi-hinge", "tab": 12, "gusset": 6, "pitch": 6, "lead_in": 6},
}
MACHINE = {"margin": 0, "kerf": 0, "gap": 1}


def with_card(thickness, page, **size):
    """The sound album with a page and a card in it."""
    card = {"kind": "journal-card", "count": 1, "thickness": thickness, "pages": [1], **size}
    return {**SOUND, "pages": [page, *SOUND["pages"][1:]], "inserts": [card]}


def side(thickness):
    """A pocket sealed at fore-edge and tail, and at the spine: 150 - 12 of the tab's room across."""
    return with_card(thickness, {"kind": "library-card", "pocket": 126, "height": 120, "raise": 0}, width=119, height=100)


def wallet(thickness):
    """A flap that overlaps its pocket by 10, over a card that reaches to its fold."""
    return with_card(thickness, {"kind": "wallet", "pocket": 110, "overflap": 50, "faces": "back"}, width=130, height=150)


def thick(content):
    """Four pages between roots 6 apart, with gussets of 6: 24 and 12 take four of 9."""
    return {**SOUND, "pages": [{"kind": "pocket", "content": content} for _ in range(4)]}


def tabs(**spine):
    return {**SOUND, "spine": {**SOUND["spine"], **spine}}


CASE = {**SOUND, "cover": {"kind": "case", "board": "board", "covering": "paper"}}
WRAP = {**SOUND, "cover": {"kind": "wrap", "stock": "strong"}}
#: On A4 no wrap that is 350 wide lies in one piece.
JOINED = copy.deepcopy(WRAP)
JOINED["stocks"]["strong"]["sheet"] = "A4"


# How a fault is planted: each of these gives a change of the hunt before it reckons.


def untold(*ids):
    """The program says nothing of it."""

    def plant(hunt):
        found = hunt.verdict["findings"]
        assert any(finding["id"] in ids for finding in found), [finding["id"] for finding in found]
        hunt.verdict["findings"] = [finding for finding in found if finding["id"] not in ids]

    return plant


def told(name, about):
    """The program says it of a sound album."""

    def plant(hunt):
        hunt.verdict["findings"].append({"level": "warn", "id": name, "about": about})

    return plant


def taken_for(album):
    """The program takes the album for another."""

    def plant(hunt):
        hunt.said = album
        hunt.verdict = hunt.check(album, hunt.machine)

    return plant


def measured(change):
    def plant(hunt):
        change(hunt.verdict["measures"])

    return plant


def thicker(measures):
    measures["closed"]["pages"][1]["thickest_mm"] += 0.1


def cut(name, change):
    """One piece is cut otherwise."""

    def plant(hunt):
        hunt.recut = lambda pieces: {**pieces, name: change(pieces[name])}

    return plant


def longer(across, up=0.0):
    """A piece with its right end, or its head, farther out; scores keep their places."""

    def change(flat):
        x0, y0, x1, y1 = flat.outline.bounds
        across_by, up_by = (x1 + across) / x1, (y1 + up) / y1
        outline = affinity.scale(flat.outline, across_by, up_by, origin=(x0, y0))
        scores = [affinity.scale(score, 1.0, up_by, origin=(x0, y0)) for score in flat.scores]
        return Flat(flat.facts, outline, scores)

    return change


def moved(number, across):
    """A piece with one of its scores, counted from the left, elsewhere."""

    def change(flat):
        scores = sorted(flat.scores, key=lambda score: score.bounds[0])
        scores[number] = affinity.translate(scores[number], across)
        return Flat(flat.facts, flat.outline, scores)

    return change


def unmitred(flat):
    return Flat(flat.facts, box(*flat.outline.bounds), flat.scores)


FAULTS = {
    "a pocket: thickness that is not taken off its width": (side(9.0), taken_for(side(0.5)), "let through: insert across"),
    "a pocket: thickness taken off twice": (side(0.5), taken_for(side(18.0)), "false alarm: insert-too-"),
    "a flap: thickness that it need not close over": (wallet(20.0), taken_for(wallet(0.5)), "let through: flap"),
    "a flap: one that stands off a thin card": (wallet(0.5), told("flap-open", "page 1"), "false alarm: flap-open"),
    "a tab: no lead-in, and nothing said": (tabs(lead_in=0), untold("no-lead-in"), "let through: tab between the folds"),
    "a tab: one that goes in, said to jam": (
        tabs(lead_in=12), told("lead-in-too-small", "page 1"), "false alarm: lead-in-too-small",
    ),
    "a tab: a strip whose tab is cut narrower": (SOUND, cut("hinge strip 1", moved(0, -1.0)), "let through: strip"),
    "a gape: thick pages, and nothing said": (thick(16.0), untold("gapes"), "let through: gape of a run"),
    "a gape: pages that have room, said to gape": (thick(2.0), told("gapes", "the spine"), "false alarm: gapes"),
    "a gape: a page said to be thicker than it is": (SOUND, measured(thicker), "let through: page thickness, page 2"),
    "a wrap: a front that ends with the pages": (WRAP, cut("cover", longer(-3.5)), "cover beyond the fore-edge"),
    "a wrap: a front far too wide": (WRAP, cut("cover", longer(12)), "cover no wider than its pages"),
    "a wrap: a spine too narrow for its pages": (WRAP, cut("cover", moved(1, -4)), "let through: cover's spine"),
    "a wrap: no square at its head": (WRAP, cut("cover", longer(0, -3)), "cover beyond head and tail"),
    "a joined wrap: a piece cut short": (JOINED, cut("cover, piece 2", longer(-4)), "let through: "),
    "a joined wrap: a piece too long": (JOINED, cut("cover, piece 1", longer(4)), "let through: "),
    "a case: a board cut short": (CASE, cut("back board", longer(-1)), "boards alike"),
    "a case: boards without a square": (CASE, cut("front board", longer(0, -3)), "boards beyond head and tail"),
    "a case: a spine board too narrow": (CASE, cut("spine board", longer(-4)), "let through: case's spine"),
    "a case: a covering with wider joints": (CASE, cut("covering", longer(2)), "let through: joint"),
    "a case: a covering that turns in less": (CASE, cut("covering", longer(0, -2)), "let through: turn-in"),
    "a case: a covering without mitres": (CASE, cut("covering", unmitred), "let through: mitre"),
    "a case: a lining wider than between its boards": (
        CASE, cut("spine lining", moved(1, 1)), "lining between the boards",
    ),
    "a case: an end paper that hides the square": (CASE, cut("front end paper", longer(2)), "let through: end paper"),
}


def hunted(album, folder, plant=lambda hunt: None):
    """What the hunt says of an album."""
    if not PROGRAM.is_file():
        not_run(f"there is no program at {PROGRAM}; `tests/run` builds it")
    hunt = Hunt("known", folder, album, album, MACHINE)
    plant(hunt)
    return list(hunt.faults())


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_found(tmp_path, name):
    album, plant, words = FAULTS[name]
    sound = hunted(album, tmp_path)
    assert not sound, sound
    found = hunted(album, tmp_path, plant)
    assert any(words in fault for fault in found), found
