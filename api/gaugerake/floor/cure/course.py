"""The floor's temperature as a function of the instant: steady, a daily wave, or a log.

A course is smooth in pieces. ``pieces`` walks them, split wherever the temperature bends (a reading, a change of the
clocks, the coldest and the warmest hour) or crosses a level that matters to the caller (a limit, a row of a table), so
that in each piece the temperature is monotone and stays on one side of every level.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import field
from functools import lru_cache
from itertools import pairwise
from operator import lt

from gaugerake.floor.values.errors import OutOfOrder, OutOfRange
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import DAY_S, Zone

LONGEST_PIECE_S = 6 * 3600.0
SAME_TEMPERATURE_K = 1e-6
"""Temperatures closer than this are one: what conversions between scales leave over decides nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SteadyCourse:
    """One temperature [K] throughout."""

    temperature_k: float

    settled_from_s: float = field(default=-math.inf, init=False, repr=False)

    def at(self, _instant_s: float) -> float:
        """The temperature [K]."""
        return self.temperature_k

    def within(self, _from_s: float) -> Callable[[float], float]:
        """The temperature [K] by the seconds since the start of a piece."""
        return lambda _since_s: self.temperature_k

    @property
    def span_k(self) -> tuple[float, float]:
        """The lowest and the highest temperature [K]."""
        return self.temperature_k, self.temperature_k

    def kinks(self, _from_s: float, _until_s: float, _levels_k: Sequence[float]) -> list[float]:
        """None: a steady temperature crosses nothing."""
        return []

    def reached_k(self, _from_s: float, _until_s: float) -> tuple[float, float]:
        """The lowest and the highest temperature between two instants [K]."""
        return self.span_k

    def warmer_by(self, difference_k: float) -> SteadyCourse:
        """A steady course ``difference_k`` warmer."""
        return SteadyCourse(temperature_k=self.temperature_k + difference_k)


