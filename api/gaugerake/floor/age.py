"""The age of a layer along a course of temperatures, and when it reaches the milestone of a table.

Age accrues as dt/t(T): a layer that needs ten hours at the temperature of the hour gains a tenth of its age in that
hour, and the milestone is reached at age 1. With one activation energy throughout this is the equivalent age of ASTM
C1074.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass

from gaugerake.floor.course import LONGEST_PIECE_S, SAME_TEMPERATURE_K, Course, pieces
from gaugerake.floor.cure import Column, Line, TimeCurve

FREEZING_K = 273.15
NEVER_S = 365 * 86_400.0
"""A milestone that is further off than this is never reached."""

# Gauss-Legendre nodes and weights on (0, 1), by the number of nodes
_NODES_2 = ((0.21132486540518712, 0.5), (0.7886751345948129, 0.5))
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

_NODES_BY_BEND = ((1e-12, ((0.5, 1.0),)), (0.01, _NODES_2), (0.5, _NODES_4))
_MOST_BEND = 4.0  # more is integrated in parts, so that 8 nodes hold nine digits
_FASTEST = 100.0  # ln of the age per second: keeps a table that is far too steep from overflowing
SETTLED_S = 1e-6

Temperature = Callable[[float], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Milestone:
    """When a layer reaches age 1, and what held it up.

    ``at_s`` is the instant [s], None when it is not reached within the horizon or the layer froze at ``frozen_s`` [s].
    ``stopped_s`` is how long it stood below the product's low limit [s], ``capped_s`` how long it was above the high
    one [s]. ``coldest_k`` and ``warmest_k`` are the temperatures between which age accrued [K], None if none did.
    """

    at_s: float | None
    frozen_s: float | None = None
    stopped_s: float = 0.0
    capped_s: float = 0.0
    coldest_k: float | None = None
    warmest_k: float | None = None


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
    tally = _Tally(curve=curve, column=column, low_k=low_k, high_k=high_k)
    levels_k = [*curve.temperatures_k, FREEZING_K, *(limit for limit in (low_k, high_k) if limit is not None)]
    for start_s, end_s in pieces(course, from_s=from_s, levels_k=levels_k, longest_s=longest_piece_s):
        if start_s >= until_s or tally.add(course, start_s, min(end_s, until_s)):
            break
    return tally.milestone()


@dataclass(slots=True, kw_only=True)
class _Tally:
    """What has accrued so far."""

    curve: TimeCurve
    column: Column
    low_k: float | None
    high_k: float | None
    age: float = 0.0
    at_s: float | None = None
    frozen_s: float | None = None
    stopped_s: float = 0.0
    capped_s: float = 0.0
    coldest_k: float = math.inf
    warmest_k: float = -math.inf

    def add(self, course: Course, start_s: float, end_s: float) -> bool:
        """Add a smooth piece; whether that settles the matter."""
        length_s, temperature = end_s - start_s, course.within(start_s)
        typical_k = temperature(length_s / 2)
        if typical_k < FREEZING_K - SAME_TEMPERATURE_K:
            self.frozen_s = start_s
            return True
        if self.low_k is not None and typical_k < self.low_k - SAME_TEMPERATURE_K:
            self.stopped_s += length_s
            return False
        if self.high_k is not None and typical_k > self.high_k + SAME_TEMPERATURE_K:
            spent_s = self._accrue(_steady_at(self.high_k), start_s, length_s)
            self.capped_s += spent_s
        else:
            self._accrue(temperature, start_s, length_s)
        return self.at_s is not None

    def _accrue(self, temperature: Temperature, start_s: float, length_s: float) -> float:
        """Accrue along the piece, to its end or to the milestone; the seconds that it took."""
        ends_k = temperature(0.0), temperature(length_s)
        line = self.curve.lines[self.column][bisect_right(self.curve.temperatures_k, temperature(length_s / 2))]
        accrual = _Accrual(line, temperature, abs(line[1] / ends_k[0] - line[1] / ends_k[1]))
        gained, spent_s = accrual.over(length_s), length_s
        if self.age + gained >= 1.0:
            spent_s = accrual.until(1.0 - self.age, length_s)
            self.at_s = start_s + spent_s
        self.age += gained
        self.coldest_k = min(self.coldest_k, *ends_k)
        self.warmest_k = max(self.warmest_k, *ends_k)
        return spent_s

    def milestone(self) -> Milestone:
        """The tally as a result."""
        accrued = self.warmest_k >= self.coldest_k
        return Milestone(
            at_s=self.at_s,
            frozen_s=self.frozen_s,
            stopped_s=self.stopped_s,
            capped_s=self.capped_s,
            coldest_k=self.coldest_k if accrued else None,
            warmest_k=self.warmest_k if accrued else None,
        )


def _steady_at(temperature_k: float) -> Temperature:
    return lambda _since_s: temperature_k


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

    def until(self, age: float, length_s: float) -> float:
        """When ``age`` has been gained, within ``length_s``: Newton's method, as the rate is monotone and positive."""
        since_s = length_s * age / self.over(length_s)
        for _ in range(60):
            step_s = (self.over(since_s) - age) / self.rate(since_s)
            since_s = min(max(since_s - step_s, 0.0), length_s)
            if abs(step_s) < SETTLED_S:
                break
        return since_s
