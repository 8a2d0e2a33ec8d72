"""The order: each product's need over all its layers, and the packs that cover it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.quantities.confidence import Ordered, by_mix, ordered_quantities, per_mix
from gaugerake.answers.quantities.offered import Offers, ProductSupply, offers_of
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.packs.choice import Load, choose_packs
from gaugerake.floor.product import Product
from gaugerake.floor.values.frozen import dataclass, maker


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductOrder:
    """What is ordered of one product, in its base quantity: its layers' needs added, the packs, what is on hand.

    What goes by the mixes of another product needs a count for each mix ordered of it: low, likely and high alike.
    """

    product: Product
    needs: tuple[LayerNeed, ...]
    low: float
    likely: float
    high: float
    ordered: float
    basis: Ordered
    supply: ProductSupply
    load: Load

    @property
    def held(self) -> float:
        """What there is in all, when the packs have come."""
        return self.load.contents + self.supply.on_hand


_make_product_order = maker(ProductOrder)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobOrder:
    """The products in the order in which the work first takes them, and what they were chosen from."""

    products: tuple[ProductOrder, ...]
    offers: Offers


def order_of(resolved: ResolvedJob, takeoff: Takeoff) -> JobOrder:
    """What is ordered for the job.

    Raises
    ------
    Refused
        When it names a colour or sku that is not known.
    """
    needs: dict[str, list[LayerNeed]] = {}
    for need in takeoff.layers:
        needs.setdefault(need.layer.product.code, []).append(need)
    offers = offers_of(resolved, [layers[0].layer.product for layers in needs.values()])
    sd_fraction = resolved.system.thickness_sd_fraction
    ordered = ordered_quantities(needs, confidence=resolved.order.confidence.value, sd_fraction=sd_fraction)
    products = (_product_order(layers, offers.supplies[code], ordered) for code, layers in needs.items())
    return JobOrder(products=tuple(products), offers=offers)


def _product_order(needs: Sequence[LayerNeed], supply: ProductSupply, ordered: Mapping[str, Ordered]) -> ProductOrder:
    product = needs[0].layer.product
    extra = per_mix(needs, ordered)
    others = [need for need in needs if not by_mix(need)]
    basis = ordered[product.code]
    total = basis.quantity + extra
    return _make_product_order(
        product=product,
        needs=tuple(needs),
        low=math.fsum([need.rounded_low for need in others]) + extra,
        likely=math.fsum([need.rounded_likely for need in others]) + extra,
        high=math.fsum([need.rounded_high for need in others]) + extra,
        ordered=total,
        basis=basis,
        supply=supply,
        load=choose_packs(need=total - supply.on_hand, offered=supply.offered),
    )
