# SPDX-License-Identifier: MIT
"""The table as it is seen in a real browser: nothing lies over another thing, is cut off, or stands out of its line."""

import pytest

from test_table import drive
from verdict import no_faults

JOBS = [
    "the run of pages keeps to its own place",
    "the run of pages is printed",
    "a picture over the whole window begins with something to see",
    "the verdict is never cut off, and leaves room",
    "the chosen page is known by its frame where the reader's colours hold",
    "the album's name is read in full",
    "fields of a row stand in one line",
    "the drawing is as large as there is room",
    "no sentence ends twice, and no fraction breaks",
    "a sheet is called as one says it",
    "nothing is known of what waits for the program",
    "kinds are chosen two in a row on a phone",
]


@pytest.fixture(scope="module")
def used():
    return drive("table_looks.mjs")


@pytest.mark.parametrize("job", JOBS)
def test_it_looks_as_it_should(used, job):
    no_faults(used[1][job])
