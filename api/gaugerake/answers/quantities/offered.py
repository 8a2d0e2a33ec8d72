"""What can be bought of each product for this job, at which prices, and what is on the shelf already."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Faults
from gaugerake.floor.job import Offer
from gaugerake.floor.packs.choice import Offered
from gaugerake.floor.product import Pack, Price, Product
from gaugerake.floor.values.errors import UnknownName
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """The packs of one product that fit the job, as offered, and the contents on hand of them."""

    packs: tuple[Pack, ...]
    offered: tuple[Offered, ...]
    on_hand: float
    colour: str | None


def shelves(context: Context, products: Sequence[Product]) -> Mapping[str, Shelf]:
    """The shelf of each product, by its code.

    Raises
    ------
    Refused
        When a colour, or the sku of an offer or of what is on hand, is unknown.
    """
    faults = Faults()
    _check_skus(context, faults)
    colours = _colours(context, products, faults)
    faults.raise_any()
    offers = {offer.sku: offer for offer in context.job.order.offers}
    on_hand = {entry.sku: entry.packs for entry in context.job.order.on_hand}
    found = {}
    for product in products:
        colour = colours.get(product.code)
        packs = tuple(pack for pack in product.packs if pack.colour == colour or colour is None)
        found[product.code] = Shelf(
            packs=packs,
            offered=tuple(_offered(pack, offers.get(pack.sku), context.book.prices.get(pack.sku)) for pack in packs),
            on_hand=float(sum(on_hand.get(pack.sku, 0) * pack.contents for pack in packs)) if on_hand else 0.0,
            colour=colour,
        )
    _caution_unused(context, found.values())
    return found


def _offered(pack: Pack, offer: Offer | None, listed: Price | None) -> Offered:
    """A pack at the caller's own price, if there is one, else at the book's."""
    if offer is None:
        return Offered(sku=pack.sku, contents=pack.contents, price=listed)
    price = listed if offer.price is None else Price(price=offer.price)
    return Offered(sku=pack.sku, contents=pack.contents, price=price, available=offer.available)


def _asked_skus(context: Context) -> Iterable[tuple[str, str]]:
    """Each sku that the job names, and where."""
    order = context.job.order
    for index, offer in enumerate(order.offers):
        yield offer.sku, f"/order/offers/{index}/sku"
    for index, entry in enumerate(order.on_hand):
        yield entry.sku, f"/order/on_hand/{index}/sku"


def _check_skus(context: Context, faults: Faults) -> None:
    asked = list(_asked_skus(context))
    if not asked:
        return
    known = dict.fromkeys(pack.sku for product in context.catalogue.products.values() for pack in product.packs)
    for sku, pointer in asked:
        if sku not in known:
            faults.add(pointer, UnknownName("sku", seen=sku, known=known))


def _caution_unused(context: Context, found: Iterable[Shelf]) -> None:
    """Say which offers and stock this job has no use for: another system's, or another colour."""
    asked = list(_asked_skus(context))
    if not asked:
        return
    used = {pack.sku for shelf in found for pack in shelf.packs}
    for sku, pointer in asked:
        if sku not in used:
            code = "offer-unused" if pointer.startswith("/order/offers") else "stock-unused"
            context.record.caution(code, pointer, sku=sku)


def _colours(context: Context, products: Sequence[Product], faults: Faults) -> dict[str, str]:
    """The colour of each product that comes in colours, by its code."""
    palettes = {product.code: palette for product in products if (palette := _palette(product))}
    asked = context.job.order.colour
    if not palettes:
        if asked is not None:
            context.record.caution("colour-unused", "/order/colour", colour=asked)
        return {}
    shared = [colour for colour in next(iter(palettes.values())) if all(colour in each for each in palettes.values())]
    known = shared or list(dict.fromkeys(colour for palette in palettes.values() for colour in palette))
    if asked is None:
        asked = known[0]
        context.record.assume("colour-first-listed", "/order/colour", asked)
    elif asked not in known:
        faults.add("/order/colour", UnknownName("colour", seen=asked, known=known))
    return {code: asked if asked in palette else palette[0] for code, palette in palettes.items()}


def _palette(product: Product) -> tuple[str, ...]:
    return tuple(dict.fromkeys(pack.colour for pack in product.packs if pack.colour is not None))
