"""What is placed in a room: whether it lies inside the walls, and whether two things share floor.

Decisions:

* Placed things may touch walls and one another. What meets within a micrometre only touches, so that the noise of
  adding feet to inches refuses nobody.
* Circles are exact when placed, and drawn with 64 corners.
* Joints may cross each other, but not run along one another or through a placed cutout or drain: end the joint there
  and begin another.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from gaugerake.floor.job import Circle, Measured, Point, Rectangle
from gaugerake.floor.room.shape import Footprint
from gaugerake.floor.values.frozen import dataclass

TOUCH_M = 1e-6
"""How far two things may reach into each other and still only touch [m]."""

_FEW = 8  # so many things are compared by themselves, without a tree of their boxes
_PARALLEL = 0.01  # radians; a band as narrow as a touch is shared for _SHARED_LINE_M only by lines nearer than this
_SHARED_LINE_M = 1e-3  # two joints along each other for longer than this are one joint twice

Cores = np.ndarray[tuple[int], np.dtype[np.object_]]
Truths = np.ndarray[tuple[int], np.dtype[np.bool_]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A placed thing: all that is within ``radius_m`` of ``core``; a circle's core is its centre."""

    core: BaseGeometry
    radius_m: float
    ring_m: tuple[Point, ...]


def piece(*, footprint: Footprint, at_m: Point) -> Piece:
    """Place a shape in a room.

    Parameters
    ----------
    footprint : Footprint
        The shape, measured; not one known by its area alone.
    at_m : tuple of float [m]
        Where the lower left of its box lies, from the lower left of the room's box.

    Returns
    -------
    Piece
        Its ring [m] is in the room's coordinates.

    Raises
    ------
    ValueError
        For a measured shape, which has no outline to place.

    Examples
    --------
    >>> from gaugerake.floor.room.shape import footprint
    >>> placed = piece(footprint=footprint(shape=Circle(diameter_m=0.2)), at_m=(1.0, 1.0))
    >>> placed.radius_m, placed.core.wkt
    (0.1, 'POINT (1.1 1.1)')
    """
    x, y = at_m
    shape = footprint.shape
    if isinstance(shape, Measured):
        raise ValueError("a measured shape has no outline to place")
    moved = tuple((x + east, y + north) for east, north in footprint.outline_m)
    if isinstance(shape, Circle):
        radius = shape.diameter_m / 2
        return Piece(core=shapely.Point(x + radius, y + radius), radius_m=radius, ring_m=moved)
    return Piece(core=shapely.Polygon(moved), radius_m=0.0, ring_m=moved)


def line_piece(*, line_m: tuple[Point, Point]) -> Piece:
    """Place a joint in a room.

    Parameters
    ----------
    line_m : tuple of tuple of float [m]
        Its two ends, from the lower left of the room's box.

    Returns
    -------
    Piece
        A line without width.

    Examples
    --------
    >>> line_piece(line_m=((0.0, 0.0), (3.0, 4.0))).core.length
    5.0
    """
    return Piece(core=shapely.LineString(line_m), radius_m=0.0, ring_m=tuple(line_m))


def lies_inside(*, room: Footprint, piece: Piece) -> bool:
    """Tell whether a placed thing lies inside a room's walls; it may touch them.

    Parameters
    ----------
    room : Footprint
        The room, measured; not one known by its area alone.
    piece : Piece
        What is placed.

    Returns
    -------
    bool
        False when any of it reaches more than a micrometre out.

    Examples
    --------
    >>> from gaugerake.floor.job import Rectangle
    >>> from gaugerake.floor.room.shape import footprint
    >>> room = footprint(shape=Rectangle(length_m=4.0, width_m=3.0))
    >>> drain = footprint(shape=Circle(diameter_m=1.0))
    >>> [lies_inside(room=room, piece=piece(footprint=drain, at_m=(x, 2.0))) for x in (3.0, 3.1)]
    [True, False]
    """
    if isinstance(room.shape, Circle):
        radius = room.shape.diameter_m / 2
        corners = shapely.get_coordinates(piece.core).tolist()
        reach = radius - piece.radius_m + TOUCH_M
        return all(math.dist((radius, radius), corner) <= reach for corner in corners)
    if isinstance(room.shape, Rectangle):
        return _lies_in_rectangle(room.shape, piece)
    walls = shapely.Polygon(room.outline_m)
    if not walls.buffer(TOUCH_M, join_style="mitre").covers(piece.core):
        return False
    return piece.radius_m == 0 or walls.exterior.distance(piece.core) >= piece.radius_m - TOUCH_M


