"""How much of a liquid or an aggregate all its layers take, as a distribution: each layer spreads at a rate of its own.

Layers that are measured out are a convolution: the widest is exact, the others are summed over by Gauss-Legendre.
Layers in whole batches have chances for each number of batches, and those are convolved.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from gaugerake.floor.layers.need import Demand
from gaugerake.floor.shortage.triangular import Floats, rate_nodes, reached, triangular_quantile
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import GUARD, whole

_MOST_NODES = 512
_STEPS = 32
_MOST_PRODUCTS = 4_000_000
_NOTHING, _SURE = np.array([0.0]), np.array([1.0])
"""The amounts and weights of no layers; neither is written to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """One layer: ``quantity`` by a rate that divides it (spreading) or multiplies it (broadcast); what it may take."""

    quantity: float
    rate: Triple
    divides: bool
    low: float
    high: float

    def at(self, rates: Floats) -> Floats:
        return self.quantity / rates if self.divides else self.quantity * rates

    def quantile(self, chance: float) -> float:
        """What the layer takes at most, with this chance."""
        if self.divides:
            return self.quantity / triangular_quantile(figure=self.rate, chance=1 - chance)
        return self.quantity * triangular_quantile(figure=self.rate, chance=chance)

    def within(self, amounts: Floats) -> Floats:
        """The chance that the layer takes at most each amount."""
        if self.rate.exact:
            return np.where(amounts >= self.high * (1 - GUARD), 1.0, 0.0)
        if self.divides:
            return reached(figure=self.rate, values=self.quantity / np.maximum(amounts, self.low / 2))
        upside = Triple(low=-self.rate.high, likely=-self.rate.likely, high=-self.rate.low)
        return reached(figure=upside, values=-amounts / self.quantity)


def _part(demand: Demand) -> _Part:
    quantity = demand.varying + demand.fixed
    if demand.multiplier is None:
        rate = demand.divisor or Triple(low=1.0, likely=1.0, high=1.0)
        return _Part(quantity=quantity, rate=rate, divides=True, low=quantity / rate.high, high=quantity / rate.low)
    if demand.divisor is not None:
        quantity /= demand.divisor.likely
    rate = demand.multiplier
    return _Part(quantity=quantity, rate=rate, divides=False, low=quantity * rate.low, high=quantity * rate.high)


