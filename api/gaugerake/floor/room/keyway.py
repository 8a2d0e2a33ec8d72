"""Keyways: the grooves that anchor a floor's edges, where they run and what they hold.

Decisions:

* A keyway counts as following all walls when the inset, grown back, recovers the floor (to 0.1 % of the offset
  squared). Otherwise the caution is ``keyway-part-vanishes``, or ``keyway-vanishes`` with length 0.
* Around a cutout near a wall both grooves count in full: more material is the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

import shapely

from gaugerake.floor.job import Circle, Measured, Point, Rectangle, RoundDrain, Shape, TrenchDrain
from gaugerake.floor.room.shape import Footprint, drain_shape, footprint, ring
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.rounding import GUARD

MITRE_LIMIT = 5.0
"""How far, in offsets, a sharp corner of an offset line reaches before it is cut off."""

_UNCUT = 1e6
_GRID_M = 1e-7  # two outlines that nearly coincide are separated on a grid; without one GEOS may take all away
_LOST_FRACTION = 1e-3  # of the offset squared: more than float noise, less than any corner that a saw could follow


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyway:
    """A groove ``offset_m`` inside every edge, ``ratio`` times the floor's thickness wide and as deep."""

    offset_m: float
    ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Inset:
    """The keyway along the walls: its length [m], its rings for drawing [m], and whether it follows all of them."""

    length_m: float
    rings_m: tuple[tuple[Point, ...], ...]
    whole: bool


def inset(*, footprint: Footprint, offset_m: float) -> Inset:
    """Shrink a room's outline by the keyway's offset.

    Parameters
    ----------
    footprint : Footprint
        The room, measured.
    offset_m : float [m]
        How far inside the walls the groove runs, more than 0.

    Returns
    -------
    Inset
        Its length [m] is the sum of all parts that the outline falls into, 0 when it vanishes. ``whole`` is False when
        some of the floor lies where no groove at that offset can follow the wall.

    Notes
    -----
    Corners are mitred, to 5 offsets at most. A circle is exact: π(D − 2·offset). A measured room has perimeter −
    8·offset, which is a rectangle's and any room's with square corners, not below 0, and no rings.

    Examples
    --------
    >>> room = footprint(shape=Rectangle(length_m=10.0, width_m=4.0))
    >>> inset(footprint=room, offset_m=0.1).length_m
    27.2
    >>> inset(footprint=room, offset_m=2.0)
    Inset(length_m=0.0, rings_m=(), whole=False)
    """
    shape = footprint.shape
    if isinstance(shape, Rectangle):
        return _rectangle_inset(shape, offset_m)
    if isinstance(shape, Circle):
        return _circle_inset(shape, offset_m)
    if isinstance(shape, Measured):
        length = max(0.0, footprint.perimeter_m - 8 * offset_m)
        return Inset(length_m=length, rings_m=(), whole=length > 0)
    return _polygon_inset(footprint, offset_m)


def surround_length(*, shape: Shape | RoundDrain | TrenchDrain, offset_m: float) -> float:
    """Give the length of a keyway round a cutout or a drain.

    Parameters
    ----------
    shape : Shape or RoundDrain or TrenchDrain
        What the groove runs round.
    offset_m : float [m]
        How far outside it the groove runs.

    Returns
    -------
    length_m : float [m]
        The perimeter of the shape grown by the offset, its corners mitred to 5 offsets at most; a round one exactly
        π(D + 2·offset), a measured one perimeter + 8·offset.

    Notes
    -----
    A cutout nearer to a wall than two offsets is counted in full, as is the wall beside it: what the saw does there is
    settled on site, and a little more material than needed is the safe side.

    Examples
    --------
    >>> surround_length(shape=TrenchDrain(length_m=6.0, width_m=0.2), offset_m=0.1)
    13.2
    >>> surround_length(shape=RoundDrain(diameter_m=0.2), offset_m=0.1)
    1.2566371
    """
    if isinstance(shape, RoundDrain | TrenchDrain):
        shape = drain_shape(drain=shape)
    if isinstance(shape, Circle):
        return math.pi * (shape.diameter_m + 2 * offset_m)
    measured = footprint(shape=shape)
    if isinstance(shape, Rectangle | Measured):
        return measured.perimeter_m + 8 * offset_m
    grown = shapely.Polygon(measured.outline_m).buffer(offset_m, join_style="mitre", mitre_limit=MITRE_LIMIT)
    return grown.length


@lru_cache(maxsize=256)
def surround_ring(*, ring_m: tuple[Point, ...], offset_m: float) -> tuple[Point, ...]:
    """Give the keyway round a placed cutout or drain as it is drawn.

    Parameters
    ----------
    ring_m : tuple of Point [m]
        The corners of what the groove runs round, in turn, not closed.
    offset_m : float [m]
        How far outside it the groove runs.

    Returns
    -------
    ring_m : tuple of Point [m]
        The corners of the ring grown by the offset, mitred as :func:`surround_length` counts them; the last is the
        first again.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    >>> sorted(set(surround_ring(ring_m=square, offset_m=0.5)))
    [(-0.5, -0.5), (-0.5, 1.5), (1.5, -0.5), (1.5, 1.5)]
    """
    grown = shapely.Polygon(ring_m).buffer(offset_m, join_style="mitre", mitre_limit=MITRE_LIMIT)
    return tuple([(x, y) for x, y in shapely.get_coordinates(grown.exterior).tolist()])


