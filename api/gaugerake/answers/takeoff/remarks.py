"""What is said beside a takeoff: what it assumes of the rooms, what it cannot do, and films and batches that misfit."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolve_readings import PROFILE_AT
from gaugerake.answers.job.resolved import ResolvedJob, ResolvedRoom
from gaugerake.answers.takeoff.proportion import proportion_remarks
from gaugerake.answers.takeoff.room_remarks import room_remarks
from gaugerake.floor.cure.curve import time_at
from gaugerake.floor.job import Joint, JointKind
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Asked
from gaugerake.floor.layers.film import spreading_time
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import GUARD


def takeoff_remarks(resolved: ResolvedJob, takeoff: Takeoff) -> Iterator[Remark]:
    """What the takeoff says beside its figures."""
    yield from resolved.layers.remarks
    yield from (one for one in resolved.named_rooms.remarks if (one.note.pointer or "").startswith(PROFILE_AT))
    for room, measured in zip(resolved.rooms, takeoff.rooms, strict=True):
        yield from room_remarks(resolved, room, measured)
        yield from proportion_remarks(room, measured)
    yield from resolved.order.waste_fraction.remarks
    yield from layers_missing(resolved)
    yield from _layers_unused(resolved)
    for need in takeoff.layers:
        yield from _film(need)
        if need.layer.film_rate is not None:
            yield from _pot_life(resolved, need.layer, need.layer.film_rate)


def layers_missing(resolved: ResolvedJob) -> Iterator[Remark]:
    """What the job asks for that no layer does, and what an optional layer would do."""
    for what, pointer in _asked(resolved):
        if any(what in layer.does for layer in resolved.layers.value):
            continue
        optional = next((layer for layer in resolved.system.layers if what in layer.does), None)
        if optional is None:
            yield caution(f"no-layer-for-{what}", pointer)
        else:
            yield caution(f"layer-not-chosen-for-{what}", pointer, layer=optional.id)


def _layers_unused(resolved: ResolvedJob) -> Iterator[Remark]:
    """Optional layers that are chosen and that no room has work for."""
    wanted = wanted_of_layers(resolved)
    for layer in resolved.layers.value:
        if layer.optional and layer.does and not layer.does & wanted:
            yield caution("optional-layer-unused", "/order/optional_layers", layer=layer.name)


def wanted_of_layers(resolved: ResolvedJob) -> set[Asked]:
    """All that the job asks of its layers; each job has a thickness."""
    return {Asked.THICKNESS, *(what for what, _ in _asked(resolved))}


def _asked(resolved: ResolvedJob) -> Iterator[tuple[Asked, str]]:
    """Each thing that the job asks of a layer, and where it is asked."""
    if resolved.thickness_m is not None and resolved.thickness_m.stated:
        yield Asked.THICKNESS, "/thickness"
    for room in resolved.rooms:
        for what, field in _asked_of(room):
            yield what, f"{room.pointer}/{field}"


def _asked_of(room: ResolvedRoom) -> Iterator[tuple[Asked, str]]:
    if room.thickness_m is not None and room.thickness_m.at == f"{room.pointer}/thickness":
        yield Asked.THICKNESS, "thickness"
    if room.cove is not None:
        yield Asked.COVE, "cove"
    if room.cracks:
        yield Asked.CRACKS, "cracks"
    if room.spalls:
        yield Asked.SPALLS, "spalls"
    if any(joint.kind is JointKind.MOVING for joint in room.joints or ()):
        yield Asked.JOINTS, "joints"
    if any(map(_filled, room.joints or ())):
        yield Asked.FILLED_JOINTS, "joints"


def _filled(joint: Joint) -> bool:
    return joint.kind is JointKind.CONTRACTION and joint.width_m is not None and joint.depth_m is not None


def _film(need: LayerNeed) -> Iterator[Remark]:
    """Whether a likely film is too thin or too thick."""
    if need.wet_film_m is None:
        return
    limits, film = need.layer.product.wet_film_m, Figure(need.wet_film_m, Kind.FILM)
    if limits.low is not None and need.wet_film_m < limits.low * (1 - GUARD):
        yield caution("wet-film-thin", layer=need.layer.name, film=film, limit=Figure(limits.low, Kind.FILM))
    if limits.high is not None and need.wet_film_m > limits.high * (1 + GUARD):
        yield caution("wet-film-thick", layer=need.layer.name, film=film, limit=Figure(limits.high, Kind.FILM))


def _pot_life(resolved: ResolvedJob, layer: Layer, rate_m2_m3: Triple) -> Iterator[Remark]:
    """Whether the least that is mixed at once can be spread while it can be worked; a pack is mixed whole."""
    product, curve = layer.product, layer.product.pot_life
    batch = product.least_mixed
    if batch is None or curve is None:
        return
    material, rate = resolved.work.material_temperature_k, resolved.work.crew.coating_rate_m2_s
    yield from (*material.remarks, *rate.remarks)
    spreading_s = spreading_time(batch_m3=batch, spreading_rate_m2_m3=rate_m2_m3.likely, coating_rate_m2_s=rate.value)
    life_s = time_at(curve, temperature_k=material.value, column="low")
    if spreading_s > life_s * (1 + GUARD):
        yield caution(
            "pack-outlives-pot-life" if product.smallest_batch is None else "batch-outlives-pot-life",
            layer=layer.name,
            batch=Figure(batch, Kind.LIQUID),
            spreading=Told(spreading_s, Kind.MINUTES, Telling.UP),
            life=Told(life_s, Kind.MINUTES, Telling.DOWN),
            temperature=Figure(material.value, Kind.TEMPERATURE),
        )
