"""The rooms of a body spread over the shifts: whole mixes counted through, and where the pour stops.

A stretch is what is poured without a stop; it never leaves its shift by more than its last mix. Within it the mix at a
boundary is shared by the rooms on both sides. At a stop the rest of a mix is lost, as a mix is never kept.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from gaugerake.floor.pour import GUARD, Lane, Pace


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
    """Open hours [s] from when a pour may begin to the end of the shift, on the clock of the job."""

    from_s: float
    until_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What one stretch pours of one room.

    Mixes ``first_mix`` to ``last_mix`` reach it, numbered from 1 through the layer; ``begins_s`` is when the first of
    them is started, ``ends_s`` when the next would be. ``shares_first`` says that the first was begun for the room
    before.
    """

    pour: RoomPour
    first_mix: int
    last_mix: int
    begins_s: float
    ends_s: float
    shares_first: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Parts poured one after the other without a stop, and how it ends."""

    parts: tuple[Part, ...]
    stop: Stop


@dataclass(slots=True, kw_only=True)
class _Open:
    """A stretch that is being filled: how far the mixes and the clock have come since it began."""

    begins_s: float
    until_s: float
    offset_mixes: int
    used_mixes: float = 0.0
    spent_s: float = 0.0  # need times cadence, as the timetable counts
    mixes: int = 0
    last_begins_s: float = 0.0  # the mix that was begun last
    next_begins_s: float = 0.0
    parts: list[Part] = field(default_factory=list)

    @property
    def left_s(self) -> float:
        return self.until_s - self.begins_s - self.spent_s

    def whole_mixes_left(self, cadence_s: float) -> float:
        """How much a room may take before the shift ends, to the end of the last mix that fits."""
        return math.floor(self.used_mixes + self.left_s / cadence_s + GUARD) - self.used_mixes

    def pour(self, pour: RoomPour, mixes: float) -> None:
        """Add ``mixes`` of a room's need."""
        cadence = pour.pace.cadence_s
        first = math.floor(self.used_mixes * (1 + GUARD) + GUARD) + 1
        self.used_mixes += mixes
        self.spent_s += mixes * cadence
        last = max(first, math.ceil(self.used_mixes * (1 - GUARD)))
        shares = first <= self.mixes
        begins = self.last_begins_s if shares else self.next_begins_s
        if last > self.mixes:
            self.last_begins_s = self.next_begins_s + (last - self.mixes - 1) * cadence
            self.next_begins_s = self.last_begins_s + cadence
            self.mixes = last
        self.parts.append(
            Part(
                pour=pour,
                first_mix=self.offset_mixes + first,
                last_mix=self.offset_mixes + last,
                begins_s=self.begins_s + begins,
                ends_s=self.begins_s + self.next_begins_s,
                shares_first=shares,
            )
        )


def spread_over_shifts(
    *, pours: Sequence[RoomPour], begins_s: float, next_window: Callable[[float], Window | None], longest_shift_s: float
) -> tuple[tuple[Stretch, ...], bool]:
    """Pour the rooms in their order, stopping where a shift cannot hold the next one.

    Parameters
    ----------
    pours : sequence of RoomPour
        The rooms of one layer in the order of the pour.
    begins_s : float [s]
        When the first mix is started.
    next_window : callable
        The first hours at or after an instant [s] in which the pour may begin, or None when there are none.
    longest_shift_s : float [s]
        The longest shift there is: what is longer than that is stopped within the room.

    Returns
    -------
    tuple of Stretch, bool
        The stretches, and whether all of the layer was placed: False when the windows ran out first.

    Notes
    -----
    A room that the rest of the shift cannot hold waits for one that can, and the stop lies between rooms. A room
    longer than any shift is poured to the end of the last mix that fits, and stopped there at a joint or keyway.
    A room's time is its need times its cadence, unrounded, so the last mix of a shift may run over by a part of itself.

    Examples
    --------
    Two rooms of 30 and 25 mixes at two minutes: with an hour and a half to a shift, a room a day.

    >>> step = Pace(mix_area_m2=2.2, mixing_s=120, placing_s=100)
    >>> lane = Lane(width_m=6, depth_m=1)
    >>> rooms = [RoomPour(room=room, need_mixes=need, pace=step, lane=lane) for room, need in ((0, 30), (1, 25))]
    >>> def window(after_s):
    ...     day = math.ceil(after_s / 86400)
    ...     return Window(from_s=day * 86400, until_s=day * 86400 + 5400)
    >>> stretches, whole = spread_over_shifts(pours=rooms, begins_s=0, next_window=window, longest_shift_s=5400)
    >>> [(s.stop.value, s.parts[0].begins_s, s.parts[0].first_mix, s.parts[0].last_mix) for s in stretches], whole
    ([('room', 0.0, 1, 30), ('end', 86400.0, 31, 55)], True)
    """
    first = next_window(begins_s)
    if first is None:
        return (), False
    spread = _Spread(next_window, first)
    for pour in pours:
        took = pour.need_mixes * pour.pace.cadence_s
        too_long = took > longest_shift_s * (1 + GUARD)
        placed = spread.split(pour) if too_long else spread.fit(pour, took)
        if not placed:
            return spread.closed(whole=False), False
    return spread.closed(whole=True), True


class _Spread:
    """The stretches so far and the one that is open."""

    def __init__(self, next_window: Callable[[float], Window | None], first: Window) -> None:
        self._next_window = next_window
        self._done: list[Stretch] = []
        self._open = _Open(begins_s=first.from_s, until_s=first.until_s, offset_mixes=0)

    def fit(self, pour: RoomPour, took_s: float) -> bool:
        """Pour a room whole, in the first hours that hold it."""
        while took_s > self._open.left_s + took_s * GUARD:
            if not self._move_on(Stop.ROOM):
                return False
        self._open.pour(pour, pour.need_mixes)
        return True

    def split(self, pour: RoomPour) -> bool:
        """Pour a room that no shift holds, stopping at the end of the last whole mix of each."""
        left = pour.need_mixes
        while left > pour.need_mixes * GUARD:
            mixes = min(left, self._open.whole_mixes_left(pour.pace.cadence_s))
            if mixes > 0:
                self._open.pour(pour, mixes)
                left -= mixes
            elif not self._move_on(Stop.JOINT if left < pour.need_mixes else Stop.ROOM):
                return False
        return True

    def closed(self, *, whole: bool) -> tuple[Stretch, ...]:
        """All stretches, the open one too."""
        self._close(Stop.END if whole else Stop.ROOM)
        return tuple(self._done)

    def _close(self, stop: Stop) -> None:
        if self._open.parts:
            self._done.append(Stretch(parts=tuple(self._open.parts), stop=stop))

    def _move_on(self, stop: Stop) -> bool:
        """Stop here, and go on when the next shift opens."""
        window = self._next_window(self._open.until_s)
        if window is None:
            return False
        self._close(stop)
        mixes = self._open.offset_mixes + self._open.mixes
        self._open = _Open(begins_s=window.from_s, until_s=window.until_s, offset_mixes=mixes)
        return True
