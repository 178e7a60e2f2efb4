# SPDX-License-Identifier: MIT
"""Pages of a PDF as pdfplumber reads them: strokes and words in millimetres, y up, and what lies together on a page."""

import math
from dataclasses import dataclass, field

import pdfplumber
import shapely
from shapely.geometry import LineString, Point, Polygon, box

MM = 25.4 / 72
#: Steps of a curve that is taken apart.
STEPS = 48


@dataclass
class Stroke:
    """A line as it is drawn: its width and dashes in mm, whether it is as dark as ink."""

    points: list
    width: float
    dash: tuple
    dark: bool

    @property
    def line(self):
        return LineString(self.points)

    @property
    def closed(self):
        return len(self.points) > 3 and math.dist(self.points[0], self.points[-1]) < 1e-3


@dataclass
class Words:
    """A run of letters: its middle and the em, mm."""

    text: str
    at: tuple
    size: float
    ends: tuple

    @property
    def room(self):
        return LineString(self.ends).buffer(self.size * 0.45, cap_style="flat")


@dataclass
class Group:
    """What lies together on a page, apart from everything else."""

    strokes: list = field(default_factory=list)
    words: list = field(default_factory=list)

    def says(self, text):
        return any(words.text == text for words in self.words)


def pages(file):
    """By page: width and height, strokes, words."""
    with pdfplumber.open(file) as pdf:
        return [((float(page.width) * MM, float(page.height) * MM), strokes(page), runs(page)) for page in pdf.pages]


def strokes(page):
    height = float(page.height)
    found = []
    for one in [*page.lines, *page.rects, *page.curves]:
        if not one["stroke"] or not one["linewidth"]:
            continue
        dash = tuple(round(length * MM, 3) for length in (one["dash"] or [()])[0])
        dark = max(one["stroking_color"]) < 0.2
        found += [Stroke(points, one["linewidth"] * MM, dash, dark) for points in ways(one["path"], height)]
    return found


def ways(path, height):
    """The points of each way of a path, curves taken apart."""
    found, at = [], None
    for step, *points in path:
        points = [(x * MM, (height - y) * MM) for x, y in points]
        if step == "m":
            found.append(points[:1])
        elif step == "c":
            found[-1] += [cubic([at, *points], share / STEPS) for share in range(1, STEPS + 1)]
        elif step == "h":
            found[-1].append(found[-1][0])
        else:
            found[-1] += points
        at = found[-1][-1]
    return found


def cubic(points, share):
    while len(points) > 1:
        points = [tuple(a + (b - a) * share for a, b in zip(*pair)) for pair in zip(points, points[1:])]
    return points[0]


def runs(page):
    """Letters that follow one another, as they were written."""
    found, letters = [], []
    for char in page.chars:
        a, b, _, _, x, y = char["matrix"]
        size = math.hypot(a, b)
        way, here = (a / size, b / size), (x * MM, y * MM)
        follows = letters and letters[-1][1] == way and math.dist(letters[-1][3], here) < 0.2 * em(char)
        if not follows and letters:
            found.append(run(letters))
            letters = []
        length = char["adv"] * size * MM
        letters.append((char["text"], way, here, (here[0] + way[0] * length, here[1] + way[1] * length), char))
    return found + ([run(letters)] if letters else [])


def em(char):
    """The letters' height, mm: across the way that they are read."""
    level = abs(char["matrix"][0]) > abs(char["matrix"][1])
    return (char["height"] if level else char["width"]) * MM


def run(letters):
    way = letters[0][1]
    size = em(letters[0][4])
    # A third of the em above the base line is the letters' middle.
    up = (-way[1] * size * 0.36, way[0] * size * 0.36)
    ends = tuple((x + up[0], y + up[1]) for x, y in (letters[0][2], letters[-1][3]))
    middle = tuple((one + other) / 2 for one, other in zip(*ends))
    return Words("".join(letter[0] for letter in letters), middle, size, ends)


def groups(strokes, words, apart):
    """Strokes and words by what they hang together with: boxes that are nearer than `apart` mm are one box, round both."""
    things = [*strokes, *words]
    boxes = [box(*one.line.bounds) for one in strokes] + [box(*one.room.bounds) for one in words]
    boxes = [one.buffer(apart / 2, join_style="mitre") for one in boxes]
    parts = shapely.get_parts(shapely.unary_union(boxes))
    while True:
        merged = shapely.get_parts(shapely.unary_union([part.envelope for part in parts]))
        if len(merged) == len(parts):
            break
        parts = merged
    found = [Group() for _ in parts]
    for thing, room in zip(things, boxes):
        place = next(index for index, part in enumerate(parts) if part.envelope.intersects(room.centroid))
        (found[place].strokes if isinstance(thing, Stroke) else found[place].words).append(thing)
    return found


def area(stroke):
    return Polygon(stroke.points)


def middle(line):
    return Point(line.centroid)
