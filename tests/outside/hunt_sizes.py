# SPDX-License-Identifier: MIT
"""One thing that was reckoned of an album, and what follows from its sizes alone.

Each `Reckoned` names the findings that would say so. Below zero at best, one of them must be there; above zero at
worst, the first one of them must not.
"""

import math
from dataclasses import dataclass

from hunt_albums import SHEETS

#: Less than this is arithmetic and the four decimals of a DXF, mm.
HAIR = 0.02


@dataclass
class Reckoned:
    """One thing that was reckoned, in mm."""

    sort: str
    about: str
    ids: tuple
    at_best: float
    at_worst: float

    @property
    def first(self):
        """The findings of which it would be wrong to say so without need."""
        if self.sort == "sizes of a page":
            return (f"{self.ids[0]}: {self.about.split(' (')[0]}",)
        return self.ids if self.sort == "part on a sheet" else self.ids[:1]

    def __str__(self):
        return f"{self.sort}, {self.about}: {self.at_best:.2f} mm at best, {self.at_worst:.2f} at worst"


def by_sizes(album):
    """What the sizes of a page say of it before anything is cut."""
    wide, tall, seam = album["page"]["width"], album["page"]["height"], album["page"]["seam"]
    for number, entry in enumerate(album["pages"], 1):
        about, kind = f"page {number} ({entry['kind']})", entry["kind"]

        def reckoned(spare, *ids, about=about):
            return Reckoned("sizes of a page", about, ids, spare + HAIR, spare - HAIR)

        if kind == "wallet":
            yield reckoned(wide - entry["pocket"], "pocket-too-wide")
            yield reckoned(wide - entry["overflap"], "flap-too-wide")
            yield reckoned(entry["overflap"] + entry["pocket"] - wide, "flap-too-short")
        if kind in ("side-loading", "waterfall", "library-card") and "pocket" in entry:
            yield reckoned(wide - entry["pocket"], "pocket-too-wide")
            yield reckoned(entry["pocket"] - 2 * seam, "pocket-too-narrow", "pocket-too-wide")
        if kind == "waterfall":
            ids = ("steps-too-tall", "pocket-too-wide", "pocket-too-narrow")
            yield reckoned(tall - 2 * seam - entry["steps"] * entry["step"], *ids)
        if kind == "library-card":
            ids = ("pocket-too-tall", "pocket-too-low", "pocket-too-wide", "pocket-too-narrow")
            yield reckoned(tall - entry["height"] - entry["raise"], *ids)


def of_case(album):
    """What the sizes of a case say of it, where the album names them: B2 to B4."""
    cover, stocks = album.get("cover", {}), album["stocks"]
    if cover.get("kind") != "case":
        return
    board, paper = stocks[cover["board"]]["caliper"], stocks[cover["covering"]]["caliper"]
    ends = stocks[cover.get("endpaper", cover["covering"])]["caliper"]
    turn_in, leg = cover.get("turn_in"), cover.get("mitre", 1.25 * board) * math.sqrt(2)
    if "joint" in cover:
        # The board's edge has to turn beside the spine board's, the papers between them; one and a half boards are quiet.
        spare = cover["joint"] - board - paper - ends
        quiet = min(cover["joint"] - 1.5 * board, spare - 0.2)
        yield Reckoned("joint of a case", "cover", ("joint-narrow",), spare, quiet - HAIR)
    if "mitre" in cover:
        least, most = cover["mitre"] - board, 1.5 * board - cover["mitre"]
        yield Reckoned("mitre of a case", "cover", ("mitre-small",), least + HAIR, least - HAIR)
        ids = ("mitre-large", "turn-in-narrow", "joint-narrow")
        yield Reckoned("mitre of a case", "cover", ids, most + HAIR, most - HAIR)
    if turn_in:
        # 12.7 mm hold, and it must reach past the mitres beside it.
        quiet = min(turn_in - 12.7, turn_in + board - 1 - leg)
        ids = ("turn-in-narrow", "joint-narrow", "mitre-small")
        yield Reckoned("turn-in of a case", "cover", ids, turn_in - 12.7 + HAIR, quiet - HAIR)


def too_big(album, pieces, machine, left_out=()):
    """Parts and the largest rectangle that the machine leaves of a sheet of their stock."""
    instead = tuple(f"page {int(path[6:-1]) + 1} " for path in left_out if path.startswith("pages[")) or ("\0",)
    for flat in {id(flat): flat for used, flat in pieces.items() if not used.startswith(instead)}.values():
        stock = album["stocks"][flat.facts["stock"]]
        free = "grain" not in stock and "pattern" not in stock
        # What is made of pieces is made otherwise on another sheet.
        if not free or flat.kind in ("wrap cover", "concertina", "covering"):
            continue
        wide, tall = (side + machine["kerf"] for side in flat.outline.bounds[2:])
        across, up = (side - 2 * machine["margin"] for side in SHEETS[stock["sheet"]])
        spare = max(min(across - wide, up - tall), min(across - tall, up - wide))
        ids = tuple(f"too-big: {used}" for used in flat.facts["used_in"] if not used.startswith(instead))
        yield Reckoned("part on a sheet", flat.facts["id"], ids, spare + HAIR, spare - HAIR)
