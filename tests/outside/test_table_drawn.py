# SPDX-License-Identifier: MIT
"""Drawings at the table in a real browser: chosen for inserts, told where they are at fault, taken away with the album, brought back.

What is taken away is compared, byte by byte, with what the command line writes for the files that lie in it.
"""

import pytest

from test_table import accessible, drive
from test_table_batch import held, makes_itself
from verdict import no_faults

JOBS = [
    "a drawing is chosen for an insert",
    "another drawing of the same name, and back",
    "faults of a drawing stand beside the form",
    "the zip brings album and drawings back",
    "a batch of an album with drawings",
    "an album with drawings that the program is opened with",
    "a stock is shown as in a picture",
]
STATES = ["an album with drawings", "drawings with faults"]


@pytest.fixture(scope="module")
def used():
    return drive("table_drawn.mjs")


@pytest.mark.parametrize("job", JOBS)
def test_a_person_can_do_it(used, job):
    no_faults(used[1][job])


@pytest.mark.parametrize("state", STATES)
def test_every_state_is_accessible_at_every_width_in_both_themes(used, state):
    accessible(used, state)


def test_the_command_line_makes_the_same_from_what_is_in_the_zip(used, tmp_path):
    taken = held(used[0] / "kite-day.zip")
    makes_itself(taken, tmp_path, "kite-day.json", {"kite.svg", "fish.dxf", "my-cutter.json"}, ["--cutter", "my-cutter.json"])


def test_a_picture_lies_in_the_zip(used, tmp_path):
    makes_itself(held(used[0] / "reeds.zip"), tmp_path, "tide-table.json", {"reeds.png"}, [])


def test_a_batch_holds_its_albums_drawings(used, tmp_path):
    taken = held(used[0] / "batch.zip")
    makes_itself(taken, tmp_path, "kite-day-batch.json", {"kite-day.json", "kite.svg", "fish.dxf"}, [])
    # 64 wide, it is 64 / 90 as tall as before: 123.75 x 64 / 90 = 88.
    assert b",64,88," in taken["cutting-list.csv"]


def test_an_album_that_comes_back_is_the_album_that_went(used):
    assert held(used[0] / "kite-day.zip") == held(used[0] / "kite-day-again.zip")
