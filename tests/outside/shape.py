# SPDX-License-Identifier: MIT
"""Contours as lists of (x, y, bulge) in millimetres, y up; turned into what shapely can measure.

The bulge belongs to the edge from its vertex to the next: tan(angle / 4), positive counter-clockwise, 0 for a
straight edge. SVG arcs and DXF polylines both come down to this form, so one can be held against the other.
"""

import math

import numpy as np
import shapely
from shapely.geometry import MultiLineString, Polygon

#: How far a chord may stand off its arc, in mm, wherever arcs are flattened.
CHORD = 2e-5
#: The bulge of a quarter circle, the longest arc the files may hold.
QUARTER = math.tan(math.pi / 8)


def arc_points(start, end, bulge, chord=CHORD):
    """Points along one edge, from `start` (included) to `end` (left out), as complex numbers."""
    span = end - start
    if bulge == 0 or span == 0:
        return np.array([start])
    angle = 4 * math.atan(bulge)
    radius = abs(span) * (1 + bulge * bulge) / (4 * abs(bulge))
    step = 2 * math.acos(max(0.0, 1 - chord / radius))
    pieces = max(1, math.ceil(abs(angle) / step))
    centre = (start + end) / 2 + 1j * span * (1 - bulge * bulge) / (4 * bulge)
    points = centre + (start - centre) * np.exp(1j * np.linspace(0, angle, pieces + 1)[:-1])
    # The start is known; going round by the centre would lose its last digit, and the ring would not close on itself.
    points[0] = start
    return points


def flatten(points, closed, chord=CHORD):
    """An (n, 2) array along the whole contour; a closed one ends where it began."""
    places = [complex(x, y) for x, y, _ in points]
    ends = places[1:] + places[:1]
    edges = list(zip(places, ends, (bulge for _, _, bulge in points)))
    runs = [arc_points(*edge, chord) for edge in (edges if closed else edges[:-1])]
    runs.append(np.array([places[0] if closed else places[-1]]))
    line = np.concatenate(runs)
    return np.column_stack([line.real, line.imag])


def polygon(points, holes=(), chord=CHORD):
    """The area inside a closed contour, less its holes."""
    return Polygon(flatten(points, True, chord), [flatten(hole, True, chord) for hole in holes])


def signed_area(polygon_):
    """Area of the outer ring, negative when it runs clockwise."""
    ring = polygon_.exterior
    return Polygon(ring).area * (1 if ring.is_ccw else -1)


def shrunk(tool_path, kerf):
    """The part left over when a tool of width `kerf` has followed `tool_path`: outside in, holes out."""
    if kerf == 0:
        return tool_path
    return tool_path.buffer(-kerf / 2, join_style="mitre", mitre_limit=20)


def lines(pieces):
    """Several lines, each a list of places, as one geometry."""
    return MultiLineString([[(x, y) for x, y, *_ in piece] for piece in pieces])


def apart(one, other, step=1.0):
    """The farthest that any point of either geometry lies from the other one (Hausdorff), looked at every `step` mm."""
    if one.is_empty or other.is_empty:
        return 0.0 if one.is_empty and other.is_empty else math.inf
    return max(reach(one, other, step), reach(other, one, step))


def reach(one, other, step):
    """The farthest that any point of `one` lies from `other`."""
    points = shapely.points(shapely.get_coordinates(shapely.segmentize(one, step)))
    tree = shapely.STRtree(segments(other))
    return float(tree.query_nearest(points, return_distance=True, all_matches=False)[1].max())


def segments(geometry):
    """Every straight piece of a line, or of several lines, by itself."""
    places, line = shapely.get_coordinates(shapely.get_parts(geometry), return_index=True)
    within = line[1:] == line[:-1]
    return shapely.linestrings(np.stack([places[:-1][within], places[1:][within]], axis=1))


def motion(placement, part):
    """The turn (a matrix for rows of x, y) and the shift that bring a part to its place on the sheet."""
    width, height = part["width_mm"], part["height_mm"]
    cos, sin, dx, dy = {
        0: (1, 0, 0, 0),
        90: (0, 1, height, 0),
        180: (-1, 0, width, height),
        270: (0, -1, 0, width),
    }[placement["turn_deg"]]
    shift = np.array([dx + placement["x_mm"], dy + placement["y_mm"]])
    return np.array([[cos, sin], [-sin, cos]]), shift


def to_sheet(geometry, placement, part):
    """From the part's own frame (lower left at the origin, unturned) to its place on the sheet."""
    turn, shift = motion(placement, part)
    return shapely.transform(geometry, lambda rows: rows @ turn + shift)


def to_part(geometry, placement, part):
    """From the sheet back to the part's own frame: the opposite of `to_sheet`."""
    turn, shift = motion(placement, part)
    return shapely.transform(geometry, lambda rows: (rows - shift) @ turn.T)


def box_on_sheet(placement, part):
    """The nominal bounding box of a placed part: left, bottom, right, top."""
    width, height = part["width_mm"], part["height_mm"]
    if placement["turn_deg"] in (90, 270):
        width, height = height, width
    x, y = placement["x_mm"], placement["y_mm"]
    return (x, y, x + width, y + height)
