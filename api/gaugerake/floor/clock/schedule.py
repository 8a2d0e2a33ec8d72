"""Where work fits: in shifts, and begun while the floor's temperature lets the product be placed."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from itertools import takewhile

from gaugerake.floor.clock.shifts import OpenHours, Stretch
from gaugerake.floor.cure.course import SAME_TEMPERATURE_K, Course, DailyCourse, SteadyCourse, pieces
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import DAY_S
from gaugerake.floor.values.range import Limits

SAME_INSTANT_S = 1e-3
"""Instants closer than this are one: what floats leave over breaks no shift and costs no minute."""
LEAST_AHEAD_S = 3600.0
"""How far ahead a floor's temperature is looked at, at least: of a log of minutes, a day is many."""
ANY_TEMPERATURE = Limits()


class Stops(StrEnum):
    """Where work that is longer than any shift is stopped."""

    NOWHERE = "nowhere"
    BETWEEN_ROOMS = "between-rooms"
    AT_SHIFT_END = "at-shift-end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Work that has its hours: ``stretches`` [s], more than one where it is split."""

    stretches: tuple[Stretch, ...]
    stops: Stops = Stops.NOWHERE

    @property
    def from_s(self) -> float:
        """When it begins [s]."""
        return self.stretches[0][0]

    @property
    def until_s(self) -> float:
        """When it ends [s]."""
        return self.stretches[-1][1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Where the work goes on: its open hours, its floor's temperature, and the end of what is looked at [s].

    Work that would end after that has no hours.
    """

    hours: OpenHours
    course: Course
    until_s: float

    def place(self, ready_s: float, parts_s: Sequence[float], limits_k: Limits = ANY_TEMPERATURE) -> Placed | None:
        """The first hours for work of ``parts_s`` (one after the other), or None before the end of what is looked at.

        Work that fits one shift is begun only where it fits. What is longer than any is stopped between parts, and a
        part that is longer than any at the ends of shifts.
        """
        whole_s = sum(parts_s)
        if whole_s <= self.hours.longest_s + SAME_INSTANT_S:
            begin_s = self.fit(ready_s, whole_s, limits_k)
            return None if begin_s is None else Placed(stretches=((begin_s, begin_s + whole_s),))
        stretches: list[Stretch] = []
        stops = Stops.BETWEEN_ROOMS
        for part_s in parts_s:
            found = self._place_part(stretches[-1][1] if stretches else ready_s, part_s, limits_k)
            if found is None:
                return None
            stops = Stops.AT_SHIFT_END if len(found) > 1 else stops
            stretches += found
        return Placed(stretches=tuple(stretches), stops=stops)

    def _place_part(self, ready_s: float, part_s: float, limits_k: Limits) -> list[Stretch] | None:
        if part_s > self.hours.longest_s + SAME_INSTANT_S:
            return self._split(ready_s, part_s, limits_k)
        begin_s = self.fit(ready_s, part_s, limits_k)
        return None if begin_s is None else [(begin_s, begin_s + part_s)]

    def _split(self, ready_s: float, left_s: float, limits_k: Limits) -> list[Stretch] | None:
        found: list[Stretch] = []
        for open_s, close_s in takewhile(lambda stretch: stretch[0] <= self.until_s, self.hours.since(ready_s)):
            begin_s = self._within(max(open_s, ready_s), close_s, limits_k)
            if begin_s is None or close_s - begin_s < SAME_INSTANT_S:
                continue
            end_s = min(begin_s + left_s, close_s)
            found.append((begin_s, end_s))
            left_s -= end_s - begin_s
            if left_s < SAME_INSTANT_S:
                return found if end_s <= self.until_s else None
        return None

    def fit(self, ready_s: float, whole_s: float, limits_k: Limits = ANY_TEMPERATURE) -> float | None:
        """The first instant from ``ready_s`` on at which work of ``whole_s`` may begin and fits the shift."""
        if self._never_within(limits_k):
            return None
        for open_s, close_s in self.hours.since(ready_s):
            earliest_s, latest_s = max(open_s, ready_s), close_s - whole_s
            if earliest_s > self.until_s:
                break
            if latest_s >= earliest_s - SAME_INSTANT_S:
                begin_s = self._within(earliest_s, latest_s, limits_k)
                if begin_s is not None:
                    return begin_s if begin_s + whole_s <= self.until_s else None
        return None

    def _never_within(self, limits_k: Limits) -> bool:
        coldest_k, warmest_k = self.course.span_k
        return not (_at_least(warmest_k, limits_k.low) and _at_most(coldest_k, limits_k.high))

    def _within(self, from_s: float, until_s: float, limits_k: Limits) -> float | None:
        """The first instant of a span at which the floor's temperature is within limits."""
        coldest_k, warmest_k = self.course.span_k
        if _at_least(coldest_k, limits_k.low) and _at_most(warmest_k, limits_k.high):
            return from_s
        if isinstance(self.course, SteadyCourse):
            return None
        if _well_within(self.course.at(from_s), limits_k):
            return from_s
        until_s = min(until_s, self.until_s)
        if self._misses(from_s, until_s, limits_k):
            return None
        levels_k = [limit_k for limit_k in (limits_k.low, limits_k.high) if limit_k is not None]
        ahead_s = min(max(until_s - from_s, LEAST_AHEAD_S), DAY_S)
        for start_s, end_s in pieces(self.course, from_s=from_s, levels_k=levels_k, ahead_s=ahead_s):
            if start_s > max(until_s, from_s):
                break
            typical_k = self.course.at(start_s if end_s > 1e15 else (start_s + end_s) / 2)
            if _at_least(typical_k, limits_k.low) and _at_most(typical_k, limits_k.high):
                return start_s
        return None

    def _misses(self, from_s: float, until_s: float, limits_k: Limits) -> bool:
        """Whether a wave plainly keeps outside the limits in a span, which is seen without its pieces."""
        if not isinstance(self.course, DailyCourse):
            return False
        low_k, high_k = self.course.reached_k(from_s, max(from_s, until_s))
        return not (_at_least(high_k, limits_k.low) and _at_most(low_k, limits_k.high))


def _well_within(temperature_k: float, limits_k: Limits) -> bool:
    """Within limits, and not by what counts as the same temperature."""
    low_k, high_k = limits_k.low, limits_k.high
    return (low_k is None or temperature_k > low_k + SAME_TEMPERATURE_K) and (
        high_k is None or temperature_k < high_k - SAME_TEMPERATURE_K
    )


def _at_least(temperature_k: float, limit_k: float | None) -> bool:
    return limit_k is None or temperature_k >= limit_k - SAME_TEMPERATURE_K


def _at_most(temperature_k: float, limit_k: float | None) -> bool:
    return limit_k is None or temperature_k <= limit_k + SAME_TEMPERATURE_K
