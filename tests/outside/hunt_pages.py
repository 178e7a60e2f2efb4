# SPDX-License-Identifier: MIT
"""Pages put together from their folded pieces: what lies where, with the spine at the left, and what their pockets are.

Where a piece goes is taken from what the catalogue says of each kind; how large it is, from its cut.
"""

from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import box
from shapely.ops import polygonize, unary_union

#: Kinds whose two walls make one sleeve, into which the spine's tab slides.
SLEEVES = ("pocket", "notched", "sleeve", "corner-mount")
#: Pages that carry their pocket on one leaf, to which the tab is stuck.
ON_A_LEAF = {"side-loading": ("pocket",), "library-card": ("pocket",), "frame": ("frame",), "waterfall": ()}


@dataclass
class Pocket:
    """A pocket: its front as it lies on the page, and which of its edges hold its two sheets together."""

    page: int
    kind: str
    front: object
    sealed: dict
    #: The edge over which a flap is folded, and how far what is inside may stand out under or above it.
    flap: str | None = None
    out: dict = field(default_factory=lambda: {"across": 0.0, "up": 0.0})
    #: How much of its width a tab takes that slides into it.
    tab: float = 0.0
    caliper: float = 0.0

    def size(self, way):
        """Its front in one direction, where it is lowest."""
        x0, y0, x1, y1 = self.front.bounds
        return x1 - x0 - self.tab if way == "across" else lowest(self.front) - y0

    def seals(self, way):
        return sum(self.sealed[edge] for edge in EDGES[way])


EDGES = {"across": ("spine", "fore-edge"), "up": ("tail", "head")}


@dataclass
class Page:
    """One page: every layer as an outline with its thickness, and its pockets in order."""

    number: int
    entry: dict
    layers: list
    pockets: list


def seam_at(panel, height, head):
    """A seam at the head, or at the tail, whichever of them it is drawn at; what is as tall as the page stays."""
    y0, y1 = panel.bounds[1::2]
    off = height - y1 - y0
    return affinity.translate(panel, 0, off) if (off > 0) == head else panel


def lowest(front):
    """How high the lowest place of a pocket's mouth stands."""
    x0, y0, x1, y1 = front.bounds
    across = np.linspace(x0 + 0.05, x1 - 0.05, 81)
    rays = shapely.linestrings([[(x, y0 - 1), (x, y1 + 1)] for x in across])
    return float(shapely.bounds(shapely.intersection(front, rays))[:, 3].min())


