# SPDX-License-Identifier: MIT
"""The same album gives the same bytes, however many threads work on it and however often it is asked."""

from conftest import CUTTER, flags, run_kit
from verdict import no_faults


def faults(one, other):
    """In what two folders differ."""
    before, after = contents(one), contents(other)
    return [f"{name} is in one folder only" for name in sorted(before.keys() ^ after.keys())] + [
        f"{name} differs" for name in sorted(before.keys() & after.keys()) if before[name] != after[name]
    ]


def contents(folder):
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


def test_determinism(album, tmp_path):
    for name, threads in (("one", 1), ("eight", 8), ("again", 8)):
        run_kit(album, tmp_path / name, *flags(CUTTER), "--threads", threads)
    assert contents(tmp_path / "one"), "nothing was written"
    no_faults(faults(tmp_path / "one", tmp_path / "eight"))
    no_faults(faults(tmp_path / "eight", tmp_path / "again"))
