"""Sizes that a room cannot have: more spalls than floor, more cove than wall. They are counted as said, with a caution.

A slipped point or a wrong unit is the likely cause, and it orders a truck of material. It is no refusal, as a job
may say in one room what belongs to several.

Decisions:

* Spalls are held against the gross floor; cove and terminations against all edges there are, of walls, cutouts and
  drains; joints against one in each foot of the floor, all one way; a perimeter against that of a strip 6 in wide of
  the same area. Each may be 1 % over, as people round. Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolved import ResolvedRoom
from gaugerake.floor.job import Measured
from gaugerake.floor.room.shape import drain_shape, footprint
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told

ROUNDED = 1.01
CLOSEST_JOINTS_M = 0.3048
NARROWEST_M = 0.1524


class _Size(NamedTuple):
    """What is said at a place of a room, and the most that a room of its size has."""

    place: str
    kind: Kind
    said: float
    most: float


def proportion_remarks(room: ResolvedRoom, measured: RoomTakeoff) -> Iterator[Remark]:
    """A caution at each size of a room that is out of proportion to the room."""
    for size in (*_areas_and_joints(room, measured), *_edges(room, measured), *_perimeter(room, measured)):
        if size.said > size.most * ROUNDED:
            yield caution(
                "out-of-proportion",
                f"{room.pointer}/{size.place}",
                said=Figure(size.said, size.kind),
                most=Told(size.most, size.kind, Telling.DOWN),
            )


def _areas_and_joints(room: ResolvedRoom, measured: RoomTakeoff) -> Iterator[_Size]:
    if room.spalls:
        yield _Size("spalls", Kind.AREA, measured.spall_area_m2, measured.gross_area_m2)
    if room.joints:
        length_m = math.fsum(math.dist(*one.line_m) if one.line_m else one.length_m or 0.0 for one in room.joints)
        yield _Size("joints", Kind.LENGTH, length_m, measured.gross_area_m2 / CLOSEST_JOINTS_M)


def _edges(room: ResolvedRoom, measured: RoomTakeoff) -> Iterator[_Size]:
    stops_m = math.fsum(one.length_m for one in room.terminations)
    if max(stops_m, measured.cove_length_m) <= measured.perimeter_m:
        return
    parts = [(part.shape, part.count) for part in room.cutouts]
    parts += [(drain_shape(drain=drain.shape), drain.count) for drain in room.drains]
    around_m = math.fsum(footprint(shape=shape).perimeter_m * count for shape, count in parts)
    all_m = measured.perimeter_m + around_m
    yield _Size("cove/length", Kind.LENGTH, measured.cove_length_m, all_m)
    yield _Size("terminations", Kind.LENGTH, stops_m, all_m)


def _perimeter(room: ResolvedRoom, measured: RoomTakeoff) -> Iterator[_Size]:
    if isinstance(room.shape, Measured) and room.shape.perimeter_m is not None:
        strip_m = 2 * (measured.gross_area_m2 / NARROWEST_M + NARROWEST_M)
        yield _Size("shape/measured/perimeter", Kind.LENGTH, room.shape.perimeter_m, strip_m)
