"""Reading packs: one sku each, or a kit of parts that are counted together and have a sku each.

Decisions:

* A kit keeps ``contents``, ``unit_code``, ``colour`` and ``description``; what belongs to a sku (weight, price, breaks)
  stands with its parts. A sku belongs to one part alone: a part that two kits share is not known, as their choices
  would no longer be free of one another.
* Packs of one product of which one costs or weighs three times as much as another for the same contents are most
  likely the parts of one kit written as packs, which would be ordered in place of each other. That is a caution, not a
  fault: small packs are dear.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from gaugerake.catalogue.file import ranges
from gaugerake.catalogue.file.codes import DELETED, UNIT_CODES
from gaugerake.catalogue.file.known import KnownProducts
from gaugerake.catalogue.file.nodes import Entries, Node, Scalar
from gaugerake.catalogue.file.prices import price
from gaugerake.catalogue.file.ranges import AllowedRange
from gaugerake.catalogue.file.read import NAN, Table, items, measure, name_of, text
from gaugerake.floor.packs.kit import kit_price, kit_sku
from gaugerake.floor.product import CountedIn, Pack, StockItem
from gaugerake.floor.values.name import Contents, Joined, Named
from gaugerake.measure.dimension import Dimension

DIMENSIONS = {
    CountedIn.MIX: Dimension.MIX,
    CountedIn.LIQUID: Dimension.VOLUME,
    CountedIn.MASS: Dimension.MASS,
    CountedIn.PIECE: Dimension.PIECE,
}
"""What a pack's contents measure."""

MOST_PARTS = 20
_PACK = ("sku", "contents", "unit_code")
_PACK_MAY = ("weight", "price", "breaks", "colour", "description")
_KIT = ("parts", "contents", "unit_code")
_KIT_MAY = ("colour", "description")
_PART = ("sku", "unit_code")
_PART_MAY = ("description", "weight", "price", "breaks")
_OF_A_SKU = ("sku", "weight", "price", "breaks")
_FAR_APART = 3.0


def read_packs(node: Node, title: Named, counted_in: CountedIn | None, known: KnownProducts) -> tuple[Pack, ...]:
    """The packs of the product called ``title``."""
    places = items(node)
    packs = tuple(_pack(place, title, counted_in, known) for place in places)
    bare = [place for place, pack in zip(places, packs, strict=True) if pack.colour is None]
    if 0 < len(bare) < len(packs):
        bare[0].fault("some packs of this product have a colour and this one has none: say colour for all or none")
    _tell_far_apart(places, packs, known)
    return packs


def _pack(node: Node, title: Named, counted_in: CountedIn | None, known: KnownProducts) -> Pack:
    if isinstance(node, Entries) and "parts" in node.entries:
        return _kit(node, title, counted_in, known)
    table = Table(node, required=_PACK, optional=_PACK_MAY)
    written, contents, colour, plain = _common(table, title, counted_in)
    part = _part(table, plain, known)
    return Pack(
        sku=part.sku,
        contents=contents,
        contents_text=written,
        unit_code=part.unit_code,
        description=part.description,
        weight_kg=part.weight_kg,
        colour=colour,
    )


def _kit(node: Node, title: Named, counted_in: CountedIn | None, known: KnownProducts) -> Pack:
    table = Table(node, required=_KIT, optional=(*_KIT_MAY, *_OF_A_SKU))
    for key in _OF_A_SKU:
        if key in table:
            table.fault(key, f"a kit has no {key} of its own: leave it out here and write it for each of its parts")
    written, contents, colour, plain = _common(table, title, counted_in)
    parts = table.read("parts", lambda place: _parts(place, plain, known), ())
    weights = [part.weight_kg for part in parts]
    return Pack(
        sku=kit_sku([part.sku for part in parts]),
        contents=contents,
        contents_text=written,
        unit_code=table.read("unit_code", _unit_code, ""),
        description=table.read("description", name_of, plain),
        weight_kg=None if None in weights else math.fsum(weight for weight in weights if weight is not None),
        colour=colour,
        parts=parts,
    )


