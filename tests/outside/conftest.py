# SPDX-License-Identifier: MIT
"""Runs the program once for every album of fixtures/ and every cutter setting; all checks share these folders."""

import json
import os
import subprocess
from pathlib import Path

import pytest

from verdict import not_run
from read import Kit

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(os.environ.get("HINGELEAF_BIN") or ROOT / "target" / "outside" / "hingeleaf").absolute()
ALBUMS = sorted((ROOT / "fixtures").glob("*.json"))
CUTTER = {"kerf": 0.1, "gap": 1.0, "margin": 3.0}
SETTINGS = {
    "R2000": {**CUTTER, "dxf_version": "R2000"},
    "R12": {**CUTTER, "dxf_version": "R12"},
    "plain": {},
}
TABLES = pytest.StashKey()
SLOWEST = ("test_table", "test_table_batch", "test_guide", "test_table_order", "test_table_compare", "test_table_drawn", "test_table_looks", "test_table_kinds")


def flags(setting):
    """The settings as the command line takes them."""
    return [word for name, value in setting.items() for word in (f"--{name.replace('_', '-')}", f"{value}")]


def ask_kit(album, folder, *words):
    """Runs `hingeleaf kit`, however it ends."""
    if not PROGRAM.is_file():
        not_run(f"there is no program at {PROGRAM}; `tests/run` builds it")
    command = [PROGRAM, "kit", album, "--out", folder, *words]
    return subprocess.run([str(word) for word in command], capture_output=True, text=True, timeout=300)


def album_text(album):
    """What an album file says, its kind files named so that a copy of it elsewhere finds them."""
    text = json.loads(album.read_text(encoding="utf-8"))
    if isinstance(text.get("kinds"), str):
        text["kinds"] = str(album.parent / text["kinds"])
    return text


def run_kit(album, folder, *words):
    """Runs `hingeleaf kit`; a run that ends badly fails the test with what the program said."""
    done = ask_kit(album, folder, *words)
    if done.returncode != 0:
        asked = " ".join(map(str, done.args[1:]))
        said = (done.stderr + done.stdout).strip()
        pytest.fail(f"{asked}\nended with exit code {done.returncode}:\n{said}", pytrace=False)


class Kits:
    """The folders written so far, each made when it is first asked for."""

    def __init__(self, folder):
        self.folder = folder
        self.made = {}

    def get(self, album, setting):
        if (album, setting) not in self.made:
            chosen = SETTINGS[setting]
            folder = self.folder / f"{album.stem}-{setting}"
            try:
                # Each part all round, also where neighbours would share a cut: checks read outlines.
                run_kit(album, folder, *flags(chosen), "--shared-cuts=false")
            except BaseException as ended:
                self.made[album, setting] = ended
                raise
            self.made[album, setting] = Kit(folder, album=json.loads(album.read_text(encoding="utf-8")), **chosen)
        kit = self.made[album, setting]
        if isinstance(kit, BaseException):
            raise kit
        return kit


@pytest.fixture(scope="session")
def kits(tmp_path_factory):
    return Kits(tmp_path_factory.mktemp("kits"))


@pytest.fixture(scope="session")
def tables(request):
    """Tables that are printed when all checks are through: a title and a part's name, and the rows."""
    return request.config.stash.setdefault(TABLES, {})


def pytest_collection_modifyitems(items):
    """What waits for a browser takes longest, and begins first; then nothing waits for it at the end."""
    stems = {stem: at for at, stem in enumerate(SLOWEST)}
    items.sort(key=lambda item: stems.get(item.path.stem, len(stems)))


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session):
    """One of several processes hands its tables over."""
    if hasattr(session.config, "workeroutput"):
        session.config.workeroutput["tables"] = list(session.config.stash.get(TABLES, {}).items())


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node):
    tables = getattr(node, "workeroutput", {}).get("tables", [])
    node.config.stash.setdefault(TABLES, {}).update((tuple(key), rows) for key, rows in tables)


def pytest_terminal_summary(terminalreporter, config):
    """Prints each table under its title."""
    titles = {}
    for (title, _), rows in config.stash.get(TABLES, {}).items():
        titles.setdefault(title, []).extend(rows)
    for title, rows in titles.items():
        terminalreporter.section(title)
        for row in rows:
            terminalreporter.write_line(row)


@pytest.fixture(params=ALBUMS or [None], ids=lambda album: album.stem if album else "no-album")
def album(request):
    """Each album of fixtures/."""
    if request.param is None:
        not_run("there is no album in fixtures/")
    return request.param


@pytest.fixture(params=SETTINGS)
def setting(request):
    """The name of each cutter setting."""
    return request.param


@pytest.fixture
def kit(kits, album, setting):
    """The folder of each album at each setting."""
    return kits.get(album, setting)


@pytest.fixture
def plain(kits, album):
    """The folder of each album without kerf, gap and margin: what is cut there is the part itself."""
    return kits.get(album, "plain")
