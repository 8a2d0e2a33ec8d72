"""The age of a layer along a course of temperatures, and when it reaches the milestone of a table.

Age accrues as dt/t(T): a layer that needs ten hours at the temperature of the hour gains a tenth of its age in that
hour, and the milestone is reached at age 1. With one activation energy throughout this is the equivalent age of ASTM
C1074.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from itertools import accumulate
from typing import NamedTuple

from gaugerake.floor.course import LONGEST_PIECE_S, SAME_TEMPERATURE_K, Course, DailyCourse, SteadyCourse, pieces
from gaugerake.floor.cure import Column, Line, TimeCurve, time_at
from gaugerake.floor.local import DAY_S

FREEZING_K = 273.15
NEVER_S = 365 * 86_400.0
"""A milestone that is further off than this is never reached."""

# Gauss-Legendre nodes and weights on (0, 1), by the number of nodes
_NODES_4 = (
    (0.06943184420297371, 0.17392742256872692),
    (0.33000947820757187, 0.32607257743127307),
    (0.6699905217924281, 0.32607257743127307),
    (0.9305681557970263, 0.17392742256872692),
)
_NODES_8 = (
    (0.019855071751231884, 0.05061426814518813),
    (0.10166676129318664, 0.11119051722668724),
    (0.2372337950418355, 0.15685332293894363),
    (0.4082826787521751, 0.18134189168918099),
    (0.5917173212478249, 0.18134189168918099),
    (0.7627662049581645, 0.15685332293894363),
    (0.8983332387068134, 0.11119051722668724),
    (0.9801449282487681, 0.05061426814518813),
)

# a quarter of a wave bends even where it hardly rises: four nodes leave 3e-8 of what ln t changes by
_NODES_BY_BEND = ((1e-12, ((0.5, 1.0),)), (0.02, _NODES_4))
_MOST_BEND = 4.0  # more is integrated in parts, so that 8 nodes hold nine digits
_FASTEST = 100.0  # ln of the age per second: keeps a table that is far too steep from overflowing
SETTLED_S = 1e-6

Temperature = Callable[[float], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Milestone:
    """When a layer reaches age 1, and what held it up.

    ``at_s`` is the instant [s], None when it is not reached within the horizon or the layer froze at ``frozen_s`` [s].
    ``stopped_s`` is how long it stood below the product's low limit [s], ``capped_s`` how long it was above the high
    one [s].
    """

    at_s: float | None
    frozen_s: float | None = None
    stopped_s: float = 0.0
    capped_s: float = 0.0


def milestone(
    *,
    curve: TimeCurve,
    column: Column,
    course: Course,
    from_s: float,
    until_s: float | None = None,
    low_k: float | None = None,
    high_k: float | None = None,
    longest_piece_s: float = LONGEST_PIECE_S,
) -> Milestone:
    """When a layer that is finished at ``from_s`` reaches the milestone of ``curve``.

    Parameters
    ----------
    curve : TimeCurve
        The times of the milestone by temperature.
    column : {"low", "likely", "high"}
        Which of the maker's times.
    course : Course
        The floor's temperature.
    from_s : float [s]
        When age begins to accrue.
    until_s : float [s], optional
        Where to stop looking; 365 days after ``from_s`` unless given.
    low_k : float [K], optional
        The product's low limit: below it no age accrues.
    high_k : float [K], optional
        The product's high limit: above it age accrues as at it.
    longest_piece_s : float [s]
        The longest piece that is integrated at once.

    Returns
    -------
    Milestone
        The instant, and the hours that were lost on the way.

    Notes
    -----
    Gauss-Legendre quadrature on pieces in which the integrand is smooth and monotone (8 nodes, fewer where it hardly
    changes); a steady course is a closed form. Below 0 °C before the milestone the layer is ruined, whatever the
    product's limits are. Not included: heat of the reaction, humidity.

    Examples
    --------
    >>> from gaugerake.floor.course import SteadyCourse
    >>> from gaugerake.floor.cure import time_curve, time_point
    >>> curve = time_curve([time_point(temperature_k=293.15, likely_s=3600.0)])
    >>> milestone(curve=curve, column="likely", course=SteadyCourse(temperature_k=293.15), from_s=0.0).at_s
    3600.0

    References
    ----------
    ASTM C1074, Standard Practice for Estimating Concrete Strength by the Maturity Method, equivalent age.
    EN 1992-1-1:2004, annex B.1 (3), equation B.10, the same form.
    """
    until_s = from_s + NEVER_S if until_s is None else until_s
    if isinstance(course, SteadyCourse):
        return _steady(curve, column, course.temperature_k, (from_s, until_s), (low_k, high_k))
    limits = Bounds(low_k=low_k, high_k=high_k)
    if isinstance(course, DailyCourse):
        return _daily(curve, column, course, (from_s, until_s), limits, longest_piece_s)
    return _piecewise(curve, column, course, (from_s, until_s), limits, longest_piece_s)


def _steady(
    curve: TimeCurve,
    column: Column,
    temperature_k: float,
    span_s: tuple[float, float],
    limits_k: tuple[float | None, float | None],
) -> Milestone:
    """The milestone at one temperature: the table's time."""
    (from_s, until_s), (low_k, high_k) = span_s, limits_k
    if temperature_k < FREEZING_K - SAME_TEMPERATURE_K:
        return Milestone(at_s=None, frozen_s=from_s)
    if low_k is not None and temperature_k < low_k - SAME_TEMPERATURE_K:
        return Milestone(at_s=None, stopped_s=until_s - from_s)
    capped = high_k is not None and temperature_k > high_k + SAME_TEMPERATURE_K
    held_k = high_k if capped and high_k is not None else temperature_k
    at_s = from_s + time_at(curve, temperature_k=held_k, column=column)
    return Milestone(
        at_s=at_s if at_s <= until_s else None,
        capped_s=min(at_s, until_s) - from_s if capped else 0.0,
    )