class SumChance:
    """The distribution of what several layers take together, each measured out.

    Examples
    --------
    >>> coat = Demand(varying=0.0, fixed=100.0, divisor=Triple(low=4.0, likely=5.0, high=6.0))
    >>> chance = SumChance(demands=[coat])
    >>> round(chance.quantity(0.5), 6), [round(p, 6) for p in chance.suffice([20.0, 25.0])]
    (20.0, [0.5, 1.0])
    """

    def __init__(self, *, demands: Sequence[Demand]) -> None:
        self.parts = sorted(map(_part, demands), key=lambda part: part.high - part.low)
        self.widest = self.parts[-1]
        self.amounts, self.weights = _NOTHING, _SURE
        for part in self.parts[:-1]:
            rates, weights = rate_nodes(part.rate)
            self._add(part.at(rates), weights)

    def _add(self, amounts: Floats, weights: Floats) -> None:
        if self.weights is _SURE:
            self.amounts, self.weights = amounts, weights
            return
        self.amounts = (self.amounts[:, None] + amounts).reshape(-1)
        self.weights = (self.weights[:, None] * weights).reshape(-1)
        if len(self.amounts) > _MOST_NODES:
            self._thin()

    def _thin(self) -> None:
        """Neighbouring amounts made into one, at their mean."""
        order = _in_order(self.amounts)
        amounts, weights = self.amounts[order], self.weights[order]
        starts = np.arange(0, len(order), -(-len(order) // (_MOST_NODES // 4)))
        self.weights = np.add.reduceat(weights, starts)
        self.amounts = np.add.reduceat(weights * amounts, starts) / self.weights

    def _within(self, amounts: Floats) -> Floats:
        chances: Floats = self.widest.within(amounts[:, None] - self.amounts) @ self.weights
        return chances

    def quantity(self, chance: float) -> float:
        """The amount that suffices with this chance."""
        if len(self.amounts) == 1:
            return float(self.amounts[0]) + self.widest.quantile(chance)
        low, high = sum(part.low for part in self.parts), sum(part.high for part in self.parts)
        for _ in range(2):
            amounts = np.linspace(low, high, _STEPS + 1)
            chances = self._within(amounts)
            place = min(max(int(np.searchsorted(chances, chance)), 1), _STEPS)
            low, high = float(amounts[place - 1]), float(amounts[place])
        below, above = float(chances[place - 1]), float(chances[place])
        return low + (high - low) * (chance - below) / (above - below) if above > below else high

    def suffice(self, amounts: Sequence[float]) -> list[float]:
        """The chance that each of these amounts suffices."""
        found: list[float] = self._within(np.array(amounts) * (1 + GUARD)).tolist()
        return found


def _in_order(amounts: Floats) -> NDArray[np.int64]:
    """The places of amounts above 0, the least amount first, and of equal ones the first first.

    Floats above 0 are in the order of their bits. With its place in its last bits each is sorted alone, at half the
    cost of sorting places by their amounts. Amounts that differ in those bits only may come out of order, which is
    seen, and sorted as usual.

    >>> _in_order(np.array([3.0, 1.0, 2.0, 1.0])).tolist(), _in_order(np.array([2.0, np.nextafter(2.0, 1.0)])).tolist()
    ([1, 3, 2, 0], [1, 0])
    """
    last_bits = (1 << len(amounts).bit_length()) - 1
    keys = (amounts.view(np.int64) & ~last_bits) | np.arange(len(amounts))
    keys.sort()
    places = keys & last_bits
    rising = amounts[places]
    return places if (rising[1:] >= rising[:-1]).all() else amounts.argsort(kind="stable")


class BatchChance:
    """The distribution of what several layers take together, each in whole smallest batches.

    Examples
    --------
    >>> coat = Demand(varying=0.0, fixed=100.0, divisor=Triple(low=4.0, likely=5.0, high=6.0), step=2.0)
    >>> chance = BatchChance(demands=[coat], step=2.0)
    >>> chance.quantity(0.9), [round(p, 6) for p in chance.suffice([18.0, 20.0, 24.0])]
    (24.0, [0.098765, 0.5, 0.986111])
    """

    def __init__(self, *, demands: Sequence[Demand], step: float) -> None:
        self.step, self.base, chances = step, 0, np.array([1.0])
        for demand in demands:
            part = _part(demand)
            first, last = whole(part.low / step), whole(part.high / step)
            counts = np.arange(first, last + 1, dtype=np.float64)
            within = part.within(counts * (step * (1 + GUARD)))
            within[-1] = 1.0
            within[1:] -= within[:-1].copy()
            chances = _convolved(chances, within)
            self.base += first
        self.chances = np.cumsum(chances)

    def quantity(self, chance: float) -> float:
        """The least whole batches that suffice with this chance, as an amount."""
        return (self.base + int(np.searchsorted(self.chances, chance - 1e-12))) * self.step

    def suffice(self, amounts: Sequence[float]) -> list[float]:
        """The chance that each of these amounts suffices."""
        found = []
        for amount in amounts:
            place = math.floor(amount / self.step * (1 + GUARD)) - self.base
            found.append(0.0 if place < 0 else float(self.chances[min(place, len(self.chances) - 1)]))
        return found


def _convolved(one: Floats, other: Floats) -> Floats:
    """The distribution of the sum; of very many batches by way of its transform, which is quicker."""
    if len(one) * len(other) < _MOST_PRODUCTS:
        return np.convolve(one, other)
    length = len(one) + len(other) - 1
    found: Floats = np.fft.irfft(np.fft.rfft(one, length) * np.fft.rfft(other, length), length)
    return np.maximum(found, 0.0)
