# SPDX-License-Identifier: MIT
"""Albums drawn at random: every kind of page, spine, cover and insert, sizes that just fit, just do not, or are absurd.

The same number gives the same album on every machine.
"""

import random

PRINTS = {"2R": (63.5, 88.9), "3R": (88.9, 127), "4R": (101.6, 152.4), "9x13": (89, 127), "id-card": (85.6, 54)}
#: Sheets by name, mm (S1, S4, S6).
SHEETS = {
    "A4": (210, 297), "A3": (297, 420), "A2": (420, 594), "SRA2": (450, 640), "letter": (215.9, 279.4),
    "700x500mm": (700, 500), "700x1000mm": (700, 1000),
}
#: Mostly large, so that most albums fit.
CARDS = ["A4", "A3", "A2", "SRA2", "letter", *["700x500mm"] * 3, *["700x1000mm"] * 6]
PAPERS = ["A4", "A2", "700x500mm", "700x1000mm"]
STRONG = ["A3", "SRA2", "700x500mm", "700x1000mm"]


def drawn(number):
    """Album number so and so with every length in mm, the same as its file says it, and the machine's settings."""
    return Draw(number).album()


def covered(number):
    """The same of an album with a cover round pages that go together."""
    return Covered(number).album()


class Draw:
    """One album being drawn."""

    def __init__(self, number):
        self.random = random.Random(number)
        self.inches = self.some(0.2)
        self.width = self.size(90, 230)
        self.height = self.size(90, 260)
        self.seam = self.size(8, 20) if self.some(0.85) else self.size(3, 45)
        self.tab = self.size(9, 20) if self.some(0.85) else self.size(4, 60)

    def some(self, share):
        """Whether something that happens in this share of all albums happens."""
        return self.random.random() < share

    def size(self, least, most):
        """A length in mm that a ruler has, or now and then any."""
        step = 25.4 / 16 if self.inches else 0.5
        length = self.random.uniform(least, most)
        return max(round(length / step), 1) * step if self.some(0.9) else round(length, 3)

    def pick(self, *of):
        return self.random.choice(of)

    def maybe(self, share, **fields):
        """Fields that are said in this share of all albums."""
        return fields if self.some(share) else {}

    def album(self):
        album = self.entries()
        margin, kerf = self.pick(0, 0, 3, 5, 8), self.pick(0, 0, 0.1, 0.2)
        machine = {"margin": margin, "kerf": kerf, "gap": self.pick(0, 1, 2)}
        said = in_inches(album) if self.inches else album
        return {**album, "units": "in" if self.inches else "mm"}, said, machine

    def entries(self):
        pages = [self.page() for _ in range(self.pick(1, 2, 2, 3, 3, 4, 4, 5, 6, 7, 8, 10, 13))]
        if self.some(0.5):
            pages = [self.pick(*pages[:3]) for _ in pages]
        card = self.pick(0.18, 0.2, 0.25, 0.3, 0.3, 0.35, 0.35, 0.4, 0.5, 0.8)
        return {
            "format": "hingeleaf-album/1",
            "stocks": {
                "card": {"sheet": self.pick(*CARDS), "caliper": card, **self.grain()},
                "paper": {"sheet": self.pick(*PAPERS), "caliper": 0.2, **self.maybe(0.2, pattern="one-way")},
                "strong": {"sheet": self.pick(*STRONG), "caliper": self.pick(0.3, 0.4, 0.6)},
                "board": {"sheet": "700x500mm", "caliper": self.pick(1.5, 2.0, 3.0)},
            },
            "page": {"width": self.width, "height": self.height, "seam": self.seam, "stock": "card"},
            "pages": pages,
            "spine": self.spine(),
            **self.maybe(0.55, cover=self.cover()),
            **self.maybe(0.4, panels={"reveal": self.size(2, 7), "stock": "paper", **self.maybe(0.2, runs_on=True)}),
            **self.maybe(0.6, inserts=[self.insert() for _ in range(self.pick(1, 1, 2))]),
            **self.maybe(0.1, bound=self.pick("right", "top")),
        }
    def grain(self):
        return self.maybe(0.2, grain=self.pick("long", "short"))

    def page(self):
        make = self.pick(
            self.plain, self.plain, self.wallet, self.wallet, self.side, self.waterfall, self.library,
            self.frame, self.tuck, self.gate, self.fold_out, self.divider, self.corner,
        )
        stock = self.maybe(0.05, stock="strong")
        return {**make(), **self.maybe(0.15, content=self.size(0.5, 5)), **stock}

    def faced(self, kind, **fields):
        return {"kind": kind, **self.maybe(0.5, faces=self.pick("front", "back")), **fields}

    def plain(self):
        kind = self.pick("pocket", "pocket", "sleeve", "notched")
        return {"kind": kind, **(self.maybe(0.5, notch=self.size(8, 40)) if kind == "notched" else {})}

    def wallet(self):
        pocket = self.size(0.4 * self.width, 0.95 * self.width) if self.some(0.95) else self.width + self.size(0.5, 5)
        over = self.size(-4, 25) if self.some(0.9) else self.size(25, 120)
        return self.faced("wallet", pocket=pocket, overflap=max(self.width - pocket + over, 2), **self.depth())

    def depth(self):
        return self.maybe(0.25, depth=self.size(1, 6))

    def side(self):
        return self.faced("side-loading", **self.maybe(0.5, pocket=self.size(40, self.width)))

    def waterfall(self):
        steps = self.pick(2, 3, 4)
        step = self.size(8, max((self.height - 2 * self.seam) / steps, 9)) if self.some(0.9) else self.size(8, 45)
        return self.faced("waterfall", steps=steps, step=step, **self.maybe(0.4, pocket=self.size(40, self.width)))

    def library(self):
        tall = self.size(40, 0.7 * self.height)
        mouth = self.pick("slanted", "notched", "straight")
        return self.faced(
            "library-card",
            pocket=self.size(45, 1.02 * self.width),
            height=tall,
            mouth=mouth,
            **{"raise": self.size(0, 30)},
        )

    def print(self):
        """A print that goes on the page whichever way it lies, where there is one."""
        fits = [name for name, size in PRINTS.items() if max(size) + 2 * self.seam + 8 < min(self.width, self.height)]
        return self.pick(*fits) if fits and self.some(0.9) else self.pick(*PRINTS)

    def frame(self):
        return self.faced("frame", print=self.print(), lies=self.pick("upright", "across"), play=self.size(1.5, 5))

    def tuck(self):
        front = self.maybe(0.6, front=self.size(0.35 * self.height, 1.01 * self.height))
        return self.faced("tuck-envelope", **front, **self.maybe(0.5, tuck=self.size(8, 40)), **self.depth())

    def gate(self):
        return self.faced("gate-fold", **self.maybe(0.5, gap=self.size(0, 20)), **self.depth())

    def fold_out(self):
        step = self.maybe(0.5, step=self.size(0.5, 12))
        return self.faced("fold-out", leaves=self.pick(1, 2), **step, **self.depth())

    def divider(self):
        return {"kind": "divider", "tab_of": self.pick(3, 5, 7), "position": self.pick(1, 2, 3)}

    def corner(self):
        return {
            "kind": "corner-mount", "print": self.print(), "lies": self.pick("upright", "across"),
            "mount": self.pick("slots", "triangles"), **self.maybe(0.3, corner=self.size(8, 25)),
        }

    def spine(self):
        kind = self.pick("flexi-hinge", "flexi-hinge", "flexi-hinge", "concertina", "plain-hinge", "stubs")
        pitch = self.size(3, 14) if self.some(0.9) else self.size(1, 40)
        spine = {"kind": kind, "tab": self.tab, **self.maybe(0.2, stock="strong")}
        spine |= self.maybe(0.3, lead_in=self.size(0.5, 15)) | self.maybe(0.15, ease=self.size(0.5, 4))
        if kind != "stubs" or self.some(0.3):
            spine["pitch"] = pitch
        if kind != "plain-hinge":
            spine["gusset"] = self.size(2, 12)
        if kind in ("flexi-hinge", "plain-hinge"):
            spine |= self.maybe(0.15, wing=self.size(1, 1.2 * pitch))
        return spine

    def cover(self):
        if self.some(0.3):
            return {"kind": "case", "board": "board", "covering": "paper", **self.maybe(0.3, square=self.size(1, 6))}
        return {
            "kind": "wrap", "stock": self.pick("card", "strong"), "square": self.size(0, 6),
            **self.maybe(0.2, spine=self.size(10, 90)), **self.maybe(0.2, flap=self.size(30, 120)),
            **self.maybe(0.15, ties=self.size(5, 15)),
            **self.maybe(0.15, window_width=self.size(30, 150), window_height=self.size(30, 150)),
        }

    def insert(self):
        kind = self.pick("tag", "tag", "journal-card", "journal-card", "photo-mat", "envelope", "booklet", "accordion")
        insert = {"kind": kind, "count": self.pick(1, 1, 2, 3, 5)}
        if self.some(0.8):
            # Pockets end near the page's edges: sizes about there tell a sound verdict from a wrong one.
            wide, tall = self.pick(self.width, self.width - self.tab), self.pick(self.height, 0.66 * self.height)
            insert["width"] = max(wide + self.size(-14, 3) - self.pick(0, 0, 0.3 * wide), 20)
            insert["height"] = max(tall + self.size(-14, 3) - self.pick(0, 0, 0.3 * tall), 20)
            if self.some(0.5):
                insert["width"], insert["height"] = self.size(25, 0.6 * self.width), self.size(25, 0.7 * self.height)
        if kind == "photo-mat":
            insert["print"] = self.print()
        return insert | self.maybe(0.5, thickness=self.size(0.5, 5)) | self.maybe(0.1, pages=[1])


