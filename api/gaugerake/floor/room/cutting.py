"""A room cut where its drawing has corners, along the way of the pour's edge.

The edge stands square to its way, from one side of the drawing to the other.

Decisions:

* A circular room has 720 corners here, not the 64 of its drawing, and its circle's own area: a mark is off by less than
  the 100,000th part of its diameter. Round cutouts and drains are taken as drawn, with their own area.
* What is drawn is scaled to what the takeoff counts, so that nothing is lost and nothing is counted twice; keyways that
  meet at a cutout near a wall count in full, as they do there.
* What has no place is shared out by area: cutouts and drains by their count, terminations, joints of which only the
  length is known.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from gaugerake.floor.job import Advance, Circle, Measured, Point, Shape, Side
from gaugerake.floor.room.sweep import Sweep
from gaugerake.floor.room.takeoff import RoomTakeoff

ROUND_CORNERS = 720
"""The corners of a circular room."""
_SQUARE = 1e-9  # of the way: a line that gains less lies square to it
_ASKEW = 0.01
_TURNS = np.arange(ROUND_CORNERS) * (2 * math.pi / ROUND_CORNERS)

Array = NDArray[np.float64]
Places = NDArray[np.intp]
Outlines = Sequence[Sequence[Point]]


def sweep(*, shape: Shape, room: RoomTakeoff, advance: Advance) -> Sweep:
    """Cut a room where its drawing has corners.

    Parameters
    ----------
    shape : Shape
        The room's shape.
    room : RoomTakeoff
        The room as measured.
    advance : Advance
        From which side the edge goes; of a measured room how far.

    Returns
    -------
    Sweep
        A measured room is as wide all along, and all its keyways have no place.

    Raises
    ------
    ValueError
        When a room with a drawing has no side, or a measured one no run; resolving refuses such a job.

    Examples
    --------
    >>> from gaugerake.floor.job import Rectangle
    >>> from gaugerake.floor.room.shape import footprint
    >>> hall = Rectangle(length_m=10.0, width_m=4.0)
    >>> room = RoomTakeoff(
    ...     index=0, name="Hall", gross_area_m2=40.0, area_m2=40.0, perimeter_m=28.0, shorter_side_m=4.0,
    ...     thickness_m=0.006, csp=None, keyway_length_m=0.0, moving_joint_length_m=0.0, sealant_volume_m3=0.0,
    ...     repair_volume_m3=0.0, cove_length_m=0.0, cove_height_m=0.0, inset_m=(),
    ...     outline_m=footprint(shape=hall).outline_m)
    >>> found = sweep(shape=hall, room=room, advance=Advance(side=Side.LEFT))
    >>> found.at_m, found.area_m2
    ((0.0, 10.0), (0.0, 40.0))
    """
    if isinstance(shape, Measured):
        return _strip(room, advance.run_m)
    if advance.side is None:
        raise ValueError("a room with a drawing is poured from a side")
    if isinstance(shape, Circle):
        radius = shape.diameter_m / 2
        inset = tuple(_circle(max(x for x, _ in ring) - radius, radius) for ring in room.inset_m)
        return _drawn(room, advance.side, (_circle(radius, radius),), inset)
    return _drawn(room, advance.side, (room.outline_m,), room.inset_m)


def square_to_way(*, line_m: tuple[Point, Point], outline_m: Sequence[Point], side: Side) -> tuple[float, float] | None:
    """Say where a line lies that runs along the edge.

    Parameters
    ----------
    line_m : tuple of Point [m]
        Its two ends in the room's drawing.
    outline_m : Sequence[Point] [m]
        The room's outline, from the lower left of its box.
    side : Side
        From which side the edge goes.

    Returns
    -------
    tuple of float or None [m]
        Its place from that side, and its length; None when it is askew by more than 1 in 100.

    Examples
    --------
    >>> walls = ((0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (0.0, 4.0))
    >>> square_to_way(line_m=((3.0, 0.0), (3.0, 4.0)), outline_m=walls, side=Side.RIGHT)
    (7.0, 4.0)
    >>> square_to_way(line_m=((3.0, 0.0), (4.0, 4.0)), outline_m=walls, side=Side.RIGHT)
    """
    ((begin, _, end, _),) = _turned(np.array([[*line_m[0], *line_m[1]]]), side, outline_m).tolist()
    length = math.dist(*line_m)
    if abs(end - begin) > _ASKEW * length:
        return None
    return (begin + end) / 2, length


def _strip(room: RoomTakeoff, run_m: float | None) -> Sweep:
    """A room that is as wide all along."""
    if run_m is None:
        raise ValueError("a measured room is poured along a run")
    width = room.area_m2 / run_m
    return Sweep(
        at_m=(0.0, run_m),
        area_m2=(0.0, room.area_m2),
        width_m=(width, 0.0),
        next_width_m=(width, 0.0),
        groove_m=((0.0, 0.0), (0.0, 0.0)),
        loose_groove_m=room.keyway_length_m,
    )


def _circle(radius: float, centre: float) -> tuple[Point, ...]:
    """A circle of many corners, its centre on the diagonal."""
    across, up = centre + radius * np.cos(_TURNS), centre + radius * np.sin(_TURNS)
    return tuple(zip(across.tolist(), up.tolist(), strict=True))


def _drawn(room: RoomTakeoff, side: Side, walls: Outlines, inset: Outlines) -> Sweep:
    outline = _turned(_lines(walls, closed=True), side, walls[0])
    holes = _turned(_lines((*room.holes_m, *room.drains_m), closed=True), side, walls[0])
    ringed = _turned(_lines(inset, closed=True), side, walls[0])
    beside = _turned(_lines(room.grooves_m, closed=False), side, walls[0])
    run = float(outline[:, 0].max())
    ends = np.concatenate([outline, holes, ringed, beside])[:, (0, 2)].clip(0.0, run)
    cuts = _cuts(ends, run)
    placed = np.searchsorted(cuts, ends + _SQUARE * run, side="right") - 1
    of_outline, of_holes, of_inset, of_beside = np.split(placed, np.cumsum([len(outline), len(holes), len(ringed)]))
    width, next_width = _widths(cuts, np.concatenate([of_outline, of_holes[:, ::-1]]), _across(outline, holes))
    area = np.concatenate([[0.0], np.maximum.accumulate(np.cumsum((width + next_width)[:-1] / 2 * np.diff(cuts)))])
    scale = room.area_m2 / area[-1]
    lengths = np.concatenate(
        [_scaled(ringed, room.wall_keyway_m), _scaled(beside, room.keyway_length_m - room.wall_keyway_m, at_most=True)]
    )
    groove = _grooves(cuts, np.concatenate([of_inset, of_beside]), lengths)
    return Sweep(
        at_m=tuple(cuts.tolist()),
        area_m2=tuple((area * scale).tolist()),
        width_m=tuple((width * scale).tolist()),
        next_width_m=tuple((next_width * scale).tolist()),
        groove_m=tuple(map(tuple, groove.tolist())),
        loose_groove_m=max(0.0, room.keyway_length_m - float(lengths.sum())),
    )


def _lines(outlines: Outlines, *, closed: bool) -> Array:
    """The straight lines of some outlines: x and y of both ends of each."""
    points = np.array(list(chain.from_iterable(outlines)), dtype=np.float64).reshape(-1, 2)
    last = np.cumsum([len(outline) for outline in outlines], dtype=np.intp) - 1
    following = np.arange(1, len(points) + 1)
    following[last] = np.concatenate([[0], last[:-1] + 1])[: len(last)]
    lines = np.concatenate([points, points[following]], axis=1)
    return lines if closed else np.delete(lines, last, axis=0)


def _turned(lines: Array, side: Side, walls: Sequence[Point]) -> Array:
    """Lines as the edge meets them: along its way and across it, counter-clockwise outlines still so."""
    if side is Side.LEFT:
        return lines
    x1, y1, x2, y2 = lines.T
    if side is Side.BOTTOM:
        return np.stack([y1, -x1, y2, -x2], axis=1)
    if side is Side.RIGHT:
        east = max(x for x, _ in walls)
        return np.stack([east - x1, -y1, east - x2, -y2], axis=1)
    north = max(y for _, y in walls)
    return np.stack([north - y1, x1, north - y2, x2], axis=1)


def _cuts(ends: Array, run: float) -> Array:
    """The places of all corners in order, those that noise alone sets apart taken as one."""
    places = np.sort(np.append(ends, 0.0))
    cuts: Array = places[np.append(True, np.diff(places) > _SQUARE * run)]
    cuts[-1] = run
    return cuts


def _across(outline: Array, holes: Array) -> Array:
    """Where both ends of each line stand across the way; a hole takes away, so its lines are walked backwards."""
    return np.concatenate([outline[:, (1, 3)], holes[:, (3, 1)]])


def _widths(cuts: Array, placed: Places, across: Array) -> tuple[Array, Array]:
    """How long the edge is just after each cut, and just before the next."""
    back = placed[:, 0] > placed[:, 1]  # the far walls of a room that is walked counter-clockwise
    low, high = placed.min(axis=1), placed.max(axis=1)
    begins, ends = np.where(back, across[:, 1], -across[:, 0]), np.where(back, across[:, 0], -across[:, 1])
    crossed = low < high
    low, high, begins, ends = low[crossed], high[crossed], begins[crossed], ends[crossed]
    count = len(cuts)
    rises = (ends - begins) / (cuts[high] - cuts[low])
    slope = np.cumsum(_at(low, rises, count) - _at(high, rises, count))
    length = np.append(np.diff(cuts), 0.0)
    gained = slope * length
    jumps = _at(low, begins, count) - _at(high, ends, count)
    width = np.cumsum(jumps + np.concatenate([[0.0], gained[:-1]]))
    return width.clip(0.0), (width + gained).clip(0.0)


def _grooves(cuts: Array, placed: Places, lengths: Array) -> Array:
    """The keyway behind each cut, without what lies in it and with it."""
    low, high, count = placed.min(axis=1), placed.max(axis=1), len(cuts)
    along = low < high
    dense = lengths[along] / (cuts[high[along]] - cuts[low[along]])
    density = np.cumsum(_at(low[along], dense, count) - _at(high[along], dense, count)).clip(0.0)
    within = _at(low[~along], lengths[~along], count)
    passed = np.concatenate([[0.0], np.cumsum(density[:-1] * np.diff(cuts))])
    after = passed + np.cumsum(within)
    return np.stack([after - within, after], axis=1)


def _at(places: Places, values: Array, count: int) -> Array:
    """The sum of the values at each cut."""
    return np.bincount(places, weights=values, minlength=count).astype(np.float64, copy=False)


def _scaled(lines: Array, counted_m: float, *, at_most: bool = False) -> Array:
    """The length of each line, all together as long as is counted, or ``at_most`` so long."""
    lengths = np.hypot(lines[:, 2] - lines[:, 0], lines[:, 3] - lines[:, 1])
    drawn_m = float(lengths.sum())
    if drawn_m == 0.0 or (at_most and drawn_m <= counted_m):
        return lengths
    return lengths * (max(0.0, counted_m) / drawn_m)
