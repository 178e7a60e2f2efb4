# SPDX-License-Identifier: MIT
"""The written guide against the written report: every score of every part is scored in one step and folded in one, every joint,
hole and other deed that the steps name is named once and none is left out between them, and every piece of the list comes into
a step in which something is made of it.

The page is read by Python's own HTML reader; what a step speaks of stands in its `data-of`.
"""

from collections import Counter
from html.parser import HTMLParser

import pytest

from conftest import ALBUMS
from verdict import no_faults

#: Sections in which the pieces are put together.
MAKING = {"pages", "spine", "cover", "bind", "fill"}


class Steps(HTMLParser):
    """The steps of a guide: section, what it speaks of, letters of pieces that it names; and the letters of the list."""

    def __init__(self):
        super().__init__()
        self.steps, self.listed = [], []
        self.marked, self.depth, self.row = False, 0, False

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if tag == "li":
            self.depth += bool(self.depth)
            if attrs.get("class") == "step":
                self.depth = 1
                self.steps.append((attrs["data-section"], (attrs.get("data-of") or "").split(), set()))
        elif tag == "th":
            self.row = attrs.get("scope") == "row"
        elif tag == "b":
            self.marked = attrs.get("class") == "mark"

    def handle_endtag(self, tag):
        if tag == "li" and self.depth:
            self.depth -= 1
        elif tag == "th":
            self.row = False
        elif tag == "b":
            self.marked = False

    def handle_data(self, data):
        if self.marked and self.depth:
            self.steps[-1][2].add(data)
        elif self.marked and self.row:
            self.listed.append(data)


def read(page):
    steps = Steps()
    steps.feed(page)
    return steps


def faults(page, report):
    """All that the guide leaves out or says twice."""
    found = read(page)
    told = Counter(one for _, of, _ in found.steps for one in of)
    yield from (f"told {times} times: {one}" for one, times in told.items() if times > 1)
    for number, part in enumerate(report["parts"]):
        for score in range(len(part["scores"])):
            yield from (f"untold: {what} {score} of {part['id']}" for what in ("score", "fold")
                        if f"{what}-{number}-{score}" not in told)
    for what in ("bond", "deed"):
        numbers = {int(one.split("-")[1]) for one in told if one.startswith(what)}
        yield from (f"untold: {what} {number}" for number in range(max(numbers, default=-1) + 1) if number not in numbers)
    if not any(one.startswith("bond") for one in told):
        yield "no joint is told"
    used = set().union(*(marks for section, _, marks in found.steps if section in MAKING))
    yield from (f"{mark} is in the list and in no step" for mark in found.listed if mark not in used)
    if len(found.listed) != len(report["parts"]):
        yield f"{len(found.listed)} pieces are listed, {len(report['parts'])} are cut"


@pytest.mark.parametrize("album", ALBUMS, ids=lambda album: album.stem)
def test_nothing_is_left_out_or_said_twice(kits, album):
    kit = kits.get(album, "plain")
    no_faults(faults((kit.folder / "guide.html").read_text(encoding="utf-8"), kit.report))


def test_what_is_taken_out_or_doubled_is_found(kits):
    kit = kits.get(ALBUMS[0], "plain")
    page = (kit.folder / "guide.html").read_text(encoding="utf-8")
    first = next(of for section, of, _ in read(page).steps if section in MAKING)
    start = page.index(f'data-of="{" ".join(first)}"')
    taken = page[:start] + page[start:].replace(" ".join(first), "", 1)
    doubled = page[:start] + page[start:].replace(" ".join(first), " ".join(first + first), 1)
    assert not list(faults(page, kit.report))
    assert any(fault.startswith("untold") for fault in faults(taken, kit.report))
    assert any(fault.startswith("told 2 times") for fault in faults(doubled, kit.report))
