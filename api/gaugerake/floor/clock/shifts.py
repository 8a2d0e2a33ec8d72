"""When people work: shifts by weekday on the wall clock, as stretches of instants."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from datetime import date, time
from itertools import chain, count, pairwise

from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.errors import NeverOpen
from gaugerake.floor.values.local_time import DAY_S, Zone

WEEK_S = 7 * DAY_S
LONGEST_STRETCH_S = 370 * DAY_S
"""Where shifts touch for longer than this, the stretch is cut: nothing is planned so far ahead."""

MOST_SHIFTS_A_DAY = 8
"""More crews and breaks than any day has. Work over a year of more would be cut into tens of thousands of pieces."""
MOST_WEEKS = 150
"""How many weeks' shifts are kept."""
MOST_ENDS = 1_000
"""How many shifts are kept with the end of the stretch that each begins."""
CLOCK_CHANGE_S = 3 * 3600.0
"""More than any clock is ever set forward or back by."""
LONGEST_SINCE_S = 3 * DAY_S
"""What began on a day, on whatever clock, has ended by then: a shift is no longer than a day, a zone's offset less."""

Stretch = tuple[float, float]

_WEEKDAYS = {day: index for index, day in enumerate(Weekday)}
_EPOCH_WEEKDAY = date(1970, 1, 1).weekday()


class RoundTheClock:
    """Work at every hour."""

    longest_s = math.inf
    longest_wait_s = 0.0
    closed_days = 0

    def since(self, instant_s: float) -> Iterator[Stretch]:
        """The one stretch from ``instant_s`` on."""
        yield instant_s, math.inf

    def before(self, instant_s: float) -> Iterator[Stretch]:
        """Days counted back from ``instant_s``, without end."""
        return ((instant_s - day * DAY_S, instant_s - (day - 1) * DAY_S) for day in count(1))

    def opened_s(self, _instant_s: float) -> float:
        """Before all time."""
        return -math.inf


class Shifts:
    """The shifts of a place as stretches [s], overlaps united, closed dates left out.

    A shift belongs to the day on which it starts; one that ends at or before its start ends on the next day. How long
    it is in real hours the wall clock says: on the night of a change an hour less or more. ``longest_s`` is the
    longest stretch of an ordinary week, ``longest_wait_s`` the longest way from the begin of one as long to that of the
    next, infinite when the week has no gap. So many are the ``closed_days``.
    """

    def __init__(self, *, shifts: Iterable[Shift], closed: Iterable[date], zone: Zone) -> None:
        """Read the shifts.

        Raises
        ------
        NeverOpen
            When no weekday has a shift.
        """
        self._week = _week(shifts)
        if not any(self._week):
            raise NeverOpen("shifts")
        self._closed = frozenset(_day_number(day) for day in closed)
        self._zone = zone
        self._known: dict[int, tuple[Stretch, ...]] = {}
        self._ends_s: dict[Stretch, float] = {}
        self.closed_days = len(self._closed)
        self.longest_s = _longest_s(self._week)
        self.longest_wait_s = _longest_wait_s(self._week, self.longest_s)
        self._apart = _apart(self._week)

    def since(self, instant_s: float) -> Iterator[Stretch]:
        """The stretches that end after ``instant_s``, in order, without end; the first may have begun before it."""
        if self._apart:  # the usual case
            return self._later(instant_s)
        return self._united(instant_s) if self.longest_s < math.inf else self._yearlong(instant_s)

    def _united(self, instant_s: float) -> Iterator[Stretch]:
        """The stretches of a week in which some shifts meet: those are one stretch, unless it would be too long."""
        later = self._later(instant_s)
        open_from_s, open_until_s = next(later)
        for start_s, end_s in later:
            if end_s <= open_until_s:
                continue
            if start_s > open_until_s or end_s - open_from_s > LONGEST_STRETCH_S:
                yield open_from_s, open_until_s
                open_from_s = start_s
            open_until_s = end_s

    def _yearlong(self, instant_s: float) -> Iterator[Stretch]:
        """The stretches of a week without a gap: each unites the shifts of a year, so its end is kept."""
        while True:
            first = next(self._later(instant_s))
            instant_s = self._open_until_s(first)
            yield first[0], instant_s

    def _open_until_s(self, first: Stretch) -> float:
        """When the stretch ends that begins with a shift; kept, as a week without a gap is united for a year."""
        known = self._ends_s.get(first)
        if known is None:
            if len(self._ends_s) >= MOST_ENDS:
                self._ends_s.clear()
            known = self._ends_s[first] = _united_end_s(first, self._later(first[1]))
        return known

    def _later(self, instant_s: float) -> Iterator[Stretch]:
        """The shifts that end after ``instant_s``, without end, not united."""
        first, known = math.floor((instant_s - LONGEST_SINCE_S) / WEEK_S), self._known
        return (
            stretch
            for week in count(first)
            for stretch in (known[week] if week in known else self._in(week))
            if stretch[1] > instant_s
        )

    def before(self, instant_s: float) -> Iterator[Stretch]:
        """The shifts that start before ``instant_s``, the last first, without end, not united."""
        weeks = count(-math.floor((instant_s + DAY_S) / WEEK_S))
        return (stretch for week in weeks for stretch in reversed(self._in(-week)) if stretch[0] < instant_s)

    def opened_s(self, instant_s: float) -> float:
        """When the last shift that starts before ``instant_s``, or then, starts; infinite as that is."""
        return next(self.before(math.nextafter(instant_s, math.inf)))[0] if instant_s < math.inf else math.inf

    def _in(self, week: int) -> tuple[Stretch, ...]:
        """The shifts that start in a week (counted from 1970-01-01), day by day, as instants."""
        known = self._known.get(week)
        if known is None:
            if len(self._known) >= MOST_WEEKS:
                self._known.clear()
            known = self._known[week] = tuple(chain.from_iterable(self._on(7 * week + day) for day in range(7)))
        return known

    def _on(self, day: int) -> Iterator[Stretch]:
        """The shifts that start on a day (counted from 1970-01-01), as instants."""
        if day in self._closed:
            return
        midnight_s = day * DAY_S
        for start_s, end_s in self._week[(day + _EPOCH_WEEKDAY) % 7]:
            stretch = self._zone.instant_s(midnight_s + start_s), self._zone.instant_s(midnight_s + end_s)
            if stretch[1] > stretch[0]:
                yield stretch


