"""The maturity that accrues on a smooth piece of a course: how, how much, and when a share of it is reached."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable
from enum import Enum
from typing import NamedTuple

from gaugerake.floor.cure.course import SAME_TEMPERATURE_K
from gaugerake.floor.cure.curve import Column, Line, TimeCurve

FREEZING_K = 273.15

# Gauss-Legendre nodes and weights on (0, 1), by the number of nodes
NODES_4 = (
    (0.06943184420297371, 0.17392742256872692),
    (0.33000947820757187, 0.32607257743127307),
    (0.6699905217924281, 0.32607257743127307),
    (0.9305681557970263, 0.17392742256872692),
)
NODES_8 = (
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
_NODES_BY_BEND = ((1e-12, ((0.5, 1.0),)), (0.02, NODES_4))
MOST_BEND = 4.0  # more is integrated in parts, so that 8 nodes hold nine digits
_MOST_PARTS = 32  # no real table needs more than a few
FASTEST = 100.0  # ln of the maturity per second: keeps a table that is far too steep from overflowing
TYPICAL = 0.25
"""Where in a piece its temperature is asked: in the middle may be a day's warmest hour, which may touch a limit."""
SETTLED_S = 1e-6
_MOST_STEPS = 100

Temperature = Callable[[float], float]


class Accrual:
    """Maturity along one smooth piece of a course, on one line of the curve.

    ``bend`` is by how much ln t changes over the piece; it sets the number of quadrature nodes.
    """

    __slots__ = ("_b", "_count", "_m", "_nodes", "_temperature")

    def __init__(self, line: Line, temperature: Temperature, bend: float) -> None:
        self._b, self._m = line
        self._temperature = temperature
        self._nodes = next((nodes for most, nodes in _NODES_BY_BEND if bend <= most), NODES_8)
        self._count = max(1, min(math.ceil(bend / MOST_BEND), _MOST_PARTS))

    def rate(self, since_s: float) -> float:
        """Maturity per second."""
        return math.exp(min(-self._b - self._m / self._temperature(since_s), FASTEST))

    def over(self, length_s: float) -> float:
        """The maturity gained in the first ``length_s``."""
        step_s, b, m, temperature = length_s / self._count, self._b, self._m, self._temperature
        sums = (  # of the rate at each node, written out: this is where a cure's time goes
            weight * math.exp(min(-b - m / temperature((index + node) * step_s), FASTEST))
            for index in range(self._count)
            for node, weight in self._nodes
        )
        return step_s * math.fsum(sums)

    def until(self, maturity: float, gained: float, length_s: float) -> float:
        """When ``maturity`` of ``gained`` is reached: Newton's method, halved where a step would leave the bracket."""
        since_s, low_s, high_s = length_s * maturity / gained, 0.0, length_s
        for _ in range(_MOST_STEPS):
            excess, rate = self.over(since_s) - maturity, self.rate(since_s)
            low_s, high_s = (low_s, since_s) if excess > 0 else (since_s, high_s)
            better_s = since_s - excess / rate if rate > 0 else -1.0
            if not low_s <= better_s <= high_s:
                better_s = (low_s + high_s) / 2
            if abs(better_s - since_s) < SETTLED_S:
                return better_s
            since_s = better_s
        return since_s


class Mode(Enum):
    """How maturity accrues on a piece: not at all, by the table, or as at the product's high limit."""

    FROZEN = 0
    STOPPED = 1
    ACCRUING = 2
    CAPPED = 3


class Bounds(NamedTuple):
    """A product's limits [K]; None is open."""

    low_k: float | None
    high_k: float | None

    def levels_k(self, curve: TimeCurve) -> list[float]:
        """The temperatures at which the mode changes, or the line of the curve [K]."""
        return [*curve.temperatures_k, FREEZING_K, *(limit_k for limit_k in self if limit_k is not None)]

    def hinder(self, low_k: float, high_k: float) -> bool:
        """Whether maturity may accrue otherwise than by the table at some temperature between these."""
        least_k = max(FREEZING_K, self.low_k or FREEZING_K)
        return low_k < least_k or (self.high_k is not None and high_k > self.high_k)

    def mode(self, temperature_k: float) -> Mode:
        """How maturity accrues at a temperature."""
        if temperature_k < FREEZING_K - SAME_TEMPERATURE_K:
            return Mode.FROZEN
        if self.low_k is not None and temperature_k < self.low_k - SAME_TEMPERATURE_K:
            return Mode.STOPPED
        if self.high_k is not None and temperature_k > self.high_k + SAME_TEMPERATURE_K:
            return Mode.CAPPED
        return Mode.ACCRUING


class Segment:
    """A smooth piece of a course: how maturity accrues on it, and how much."""

    __slots__ = ("_accrual", "gained", "length_s", "mode")

    def __init__(
        self, curve: TimeCurve, column: Column, bounds: Bounds, temperature: Temperature, length_s: float
    ) -> None:
        typical_k = temperature(TYPICAL * length_s)
        self.length_s, self.gained = length_s, 0.0
        self.mode = bounds.mode(typical_k)
        if self.mode in (Mode.FROZEN, Mode.STOPPED):
            return
        if self.mode is Mode.CAPPED and bounds.high_k is not None:
            typical_k, temperature = bounds.high_k, _held(bounds.high_k)
        line = curve.lines[column][bisect_right(curve.temperatures_k, typical_k)]
        self._accrual = Accrual(line, temperature, abs(line[1] / temperature(0.0) - line[1] / temperature(length_s)))
        self.gained = self._accrual.over(length_s)

    def by(self, since_s: float) -> float:
        """The maturity gained in the first ``since_s``."""
        return self._accrual.over(since_s) if self.gained else 0.0

    def until(self, maturity: float) -> float:
        """The seconds in which ``maturity``, no more than is gained, is gained."""
        return self._accrual.until(maturity, self.gained, self.length_s)


def _held(temperature_k: float) -> Temperature:
    return lambda _since_s: temperature_k
