"""How long each step of the work takes, worked out from what is laid and how fast the crew is."""

from __future__ import annotations

from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.sources import CREW_RATES
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.answers.takeoff.sources import source_of
from gaugerake.floor.clock.timetable import Step, StepKind
from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.note import Words


def work_inputs(timetable: Timetable, step: Step) -> Inputs:
    """What the hours of a step are worked out from; nothing of a layer that is placed in no time or with another."""
    takeoff = timetable.takeoff
    crew = CrewOnSite(rooms=takeoff.rooms, rates=timetable.resolved.work.crew.rates())
    if step.kind is StepKind.PREPARE:
        return _prepare_inputs(timetable, crew)
    if step.kind is StepKind.SAW:
        return {
            "length": Figure(crew.keyway_m, Kind.LENGTH),
            "saw_rate": Figure(crew.rates.saw_rate_m_s, Kind.LENGTH_RATE),
        }
    if step.kind is StepKind.CLEAR:
        return crew.area_inputs(crew.rates.clearing_rate_m2_s)
    if step.kind is StepKind.ABRADE:
        return crew.area_inputs(crew.rates.coating_rate_m2_s)
    need = _need_of(takeoff, step.layer)
    if need is None:
        return {}
    return need.layer.time_inputs(need, replace(crew, cast_kg_m2=takeoff.cast_kg_m2(need.layer)))


def _prepare_inputs(timetable: Timetable, crew: CrewOnSite) -> Inputs:
    """The area and the rate of preparing; nothing where the job states the hours."""
    if timetable.resolved.work.preparation_s.value is not None:
        return {}
    return {
        "area": Figure(crew.gross_area_m2, Kind.AREA),
        "prepare_rate": Figure(crew.rates.prepare_rate_m2_s, Kind.AREA_RATE),
    }


def work_rule(timetable: Timetable, step: Step) -> tuple[str, Words]:
    """The sentence that tells how the hours of a step came about, and the source of its figures."""
    need = _need_of(timetable.takeoff, step.layer) if step.kind is StepKind.APPLY else None
    if step.kind is StepKind.PREPARE and timetable.resolved.work.preparation_s.value is None:
        return "rule-clock-prepare-area", CREW_RATES
    if need is None:
        return f"rule-clock-{step.kind}", CREW_RATES
    layer = need.layer
    rule = layer.cast_time_rule if timetable.takeoff.cast_kg_m2(layer) else layer.time_rule
    return rule, source_of(timetable.system, layer, layer.time_stated_by)


def _need_of(takeoff: Takeoff, layer: str | None) -> LayerNeed | None:
    """The need of the layer of this id."""
    return next((need for need in takeoff.layers if need.layer.id == layer), None)
