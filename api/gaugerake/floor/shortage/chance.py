"""The chance of running short, and the quantity that makes it small enough.

A product's yield is one draw for all its layers, each layer's spreading or broadcast rate a draw of its own; all are
triangular. Area times thickness of a body goes by one normal factor for the whole job, cut off at ±3σ. Waste is fixed.
Whole mixes and smallest batches are rounded up per layer, as when the likely need is counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import prod

import numpy as np

from gaugerake.floor.layers.need import Demand
from gaugerake.floor.product import CountedIn
from gaugerake.floor.shortage.mixes import MixChance
from gaugerake.floor.shortage.sums import BatchChance, SumChance
from gaugerake.floor.shortage.triangular import factor_nodes

Chance = MixChance | SumChance | BatchChance


def uncertain(*, demands: Sequence[Demand], sd_fraction: float) -> bool:
    """Tell whether a product's need is uncertain.

    Parameters
    ----------
    demands : Sequence[Demand]
        Of all its layers.
    sd_fraction : float
        Standard deviation of the thickness factor.

    Returns
    -------
    bool
        Whether any of its ranges is not one value, or it makes the body of a floor whose thickness varies.

    Examples
    --------
    >>> uncertain(demands=[Demand(varying=0.0, fixed=2.0)], sd_fraction=0.03)
    False
    >>> uncertain(demands=[Demand(varying=1.0, fixed=2.0)], sd_fraction=0.03)
    True
    """
    return any(
        (demand.varying > 0 and sd_fraction > 0)
        or not (demand.divisor is None or demand.divisor.exact)
        or not (demand.multiplier is None or demand.multiplier.exact)
        for demand in demands
    )


def chance_of(*, demands: Sequence[Demand], counted_in: CountedIn, sd_fraction: float) -> Chance:
    """Give the distribution of what all layers of a product take.

    Parameters
    ----------
    demands : Sequence[Demand]
        Of its layers; at least one.
    counted_in : CountedIn
        How the product is counted.
    sd_fraction : float
        Standard deviation of the thickness factor.

    Returns
    -------
    MixChance, SumChance or BatchChance
        Each has ``quantity(chance)`` and ``suffice(amounts)``.

    Examples
    --------
    >>> from gaugerake.floor.values.range import Triple
    >>> coat = Demand(varying=0.0, fixed=100.0, divisor=Triple(low=4.0, likely=5.0, high=6.0))
    >>> round(chance_of(demands=[coat], counted_in=CountedIn.LIQUID, sd_fraction=0.03).quantity(0.5), 6)
    20.0
    """
    if counted_in is CountedIn.MIX:
        return MixChance(demands=demands, sd_fraction=sd_fraction)
    step = demands[0].step
    return SumChance(demands=demands) if step is None else BatchChance(demands=demands, step=step)


def each_chance(*, confidence: float, product_count: int) -> float:
    """Give the chance with which each of several independent products must suffice for all of them to.

    Parameters
    ----------
    confidence : float
        For the whole order, 0 to 1.
    product_count : int
        Products whose need is uncertain.

    Returns
    -------
    float
        confidence^(1 / count).

    Examples
    --------
    >>> each_chance(confidence=0.9, product_count=5)
    0.97914836
    """
    return float(confidence ** (1 / max(product_count, 1)))


def all_suffice(*, supplies: Sequence[tuple[Chance, float]], sd_fraction: float) -> float:
    """Give the chance that nothing runs short.

    Parameters
    ----------
    supplies : Sequence[tuple[Chance, float]]
        The distribution of each product's need, and the amount that there is of it.
    sd_fraction : float
        Standard deviation of the one thickness factor that all bodies of the job share.

    Returns
    -------
    float
        The product of the chances; where several products go by the thickness, theirs is summed over the factor.

    Examples
    --------
    >>> from gaugerake.floor.values.range import Triple
    >>> coat = Demand(varying=0.0, fixed=100.0, divisor=Triple(low=4.0, likely=5.0, high=6.0))
    >>> chance = chance_of(demands=[coat], counted_in=CountedIn.LIQUID, sd_fraction=0.03)
    >>> all_suffice(supplies=[(chance, 20.0), (chance, 20.0)], sd_fraction=0.03)
    0.25
    """
    bodies: list[tuple[MixChance, float]] = []
    alone: list[float] = []
    for chance, amount in supplies:
        if isinstance(chance, MixChance) and chance.sd_fraction > 0:
            bodies.append((chance, amount))
        else:
            alone += chance.suffice([amount])
    if len(bodies) < 2:
        return prod(alone) * prod(chance.suffice([amount])[0] for chance, amount in bodies)
    turns = [turn for chance, amount in bodies for turn in chance.turns(amount)]
    factors, weights = factor_nodes(sd_fraction=sd_fraction, panels=16, turns=turns)
    together = np.prod([chance.suffice_at(amount, factors) for chance, amount in bodies], axis=0)
    return prod(alone) * float(weights @ together)
