"""What is said beside a pour: lost edges, warming floors, stops, and what is not known."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark, assumption, caution
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.mix_clock import MOST_MIXES
from gaugerake.answers.pour_plan.remedies import Freed
from gaugerake.answers.pour_plan.utmost import Utmost
from gaugerake.answers.return_times.run_remarks import first_stop_remarks, log_remarks, stop_place
from gaugerake.answers.wet_edge.judge import (
    MOST_STATIONS,
    Judged,
    JudgedLayer,
    handling_of,
    is_broadcast,
    strips_length_m,
)
from gaugerake.floor.clock.timetable import Run
from gaugerake.floor.job import Measured
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.mixes import CastWindow, cast_window
from gaugerake.floor.pour.windows import Stop
from gaugerake.floor.product import Hazard
from gaugerake.floor.system import System
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told
from gaugerake.floor.values.note import Say, Value, listed

WARMS_K = 0.1
"""A floor that warms by less than this during a pour is called steady."""


def pour_remarks(resolved: ResolvedJob, takeoff: Takeoff, judged: Judged) -> Iterator[Remark]:
    """The cautions of a pour, each kind once, for the room where it matters most; and the lanes that are assumed."""
    yield from _measured_rooms(resolved, takeoff, judged)
    yield from _lost_edge(takeoff, judged)
    yield from _warming(takeoff, judged)
    yield from _log(resolved, judged)
    yield from _strips(resolved.system, takeoff, judged)
    yield from _casting(takeoff, judged)
    for layer in judged.layers:
        yield from _layer_remarks(resolved.system, takeoff, layer)
    if judged.mix_count > MOST_MIXES:
        yield caution("pour-mixes-unlisted", listed=MOST_MIXES, count=judged.mix_count)


def hazard_remarks(takeoff: Takeoff) -> Iterator[Remark]:
    """The hazards of the pour's materials; in a quote the order lists those of every product."""
    layers = [need.layer for need in takeoff.layers if need.layer.pour or need.layer.laid is Laid.INTO]
    for hazard in Hazard:
        names = dict.fromkeys(layer.product.name for layer in layers if hazard in layer.product.hazards)
        if names:
            yield caution(f"hazard-{hazard.value}", products=listed(code="table-list", phrases=[*names]))


def never_remarks(resolved: ResolvedJob, judged: Judged, likely: Run) -> Iterator[Remark]:
    """Why a layer is never poured; in a quote the timetable says so."""
    if not all(layer.parts for layer in judged.layers):
        yield from first_stop_remarks(resolved, likely)


def remedy_remarks(resolved: ResolvedJob, freed: Freed) -> Iterator[Remark]:
    """What the search for remedies takes for granted, that it ended early, and that it found none.

    Where even the utmost of everything does not hold, what was not tried would not either.
    """
    yield from resolved.work.zone.remarks  # another hour is looked for on the clock of the job's zone
    beyond = None if freed.utmost is None else _beyond_remark(freed.utmost)
    if beyond is not None:
        yield beyond
        return
    if freed.ended_early:
        yield caution("pour-remedy-search-ended", "/work")
    if freed.utmost is not None:
        yield caution("pour-no-remedy-found", "/work")


def _measured_rooms(resolved: ResolvedJob, takeoff: Takeoff, judged: Judged) -> Iterator[Remark]:
    """A room known by its area alone is assumed to be twice as long as wide."""
    for pour in judged.layers[0].pours if judged.layers else ():
        if isinstance(resolved.rooms[pour.room].shape, Measured):
            width = Figure(takeoff.rooms[pour.room].shorter_side_m, Kind.LENGTH)
            yield assumption("pour-across-measured-room", f"/rooms/{pour.room}/shape", width)


def _lost_edge(takeoff: Takeoff, judged: Judged) -> Iterator[Remark]:
    worst = judged.worst
    if worst is None:
        return
    part, lost = worst[1], {part.part.pour.room for _, part in judged.parts() if part.edge.holds is False}
    room = takeoff.rooms[part.part.pour.room]
    yield caution(
        "pour-edge-lost",
        f"/rooms/{room.index}",
        room=room.name,
        others=Say(code="pour-edge-others", params={"count": len(lost) - 1}) if len(lost) > 1 else None,
        needed=Told(part.edge.needed_s, Kind.MINUTES, Telling.UP),
        open=Told(part.edge.open_time_s or 0.0, Kind.MINUTES, Telling.DOWN),
        temperature=Figure(part.hotter_k, Kind.TEMPERATURE),
    )


def _warming(takeoff: Takeoff, judged: Judged) -> Iterator[Remark]:
    part = max((part for _, part in judged.parts()), key=lambda part: part.warms_k, default=None)
    if part is None or part.warms_k <= WARMS_K:
        return
    yield caution(
        "pour-floor-warms",
        "/work/temperatures",
        room=takeoff.rooms[part.part.pour.room].name,
        cooler=Figure(part.floor_k, Kind.TEMPERATURE),
        warmer=Figure(part.hottest_floor_k, Kind.TEMPERATURE),
    )


