"""Products as an integrator needs them: packs with their prices, and what the maker says of their use."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated

from gaugerake.answers.systems.ranges import Bounds, StatedRange, TimeRow, bounds_of, figure_of, rows_of, stated_range
from gaugerake.floor.packs.kit import kit_price
from gaugerake.floor.product import CountedIn, Hazard, Pack, Price, PriceBook, Product, StockItem
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBreak:
    """What each pack costs when so many of the sku are bought."""

    from_packs: Annotated[int, "So many or more."]
    price: Annotated[Decimal, "Of each pack, in the catalogue's currency."]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOnSale:
    """One part of a kit, which is ordered by its own sku."""

    sku: Annotated[str, "By which the part is ordered."]
    description: Annotated[Named, "What the part is, for people."]
    unit_code: Annotated[str, "UN/ECE Recommendation 20 or 21."]
    weight: Annotated[Figure | None, "Shipping weight."]
    price: Annotated[Decimal | None, "In the catalogue's currency; null when it has no price."]
    breaks: Annotated[
        tuple[PriceBreak, ...],
        "Lower prices for more of the part, the smallest count first; empty where there are none.",
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class PackOnSale:
    """One thing that can be put on the truck: what has a sku, or a kit of parts that have one each."""

    sku: Annotated[str | None, "Null for a kit."]
    kit: Annotated[str | None, "The skus of a kit's parts, as order lines name it; null for what has a sku."]
    description: Annotated[Named, "For people: product, colour and contents."]
    contents: Annotated[Figure, "What one pack holds: mixes, a volume, a mass or pieces, as the product is counted."]
    contents_text: Annotated[str, "As the maker writes it."]
    unit_code: Annotated[str, "UN/ECE Recommendation 20 or 21."]
    weight: Annotated[Figure | None, "Shipping weight; of a kit, of all its parts."]
    colour: Annotated[str | None, "Null where the product comes in none."]
    price: Annotated[
        Decimal | None, "In the catalogue's currency; of a kit, of all its parts. Null when one has no price."
    ]
    breaks: Annotated[
        tuple[PriceBreak, ...], "Lower prices for more packs, the smallest count first; empty where there are none."
    ]
    parts: Annotated[tuple[PartOnSale, ...], "Of a kit, two or more; each is an order line of its own. Else empty."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Storage:
    """How a product is kept and brought to temperature."""

    temperature: Annotated[Bounds | None, "Of the place that it is kept in; null where none is stated."]
    condition: Annotated[Figure | None, "How long it stands at working temperature before it is mixed."]
    shelf_life: Annotated[Figure | None, "In closed packs."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductForSale:
    """A product, what its maker says of it, and its packs. Null is: not stated."""

    code: Annotated[str, "By which layers and order lines name it."]
    name: Annotated[Named, "What people call it."]
    counted_in: Annotated[
        CountedIn, "What its needs and packs are figures of: whole mixes, a volume, a mass or pieces."
    ]
    yield_of_mix: Annotated[StatedRange | None, "Volume that one mix makes."]
    mixing: Annotated[Figure | None, "How long a mix is mixed."]
    mixing_note: Annotated[Named | None, "How its maker wants it mixed."]
    pour_within: Annotated[Figure, "From the end of mixing to the pour."]
    roll_within: Annotated[Figure, "From placing to the roller."]
    open_time: Annotated[tuple[TimeRow, ...] | None, "How long it can be worked after placing."]
    pot_life: Annotated[tuple[TimeRow, ...] | None, "How long a batch can be used after mixing."]
    temperature: Annotated[Bounds | None, "Of the floor, while it is placed and while it cures."]
    humidity: Annotated[Bounds | None, "Of the air, while it is placed."]
    volume_solids: Annotated[Figure | None, "What of the wet film stays when it is dry."]
    wet_film: Annotated[Bounds | None, "What one coat may be."]
    smallest_batch: Annotated[Figure | None, "The least that is mixed at once."]
    storage: Annotated[Storage | None, "How it is to be kept until it is used."]
    hazards: Annotated[tuple[Hazard, ...], "What of it can harm people; the cautions of an answer tell each."]
    colours: Annotated[tuple[str, ...], "Those that order.colour may name; the first is taken unless one is named."]
    packs: Annotated[tuple[PackOnSale, ...], "What it is sold in, in the order of the catalogue."]


def product_for_sale(product: Product, book: PriceBook) -> ProductForSale:
    """A product with the prices of ``book``."""
    kind = product.counted_in.figure_kind
    solids = product.volume_solids_fraction
    return ProductForSale(
        code=product.code,
        name=product.name,
        counted_in=product.counted_in,
        yield_of_mix=stated_range(product.yield_m3, Kind.VOLUME),
        mixing=figure_of(product.mixing_s, Kind.MINUTES),
        mixing_note=product.mixing_note,
        pour_within=Figure(product.pour_within_s, Kind.MINUTES),
        roll_within=Figure(product.roll_within_s, Kind.MINUTES),
        open_time=rows_of(product.open_time, Kind.MINUTES),
        pot_life=rows_of(product.pot_life, Kind.MINUTES),
        temperature=bounds_of(product.temperature_k, Kind.TEMPERATURE),
        humidity=bounds_of(product.humidity_percent, Kind.PERCENT),
        volume_solids=None if solids is None else Figure(solids * 100, Kind.PERCENT),
        wet_film=bounds_of(product.wet_film_m, Kind.FILM),
        smallest_batch=figure_of(product.smallest_batch, kind),
        storage=_storage(product),
        hazards=product.hazards,
        colours=tuple(dict.fromkeys(pack.colour for pack in product.packs if pack.colour)),
        packs=tuple(_pack(pack, kind, book) for pack in product.packs),
    )


def _storage(product: Product) -> Storage | None:
    store = product.store
    if store is None:
        return None
    temperature = None
    if store.low_k is not None or store.high_k is not None:
        temperature = Bounds(
            low=figure_of(store.low_k, Kind.TEMPERATURE), high=figure_of(store.high_k, Kind.TEMPERATURE)
        )
    return Storage(
        temperature=temperature,
        condition=figure_of(store.condition_s, Kind.DURATION),
        shelf_life=figure_of(store.shelf_life_s, Kind.DAYS),
    )


def _pack(pack: Pack, kind: Kind, book: PriceBook) -> PackOnSale:
    price = kit_price([book.prices.get(part.sku) for part in pack.ordered_as])
    return PackOnSale(
        sku=None if pack.parts else pack.sku,
        kit=pack.kit,
        description=pack.description,
        contents=Figure(pack.contents, kind),
        contents_text=pack.contents_text,
        unit_code=pack.unit_code,
        weight=figure_of(pack.weight_kg, Kind.MASS),
        colour=pack.colour,
        price=price.price if price else None,
        breaks=_breaks(price),
        parts=tuple(_part(part, book.prices.get(part.sku)) for part in pack.parts),
    )


def _part(part: StockItem, price: Price | None) -> PartOnSale:
    return PartOnSale(
        sku=part.sku,
        description=part.description,
        unit_code=part.unit_code,
        weight=figure_of(part.weight_kg, Kind.MASS),
        price=price.price if price else None,
        breaks=_breaks(price),
    )


def _breaks(price: Price | None) -> tuple[PriceBreak, ...]:
    steps = price.breaks if price else ()
    return tuple(PriceBreak(from_packs=step.from_count, price=step.price) for step in steps)
