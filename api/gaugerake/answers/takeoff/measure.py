"""The job measured off: its rooms, and what each layer needs. Called as ``context.shared(take_off)``."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from gaugerake.answers.job import assume
from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Faults
from gaugerake.answers.takeoff.cautions import caution_films, caution_missing_layers
from gaugerake.answers.takeoff.rooms import gross_areas, measure_rooms
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.needs import layer_needs
from gaugerake.floor.layers.takeoff import BuildUp, Takeoff
from gaugerake.floor.values.errors import NotHeld, UnknownName

__all__ = ["gross_areas", "take_off"]


def take_off(context: Context) -> Takeoff:
    """Measure the job's rooms and layers.

    Raises
    ------
    Refused
        With every fault of the rooms, the thickness and the optional layers.
    """
    faults = Faults()
    layers = _layers(context, faults)
    rooms = measure_rooms(context, layers, faults)
    faults.raise_any()
    system = context.system
    build = BuildUp(
        rooms=rooms,
        layers=layers,
        waste_fraction=assume.waste_fraction(context),
        keyway=system.keyway,
        profile_allowance=system.profile_allowance,
    )
    caution_missing_layers(context, layers)
    needs = layer_needs(build=build)
    caution_films(context, needs)
    return Takeoff(rooms=rooms, layers=needs, build=build)


def _layers(context: Context, faults: Faults) -> tuple[Layer, ...]:
    """The system's layers less the optional ones that nobody asked for."""
    layers, named = context.system.layers, context.job.order.optional_layers
    optional = [layer for layer in layers if layer.optional]
    if named is None and optional:
        context.record.assume("no-optional-layers", "/order/optional_layers", None)
    chosen = set[str]()
    for number, name in enumerate(named or ()):
        found = _named(layers, name)
        if found is None:
            known = [layer.id for layer in optional]
            faults.add(f"/order/optional_layers/{number}", UnknownName("optional_layers", seen=name, known=known))
        else:
            chosen.add(found.id)
    taken = tuple(layer for layer in layers if not layer.optional or layer.id in chosen)
    _check_broadcasts(context, named or (), taken, faults)
    return taken


def _check_broadcasts(context: Context, named: Sequence[str], taken: tuple[Layer, ...], faults: Faults) -> None:
    """A broadcast is cast into the layer before it: where both are optional, the one is not had without the other."""
    work = [layer for layer in context.system.layers if layer.laid is not Laid.BESIDE]
    for holder, layer in pairwise(work):
        if layer.laid is Laid.INTO and layer in taken and holder not in taken:
            place = next(place for place, name in enumerate(named) if _named(context.system.layers, name) is layer)
            error = NotHeld("optional_layers", layer=layer.id, holder=holder.id)
            faults.add(f"/order/optional_layers/{place}", error)


def _named(layers: tuple[Layer, ...], name: str) -> Layer | None:
    """The layer of this id, else the one optional layer of this kind, else the one layer of it."""
    for pool in (
        [layer for layer in layers if layer.id == name],
        [layer for layer in layers if layer.kind == name and layer.optional],
        [layer for layer in layers if layer.kind == name],
    ):
        if pool:
            return pool[0] if len(pool) == 1 else None
    return None
