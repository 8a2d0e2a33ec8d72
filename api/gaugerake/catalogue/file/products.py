"""Reading products and their packs."""

from __future__ import annotations

from gaugerake.catalogue.file import ranges
from gaugerake.catalogue.file.curves import minutes
from gaugerake.catalogue.file.known import KnownProducts
from gaugerake.catalogue.file.nodes import Node
from gaugerake.catalogue.file.packs import read_packs
from gaugerake.catalogue.file.read import (
    Table,
    any_items,
    choice,
    code,
    description,
    items,
    limits,
    measure,
    name_of,
    number,
)
from gaugerake.catalogue.file.yields import mix_yield
from gaugerake.floor.product import CountedIn, Hazard, Product, Storage
from gaugerake.floor.values.range import Limits

_REQUIRED = ("code", "name", "counted_in", "packs")
_ANY = ("mixing", "temperatures", "humidity", "store", "hazards")
_WET = ("open_time", "pot_life", "pour_within", "roll_within")
_OWN_KEYS = {
    CountedIn.MIX: (*_WET, "yield"),
    CountedIn.LIQUID: (*_WET, "volume_solids_percent", "wet_film", "smallest_batch"),
    CountedIn.MASS: (),
    CountedIn.PIECE: (),
}
_ALL_OWN = tuple(dict.fromkeys(key for keys in _OWN_KEYS.values() for key in keys))
_temperature = measure(ranges.TEMPERATURE)
_humidity = number(0, 100)


def read_products(node: Node, currency: str) -> KnownProducts:
    """All products of a catalogue."""
    known = KnownProducts(currency=currency)
    for item in items(node):
        _product(item, known)
    return known


def _product(node: Node, known: KnownProducts) -> None:
    table = Table(node, required=_REQUIRED, optional=(*_ANY, *_ALL_OWN))
    name = table.read("code", code, "")
    counted_in = table.read("counted_in", choice(CountedIn), None)
    if counted_in is None:
        known.doubtful.add(name)
    else:
        _own_keys_only(table, counted_in)
    counted = counted_in or CountedIn.PIECE
    title = table.read("name", name_of, "")
    packs = table.read("packs", lambda place: read_packs(place, title, counted_in, known), ())
    product = _filled(table, Product(code=name, name=title, counted_in=counted, packs=packs))
    if name in known.products:
        table.fault("code", f'there is a product "{name}" before this one: each needs a code of its own')
    elif name:
        known.products[name] = product
        known.places[name] = node


def _own_keys_only(table: Table, counted_in: CountedIn) -> None:
    for key in _ALL_OWN:
        if key in table and key not in _OWN_KEYS[counted_in]:
            rightly = " or ".join(kind for kind, keys in _OWN_KEYS.items() if key in keys)
            table.fault(key, f"{key} is for what is counted in {rightly}, and this in {counted_in}: leave it out")


def _filled(table: Table, bare: Product) -> Product:
    mixing = table.read("mixing", _mixing, (None, None))
    return Product(
        code=bare.code,
        name=bare.name,
        counted_in=bare.counted_in,
        packs=bare.packs,
        yield_m3=table.read("yield", mix_yield, None),
        mixing_s=mixing[0],
        mixing_note=mixing[1],
        pour_within_s=table.read("pour_within", measure(ranges.MINUTES), bare.pour_within_s),
        roll_within_s=table.read("roll_within", measure(ranges.MINUTES), bare.roll_within_s),
        open_time=table.read("open_time", minutes, None),
        pot_life=table.read("pot_life", minutes, None),
        temperature_k=table.read("temperatures", limits(_temperature), Limits()),
        humidity_percent=table.read("humidity", limits(_humidity), Limits()),
        store=table.read("store", _store, None),
        hazards=table.read("hazards", _hazards, ()),
        volume_solids_fraction=_fraction(table.read("volume_solids_percent", number(0, 100, above=True), None)),
        wet_film_m=table.read("wet_film", limits(measure(ranges.FILM)), Limits()),
        smallest_batch=table.read("smallest_batch", measure(ranges.BATCH), None),
    )


def _fraction(percent: float | None) -> float | None:
    return None if percent is None else percent / 100


def _mixing(node: Node) -> tuple[float | None, str | None]:
    table = Table(node, optional=("minutes", "note"))
    spent = table.read("minutes", number(0, 120, above=True), None)
    return None if spent is None else spent * 60, table.read("note", description, None)


def _store(node: Node) -> Storage:
    table = Table(node, optional=("low", "high", "condition", "shelf_life"))
    low, high = (table.read(key, _temperature, None) for key in ("low", "high"))
    if low is not None and high is not None and low > high:
        node.fault("low is above high")
    return Storage(
        low_k=low,
        high_k=high,
        condition_s=table.read("condition", measure(ranges.STORAGE), None),
        shelf_life_s=table.read("shelf_life", measure(ranges.STORAGE), None),
    )


def _hazards(node: Node) -> tuple[Hazard, ...]:
    """The hazards that are listed; an empty list is the maker's word that there are none."""
    found = [choice(Hazard)(item) for item in any_items(node)]
    return tuple(dict.fromkeys(hazard for hazard in found if hazard))