def beside_line(*, line_m: tuple[Point, Point], offset_m: float) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    """Give the two keyways along a moving joint as they are drawn.

    Parameters
    ----------
    line_m : tuple of Point [m]
        The joint's two ends, apart.
    offset_m : float [m]
        How far on each side of it the groove runs.

    Returns
    -------
    lines_m : tuple of tuple of Point [m]
        The groove on the left of the line's direction, and the one on its right.

    Examples
    --------
    >>> beside_line(line_m=((0.0, 1.0), (4.0, 1.0)), offset_m=0.5)
    (((0.0, 1.5), (4.0, 1.5)), ((0.0, 0.5), (4.0, 0.5)))
    """
    (x1, y1), (x2, y2) = line_m
    length = math.dist(*line_m)
    across, up = (y1 - y2) / length * offset_m, (x2 - x1) / length * offset_m
    left = ((x1 + across, y1 + up), (x2 + across, y2 + up))
    right = ((x1 - across, y1 - up), (x2 - across, y2 - up))
    return left, right


def keyway_volume(*, length_m: float, ratio: float, thickness_m: float) -> float:
    """Give what the keyways hold.

    Parameters
    ----------
    length_m : float [m]
        Length of all grooves.
    ratio : float
        Width and depth of a groove in thicknesses of the floor.
    thickness_m : float [m]
        The floor's whole thickness.

    Returns
    -------
    volume_m3 : float [m³]
        length · (ratio · thickness)²: the groove is as deep as it is wide, below the slab's surface.

    Examples
    --------
    >>> keyway_volume(length_m=30.0, ratio=2.0, thickness_m=0.005)
    0.003
    """
    return length_m * (ratio * thickness_m) ** 2


def _rectangle_inset(shape: Rectangle, offset: float) -> Inset:
    length, width = shape.length_m, shape.width_m
    if min(length, width) - 2 * offset <= GUARD * offset:
        return Inset(length_m=0.0, rings_m=(), whole=False)
    east, north = length - offset, width - offset
    corners = ((offset, offset), (east, offset), (east, north), (offset, north))
    return Inset(length_m=2 * (length + width) - 8 * offset, rings_m=(corners,), whole=True)


def _circle_inset(shape: Circle, offset: float) -> Inset:
    radius = shape.diameter_m / 2
    if radius - offset <= GUARD * offset:
        return Inset(length_m=0.0, rings_m=(), whole=False)
    rings = (ring(centre_m=(radius, radius), radius_m=radius - offset),)
    return Inset(length_m=2 * math.pi * (radius - offset), rings_m=rings, whole=True)


@lru_cache(maxsize=256)
def _polygon_inset(room: Footprint, offset: float) -> Inset:
    outline = shapely.Polygon(room.outline_m)
    shrunk = outline.buffer(-offset, join_style="mitre", mitre_limit=MITRE_LIMIT)
    if shrunk.is_empty:
        return Inset(length_m=0.0, rings_m=(), whole=False)
    rings = tuple(
        tuple([(x, y) for x, y in shapely.get_coordinates(line).tolist()[:-1]])
        for part in shapely.get_parts(shrunk)
        for line in shapely.get_rings(part)
    )
    if len(rings) == 1 and _follows_each_corner(room.outline_m, rings[0], offset):
        return Inset(length_m=shrunk.length, rings_m=rings, whole=True)
    grown_back = shrunk.buffer(offset, join_style="mitre", mitre_limit=_UNCUT)
    lost = shapely.difference(outline, grown_back, grid_size=_GRID_M).area
    return Inset(length_m=shrunk.length, rings_m=rings, whole=lost <= _LOST_FRACTION * offset**2)


def _follows_each_corner(outline: Sequence[Point], ring: Sequence[Point], offset: float) -> bool:
    """Whether a ring has the outline's corners, each where its two walls meet once moved in: grown back, it is whole.

    ``outline`` is counter-clockwise. False says nothing: a corner in a straight wall may be left out of the ring.
    """
    if len(ring) != len(outline):
        return False
    normals = []
    for (x1, y1), (x2, y2) in pairwise([outline[-1], *outline]):
        length = math.hypot(x2 - x1, y2 - y1)
        normals.append(((y1 - y2) / length, (x2 - x1) / length))
    moved = set()
    for (x, y), (east, north), (east_on, north_on) in zip(outline, normals, [*normals[1:], normals[0]], strict=True):
        reach = offset / max(1 + east * east_on + north * north_on, GUARD)
        moved.add((round(x + (east + east_on) * reach, 9), round(y + (north + north_on) * reach, 9)))
    return moved == {(round(x, 9), round(y, 9)) for x, y in ring} and len(moved) == len(outline)
