"""Areas, perimeters and outlines of rooms and of what is cut out of them. Shapely does the geometry of polygons.

Decisions:

* Rectangles and circles are closed forms, proved against Shapely in property tests. Polygons go through Shapely.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import chain

import numpy as np
import shapely
from numpy.typing import NDArray

from gaugerake.floor.job import Circle, Measured, Point, Polygon, Rectangle, RoundDrain, Shape, TrenchDrain
from gaugerake.floor.values.errors import CrossingOutline, DegenerateOutline, ImpossiblePerimeter
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.rounding import GUARD

CIRCLE_CORNERS = 64
"""The corners of a drawn circle; its figures are exact."""

_TURNS = [2 * math.pi * corner / CIRCLE_CORNERS for corner in range(CIRCLE_CORNERS)]
_UNIT_RING = [(math.cos(turn), math.sin(turn)) for turn in _TURNS]


@dataclass(frozen=True, slots=True, kw_only=True)
class Footprint:
    """The plan outline of a shape, measured.

    ``outline_m`` is its ring for drawing and placing, counter-clockwise, not closed, with the lower left of its box at
    (0, 0); a circle's has corners on it, a measured shape's is empty. ``shorter_side_m`` is that of the rectangle of
    least area round it, in any direction.
    """

    shape: Shape
    area_m2: float
    perimeter_m: float
    shorter_side_m: float
    outline_m: tuple[Point, ...]


def footprint(*, shape: Shape) -> Footprint:
    """Measure a shape.

    Parameters
    ----------
    shape : Shape
        A rectangle, polygon, circle, or an area known as a figure.

    Returns
    -------
    Footprint
        Area [m²], perimeter [m], shorter side [m] and outline [m].

    Raises
    ------
    CrossingOutline
        When a polygon's sides cross or touch; it names the point in the polygon's own coordinates.
    DegenerateOutline
        When a polygon has fewer than three corners, or no area.
    ImpossiblePerimeter
        When a measured perimeter is shorter than that of a circle of the same area.

    Notes
    -----
    A measured shape without a perimeter is taken for a rectangle of 2 : 1; the shorter side of one is √(A/2) in either
    case, as an area does not say how long the room is.

    Examples
    --------
    >>> ell = Polygon(points_m=((0, 0), (0, 9), (4, 9), (4, 4), (10, 4), (10, 0)))
    >>> found = footprint(shape=ell)
    >>> found.area_m2, found.perimeter_m, found.shorter_side_m
    (60.0, 38.0, 9.0)
    >>> footprint(shape=Measured(area_m2=50.0)).perimeter_m
    30.0
    """
    if isinstance(shape, Rectangle):
        return _rectangle_footprint(shape)
    if isinstance(shape, Circle):
        return _circle_footprint(shape)
    if isinstance(shape, Measured):
        return _measured_footprint(shape)
    return _polygon_footprint(shape)


def least_perimeter(*, area_m2: float) -> float:
    """Give the shortest perimeter that encloses an area: a circle's.

    Parameters
    ----------
    area_m2 : float [m²]
        The area, more than 0.

    Returns
    -------
    perimeter_m : float [m]
        √(4πA), the isoperimetric bound.

    Examples
    --------
    >>> least_perimeter(area_m2=100.0)
    35.449077
    """
    return math.sqrt(4 * math.pi * area_m2)


def drain_shape(*, drain: RoundDrain | TrenchDrain) -> Circle | Rectangle:
    """Give the shape that a drain takes out of the floor.

    Parameters
    ----------
    drain : RoundDrain or TrenchDrain
        The drain.

    Returns
    -------
    Circle or Rectangle
        A trench's length runs along x.

    Examples
    --------
    >>> drain_shape(drain=RoundDrain(diameter_m=0.2))
    Circle(diameter_m=0.2)
    """
    if isinstance(drain, RoundDrain):
        return Circle(diameter_m=drain.diameter_m)
    return Rectangle(length_m=drain.length_m, width_m=drain.width_m)


def _rectangle_footprint(shape: Rectangle) -> Footprint:
    length, width = shape.length_m, shape.width_m
    return Footprint(
        shape=shape,
        area_m2=length * width,
        perimeter_m=2 * (length + width),
        shorter_side_m=min(length, width),
        outline_m=((0.0, 0.0), (length, 0.0), (length, width), (0.0, width)),
    )


@lru_cache(maxsize=256)
def _circle_footprint(shape: Circle) -> Footprint:
    diameter = shape.diameter_m
    return Footprint(
        shape=shape,
        area_m2=math.pi * diameter**2 / 4,
        perimeter_m=math.pi * diameter,
        shorter_side_m=diameter,
        outline_m=ring(centre_m=(diameter / 2, diameter / 2), radius_m=diameter / 2),
    )


def ring(*, centre_m: Point, radius_m: float) -> tuple[Point, ...]:
    """Give the corners of a circle as it is drawn.

    Parameters
    ----------
    centre_m : tuple of float [m]
        x and y of the centre.
    radius_m : float [m]
        The radius.

    Returns
    -------
    tuple of tuple of float [m]
        64 points on the circle, counter-clockwise.

    Examples
    --------
    >>> ring(centre_m=(1.0, 1.0), radius_m=1.0)[0]
    (2.0, 1.0)
    """
    x, y = centre_m
    return tuple([(x + radius_m * east, y + radius_m * north) for east, north in _UNIT_RING])


def _measured_footprint(shape: Measured) -> Footprint:
    area, perimeter = shape.area_m2, shape.perimeter_m
    shorter = math.sqrt(area / 2)
    if perimeter is None:
        perimeter = 6 * shorter
    else:
        least = least_perimeter(area_m2=area)
        if perimeter < least * (1 - GUARD):
            raise ImpossiblePerimeter("perimeter", perimeter_m=perimeter, least_m=least)
    return Footprint(shape=shape, area_m2=area, perimeter_m=perimeter, shorter_side_m=shorter, outline_m=())


@lru_cache(maxsize=256)
def _polygon_footprint(shape: Polygon) -> Footprint:
    polygon, sides = _polygon(shape.points_m)
    west, south, _, _ = polygon.bounds
    corners = shapely.get_coordinates(polygon.exterior).tolist()[:-1]
    if not polygon.exterior.is_ccw:
        corners.reverse()
    return Footprint(
        shape=shape,
        area_m2=polygon.area,
        perimeter_m=polygon.length,
        shorter_side_m=min(math.dist(sides[0], sides[1]), math.dist(sides[1], sides[2])),
        outline_m=tuple((x - west, y - south) for x, y in corners),
    )


def _polygon(points_m: tuple[Point, ...]) -> tuple[shapely.Polygon, list[list[float]]]:
    """A sound polygon of these corners, of which one that repeats the one before it is dropped, and its least box's."""
    corners = [point for point, before in zip(points_m, points_m[-1:] + points_m[:-1], strict=True) if point != before]
    if len(corners) < 3:
        raise DegenerateOutline("points")
    polygon = shapely.Polygon(corners)
    envelope = shapely.oriented_envelope(polygon)
    if envelope.area <= GUARD * polygon.length**2:
        raise DegenerateOutline("points")
    if not polygon.is_valid:
        x, y = _crossing(corners)
        raise CrossingOutline("points", x_m=x, y_m=y)
    if polygon.area <= GUARD * polygon.length**2:
        raise DegenerateOutline("points")
    return polygon, shapely.get_coordinates(envelope).tolist()


