# SPDX-License-Identifier: MIT
"""Batches at the table in a real browser: made by keys alone, taken away, brought back, with an accessibility checker at every state.

What is taken away is compared, byte by byte, with what the command line writes for the batch file that lies in it.
"""

import json
import subprocess
import zipfile

import pytest

from conftest import PROGRAM
from test_table import accessible, drive
from verdict import no_faults

JOBS = [
    "two colourways by keys alone",
    "a zip brings its batch back",
    "kits of several albums",
    "papers, changes and what is wrong with them",
    "pages of the buyer's choice",
    "buying and selling",
    "what is taken away, and what is missing",
    "a batch that the program is opened with",
]
STATES = [
    "a batch",
    "a batch with everything unfolded",
    "a batch that does not go together",
    "a batch without its album",
]


@pytest.fixture(scope="module")
def used():
    return drive("table_batch.mjs")


@pytest.mark.parametrize("job", JOBS)
def test_a_person_can_do_it(used, job):
    no_faults(used[1][job])


@pytest.mark.parametrize("state", STATES)
def test_every_state_is_accessible_at_every_width_in_both_themes(used, state):
    accessible(used, state)


def held(zipped):
    """A zip's files."""
    with zipfile.ZipFile(zipped) as opened:
        assert opened.testzip() is None
        return {name: opened.read(name) for name in opened.namelist()}


def makes_itself(taken, folder, file, beside, words):
    """What the command line makes of a zip's own files is what is in the zip."""
    for name in {file} | beside:
        (folder / name).write_bytes(taken[name])
    command = ["kit", file, "--out", "kit", *words]
    assert taken["command.txt"].decode().split() == ["hingeleaf", *command]
    done = subprocess.run([PROGRAM, *command], cwd=folder, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    written = {str(path.relative_to(folder / "kit")): path.read_bytes() for path in (folder / "kit").rglob("*") if path.is_file()}
    assert len(written) > 10
    assert sorted(taken) == sorted([*written, file, *beside, "command.txt"])
    no_faults(f"{name} differs" for name in written if taken[name] != written[name])


@pytest.mark.parametrize("zipped", ["colourways.zip", "again.zip", "machine.zip"])
def test_the_command_line_makes_the_same_from_what_is_in_the_zip(used, tmp_path, zipped):
    taken = held(used[0] / zipped)
    machine = {"my-cutter.json"} & set(taken)
    words = ["--cutter", "my-cutter.json", "--trimmer"] if machine else []
    makes_itself(taken, tmp_path, "tide-table-batch.json", {"tide-table.json"} | machine, words)


def test_both_colourways_are_in_the_zip_with_their_price(used):
    taken = held(used[0] / "colourways.zip")
    report = json.loads(taken["report.json"])
    assert [(kit["name"], kit["copies"]) for kit in report["kits"]] == [("grey", 3), ("ochre", 2)]
    stocks = {sheet["stock"] for sheet in report["sheets"]}
    assert stocks == {"card", "paper", "ochre-paper"}
    assert b"price to ask" in taken["cost.csv"]


def test_a_batch_that_comes_back_is_the_batch_that_went(used):
    assert held(used[0] / "colourways.zip") == held(used[0] / "again.zip")


def test_the_job_sheet_is_that_of_the_zip(used):
    taken = held(used[0] / "machine.zip")
    for name in ["job.html", "templates.pdf", "cutting-list.csv"]:
        assert taken[name] == (used[0] / name).read_bytes(), name
    assert taken["sheets/card-01.svg"] == (used[0] / "card-01.svg").read_bytes()
    for ending in ["svg", "dxf"]:
        some = held(used[0] / f"{ending}.zip")
        sheets = {name for name in some if name.startswith("sheets/")}
        assert sheets == {name for name in taken if name.startswith("sheets/") and name.endswith(ending)}