def _log(resolved: ResolvedJob, judged: Judged) -> Iterator[Remark]:
    """A log that does not reach over the pour."""
    parts = [part.part for _, part in judged.parts()]
    if parts:
        yield from log_remarks(resolved, parts[0].begins_s, parts[-1].ends_s)


def _strips(system: System, takeoff: Takeoff, judged: Judged) -> Iterator[Remark]:
    """The edges of strips are terminations."""
    layer = judged.layers[0] if judged.layers else None
    widest_m = None if layer is None else layer.site.crew.widest_lane_m
    divided = [] if layer is None else [pour for pour in layer.pours if pour.lane.strip_count > 1]
    if widest_m is not None and divided:
        yield caution(
            "pour-strips",
            "/work/crew/lane_width",
            width=Figure(widest_m, Kind.LENGTH),
            rooms=len(divided),
            where=stop_place(system),
            keyways=_keyways(system, "pour-strips-keyways", rooms=len(divided)),
            length=Told(strips_length_m(takeoff, divided), Kind.LENGTH, Telling.MARK),
        )


def _casting(takeoff: Takeoff, judged: Judged) -> Iterator[Remark]:
    """When to cast into the pour, and a warning where casting goes on after the body has set."""
    cast = [layer for layer in judged.layers if layer.parts and is_broadcast(takeoff, layer.site.layer)]
    if cast:
        yield caution("cast-wet-edge-last")
    for layer in cast:
        worst = max((one for one in _cast_windows(layer) if one.late), key=_set_before_s, default=None)
        if worst is not None and worst.sets_s is not None:
            waited = Told(worst.waited_s, Kind.MINUTES, Telling.UP)
            sets = Told(worst.sets_s, Kind.MINUTES, Telling.DOWN)
            yield caution("cast-late", layer=layer.site.layer.name, waited=waited, sets=sets)


def _cast_windows(layer: JudgedLayer) -> Iterator[CastWindow]:
    """When aggregate is cast, at the floor of each part's first mix and at its hottest."""
    handling = handling_of(layer.site, broadcast=True)
    for part in layer.parts:
        for floor_k in {part.floor_k, part.hottest_floor_k}:
            placing_s = part.part.pour.pace.placing_s
            found = cast_window(handling=handling, placing_s=placing_s, floor_k=floor_k, material_k=part.material_k)
            if found is not None:
                yield found


def _set_before_s(window: CastWindow) -> float:
    return window.waited_s - (window.sets_s or 0.0)


def _keyways(system: System, code: str, **params: Value) -> Say | None:
    """What a new edge asks of the job where the system anchors its edges; elsewhere it has no keyway to count."""
    return None if system.keyway is None else Say(code=code, params=params)


def _layer_remarks(system: System, takeoff: Takeoff, layer: JudgedLayer) -> Iterator[Remark]:
    product, name = layer.site.layer.product, layer.site.layer.name
    if product.open_time is None:
        yield caution("pour-open-time-unstated", product=product.name)
    if not layer.parts:
        yield caution("pour-never", "/work", layer=name)
    yield from _stops_at_joints(system, takeoff, layer)
    if layer.lost_mixes > 0:
        stops = sum(part.stop is Stop.ROOM for part in layer.parts)
        more = Figure(layer.lost_mixes, Kind.MIX)
        yield caution("pour-stops-lose-mixes", "/work/shifts", layer=name, stops=stops, more=more)


def _stops_at_joints(system: System, takeoff: Takeoff, layer: JudgedLayer) -> Iterator[Remark]:
    stops = Counter([part.part.pour.room for part in layer.parts if part.stop is Stop.JOINT])
    for room, count in stops.items():
        yield caution(
            "pour-stops-at-joint",
            f"/rooms/{room}/terminations",
            room=takeoff.rooms[room].name,
            layer=layer.site.layer.name,
            stops=count,
            where=stop_place(system),
            keyways=_keyways(system, "pour-stops-keyways", stops=count),
        )


def _beyond_remark(utmost: Utmost) -> Remark | None:
    """A caution, with figures, that not even the utmost of everything frees the pour; None where it might."""
    lost = utmost.lost
    if lost is None or lost.open_time_s is None:
        return None
    return caution(
        "pour-beyond-remedy",
        "/work",
        stations=MOST_STATIONS,
        rate=Figure(utmost.placing_rate_m2_s, Kind.AREA_RATE),
        width=Figure(utmost.lane_width_m, Kind.LENGTH),
        temperature=Figure(utmost.temperature_k, Kind.TEMPERATURE),
        needed=Told(lost.needed_s, Kind.MINUTES, Telling.UP),
        open=Told(lost.open_time_s, Kind.MINUTES, Telling.DOWN),
    )
