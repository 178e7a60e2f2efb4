# SPDX-License-Identifier: MIT
"""Drawers and classes at the table in a real browser: made, taken away, brought back, with an accessibility checker at every state.

What is taken away is compared, byte by byte, with what the command line writes for the files that lie in it; what the drawer holds
after the job with what the command line leaves there.
"""

import json
import subprocess

import pytest

from conftest import PROGRAM
from test_table import accessible, drive
from test_table_batch import held
from verdict import no_faults

JOBS = [
    "a drawer of an album",
    "a drawer from a file, for an album and for a batch",
    "what is wrong with a drawer is told at its place",
    "a class is made and taken away",
    "a class that is opened and brought back",
    "what is handed over, and in which language",
]
STATES = ["a drawer with sheets", "a torn drawer", "a class with everything unfolded"]
ZIPS = {
    "drawer.zip": ["tide-table.json", "drawer.json"],
    "batch-drawer.zip": ["tide-table-batch.json", "tide-table.json", "bottom-drawer.json"],
    "class.zip": ["tide-table-class.json", "tide-table.json", "blade-12in.json"],
    "class-opened.zip": ["paper-evening.json", "tide-table.json", "blade-12in.json"],
    "handed.zip": ["tide-table-batch.json", "tide-table.json"],
}


@pytest.fixture(scope="module")
def used():
    return drive("table_order.mjs")


@pytest.mark.parametrize("job", JOBS)
def test_a_person_can_do_it(used, job):
    no_faults(used[1][job])


@pytest.mark.parametrize("state", STATES)
def test_every_state_is_accessible_at_every_width_in_both_themes(used, state):
    accessible(used, state)


def made(zipped, sources, folder, *more):
    """What the command in a zip makes from the files in it; and what is in the zip."""
    taken = held(zipped)
    for name in sources:
        (folder / name).write_bytes(taken[name])
    command = taken["command.txt"].decode().split()
    assert command == ["hingeleaf", "kit", sources[0], "--out", "kit"]
    done = subprocess.run([PROGRAM, *command[1:], *more], cwd=folder, capture_output=True, text=True, timeout=600)
    assert done.returncode == 0, done.stderr
    written = {str(path.relative_to(folder / "kit")): path.read_bytes() for path in (folder / "kit").rglob("*") if path.is_file()}
    assert len(written) > 10
    return taken, written


@pytest.mark.parametrize("zipped", ZIPS)
def test_the_command_line_makes_the_same_from_what_is_in_the_zip(used, tmp_path, zipped):
    sources = ZIPS[zipped]
    taken, written = made(used[0] / zipped, sources, tmp_path)
    assert sorted(taken) == sorted([*written, *sources, "command.txt"])
    no_faults(f"{name} differs" for name in written if taken[name] != written[name])


@pytest.mark.parametrize(("zipped", "drawer", "after"), [("drawer.zip", "drawer.json", "drawer-after.json"), ("batch-drawer.zip", "bottom-drawer.json", "batch-after.json")])
def test_the_drawer_after_the_job_is_what_the_command_line_leaves_there(used, tmp_path, zipped, drawer, after):
    made(used[0] / zipped, ZIPS[zipped], tmp_path, "--update-drawer")
    assert (tmp_path / drawer).read_bytes() == (used[0] / after).read_bytes()


def test_no_sheet_of_the_drawer_is_taken_twice(used):
    """Reckoned from the report: what the job takes and what is left are together what lay there, and its offcuts."""
    taken = held(used[0] / "drawer.zip")
    before = json.loads(taken["drawer.json"])["stocks"]
    assert json.loads((used[0] / "drawer-kept.json").read_text())["stocks"] == before
    after = json.loads((used[0] / "drawer-after.json").read_text())["stocks"]
    count = lambda drawer, stock, sheet: sum(one.get("count", 1) for one in drawer.get(stock, []) if one["sheet"] == sheet)
    sheets = json.loads(taken["report.json"])["sheets"]
    used_up = sum(one["times"] for one in sheets if one["stock"] == "card" and {one["width_mm"], one["height_mm"]} == {210.0, 297.0})
    lay = count(before, "card", "A4")
    # Nine sheets are more than three that lie there: none is left, and six are bought.
    assert used_up > lay == 3
    assert count(after, "card", "A4") == 0


def test_a_class_has_a_page_for_every_group(used):
    taken = held(used[0] / "class.zip")
    for group in ["window", "long", "guests"]:
        assert b"<html" in taken[f"makers/{group}.html"] and taken[f"makers/{group}.pdf"].startswith(b"%PDF"), group
    assert (used[0] / "window.html").read_bytes() == taken["makers/window.html"]
    assert (used[0] / "class-job.html").read_bytes() == taken["job.html"]
    assert (used[0] / "class-kept.json").read_bytes() == taken["tide-table-class.json"]


@pytest.mark.parametrize(("went", "came"), [("batch-drawer.zip", "batch-drawer-again.zip"), ("class-opened.zip", "class-again.zip")])
def test_what_comes_back_is_what_went(used, went, came):
    assert held(used[0] / went) == held(used[0] / came)


def test_what_is_handed_out_is_in_the_batch_s_language(used):
    taken = held(used[0] / "handed.zip")
    assert b'lang="de"' in taken["job.html"]