class Bounds(NamedTuple):
    """A product's limits [K]; None is open."""

    low_k: float | None
    high_k: float | None

    def levels_k(self, curve: TimeCurve) -> list[float]:
        """The temperatures at which the way that age accrues changes."""
        return [*curve.temperatures_k, FREEZING_K, *(limit_k for limit_k in self if limit_k is not None)]


class Gait(Enum):
    """How age accrues on a piece."""

    FROZEN = 0
    STOPPED = 1
    ACCRUING = 2
    CAPPED = 3


def _gait(typical_k: float, bounds: Bounds) -> Gait:
    if typical_k < FREEZING_K - SAME_TEMPERATURE_K:
        return Gait.FROZEN
    if bounds.low_k is not None and typical_k < bounds.low_k - SAME_TEMPERATURE_K:
        return Gait.STOPPED
    if bounds.high_k is not None and typical_k > bounds.high_k + SAME_TEMPERATURE_K:
        return Gait.CAPPED
    return Gait.ACCRUING


class _Piece:
    """A smooth piece: how age accrues on it, and how much of it."""

    __slots__ = ("_accrual", "gained", "gait", "length_s")

    def __init__(
        self, curve: TimeCurve, column: Column, bounds: Bounds, temperature: Temperature, length_s: float
    ) -> None:
        typical_k = temperature(length_s / 2)
        self.length_s, self.gained = length_s, 0.0
        self.gait = _gait(typical_k, bounds)
        if self.gait in (Gait.FROZEN, Gait.STOPPED):
            return
        if self.gait is Gait.CAPPED and bounds.high_k is not None:
            typical_k, temperature = bounds.high_k, _held(bounds.high_k)
        line = curve.lines[column][bisect_right(curve.temperatures_k, typical_k)]
        self._accrual = _Accrual(line, temperature, abs(line[1] / temperature(0.0) - line[1] / temperature(length_s)))
        self.gained = self._accrual.over(length_s)

    def by(self, since_s: float) -> float:
        """The age gained in the first ``since_s``."""
        return self._accrual.over(since_s) if self.gained else 0.0

    def until(self, age: float) -> float:
        """The seconds in which ``age``, no more than is gained, is gained."""
        return self._accrual.until(age, self.gained, self.length_s)


