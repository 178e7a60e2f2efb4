# SPDX-License-Identifier: MIT
"""Albums drawn at random, and every verdict on them held against a reckoning that knows nothing of the program's own.

HINGELEAF_LONG=1 draws 1,000 albums instead of 40, HINGELEAF_HUNT=1200:2000 those with these numbers; to every second
number an album about its cover is drawn besides.
"""

import os
from collections import Counter

import pytest

from conftest import PROGRAM
from hunt import Ended, Hunt
from hunt_albums import covered, drawn
from verdict import no_faults, not_run

#: How often each sort of reckoning must have come up in 40 albums, or the draw is not worth its time.
SORTS = {
    "insert across": 5, "insert up": 5, "flap": 5, "tab between the folds": 20, "page thickness": 40, "strip": 10,
    "gape of a run": 5, "panel on its face": 20, "cover's spine": 2, "part on a sheet": 20, "sizes of a page": 20,
    "cover in pieces": 2, "case's spine": 2, "joint": 2, "mitre": 2, "joint of a case": 2, "turn-in of a case": 2,
}
#: Sorts of which, in 40 albums, some do not go and some go with room to spare: a wrong verdict on either would show.
EITHER_WAY = ("insert across", "insert up", "flap", "part on a sheet", "sizes of a page")


def numbers():
    usual = "0:1000" if os.environ.get("HINGELEAF_LONG") == "1" else "0:40"
    first, _, last = os.environ.get("HINGELEAF_HUNT", usual).partition(":")
    return range(int(first), int(last))


def albums():
    """Each album by its name."""
    for number in numbers():
        yield f"album {number}", drawn(number)
        if number % 2 == 0:
            yield f"album {number} about its cover", covered(number)


@pytest.fixture(scope="module")
def hunted(tmp_path_factory):
    """Every fault of every album drawn, and how often each sort of thing was reckoned."""
    if not PROGRAM.is_file():
        not_run(f"there is no program at {PROGRAM}; `tests/run` builds it")
    folder, faults, tally = tmp_path_factory.mktemp("hunt"), [], Counter()
    for name, album in albums():
        try:
            hunt = Hunt(name.replace(" ", "-"), folder, *album)
            faults += [f"{name}: {fault}" for fault in (*hunt.faults(), *hunt.answers())]
            tally += hunt.tally
        except Ended as ended:
            faults.append(f"{name}: {ended}")
    return faults, tally


def test_verdicts(hunted):
    no_faults(hunted[0])


def test_enough_was_reckoned(hunted, tables):
    tally = hunted[1]
    tables["reckonings of albums drawn at random", ""] = [
        f"{count:7} {sort}" for sort, count in sorted(tally.items()) if ": " not in sort
    ]
    short = {sort: least for sort, least in SORTS.items() if tally[sort] < least}
    no_faults(f"{sort}: reckoned {tally[sort]} times, at least {least} are wanted" for sort, least in short.items())
    one_way = [f"{sort}: {way}" for sort in EITHER_WAY for way in ("no", "yes") if not tally[f"{sort}: {way}"]]
    no_faults(f"{sort} never came up" for sort in one_way)
