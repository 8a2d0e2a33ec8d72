"""The rooms of a body divided over the shifts: whole mixes counted through, and where the pour stops.

The hours are those of the timetable, which counts a room's need times its cadence, unrounded. Here they are filled with
whole mixes: what is poured without a stop is a stretch, within which the mix at a boundary is shared by the rooms on
both sides. At a stop the rest of a mix is lost, as a mix is never kept.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from gaugerake.floor.pour.edge import GUARD, Lane, Pace

SAME_S = 1e-3  # instants closer than this are one


class Stop(StrEnum):
    """Where a stretch ends."""

    END = "end"  # the layer is all down
    ROOM = "room"  # between rooms
    JOINT = "joint"  # within a room, at a joint or keyway: a new termination


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPour:
    """One room of one body layer: its likely need in mixes (waste included, unrounded), its pace and its lane."""

    room: int
    need_mixes: float
    pace: Pace
    lane: Lane


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Hours of a layer in the timetable [s], between two stops of the work."""

    from_s: float
    until_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What one stretch pours of one room.

    Mixes ``first_mix`` to ``last_mix`` reach it, numbered from 1 through the layer; ``begins_s`` is when the first of
    them is started, ``ends_s`` when the next would be. ``shares_first`` says that the first was begun for the room
    before. ``used_mixes`` is what the layer has used up before it, what is lost at stops too; ``takes_mixes`` what the
    room takes of its mixes, waste included.
    """

    pour: RoomPour
    first_mix: int
    last_mix: int
    begins_s: float
    ends_s: float
    shares_first: bool
    used_mixes: float
    takes_mixes: float

    @property
    def mix_count(self) -> int:
        """How many mixes reach the room in this stretch."""
        return self.last_mix - self.first_mix + 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Parts poured one after the other without a stop, and how it ends."""

    parts: tuple[Part, ...]
    stop: Stop


def pour_in_shifts(
    *, pours: Sequence[RoomPour], windows: Sequence[Window], longest_shift_s: float
) -> tuple[Stretch, ...]:
    """Pour the rooms in their order into the hours that the timetable gives the layer.

    Parameters
    ----------
    pours : sequence of RoomPour
        The rooms of one layer in the order of the pour.
    windows : sequence of Window
        The hours of the layer, in order; together they hold it.
    longest_shift_s : float [s]
        The longest shift there is: a room that takes longer is stopped within.

    Returns
    -------
    tuple of Stretch
        What is poured between two stops, in order; none without hours.

    Notes
    -----
    A room that the rest of its hours cannot hold goes into the next ones, and the stop lies between rooms. A room
    longer than any shift is poured to the end of the last whole mix and stopped there, at a joint or keyway. What is
    left of a mix at such a stop is owed to the next hours, so a stretch may run over its hours by less than two mixes.

    Examples
    --------
    Two rooms of 30 and 25 mixes at two minutes, in two mornings: a room a day.

    >>> step = Pace(mix_area_m2=2.2, mixing_s=120, placing_s=100)
    >>> lane = Lane(width_m=6, depth_m=1)
    >>> rooms = [RoomPour(room=room, need_mixes=need, pace=step, lane=lane) for room, need in ((0, 30), (1, 25))]
    >>> mornings = [Window(from_s=0, until_s=3600), Window(from_s=86400, until_s=89400)]
    >>> found = pour_in_shifts(pours=rooms, windows=mornings, longest_shift_s=5400)
    >>> [(s.stop.value, s.parts[0].begins_s, s.parts[0].first_mix, s.parts[0].last_mix) for s in found]
    [('room', 0.0, 1, 30), ('end', 86400.0, 31, 55)]
    """
    if not windows:
        return ()
    division = _Division(windows)
    for pour in pours:
        took_s = pour.need_mixes * pour.pace.cadence_s
        if took_s > longest_shift_s + SAME_S:
            division.split(pour)
        else:
            division.fit(pour, took_s)
    return division.closed()


@dataclass(slots=True, kw_only=True)
class _Open:
    """A stretch that is being filled: how far the mixes and the clock have come since it began."""

    window: Window
    offset_mixes: int
    used_mixes: float = 0.0
    spent_s: float = 0.0  # as the timetable counts: need times cadence
    mixes: int = 0
    last_begins_s: float = 0.0  # the mix that was begun last
    next_begins_s: float = 0.0
    parts: list[Part] = field(default_factory=list)

    @property
    def left_s(self) -> float:
        return self.window.until_s - self.window.from_s - self.spent_s

    def pour(self, pour: RoomPour, mixes: float) -> None:
        """Add ``mixes`` of a room's need."""
        cadence_s = pour.pace.cadence_s
        first = math.floor(self.used_mixes * (1 + GUARD) + GUARD) + 1
        used_before = self.offset_mixes + self.used_mixes
        self.used_mixes += mixes
        last = max(first, math.ceil(self.used_mixes * (1 - GUARD)))
        shares = first <= self.mixes
        begins_s = self.last_begins_s if shares else self.next_begins_s
        if last > self.mixes:
            self.last_begins_s = self.next_begins_s + (last - self.mixes - 1) * cadence_s
            self.next_begins_s = self.last_begins_s + cadence_s
            self.mixes = last
        self.parts.append(
            Part(
                pour=pour,
                first_mix=self.offset_mixes + first,
                last_mix=self.offset_mixes + last,
                begins_s=self.window.from_s + begins_s,
                ends_s=self.window.from_s + self.next_begins_s,
                shares_first=shares,
                used_mixes=used_before,
                takes_mixes=mixes,
            )
        )


class _Division:
    """The stretches so far, the one that is open, and the hours still to come."""

    def __init__(self, windows: Sequence[Window]) -> None:
        self._windows = deque(windows)
        self._done: list[Stretch] = []
        self._open = _Open(window=self._windows.popleft(), offset_mixes=0)

    def fit(self, pour: RoomPour, took_s: float) -> None:
        """Pour a room whole, in the first hours that hold it."""
        while took_s > self._open.left_s + SAME_S and self._windows:
            self._move_on(Stop.ROOM)
        self._open.pour(pour, pour.need_mixes)
        self._open.spent_s += took_s

    def split(self, pour: RoomPour) -> None:
        """Pour a room that no shift holds, stopping at the end of the last whole mix of each.

        What a shift holds of a mix is owed to the next one, so that the pour keeps within a mix of the timetable.
        """
        cadence_s, left, owed = pour.pace.cadence_s, pour.need_mixes, 0.0
        while self._windows and left > owed + self._open.left_s / cadence_s + GUARD:
            holds = max(0.0, owed + self._open.left_s / cadence_s)
            mixes = max(0.0, math.floor(self._open.used_mixes + holds + GUARD) - self._open.used_mixes)
            if mixes > 0:
                self._open.pour(pour, mixes)
            owed, left = holds - mixes, left - mixes
            self._move_on(Stop.JOINT if left < pour.need_mixes else Stop.ROOM)
        self._open.pour(pour, left)
        self._open.spent_s += max(0.0, left - owed) * cadence_s

    def closed(self) -> tuple[Stretch, ...]:
        """All stretches, the open one too."""
        self._close(Stop.END)
        return tuple(self._done)

    def _close(self, stop: Stop) -> None:
        if self._open.parts:
            self._done.append(Stretch(parts=tuple(self._open.parts), stop=stop))

    def _move_on(self, stop: Stop) -> None:
        """Stop here, and go on in the next hours."""
        self._close(stop)
        mixes = self._open.offset_mixes + self._open.mixes
        self._open = _Open(window=self._windows.popleft(), offset_mixes=mixes)