def _held(temperature_k: float) -> Temperature:
    return lambda _since_s: temperature_k


def _piecewise(
    curve: TimeCurve,
    column: Column,
    course: Course,
    span_s: tuple[float, float],
    bounds: Bounds,
    longest_piece_s: float,
) -> Milestone:
    """The milestone on any course, piece by piece."""
    (from_s, until_s), age = span_s, 0.0
    spent = dict.fromkeys(Gait, 0.0)
    at_s = frozen_s = None
    for start_s, end_s in pieces(course, from_s=from_s, levels_k=bounds.levels_k(curve), longest_s=longest_piece_s):
        if start_s >= until_s:
            break
        piece = _Piece(curve, column, bounds, course.within(start_s), min(end_s, until_s) - start_s)
        if piece.gait is Gait.FROZEN:
            frozen_s = start_s
            break
        reached = age + piece.gained >= 1.0
        spent_s = piece.until(1.0 - age) if reached else piece.length_s
        spent[piece.gait] += spent_s
        age += piece.gained
        if reached:
            at_s = start_s + spent_s
            break
    return Milestone(at_s=at_s, frozen_s=frozen_s, stopped_s=spent[Gait.STOPPED], capped_s=spent[Gait.CAPPED])


class _Day:
    """A day of a daily wave from its coldest hour on: its pieces, and what has accrued at the start of each."""

    def __init__(
        self, curve: TimeCurve, column: Column, course: DailyCourse, bounds: Bounds, longest_piece_s: float
    ) -> None:
        self.curve = curve  # held, so that the table is never taken for that of another curve at the same address
        self.starts_s: list[float] = []
        self.pieces: list[_Piece] = []
        for start_s, end_s in course.phases(bounds.levels_k(curve), longest_piece_s):
            self.starts_s.append(start_s)
            self.pieces.append(_Piece(curve, column, bounds, course.by_phase(start_s), end_s - start_s))
        self.ages = [0.0, *accumulate(piece.gained for piece in self.pieces)]
        self.spent = {
            gait: [0.0, *accumulate(piece.length_s if piece.gait is gait else 0.0 for piece in self.pieces)]
            for gait in (Gait.STOPPED, Gait.CAPPED)
        }

    def age(self, phase_s: float) -> float:
        """The age gained since the coldest hour of the first day."""
        days, within_s = divmod(phase_s, DAY_S)
        index = bisect_right(self.starts_s, within_s) - 1
        return days * self.ages[-1] + self.ages[index] + self.pieces[index].by(within_s - self.starts_s[index])

    def phase(self, age: float) -> float:
        """When that age is gained, the inverse; infinite when no day gains any."""
        if self.ages[-1] <= 0:
            return math.inf
        days, within = divmod(age, self.ages[-1])
        index = min(bisect_left(self.ages, within), len(self.pieces))
        if index == 0:  # at the very start of a day: the end of what accrued the day before
            days, within, index = days - 1, self.ages[-1], bisect_left(self.ages, self.ages[-1])
        piece = self.pieces[index - 1]
        return days * DAY_S + self.starts_s[index - 1] + piece.until(within - self.ages[index - 1])

    def went(self, gait: Gait, phase_s: float) -> float:
        """How long age has accrued in one way since the coldest hour of the first day [s]."""
        days, within_s = divmod(phase_s, DAY_S)
        index = bisect_right(self.starts_s, within_s) - 1
        part_s = within_s - self.starts_s[index] if self.pieces[index].gait is gait else 0.0
        return days * self.spent[gait][-1] + self.spent[gait][index] + part_s

    def frost(self, phase_s: float) -> float:
        """The first phase not before this one at which the floor is frozen; infinite when it never is."""
        days, within_s = divmod(phase_s, DAY_S)
        for lap in (0.0, DAY_S):
            for start_s, piece in zip(self.starts_s, self.pieces, strict=True):
                if piece.gait is Gait.FROZEN and start_s + piece.length_s + lap > within_s:
                    return days * DAY_S + max(start_s + lap, within_s)
        return math.inf


