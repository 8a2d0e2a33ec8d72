"""How many whole mixes a product takes, as a distribution: one yield for all its layers, one thickness for the job.

At a yield y and a thickness factor f a layer takes ⌈(v·f + c) / y⌉ mixes, so the layers together take as many as there
are pairs of a layer and a whole number m with (v·f + c) / y > m. Each pair counts up to some yield, and from some
factor on, so that n mixes suffice from the yield on at which no more than n pairs count. One of the two is summed over
by Gauss-Legendre, the narrower one; over the wider the chances are exact.

Where there are not too many mixes, all of them are worked out at once. Of many, each number that is asked about is
worked out alone, from the pairs near to it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from gaugerake.floor.layers.need import Demand
from gaugerake.floor.shortage.mix_pairs import Pairs
from gaugerake.floor.shortage.triangular import (
    CUT_SIGMAS,
    Floats,
    even_factor_nodes,
    factor_below,
    rate_nodes,
    reached,
    triangular_nodes,
)
from gaugerake.floor.values.rounding import GUARD

_MOST_JUMPS = 64
_MOST_CELLS = 100_000


class MixChance:
    """The distribution of the whole mixes that some layers of one product take.

    Examples
    --------
    >>> from gaugerake.floor.values.range import Triple
    >>> body = Demand(varying=1.0, fixed=0.0, divisor=Triple(low=0.09, likely=0.1, high=0.11), step=1)
    >>> chance = MixChance(demands=[body], sd_fraction=0.0)
    >>> chance.quantity(0.9), [round(p, 6) for p in chance.suffice([9.0, 10.0, 11.0, 12.0])]
    (11.0, [0.0, 0.5, 0.995868, 1.0])
    """

    def __init__(self, *, demands: Sequence[Demand], sd_fraction: float) -> None:
        taken = [demand for demand in demands if demand.varying + demand.fixed > 0]
        varying = [demand.varying * (1 - GUARD) for demand in taken]
        fixed = [demand.fixed * (1 - GUARD) for demand in taken]
        self.yields = next(demand.divisor for demand in taken if demand.divisor is not None)
        self.sd_fraction = sd_fraction if any(varying) else 0.0
        reach = CUT_SIGMAS * self.sd_fraction
        self.pairs = Pairs(varying=varying, fixed=fixed, yields=self.yields, reach_fraction=reach)
        width = (self.yields.high - self.yields.low) / self.yields.likely
        self.over_yields = width < 2 * reach * sum(varying) / (sum(varying) + sum(fixed))
        if self.over_yields:
            jumps = self.pairs.jumps(_MOST_JUMPS)
            nodes = triangular_nodes(figure=self.yields, jumps=jumps) if jumps else rate_nodes(self.yields)
            self.nodes, self.weights = nodes
        else:
            rough = len(taken) > 1 and sum(varying) < sum(fixed)  # then most mixes step while the thickness glides
            self.nodes, self.weights = even_factor_nodes(self.sd_fraction, 16 if rough else 4)
        self.base, last = self.pairs.base, self.pairs.base + self.pairs.count
        self.chances = self._all() if self.pairs.count * len(self.nodes) <= _MOST_CELLS else None
        self.last = last

    def _all(self) -> Floats:
        """The chance that ``base``, ``base + 1``, … mixes suffice."""
        if self.over_yields:
            done = factor_below(values=self.pairs.last_factors(self.nodes), sd_fraction=self.sd_fraction)
        else:
            done = reached(figure=self.yields, values=self.pairs.first_yields(self.nodes))
        chances: Floats = self.weights @ self.pairs.in_turn(done)
        return chances

    def _one(self, count: int) -> float:
        """The chance that ``count`` mixes suffice."""
        if count < self.base or count >= self.last:
            return float(count >= self.base)
        if self.chances is not None:
            return float(self.chances[count - self.base])
        if self.over_yields:
            done = factor_below(values=self.pairs.last_factor(count, self.nodes), sd_fraction=self.sd_fraction)
        else:
            done = reached(figure=self.yields, values=self.pairs.first_yield(count, self.nodes))
        return float(self.weights @ done)

    def quantity(self, chance: float) -> float:
        """The least whole mixes that suffice with this chance."""
        if self.chances is not None:
            return float(self.base + int(np.searchsorted(self.chances, chance - 1e-12)))
        low, high = self.base - 1, self.last
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if self._one(middle) >= chance - 1e-12 else (middle, high)
        return float(high)

    def suffice(self, amounts: Sequence[float]) -> list[float]:
        """The chance that each of these amounts of mixes suffices."""
        return [self._one(math.floor(amount * (1 + GUARD))) for amount in amounts]

    def suffice_at(self, amount: float, factors: Floats) -> Floats:
        """The chance over the yield that an amount suffices, at each thickness factor."""
        count = math.floor(amount * (1 + GUARD))
        if count < self.base or count >= self.last:
            return np.full(len(factors), float(count >= self.base))
        return reached(figure=self.yields, values=self.pairs.first_yield(count, factors))

    def turns(self, amount: float) -> tuple[float, ...]:
        """The factors at which ``suffice_at`` turns sharply: up to which the low, likely and high yield suffice."""
        count = math.floor(amount * (1 + GUARD))
        if self.sd_fraction <= 0 or count < self.base or count >= self.last:
            return ()
        inside = [jump for jump in self.pairs.jumps(_MOST_JUMPS) if self.yields.low < jump < self.yields.high]
        yields = np.array([self.yields.low, self.yields.likely, self.yields.high, *inside])
        return tuple(self.pairs.last_factor(count, yields).tolist())
