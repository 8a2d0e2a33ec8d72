"""How the figures of a pour came about, for whoever has to defend them."""

from __future__ import annotations

from itertools import islice

from gaugerake.answers.job.context import Context
from gaugerake.answers.pour_plan.judge import Judged, JudgedLayer, JudgedPart, PourSite
from gaugerake.answers.takeoff.bridge import take_off
from gaugerake.floor.values.figure import Figure

CREW = "The crew as asked, or as assumed."
SHEET = "The product's data in the catalogue."
OWN = "The trade's arithmetic: common practice, no published source."
MOST_POURS_TOLD = 200
"""A hundred rooms of two bodies. Where shifts are minutes, each room is poured in many parts that come about alike."""


def work_out(context: Context, site: PourSite, judged: Judged) -> None:
    """Note the working of every pour, when it is asked for."""
    if context.record.working is None:
        return
    for index, (layer, part) in enumerate(islice(judged.parts(), MOST_POURS_TOLD)):
        _pace(context, f"/pours/{index}", layer, part)
        _edge(context, f"/pours/{index}", layer, part)
        _open_time(context, f"/pours/{index}", site, layer, part)
        _mixes(context, f"/pours/{index}", layer, part)
    _slowest(context, judged)


def _pace(context: Context, at: str, layer: JudgedLayer, judged: JudgedPart) -> None:
    poured, pour, hands = layer.site.pour, judged.part.pour, layer.site.hands
    room = context.shared(take_off).rooms[pour.room]
    context.record.work(
        f"{at}/mix_area",
        "rule-pour-mix-area",
        {
            "likely yield": Figure(poured.yield_m3.likely, "volume"),
            "thickness": Figure(room.thickness_m or 0.0, "small-length"),
            "share": poured.share_fraction,
        },
        Figure(pour.pace.mix_area_m2, "area"),
        SHEET,
    )
    context.record.work(
        f"{at}/cadence",
        "rule-pour-cadence",
        {
            "time per mix": Figure(hands.mix_cycle_s, "minutes"),
            "stations": hands.station_count,
            "mix area": Figure(pour.pace.mix_area_m2, "area"),
            "placing rate": Figure(hands.placing_rate_m2_s, "area-rate"),
        },
        Figure(pour.pace.cadence_s, "minutes"),
        CREW,
    )


def _edge(context: Context, at: str, layer: JudgedLayer, judged: JudgedPart) -> None:
    pour, edge = judged.part.pour, judged.edge
    context.record.work(
        f"{at}/overtaken_after",
        "rule-pour-overtaken",
        {
            "lane width": Figure(pour.lane.width_m, "length"),
            "lane depth": Figure(pour.lane.depth_m, "length"),
            "mix area": Figure(pour.pace.mix_area_m2, "area"),
            "cadence": Figure(pour.pace.cadence_s, "minutes"),
        },
        Figure(edge.overtaken_after_s, "minutes"),
        OWN,
    )
    context.record.work(
        f"{at}/needed",
        "rule-pour-needed",
        {
            "overtaken after": Figure(edge.overtaken_after_s, "minutes"),
            "pour within": Figure(layer.site.layer.product.pour_within_s, "minutes"),
            "placing of one mix": Figure(pour.pace.placing_s, "minutes"),
        },
        Figure(edge.needed_s, "minutes"),
        OWN,
    )


def _open_time(context: Context, at: str, site: PourSite, layer: JudgedLayer, judged: JudgedPart) -> None:
    curve, open_time_s = layer.site.layer.product.open_time, judged.edge.open_time_s
    if curve is None or open_time_s is None:
        return
    inputs = {
        "floor at its warmest": Figure(judged.hottest_floor_k, "temperature"),
        "material": Figure(site.material_k, "temperature"),
    }
    for number, point in enumerate(curve.points, start=1):
        inputs[f"row {number}: temperature"] = Figure(point.temperature_k, "temperature")
        inputs[f"row {number}: low open time"] = Figure(point.low_s, "minutes")
    context.record.work(f"{at}/open_time", "rule-pour-open-time", inputs, Figure(open_time_s, "minutes"), SHEET)


def _mixes(context: Context, at: str, layer: JudgedLayer, judged: JudgedPart) -> None:
    part = judged.part
    context.record.work(
        f"{at}/mixes",
        "rule-pour-mixes",
        {
            "likely need of the room": Figure(part.pour.need_mixes, "mix"),
            "first mix": part.first_mix,
            "last mix": part.last_mix,
        },
        part.last_mix - part.first_mix + 1,
        OWN,
    )


def _slowest(context: Context, judged: Judged) -> None:
    slowest = max((pour.pace.cadence_s for layer in judged.layers for pour in layer.pours), default=None)
    if slowest is not None:
        rooms = sum(len(layer.pours) for layer in judged.layers)
        context.record.work("/cadence", "rule-pour-slowest", {"rooms": rooms}, Figure(slowest, "minutes"), OWN)