def _day(curve: TimeCurve, column: Column, course: DailyCourse, bounds: Bounds, longest_piece_s: float) -> _Day:
    """The day of a course, made once for each table."""
    key = (id(curve), column, bounds, longest_piece_s)
    known = course.memo.get(key)
    if not isinstance(known, _Day) or known.curve is not curve:
        known = course.memo[key] = _Day(curve, column, course, bounds, longest_piece_s)
    return known


def _daily(
    curve: TimeCurve,
    column: Column,
    course: DailyCourse,
    span_s: tuple[float, float],
    bounds: Bounds,
    longest_piece_s: float,
) -> Milestone:
    """The milestone on a daily wave, by whole days, from one change of the clocks to the next."""
    day = _day(curve, column, course, bounds, longest_piece_s)
    (here_s, until_s), age = span_s, 0.0
    spent = dict.fromkeys(Gait, 0.0)
    at_s = frozen_s = None
    for next_s in [*course.zone.changes_s(here_s, until_s), until_s]:
        phase_s = course.phase_s(here_s)
        begun = day.age(phase_s)
        reached_s = max(here_s + day.phase(begun + 1.0 - age) - phase_s, here_s)
        frost_s = here_s + day.frost(phase_s) - phase_s
        end_s = min(reached_s, frost_s, next_s)
        for gait in day.spent:
            spent[gait] += day.went(gait, phase_s + end_s - here_s) - day.went(gait, phase_s)
        if reached_s <= min(frost_s, next_s):
            at_s = reached_s
            break
        if frost_s <= next_s:
            frozen_s = frost_s
            break
        age += day.age(phase_s + next_s - here_s) - begun
        here_s = next_s
    return Milestone(at_s=at_s, frozen_s=frozen_s, stopped_s=spent[Gait.STOPPED], capped_s=spent[Gait.CAPPED])


class _Accrual:
    """The age that accrues on one smooth piece, on one line of the curve; ``bend`` is how far ln t changes over it."""

    __slots__ = ("_b", "_count", "_m", "_nodes", "_temperature")

    def __init__(self, line: Line, temperature: Temperature, bend: float) -> None:
        self._b, self._m = line
        self._temperature = temperature
        self._nodes = next((nodes for most, nodes in _NODES_BY_BEND if bend <= most), _NODES_8)
        self._count = max(1, math.ceil(bend / _MOST_BEND))

    def rate(self, since_s: float) -> float:
        """Age per second."""
        return math.exp(min(-self._b - self._m / self._temperature(since_s), _FASTEST))

    def over(self, length_s: float) -> float:
        """The age gained in the first ``length_s``."""
        step_s = length_s / self._count
        sums = (
            weight * self.rate((index + node) * step_s) for index in range(self._count) for node, weight in self._nodes
        )
        return step_s * sum(sums)

    def until(self, age: float, gained: float, length_s: float) -> float:
        """When ``age`` of ``gained`` has been gained: Newton's method, as the rate is monotone and positive."""
        since_s = length_s * age / gained
        for _ in range(60):
            step_s = (self.over(since_s) - age) / self.rate(since_s)
            since_s = min(max(since_s - step_s, 0.0), length_s)
            if abs(step_s) < SETTLED_S:
                break
        return since_s
