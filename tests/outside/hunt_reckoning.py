# SPDX-License-Identifier: MIT
"""What can be said of an album without the program: what there is to spare, if all goes well and if all goes ill.

The letters and numbers are those of the check values: H5 is what two folds take of a sleeve, and so on.
"""

import math

import numpy as np
from shapely.geometry import Polygon, box

from hunt_albums import PRINTS
from hunt_covers import Covered
from hunt_pages import SLEEVES, Binder, greatest, profile
from hunt_sizes import HAIR, Reckoned

#: What slides between two seams wants at least, in all (C2).
SLIDES = 1.5
#: Pages whose worked face takes no panel as large as the page: a pocket, a window or slots are there.
NEVER_WHOLE = ("frame", "library-card", "waterfall", "tuck-envelope", "corner-mount")
#: Inserts that slide into a pocket.
CARDS = ("tag", "journal-card", "photo-mat", "envelope", "booklet", "accordion")
PRINT = 0.23


class Reckoning:
    """An album in mm and its pieces by what they are used as."""

    def __init__(self, album, pieces, left_out=()):
        self.album, self.pieces, self.left_out = album, pieces, left_out
        self.page, self.spine = album["page"], album["spine"]
        self.stocks = {name: stock["caliper"] for name, stock in album["stocks"].items()}
        self.tab, self.gusset, self.strip = self.measured_spine()
        binder = Binder(album, pieces, self.tab)
        there = [number for number in range(1, len(album["pages"]) + 1) if f"pages[{number - 1}]" not in left_out]
        self.pages = [binder.page(number) for number in there]
        self.pockets = [pocket for page in self.pages for pocket in page.pockets]
        # Whose turn it is is known only where all pages are there, and how large each is.
        self.inserts, self.all_known = [], len(there) == len(album["pages"])
        if self.all_known:
            self.inserts = list(self.put())
        self.stacks = self.held()

    def caliper(self, entry):
        return self.stocks[entry.get("stock", self.page.get("stock", "card"))]

    # The spine.

    def measured_spine(self):
        """Its tab and gusset off the scores of the first piece that carries a page, and that piece."""
        names = ("hinge strip 1", "hinge T", "concertina", "concertina 1", "hinge 1", "guard 1")
        strip = next(self.pieces[name] for name in names if name in self.pieces)
        at = sorted({round(score.bounds[0], 4) for score in strip.scores})
        wide = strip.outline.bounds[2]
        kind = self.spine["kind"]
        if kind == "plain-hinge":
            return wide - at[-1], 0.0, strip
        if kind == "stubs":
            return wide - at[2], at[2] - at[1], strip
        if kind == "concertina":
            # A pleat is gusset, tab, tab, gusset: the tabs are the only two neighbours of the same width about a fold.
            return self.spine["tab"], self.spine["gusset"], strip
        if "hinge strip 1" in self.pieces:
            return at[0], at[1] - at[0], strip
        return at[2] - at[1], at[1] - at[0], strip

    def pitch(self):
        """How far apart neighbouring pages stand, where that is the same for all."""
        if self.spine["kind"] == "flexi-hinge" and "hinge strip 1" in self.pieces:
            at = sorted(score.bounds[0] for score in self.pieces["hinge strip 1"].scores)
            return (at[2] - at[1]) / (2 if "hinge T" in self.pieces else 1)
        return self.spine.get("pitch")

    def tabs(self, number):
        """How many tabs go to a page, both leaves of a folded one counted."""
        if self.spine["kind"] == "concertina":
            return 2
        middle = self.count() % 2 == 1 and number == (self.count() + 1) // 2
        return 2 if self.spine["kind"] == "flexi-hinge" and middle else 1

    def count(self):
        return len(self.album["pages"])

    # Inserts.

    def put(self):
        """Each copy of each insert: its entry's number, size, thickness and the pocket whose turn it is."""
        for index, entry in enumerate(self.album.get("inserts", [])):
            wanted = entry.get("pages")
            pockets = [n for n, pocket in enumerate(self.pockets) if not wanted or pocket.page in wanted]
            if entry["kind"] not in CARDS or not pockets:
                continue
            size = self.insert_size(index, entry)
            if size is None:
                self.all_known = False
                continue
            for copy in range(entry.get("count", 1)):
                yield index, size, self.insert_thickness(index, entry), pockets[copy % len(pockets)]

    def insert_pieces(self, index, entry):
        """The flat parts of one copy."""
        name = f"{entry['kind'].replace('-', ' ')} {index + 1}"
        first = f"{name} no. 1" if entry.get("count", 1) > 1 else name
        return [flat for used, flat in self.pieces.items() if used == first or used.startswith(f"{first} leaf")]

    def insert_size(self, index, entry):
        flats = self.insert_pieces(index, entry)
        if flats:
            boxes = [panel.bounds for panel in flats[0].folded(flats[0].main())]
            low, high = np.min(boxes, axis=0), np.max(boxes, axis=0)
            return high[2] - low[0], high[3] - low[1]
        return (entry["width"], entry["height"]) if "width" in entry and "height" in entry else None

    def insert_thickness(self, index, entry):
        card = self.caliper(entry)
        flats = self.insert_pieces(index, entry)
        layers = {"envelope": 4, "booklet": 6, "accordion": 4}.get(entry["kind"], 1) * card
        if flats:
            folded = sum(greatest([(panel, card) for panel in flat.folded(flat.main())])[0] for flat in flats)
            # An envelope counts a lap besides front, back and flap, wherever that lies.
            layers = max(folded, layers) if entry["kind"] == "envelope" else folded
        if entry["kind"] == "photo-mat" and "thickness" not in entry:
            layers += PRINT
        return max(entry.get("thickness", 0.0), layers)

    def held(self):
        """By pocket: how thick all is that its front goes over. Pockets in steps lie on one another."""
        own = [sum(thick for _, _, thick, pocket in self.inserts if pocket == n) for n in range(len(self.pockets))]
        of_page = {page.number: 0.0 for page in self.pages}
        for pocket, stack in zip(self.pockets, own):
            of_page[pocket.page] += stack
        return [of_page[pocket.page] for pocket in self.pockets]

    def rooms(self):
        """C1, D5, H5, H10, H12: a sealed side takes half of what two folds take, and half of the stack."""
        for index, size, _, number in self.inserts if self.all_known else ():
            pocket, stack = self.pockets[number], self.stacks[number]
            about = f"insert {index + 1} in page {pocket.page} ({pocket.kind})"
            for way, length in zip(("across", "up"), size):
                front, seals = pocket.size(way), pocket.seals(way)
                flap = 1 if pocket.flap and way == ("across" if pocket.flap == "fore-edge" else "up") else 0
                folds = (seals + flap) / 2 * pocket.caliper
                out = pocket.out[way]
                best = front + out - folds - seals * stack / 2 - length
                # At worst at least half of it is inside, folds are round, and it slides.
                worst = front + min(out, front) - math.pi * folds - seals * stack / 2 - length
                worst -= SLIDES if seals == 2 else 0.0
                too_large = ("insert-too-wide", "insert-too-tall")[way == "up"]
                yield Reckoned(f"insert {way}", about, (too_large, "insert-too-thick"), best, worst)
                if seals == 2:
                    # It binds, even where it goes in, once folds that are round leave it less than it slides in.
                    snug = front - math.pi * folds - max(seals * stack / 2, SLIDES) - length
                    ids = ("insert-snug", too_large, "insert-too-thick")
                    yield Reckoned(f"slides {way}", about, ids, snug + HAIR, snug - HAIR)

    # Flaps.

    def flaps(self):
        """H11: a flap on one score loses sqrt(d^2 + h^2) - d over a stack h high whose edge is d away."""
        for number, pocket in enumerate(self.pockets):
            if not pocket.flap or not self.all_known:
                continue
            entry = self.album["pages"][pocket.page - 1]
            across = pocket.flap == "fore-edge"
            long, overlap = self.flap(pocket, across)
            square = max(entry.get("depth", 0.0) - pocket.caliper, 0.0) if entry.get("depth") else 0.0
            high = pocket.caliper + self.stacks[number]
            sizes = [size[0 if across else 1] for _, size, _, at in self.inserts if at == number]
            reach = self.page["width"] - pocket.tab if across else self.page["height"]
            away = max(reach - max(sizes), 0.0) if sizes else pocket.out["across" if across else "up"]
            lost = lost_over(max(high - square, 0.0), away)
            decor = self.stocks["paper"] if "panels" in self.album else 0.0
            worst = lost_over(max(high + decor - square, 0.0), min(away, pocket.out["across" if across else "up"]))
            ids = ("flap-open", "flap-too-short", "flap-too-wide")
            about = f"page {pocket.page} ({pocket.kind})"
            yield Reckoned("flap", about, ids, overlap - lost + 0.1, overlap - worst - 0.1)
            wide = self.page["width"] if across else self.page["height"]
            yield Reckoned("flap on its page", f"page {pocket.page}", ("flap-too-wide",), wide - long, wide - long)

    def flap(self, pocket, across):
        """How long a flap is, and how far it reaches over its pocket when all is flat."""
        flat = self.pieces[f"page {pocket.page} {'back' if across else 'envelope'}"]
        root = flat.panel_like(self.page["width"], self.page["height"])
        riser = self.album["pages"][pocket.page - 1].get("depth", 0.0)
        lying = [panel.bounds for panel in flat.folded(root, riser)]
        x0, y0, x1, y1 = root.bounds
        if across:
            # It begins at the root's fore-edge, which is at either hand.
            flap = next(b for b in lying[1:] if b[1] < y0 + 0.01 and b[3] > y1 - 0.01)
            return flap[2] - flap[0], flap[2] - flap[0] + pocket.front.bounds[2] - self.page["width"]
        flap = next(b for b in lying[1:] if abs(b[3] - y1) < 0.01)
        return flap[3] - flap[1], flap[3] - flap[1] + pocket.front.bounds[3] - self.page["height"]

    # Tabs.

    def sleeved(self):
        return [page for page in self.pages if page.entry["kind"] in (*SLEEVES, "wallet")]

    def tab_room(self):
        """H5, H6: how far a tab goes in before it jams between head and tail; and whether it leaves a way in."""
        for page in self.sleeved():
            pocket = page.pockets[0]
            wide = pocket.front.bounds[2] - self.tab
            yield Reckoned("tab in its pocket", f"page {page.number}", ("tab-too-wide",), wide, wide - HAIR)
            tall, lead = self.strip_tall(), self.lead_in()
            inside = [self.page["height"] - loss * pocket.caliper for loss in (1, math.pi)]
            deep = [goes_in(self.tab, lead, tall - room) - self.tab / 2 for room in inside]
            yield Reckoned("tab between the folds", f"page {page.number}", ("lead-in-too-small", "no-lead-in"), *deep)

    def strip_tall(self):
        return self.strip.outline.bounds[3]

    def lead_in(self):
        """What is clipped off a tab, off its outer edge: the first or the last of its strip."""
        x = 0.0 if "hinge strip 1" in self.pieces else self.strip.outline.bounds[2]
        if self.strip is self.pieces.get("hinge T") or self.spine["kind"] == "concertina":
            return self.album["spine"].get("lead_in", self.tab / 2)
        at_edge = self.strip.outline.intersection(box(x - 0.001, -1, x + 0.001, 1e4)).bounds
        return (self.strip_tall() - (at_edge[3] - at_edge[1])) / 2

    def tabs_beside(self):
        """A tab that is stuck on a face of a leaf, and a pocket's seams that are stuck there too, want room."""
        count = self.count()
        for page in self.pages:
            if not page.pockets or page.entry["kind"] in (*SLEEVES, "wallet"):
                continue
            on_front = self.spine["kind"] == "flexi-hinge" and page.number <= count // 2
            if on_front != (page.entry.get("faces", "front") == "front"):
                continue
            nearest = min(pocket.front.bounds[0] for pocket in page.pockets)
            beside = nearest - self.tab
            about = f"page {page.number} ({page.entry['kind']})"
            yield Reckoned("tab beside a seam", about, ("tab-over-seam",), beside + 0.05, beside)

    # Thickness.

    def loaded(self, page):
        """At each spot of a page its card, tabs, panels and what is in it: the greatest, at most, and by strip."""
        layers = list(page.layers)
        layers += [(self.tab_in_page(), self.caliper(self.spine))] * self.tabs(page.number)
        layers += list(self.papers(page))
        layers += self.print_in(page)
        own = greatest(layers)[0]
        more = 0.0
        for _, (wide, high), thick, number in self.inserts:
            pocket = self.pockets[number]
            if pocket.page == page.number:
                x, y = pocket.front.bounds[0] + pocket.tab, pocket.front.bounds[1]
                layers.append((box(x, y, x + wide, y + high), thick))
                more += thick
        most, strips = greatest(layers)
        content = page.entry.get("content", 0.0)
        return most + content, own + more + content, [(a, b, s + content) for a, b, s in strips]

    def print_in(self, page):
        """The print that a page is made for: on its corners, or behind its window, unless an insert lies there."""
        put = any(self.pockets[number].page == page.number for *_, number in self.inserts)
        made_for = page.entry["kind"] == "corner-mount" or page.entry["kind"] == "frame" and not put
        if not made_for or "content" in page.entry:
            return []
        front = page.pockets[0].front.bounds
        x, y = (front[0] + front[2]) / 2, (front[1] + front[3]) / 2
        wide, high = PRINTS[page.entry["print"]][:: -1 if page.entry.get("lies") == "across" else 1]
        return [(box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2), PRINT)]

    def tab_in_page(self):
        """A tab as it lies in its page: its score at the spine, its clipped corners inwards."""
        low, lead, deep = (self.page["height"] - self.strip_tall()) / 2, self.lead_in(), self.tab
        high = low + self.strip_tall()
        return Polygon([(0, low), (deep, low + lead), (deep, high - lead), (0, high)])

    def papers(self, page):
        """Panels on the page's faces as they lie on it, by their names."""
        reveal = self.album.get("panels", {}).get("reveal", 0.0)
        paper = self.stocks["paper"]
        for used, flat in self.pieces.items():
            if not used.startswith(f"panel for page {page.number} "):
                continue
            what = used.split(" ", 5)[5:] or [""]
            x, y = self.face(page, what[0])
            wide, high = flat.outline.bounds[2:]
            yield box(x + reveal, y + reveal, x + reveal + wide, y + reveal + high), paper

    def face(self, page, what):
        """The lower left corner of a face on its page."""
        wide, tall = self.page["width"], self.page["height"]
        if what.startswith("pocket ") or what == "top" and page.entry["kind"] == "waterfall":
            step = page.entry["step"]
            fronts = [pocket.front.bounds for pocket in page.pockets]
            if what == "top":
                return fronts[0][0], tall - step
            front, last = fronts[int(what[7:]) - 1], int(what[7:]) == len(fronts)
            return front[0], front[1] if last else front[3] - step
        if what == "top":
            return 0.0, page.pockets[0].front.bounds[3]
        if what in ("pocket", "envelope"):
            return page.pockets[0].front.bounds[:2]
        if what == "flap":
            if page.entry["kind"] == "wallet":
                return wide - self.flap(page.pockets[0], True)[0], 0.0
            # What goes in behind the front shows nothing.
            return self.tab + 1, page.pockets[0].front.bounds[3]
        if what.startswith("upper door"):
            return 0.0, max(layer.bounds[1] for layer, _ in page.layers)
        if what.startswith(("first leaf", "second leaf")):
            return wide - max(layer.bounds[2] - layer.bounds[0] for layer, _ in page.layers[1:]), 0.0
        return 0.0, 0.0

    def thickness(self, measures):
        """Each page as thick as the program says; and whether the pages fit between their roots (D2, H13)."""
        if not measures:
            return
        told = [page["thickest_mm"] for page in measures["closed"]["pages"]]
        mine = [self.loaded(page) for page in self.pages]
        for page, said, (placed, most, _) in zip(self.pages, told, mine):
            least = most
            if any(self.pockets[n].page == page.number for *_, n in self.inserts):
                # Where in its pocket an insert lies is not said: over the seams, or beside them.
                least = min(placed, most) - self.seam_layers(page)
            if page.entry.get("mount") == "triangles":
                # They are two calipers thick, and may lie over a seam.
                most += 2 * self.caliper(page.entry)
            off = min(said - least, most - said) + HAIR
            yield Reckoned("page thickness", f"page {page.number} ({page.entry['kind']})", ("thickness",), off, off)
        pitch = self.pitch()
        if pitch is None or self.count() < 2 or self.spine["kind"] == "stubs":
            return
        yield from self.gapes(mine, pitch)

    def seam_layers(self, page):
        """What may or may not lie over an insert: its page's seams."""
        return 2 * self.caliper(page.entry) + 0.5

    def gapes(self, mine, pitch):
        ids = ("gapes",)
        roots = pitch + (self.caliper(self.spine) if self.spine["kind"] == "concertina" else 0.0)
        at = np.linspace(1, self.page["width"] - 1, 60)
        columns = np.array([profile(strips, at) for *_, strips in mine])
        most = np.array([most for _, most, _ in mine])
        worst = runs(columns, roots, self.gusset).min()
        surely = runs(most[:, None], pitch, self.gusset).min()
        slack = 0.3 * len(self.pages)
        yield Reckoned("gape of a run", "spine", ids, float(worst) + slack, float(surely) - HAIR)

    # Covers.

    def cover(self):
        """A cover, where all that it goes round is there."""
        if not self.left_out and "cover" in self.album:
            yield from Covered(self).all()

    # Strips and panels.

    def strips(self):
        """H3, H4: bases of nested strips are an odd, or an even, number of pitches wide, and tabs and gussets alike."""
        if self.spine["kind"] != "flexi-hinge":
            return
        pitch, odd = self.pitch(), "hinge T" in self.pieces
        for used, flat in self.pieces.items():
            if not used.startswith("hinge strip "):
                continue
            number, wide = int(used.split()[-1]), flat.outline.bounds[2]
            at = [0.0, *sorted(score.bounds[0] for score in flat.scores), wide]
            depths = np.diff(at)
            base = (2 * number if odd else 2 * number - 1) * pitch
            wanted = np.array([self.tab, self.gusset, base, self.gusset, self.tab])
            off = HAIR - float(np.abs(depths - wanted).max()) if len(depths) == 5 else -1.0
            yield Reckoned("strip", used, ("strip",), off, off)
        if odd and "hinge strip 1" in self.pieces:
            at = sorted(score.bounds[0] for score in self.pieces["hinge T"].scores)
            yield Reckoned("wing of the T", "spine", ("wing-too-wide",), pitch - at[0], pitch - at[0] - HAIR)

    def panels(self):
        """H9, H14: a panel leaves its border on its face, and none lies over slots, notches or a window."""
        if "panels" not in self.album:
            return
        # Where the pattern runs on, a panel may end where another piece begins: it still lies on its face.
        reveal = 0.0 if self.album["panels"].get("runs_on") else self.album["panels"]["reveal"]
        faces = {"": (self.page["width"], self.page["height"])}
        for page in self.pages:
            for used, flat in self.pieces.items():
                if not used.startswith(f"panel for page {page.number} "):
                    continue
                side, *what = used.split(" ", 5)[4:]
                what = what[0] if what else ""
                worked = page.entry.get("faces", "front") == side or page.entry["kind"] in SLEEVES and side == "front"
                wide, tall = faces.get(what) or self.face_size(page, what)
                if what == "" and worked and page.entry["kind"] == "notched":
                    wide -= self.notch(page)
                x1, y1 = flat.outline.bounds[2:]
                off = min(wide - 2 * reveal - x1, tall - 2 * reveal - y1) + HAIR
                if what == "" and worked and page.entry["kind"] in NEVER_WHOLE:
                    off = -1.0
                yield Reckoned("panel on its face", used, ("panel",), off, off)

    def notch(self, page):
        """How deep the notch in a page's fore-edge is."""
        wall = page.pockets[0].front
        middle = wall.intersection(box(-1, self.page["height"] / 2 - 0.01, 1e4, self.page["height"] / 2 + 0.01))
        return self.page["width"] - middle.bounds[2]

    def face_size(self, page, what):
        """The size of what shows there."""
        tall, wide = self.page["height"], self.page["width"]
        if what in ("pocket", "envelope"):
            pocket = page.pockets[0]
            x0, y0, x1, _ = pocket.front.bounds
            return x1 - x0, pocket.size("up")
        if what == "flap":
            if page.entry["kind"] == "wallet":
                return self.flap(page.pockets[0], True)[0], tall
            return wide - self.tab - 2, tall - page.pockets[0].front.bounds[3]
        if what == "top" and page.entry["kind"] == "library-card":
            return wide, tall - page.pockets[0].front.bounds[3]
        if what == "top" or what.startswith("pocket "):
            fronts = [pocket.front.bounds for pocket in page.pockets]
            last = what != "top" and int(what[7:]) == len(fronts)
            return fronts[0][2] - fronts[0][0], fronts[-1][3] if last else page.entry["step"]
        boxes = [layer.bounds for layer, _ in page.layers[1:]]
        if "door" in what:
            return wide, min(b[3] - b[1] for b in boxes)
        leaf = boxes[0 if what.startswith("first") else -1]
        widths = sorted((b[2] - b[0] for b in boxes), reverse=True)
        return widths[0 if what.startswith("first") else -1], leaf[3] - leaf[1]

    def all(self, measures):
        """Everything that was reckoned; of an album that is not whole, what does not hang on all of it."""
        for reckoned in (self.rooms, self.flaps, self.tab_room, self.tabs_beside, self.cover, self.strips, self.panels):
            yield from reckoned()
        yield from self.thickness(measures)


def lost_over(high, away):
    """What a flap with one score loses of its reach (H11)."""
    return math.hypot(high, away) - away


def goes_in(tab, lead_in, taller):
    """How far a tab goes into what is so much lower than its strip (H6, similar triangles)."""
    if taller <= 0:
        return tab
    return max(tab * (1 - taller / (2 * lead_in)), 0.0) if lead_in > 0 else 0.0


def runs(thick, pitch, gusset):
    """By column: the least that any run i..j of neighbours has to spare (H13)."""
    count, columns = thick.shape
    spare = np.full(columns, np.inf)
    for i in range(count):
        for j in range(i + 1, count):
            wants = thick[i] / 2 + thick[i + 1 : j].sum(axis=0) + thick[j] / 2
            spare = np.minimum(spare, (j - i) * pitch + 2 * gusset - wants)
        spare = np.minimum(spare, np.inf)
    whole = count * pitch + 2 * gusset - thick.sum(axis=0)
    return np.minimum(spare, whole)
