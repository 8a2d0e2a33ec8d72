"""Reading the layers of a system, in the order of the work. What a kind takes, the kind says."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any, NamedTuple

from gaugerake.catalogue.file.curves import hours, minutes
from gaugerake.catalogue.file.examples import EXAMPLES
from gaugerake.catalogue.file.known import KnownProducts
from gaugerake.catalogue.file.nodes import Entries, Node, Scalar
from gaugerake.catalogue.file.ranges import AllowedRange
from gaugerake.catalogue.file.read import (
    NAN,
    Table,
    choice,
    code,
    integer,
    items,
    measure,
    name_of,
    number,
    triple,
    truth,
)
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.keys import (
    Form,
    Group,
    Key,
    Measure,
    Number,
    ProductCode,
    Ranged,
    Ready,
    Times,
    Whole,
    Word,
)
from gaugerake.floor.layers.kinds import KINDS
from gaugerake.floor.product import CountedIn, Product
from gaugerake.floor.values.figure import Kind
from gaugerake.floor.values.range import Triple
from gaugerake.measure.dimension import Dimension

_COMMON = ("id", "name", "optional", "cure", "recoat_closes")
_NO_RATE = Triple(low=NAN, likely=NAN, high=NAN)
_UNKNOWN = Product(code="", name="", counted_in=CountedIn.PIECE, packs=())


class LayerEntry(NamedTuple):
    """A layer and its place in the file."""

    node: Node
    layer: Layer


def read_layers(node: Node, known: KnownProducts) -> tuple[list[LayerEntry], bool]:
    """The layers that could be read, and whether that is all of them."""
    places = items(node)
    kinds = [_kind(place) for place in places]
    ids = _ids(kinds)
    placed = [
        LayerEntry(place, _layer(place, KINDS[kind], layer_id, known))
        for place, kind, layer_id in zip(places, kinds, ids, strict=True)
        if kind
    ]
    _unique(placed)
    return placed, bool(placed) and None not in kinds


def _kind(node: Node) -> str | None:
    entry = node.entries.get("layer") if isinstance(node, Entries) else None
    words = entry.text if isinstance(entry, Scalar) else ""
    if words in KINDS:
        return words
    if entry is None:
        node.fault(f"write which layer this is: layer: {', '.join(KINDS)}")
    else:
        entry.fault(f'"{words[:40]}" is no kind of layer. {entry.nearest(words, KINDS)}')
    return None


def _ids(kinds: list[str | None]) -> list[str]:
    """The kind of each layer, numbered where it repeats."""
    counts, seen, ids = Counter(kinds), Counter[str | None](), []
    for kind in kinds:
        seen[kind] += 1
        ids.append(f"{kind}-{seen[kind]}" if counts[kind] > 1 else f"{kind}")
    return ids


def _layer(node: Node, kind: type[Layer], layer_id: str, known: KnownProducts) -> Layer:
    required = [key.name for key in kind.keys if key.required]
    optional = [key.name for key in kind.keys if not key.required]
    examples = {**EXAMPLES, **{key.name: key.example for key in kind.keys if key.example}}
    table = Table(node, required=("layer", "product", *required), optional=(*_COMMON, *optional), examples=examples)
    product = table.read("product", lambda place: _product(place, kind.kind, kind.counted_in, known), _UNKNOWN)
    layer = kind(
        id=table.read("id", code, layer_id),
        name=table.read("name", name_of, product.name),
        product=product,
        optional=table.read("optional", truth, False),
        cure=table.read("cure", hours, None),
        recoat_closes=table.read("recoat_closes", hours, None),
        **kind.read(_Entry(table, known)),
    )
    for key, wrong in layer.faults():
        table.fault(key, wrong)
    return layer


def _product(node: Node, kind: str, counted_in: CountedIn, known: KnownProducts) -> Product:
    name = node.text if isinstance(node, Scalar) else ""
    product = known.products.get(name)
    if product is None:
        node.fault(f'there is no product "{name[:40]}". {node.nearest(name, known.products)}')
        return _UNKNOWN
    if name in known.doubtful:
        return product
    if product.counted_in is not counted_in:
        node.fault(f'a {kind} takes a product counted in {counted_in}; "{name}" is counted in {product.counted_in}')
    elif counted_in is CountedIn.MIX and product.yield_m3 is None:
        known.doubtful.add(name)
        known.places[name].fault(f"yield is missing, as the {kind} on line {node.line} counts mixes by their volume")
    return product


def _unique(placed: list[LayerEntry]) -> None:
    seen: dict[str, int] = {}
    for node, layer in placed:
        if layer.id in seen:
            node.fault(f'the id "{layer.id}" stands already on line {seen[layer.id]}: give this layer another id')
        seen.setdefault(layer.id, node.line)


class _Entry:
    """A layer's place in the file, as its kind reads it."""

    def __init__(self, table: Table, known: KnownProducts) -> None:
        self._table, self._known = table, known

    def __contains__(self, key: str) -> bool:
        return key in self._table

    def read(self, key: Key) -> Any:
        """The value of a key in the form that it has; what stands for a missing one is told already."""
        return self._table.read(key.name, _reader(key.form, self._known), _missing(key.form))

    def fault(self, key: str | None, text: str) -> None:
        """Tell what is wrong with the value of a key, or with the whole layer."""
        if key is None:
            self._table.node.fault(text)
        else:
            self._table.fault(key, text)


def _reader(form: Form, known: KnownProducts) -> Callable[[Node], Any]:
    """What reads a form of value."""
    match form:
        case Measure():
            return measure(_range(form))
        case Ranged():
            return triple(_range(form.each))
        case Number():
            return number(form.low, form.high, above=form.above)
        case Whole():
            return integer(form.low, form.high)
        case Times():
            return minutes if form.figure == Kind.MINUTES else hours
        case Word():
            return choice(form.words)
        case ProductCode():
            return lambda node: _product(node, form.taker, form.counted_in, known).code
        case Group():
            return lambda node: _group(node, form, known)
        case Ready():
            raise TypeError("a value that is made ready to be shown is never read")


def _missing(form: Form) -> Any:
    """What stands for the value of a key that is missing, of the type that its kind expects."""
    match form:
        case Measure() | Number():
            return NAN
        case Ranged():
            return _NO_RATE
        case ProductCode():
            return _UNKNOWN.code
        case _:
            return None


def _group(node: Node, form: Group, known: KnownProducts) -> Mapping[str, Any]:
    required = [key.name for key in form.keys if key.required]
    table = Table(node, required=required, optional=[key.name for key in form.keys if not key.required])
    if isinstance(node, Entries) and not node.entries and not required:
        node.fault(f"write one or more of these here: {', '.join(key.name for key in form.keys)}")
    return {
        key.field: table.read(key.name, _reader(key.form, known), _missing(key.form) if key.required else None)
        for key in form.keys
    }


@cache
def _range(form: Measure) -> AllowedRange:
    return AllowedRange(Dimension(form.dimension), form.low, form.high)
