"""Where work fits: in shifts, and begun while the floor's temperature lets the product be placed."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import field
from enum import StrEnum
from itertools import compress, pairwise, takewhile
from typing import NamedTuple

from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.shifts import OpenHours, Stretch
from gaugerake.floor.cure.course import SAME_TEMPERATURE_K, Course, LoggedCourse, SteadyCourse, pieces
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.local_time import DAY_S
from gaugerake.floor.values.range import Limits

SAME_INSTANT_S = 1e-3
"""Instants closer than this are one: what floats leave over breaks no shift and costs no minute."""
LEAST_AHEAD_S = 3600.0
"""How far ahead a floor's temperature is looked at, at least: of a log of minutes, a day is many."""
NEAR_K = 2 * SAME_TEMPERATURE_K
"""A log that keeps further from limits than this is outside of them, whatever floats leave over."""
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


_make_placed = maker(Placed)


class Near(NamedTuple):
    """The stretches of a temperature log that may be within a product's limits, by their begins and ends [s].

    Between two readings a log is never warmer or colder than both, but for the noise of floats, for which ``NEAR_K``
    leaves room. So outside these stretches it is surely outside the limits, and its temperatures need not be read.
    """

    begins_s: list[float]
    ends_s: list[float]

    @classmethod
    def of(cls, course: LoggedCourse, limits_k: Limits) -> Near:
        """The stretches of a log, its held ends included; made once and kept with the log."""
        key = "near", limits_k.low, limits_k.high
        known = course.tables.get(key)
        if isinstance(known, Near):
            return known
        low_k = -math.inf if limits_k.low is None else limits_k.low - NEAR_K
        high_k = math.inf if limits_k.high is None else limits_k.high + NEAR_K
        readings_k = [course.temperatures_k[0], *course.temperatures_k, course.temperatures_k[-1]]
        near = [
            (a_k >= low_k or b_k >= low_k) and (a_k <= high_k or b_k <= high_k) for a_k, b_k in pairwise(readings_k)
        ]
        instants_s = [-math.inf, *course.instants_s, math.inf]
        found = cls(list(compress(instants_s, near)), list(compress(instants_s[1:], near)))
        course.tables[key] = found
        return found

    def touches(self, from_s: float, until_s: float) -> bool:
        """Whether any of them reaches into a span, or to ``from_s`` where that is later."""
        index = bisect_left(self.ends_s, from_s)
        if index == len(self.ends_s):
            return False
        return self.begins_s[index] <= until_s or self.begins_s[index] <= from_s


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Where work is scheduled: its open hours, its floor's temperature, and the horizon ``until_s`` [s].

    Work that would end after the horizon has no hours. ``budget`` counts the stretches that are looked at, and stops
    nothing. Two fields are derived from the course: ``span_k``, its lowest and highest temperature [K], and
    ``settled_from_s``, from when on the floor's temperature no longer changes [s].
    """

    hours: OpenHours
    course: Course
    until_s: float
    budget: Budget = field(default_factory=Budget, init=False, compare=False, repr=False)
    span_k: tuple[float, float] = field(init=False, compare=False, repr=False)
    settled_from_s: float = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Ask the course once, as every shift is held against these."""
        object.__setattr__(self, "span_k", self.course.span_k)
        object.__setattr__(self, "settled_from_s", self.course.settled_from_s)

    def place(self, ready_s: float, parts_s: Sequence[float], limits_k: Limits = ANY_TEMPERATURE) -> Placed | None:
        """The first hours for work of ``parts_s`` (one after the other), or None before the end of what is looked at.

        Work that fits one shift is begun only where it fits. What is longer than any is stopped between parts, and a
        part that is longer than any at the ends of shifts.
        """
        whole_s = math.fsum(parts_s)
        if whole_s <= self.hours.longest_s + SAME_INSTANT_S:
            fitted = self._fit(ready_s, whole_s, limits_k)
            return None if fitted is None else _make_placed(stretches=((fitted[0], fitted[0] + whole_s),))
        return self._place_parts(ready_s, parts_s, limits_k)

    def _place_parts(self, ready_s: float, parts_s: Sequence[float], limits_k: Limits) -> Placed | None:
        """Part after part. One that the rest of the shift of the one before it holds needs no look at the shifts, and
        none at the floor where that keeps within limits for the rest of the shift.
        """
        stretches: list[Stretch] = []
        stops, close_s, keeps = Stops.BETWEEN_ROOMS, -math.inf, False
        for part_s in parts_s:
            end_s = ready_s + part_s
            if part_s > self.hours.longest_s + SAME_INSTANT_S:
                found = self._split(ready_s, part_s, limits_k)
                if found is None:
                    return None
                stops, close_s = Stops.AT_SHIFT_END if len(found) > 1 else stops, -math.inf
                stretches += found
            elif (
                ready_s < close_s
                and end_s <= min(close_s, self.until_s)
                and (keeps or self._plainly_within(ready_s, limits_k))
            ):
                self.budget.spend(1)
                stretches.append((ready_s, end_s))
            else:
                fitted = self._fit(ready_s, part_s, limits_k)
                if fitted is None:
                    return None
                begin_s, close_s = fitted
                keeps = self._keeps_within(begin_s, close_s, limits_k)
                stretches.append((begin_s, begin_s + part_s))
            ready_s = stretches[-1][1]
        return Placed(stretches=tuple(stretches), stops=stops)

    def _split(self, ready_s: float, left_s: float, limits_k: Limits) -> list[Stretch] | None:
        found: list[Stretch] = []
        always = self._always_within(limits_k)
        near = None if always else self._near(limits_k)
        for open_s, close_s in takewhile(lambda stretch: stretch[0] <= self.until_s, self.hours.since(ready_s)):
            self.budget.spent += 1
            earliest_s = open_s if open_s > ready_s else ready_s
            begin_s = earliest_s if always else self._within(earliest_s, close_s, limits_k, near)
            if begin_s is None and earliest_s >= self.settled_from_s:
                return None
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
        fitted = self._fit(ready_s, whole_s, limits_k)
        return None if fitted is None else fitted[0]

    def _fit(self, ready_s: float, whole_s: float, limits_k: Limits) -> tuple[float, float] | None:
        """That instant, and when its shift closes."""
        always = self._always_within(limits_k)
        if not always and self._never_within(limits_k):
            return None
        looked_at, found, near = 0, None, None if always else self._near(limits_k)
        for open_s, close_s in self.hours.since(ready_s):
            looked_at += 1
            earliest_s, latest_s = open_s if open_s > ready_s else ready_s, close_s - whole_s
            if earliest_s > self.until_s:
                break
            if latest_s >= earliest_s - SAME_INSTANT_S:
                begin_s = earliest_s if always else self._within(earliest_s, latest_s, limits_k, near)
                if begin_s is not None:
                    found = (begin_s, close_s) if begin_s + whole_s <= self.until_s else None
                    break
                if earliest_s >= self.settled_from_s:
                    break
        self.budget.spent += looked_at
        return found

    def _never_within(self, limits_k: Limits) -> bool:
        coldest_k, warmest_k = self.span_k
        return not (_at_least(warmest_k, limits_k.low) and _at_most(coldest_k, limits_k.high))

    def _always_within(self, limits_k: Limits) -> bool:
        (coldest_k, warmest_k), low_k, high_k = self.span_k, limits_k.low, limits_k.high
        return (low_k is None or coldest_k >= low_k - SAME_TEMPERATURE_K) and (
            high_k is None or warmest_k <= high_k + SAME_TEMPERATURE_K
        )

    def _near(self, limits_k: Limits) -> Near | None:
        """When a log comes near limits; None for other courses."""
        return Near.of(self.course, limits_k) if isinstance(self.course, LoggedCourse) else None

    def _within(self, from_s: float, until_s: float, limits_k: Limits, near: Near | None) -> float | None:
        """The first instant of a span at which the floor's temperature is within limits."""
        if near is not None and not near.touches(from_s, until_s):
            return None
        if self._plainly_within(from_s, limits_k):
            return from_s
        if isinstance(self.course, SteadyCourse):
            return None
        until_s = min(until_s, self.until_s)
        if self._misses(from_s, until_s, limits_k):
            return None
        levels_k = [limit_k for limit_k in (limits_k.low, limits_k.high) if limit_k is not None]
        ahead_s = min(max(until_s - from_s, LEAST_AHEAD_S), DAY_S)
        for start_s, end_s in pieces(self.course, from_s=from_s, levels_k=levels_k, ahead_s=ahead_s):
            self.budget.spend(1)
            if start_s > max(until_s, from_s):
                break
            typical_k = self.course.at(start_s if end_s > 1e15 else (start_s + end_s) / 2)
            if _at_least(typical_k, limits_k.low) and _at_most(typical_k, limits_k.high):
                return start_s
        return None

    def _plainly_within(self, at_s: float, limits_k: Limits) -> bool:
        """Whether the floor's temperature is within limits always, or at an instant by more than noise."""
        if self._always_within(limits_k):
            return True
        return not isinstance(self.course, SteadyCourse) and _well_within(self.course.at(at_s), limits_k)

    def _keeps_within(self, from_s: float, until_s: float, limits_k: Limits) -> bool:
        """Whether a course plainly keeps within the limits in a span."""
        return all(_well_within(reached_k, limits_k) for reached_k in self.course.reached_k(from_s, until_s))

    def _misses(self, from_s: float, until_s: float, limits_k: Limits) -> bool:
        """Whether a course plainly keeps outside the limits in a span, which is seen without its pieces."""
        low_k, high_k = self.course.reached_k(from_s, max(from_s, until_s))
        return not (_at_least(high_k, limits_k.low) and _at_most(low_k, limits_k.high))