@dataclass(frozen=True, slots=True, kw_only=True)
class DailyCourse:
    """A sinusoid of the wall clock: mean − amplitude·cos 2π(h − coldest_at)/24, between ``low_k`` and ``high_k``.

    ``coldest_at_s`` is seconds after midnight on the clock of ``zone``. A phase is seconds since the coldest hour.
    ``tables`` is where others keep what they have worked out for a day of it.
    """

    low_k: float
    high_k: float
    coldest_at_s: float
    zone: Zone

    settled_from_s: float = field(default=math.inf, init=False, repr=False)
    tables: dict[object, object] = field(default_factory=dict, init=False, repr=False, compare=False)

    @property
    def span_k(self) -> tuple[float, float]:
        """The lowest and the highest temperature [K]."""
        return self.low_k, self.high_k

    @property
    def wave_k(self) -> tuple[float, float]:
        """The mean and the amplitude [K]."""
        return (self.low_k + self.high_k) / 2, (self.high_k - self.low_k) / 2

    def at(self, instant_s: float) -> float:
        """The temperature [K]."""
        return self.within(instant_s)(0.0)

    def within(self, from_s: float) -> Callable[[float], float]:
        """The temperature [K] by the seconds since ``from_s``, until the clocks are next changed."""
        return self.by_phase(self.phase_s(from_s))

    def phase_s(self, instant_s: float) -> float:
        """The phase of an instant [s], from 0 to a day."""
        return (self.zone.wall_s(instant_s) - self.coldest_at_s) % DAY_S

    def by_phase(self, from_s: float) -> Callable[[float], float]:
        """The temperature [K] by the seconds since a phase."""
        mean_k, amplitude_k = self.wave_k
        frequency = 2 * math.pi / DAY_S
        phase = frequency * from_s
        return lambda since_s: mean_k - amplitude_k * math.cos(phase + frequency * since_s)

    def phases(self, levels_k: Sequence[float], longest_s: float) -> Iterator[tuple[float, float]]:
        """The smooth pieces of a day from its coldest hour on, by their phases."""
        bounds = sorted({0.0, DAY_S, *self._bends(levels_k)})
        for start_s, end_s in pairwise(bounds):
            yield from _cut(start_s, end_s, longest_s)

    def _bends(self, levels_k: Sequence[float]) -> list[float]:
        """The phases at which it is coldest, warmest or crosses a level."""
        return [0.0, DAY_S / 2, *self.crossings(levels_k)[1:-1]]

    def crossings(self, levels_k: Sequence[float]) -> list[float]:
        """The phases at which it crosses a level, in order, between the start and the end of the day."""
        mean_k, amplitude_k = self.wave_k
        found = [0.0, DAY_S]
        for level_k in levels_k:
            if abs(mean_k - level_k) < amplitude_k:
                phase_s = math.acos((mean_k - level_k) / amplitude_k) / (2 * math.pi) * DAY_S
                found += [phase_s, DAY_S - phase_s]
        return sorted(found)

    def kinks(self, from_s: float, until_s: float, levels_k: Sequence[float]) -> list[float]:
        """Where it is coldest or warmest, crosses a level, or jumps with the clocks, between the two instants."""
        bends, changes = self._bends(levels_k), self.zone.changes_s(from_s, until_s)
        found = list(changes)
        for start_s, end_s in pairwise([from_s, *changes, until_s]):
            found += self._at_phases(bends, start_s, end_s)
        return sorted(found)

    def reached_k(self, from_s: float, until_s: float) -> tuple[float, float]:
        """The lowest and the highest temperature between two instants [K]."""
        if until_s > self.zone.same_until_s(from_s):
            return self.span_k if self._has_whole_day(from_s, until_s) else _reached_k(self, from_s, until_s)
        first = self.phase_s(from_s)
        last = first + until_s - from_s
        ends_k = self.by_phase(first)(0.0), self.by_phase(last)(0.0)
        low_k = self.low_k if last >= DAY_S else min(ends_k)
        high_k = self.high_k if first <= DAY_S / 2 <= last or last >= 1.5 * DAY_S else max(ends_k)
        return low_k, high_k

    def _has_whole_day(self, from_s: float, until_s: float) -> bool:
        """Whether a day passes before the clocks are changed, or after that and before they are changed again."""
        change_s = self.zone.same_until_s(from_s)
        return change_s - from_s >= DAY_S or min(self.zone.same_until_s(change_s), until_s) - change_s >= DAY_S

    def _at_phases(self, phases_s: Iterable[float], from_s: float, until_s: float) -> Iterator[float]:
        begun_s = self.phase_s(from_s)
        for phase_s in phases_s:
            at_s = from_s + (phase_s - begun_s) % DAY_S
            while at_s < until_s:
                if at_s > from_s:
                    yield at_s
                at_s += DAY_S

    def warmer_by(self, difference_k: float) -> DailyCourse:
        """A daily course ``difference_k`` warmer at every hour."""
        return DailyCourse(
            low_k=self.low_k + difference_k,
            high_k=self.high_k + difference_k,
            coldest_at_s=self.coldest_at_s,
            zone=self.zone,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedCourse:
    """Readings: ``temperatures_k`` at ``instants_s``, linear between them and held at both ends.

    ``span_k`` is derived: the lowest and the highest reading. ``tables`` is where others keep what they work out.
    """

    instants_s: tuple[float, ...]
    temperatures_k: tuple[float, ...]
    span_k: tuple[float, float] = field(init=False, repr=False, compare=False)
    tables: dict[object, object] = field(default_factory=dict, init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Look for the lowest and the highest reading once."""
        object.__setattr__(self, "span_k", (min(self.temperatures_k), max(self.temperatures_k)))

    @property
    def settled_from_s(self) -> float:
        """The instant from which on it is steady: that of the last reading [s]."""
        return self.instants_s[-1]

    def at(self, instant_s: float) -> float:
        """The temperature [K]."""
        return self.within(instant_s)(0.0)

    def within(self, from_s: float) -> Callable[[float], float]:
        """The temperature [K] by the seconds since ``from_s``, until the next reading."""
        index = bisect_right(self.instants_s, from_s)
        if index in (0, len(self.instants_s)):
            held_k = self.temperatures_k[0 if index == 0 else -1]
            return lambda _since_s: held_k
        slope = self._slope(index)
        start_k = self.temperatures_k[index - 1] + slope * (from_s - self.instants_s[index - 1])
        return lambda since_s: start_k + slope * since_s

    def _slope(self, index: int) -> float:
        rise_k = self.temperatures_k[index] - self.temperatures_k[index - 1]
        return rise_k / (self.instants_s[index] - self.instants_s[index - 1])

    def kinks(self, from_s: float, until_s: float, levels_k: Sequence[float]) -> list[float]:
        """The readings and the crossings of a level, after ``from_s`` and before ``until_s``."""
        found: list[float] = []
        first = bisect_right(self.instants_s, from_s)
        for index in range(first, len(self.instants_s)):
            if index > 0:
                found += self._crossings(index, levels_k)
            found.append(self.instants_s[index])
            if self.instants_s[index] >= until_s:
                break
        return sorted(at_s for at_s in found if from_s < at_s < until_s)

    def reached_k(self, from_s: float, until_s: float) -> tuple[float, float]:
        """The lowest and the highest temperature between two instants [K]."""
        first, last = bisect_right(self.instants_s, from_s), bisect_left(self.instants_s, until_s)
        found_k = (self.at(from_s), self.at(until_s), *self.temperatures_k[first:last])
        return min(found_k), max(found_k)

    def _crossings(self, index: int, levels_k: Sequence[float]) -> Iterator[float]:
        before_k, after_k = self.temperatures_k[index - 1], self.temperatures_k[index]
        for level_k in levels_k:
            if min(before_k, after_k) < level_k < max(before_k, after_k):
                yield self.instants_s[index - 1] + (level_k - before_k) / self._slope(index)

    def warmer_by(self, difference_k: float) -> LoggedCourse:
        """A logged course ``difference_k`` warmer at every reading."""
        warmer_k = tuple(temperature_k + difference_k for temperature_k in self.temperatures_k)
        return LoggedCourse(instants_s=self.instants_s, temperatures_k=warmer_k)


Course = SteadyCourse | DailyCourse | LoggedCourse


def _reached_k(course: DailyCourse, from_s: float, until_s: float) -> tuple[float, float]:
    """The lowest and the highest temperature between two instants [K]: each at an end, or where the course bends."""
    found_k = [course.at(at_s) for at_s in (from_s, until_s, *course.kinks(from_s, until_s, ()))]
    return min(found_k), max(found_k)


def daily_course(*, low_k: float, high_k: float, coldest_at_s: float, zone: Zone) -> Course:
    """A daily wave, or a steady course when it has no height.

    Parameters
    ----------
    low_k, high_k : float [K]
        The lowest and the highest temperature of the day.
    coldest_at_s : float [s]
        When it is lowest, after midnight on the wall clock.
    zone : Zone
        Whose clock that is.

    Returns
    -------
    Course
        The course.

    Raises
    ------
    OutOfRange
        When ``low_k`` is above ``high_k``.

    Notes
    -----
    The wave follows the wall clock, as people and heating do; on a day that is an hour short it jumps by that hour.

    Examples
    --------
    >>> from gaugerake.floor.values.local_time import zone_named
    >>> course = daily_course(low_k=280.0, high_k=290.0, coldest_at_s=5 * 3600.0, zone=zone_named("UTC"))
    >>> course.at(5 * 3600.0), course.at(11 * 3600.0), course.at(17 * 3600.0)
    (280.0, 285.0, 290.0)
    """
    if low_k > high_k:
        raise OutOfRange(
            "low_k", value=Figure(low_k, Kind.TEMPERATURE), low=None, high=Figure(high_k, Kind.TEMPERATURE)
        )
    if high_k - low_k < SAME_TEMPERATURE_K:
        return SteadyCourse(temperature_k=(low_k + high_k) / 2)
    return _wave(low_k, high_k, coldest_at_s, zone)


@lru_cache(maxsize=64)
def _wave(low_k: float, high_k: float, coldest_at_s: float, zone: Zone) -> DailyCourse:
    """A wave, kept with its tables: whoever fills in a job asks again and again about the same days."""
    return DailyCourse(low_k=low_k, high_k=high_k, coldest_at_s=coldest_at_s, zone=zone)


def logged_course(readings: Iterable[tuple[float, float]]) -> LoggedCourse:
    """A course through readings.

    Parameters
    ----------
    readings : iterable of (float, float)
        Instants [s] and temperatures [K], rising in time; at least one.

    Returns
    -------
    LoggedCourse
        The course.

    Raises
    ------
    OutOfOrder
        When a reading is not later than the one before it.

    Notes
    -----
    Linear between readings; before the first and after the last, theirs.

    Examples
    --------
    >>> logged_course([(0.0, 280.0), (3600.0, 290.0)]).at(900.0)
    282.5
    """
    instants_s, temperatures_k = zip(*readings, strict=True)
    if not all(map(lt, instants_s, instants_s[1:])):
        rising = list(map(lt, instants_s, instants_s[1:]))
        raise OutOfOrder("readings", index=rising.index(False) + 1)
    return LoggedCourse(instants_s=instants_s, temperatures_k=temperatures_k)


def pieces(
    course: Course,
    *,
    from_s: float,
    levels_k: Sequence[float] = (),
    longest_s: float = LONGEST_PIECE_S,
    ahead_s: float = DAY_S,
) -> Iterator[tuple[float, float]]:
    """The smooth pieces of a course, one after the other, without end.

    Parameters
    ----------
    course : Course
        The temperature.
    from_s : float [s]
        Where to begin.
    levels_k : sequence of float [K]
        Temperatures that no piece may cross.
    longest_s : float [s]
        The longest piece.
    ahead_s : float [s]
        How far to look at once; a piece ends there too.

    Returns
    -------
    iterator of (float, float)
        The start and the end of each piece [s]; the last piece of a course that settles ends at infinity.

    Notes
    -----
    In a piece the temperature is monotone and smooth.

    Examples
    --------
    >>> course = logged_course([(0.0, 280.0), (100.0, 290.0)])
    >>> list(pieces(course, from_s=0.0, levels_k=[285.0]))
    [(0.0, 50.0), (50.0, 100.0), (100.0, inf)]
    """
    here_s = from_s
    while here_s < course.settled_from_s:
        window_s = min(here_s + ahead_s, course.settled_from_s)
        for kink_s in [*course.kinks(here_s, window_s, levels_k), window_s]:
            yield from _cut(here_s, kink_s, longest_s)
            here_s = kink_s
    yield here_s, math.inf


def _cut(from_s: float, until_s: float, longest_s: float) -> Iterator[tuple[float, float]]:
    """A span in equal parts, none longer than the longest; nothing of an empty one."""
    count = math.ceil((until_s - from_s) / longest_s)
    ends = [from_s + (until_s - from_s) * index / count for index in range(1, count)]
    yield from pairwise([from_s, *ends, until_s] if count else [])
