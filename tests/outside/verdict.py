# SPDX-License-Identifier: MIT
"""How a check ends: with no fault, with all its faults one a line, or loudly because it could not run.

A check that cannot run counts as failed. Only a person who sets HINGELEAF_ALLOW_SKIPS=1 on a machine of their own
(CI is not set) may go on without it.
"""

import os

import pytest

#: More faults than this are counted, not told.
TOLD = 30


def no_faults(faults):
    """Fails with every fault that was found."""
    found = list(faults)
    if found:
        more = [f"... and {len(found) - TOLD} more"] if len(found) > TOLD else []
        pytest.fail("\n".join([*found[:TOLD], *more]), pytrace=False)


def not_run(why):
    """Ends the running test because it has nothing to check."""
    if os.environ.get("HINGELEAF_ALLOW_SKIPS") == "1" and os.environ.get("CI", "") in ("", "false"):
        pytest.skip(f"NOT RUN: {why}")
    pytest.fail(f"NOT RUN: {why}", pytrace=False)
