# SPDX-License-Identifier: MIT
"""Every SVG is valid by the document type of SVG 1.1, once the data-* attributes, which are of SVG 2, are taken out.

xmllint validates offline, with the document type that Debian's w3c-sgml-lib brings.
"""

import re
import shutil
import subprocess

import pytest

from verdict import no_faults, not_run

DOCTYPE = '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">\n'
DATA = re.compile(r' data-[a-z]+="[^"]*"')
DECLARATION = re.compile(r"\s*<\?xml[^>]*\?>\s*")
SMALL = '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9">{}</svg>'


def faults(texts, folder):
    """What xmllint says of each SVG; `texts` are the files' contents by name."""
    if shutil.which("xmllint") is None:
        not_run("xmllint is not there; Debian's libxml2-utils brings it")
    for name, text in texts.items():
        plain = DECLARATION.sub("", DATA.sub("", text), count=1)
        (folder / name).write_text(DOCTYPE + plain, encoding="utf-8")
    command = ["xmllint", "--noout", "--nonet", "--valid", *sorted(texts)]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, encoding="utf-8", timeout=120)
    if "Could not load the external subset" in done.stderr or "failed to load external entity" in done.stderr:
        not_run("the document type of SVG 1.1 is not there; Debian's w3c-sgml-lib brings it")
    said = [line for line in done.stderr.splitlines() if re.match(r"[^ ]+:\d+: ", line)]
    return said or ([done.stderr or f"xmllint ended with {done.returncode}"] if done.returncode else [])


@pytest.mark.parametrize("setting", ["R2000", "plain"])
def test_dtd(kit, tmp_path):
    files = sorted((kit.folder / "sheets").glob("*.svg"))
    texts = {file.name: file.read_text(encoding="utf-8") for file in files}
    assert texts, "there is no sheet"
    no_faults(faults(texts, tmp_path))


def test_a_valid_file_passes(tmp_path):
    assert not faults({"good.svg": SMALL.format('<path data-part="a" d="M1 1 L2 2"/>')}, tmp_path)


@pytest.mark.parametrize(
    "inside, words",
    [
        ('<path d="M1 1" colour="red"/>', "colour"),
        ("<sheet/>", "sheet"),
        ("<path/>", "attribute d"),
        ("<g>", "mismatch"),
    ],
)
def test_a_fault_is_found(tmp_path, inside, words):
    found = faults({"good.svg": SMALL.format(""), "bad.svg": SMALL.format(inside)}, tmp_path)
    assert any(fault.startswith("bad.svg") and words in fault for fault in found), found
