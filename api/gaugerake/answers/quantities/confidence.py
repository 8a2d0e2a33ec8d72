"""How much of each product is ordered, so that the whole order suffices with the confidence asked."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.shortage.chance import Chance, chance_of, each_chance, uncertain
from gaugerake.floor.values.frozen import dataclass, maker


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordered:
    """What is ordered of one product, before packs; ``chance`` is None where its need is exact.

    ``confidence`` is what the order as a whole is asked for, ``each`` what that makes for each uncertain product, of
    which there are ``among``.
    """

    quantity: float
    chance: Chance | None
    confidence: float
    each: float
    among: int


_make_ordered = maker(Ordered)


def ordered_quantities(
    needs: Mapping[str, Sequence[LayerNeed]], *, confidence: float, sd_fraction: float
) -> dict[str, Ordered]:
    """The quantity to order of each product: that which suffices with its part of the confidence."""
    chances = {code: _chance(layers, sd_fraction) for code, layers in needs.items()}
    among = sum(chance is not None for chance in chances.values())
    each = each_chance(confidence=confidence, product_count=among)
    found = {}
    for code, layers in needs.items():
        chance = chances[code]
        if chance is None:
            quantity = math.fsum(need.rounded_likely for need in layers if not by_mix(need))
        else:  # a product counted in pieces has no chance, so no layer of this one goes by mixes
            quantity = chance.quantity(each)
        found[code] = _make_ordered(quantity=quantity, chance=chance, confidence=confidence, each=each, among=among)
    return found


def by_mix(need: LayerNeed) -> bool:
    """Whether a layer goes by the whole mixes ordered of another product."""
    return need.layer.per_mix is not None


def per_mix(needs: Sequence[LayerNeed], ordered: Mapping[str, Ordered]) -> float:
    """What such layers take, for all mixes ordered."""
    total = 0.0
    for need in needs:
        by = need.layer.per_mix
        if by is not None:
            mixes = ordered.get(by.product)
            total += by.count * mixes.quantity if mixes else 0.0
    return total


def _chance(layers: Sequence[LayerNeed], sd_fraction: float) -> Chance | None:
    demands = [need.demand for need in layers if need.demand is not None]
    if not uncertain(demands=demands, sd_fraction=sd_fraction):
        return None
    return chance_of(demands=demands, counted_in=layers[0].layer.product.counted_in, sd_fraction=sd_fraction)