def _common(table: Table, title: Named, counted_in: CountedIn | None) -> tuple[str, float, str | None, Joined]:
    """Contents as written and as a value, the colour, and what the pack is called unless it is described."""
    written, contents = table.read("contents", _contents(counted_in), ("", NAN))
    colour = table.read("colour", lambda node: text(node, longest=40), None)
    return written, contents, colour, _plain(title, colour, written)


def _plain(title: Named, colour: str | None, written: str) -> Joined:
    """What is written of a pack, its product first."""
    return Joined(*(part for part in (title, colour, Contents(written)) if part))


def _parts(node: Node, plain: Joined, known: KnownProducts) -> tuple[StockItem, ...]:
    places = items(node)
    if len(places) == 1:
        places[0].fault("a kit has two parts or more: add the others, or write sku, weight and price in place of parts")
    if len(places) > MOST_PARTS:
        node.fault(f"a kit has {MOST_PARTS} parts at most")
    tables = [Table(place, required=_PART, optional=_PART_MAY) for place in places]
    return tuple(_part(table, plain, known, described=False) for table in tables)


def _part(table: Table, plain: Joined, known: KnownProducts, *, described: bool = True) -> StockItem:
    """What has a sku; ``described`` says whether ``plain`` describes it, or its sku must be added."""
    name = table.read("sku", known.new_sku, "")
    listed = price(table, known.currency)
    if name and listed:
        known.prices[name] = listed
    return StockItem(
        sku=name,
        description=table.read("description", name_of, plain if described else Joined(*plain.parts, name)),
        unit_code=table.read("unit_code", _unit_code, ""),
        weight_kg=table.read("weight", measure(ranges.WEIGHT), None),
    )


def _tell_far_apart(places: Sequence[Node], packs: Sequence[Pack], known: KnownProducts) -> None:
    """Tell of packs that cost or weigh so differently by their contents that they can hardly be the same."""
    priced = [kit_price([known.prices.get(part.sku) for part in pack.ordered_as]) for pack in packs]
    _tell_ratio("costs", places, packs, [None if listed is None else float(listed.price) for listed in priced])
    _tell_ratio("weighs", places, packs, [pack.weight_kg for pack in packs])


def _tell_ratio(verb: str, places: Sequence[Node], packs: Sequence[Pack], values: Iterable[float | None]) -> None:
    rows = zip(places, packs, values, strict=True)
    found = [(value / pack.contents, pack.sku, place) for place, pack, value in rows if value and pack.contents]
    least, most = min(found, key=_ratio, default=None), max(found, key=_ratio, default=None)
    if least and most and most[0] >= least[0] * _FAR_APART:
        most[2].caution(
            f"for the same contents {most[1]} {verb} {most[0] / least[0]:.3g} times as much as {least[1]}. If they are"
            " mixed together, write one pack with parts; if not, check the figures of both."
        )


def _ratio(row: tuple[float, str, Node]) -> float:
    return row[0]


def _contents(counted_in: CountedIn | None) -> Callable[[Node], tuple[str, float]]:
    def reader(node: Node) -> tuple[str, float]:
        if counted_in is None:
            return "", NAN
        value = measure(_span(counted_in))(node)
        if counted_in is CountedIn.PIECE and math.isfinite(value) and not value.is_integer():
            node.fault("pieces are whole")
        return node.text if isinstance(node, Scalar) else "", value

    return reader


def _span(counted_in: CountedIn) -> AllowedRange:
    return ranges.CONTENTS[DIMENSIONS[counted_in]]


def _unit_code(node: Node) -> str:
    words = node.text if isinstance(node, Scalar) else ""
    if words in UNIT_CODES:
        return words
    if words in DELETED:
        node.fault(f"{words} is deleted in UN/ECE Recommendation 20: write {DELETED[words]}")
    else:
        node.fault(
            f'"{words[:40]}" is no unit code of UN/ECE Recommendation 20 or 21. {node.nearest(words, UNIT_CODES)}'
        )
    return ""
