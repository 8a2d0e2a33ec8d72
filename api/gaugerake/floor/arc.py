"""A smooth piece of a daily wave on one line of a curve: the commonest piece of all, so worked without any detour."""

from __future__ import annotations

import math

from gaugerake.floor.accrual import MOST_BEND, NODES_4, NODES_8, SETTLED_S, Gait
from gaugerake.floor.course import DailyCourse
from gaugerake.floor.cure import Line
from gaugerake.floor.local import DAY_S

_FREQUENCY = 2 * math.pi / DAY_S
_MOST_STEPS = 50
_NODES_8_X = tuple(x for x, _ in NODES_8)
_NODES_8_W = tuple(w for _, w in NODES_8)
Wave = tuple[float, float]  # mean and amplitude [K]


class Slice:
    """A piece of a day by phase, before any curve is known; ``inverse_k`` are 1/T at eight nodes [1/K]."""

    __slots__ = ("first_k", "from_s", "inverse_k", "last_k", "length_s", "typical_k")

    def __init__(self, course: DailyCourse, from_s: float, until_s: float) -> None:
        mean_k, amplitude_k = course.wave_k
        phase, step = _FREQUENCY * from_s, _FREQUENCY * (until_s - from_s)
        cos = math.cos
        self.from_s, self.length_s = from_s, until_s - from_s
        self.first_k = mean_k - amplitude_k * cos(phase)
        self.typical_k = mean_k - amplitude_k * cos(phase + step / 2)
        self.last_k = mean_k - amplitude_k * cos(phase + step)
        self.inverse_k = tuple([1 / (mean_k - amplitude_k * cos(phase + step * x)) for x in _NODES_8_X])

    def suits(self, line: Line) -> bool:
        """Whether eight nodes hold nine digits on this line, and nothing overflows."""
        b, m = line
        most, least = -b - m / self.first_k, -b - m / self.last_k
        return abs(most - least) <= MOST_BEND and max(most, least) <= 0.0

    def gained(self, line: Line) -> float:
        """The age gained on all of it."""
        b, m = line
        exp = math.exp
        return self.length_s * sum([w * exp(-b - m * x) for w, x in zip(_NODES_8_W, self.inverse_k, strict=True)])


class Arc:
    """The age that accrues on a slice of a day."""

    __slots__ = ("_from_s", "_line", "_wave", "gained", "length_s")

    gait = Gait.ACCRUING

    def __init__(self, wave: Wave, line: Line, from_s: float, length_s: float, gained: float) -> None:
        self._wave, self._line, self._from_s = wave, line, from_s
        self.length_s, self.gained = length_s, gained

    def by(self, since_s: float) -> float:
        """The age gained in the first ``since_s``."""
        return self._between(0.0, since_s, NODES_8)

    def until(self, age: float) -> float:
        """The seconds in which ``age``, no more than is gained, is gained: Newton's method from a cubic's guess.

        What each step adds is integrated over that step alone.
        """
        since_s = self._guess(age / self.gained)
        excess = self._between(0.0, since_s, NODES_8) - age
        for _ in range(_MOST_STEPS):
            better_s = min(max(since_s - excess / self._rate(since_s), 0.0), self.length_s)
            if abs(better_s - since_s) < SETTLED_S:
                return better_s
            excess += self._between(since_s, better_s, NODES_4)
            since_s = better_s
        return since_s

    def _guess(self, share: float) -> float:
        """Where about a share of the age is gained: the cubic through both ends with the paces there."""
        first, last, square = 1 / self._rate(0.0), 1 / self._rate(self.length_s), share * share
        paced = (share - 2 * square + square * share) * first + (square * share - square) * last
        guess_s = paced * self.gained + (3 - 2 * share) * square * self.length_s
        return min(max(guess_s, 0.0), self.length_s)

    def _rate(self, since_s: float) -> float:
        mean_k, amplitude_k = self._wave
        b, m = self._line
        return math.exp(-b - m / (mean_k - amplitude_k * math.cos(_FREQUENCY * (self._from_s + since_s))))

    def _between(self, from_s: float, until_s: float, nodes: tuple[tuple[float, float], ...]) -> float:
        mean_k, amplitude_k = self._wave
        b, m = self._line
        exp, cos = math.exp, math.cos
        phase, step = _FREQUENCY * (self._from_s + from_s), _FREQUENCY * (until_s - from_s)
        rates = [w * exp(-b - m / (mean_k - amplitude_k * cos(phase + step * x))) for x, w in nodes]
        return (until_s - from_s) * sum(rates)
