# SPDX-License-Identifier: MIT
"""Kinds of one's own at the table in a real browser: opened with their album, added to one, taken away, brought back.

What is taken away is compared, byte by byte, with what the command line writes for the files that lie in it.
"""

import pytest

from test_table import accessible, drive
from test_table_batch import held, makes_itself
from verdict import no_faults

JOBS = [
    "an album with a kind of its own is changed and taken away",
    "a kind file that is missing is opened",
    "a kind file is added to an album, and taken back",
    "a kind and its drawing are brought, apart or together",
    "a folder of kinds is brought with its album, or after it",
    "the zip brings the kind back",
]


@pytest.fixture(scope="module")
def used():
    return drive("table_kinds.mjs")


@pytest.mark.parametrize("job", JOBS)
def test_a_person_can_do_it(used, job):
    no_faults(used[1][job])


def test_it_is_accessible_at_every_width_in_both_themes(used):
    accessible(used, "an album with a kind of its own")


def test_the_command_line_makes_the_same_from_what_is_in_the_zip(used, tmp_path):
    taken = held(used[0] / "steps.zip")
    makes_itself(taken, tmp_path, "steps.json", {"step-pocket.json"}, [])


def test_a_kinds_drawing_lies_in_the_zip(used, tmp_path):
    together, apart = (held(used[0] / f"views-{how}.zip") for how in ("together", "apart"))
    assert together == apart
    makes_itself(together, tmp_path, "views.json", {"view.json", "moon.svg"}, [])


def test_a_folders_kinds_lie_in_the_zip(used, tmp_path):
    together, apart = (held(used[0] / f"folder-{how}.zip") for how in ("together", "apart"))
    assert together == apart
    makes_itself(together, tmp_path, "folder.json", {"step-pocket.json", "low.json"}, [])


def test_an_album_that_comes_back_is_the_album_that_went(used):
    assert held(used[0] / "steps.zip") == held(used[0] / "steps-again.zip")