class Binder:
    """Makes an album's pages of its pieces."""

    def __init__(self, album, pieces, tab):
        self.album, self.pieces, self.tab = album, pieces, tab
        self.width, self.height = album["page"]["width"], album["page"]["height"]

    def caliper(self, entry):
        return self.album["stocks"][entry.get("stock", self.album["page"].get("stock", "card"))]["caliper"]

    def page(self, number):
        entry = self.album["pages"][number - 1]
        page = Page(number, entry, [], [])
        if entry["kind"] in SLEEVES:
            self.sleeve(page)
        elif entry["kind"] in ON_A_LEAF:
            self.on_a_leaf(page)
        else:
            getattr(self, entry["kind"].replace("-", "_"))(page)
        return page

    def piece(self, page, which):
        return self.pieces[f"page {page.number} {which}"]

    def lay(self, page, flat, root, at, mirrored=False, riser=0.0):
        """Lays a folded piece on the page, its root's lower left there as the page is seen; gives the root."""
        x0, y0, x1, _ = root.bounds

        def placed(panel):
            if mirrored:
                panel = affinity.scale(panel, -1, 1, origin=(0, 0))
                return affinity.translate(panel, x1 + at[0], at[1] - y0)
            return affinity.translate(panel, at[0] - x0, at[1] - y0)

        caliper = self.caliper(page.entry)
        page.layers += [(placed(panel), caliper) for panel in flat.folded(root, riser)]
        return placed(root)

    @staticmethod
    def seals(flat, root, mirrored):
        """Which edges of a pocket's front are folds: what hangs there is stuck, and holds it shut."""
        x0, y0, x1, y1 = root.bounds
        edges = {"left": (x0, None), "right": (x1, None), "tail": (None, y0), "head": (None, y1)}
        if mirrored:
            edges["left"], edges["right"] = edges["right"], edges["left"]
        folds = [score.bounds for score in flat.borders(root)]

        def on(x, y):
            return any(
                (x is not None and max(abs(b[0] - x), abs(b[2] - x)) < 0.01)
                or (y is not None and max(abs(b[1] - y), abs(b[3] - y)) < 0.01)
                for b in folds
            )

        names = {"left": "spine", "right": "fore-edge"}
        return {names.get(edge, edge): on(*at) for edge, at in edges.items()}

    def sleeve(self, page):
        """Two walls, stuck to each other or folded at the head and the tail."""
        names = ["sleeve"] if page.entry["kind"] == "sleeve" else ["front", "back"]
        for name in names:
            flat = self.piece(page, name)
            root = flat.panel_like(self.width, self.height)
            start = len(page.layers)
            front = self.lay(page, flat, root, (0, 0))
            if name != "back":
                wall = front
            if name != "sleeve":
                # The front's seam is at the head, the back's at the tail; where both are one part, one is turned.
                own = [(seam_at(panel, self.height, name == "front"), thick) for panel, thick in page.layers[start:]]
                page.layers[start:] = own
        sealed = {"spine": False, "fore-edge": False, "tail": True, "head": True}
        pocket = Pocket(page.number, page.entry["kind"], wall, sealed, tab=self.tab)
        pocket.caliper = self.caliper(page.entry)
        page.pockets = [pocket]

    def ground(self, page, name="leaf", riser=0.0):
        """The leaf, with what is folded over it."""
        flat = self.piece(page, name)
        root = flat.panel_like(self.width, self.height)
        return flat, root, self.lay(page, flat, root, (0, 0), self.on_back(page), riser)

    @staticmethod
    def on_back(page):
        return page.entry.get("faces") == "back"

    def wallet(self, page):
        self.ground(page, "back", page.entry.get("depth", 0))
        flat = self.piece(page, "pocket")
        root, mirrored = flat.main(), self.on_back(page)
        front = self.lay(page, flat, root, (0, 0), mirrored)
        wide = front.bounds[2]
        pocket = Pocket(page.number, "wallet", front, self.seals(flat, root, mirrored), "fore-edge")
        pocket.out["across"], pocket.tab, pocket.caliper = self.width - wide, self.tab, self.caliper(page.entry)
        page.pockets = [pocket]

    def on_a_leaf(self, page):
        self.ground(page)
        kind, mirrored = page.entry["kind"], self.on_back(page)
        names = ON_A_LEAF[kind] or [f"pocket {step}" for step in range(1, page.entry["steps"] + 1)]
        for name in names:
            flat = self.piece(page, name)
            root = flat.main()
            x0, y0, x1, y1 = root.bounds
            front = self.lay(page, flat, root, self.at(page, x1 - x0, y1 - y0), mirrored)
            pocket = Pocket(page.number, kind, front, self.seals(flat, root, mirrored))
            pocket.caliper = self.caliper(page.entry)
            if not pocket.sealed["head"]:
                pocket.out["up"] = self.height - lowest(front)
            page.pockets.append(pocket)

    def at(self, page, wide, tall):
        """Where the catalogue puts such a pocket on its leaf."""
        if page.entry["kind"] == "library-card":
            return (self.width - wide) / 2, page.entry.get("raise", 15.0)
        if page.entry["kind"] == "frame":
            return min(max((self.width - wide) / 2, self.tab), self.width - wide), (self.height - tall) / 2
        return self.width - wide, 0.0

    def tuck_envelope(self, page):
        flat, root, _ = self.ground(page, "envelope", page.entry.get("depth", 0))
        mirrored = self.on_back(page)
        # Its front is the panel below the page's tail.
        below = [p for p in flat.panels if abs(p.bounds[3] - root.bounds[1]) < 0.01]
        under = max(below, key=lambda panel: panel.area)
        wide, tall = under.bounds[2] - under.bounds[0], under.bounds[3] - under.bounds[1]
        front = box(self.width - wide, 0, self.width, tall)
        seals = self.seals(flat, under, mirrored)
        # It is drawn upside down: its fold with the page is the pocket's foot.
        sealed = {**seals, "tail": seals["head"], "head": False}
        pocket = Pocket(page.number, "tuck-envelope", front, sealed, "head", caliper=self.caliper(page.entry))
        pocket.out["up"] = self.height - tall
        page.pockets = [pocket]

    def gate_fold(self, page):
        self.ground(page, "gate", page.entry.get("depth", 0))

    def fold_out(self, page):
        self.ground(page, "fold-out", page.entry.get("depth", 0))

    def divider(self, page):
        page.layers.append((self.piece(page, "divider").outline, self.caliper(page.entry)))


def greatest(layers):
    """The greatest sum of layers over one spot, and by strip from the spine: [(from, to, thickest)]."""
    edges = unary_union([shape.boundary for shape, _ in layers])
    # Edges that lie on one another to a micrometre have slivers between them.
    cells = [cell for cell in polygonize(edges) if not cell.buffer(-0.01).is_empty]
    spots = shapely.points([cell.representative_point().coords[0] for cell in cells])
    sums = sum(np.where(shapely.contains(shape, spots), thick, 0.0) for shape, thick in layers)
    return float(sums.max()), [(*cell.bounds[::2], float(s)) for cell, s in zip(cells, sums)]


def profile(strips, at):
    """The thickest at each of these distances from the spine."""
    return np.array([max((s for x0, x1, s in strips if x0 - 1e-9 <= x <= x1 + 1e-9), default=0.0) for x in at])
