"""How far a pour has come: where its edge stands, what it has taken, and what the rest will take at that rate.

Rooms are poured in their order. A room that says its way has an edge at a place; of one that does not, only the area
that is placed is known, and what it takes is shared out by area.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from gaugerake.floor.room.sweep import Behind, Fill, Sweep, behind, reached
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import GUARD

_AREA = Fill(depth_m=1.0, section_m2=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredRoom:
    """A room and what it takes of the layer; ``swept`` is None where the way of its pour is not said."""

    fill: Fill
    area_m2: float
    keyway_m: float
    thickness_m: float
    share_fraction: float
    swept: Sweep | None

    @property
    def volume_m3(self) -> float:
        """What all of it takes [m³]."""
        return self.fill.of(Behind(area_m2=self.area_m2, groove_m=self.keyway_m))

    @property
    def above_m3(self) -> float:
        """What of that makes the thickness, without profile and keyways [m³]."""
        return self.area_m2 * self.thickness_m * self.share_fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class PourEdge:
    """Where the edge of a pour stands: in a room (by its index), ``to_m`` from its side, None without a way."""

    room: int
    to_m: float | None
    behind: Behind


@dataclass(frozen=True, slots=True, kw_only=True)
class Volumes:
    """What is placed and what is not: floor [m²], all that it takes, and what of that makes the thickness [m³]."""

    placed_m2: float
    placed_m3: float
    rest_m2: float
    rest_m3: float
    rest_above_m3: float


def edge_at_area(*, rooms: Sequence[PouredRoom], area_m2: float) -> PourEdge:
    """Find the edge that leaves an area behind it, through the rooms in order.

    Parameters
    ----------
    rooms : Sequence[PouredRoom]
        All rooms of the layer.
    area_m2 : float [m²]
        Net floor that is placed, no more than that of all rooms.

    Returns
    -------
    PourEdge
        At the end of a room, not at the beginning of the next.

    Examples
    --------
    >>> room = PouredRoom(fill=Fill(depth_m=0.005, section_m2=0.0), area_m2=40.0, keyway_m=0.0, thickness_m=0.005,
    ...                   share_fraction=1.0, swept=None)
    >>> edge_at_area(rooms=[room, room], area_m2=50.0).room
    1
    """
    for index, room in enumerate(rooms):
        if area_m2 <= room.area_m2 * (1 + GUARD) or index == len(rooms) - 1:
            return _edge(index, room, min(area_m2, room.area_m2))
        area_m2 -= room.area_m2
    raise ValueError("a job has a room")


def edge_at(*, rooms: Sequence[PouredRoom], room: int, to_m: float) -> PourEdge:
    """Give the edge at a place in a room that says its way.

    Parameters
    ----------
    rooms : Sequence[PouredRoom]
        All rooms of the layer.
    room : int
        The index of one of them that says its way.
    to_m : float [m]
        From the side that the pour began at.

    Returns
    -------
    PourEdge
        The edge there.

    Raises
    ------
    ValueError
        When the room does not say its way.

    Examples
    --------
    >>> strip = Sweep(at_m=(0.0, 10.0), area_m2=(0.0, 40.0), width_m=(4.0, 0.0), next_width_m=(4.0, 0.0),
    ...               groove_m=((0.0, 0.0), (0.0, 0.0)), loose_groove_m=0.0)
    >>> room = PouredRoom(fill=Fill(depth_m=0.005, section_m2=0.0), area_m2=40.0, keyway_m=0.0, thickness_m=0.005,
    ...                   share_fraction=1.0, swept=strip)
    >>> edge_at(rooms=[room], room=0, to_m=2.5).behind.area_m2
    10.0
    """
    swept = rooms[room].swept
    if swept is None:
        raise ValueError("the room says no way")
    return PourEdge(room=room, to_m=to_m, behind=behind(swept=swept, at_m=to_m))


def edge_at_volume(*, rooms: Sequence[PouredRoom], volume_m3: float) -> PourEdge | None:
    """Find where a volume ends, through the rooms in order.

    Parameters
    ----------
    rooms : Sequence[PouredRoom]
        All rooms of the layer.
    volume_m3 : float [m³]
        What there is from the beginning of the first room.

    Returns
    -------
    PourEdge or None
        None when it is enough for all rooms.

    Examples
    --------
    >>> room = PouredRoom(fill=Fill(depth_m=0.005, section_m2=0.0), area_m2=40.0, keyway_m=0.0, thickness_m=0.005,
    ...                   share_fraction=1.0, swept=None)
    >>> edge_at_volume(rooms=[room, room], volume_m3=0.25).behind.area_m2
    10.0
    >>> edge_at_volume(rooms=[room, room], volume_m3=0.4) is None
    True
    """
    for index, room in enumerate(rooms):
        if volume_m3 < room.volume_m3 * (1 - GUARD):
            if room.swept is None:
                return _edge(index, room, room.area_m2 * volume_m3 / room.volume_m3)
            to_m = reached(swept=room.swept, fill=room.fill, volume_m3=volume_m3)
            return edge_at(rooms=rooms, room=index, to_m=to_m)
        volume_m3 -= room.volume_m3
    return None


def volumes(*, rooms: Sequence[PouredRoom], edge: PourEdge) -> Volumes:
    """Give what lies behind an edge, and what lies before it.

    Parameters
    ----------
    rooms : Sequence[PouredRoom]
        All rooms of the layer.
    edge : PourEdge
        Where its edge stands; the rooms before that one are complete.

    Returns
    -------
    Volumes
        Floor and volumes on both sides.

    Examples
    --------
    >>> room = PouredRoom(fill=Fill(depth_m=0.006, section_m2=0.0), area_m2=40.0, keyway_m=0.0, thickness_m=0.005,
    ...                   share_fraction=1.0, swept=None)
    >>> found = volumes(rooms=[room, room], edge=edge_at_area(rooms=[room, room], area_m2=50.0))
    >>> found.placed_m3, found.rest_m3, found.rest_above_m3
    (0.3, 0.18, 0.15)
    """
    here, before, after = rooms[edge.room], rooms[: edge.room], rooms[edge.room + 1 :]
    left_m2 = here.area_m2 - edge.behind.area_m2
    left_m3 = here.volume_m3 - here.fill.of(edge.behind)
    if left_m2 <= GUARD * here.area_m2:  # float noise takes no further mix
        left_m2 = left_m3 = 0.0
    return Volumes(
        placed_m2=math.fsum(room.area_m2 for room in before) + here.area_m2 - left_m2,
        placed_m3=math.fsum(room.volume_m3 for room in before) + here.volume_m3 - left_m3,
        rest_m2=left_m2 + math.fsum(room.area_m2 for room in after),
        rest_m3=left_m3 + math.fsum(room.volume_m3 for room in after),
        rest_above_m3=left_m2 * here.thickness_m * here.share_fraction + math.fsum(room.above_m3 for room in after),
    )


def mixes_needed(*, placed_m3: float, rest_m3: float, mix_count: int) -> Triple:
    """Give the mixes that the rest takes at the yield seen so far.

    Parameters
    ----------
    placed_m3, rest_m3 : float [m³]
        What is placed, and what is still to be.
    mix_count : int
        The mixes that are placed, counted whole.

    Returns
    -------
    Triple
        The count may be half a mix off, as the last one is partly in the bucket: low and high are with half a mix less
        and more.

    Examples
    --------
    >>> mixes_needed(placed_m3=0.5, rest_m3=10.0, mix_count=25)
    Triple(low=490.0, likely=500.0, high=510.0)
    """
    ratio = rest_m3 / placed_m3
    return Triple(low=ratio * (mix_count - 0.5), likely=ratio * mix_count, high=ratio * (mix_count + 0.5))


def stretched_fraction(*, rest: Volumes, left_m3: float) -> float | None:
    """Give the part of its thickness at which the rest just suffices, keyways and profile filled as they are.

    Parameters
    ----------
    rest : Volumes
        What is not placed yet.
    left_m3 : float [m³]
        What there is for it.

    Returns
    -------
    float or None
        None when nothing is left for the floor, float noise being nothing, or there is no more floor.

    Examples
    --------
    >>> rest = Volumes(placed_m2=10.0, placed_m3=0.06, rest_m2=100.0, rest_m3=0.6, rest_above_m3=0.5)
    >>> stretched_fraction(rest=rest, left_m3=0.55)
    0.9
    """
    for_floor_m3 = left_m3 - (rest.rest_m3 - rest.rest_above_m3)
    if for_floor_m3 <= GUARD * rest.rest_m3 or rest.rest_above_m3 <= 0:
        return None
    return for_floor_m3 / rest.rest_above_m3


def _edge(index: int, room: PouredRoom, area_m2: float) -> PourEdge:
    """The edge in a room that leaves an area of it behind."""
    if room.swept is None:
        groove_m = room.keyway_m * area_m2 / room.area_m2
        return PourEdge(room=index, to_m=None, behind=Behind(area_m2=area_m2, groove_m=groove_m))
    to_m = reached(swept=room.swept, fill=_AREA, volume_m3=area_m2)
    return PourEdge(room=index, to_m=to_m, behind=behind(swept=room.swept, at_m=to_m))
