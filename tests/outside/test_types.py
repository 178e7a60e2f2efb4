# SPDX-License-Identifier: MIT
"""The page's script, held to its types by the TypeScript compiler, strictly; what it is made of is never run here.

One run looks at the page and at a copy of one of its files with faults planted in it: all that is found lies there.
"""

import re
import shutil
import subprocess

import pytest

from readers import MODULES, ROOT
from verdict import no_faults, not_run

PAGE = ROOT / "src" / "table" / "page"
WAYS = ["--checkJs", "--allowJs", "--noEmit", "--strict", "--target", "ES2023", "--module", "esnext", "--moduleResolution", "bundler"]
LIBRARIES = ["--lib", "ES2023,DOM,DOM.Iterable"]
#: What is written otherwise in the copy, and what the compiler says to it.
FAULTS = [
    ("fit.sentence", "fit.sentense", "Property 'sentense' does not exist on type 'Fit'"),
    ("keep.canUndo()", "keep.current().id", "Object is possibly 'null'"),
    ("sheets.line)", "sheets.line.words)", "Property 'words' does not exist on type 'string'"),
    ("import { drafts,", "import { draughts as drafts,", "has no exported member"),
]


@pytest.fixture(scope="module")
def said(tmp_path_factory):
    """What the compiler says of the page, and of the copy: lines of each."""
    compiler = MODULES / "node_modules" / "typescript" / "bin" / "tsc"
    if shutil.which("node") is None or not compiler.is_file():
        not_run(f"the compiler is not in {MODULES}; tests/run installs it")
    text = (PAGE / "line.js").read_text(encoding="utf-8").replace('from "./', f'from "{PAGE.as_posix()}/')
    for old, new, _ in FAULTS:
        assert old in text, f"{old} is not in line.js any more"
        text = text.replace(old, new)
    copy = tmp_path_factory.mktemp("planted") / "planted.js"
    copy.write_text(text, encoding="utf-8")
    files = [PAGE / "types.d.ts", *sorted(PAGE.glob("*.js")), copy]
    command = ["node", compiler, *WAYS, *LIBRARIES, *files]
    done = subprocess.run([str(word) for word in command], cwd=PAGE, capture_output=True, text=True, timeout=300)
    lines = [line for line in done.stdout.splitlines() if re.search(r"error TS\d+", line)]
    assert done.returncode in (1, 2) and lines, done.stdout + done.stderr
    return [line for line in lines if "planted.js" not in line], [line for line in lines if "planted.js" in line]


def test_the_page_is_sound(said):
    no_faults(said[0])


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault[2])
def test_a_planted_fault_is_found(said, fault):
    assert any(fault[2] in line for line in said[1]), said[1]
