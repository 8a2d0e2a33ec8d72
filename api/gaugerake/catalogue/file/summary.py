"""What a catalogue holds, in lines for people."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from gaugerake.catalogue.file.format import Loaded, load_text
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.packs.kit import kit_price
from gaugerake.floor.product import Pack, Price, Product
from gaugerake.floor.system import System


def summary(revision: str, text: str) -> list[str]:
    """The catalogue of a text that was read before."""
    return list(_lines(revision, load_text(text)))


def _lines(revision: str, loaded: Loaded) -> Iterator[str]:
    catalogue = loaded.catalogue
    yield catalogue.title
    yield f"revision {revision}"
    yield f"{'invented data' if catalogue.invented else 'real data'}; prices in {catalogue.currency}"
    yield f"quotes hold {catalogue.valid_days} days"
    for system in catalogue.systems.values():
        yield from ("", *_system(system))
    yield from ("", "Products")
    for product in catalogue.products.values():
        yield f"  {product.code}: {product.name}, counted in {product.counted_in}"
        yield from _packs(product, loaded.list_book.prices)


def _system(system: System) -> Iterator[str]:
    yield f"{system.code}: {system.name}"
    yield from (_layer(layer) for layer in system.layers)
    if system.returns:
        yield f"  traffic: {', '.join(entry.traffic for entry in system.returns)}"


def _layer(layer: Layer) -> str:
    optional = ", optional" if layer.optional else ""
    name = "" if layer.name == layer.product.name else f" ({layer.name})"
    return f"  {layer.id}: {layer.product.name}{name}{optional}"


def _packs(product: Product, prices: Mapping[str, Price]) -> Iterator[str]:
    for pack in product.packs:
        listed = kit_price([prices.get(part.sku) for part in pack.ordered_as])
        yield f"    {_pack(pack)}: {_price(listed)}"
        for part in pack.parts:
            yield f"      {part.sku}, {part.description} ({part.unit_code}): {_price(prices.get(part.sku))}"


def _pack(pack: Pack) -> str:
    return ", ".join(part for part in (pack.sku, pack.colour, f"{pack.contents_text} ({pack.unit_code})") if part)


def _price(price: Price | None) -> str:
    if price is None:
        return "no price"
    return "; ".join([f"{price.price}", *(f"{step.price} from {step.from_count}" for step in price.breaks)])
