"""What is placed in a room: whether it lies inside the walls, and whether two things share floor.

Touching is allowed, of walls and of one another: what meets within a micrometre only touches, so that the noise of
adding feet to inches refuses nobody. Circles are exact, not polygons.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from gaugerake.floor.job import Circle, Measured, Point
from gaugerake.floor.shape import Plan

TOUCH_M = 1e-6
"""How far two things may reach into each other and still only touch [m]."""

_SHARED_LINE_M = 1e-3  # two joints along each other for longer than this are one joint twice


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A placed thing: all that is within ``radius_m`` of ``core``; a circle's core is its centre."""

    core: BaseGeometry
    radius_m: float
    ring_m: tuple[Point, ...]


def piece(*, plan: Plan, at_m: Point) -> Piece:
    """Place a shape in a room.

    Parameters
    ----------
    plan : Plan
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
    >>> from gaugerake.floor.shape import plan
    >>> placed = piece(plan=plan(shape=Circle(diameter_m=0.2)), at_m=(1.0, 1.0))
    >>> placed.radius_m, placed.core.wkt
    (0.1, 'POINT (1.1 1.1)')
    """
    x, y = at_m
    shape = plan.shape
    if isinstance(shape, Measured):
        raise ValueError("a measured shape has no outline to place")
    moved = tuple((x + east, y + north) for east, north in plan.outline_m)
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


def lies_inside(*, room: Plan, piece: Piece) -> bool:
    """Tell whether a placed thing lies inside a room's walls; it may touch them.

    Parameters
    ----------
    room : Plan
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
    >>> from gaugerake.floor.shape import plan
    >>> room = plan(shape=Rectangle(length_m=4.0, width_m=3.0))
    >>> drain = plan(shape=Circle(diameter_m=1.0))
    >>> [lies_inside(room=room, piece=piece(plan=drain, at_m=(x, 2.0))) for x in (3.0, 3.1)]
    [True, False]
    """
    if isinstance(room.shape, Circle):
        radius = room.shape.diameter_m / 2
        corners = shapely.get_coordinates(piece.core).tolist()
        reach = radius - piece.radius_m + TOUCH_M
        return all(math.dist((radius, radius), corner) <= reach for corner in corners)
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
    if len(pieces) < 2:
        return []
    boxes = shapely.box(*shapely.bounds([piece.core for piece in pieces]).T + _box_growth(pieces))
    pairs = shapely.STRtree(boxes).query(boxes, predicate="intersects").T.tolist()
    near = sorted((first, second) for first, second in pairs if first < second)
    return [(first, second) for first, second in near if _share_floor(pieces[first], pieces[second])]


def _box_growth(pieces: Sequence[Piece]) -> np.ndarray:
    radii = np.array([piece.radius_m for piece in pieces])
    return np.array([-radii, -radii, radii, radii])


def _share_floor(one: Piece, other: Piece) -> bool:
    reach = one.radius_m + other.radius_m
    if reach > 0:
        return one.core.distance(other.core) < reach - TOUCH_M
    if not one.core.intersects(other.core):
        return False
    line, area = sorted((one.core, other.core), key=shapely.get_dimensions)
    if shapely.get_dimensions(line) == 2:
        return bool(line.intersection(area).area > TOUCH_M * min(line.length, area.length))
    if shapely.get_dimensions(area) == 2:
        return bool(line.intersection(area.buffer(-TOUCH_M, join_style="mitre")).length > TOUCH_M)
    return bool(line.intersection(area.buffer(TOUCH_M)).length > _SHARED_LINE_M)