OpenHours = RoundTheClock | Shifts


def _united_end_s(first: Stretch, later: Iterator[Stretch]) -> float:
    """The end of what a shift makes with those that meet it; ``later`` are those that end after it, by their starts."""
    open_from_s, open_until_s = first
    for start_s, end_s in later:
        if start_s > open_until_s or end_s - open_from_s > LONGEST_STRETCH_S:
            break
        open_until_s = max(open_until_s, end_s)
    return open_until_s


def _day_number(day: date) -> int:
    return day.toordinal() - date(1970, 1, 1).toordinal()


def _seconds(at: time) -> float:
    return at.hour * 3600.0 + at.minute * 60.0 + at.second


def _week(shifts: Iterable[Shift]) -> tuple[tuple[Stretch, ...], ...]:
    """For each weekday its shifts, in seconds after midnight, in order."""
    week: list[list[Stretch]] = [[] for _ in Weekday]
    for shift in shifts:
        start_s, end_s = _seconds(shift.starts), _seconds(shift.ends)
        for day in shift.days:
            week[_WEEKDAYS[day]].append((start_s, end_s if end_s > start_s else end_s + DAY_S))
    return tuple(tuple(sorted(set(day))) for day in week)


def _apart(week: tuple[tuple[Stretch, ...], ...]) -> bool:
    """Whether shifts are so far from each other that none meet, even in the night in which the clocks are changed."""
    flat = [(day * DAY_S + start_s, day * DAY_S + end_s) for day in range(15) for start_s, end_s in week[day % 7]]
    return all(before[1] + CLOCK_CHANGE_S < after[0] for before, after in pairwise(flat))


def _ordinary(week: tuple[tuple[Stretch, ...], ...], days: int) -> Iterator[Stretch]:
    """The stretches of so many ordinary days, those that meet made one; the first and the last may be cut."""
    open_from_s, open_until_s = -math.inf, -math.inf
    for day in range(days):
        for start_s, end_s in week[day % 7]:
            if day * DAY_S + start_s > open_until_s:
                yield open_from_s, open_until_s
                open_from_s = day * DAY_S + start_s
            open_until_s = max(open_until_s, day * DAY_S + end_s)
    yield open_from_s, open_until_s


def _longest_s(week: tuple[tuple[Stretch, ...], ...]) -> float:
    """The longest stretch of an ordinary week; infinite when the week has no gap."""
    longest_s = max(until_s - from_s for from_s, until_s in _ordinary(week, 15) if until_s > -math.inf)
    return longest_s if longest_s < WEEK_S else math.inf


def _longest_wait_s(week: tuple[tuple[Stretch, ...], ...], longest_s: float) -> float:
    """The longest way from one stretch of the longest to the next; three weeks hold every way whole."""
    starts_s = [from_s for from_s, until_s in _ordinary(week, 29) if until_s - from_s >= longest_s]
    return max((later_s - before_s for before_s, later_s in pairwise(starts_s)), default=math.inf)
