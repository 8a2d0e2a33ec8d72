"""What can be bought of each product for this job, at which prices, and what is on the shelf already."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from gaugerake.answers.job.errors import Fault, Faults
from gaugerake.answers.job.remarks import Remark, assumption, caution
from gaugerake.answers.job.resolved import ResolvedJob, ResolvedOrder
from gaugerake.floor.job import Offer
from gaugerake.floor.packs.choice import Offered
from gaugerake.floor.packs.kit import kit_price, whole_kits
from gaugerake.floor.product import Pack, Price, PriceBook, Product
from gaugerake.floor.system import Catalogue
from gaugerake.floor.values.errors import UnknownName
from gaugerake.floor.values.frozen import dataclass, maker

_make_offered = maker(Offered)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductSupply:
    """The packs of one product that fit the job, as offered, and the contents on hand of them.

    ``prices`` are those of skus, a kit's parts each, as they hold for the job; what has none is not in it.
    """

    packs: tuple[Pack, ...]
    offered: tuple[Offered, ...]
    prices: Mapping[str, Price]
    on_hand: float
    colour: str | None


_make_product_supply = maker(ProductSupply)


@dataclass(frozen=True, slots=True, kw_only=True)
class Colours:
    """The colour of each product that comes in colours, by its code; ``known`` are those to choose from."""

    by_product: Mapping[str, str]
    known: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offers:
    """The packs that the job can be bought in: those of each product, by its code, and their colours."""

    supplies: Mapping[str, ProductSupply]
    colours: Colours


def offers_of(resolved: ResolvedJob, products: Sequence[Product]) -> Offers:
    """The packs of each product as offered to the job.

    Raises
    ------
    Refused
        When a colour, or the sku of what is on hand, is unknown.
    """
    order, supply = resolved.order, resolved.supply
    colours, faults = _checked(resolved, products)
    faults.raise_any()
    found = {}
    stock = _Stock(order)
    for product in products:
        colour = colours.by_product.get(product.code)
        packs = product.packs
        if colour is not None:
            packs = tuple([pack for pack in packs if pack.colour == colour])
        prices = stock.prices(packs, supply.book)
        found[product.code] = _make_product_supply(
            packs=packs,
            offered=tuple([stock.offered(pack, prices) for pack in packs]),
            prices=prices,
            on_hand=float(sum(stock.kits_on_hand(pack) * pack.contents for pack in packs)) if order.on_hand else 0.0,
            colour=colour,
        )
    return Offers(supplies=found, colours=colours)


def order_faults(resolved: ResolvedJob) -> tuple[Fault, ...]:
    """What is wrong with the skus and the colour of an order of the layers that take part."""
    return _checked(resolved, [layer.product for layer in resolved.layers.found or ()])[1].found


def _checked(resolved: ResolvedJob, products: Sequence[Product]) -> tuple[Colours, Faults]:
    faults = Faults()
    _check_skus(resolved.order, resolved.supply.catalogue, faults)
    return _colours(resolved.order.colour, products, faults), faults


class _Stock:
    """The caller's own prices and stock, by sku; a kit's follow from those of its parts."""

    def __init__(self, order: ResolvedOrder) -> None:
        self.offers: Mapping[str, Offer] = {offer.sku: offer for offer in order.offers}
        self.on_hand: Mapping[str, int] = {entry.sku: entry.packs for entry in order.on_hand}

    def prices(self, packs: Sequence[Pack], book: PriceBook) -> dict[str, Price]:
        """The caller's own price of each sku, if there is one, else the book's."""
        found = {}
        for pack in packs:
            for part in pack.ordered_as:
                offer = self.offers.get(part.sku)
                own = None if offer is None else offer.price
                price = book.prices.get(part.sku) if own is None else Price(price=own)
                if price is not None:
                    found[part.sku] = price
        return found

    def offered(self, pack: Pack, prices: Mapping[str, Price]) -> Offered:
        """A pack with its price and how many there are: of a kit, as many as of its scarcest part."""
        price = kit_price([prices.get(part.sku) for part in pack.parts]) if pack.parts else prices.get(pack.sku)
        available = self._available(pack) if self.offers else None
        return _make_offered(sku=pack.sku, contents=pack.contents, price=price, available=available)

    def _available(self, pack: Pack) -> int | None:
        """How many of a pack there are; None where the caller does not say of any part."""
        offers = [self.offers[part.sku] for part in pack.ordered_as if part.sku in self.offers]
        stated = [offer.available for offer in offers if offer.available is not None]
        return whole_kits(stated) if stated else None

    def kits_on_hand(self, pack: Pack) -> int:
        """How many whole packs are on hand: a part alone is no kit."""
        return whole_kits([self.on_hand.get(part.sku, 0) for part in pack.ordered_as])


def offer_remarks(order: ResolvedOrder, offers: Offers, catalogue: Catalogue) -> Iterator[Remark]:
    """The colour that is taken, and which colour, offers and stock this job has no use for."""
    known = offers.colours.known
    if order.colour is not None and not known:
        yield caution("colour-unused", "/order/colour", colour=order.colour)
    if order.colour is None and known:
        yield assumption("colour-first-listed", "/order/colour", known[0])
    asked = list(_asked_skus(order))
    packs = [pack for supplied in offers.supplies.values() for pack in supplied.packs] if asked else []
    used = {part.sku for pack in packs for part in pack.ordered_as}
    unused = [(sku, pointer) for sku, pointer in asked if sku not in used]
    listed = _known_skus(catalogue) if unused else {}
    for sku, pointer in unused:
        code = "offer-unused" if sku in listed else "offer-unknown"
        yield caution(code if pointer.startswith("/order/offers") else "stock-unused", pointer, sku=sku)
    yield from _parts_alone(order, packs)


def _parts_alone(order: ResolvedOrder, packs: Sequence[Pack]) -> Iterator[Remark]:
    """What is on hand of a kit's part without the others."""
    stock = _Stock(order)
    kits = {part.sku: pack for pack in packs for part in pack.parts}
    for index, entry in enumerate(order.on_hand):
        pack = kits.get(entry.sku)
        alone = 0 if pack is None else entry.packs - stock.kits_on_hand(pack)
        if pack is not None and alone > 0:
            pointer = f"/order/on_hand/{index}/packs"
            yield caution("parts-without-the-rest", pointer, sku=entry.sku, count=alone, kit=pack.sku)


