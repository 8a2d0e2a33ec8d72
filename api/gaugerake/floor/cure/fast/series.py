"""The maturity that accrues along a daily wave on one line of a curve, as a short series of sines.

On one line, ln of the rate is −b − m/T with T a cosine of the phase: a smooth periodic function, whose Fourier series
ends quickly. With m·amplitude/T² = z the harmonic k is about (z/2)^k/k! of the rate, so sixteen of them hold twelve
digits up to z = 4, ten times what a floor and a maker's table have. The maturity gained between two phases is then a
difference of two sums, whatever lies between them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import accumulate, compress, pairwise
from typing import Any

import numpy as np

from gaugerake.floor.cure.accrual import Mode
from gaugerake.floor.cure.course import DailyCourse
from gaugerake.floor.cure.curve import Line
from gaugerake.floor.values.local_time import DAY_S

Floats = np.ndarray[Any, np.dtype[np.float64]]
FREQUENCY = 2 * math.pi / DAY_S
HARMONICS = 16
MOST_SWING = 4.0
_LEAST = 1e-14  # of the mean rate: harmonics below it are left out
_SLOWEST, _FASTEST = -100.0, 0.0  # ln of the maturity per second, so that no table that is far too steep leaves floats
_MOST_STEPS = 50
_LAST_STEP_S = 0.1
"""A step of Newton's that is no longer leaves less than 2 µs: half the steepest bend of ln rate times its square."""


def _integrals() -> Floats:
    """What rates at phases from the coldest hour to the warmest add to the mean and to each sine of the integral.

    The discrete cosine transform of type I, each row divided by its frequency.
    """
    orders = np.arange(HARMONICS + 1)
    cosines = np.cos(np.outer(orders, orders) * math.pi / HARMONICS) * 2 / HARMONICS
    cosines[[0, -1], :] /= 2
    cosines[:, [0, -1]] /= 2
    cosines[:, 1:] /= orders[1:] * FREQUENCY
    return cosines


_INTEGRALS = _integrals()
_FREQUENCIES = np.arange(HARMONICS + 1) * FREQUENCY
_FREQUENCIES[0] = 1.0
_COSINES = np.cos(np.arange(HARMONICS + 1) / HARMONICS * math.pi)


class Series:
    """The maturity gained since the coldest hour, by phase, were the whole wave on this line."""

    __slots__ = ("_line", "_mean", "_sines", "_wave")

    def __init__(self, line: Line, wave: tuple[float, float], sums: list[float]) -> None:
        self._line, self._wave = line, wave
        self._mean, *sines = sums
        self._sines = sines[::-1]  # the highest first, as they are summed

    @staticmethod
    def on(curves: Sequence[Sequence[Line]], course: DailyCourse) -> list[list[Series] | None]:
        """The series of the lines of some curves on one wave; None for a curve of which a line is too steep for it.

        They are worked together, as most of what it takes hardly depends on how many there are.
        """
        wave = mean_k, amplitude_k = course.wave_k
        given = np.array([line for lines in curves for line in lines])
        exponents = -given[:, :1] - given[:, 1:] / (mean_k - amplitude_k * _COSINES)
        steep = given[:, 1] * amplitude_k > MOST_SWING * course.low_k * course.low_k
        steep |= (exponents[:, 0] < _SLOWEST) | (exponents[:, -1] > _FASTEST)
        if not steep.any():
            return list(_worked(curves, wave, exponents))
        ends = pairwise(accumulate(map(len, curves), initial=0))
        fit = [not steep[first:last].any() for first, last in ends]
        some = Series.on(list(compress(curves, fit)), course) if any(fit) else []
        return [some.pop(0) if fits else None for fits in fit]

    def maturity(self, phase_s: float) -> float:
        """The maturity at a phase: Clenshaw's sum of the sines."""
        angle = FREQUENCY * phase_s
        twice = 2 * math.cos(angle)
        sum_, before = 0.0, 0.0
        for factor in self._sines:
            sum_, before = factor + twice * sum_ - before, sum_
        return self._mean * phase_s + sum_ * math.sin(angle)

    def maturity_and_rate(self, phase_s: float) -> tuple[float, float]:
        """The maturity at a phase, and how fast it grows there per second: they share a cosine."""
        angle = FREQUENCY * phase_s
        cosine = math.cos(angle)
        twice = 2 * cosine
        sum_, before = 0.0, 0.0
        for factor in self._sines:
            sum_, before = factor + twice * sum_ - before, sum_
        mean_k, amplitude_k = self._wave
        b, m = self._line
        return self._mean * phase_s + sum_ * math.sin(angle), math.exp(-b - m / (mean_k - amplitude_k * cosine))

    def rate(self, phase_s: float) -> float:
        """Maturity per second at a phase."""
        mean_k, amplitude_k = self._wave
        b, m = self._line
        return math.exp(-b - m / (mean_k - amplitude_k * math.cos(FREQUENCY * phase_s)))


