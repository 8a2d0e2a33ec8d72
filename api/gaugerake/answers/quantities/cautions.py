"""What to beware of with an order, what it takes for unsaid, and what keeps it from being placed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.quantities.offered import offer_remarks
from gaugerake.answers.quantities.order import JobOrder, ProductOrder
from gaugerake.floor.job import Offer
from gaugerake.floor.product import CountedIn, Hazard, Storage
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Note, listed


def order_remarks(resolved: ResolvedJob, order: JobOrder) -> Iterator[Remark]:
    """What is said beside an order: what is taken for unsaid, and what goes with its products."""
    money = resolved.order
    yield from offer_remarks(money, order.offers, resolved.supply.catalogue)
    if any(one.basis.chance is not None for one in order.products):
        yield from money.confidence.remarks
    yield from (*money.tax_percent.remarks, *money.discount_percent.remarks, *money.delivery.remarks)
    yield from products_remarks(money.colour, order.products)


def blockers(offers: Sequence[Offer], products: Sequence[ProductOrder]) -> tuple[Note, ...]:
    """What stock does not cover."""
    return tuple(
        Note(
            code="stock-lacking",
            pointer=_offer_of(offers, one),
            params={
                "product": one.product.name,
                "lacking": Figure(one.load.lacking, one.product.counted_in.figure_kind),
            },
        )
        for one in products
        if one.load.lacking > 0
    )


def _offer_of(offers: Sequence[Offer], one: ProductOrder) -> str | None:
    """The first offer that limits a product."""
    skus = {part.sku for pack in one.supply.packs for part in pack.ordered_as}
    for index, offer in enumerate(offers):
        if offer.sku in skus and offer.available is not None:
            return f"/order/offers/{index}/available"
    return None


def products_remarks(colour: str | None, products: Sequence[ProductOrder]) -> Iterator[Remark]:
    """What goes with the products of an order."""
    yield from _caution_hazards(products)
    if any(one.product.counted_in is CountedIn.MIX for one in products):
        yield caution("kits-never-split")
    for one in products:
        yield from _caution_product(colour, one)
    yield from _caution_conditioning(products)


def _caution_hazards(products: Sequence[ProductOrder]) -> Iterator[Remark]:
    """One caution for each hazard, with the products that have it."""
    for hazard in Hazard:
        names = [one.product.name for one in products if hazard in one.product.hazards]
        if names:
            yield caution(f"hazard-{hazard.value}", products=listed(code="table-list", phrases=[*names]))


def _caution_product(colour: str | None, one: ProductOrder) -> Iterator[Remark]:
    name, supply = one.product.name, one.supply
    rows = zip(supply.packs, one.load.counts, strict=True)
    ordered = [part for pack, count in rows if count > 0 for part in pack.ordered_as]
    if one.ordered > 0 and not any(one.load.counts) and one.load.lacking <= 0:
        yield caution("covered-by-stock", "/order/on_hand", product=name)
    unpriced = [part.sku for part in ordered if part.sku not in supply.prices]
    if unpriced:
        yield caution("no-price", product=name, skus=", ".join(unpriced))
    unweighed = [part.sku for part in ordered if part.weight_kg is None]
    if unweighed:
        yield caution("no-weight", product=name, skus=", ".join(unweighed))
    if supply.colour is not None:
        yield caution("one-lot-of-colour", product=name, colour=supply.colour)
        if colour not in (None, supply.colour):
            yield caution("colour-not-made", "/order/colour", product=name, colour=supply.colour)


def _caution_conditioning(products: Sequence[ProductOrder]) -> Iterator[Remark]:
    for one in products:
        if one.product.store is not None:
            yield from _caution_store(one.product.name, one.product.store)
    if any(one.product.counted_in in (CountedIn.MIX, CountedIn.LIQUID) for one in products):
        yield caution("condition-materials")


def _caution_store(name: str, store: Storage) -> Iterator[Remark]:
    low = None if store.low_k is None else Figure(store.low_k, Kind.TEMPERATURE)
    high = None if store.high_k is None else Figure(store.high_k, Kind.TEMPERATURE)
    if low is not None and high is not None:
        yield caution("store-between", product=name, low=low, high=high)
    elif low is not None:
        yield caution("store-above", product=name, low=low)
    elif high is not None:
        yield caution("store-below", product=name, high=high)
    if store.condition_s is not None:
        yield caution("condition-first", product=name, time=Figure(store.condition_s, Kind.DURATION))
    if store.shelf_life_s is not None:
        yield caution("shelf-life", product=name, time=Figure(store.shelf_life_s, Kind.DAYS))
