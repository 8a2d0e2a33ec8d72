"""What to beware of with an order, what it takes for unsaid, and what keeps it from being placed."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from gaugerake.answers.job.context import Context
from gaugerake.answers.quantities.order import ProductOrder
from gaugerake.catalogue.file.codes import MINOR_UNITS
from gaugerake.floor.product import CountedIn, Hazard, Store
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.money import to_minor
from gaugerake.floor.values.note import Note


def assume_money(context: Context) -> None:
    """Note the tax, discount and delivery that nobody stated: none."""
    order, record = context.job.order, context.record
    if order.tax_percent is None:
        record.assume("no-tax", "/order/tax_percent", Figure(0.0, "percent"))
    if order.discount_percent is None:
        record.assume("no-discount", "/order/discount_percent", Figure(0.0, "percent"))
    if order.delivery is None:
        currency = context.book.currency
        none = to_minor(amount=Decimal(0), digits=MINOR_UNITS[currency])
        record.assume("no-delivery", "/order/delivery", str(none))


def blockers(context: Context, products: Sequence[ProductOrder]) -> tuple[Note, ...]:
    """What stock does not cover."""
    return tuple(
        Note(
            code="stock-lacking",
            pointer=_offer_of(context, one),
            params={
                "product": one.product.name,
                "lacking": Figure(one.load.lacking, one.product.counted_in.figure_kind),
            },
        )
        for one in products
        if one.load.lacking > 0
    )


def _offer_of(context: Context, one: ProductOrder) -> str | None:
    """The first offer that limits a product."""
    skus = {pack.sku for pack in one.shelf.packs}
    for index, offer in enumerate(context.job.order.offers):
        if offer.sku in skus and offer.available is not None:
            return f"/order/offers/{index}/available"
    return None


def caution_order(context: Context, products: Sequence[ProductOrder]) -> None:
    """Say what goes with the products of an order."""
    _caution_hazards(context, products)
    if any(one.product.counted_in is CountedIn.MIX for one in products):
        context.record.caution("kits-never-split")
    for one in products:
        _caution_product(context, one)
    _caution_conditioning(context, products)


def _caution_hazards(context: Context, products: Sequence[ProductOrder]) -> None:
    """One caution for each hazard, with the products that have it."""
    for hazard in Hazard:
        names = [one.product.name for one in products if hazard in one.product.hazards]
        if names:
            context.record.caution(f"hazard-{hazard.value}", products=", ".join(names))


def _caution_product(context: Context, one: ProductOrder) -> None:
    record, name, shelf = context.record, one.product.name, one.shelf
    rows = list(zip(shelf.packs, shelf.offered, one.load.counts, strict=True))
    if one.ordered > 0 and not any(one.load.counts) and one.load.lacking <= 0:
        record.caution("covered-by-stock", "/order/on_hand", product=name)
    unpriced = [pack.sku for pack, offered, count in rows if count > 0 and offered.price is None]
    if unpriced:
        record.caution("no-price", product=name, skus=", ".join(unpriced))
    unweighed = [pack.sku for pack, _, count in rows if count > 0 and pack.weight_kg is None]
    if unweighed:
        record.caution("no-weight", product=name, skus=", ".join(unweighed))
    if shelf.colour is not None:
        record.caution("one-lot-of-colour", product=name, colour=shelf.colour)
        if context.job.order.colour not in (None, shelf.colour):
            record.caution("colour-not-made", "/order/colour", product=name, colour=shelf.colour)


def _caution_conditioning(context: Context, products: Sequence[ProductOrder]) -> None:
    record = context.record
    for one in products:
        if one.product.store is not None:
            _caution_store(context, one.product.name, one.product.store)
    if any(one.product.counted_in in (CountedIn.MIX, CountedIn.LIQUID) for one in products):
        record.caution("condition-materials")


def _caution_store(context: Context, name: str, store: Store) -> None:
    record = context.record
    low = None if store.low_k is None else Figure(store.low_k, "temperature")
    high = None if store.high_k is None else Figure(store.high_k, "temperature")
    if low is not None and high is not None:
        record.caution("store-between", product=name, low=low, high=high)
    elif low is not None:
        record.caution("store-above", product=name, low=low)
    elif high is not None:
        record.caution("store-below", product=name, high=high)
    if store.condition_s is not None:
        record.caution("condition-first", product=name, time=Figure(store.condition_s, "duration"))
    if store.shelf_life_s is not None:
        record.caution("shelf-life", product=name, time=Figure(store.shelf_life_s, "days"))
