"""What is said beside a pour: lost edges, warming floors, stops, and what nobody can say."""

from __future__ import annotations

import math

from gaugerake.answers.job.context import Context
from gaugerake.answers.pour_plan.judge import Judged, JudgedLayer, JudgedPart
from gaugerake.answers.pour_plan.mix_clock import MOST_MIXES
from gaugerake.answers.return_times.bridge import runs_of
from gaugerake.answers.return_times.run_remarks import first_stop_remarks, log_remarks
from gaugerake.floor.job import Measured
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.edge import GUARD
from gaugerake.floor.pour.windows import Stop
from gaugerake.floor.product import Hazard
from gaugerake.floor.values.figure import Figure

WARMS_K = 0.1
"""A floor that warms by less than this during a pour is called steady."""


def say_beside(context: Context, takeoff: Takeoff, judged: Judged) -> None:
    """Note what to beware of, each kind once, for the room where it matters most; and the lanes that are taken."""
    _measured_rooms(context, takeoff, judged)
    _lost_edge(context, takeoff, judged)
    _warming(context, takeoff, judged)
    _log(context, judged)
    _strips(context, takeoff, judged)
    for layer in judged.layers:
        _unstated(context, layer)
        _never(context, layer)
        _stops_at_joints(context, takeoff, layer)
        _lost_mixes(context, layer)
    _unlisted(context, judged)


def say_hazards(context: Context, takeoff: Takeoff) -> None:
    """What the materials of the pour can do to people; in a quote the order says it of every product."""
    layers = [need.layer for need in takeoff.layers if need.layer.pour or need.layer.laid is Laid.INTO]
    for hazard in Hazard:
        names = dict.fromkeys(layer.product.name for layer in layers if hazard in layer.product.hazards)
        if names:
            context.record.caution(f"hazard-{hazard.value}", products=", ".join(names))


def say_why_never(context: Context, judged: Judged) -> None:
    """What keeps a layer from ever being poured; in a quote the timetable says it."""
    if not all(layer.parts for layer in judged.layers):
        context.record.say(first_stop_remarks(context.resolved, context.shared(runs_of).likely))


def _measured_rooms(context: Context, takeoff: Takeoff, judged: Judged) -> None:
    """A room known by its area alone is taken for one twice as long as wide."""
    for pour in judged.layers[0].pours if judged.layers else ():
        if isinstance(context.job.rooms[pour.room].shape, Measured):
            width = Figure(takeoff.rooms[pour.room].shorter_side_m, "length")
            context.record.assume("pour-across-measured-room", f"/rooms/{pour.room}/shape", width)


def _lost_edge(context: Context, takeoff: Takeoff, judged: Judged) -> None:
    worst = judged.worst
    if worst is None:
        return
    part, lost = worst[1], {pair[1].part.pour.room for pair in judged.parts() if pair[1].edge.holds is False}
    room = takeoff.rooms[part.part.pour.room]
    context.record.caution(
        "pour-edge-lost",
        f"/rooms/{room.index}",
        room=room.name,
        rooms=len(lost),
        needed=Figure(part.edge.needed_s, "minutes"),
        open=Figure(part.edge.open_time_s or 0.0, "minutes"),
        temperature=Figure(part.hotter_k, "temperature"),
    )


def _warming(context: Context, takeoff: Takeoff, judged: Judged) -> None:
    def rise(part: JudgedPart) -> float:
        return part.hottest_floor_k - part.floor_k

    part = max((part for _, part in judged.parts()), key=rise, default=None)
    if part is None or rise(part) <= WARMS_K:
        return
    context.record.caution(
        "pour-floor-warms",
        "/work/temperatures",
        room=takeoff.rooms[part.part.pour.room].name,
        cooler=Figure(part.floor_k, "temperature"),
        warmer=Figure(part.hottest_floor_k, "temperature"),
    )


def _log(context: Context, judged: Judged) -> None:
    """A log that does not reach over the pour."""
    parts = [part.part for _, part in judged.parts()]
    if parts:
        context.record.say(log_remarks(context.resolved, parts[0].begins_s, parts[-1].ends_s))


def _strips(context: Context, takeoff: Takeoff, judged: Judged) -> None:
    """The edges of strips are terminations; their length is the room's longer side, taken for a rectangle."""
    layer = judged.layers[0] if judged.layers else None
    widest = None if layer is None else layer.site.hands.widest_lane_m
    divided = [] if layer is None else [pour for pour in layer.pours if pour.lane.strip_count > 1]
    if widest is None or not divided:
        return
    length = sum(
        (pour.lane.strip_count - 1) * takeoff.rooms[pour.room].area_m2 / takeoff.rooms[pour.room].shorter_side_m
        for pour in divided
    )
    context.record.caution(
        "pour-strips",
        "/work/crew/lane_width",
        width=Figure(widest, "length"),
        rooms=len(divided),
        length=Figure(length, "length"),
    )


def _unstated(context: Context, layer: JudgedLayer) -> None:
    product = layer.site.layer.product
    if product.open_time is None:
        context.record.caution("pour-open-time-unstated", product=product.name)


def _never(context: Context, layer: JudgedLayer) -> None:
    if not layer.parts:
        context.record.caution("pour-never", "/work", layer=layer.site.layer.name)


def _stops_at_joints(context: Context, takeoff: Takeoff, layer: JudgedLayer) -> None:
    stops: dict[int, int] = {}
    for part in layer.parts:
        if part.stop is Stop.JOINT:
            stops[part.part.pour.room] = stops.get(part.part.pour.room, 0) + 1
    for room, count in stops.items():
        context.record.caution(
            "pour-stops-at-joint", f"/rooms/{room}/terminations", room=takeoff.rooms[room].name, stops=count
        )


def _lost_mixes(context: Context, layer: JudgedLayer) -> None:
    """The rest of a mix that is lost at a stop between rooms is not in the order."""
    if not layer.parts:
        return
    counted = math.ceil(math.fsum(layer.site.need.room_likely) * (1 - GUARD))
    more = layer.parts[-1].part.last_mix - counted
    stops = sum(part.stop is Stop.ROOM for part in layer.parts)
    if more > 0:
        context.record.caution(
            "pour-stops-lose-mixes", "/work/shifts", layer=layer.site.layer.name, stops=stops, more=Figure(more, "mix")
        )


def _unlisted(context: Context, judged: Judged) -> None:
    count = sum(layer.parts[-1].part.last_mix for layer in judged.layers if layer.parts)
    if count > MOST_MIXES:
        context.record.caution("pour-mixes-unlisted", listed=MOST_MIXES, count=count)
