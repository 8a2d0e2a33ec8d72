"""What to beware of in a takeoff: what the job asks and the system does not do, and films and batches that misfit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from gaugerake.answers.job import assume
from gaugerake.answers.job.context import Context
from gaugerake.floor.cure.curve import time_at
from gaugerake.floor.job import Joint, JointKind, Room
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.film import spreading_time
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.rounding import GUARD


def caution_missing_layers(context: Context, layers: tuple[Layer, ...]) -> None:
    """Say what the job asks for that no layer does, and what an optional layer would do."""
    for kind, what, pointer in _asked(context):
        if any(isinstance(layer, kind) for layer in layers):
            continue
        optional = next((layer for layer in context.system.layers if isinstance(layer, kind)), None)
        if optional is None:
            context.record.caution(f"no-layer-for-{what}", pointer)
        else:
            context.record.caution(f"layer-not-chosen-for-{what}", pointer, layer=optional.id)


def caution_films(context: Context, needs: Iterable[LayerNeed]) -> None:
    """Say which likely films are too thin or thick, and which batches set before they are spread."""
    for need in needs:
        if need.wet_film_m is not None:
            _caution_film(context, need, need.wet_film_m)
        if isinstance(need.layer, PrimerLayer | CoatLayer):
            _caution_pot_life(context, need.layer)


def _asked(context: Context) -> Iterator[tuple[type[Layer], str, str]]:
    """Each thing that the job asks: the kind of layer that does it, a word for it, and where it is asked."""
    if context.job.thickness_m is not None:
        yield BodyLayer, "thickness", "/thickness"
    for index, room in enumerate(context.job.rooms):
        for kind, what, field in _asked_of(room):
            yield kind, what, f"/rooms/{index}/{field}"


def _asked_of(room: Room) -> Iterator[tuple[type[Layer], str, str]]:
    if room.thickness_m is not None:
        yield BodyLayer, "thickness", "thickness"
    if room.cove is not None:
        yield CoveLayer, "cove", "cove"
    if room.cracks:
        yield RepairLayer, "cracks", "cracks"
    if room.spalls:
        yield RepairLayer, "spalls", "spalls"
    if any(joint.kind is not JointKind.CONTRACTION for joint in room.joints or ()):
        yield JointLayer, "joints", "joints"
    if any(map(_filled, room.joints or ())):
        yield RepairLayer, "filled-joints", "joints"


def _filled(joint: Joint) -> bool:
    return joint.kind is JointKind.CONTRACTION and joint.width_m is not None and joint.depth_m is not None


def _caution_film(context: Context, need: LayerNeed, film_m: float) -> None:
    limits, film = need.layer.product.wet_film_m, Figure(film_m, "film")
    if limits.low is not None and film_m < limits.low * (1 - GUARD):
        context.record.caution("wet-film-thin", layer=need.layer.name, film=film, limit=Figure(limits.low, "film"))
    if limits.high is not None and film_m > limits.high * (1 + GUARD):
        context.record.caution("wet-film-thick", layer=need.layer.name, film=film, limit=Figure(limits.high, "film"))


def _caution_pot_life(context: Context, layer: PrimerLayer | CoatLayer) -> None:
    """Only of what is mixed by the batch: what is measured out is mixed as it is spread."""
    batch, curve = layer.product.smallest_batch, layer.product.pot_life
    if batch is None or curve is None:
        return
    temperature = assume.material_temperature(context)
    spread_s = spreading_time(
        batch_m3=batch,
        spreading_rate_m2_m3=layer.spreading_rate_m2_m3.likely,
        coating_rate_m2_s=assume.coating_rate(context),
    )
    life_s = time_at(curve, temperature_k=temperature, column="low")
    if spread_s > life_s * (1 + GUARD):
        context.record.caution(
            "batch-outlives-pot-life",
            layer=layer.name,
            batch=Figure(batch, "liquid"),
            spread=Figure(spread_s, "minutes"),
            life=Figure(life_s, "minutes"),
            temperature=Figure(temperature, "temperature"),
        )