def _asked_skus(order: ResolvedOrder) -> Iterator[tuple[str, str]]:
    """Each sku that the job names, and where."""
    for index, offer in enumerate(order.offers):
        yield offer.sku, f"/order/offers/{index}/sku"
    for index, entry in enumerate(order.on_hand):
        yield entry.sku, f"/order/on_hand/{index}/sku"


def _check_skus(order: ResolvedOrder, catalogue: Catalogue, faults: Faults) -> None:
    """Stock of an unknown sku would leave the truck short; an offer of one changes nothing, and is a caution."""
    if not order.on_hand:
        return
    known = _known_skus(catalogue)
    for index, entry in enumerate(order.on_hand):
        if entry.sku not in known:
            faults.add(f"/order/on_hand/{index}/sku", UnknownName("sku", seen=entry.sku, known=known))


def _known_skus(catalogue: Catalogue) -> dict[str, None]:
    return dict.fromkeys([sku for product in catalogue.products.values() for sku in product.skus])


def _colours(asked: str | None, products: Sequence[Product], faults: Faults) -> Colours:
    """The colour of each product: the one asked for, else the first in which all coloured products come."""
    palettes = {product.code: palette for product in products if (palette := _palette(product))}
    if not palettes:
        return Colours(by_product={}, known=())
    first = next(iter(palettes.values()))
    shared = [colour for colour in first if all(colour in each for each in palettes.values())]
    known = shared or list(dict.fromkeys(colour for palette in palettes.values() for colour in palette))
    if asked is not None and asked not in known:
        faults.add("/order/colour", UnknownName("colour", seen=asked, known=known))
    chosen = known[0] if asked is None else asked
    by_product = {code: chosen if chosen in palette else palette[0] for code, palette in palettes.items()}
    return Colours(by_product=by_product, known=tuple(known))


def _palette(product: Product) -> tuple[str, ...]:
    return tuple(dict.fromkeys([pack.colour for pack in product.packs if pack.colour is not None]))
