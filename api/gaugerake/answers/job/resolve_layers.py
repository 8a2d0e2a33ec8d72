"""Which layers of the system take part.

Decisions:

* ``optional_layers`` takes an id, or a kind that means one optional layer. Naming a layer that is not optional is
  harmless. An optional broadcast without its optional holder is refused.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.remarks import assumption
from gaugerake.answers.job.taken import Origin, Taken
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.values.errors import NotHeld, UnknownName


def resolve_layers(layers: tuple[Layer, ...], named: tuple[str, ...] | None) -> Taken[tuple[Layer, ...]]:
    """The system's ``layers`` less the optional ones that nobody ``named``."""
    optional = [layer for layer in layers if layer.optional]
    faults: list[Fault] = []
    chosen: set[str] = set()
    for number, name in enumerate(named or ()):
        found = layer_named(layers, name)
        if found is None:
            error = UnknownName("optional_layers", seen=name, known=[layer.id for layer in optional])
            faults.append(Fault(f"/order/optional_layers/{number}", error))
        else:
            chosen.add(found.id)
    taken = tuple(layer for layer in layers if not layer.optional or layer.id in chosen)
    faults += _unheld(layers, named or (), taken)
    unsaid = named is None and bool(optional)
    remarks = (assumption("no-optional-layers", "/order/optional_layers", None),) if unsaid else ()
    return Taken(taken, Origin.ASKED if named is not None else Origin.CATALOGUE, remarks, tuple(faults))


def layer_named(layers: Sequence[Layer], name: str) -> Layer | None:
    """The layer of this id, else the one optional layer of this kind, else the one layer of it."""
    for pool in (
        [layer for layer in layers if layer.id == name],
        [layer for layer in layers if layer.kind == name and layer.optional],
        [layer for layer in layers if layer.kind == name],
    ):
        if pool:
            return pool[0] if len(pool) == 1 else None
    return None


def _unheld(layers: Sequence[Layer], named: Sequence[str], taken: Sequence[Layer]) -> Iterator[Fault]:
    """A fault for each chosen broadcast whose optional holder, the layer before it, is not chosen."""
    work = [layer for layer in layers if layer.laid is not Laid.BESIDE]
    ids = {layer.id for layer in taken}
    for holder, layer in pairwise(work):
        if layer.laid is Laid.INTO and layer.id in ids and holder.id not in ids:
            place = next(place for place, name in enumerate(named) if layer_named(layers, name) is layer)
            error = NotHeld("optional_layers", layer=layer.id, holder=holder.id)
            yield Fault(f"/order/optional_layers/{place}", error)
