"""How many whole mixes a product takes, as a distribution: one yield for all its layers, one thickness for the job.

At a yield y and a thickness factor f a layer takes ⌈(v·f + c) / y⌉ mixes, so the layers together take as many as there
are pairs of a layer and a whole number m with (v·f + c) / y > m. Each pair stops to count from some yield on (or up to
some factor), and the product makes do with n mixes when no more than n pairs count. One of the two is summed over by
Gauss-Legendre, the narrower one; over the wider the chances are exact.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from gaugerake.floor.body import GUARD
from gaugerake.floor.spread import (
    CUT_SIGMAS,
    Floats,
    factor_below,
    factor_nodes,
    reached,
    triangular_nodes,
)
from gaugerake.floor.takeoff import Demand

_MOST_JUMPS = 64


class MixChance:
    """The distribution of the whole mixes that some layers of one product take.

    Examples
    --------
    >>> from gaugerake.floor.system import Triple
    >>> body = Demand(varying=1.0, fixed=0.0, divisor=Triple(low=0.09, likely=0.1, high=0.11), step=1)
    >>> chance = MixChance(demands=[body], sd_fraction=0.0)
    >>> chance.quantity(0.9), [round(p, 6) for p in chance.suffice([9.0, 10.0, 11.0, 12.0])]
    (11.0, [0.0, 0.5, 0.995868, 1.0])
    """

    def __init__(self, *, demands: Sequence[Demand], sd_fraction: float) -> None:
        taken = [demand for demand in demands if demand.varying + demand.fixed > 0]
        self.varying = np.array([demand.varying for demand in taken]) * (1 - GUARD)
        self.fixed = np.array([demand.fixed for demand in taken]) * (1 - GUARD)
        self.yields = next(demand.divisor for demand in taken if demand.divisor is not None)
        self.sd_fraction = sd_fraction if self.varying.any() else 0.0
        self._pairs()
        self.chances = self._distribution()

    def _pairs(self) -> None:
        """The pairs that may or may not count: their layer's volumes and their m; ``base`` pairs always count."""
        reach = CUT_SIGMAS * self.sd_fraction
        least = (self.varying * (1 - reach) + self.fixed) / self.yields.high
        most = (self.varying * (1 + reach) + self.fixed) / self.yields.low
        first = [max(1, math.floor(count)) for count in least.tolist()]
        last = [max(low, math.ceil(count)) for low, count in zip(first, most.tolist(), strict=True)]
        self.base = sum(first)
        spans = [high - low + 1 for low, high in zip(first, last, strict=True)]
        self.m = np.concatenate(
            [np.arange(low, low + span, dtype=float) for low, span in zip(first, spans, strict=True)]
        )
        self.v, self.c = np.repeat(self.varying, spans), np.repeat(self.fixed, spans)

    def _distribution(self) -> Floats:
        """The chance that ``base``, ``base + 1``, … mixes suffice."""
        yields, reach = self.yields, 2 * CUT_SIGMAS * self.sd_fraction
        share = float(self.varying.sum() / (self.varying.sum() + self.fixed.sum()))
        if (yields.high - yields.low) / yields.likely < reach * share:
            values, weights = triangular_nodes(spread=yields, jumps=self._jumps())
            done = self._done_at_yields(values)
        else:
            values, weights = factor_nodes(sd_fraction=self.sd_fraction)
            done = self._done_at_factors(values)
        chances: Floats = weights @ done
        return chances

    def _jumps(self) -> list[float]:
        """The yields at which a layer without thickness takes a mix more or less; where there are very many, some."""
        flat = self.v == 0
        if not flat.any():
            return []
        found: list[float] = (self.c[flat] / self.m[flat]).tolist()
        return found[:: 1 + len(found) // _MOST_JUMPS]

    def _done_at_factors(self, factors: Floats) -> Floats:
        """For each factor a row: the chance over the yield that only the pairs before a column's count."""
        ends = (self.v * factors[:, None] + self.c) / self.m
        return self._in_turn(reached(spread=self.yields, values=ends))

    def _done_at_yields(self, yields: Floats) -> Floats:
        """For each yield a row: the same over the factor."""
        return self._in_turn(factor_below(values=self._last_factors(yields), sd_fraction=self.sd_fraction))

    def _last_factors(self, yields: Floats) -> Floats:
        """For each yield a row: the factor beyond which each pair counts; ±∞ in a layer without thickness."""
        room = self.m * yields[:, None] - self.c
        flat = self.v == 0
        if not flat.any():
            return room / self.v
        return np.where(flat, np.where(room >= 0, math.inf, -math.inf), room / np.where(flat, 1.0, self.v))

    def _in_turn(self, chances: Floats) -> Floats:
        """The pairs of a row in the order in which they stop to count; those of one layer are so already."""
        return chances if len(self.varying) == 1 else np.sort(chances, axis=1)

    def quantity(self, chance: float) -> float:
        """The least whole mixes that suffice with this chance."""
        return float(self.base + int(np.searchsorted(self.chances, chance - 1e-12)))

    def suffice(self, amounts: Sequence[float]) -> list[float]:
        """The chance that each of these amounts of mixes suffices."""
        found = []
        for amount in amounts:
            column = math.floor(amount * (1 + GUARD)) - self.base
            inside = 0 <= column < len(self.chances)
            found.append(float(self.chances[column]) if inside else float(column >= 0))
        return found

    def suffice_at(self, amount: float, factors: Floats) -> Floats:
        """The chance over the yield that an amount suffices, at each thickness factor."""
        column = math.floor(amount * (1 + GUARD)) - self.base
        if not 0 <= column < len(self.m):
            return np.full(len(factors), float(column >= 0))
        return self._done_at_factors(factors)[:, column]

    def turns(self, amount: float) -> tuple[float, ...]:
        """The factors at which ``suffice_at`` turns sharply: where the last yield, the likely and the first suffice."""
        column = math.floor(amount * (1 + GUARD)) - self.base
        if self.sd_fraction <= 0 or not 0 <= column < len(self.m):
            return ()
        yields = np.array([self.yields.low, self.yields.likely, self.yields.high])
        return tuple(self._in_turn(self._last_factors(yields))[:, column].tolist())
