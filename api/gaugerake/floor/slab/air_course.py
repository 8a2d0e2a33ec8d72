"""The air over time, and a floor above its dew point in pieces of it.

In pieces dew points are read from a table of the saturation pressure in steps of 0.25 K, which is right to 0.0001 K;
the figures that are shown are those of ``dew_point``.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import field
from functools import cache
from itertools import pairwise
from typing import NamedTuple

import psychrolib

from gaugerake.floor.cure.course import Course
from gaugerake.floor.slab.air import ZERO_CELSIUS_K, dew_point
from gaugerake.floor.values.errors import OutOfOrder
from gaugerake.floor.values.frozen import dataclass

LONGEST_PIECE_S = 2 * 3600.0
TABLE_ERROR_K = 1e-4
MOST_KNOWN = 30_000
"""A course keeps no more dew points than these."""
_HIGHEST = "highest"
_GOLDEN, _CUTS = (math.sqrt(5) - 1) / 2, 15
_TABLE_LOW_K, _TABLE_STEP_K, _TABLE_COUNT = 173.16, 0.25, 800  # over the triple point, where the pressure bends

Margin = Callable[[float], float]


class AirState(NamedTuple):
    """The air at an instant: its temperature [K] and relative humidity [%]."""

    temperature_k: float
    humidity_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AirCourse:
    """Readings of the air: each of both linear between them, held at both ends.

    ``dew_points_k`` holds dew points found before, by their instants, and the highest: a search asks often.
    """

    instants_s: tuple[float, ...]
    states: tuple[AirState, ...]

    dew_points_k: dict[float | str, float] = field(default_factory=dict, init=False, repr=False, compare=False)

    def at(self, instant_s: float) -> AirState:
        """The air at an instant."""
        return self.after(instant_s)(instant_s)

    def after(self, start_s: float) -> Callable[[float], AirState]:
        """The air by the instant, from ``start_s`` until the next reading."""
        index = bisect_right(self.instants_s, start_s)
        if index in (0, len(self.instants_s)):
            held = self.states[0 if index == 0 else -1]
            return lambda _instant_s: held
        begin_s, end_s = self.instants_s[index - 1 : index + 1]
        (low_k, low_percent), (high_k, high_percent) = self.states[index - 1 : index + 1]

        def between(instant_s: float) -> AirState:
            share = (instant_s - begin_s) / (end_s - begin_s)
            return AirState(low_k + share * (high_k - low_k), low_percent + share * (high_percent - low_percent))

        return between

    def highest_dew_point_k(self) -> float:
        """A dew point that the air never exceeds [K]: that of the warmer and of the moister of two readings."""
        if _HIGHEST not in self.dew_points_k:
            pairs = [*pairwise(self.states), (self.states[-1],) * 2]
            worst = max(map(_highest, pairs), key=lambda state: state.humidity_percent * _saturation_pa(state))
            self.dew_points_k[_HIGHEST] = dew_point(**worst._asdict())
        return self.dew_points_k[_HIGHEST]


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
    floor, state, known_k = course.within(start_s), air.after(start_s), air.dew_points_k

    def margin(since_s: float) -> float:
        at_s = start_s + since_s
        dew_k = known_k.get(at_s)
        if dew_k is None:
            dew_k = _quick_dew_point(state(at_s))
            if len(known_k) < MOST_KNOWN:
                known_k[at_s] = dew_k
        return floor(since_s) - dew_k

    return margin


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
    A golden-section search: each new margin cuts the stretch to 0.618 of its length.

    Examples
    --------
    >>> round(least_of(margin=lambda since_s: (since_s - 20.0) ** 2, begin_s=0.0, end_s=100.0), 0)
    20.0
    """
    early_s, late_s = end_s - _GOLDEN * (end_s - begin_s), begin_s + _GOLDEN * (end_s - begin_s)
    early_k, late_k = margin(early_s), margin(late_s)
    for _ in range(_CUTS):
        if early_k <= late_k:
            end_s, late_s, late_k = late_s, early_s, early_k
            early_s = end_s - _GOLDEN * (end_s - begin_s)
            early_k = margin(early_s)
        else:
            begin_s, early_s, early_k = early_s, late_s, late_k
            late_s = begin_s + _GOLDEN * (end_s - begin_s)
            late_k = margin(late_s)
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
