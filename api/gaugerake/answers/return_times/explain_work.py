"""How long each step of the work takes, worked out from what is laid and how fast the crew is."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import crew_of
from gaugerake.answers.return_times.explain_course import Inputs
from gaugerake.answers.takeoff.measure import take_off
from gaugerake.floor.clock.timetable import Step, StepKind
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.values.figure import Figure


def work_inputs(context: Context, step: Step) -> Inputs:
    """What the hours of a step are worked out from; nothing of a layer that is placed in no time or with another."""
    crew = context.shared(crew_of)
    if step.kind is StepKind.CLEAR:
        return _by_area(context, crew.clearing_rate_m2_s)
    if step.kind is StepKind.ABRADE:
        return _by_area(context, crew.coating_rate_m2_s)
    need = next((need for need in context.shared(take_off).layers if need.layer.id == step.layer), None)
    if need is None:
        return {}
    if isinstance(need.layer, PrimerLayer | CoatLayer):
        return _by_area(context, crew.coating_rate_m2_s)
    if isinstance(need.layer, RepairLayer | CoveLayer):
        return {"mixes": Figure(need.likely, "mix"), **_mixing(context, need)}
    return _body(context, need, need.layer) if isinstance(need.layer, BodyLayer) else {}


def _by_area(context: Context, rate_m2_s: float) -> Inputs:
    rooms = enumerate(context.shared(take_off).rooms, 1)
    areas = {f"room_{number}_area": Figure(room.area_m2, "area") for number, room in rooms}
    return {"rate": Figure(rate_m2_s, "area-rate"), **areas}


def _mixing(context: Context, need: LayerNeed) -> Inputs:
    crew = context.shared(crew_of)
    return {
        "time_per_mix": Figure(crew.seconds_per_mix(need.layer.product), "minutes"),
        "stations": crew.mixing_stations,
    }


def _body(context: Context, need: LayerNeed, layer: BodyLayer) -> Inputs:
    assert layer.product.yield_m3 is not None, "the catalogue lets no body in without a yield"
    inputs = {
        **_mixing(context, need),
        "placing_rate": Figure(context.shared(crew_of).placing_rate_m2_s, "area-rate"),
        "yield": Figure(layer.product.yield_m3.likely, "volume"),
        "share": layer.share_fraction,
    }
    for number, (room, mixes) in enumerate(zip(context.shared(take_off).rooms, need.room_likely, strict=True), 1):
        inputs[f"room_{number}_mixes"] = Figure(mixes, "mix")
        inputs[f"room_{number}_thickness"] = Figure(room.thickness_m or 0.0, "small-length")
    return inputs
