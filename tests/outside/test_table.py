# SPDX-License-Identifier: MIT
"""The table in a real browser: a person's whole job, by pointer and by keys, with an accessibility checker at every state.

What is taken away is compared, byte by byte, with what the command line writes for the same album file.
"""

import json
import os
import shutil
import subprocess
import zipfile
from pathlib import Path

import pytest

from conftest import PROGRAM, ROOT, ask_kit
from readers import MODULES
from verdict import no_faults, not_run

JOBS = [
    "the whole job",
    "edges of pages and inserts",
    "undo, redo, several albums, kept",
    "what is seen comes first, and goes again where it is taken back",
    "a page that is chosen comes into view",
    "numbers on the drawing are fields",
    "all pages of a kind at once",
    "no fault empties the pictures",
    "another sheet is a button, and the last page stays",
    "what can be taken back outlasts a reload",
    "a sheet opens over the whole window",
    "green is for what may not disappoint, and signs keep their shapes",
    "what can't be read is said at once",
    "by keys alone",
    "the program ends when it is asked to",
]
STATES = [
    "the first visit",
    "an album",
    "everything unfolded",
    "an album that does not go together",
    "a field that can't be read",
    "a file that can't be read",
    "a size of the machine that can't be read",
    "the program gone",
    "before the program is ended",
]


FAULTS = [
    "the tick for a trimmer does what it says",
    "a margin of 500 is refused at its field",
    "a margin of x is refused at its field",
    "a margin of -1 is refused at its field",
    "a width that can't be read holds everything back",
    "a new size is in the zip however soon it is pressed",
    "what is not used keeps its page while others would move",
    "the maker's own names stay as they are",
    "undo takes the machine's settings back",
    "a machine is named, kept, exported, brought in and measured",
    "two windows of one album lose nothing of either",
    "what is no album does not come onto the table",
    "what was kept in another form hides no album",
    "a change of a closed window is made once, whoever made it",
    "what another window wrote over is made again, and once",
    "the verdict is in sight on a small screen",
    "what is typed while the program is away is done when it is back",
    "what is typed upon a change that is made meanwhile is no part of it",
]


def accessible(used, state):
    """A state of the page was looked at in three widths and two themes, and the checker had nothing to say."""
    seen = {name: faults for name, faults in used[1].items() if name.startswith(f"{state}, ")}
    assert len(seen) == 6, f"only {sorted(seen)} were looked at"
    no_faults(f"{name}: {fault}" for name, faults in seen.items() for fault in faults)


def drive(script):
    """Runs a script in the browser; gives the folder that it left, and what it saw."""
    node = shutil.which("node")
    browser = os.environ.get("HINGELEAF_BROWSER") or shutil.which("chromium") or shutil.which("chromium-browser")
    if node is None or not (MODULES / "node_modules" / "playwright-core").is_dir():
        not_run(f"what drives the browser is not in {MODULES}; tests/run installs it")
    if browser is None:
        not_run("there is no Chromium; tests/run installs it where it may, HINGELEAF_BROWSER names another place")
    if not PROGRAM.is_file():
        not_run(f"there is no program at {PROGRAM}; `tests/run` builds it")
    folder = Path(os.environ.get("HINGELEAF_OUTSIDE") or ROOT / "target" / "outside") / Path(script).stem.replace("_", "-")
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    command = [node, Path(__file__).with_name(script), MODULES, PROGRAM, browser, folder]
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, timeout=1800)
    if done.returncode != 0:
        pytest.fail(f"the browser's run ended with {done.returncode}:\n{done.stderr[-2000:]}", pytrace=False)
    return folder, json.loads((folder / "seen.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def used():
    return drive("table.mjs")


@pytest.fixture(scope="module")
def amiss():
    return drive("table_faults.mjs")


@pytest.fixture(scope="module")
def ended():
    return drive("table_ends.mjs")


@pytest.mark.parametrize("fault", FAULTS)
def test_nothing_is_lost_and_nothing_wrong_handed_out(amiss, fault):
    no_faults(amiss[1][fault])


def test_what_is_said_when_the_program_ends_is_true(ended):
    folder, seen = ended
    no_faults(fault for faults in seen.values() for fault in faults)
    wanted = 100 if os.environ.get("HINGELEAF_LONG") else 10
    assert json.loads((folder / "ends.json").read_text(encoding="utf-8"))["ends"] >= wanted


@pytest.mark.parametrize("job", JOBS)
def test_a_person_can_do_it(used, job):
    no_faults(used[1][job])


@pytest.mark.parametrize("state", STATES)
def test_every_state_is_accessible_at_every_width_in_both_themes(used, state):
    accessible(used, state)


def same_kit(album, zipped, folder, *words):
    """Holds a zip from the table against what the command line writes for the same album file."""
    shutil.copy(album, folder / "tide-table.json")
    # From the album's own folder: the report names the file as it was given.
    done = subprocess.run([PROGRAM, "kit", "tide-table.json", "--out", "kit", *words], cwd=folder, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    written = {str(path.relative_to(folder / "kit")): path.read_bytes() for path in (folder / "kit").rglob("*") if path.is_file()}
    with zipfile.ZipFile(zipped) as opened:
        assert opened.testzip() is None
        taken = {name: opened.read(name) for name in opened.namelist()}
    assert len(written) > 10
    # Beside it lies what it is made from, and how.
    assert taken.pop("tide-table.json") == album.read_bytes()
    assert (taken.pop("my-cutter.json", None) is not None) == ("--cutter" in words)
    assert taken.pop("command.txt").decode().split() == ["hingeleaf", "kit", "tide-table.json", "--out", "kit", *words]
    assert sorted(taken) == sorted(written)
    no_faults(f"{name} differs" for name in written if taken[name] != written[name])
    return written


def test_the_zip_is_what_the_command_line_writes(used, tmp_path):
    same_kit(used[0] / "tide-table.json", used[0] / "kit.zip", tmp_path)


def test_the_templates_are_those_of_the_zip(used):
    with zipfile.ZipFile(used[0] / "kit.zip") as opened:
        assert opened.read("templates.pdf") == (used[0] / "templates.pdf").read_bytes()


def test_the_trimmer_s_zip_is_cut_from_edge_to_edge(amiss, tmp_path):
    (tmp_path / "other").mkdir()
    album = ROOT / "fixtures" / "tide-table.json"
    with_tick = same_kit(album, amiss[0] / "trimmer.zip", tmp_path, "--trimmer")
    shutil.copy(album, tmp_path / "other")
    done = subprocess.run([PROGRAM, "kit", "tide-table.json", "--out", "kit"], cwd=tmp_path / "other", capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    without = (tmp_path / "other" / "kit" / "report.json").read_bytes()
    assert with_tick["report.json"] != without, "the tick alters nothing of this album: another one is needed here"


def test_an_album_file_from_the_table_is_read_again(used, tmp_path):
    assert ask_kit(used[0] / "after-the-end.json", tmp_path / "kit").returncode == 0
