"""The air over time, and when a floor is too near its dew point.

The dew point has no closed form along a course, so that a span's ends are found by halving: a piece is cut until its
margin (floor less dew point) is straight, and a dip of less than 0.01 K under the limit may go unseen.
Within the search dew points are read from a table of the saturation pressure in steps of 0.25 K, which is right to
0.0001 K; the figures that are shown are those of ``dew_point``.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from itertools import pairwise
from typing import NamedTuple

import psychrolib

from gaugerake.floor.cure.course import Course
from gaugerake.floor.slab.air import ZERO_CELSIUS_K, dew_point
from gaugerake.floor.slab.condensation import DampSpan
from gaugerake.floor.slab.verdict import GUARD
from gaugerake.floor.values.errors import OutOfOrder
from gaugerake.floor.values.frozen import dataclass

LONGEST_PIECE_S = 2 * 3600.0
STRAIGHT_K, BENT_K = 0.01, 0.05
"""A piece whose middle is this near to its chord is straight, near the level and under it."""
FAR = 4.0
"""A piece that is farther from the level than so many times the bow of its middle does not cross it."""
_SHORTEST_PIECE_S = 60.0
_SAME_INSTANT_S = 0.01
_THIRDS = 17
_TABLE_ERROR_K = 1e-4
_TABLE_LOW_K, _TABLE_STEP_K, _TABLE_COUNT = 173.16, 0.25, 800  # over the triple point, where the pressure bends

Margin = Callable[[float], float]
Point = tuple[float, float]  # seconds since the start of a piece, and the margin there [K]


class AirState(NamedTuple):
    """The air at an instant: its temperature [K] and relative humidity [%]."""

    temperature_k: float
    humidity_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AirCourse:
    """Readings of the air: each of both linear between them, held at both ends."""

    instants_s: tuple[float, ...]
    states: tuple[AirState, ...]

    def at(self, instant_s: float) -> AirState:
        """The air at an instant."""
        index = bisect_right(self.instants_s, instant_s)
        if index in (0, len(self.instants_s)):
            return self.states[0 if index == 0 else -1]
        begin_s, end_s = self.instants_s[index - 1 : index + 1]
        before, after = self.states[index - 1 : index + 1]
        share = (instant_s - begin_s) / (end_s - begin_s)
        return AirState(*(low + share * (high - low) for low, high in zip(before, after, strict=True)))

    def highest_dew_point_k(self) -> float:
        """A dew point that the air never exceeds [K]: that of the warmer and of the moister of two readings."""
        pairs = [*pairwise(self.states), (self.states[-1],) * 2]
        worst = max(pairs, key=lambda pair: _highest(pair).humidity_percent * _saturation_pa(_highest(pair)))
        return dew_point(**_highest(worst)._asdict())


def air_course(readings: Iterable[tuple[float, float, float]]) -> AirCourse:
    """A course through readings of the air.

    Parameters
    ----------
    readings : iterable of (float, float, float)
        Instants [s], temperatures [K] and relative humidities [%], rising in time; at least one.

    Returns
    -------
    AirCourse
        The course.

    Raises
    ------
    OutOfOrder
        When a reading is not later than the one before it.

    Examples
    --------
    >>> air_course([(0.0, 280.0, 40.0), (3600.0, 290.0, 60.0)]).at(900.0)
    AirState(temperature_k=282.5, humidity_percent=45.0)
    """
    rows = tuple(readings)
    for index, (before, after) in enumerate(pairwise(rows), start=1):
        if after[0] <= before[0]:
            raise OutOfOrder("readings", index=index)
    return AirCourse(instants_s=tuple(row[0] for row in rows), states=tuple(AirState(*row[1:]) for row in rows))


def damp_spans(
    *, course: Course, air: AirCourse, spread_k: float, from_s: float, until_s: float
) -> tuple[DampSpan, ...]:
    """Spans in which the floor's temperature less the dew point of changing air is under the spread that is asked.

    Parameters
    ----------
    course : Course
        The floor's temperature.
    air : AirCourse
        The air over it.
    spread_k : float [K]
        The least difference that is asked.
    from_s : float [s]
        Instant to begin at.
    until_s : float [s]
        Instant to end at.

    Returns
    -------
    tuple of DampSpan
        In order, none touching the next.

    Notes
    -----
    A dip of less than 0.01 K under the limit may go unseen.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> air = air_course([(0.0, 290.0, 50.0), (3600.0, 290.0, 100.0)])
    >>> spans = damp_spans(
    ...     course=SteadyCourse(temperature_k=291.0), air=air, spread_k=3.0, from_s=0.0, until_s=7200.0
    ... )
    >>> [(round(span.from_s), span.until_s, round(span.least_spread_k, 2)) for span in spans]
    [(2735, 7200.0, 1.0)]

    References
    ----------
    ISO 8502-4 for the spread; ASHRAE Handbook, Fundamentals, 2017, ch. 1, eq. 5 and 6, for the dew point.
    """
    level_k = spread_k - GUARD * abs(spread_k)
    found: list[_Damp] = []
    for start_s, end_s in cut_pieces(course=course, air=air, from_s=from_s, until_s=until_s):
        margin = margin_in(course=course, air=air, start_s=start_s)
        for damp in _below(margin, start_s, end_s - start_s, level_k):
            if found and damp.from_s - found[-1].until_s <= _SAME_INSTANT_S:
                last = found.pop()
                least = min(last, damp, key=lambda one: one.least_k)
                damp = least._replace(from_s=last.from_s, until_s=damp.until_s)
            found.append(damp)
    return tuple(_span(course, air, damp) for damp in found)


class _Damp(NamedTuple):
    """From one instant to another [s] the margin is under the level, at its least within ``near_s`` of ``least_s``."""

    from_s: float
    until_s: float
    least_s: float
    least_k: float
    near_s: float


def cut_pieces(
    *, course: Course, air: AirCourse, from_s: float, until_s: float, cuts_s: Iterable[float] = ()
) -> Iterator[tuple[float, float]]:
    """The stretches in which neither the floor nor the air bends, none longer than two hours.

    Parameters
    ----------
    course : Course
        The floor's temperature.
    air : AirCourse
        The air over it.
    from_s : float [s]
        Instant to begin at.
    until_s : float [s]
        Instant to end at.
    cuts_s : iterable of float [s], optional
        Instants at which to cut as well.

    Returns
    -------
    iterator of (float, float) [s]
        The beginning and the end of each, in order.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> floor, air = SteadyCourse(temperature_k=291.0), air_course([(0.0, 290.0, 50.0), (3600.0, 290.0, 60.0)])
    >>> list(cut_pieces(course=floor, air=air, from_s=0.0, until_s=7200.0, cuts_s=[600.0]))
    [(0.0, 600.0), (600.0, 3600.0), (3600.0, 7200.0)]
    """
    inside = [at_s for at_s in (*air.instants_s, *cuts_s) if from_s < at_s < until_s]
    bounds = sorted({from_s, *course.kinks(from_s, until_s, []), *inside, until_s})
    for start_s, end_s in pairwise(bounds):
        count = math.ceil((end_s - start_s) / LONGEST_PIECE_S)
        cuts = [start_s + (end_s - start_s) * index / count for index in range(count)]
        yield from pairwise([*cuts, end_s])


def margin_in(*, course: Course, air: AirCourse, start_s: float) -> Margin:
    """The floor less the dew point, in a piece in which nothing bends.

    Parameters
    ----------
    course : Course
        The floor's temperature.
    air : AirCourse
        The air over it.
    start_s : float [s]
        The instant at which the piece begins.

    Returns
    -------
    callable
        The difference [K] by the seconds since the beginning of the piece; the dew point is right to 0.0001 K.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> air = air_course([(0.0, 290.0, 100.0)])
    >>> round(margin_in(course=SteadyCourse(temperature_k=293.0), air=air, start_s=0.0)(0.0), 3)
    3.0

    References
    ----------
    ASHRAE Handbook, Fundamentals, 2017, ch. 1, eq. 5 and 6, for the dew point.
    """
    floor = course.within(start_s)
    return lambda since_s: floor(since_s) - _quick_dew_point(air.at(start_s + since_s))


def _below(margin: Margin, start_s: float, length_s: float, level_k: float) -> Iterator[_Damp]:
    """The parts of a piece in which the margin is under the level."""
    first = 0.0, margin(0.0)
    last = length_s, margin(length_s)
    for begin, end in pairwise([first, *_points(margin, first, last, level_k)]):
        below = [point for point in (begin, end) if point[1] < level_k]
        if not below:
            continue
        begin_s = begin[0] if begin in below else _crossing(margin, end[0], begin[0], level_k)
        end_s = end[0] if end in below else _crossing(margin, begin[0], end[0], level_k)
        least_s, least_k = min(below, key=lambda point: point[1])
        yield _Damp(start_s + begin_s, start_s + end_s, start_s + least_s, least_k, end[0] - begin[0])


def _points(margin: Margin, begin: Point, end: Point, level_k: float) -> Iterator[Point]:
    """Points after the beginning, up to the end, between which the margin is straight, or far from the level."""
    middle_s = (begin[0] + end[0]) / 2
    middle = middle_s, margin(middle_s)
    bow_k = abs(middle[1] - (begin[1] + end[1]) / 2)
    three_k = [point[1] for point in (begin, middle, end)]
    dry = min(three_k) - level_k > FAR * bow_k
    straight = bow_k <= (STRAIGHT_K if max(three_k) > level_k - FAR * bow_k else BENT_K)
    if dry or straight or end[0] - begin[0] <= _SHORTEST_PIECE_S:
        yield from (middle, end)
        return
    yield from _points(margin, begin, middle, level_k)
    yield from _points(margin, middle, end, level_k)


def _crossing(margin: Margin, below_s: float, above_s: float, level_k: float) -> float:
    while abs(above_s - below_s) > _SAME_INSTANT_S / 2:
        middle_s = (below_s + above_s) / 2
        if margin(middle_s) < level_k:
            below_s = middle_s
        else:
            above_s = middle_s
    return below_s


def _span(course: Course, air: AirCourse, damp: _Damp) -> DampSpan:
    """A span, with the dew point of its worst instant as ``dew_point`` has it."""
    margin = _margin_at(course, air)
    least_s = least_of(
        margin=margin,
        begin_s=max(damp.from_s, damp.least_s - damp.near_s),
        end_s=min(damp.until_s, damp.least_s + damp.near_s),
    )
    if margin(least_s) > damp.least_k:
        least_s = damp.least_s
    least_k = course.at(least_s) - dew_point(**air.at(least_s)._asdict())
    # where the floor jumps with the clocks the worse of both sides is the one found before
    return DampSpan(
        from_s=damp.from_s, until_s=damp.until_s, least_spread_k=min(least_k, damp.least_k + _TABLE_ERROR_K)
    )


def _margin_at(course: Course, air: AirCourse) -> Margin:
    """The floor less the dew point [K], by the instant."""
    return lambda instant_s: course.at(instant_s) - _quick_dew_point(air.at(instant_s))


def least_of(*, margin: Margin, begin_s: float, end_s: float) -> float:
    """Where a margin that falls and then rises is at its least.

    Parameters
    ----------
    margin : callable
        The margin [K] by the time [s].
    begin_s : float [s]
        Where to begin.
    end_s : float [s]
        Where to end.

    Returns
    -------
    float [s]
        The time of the least, to a thousandth of the stretch.

    Notes
    -----
    A ternary search: the stretch is cut to two thirds again and again.

    Examples
    --------
    >>> round(least_of(margin=lambda since_s: (since_s - 20.0) ** 2, begin_s=0.0, end_s=100.0), 0)
    20.0
    """
    for _ in range(_THIRDS):
        third_s = (end_s - begin_s) / 3
        if margin(begin_s + third_s) <= margin(end_s - third_s):
            end_s -= third_s
        else:
            begin_s += third_s
    return (begin_s + end_s) / 2


def _highest(pair: Iterable[AirState]) -> AirState:
    return AirState(*map(max, zip(*pair, strict=True)))


def _saturation_pa(state: AirState) -> float:
    return float(psychrolib.GetSatVapPres(state.temperature_k - ZERO_CELSIUS_K))


def _quick_dew_point(state: AirState) -> float:
    """The dew point [K], from the table."""
    table = _logs_of_saturation()
    sought = math.log(_saturation_pa(state) * state.humidity_percent / 100)
    index = max(1, min(len(table) - 1, bisect_right(table, sought)))
    low, high = table[index - 1], table[index]
    return _TABLE_LOW_K + _TABLE_STEP_K * (index - 1 + (sought - low) / (high - low))


@cache
def _logs_of_saturation() -> tuple[float, ...]:
    celsius = (_TABLE_LOW_K + _TABLE_STEP_K * index - ZERO_CELSIUS_K for index in range(_TABLE_COUNT + 1))
    return tuple(math.log(psychrolib.GetSatVapPres(each)) for each in celsius)
