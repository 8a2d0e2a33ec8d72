"""What a catalogue holds, in lines for people."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from gaugerake.catalogue.file.format import Loaded, load_text
from gaugerake.catalogue.file.prices import price_line
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.packs.kit import kit_price
from gaugerake.floor.product import Pack, Price, Product
from gaugerake.floor.system import System


def summary(revision: str, text: str) -> list[str]:
    """What a catalogue holds, from a text that is known to be sound, in lines for people."""
    return list(_lines(revision, load_text(text)))


def summary_data(revision: str, text: str) -> dict[str, Any]:
    """What a catalogue holds, from a text that is known to be sound, as plain values for programs."""
    loaded = load_text(text)
    catalogue, prices = loaded.catalogue, loaded.list_book.prices
    return {
        "revision": revision,
        "title": catalogue.title,
        "invented": catalogue.invented,
        "currency": catalogue.currency,
        "valid_days": catalogue.valid_days,
        "systems": [_system_data(system) for system in catalogue.systems.values()],
        "products": [_product_data(product, prices) for product in catalogue.products.values()],
    }


def _system_data(system: System) -> dict[str, Any]:
    return {
        "code": system.code,
        "name": system.name,
        "layers": [
            {"id": layer.id, "layer": layer.kind, "product": layer.product.code, "optional": layer.optional}
            for layer in system.layers
        ],
        "traffic": [entry.traffic for entry in system.returns],
    }


def _product_data(product: Product, prices: Mapping[str, Price]) -> dict[str, Any]:
    packs = [
        {
            "contents": pack.contents_text,
            "colour": pack.colour,
            "sold_as": [
                {"sku": part.sku, "unit_code": part.unit_code, "price": price_data(prices.get(part.sku))}
                for part in pack.ordered_as
            ],
        }
        for pack in product.packs
    ]
    return {"code": product.code, "name": product.name, "counted_in": product.counted_in, "packs": packs}


def price_data(price: Price | None) -> dict[str, Any] | None:
    """A price and its breaks, for programs: money is text."""
    if price is None:
        return None
    breaks = [{"from": step.from_count, "price": str(step.price)} for step in price.breaks]
    return {"price": str(price.price), "breaks": breaks}


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
        yield f"    {_pack(pack)}: {price_line(listed)}"
        for part in pack.parts:
            yield f"      {part.sku}, {part.description} ({part.unit_code}): {price_line(prices.get(part.sku))}"


def _pack(pack: Pack) -> str:
    return ", ".join(part for part in (pack.sku, pack.colour, f"{pack.contents_text} ({pack.unit_code})") if part)
