"""What to beware of in a takeoff: what the job asks and the system does not do, and films and batches that misfit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from gaugerake.answers.job import assume
from gaugerake.answers.job.context import Context
from gaugerake.floor.cure.curve import time_at
from gaugerake.floor.job import Joint, JointKind, Room
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Asked
from gaugerake.floor.layers.film import spreading_time
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import GUARD


def caution_missing_layers(context: Context, layers: tuple[Layer, ...]) -> None:
    """Say what the job asks for that no layer does, and what an optional layer would do."""
    for what, pointer in _asked(context):
        if any(what in layer.does for layer in layers):
            continue
        optional = next((layer for layer in context.system.layers if what in layer.does), None)
        if optional is None:
            context.record.caution(f"no-layer-for-{what}", pointer)
        else:
            context.record.caution(f"layer-not-chosen-for-{what}", pointer, layer=optional.id)


def caution_films(context: Context, needs: Iterable[LayerNeed]) -> None:
    """Say which likely films are too thin or thick, and which batches set before they are spread."""
    for need in needs:
        if need.wet_film_m is not None:
            _caution_film(context, need, need.wet_film_m)
        if need.layer.film_rate is not None:
            _caution_pot_life(context, need.layer, need.layer.film_rate)


def _asked(context: Context) -> Iterator[tuple[Asked, str]]:
    """Each thing that the job asks of a layer, and where it is asked."""
    if context.job.thickness_m is not None:
        yield Asked.THICKNESS, "/thickness"
    for index, room in enumerate(context.job.rooms):
        for what, field in _asked_of(room):
            yield what, f"/rooms/{index}/{field}"


def _asked_of(room: Room) -> Iterator[tuple[Asked, str]]:
    if room.thickness_m is not None:
        yield Asked.THICKNESS, "thickness"
    if room.cove is not None:
        yield Asked.COVE, "cove"
    if room.cracks:
        yield Asked.CRACKS, "cracks"
    if room.spalls:
        yield Asked.SPALLS, "spalls"
    if any(joint.kind is not JointKind.CONTRACTION for joint in room.joints or ()):
        yield Asked.JOINTS, "joints"
    if any(map(_filled, room.joints or ())):
        yield Asked.FILLED_JOINTS, "joints"


def _filled(joint: Joint) -> bool:
    return joint.kind is JointKind.CONTRACTION and joint.width_m is not None and joint.depth_m is not None


def _caution_film(context: Context, need: LayerNeed, film_m: float) -> None:
    limits, film = need.layer.product.wet_film_m, Figure(film_m, "film")
    if limits.low is not None and film_m < limits.low * (1 - GUARD):
        context.record.caution("wet-film-thin", layer=need.layer.name, film=film, limit=Figure(limits.low, "film"))
    if limits.high is not None and film_m > limits.high * (1 + GUARD):
        context.record.caution("wet-film-thick", layer=need.layer.name, film=film, limit=Figure(limits.high, "film"))


def _caution_pot_life(context: Context, layer: Layer, rate_m2_m3: Triple) -> None:
    """Only of what is mixed by the batch: what is measured out is mixed as it is spread."""
    batch, curve = layer.product.smallest_batch, layer.product.pot_life
    if batch is None or curve is None:
        return
    temperature = assume.material_temperature(context)
    spread_s = spreading_time(
        batch_m3=batch,
        spreading_rate_m2_m3=rate_m2_m3.likely,
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
