"""The order: each product's need over all its layers, and the packs that cover it: ``context.shared(order)``."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from gaugerake.answers.job.context import Context
from gaugerake.answers.quantities.confidence import Ordered, by_mix, ordered_quantities, per_mix
from gaugerake.answers.quantities.offered import Shelf, shelves
from gaugerake.answers.takeoff.bridge import take_off
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.packs.choice import Load, choose_packs
from gaugerake.floor.product import Product
from gaugerake.floor.values.frozen import dataclass


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
    shelf: Shelf
    load: Load

    @property
    def held(self) -> float:
        """What there is in all, when the packs have come."""
        return self.load.contents + self.shelf.on_hand


def order(context: Context) -> tuple[ProductOrder, ...]:
    """The products in the order in which the work first takes them.

    Raises
    ------
    Refused
        When the job cannot be measured, or names a colour or sku that is not known.
    """
    needs: dict[str, list[LayerNeed]] = {}
    for need in context.shared(take_off).layers:
        needs.setdefault(need.layer.product.code, []).append(need)
    stock = shelves(context, [layers[0].layer.product for layers in needs.values()])
    ordered = ordered_quantities(context, needs)
    return tuple(_product_order(layers, stock[code], ordered) for code, layers in needs.items())


def _product_order(needs: Sequence[LayerNeed], shelf: Shelf, ordered: Mapping[str, Ordered]) -> ProductOrder:
    product = needs[0].layer.product
    extra = per_mix(needs, ordered)
    others = [need for need in needs if not by_mix(need)]
    basis = ordered[product.code]
    total = basis.quantity + extra
    return ProductOrder(
        product=product,
        needs=tuple(needs),
        low=math.fsum(need.rounded_low for need in others) + extra,
        likely=math.fsum(need.rounded_likely for need in others) + extra,
        high=math.fsum(need.rounded_high for need in others) + extra,
        ordered=total,
        basis=basis,
        shelf=shelf,
        load=choose_packs(need=total - shelf.on_hand, offered=shelf.offered),
    )
