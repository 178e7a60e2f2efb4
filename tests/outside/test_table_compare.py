# SPDX-License-Identifier: MIT
"""Editions compared at the table in a real browser: with what was opened, another album, a file, a report, a zip.

What the page says and gives to take away is compared with what `hingeleaf compare` does with the same files.
"""

import os
import re
import subprocess

import pytest

from conftest import PROGRAM
from test_table import ROOT, accessible, drive
from test_table_batch import held
from verdict import no_faults

JOBS = [
    "an album and what it was when it was opened",
    "another album on the table, a file, a report, a zip",
    "a batch and an earlier one",
    "by keys alone",
    "versions of an album",
]
STATES = ["two editions", "an edition that can not be read"]


@pytest.fixture(scope="module")
def used(tmp_path_factory):
    folder = tmp_path_factory.mktemp("earlier")
    album = ROOT / "fixtures" / "tide-table.json"
    longer = album.read_text(encoding="utf-8").replace('"overflap": 45, "faces": "back"', '"overflap": 48, "faces": "back"')
    (folder / "earlier.json").write_text(longer, encoding="utf-8")
    run(folder, "kit", "earlier.json", "--out", "kit")
    os.environ["HINGELEAF_REPORT"] = str(folder / "kit" / "report.json")
    return drive("table_compare.mjs")


def run(folder, *words):
    done = subprocess.run([PROGRAM, *words], cwd=folder, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.mark.parametrize("job", JOBS)
def test_a_person_can_do_it(used, job):
    no_faults(used[1][job])


@pytest.mark.parametrize("state", STATES)
def test_every_state_is_accessible_at_every_width_in_both_themes(used, state):
    accessible(used, state)


def again(folder, old, new, zipped):
    """What the command line says of two files; it writes the sheets that are in the zip."""
    said = run(folder, "compare", old, new)
    run(folder, "compare", old, new, "--only-changed", "--out", "again")
    out = folder / "again"
    written = {str(path.relative_to(out)): path.read_bytes() for path in out.rglob("*") if path.is_file()}
    taken = held(zipped)
    assert sorted(taken) == sorted(written) and any(name.endswith(".svg") for name in taken)
    no_faults(f"{name} differs" for name in written if taken[name] != written[name])
    return said


def test_the_page_says_and_gives_what_the_command_does(used, tmp_path):
    (tmp_path / "old.json").write_bytes((ROOT / "fixtures" / "tide-table.json").read_bytes())
    (tmp_path / "tide-table.json").write_bytes((used[0] / "new.json").read_bytes())
    said = again(tmp_path, "old.json", "tide-table.json", used[0] / "again.zip")
    shown = (used[0] / "said.txt").read_text(encoding="utf-8")
    plain = [line.strip().replace("old.json", "tide-table.json as it was opened") for line in said.splitlines()]
    page = shown.replace("“", '"').replace("”", '"')
    assert len(plain) > 6
    no_faults(f"the page does not say: {line}" for line in plain if line not in page)


def test_a_batch_gives_what_the_command_does(used, tmp_path):
    old = held(used[0] / "batch.zip")
    (tmp_path / "tide-table.json").write_bytes(old["tide-table.json"])
    (tmp_path / "old.json").write_bytes(old["tide-table-batch.json"])
    new = old["tide-table-batch.json"].decode()
    assert '"copies": 1 }' in new
    (tmp_path / "tide-table-batch.json").write_text(new.replace('"copies": 1 }', '"copies": 3, "change": { "pages[1].overflap": 48 } }'))
    said = again(tmp_path, "old.json", "tide-table-batch.json", used[0] / "batch-again.zip")
    assert "3 instead of 1 are made" in said


def test_versions_lie_in_the_zip_where_that_is_asked_for(used, tmp_path):
    """Each in a folder of its own, called by its day and its name, as a file that the command takes."""
    full = held(used[0] / "versions.zip")
    paths = [path.split("/") for path in full if path.startswith("versions/")]
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\d .+", folder) and name == "tide-table.json" for _, folder, name in paths)
    own = {folder[len("2026-05-04 "):]: full["/".join([top, folder, name])] for top, folder, name in paths}
    assert sorted(own) == ["before the wider spine", "wider", "yours"]
    (tmp_path / "old.json").write_bytes(own["before the wider spine"])
    (tmp_path / "new.json").write_bytes(full["tide-table.json"])
    assert (tmp_path / "old.json").read_bytes() == (ROOT / "fixtures" / "tide-table.json").read_bytes()
    # 148 mm became 152: every piece as wide as the page is 4 mm wider.
    assert "4 mm wider" in run(tmp_path, "compare", "old.json", "new.json")