def minute_up(*, instant_s: float) -> float:
    """An instant rounded up to the minute.

    Parameters
    ----------
    instant_s : float [s]
        The instant.

    Returns
    -------
    float
        The first whole minute not before it [s].

    Notes
    -----
    Rounding up, as a return time is never shown too early. A millisecond past the minute is float noise and not a
    minute more.

    Examples
    --------
    >>> minute_up(instant_s=61.0), minute_up(instant_s=60.0000001)
    (120.0, 60.0)
    """
    return math.ceil((instant_s - SAME_INSTANT_S) / 60) * 60.0


def joined(stretches: Sequence[Stretch]) -> list[Stretch]:
    """Hours of work, those that follow each other without a stop made one.

    Parameters
    ----------
    stretches : sequence of Stretch
        Hours of work, each by its start and its end [s], in order.

    Returns
    -------
    list of Stretch
        The same hours, no two of which meet.

    Examples
    --------
    >>> joined([(0.0, 3600.0), (3600.0, 7200.0), (9000.0, 9600.0)])
    [(0.0, 7200.0), (9000.0, 9600.0)]
    """
    found: list[Stretch] = []
    for from_s, until_s in stretches:
        if found and from_s - found[-1][1] < SAME_INSTANT_S:
            found[-1] = (found[-1][0], until_s)
        else:
            found.append((from_s, until_s))
    return found


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
