"""Places in a pour under way: its edge as it was told, and the last stop before its material ends."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.marks import swept_room
from gaugerake.answers.pour_progress.resolve import ResolvedProgress
from gaugerake.floor.job import JointKind
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.filling import fill_of
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.progress import PourEdge, PouredRoom, edge_at, edge_at_area
from gaugerake.floor.room.cutting import square_to_way
from gaugerake.floor.room.sweep import edge_length
from gaugerake.floor.values.errors import NothingPlaced, OutOfRange, WayUnsaid
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.rounding import GUARD

SAME_M = 0.01
"""Pieces of a joint that stand no farther apart along the way are one joint, and an edge so near stands at it."""
LEAST_PLACED_M2 = 1e-4
"""A square centimetre: less floor than that is none, and says nothing of what a mix covers."""
MOST_OF_EDGE = 0.9
"""A joint that reaches over less of the edge is no stop for it."""

Rooms = tuple[PouredRoom, ...]
StopKind = Literal["moving", "contraction", "room"]


class StopAt(NamedTuple):
    """Where a pour can stop: in a room (by its index), at a place, and what is there: a kind of joint, or ``room``."""

    room: int
    to_m: float | None
    what: StopKind


def poured_rooms(resolved: ResolvedJob, takeoff: Takeoff, layer: Layer) -> Rooms:
    """The rooms and what each takes of a layer."""
    share = 1.0 if layer.pour is None else layer.pour.share_fraction
    return tuple(
        PouredRoom(
            fill=fill_of(build=takeoff.build, layer=layer, room=room),
            area_m2=room.area_m2,
            keyway_m=room.keyway_length_m,
            thickness_m=room.thickness_m or 0.0,
            share_fraction=share,
            swept=swept_room(resolved, takeoff, room.index),
        )
        for room in takeoff.rooms
    )


def edge_said(progress: ResolvedProgress, rooms: Rooms) -> PourEdge:
    """Where the edge stands.

    Raises
    ------
    Refused
        When nothing is placed, or more than there is, or the room does not say its way.
    """
    room = progress.room.value
    if room is None:
        return _edge_at_area(progress.area_m2 or 0.0, rooms)
    swept, to_m = rooms[room].swept, progress.to_m or 0.0
    if swept is None:
        raise Refused(Fault("/progress/placed/to", WayUnsaid("to")))
    if to_m > swept.run_m * (1 + GUARD):
        low, high = Figure(0.0, Kind.LENGTH), Figure(swept.run_m, Kind.LENGTH)
        raise Refused(
            Fault("/progress/placed/to", OutOfRange("to", value=Figure(to_m, Kind.LENGTH), low=low, high=high))
        )
    edge = edge_at(rooms=rooms, room=room, to_m=min(to_m, swept.run_m))
    if room == 0 and edge.behind.area_m2 < LEAST_PLACED_M2:
        raise Refused(Fault("/progress/placed/to", NothingPlaced("to")))
    return edge


def _edge_at_area(area_m2: float, rooms: Rooms) -> PourEdge:
    whole_m2 = math.fsum(room.area_m2 for room in rooms)
    if area_m2 < LEAST_PLACED_M2:
        raise Refused(Fault("/progress/placed/area", NothingPlaced("area")))
    if area_m2 > whole_m2 * (1 + GUARD):
        most = Figure(whole_m2, Kind.AREA)
        raise Refused(
            Fault("/progress/placed/area", OutOfRange("area", value=Figure(area_m2, Kind.AREA), low=None, high=most))
        )
    return edge_at_area(rooms=rooms, area_m2=area_m2)


def last_stop(resolved: ResolvedJob, takeoff: Takeoff, rooms: Rooms, edge: PourEdge, end: PourEdge) -> StopAt | None:
    """The last place at which the pour can stop between its edge and where its material ends."""
    for index in range(end.room, edge.room - 1, -1):
        from_m = edge.to_m if index == edge.room else 0.0
        until_m = end.to_m if index == end.room else None
        if index < end.room:
            swept = rooms[index].swept
            return StopAt(index, None if swept is None else swept.run_m, "room")
        joints = _joints(resolved, takeoff, rooms[index], index)
        between = [stop for stop in joints if _between(stop.to_m, from_m, until_m)]
        if between:
            return max(between, key=lambda stop: stop.to_m or 0.0)
    if edge.room > 0 and edge.to_m is not None and edge.to_m <= SAME_M:
        swept = rooms[edge.room - 1].swept
        return StopAt(edge.room - 1, None if swept is None else swept.run_m, "room")
    return None


def _between(at_m: float | None, from_m: float | None, until_m: float | None) -> bool:
    if at_m is None or from_m is None or until_m is None:
        return False
    return from_m - SAME_M <= at_m <= until_m * (1 + GUARD)


def _joints(resolved: ResolvedJob, takeoff: Takeoff, room: PouredRoom, index: int) -> Iterator[StopAt]:
    """The joints of a room that are a stop for the edge."""
    advance, swept = resolved.rooms[index].advance.value, room.swept
    if advance is None or advance.side is None or swept is None:
        return
    found: list[tuple[float, float, JointKind]] = []
    room_said = resolved.rooms[index]
    for joint, kind in zip(room_said.joints or (), room_said.joint_kinds, strict=True):
        if joint.line_m is not None:
            square = square_to_way(line_m=joint.line_m, outline_m=takeoff.rooms[index].outline_m, side=advance.side)
            if square is not None:
                found.append((*square, kind.value))
    found.sort(key=lambda one: one[0])
    for pieces in _together(found):
        at_m, _, longest = max(pieces, key=lambda one: one[1])
        if math.fsum(length_m for _, length_m, _ in pieces) >= MOST_OF_EDGE * edge_length(swept=swept, at_m=at_m):
            yield StopAt(index, at_m, "moving" if longest is JointKind.MOVING else "contraction")


def _together(found: Sequence[tuple[float, float, JointKind]]) -> Iterator[list[tuple[float, float, JointKind]]]:
    """Pieces that stand in one line."""
    pieces: list[tuple[float, float, JointKind]] = []
    for one in found:
        if pieces and one[0] - pieces[0][0] > SAME_M:
            yield pieces
            pieces = []
        pieces.append(one)
    if pieces:
        yield pieces