class Covered(Draw):
    """An album about its cover: plain pages, no inserts, sheets that are often too small for a wrap in one piece."""

    def entries(self):
        entries = {**super().entries(), "cover": self.cover(), "bound": self.pick("left", "left", "right")}
        entries.pop("inserts", None)
        entries["stocks"]["strong"] |= {"sheet": self.pick("A3", "A3", *STRONG)}
        entries["stocks"]["board"] |= {"sheet": self.pick("700x1000mm", "700x500mm")}
        return entries

    def page(self):
        own = self.pick({"kind": "pocket"}, {"kind": "sleeve"}, {"kind": "side-loading"}, self.divider())
        return {**own, **self.maybe(0.4, content=self.size(0.5, 5))}

    def cover(self):
        if self.some(0.5):
            boards = {"board": "board", "covering": "paper", **self.maybe(0.3, endpaper="card")}
            sizes = self.maybe(0.4, square=self.size(1, 6)) | self.maybe(0.2, spine=self.size(10, 120))
            sizes |= self.maybe(0.4, joint=self.size(1.5, 13)) | self.maybe(0.4, turn_in=self.size(9, 22))
            return {"kind": "case", **boards, **sizes, **self.maybe(0.3, mitre=self.size(1, 6))}
        sizes = self.maybe(0.3, flap=self.size(30, 120)) | self.maybe(0.3, lap=self.size(8, 18))
        sizes |= self.maybe(0.2, spine=self.size(10, 120))
        return {"kind": "wrap", "stock": self.pick("card", "strong", "strong"), "square": self.size(0, 6), **sizes}


#: Fields that hold a number, but no length.
NUMBERS = {"count", "caliper", "tab_of", "position", "steps", "leaves", "pages"}


def in_inches(album):
    """The same album with its lengths in inches. A caliper stays what it is, with its unit."""

    def turned(name, value):
        if isinstance(value, dict):
            return {key: turned(key, item) for key, item in value.items()}
        if isinstance(value, list) and name != "pages" or name == "pages" and value and isinstance(value[0], dict):
            return [turned(name, item) for item in value]
        if name == "caliper":
            return f"{value} mm"
        if isinstance(value, bool) or not isinstance(value, (int, float)) or name in NUMBERS:
            return value
        return round(value / 25.4, 6)

    return {**turned("album", album), "units": "in"}
