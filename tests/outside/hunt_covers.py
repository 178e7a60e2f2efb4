# SPDX-License-Identifier: MIT
"""Covers, reckoned from their cut pieces: a wrap of one piece or joined, and a case of boards under covering paper.

Lengths are measured off the pieces; what they must come to is worked out by hand, beside each.
"""

import math

import numpy as np
from shapely.geometry import Point

from hunt_pages import profile
from hunt_sizes import HAIR, Reckoned

#: Each in an album in inches, and in one in mm.
#: How far a cover stands out, unless the album says another: 1/8 in or 3 mm (B1).
SQUARE = (3.175, 3.0)
#: A seam that joins two pieces: 1/2 in or 13 mm (C5).
LAP = (12.7, 13.0)
#: What is turned in: 5/8 in or 16 mm (B2). A joint: two boards, at least 1/4 in or 7 mm (B4).
TURN_IN = (15.875, 16.0)
JOINT = (6.35, 7.0)
#: A width is rounded up to what a ruler has: half a millimetre, or 1/32 in.
RULER = 25.4 / 32
#: What a strip glued on another raises it by, besides its own caliper, at most (H7).
FILM = 0.1


class Covered:
    """An album's cover, and what it goes round."""

    def __init__(self, reckoning):
        self.reckoning, self.album, self.pieces = reckoning, reckoning.album, reckoning.pieces
        self.page, self.spine, self.entry = self.album["page"], self.album["spine"], self.album["cover"]
        self.inches = self.album["units"] == "in"
        self.square = self.entry.get("square", SQUARE[not self.inches])
        mine = [reckoning.loaded(page) for page in reckoning.pages]
        ends = sorted({0.0, self.page["width"], *(end for *_, strips in mine for strip in strips for end in strip[:2])})
        at = [(one + other) / 2 for one, other in zip(ends, ends[1:]) if 0.0 <= one and other <= self.page["width"]]
        columns = np.array([profile(strips, np.array(at)) for *_, strips in mine])
        self.pitch = reckoning.pitch()
        flexi = self.spine["kind"] == "flexi-hinge"
        stands = self.pitch * len(mine) if self.pitch and flexi else 0.0
        #: How thick all pages are where they are thickest, and at most; the spine takes its pitches too.
        self.thick = max(columns.sum(axis=0).max(), stands)
        lining = 2 * reckoning.stocks["paper"] if "panels" in self.album and self.entry["kind"] == "wrap" else 0.0
        #: Where in its pocket an insert lies is not said, nor how triangles lie over seams.
        unsaid = sum(self.unsaid(page) for page in reckoning.pages)
        self.at_most = max(self.thick + lining + unsaid, (self.pitch or 0.0) * (len(mine) + 1), self.foot())

    def unsaid(self, page):
        """How much of a page may or may not lie over the rest of it."""
        own = self.reckoning
        put = any(own.pockets[number].page == page.number for *_, number in own.inserts)
        corners = 2 * own.caliper(page.entry) if page.entry.get("mount") == "triangles" else 0.0
        return put * own.seam_layers(page) + corners

    def foot(self):
        """What stands on a cover: of stubs, guards of two layers and the liner's two wings round all (F9)."""
        if self.spine["kind"] != "stubs":
            return 0.0
        stubs = sum(name.startswith("stub ") for name in self.pieces)
        return (stubs + 2 * len(self.album["pages"]) + 2) * self.reckoning.caliper(self.spine)

    def all(self):
        yield from self.case() if self.entry["kind"] == "case" else self.wrap()

    def reach(self):
        """From the spine to the pages' fore-edge (H8), at least and at most: what tabs stop short (H6), strips in steps (H7)."""
        own, kind = self.reckoning, self.spine["kind"]
        least = self.page["width"] + (own.gusset if kind != "plain-hinge" else 0.0)
        card = max(own.stocks.values())
        short = own.tab - min(own.tab, self.goes_in(math.pi * card))
        strips = math.ceil(len(self.album["pages"]) / 2)
        raised = strips * (own.caliper(self.spine) + FILM) if kind in ("flexi-hinge", "plain-hinge") else card
        tabs = max([page.entry.get("rise", 0.0) for page in own.pages])
        return least, least + short + raised + tabs + 20 * any(page.entry["kind"] == "divider" for page in own.pages)

    def goes_in(self, taller):
        lead = self.reckoning.lead_in()
        return max(self.reckoning.tab * (1 - taller / (2 * lead)), 0.0) if lead > 0 else 0.0

    # A wrap.

    def wrap(self):
        """H8, D3, F9, B1: its spine takes the pages, its panels go over them with their square."""
        row = self.row()
        if row is None:
            return
        at, total, talls, joints = row
        caliper = self.reckoning.caliper(self.entry)
        spine, front = at[-1] - at[-2], total - at[-1]
        off = HAIR + joints * (caliper + 0.35)
        kind = self.spine["kind"]
        if kind != "concertina":
            ids = ("cover-spine-narrow",)
            least, most = max(self.thick, self.foot()) + caliper, self.at_most + caliper + RULER
            yield Reckoned("cover's spine", "cover", ids, spine - least + 0.1 + off, spine - most - off)
            if "spine" not in self.entry:
                wide = most + off - spine
                yield Reckoned("cover's spine no wider than its pages", "cover", ("cover",), wide, wide)
        least, most = self.reach()
        over = front - least - self.square
        yield Reckoned("cover beyond the fore-edge", "cover", ("cover",), over + off, over + off)
        if kind != "stubs":
            wide = most + self.square + RULER + off - front
            yield Reckoned("cover no wider than its pages", "cover", ("cover",), wide, wide)
        # With a flap its back is a caliper wider, to clear the front's edge; its fore-edge is a caliper and the front deeper.
        flap = self.entry.get("flap", 0.0)
        back = at[-2] - (at[-3] if flap else 0.0)
        alike = off - abs(back - front - (caliper if flap else 0.0))
        yield Reckoned("back as wide as the front", "cover", ("cover",), alike, alike)
        if flap:
            long = off - abs(at[0] - flap)
            yield Reckoned("cover's flap", "cover", ("cover",), long, long)
            deep = at[1] - at[0] - spine - caliper
            yield Reckoned("cover's fore-edge", "cover", ("cover",), deep + off, deep + off)
        for tall in talls:
            high = HAIR - abs(tall - self.page["height"] - 2 * self.square)
            yield Reckoned("cover beyond head and tail", "cover", ("cover",), high, high)
        if joints:
            yield Reckoned("cover in pieces", "cover", ("cover",), over + off, over + off)

    def row(self):
        """Scores of the whole wrap, its width, the heights of its pieces, in how many places it is joined.

        Where a seam turns with a score it ends there; else it is as wide as the album says.
        """
        flats = [self.pieces["cover"]] if "cover" in self.pieces else []
        while f"cover, piece {len(flats) + 1}" in self.pieces:
            flats.append(self.pieces[f"cover, piece {len(flats) + 1}"])
        if not flats or any(flat.kind != "wrap cover" for flat in flats):
            return None
        start, at = 0.0, set()
        for number, flat in enumerate(flats, 1):
            wide = flat.outline.bounds[2]
            scores = sorted(score.bounds[0] for score in flat.scores)
            lap = 0.0
            if number < len(flats):
                lap = self.entry.get("lap", LAP[not self.inches])
                near = [wide - score for score in scores if wide - score < lap + 0.01]
                lap = near[0] if near else lap
            at |= {round(start + score, 3) for score in scores if score <= wide - lap + 0.01}
            start += wide - lap
        # A score at which two pieces meet is there on both, a caliper off at most.
        caliper = self.reckoning.caliper(self.entry)
        at = sorted(at)
        return [a for a, b in zip(at, [*at[1:], math.inf]) if b - a > caliper + 0.01], start, [
            flat.outline.bounds[3] for flat in flats
        ], len(flats) - 1

    # A case.

    def case(self):
        """B1 to B4, D3: boards, the joints between them, what of the covering is turned in, what lines it."""
        pieces = [self.pieces.get(name) for name in ("covering", "back board", "front board", "spine board")]
        if None in pieces:
            return
        covering, back, front, spine = (flat.outline.bounds[2:] for flat in pieces)
        stocks = self.reckoning.stocks
        board, paper = stocks[self.entry["board"]], stocks[self.entry["covering"]]
        ends = stocks[self.entry.get("endpaper", self.entry["covering"])]

        def exactly(sort, off):
            return Reckoned(sort, "cover", ("cover",), HAIR - abs(off), HAIR - abs(off))

        def within(sort, size, least, most):
            off = min(size - least, most - size) + HAIR
            return Reckoned(sort, "cover", ("cover",), off, off)

        yield exactly("boards alike", max(abs(back[0] - front[0]), abs(back[1] - front[1])))
        yield exactly("boards beyond head and tail", front[1] - self.page["height"] - 2 * self.square)
        yield exactly("spine board as tall as boards", spine[1] - front[1])
        # From tail to head the covering is a board, and at either end what is turned in and the board's edge.
        turned = (covering[1] - front[1]) / 2 - board
        yield exactly("turn-in", turned - self.entry.get("turn_in", TURN_IN[not self.inches]))
        # From fore-edge to fore-edge it is two boards, two joints, the spine board, and the same at either end.
        joint = (covering[0] - 2 * front[0] - spine[0]) / 2 - board - turned
        yield exactly("joint", joint - self.entry.get("joint", max(2 * board, JOINT[not self.inches])))
        # Between the boards, closed, lie the pages and on either side what lines a board and is turned in over it.
        room = spine[0] - 2 * (board + paper + ends)
        ids = ("cover-spine-narrow",)
        if self.spine["kind"] != "concertina":
            most = self.at_most + RULER
            yield Reckoned("case's spine", "cover", ids, room - max(self.thick, self.foot()) + 0.1, room - most)
            if "spine" not in self.entry:
                yield Reckoned("case's spine no wider than its pages", "cover", ("cover",), most - room, most - room)
        # The joint goes up the spine board's edge and on to the board: so far the board stands off what lines the spine.
        stands_off = joint - board - paper - ends
        least, most = self.reach()
        reaches = stands_off + front[0] - self.square
        if self.spine["kind"] != "stubs":
            yield within("boards beyond the fore-edge", reaches, least, most + RULER)
        yield from self.lined(front, spine, (board, paper, ends), joint)
        # From a board's corner to the cut across the covering's corner: one and a quarter boards, unless it is said (B3).
        corner = Point(turned + board, turned + board)
        mitre = pieces[0].outline.exterior.distance(corner)
        yield exactly("mitre", mitre - self.entry.get("mitre", 1.25 * board))

    def lined(self, front, spine, thick, joint):
        """The strip over the spine board and both joints, and the end papers, that leave the square."""
        board, paper, ends = thick
        lining, tall = self.pieces["spine lining"], front[1] - 2 * self.square
        scores = sorted(score.bounds[0] for score in lining.scores)
        wide, high = lining.outline.bounds[2:]
        apart = scores[-1] - scores[0]
        # It lies between the boards that stand up, as thick as it is, and goes up the joints to a lap on either of them.
        between = spine[0] - 2 * board - ends - apart
        lap = (wide - apart) / 2 - (joint - board - paper - ends / 2)
        off = {"lining between the boards": between, "lining's height": high - tall}
        off["lining's lap"] = lap - self.entry.get("lap", LAP[not self.inches])
        for sort, here in off.items():
            yield Reckoned(sort, "cover", ("cover",), HAIR - abs(here), HAIR - abs(here))
        for name in ("back end paper", "front end paper"):
            x1, y1 = self.pieces[name].outline.bounds[2:]
            here = HAIR - max(abs(x1 - front[0] + self.square), abs(y1 - tall))
            yield Reckoned("end paper", "cover", ("cover",), here, here)
