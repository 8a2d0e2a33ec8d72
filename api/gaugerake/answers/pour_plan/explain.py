"""The working of a pour's figures."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from gaugerake.answers.job.working import Working, working
from gaugerake.answers.wet_edge.judge import Judged, JudgedLayer, JudgedPart, PourSite
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say, Value

CREW = Say(code="source-pour-crew")
SHEET = Say(code="source-pour-sheet")
OWN = Say(code="source-pour-practice")
MOST_POURS_EXPLAINED = 200
"""A hundred rooms of two bodies. Where shifts are minutes, each room is poured in many parts that come about alike."""


def explain_pours(takeoff: Takeoff, site: PourSite, judged: Judged) -> Iterator[Working]:
    """The working of every pour, and of the slowest cadence."""
    for index, (layer, part) in enumerate(islice(judged.parts(), MOST_POURS_EXPLAINED)):
        at = f"/pours/{index}"
        yield _mix_area(at, takeoff, layer, part)
        yield _cadence(at, layer, part)
        yield _overtaken(at, part)
        yield _needed(at, layer, part)
        yield from _open_time(at, site, layer, part)
        yield _mixes(at, part)
    if judged.slowest_s is not None:
        rooms = sum(len(layer.pours) for layer in judged.layers)
        yield working("/cadence", "rule-pour-slowest", {"rooms": rooms}, Figure(judged.slowest_s, Kind.MINUTES), OWN)


def _mix_area(at: str, takeoff: Takeoff, layer: JudgedLayer, part: JudgedPart) -> Working:
    inputs: dict[str, Value] = {
        "likely yield": Figure(layer.site.pour.yield_m3.likely, Kind.VOLUME),
        "thickness": Figure(takeoff.rooms[part.part.pour.room].thickness_m or 0.0, Kind.SMALL_LENGTH),
        "share": layer.site.pour.share_fraction,
    }
    area = Figure(part.part.pour.pace.mix_area_m2, Kind.AREA)
    return working(f"{at}/mix_area", "rule-pour-mix-area", inputs, area, SHEET)


def _cadence(at: str, layer: JudgedLayer, part: JudgedPart) -> Working:
    pace, crew = part.part.pour.pace, layer.site.crew
    inputs: dict[str, Value] = {
        "time per mix": Figure(crew.mix_cycle_s, Kind.MINUTES),
        "stations": crew.mixing_stations,
        "mix area": Figure(pace.mix_area_m2, Kind.AREA),
        "placing rate": Figure(crew.placing_rate_m2_s, Kind.AREA_RATE),
    }
    if layer.site.pour.cast_kg_m2:
        inputs["aggregate"] = Figure(layer.site.pour.cast_kg_m2, Kind.AREAL_MASS)
        inputs["cast rate"] = Figure(crew.cast_rate_kg_s, Kind.MASS_RATE)
    return working(f"{at}/cadence", "rule-pour-cadence", inputs, Figure(pace.cadence_s, Kind.MINUTES), CREW)


def _overtaken(at: str, part: JudgedPart) -> Working:
    pace, lane = part.part.pour.pace, part.part.pour.lane
    inputs: dict[str, Value] = {
        "lane width": Figure(lane.width_m, Kind.LENGTH),
        "lane depth": Figure(lane.depth_m, Kind.LENGTH),
        "mix area": Figure(pace.mix_area_m2, Kind.AREA),
        "cadence": Figure(pace.cadence_s, Kind.MINUTES),
    }
    overtaken = Figure(part.edge.overtaken_after_s, Kind.MINUTES)
    return working(f"{at}/overtaken_after", "rule-pour-overtaken", inputs, overtaken, OWN)


def _needed(at: str, layer: JudgedLayer, part: JudgedPart) -> Working:
    inputs: dict[str, Value] = {
        "overtaken after": Figure(part.edge.overtaken_after_s, Kind.MINUTES),
        "pour within": Figure(layer.site.layer.product.pour_within_s, Kind.MINUTES),
        "placing of one mix": Figure(part.part.pour.pace.placing_s, Kind.MINUTES),
    }
    return working(f"{at}/needed", "rule-pour-needed", inputs, Figure(part.edge.needed_s, Kind.MINUTES), OWN)


def _open_time(at: str, site: PourSite, layer: JudgedLayer, part: JudgedPart) -> Iterator[Working]:
    curve, open_time_s = layer.site.layer.product.open_time, part.edge.open_time_s
    if curve is None or open_time_s is None:
        return
    inputs: dict[str, Value] = {
        "floor at its warmest": Figure(part.hottest_floor_k, Kind.TEMPERATURE),
        "material": Figure(site.material_k, Kind.TEMPERATURE),
    }
    for number, point in enumerate(curve.points, start=1):
        inputs[f"row {number}: temperature"] = Figure(point.temperature_k, Kind.TEMPERATURE)
        inputs[f"row {number}: low open time"] = Figure(point.low_s, Kind.MINUTES)
    yield working(f"{at}/open_time", "rule-pour-open-time", inputs, Figure(open_time_s, Kind.MINUTES), SHEET)


def _mixes(at: str, part: JudgedPart) -> Working:
    inputs: dict[str, Value] = {
        "likely need of the room": Figure(part.part.pour.need_mixes, Kind.MIX),
        "first mix": part.part.first_mix,
        "last mix": part.part.last_mix,
    }
    return working(f"{at}/mixes", "rule-pour-mixes", inputs, part.part.mix_count, OWN)