def _crossing(corners: list[Point]) -> Point:
    """The first place where two sides meet that should not; the first corner where rounding hides it."""
    ends = np.array([*corners, corners[0]])
    sides = np.asarray(shapely.linestrings(np.stack([ends[:-1], ends[1:]], axis=1)))
    x, y = next(chain.from_iterable(_shared(sides, *pair) for pair in _near(ends)), corners[0])
    return x, y


def _near(ends: NDArray[np.float64]) -> Iterator[tuple[int, int]]:
    """The pairs of sides of which neither lies plainly to one side of the other, in order: a few, seen without GEOS.

    Neighbours are among them only where the second turns straight back or goes straight on.
    """
    along = np.diff(ends, axis=0)
    to = ends[None, :, :] - ends[:-1, None, :]
    off = along[:, None, 0] * to[:, :, 1] - along[:, None, 1] * to[:, :, 0]  # twice the triangle of a side and a corner
    off[np.abs(off) <= GUARD * np.abs(off).max()] = 0.0
    apart = off[:, :-1] * off[:, 1:] > 0
    near = np.triu(~(apart | apart.T), k=1)
    bends = np.diagonal(off, offset=2) != 0  # the end of the next side, off this one
    near[np.arange(len(bends)), np.arange(1, len(bends) + 1)] &= ~bends
    near[0, -1] &= off[-1, 1] == 0  # the last side and the first, which share a corner too
    return zip(*(found.tolist() for found in near.nonzero()), strict=True)


def _shared(sides: NDArray[np.object_], first: int, second: int) -> list[list[float]]:
    """Where two sides meet; nowhere, if they are neighbours that meet in their corner alone."""
    shared = shapely.intersection(sides[first], sides[second])
    neighbours = second == first + 1 or (first == 0 and second == len(sides) - 1)
    return [] if neighbours and shapely.length(shared) == 0 else shapely.get_coordinates(shared).tolist()