def overlaps(pieces: Sequence[Piece]) -> list[tuple[int, int]]:
    """Find the placed things that share floor.

    Parameters
    ----------
    pieces : sequence of Piece
        All that is placed in one room.

    Returns
    -------
    list of tuple of int
        Pairs of indices, the earlier first. Joints may cross, as a grid of them does, but not run along each other;
        none may run through a cutout or drain, where there is no floor.

    Examples
    --------
    >>> lines = [((0.0, 1.0), (4.0, 1.0)), ((2.0, 0.0), (2.0, 3.0)), ((3.0, 1.0), (4.0, 1.0))]
    >>> overlaps([line_piece(line_m=line) for line in lines])
    [(0, 2)]
    """
    if len(pieces) < 2 or (len(pieces) <= _FEW and _apart(pieces)):
        return []
    cores = np.array([piece.core for piece in pieces])
    radii = np.array([piece.radius_m for piece in pieces])
    boxes = shapely.box(*(shapely.bounds(cores) + np.array([-radii, -radii, radii, radii]).T).T)
    first, second = shapely.STRtree(boxes).query(boxes, predicate="intersects")
    first, second = first[first < second], second[first < second]
    lines = shapely.get_dimensions(cores) == 1
    rounds = radii[first] + radii[second] > 0
    areas = ~rounds & ~lines[first] & ~lines[second]
    crossed = ~rounds & (lines[first] != lines[second])
    along = ~rounds & lines[first] & lines[second]
    share = np.zeros(len(first), dtype=bool)
    for chosen, test in ((areas, _areas_share), (crossed, _line_crosses), (along, _lines_share)):
        share[chosen] = test(cores[first[chosen]], cores[second[chosen]])
    reach = radii[first[rounds]] + radii[second[rounds]]
    share[rounds] = shapely.distance(cores[first[rounds]], cores[second[rounds]]) < reach - TOUCH_M
    return sorted(zip(first[share].tolist(), second[share].tolist(), strict=True))


def _lies_in_rectangle(room: Rectangle, piece: Piece) -> bool:
    """Whether a piece lies inside a rectangle: every corner in it, a round thing's centre far enough from the walls."""
    least = piece.radius_m - TOUCH_M
    return all(
        least <= x <= room.length_m - least and least <= y <= room.width_m - least
        for x, y in shapely.get_coordinates(piece.core).tolist()
    )


def _apart(pieces: Sequence[Piece]) -> bool:
    """Whether not even the boxes of any two meet, seen without a tree."""
    boxes = [_box(piece) for piece in pieces]
    return not any(
        one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]
        for one, other in combinations(boxes, 2)
    )


def _box(piece: Piece) -> tuple[float, float, float, float]:
    west, south, east, north = piece.core.bounds
    radius = piece.radius_m
    return west - radius, south - radius, east + radius, north + radius


def _areas_share(one: Cores, other: Cores) -> Truths:
    touching = TOUCH_M * np.minimum(shapely.length(one), shapely.length(other))
    return shapely.area(shapely.intersection(one, other)) > touching


def _line_crosses(one: Cores, other: Cores) -> Truths:
    ahead = shapely.get_dimensions(one) == 1
    line, area = np.where(ahead, one, other), np.where(ahead, other, one)
    inner = shapely.buffer(area, -TOUCH_M, join_style="mitre")
    return shapely.length(shapely.intersection(line, inner)) > TOUCH_M


def _lines_share(one: Cores, other: Cores) -> Truths:
    """Only lines of nearly one direction can; the rest, which a grid has many of, are not intersected."""
    share = np.zeros(len(one), dtype=bool)
    parallel = np.abs(_directions(one) - _directions(other)) % math.pi
    close = np.minimum(parallel, math.pi - parallel) < _PARALLEL
    bands = shapely.buffer(other[close], TOUCH_M)
    share[close] = shapely.length(shapely.intersection(one[close], bands)) > _SHARED_LINE_M
    return share


def _directions(lines: Cores) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    ends = shapely.get_coordinates(lines).reshape(-1, 2, 2)
    run = ends[:, 1] - ends[:, 0]
    return np.arctan2(run[:, 1], run[:, 0])
