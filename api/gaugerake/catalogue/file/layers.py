"""Reading the layers of a system, in the order of the work."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from gaugerake.catalogue.file import ranges
from gaugerake.catalogue.file.curves import hours, minutes
from gaugerake.catalogue.file.nodes import Entries, Node, Scalar
from gaugerake.catalogue.file.products import Shelf
from gaugerake.catalogue.file.read import NAN, Table, choice, code, integer, items, measure, number, text, triple, truth
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.sundry import SundryBasis, SundryLayer
from gaugerake.floor.product import CountedIn, Product
from gaugerake.floor.values.range import Triple

_COMMON = ("id", "name", "optional", "cure", "recoat_closes")
_NO_RATE = Triple(low=NAN, likely=NAN, high=NAN)
_UNKNOWN = Product(code="", name="", counted_in=CountedIn.PIECE, packs=())


class Placed(NamedTuple):
    """A layer and its place in the file."""

    node: Node
    layer: Layer


class _Form(NamedTuple):
    """What a kind of layer takes: a product of one counting, keys of its own, and the reader of those."""

    made: type[Layer]
    counted_in: CountedIn
    required: tuple[str, ...]
    optional: tuple[str, ...]
    own: Callable[[Table, Shelf], Mapping[str, Any]]


def read_layers(node: Node, shelf: Shelf) -> tuple[list[Placed], bool]:
    """The layers that could be read, and whether that is all of them."""
    places = items(node)
    kinds = [_kind(place) for place in places]
    ids = _ids(kinds)
    placed = [
        Placed(place, _layer(place, kind, layer_id, shelf))
        for place, kind, layer_id in zip(places, kinds, ids, strict=True)
        if kind
    ]
    _unique(placed)
    return placed, bool(placed) and None not in kinds


def _kind(node: Node) -> str | None:
    entry = node.entries.get("layer") if isinstance(node, Entries) else None
    words = entry.text if isinstance(entry, Scalar) else ""
    if words in _FORMS:
        return words
    if entry is None:
        node.fault(f"write which layer this is: layer: {', '.join(_FORMS)}")
    else:
        entry.fault(f'"{words[:40]}" is no kind of layer. {entry.nearest(words, _FORMS)}')
    return None


def _ids(kinds: list[str | None]) -> list[str]:
    """The kind of each layer, numbered where it repeats."""
    counts, seen, ids = Counter(kinds), Counter[str | None](), []
    for kind in kinds:
        seen[kind] += 1
        ids.append(f"{kind}-{seen[kind]}" if counts[kind] > 1 else f"{kind}")
    return ids


def _layer(node: Node, kind: str, layer_id: str, shelf: Shelf) -> Layer:
    form = _FORMS[kind]
    table = Table(node, required=("layer", "product", *form.required), optional=(*_COMMON, *form.optional))
    product = table.read("product", lambda place: _product(place, kind, form.counted_in, shelf), _UNKNOWN)
    return form.made(
        id=table.read("id", code, layer_id),
        name=table.read("name", text, product.name),
        product=product,
        optional=table.read("optional", truth, False),
        cure=table.read("cure", hours, None),
        recoat_closes=table.read("recoat_closes", hours, None),
        **form.own(table, shelf),
    )


def _product(node: Node, kind: str, counted_in: CountedIn, shelf: Shelf) -> Product:
    name = node.text if isinstance(node, Scalar) else ""
    product = shelf.products.get(name)
    if product is None:
        node.fault(f'there is no product "{name[:40]}". {node.nearest(name, shelf.products)}')
        return _UNKNOWN
    if name in shelf.doubtful:
        return product
    if product.counted_in is not counted_in:
        node.fault(f'a {kind} takes a product counted in {counted_in}; "{name}" is counted in {product.counted_in}')
    elif counted_in is CountedIn.MIX and product.yield_m3 is None:
        shelf.doubtful.add(name)
        shelf.places[name].fault(f"yield is missing, as the {kind} on line {node.line} counts mixes by their volume")
    return product


def _unique(placed: list[Placed]) -> None:
    seen: dict[str, int] = {}
    for node, layer in placed:
        if layer.id in seen:
            node.fault(f'the id "{layer.id}" stands already on line {seen[layer.id]}: give this layer another id')
        seen.setdefault(layer.id, node.line)


def _nothing(_table: Table, _shelf: Shelf) -> Mapping[str, Any]:
    return {}


def _cove(table: Table, _shelf: Shelf) -> Mapping[str, Any]:
    return {
        "thickness_m": table.read("thickness", measure(ranges.COVE_THICKNESS), NAN),
        "radius_m": table.read("radius", measure(ranges.COVE_RADIUS), NAN),
    }


def _rolled(table: Table, _shelf: Shelf) -> Mapping[str, Any]:
    return {"spreading_rate_m2_m3": table.read("spreading_rate", triple(ranges.SPREADING_RATE), _NO_RATE)}


def _body(table: Table, _shelf: Shelf) -> Mapping[str, Any]:
    return {
        "share_fraction": table.read("share", number(0, 1, above=True), 1.0),
        "broadcast_wait": table.read("broadcast_wait", minutes, None),
    }


def _broadcast(table: Table, _shelf: Shelf) -> Mapping[str, Any]:
    rate = table.read("rate", triple(ranges.BROADCAST_RATE), _NO_RATE)
    retained = table.read("retained", measure(ranges.BROADCAST_RATE), None)
    if retained is not None and retained > rate.likely:
        table.fault("retained", "more is retained than is cast: it is what stays of the likely rate")
    return {"rate_kg_m2": rate, "retained_kg_m2": retained}


def _sundry(table: Table, shelf: Shelf) -> Mapping[str, Any]:
    if ("per" in table) == ("covers" in table):
        table.node.fault("a sundry is counted one way: write covers: 600 ft2, or per: {product: body, count: 1}")
    if "per" in table and "of" in table:
        table.fault("of", "of goes with covers; per says already what is counted")
    if "per" in table:
        return table.read("per", lambda node: _per(node, shelf), {"basis": SundryBasis.PRODUCT})
    basis = table.read("of", choice(SundryBasis), SundryBasis.AREA)
    if basis is SundryBasis.PRODUCT:
        table.fault("of", "write per: {product: body, count: 1} to count by the mixes of a product")
        basis = None
    if basis is None:
        return {"basis": SundryBasis.AREA}
    span = ranges.COVERED_AREA if basis is SundryBasis.AREA else ranges.COVERED_LENGTH
    return {"basis": basis, "covers": table.read("covers", measure(span), None)}


def _per(node: Node, shelf: Shelf) -> Mapping[str, Any]:
    table = Table(node, required=("product", "count"))
    product = table.read("product", lambda place: _product(place, "count per mix", CountedIn.MIX, shelf), _UNKNOWN)
    count = table.read("count", integer(1, 1000), None)
    return {"basis": SundryBasis.PRODUCT, "per_product": product.code, "count": float(count or 1)}


_FORMS: Mapping[str, _Form] = {
    made.kind: _Form(made, counted_in, required, optional, own)
    for made, counted_in, required, optional, own in (
        (RepairLayer, CountedIn.MIX, (), (), _nothing),
        (CoveLayer, CountedIn.MIX, ("thickness", "radius"), (), _cove),
        (PrimerLayer, CountedIn.LIQUID, ("spreading_rate",), (), _rolled),
        (BodyLayer, CountedIn.MIX, (), ("share", "broadcast_wait"), _body),
        (BroadcastLayer, CountedIn.MASS, ("rate",), ("retained",), _broadcast),
        (CoatLayer, CountedIn.LIQUID, ("spreading_rate",), (), _rolled),
        (JointLayer, CountedIn.LIQUID, (), (), _nothing),
        (SundryLayer, CountedIn.PIECE, (), ("covers", "of", "per"), _sundry),
    )
}