def _worked(curves: Sequence[Sequence[Line]], wave: tuple[float, float], exponents: Floats) -> Iterator[list[Series]]:
    """The series of some curves by ln of their rates, from the coldest hour to the warmest."""
    rates = np.exp(exponents)
    ends = list(pairwise(accumulate(map(len, curves), initial=0)))
    # curve by curve, as a product of more rows may be summed in another order
    rows = np.concatenate([rates[first:last] @ _INTEGRALS for first, last in ends])
    kept = np.abs(rows * _FREQUENCIES) > _LEAST * rows[:, :1]
    counts = (HARMONICS + 1 - kept[:, ::-1].argmax(axis=1)).tolist()
    sums = rows[:, : max(counts)].tolist()
    for lines, (first, last) in zip(curves, ends, strict=True):
        count = max(counts[first:last])
        yield [Series(line, wave, row[:count]) for line, row in zip(lines, sums[first:last], strict=True)]


class Arc:
    """A piece of a day on which maturity accrues along a series."""

    __slots__ = ("_begun", "_from_s", "_paces_s", "_series", "gained", "length_s")

    mode = Mode.ACCRUING

    def __init__(self, series: Series, from_s: float, until_s: float) -> None:
        self._series, self._from_s, self.length_s = series, from_s, until_s - from_s
        self._begun = series.maturity(from_s)
        self.gained = series.maturity(until_s) - self._begun
        self._paces_s: tuple[float, float] | None = None

    def by(self, since_s: float) -> float:
        """The maturity gained in the first ``since_s``."""
        return self._series.maturity(self._from_s + since_s) - self._begun

    def until(self, maturity: float) -> float:
        """The seconds in which ``maturity``, at most all of it, is gained: Newton's method from a cubic's guess."""
        series, from_s, wanted, length_s = self._series, self._from_s, self._begun + maturity, self.length_s
        since_s = self._guess(maturity / self.gained)
        for _ in range(_MOST_STEPS):
            reached, rate = series.maturity_and_rate(from_s + since_s)
            better_s = since_s - (reached - wanted) / rate
            if better_s < 0.0:
                better_s = 0.0
            elif better_s > length_s:
                better_s = length_s
            if -_LAST_STEP_S < better_s - since_s < _LAST_STEP_S:
                return better_s
            since_s = better_s
        return since_s

    def _guess(self, share: float) -> float:
        """Where about a share of the maturity is gained: the cubic through both ends with the paces there."""
        if self._paces_s is None:
            rates = self._series.rate(self._from_s), self._series.rate(self._from_s + self.length_s)
            self._paces_s = self.gained / rates[0], self.gained / rates[1]
        first_s, last_s = self._paces_s
        paced_s = first_s * (1 - share) ** 2 - last_s * share * (1 - share)
        return min(max(share * (paced_s + (3 - 2 * share) * share * self.length_s), 0.0), self.length_s)
