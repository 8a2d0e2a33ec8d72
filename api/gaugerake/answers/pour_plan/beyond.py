"""Says that no change frees a pour, and why: how far its edge is from holding with everything at its utmost."""

from __future__ import annotations

from dataclasses import replace

from gaugerake.answers.job.times import course_of
from gaugerake.answers.pour_plan.judge import MOST_PLACING_RATE_M2_S, MOST_STATIONS
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.pour_plan.steps import lowest_floor_k, lowest_material_k, with_crew
from gaugerake.floor.job import Work
from gaugerake.floor.values.figure import Figure


def say_beyond(search: Search) -> None:
    """Note that nothing frees the pour; with the figures, where not even the utmost of everything would."""
    changed = search.changed(_utmost(search))
    coldest_k = changed.shared(course_of).span_k[0]
    floor_k = min(coldest_k, lowest_floor_k(search)) if search.steady else coldest_k
    edge = search.lost_edge(changed, floor_k=floor_k)
    if edge is None or edge.open_time_s is None:
        search.context.record.caution("pour-no-remedy-found", "/work")
        return
    material_k = changed.job.work.material_temperature_k
    assert material_k is not None
    search.context.record.caution(
        "pour-beyond-remedy",
        "/work",
        stations=MOST_STATIONS,
        rate=Figure(max(MOST_PLACING_RATE_M2_S, search.hands.placing_rate_m2_s), "area-rate"),
        width=Figure(changed.job.work.crew.lane_width_m or 0.0, "length"),
        temperature=Figure(max(floor_k, material_k), "temperature"),
        needed=Figure(edge.needed_s, "minutes"),
        open=Figure(edge.open_time_s, "minutes"),
    )


def _utmost(search: Search) -> Work:
    """The most hands, the narrowest lanes and the coldest material."""
    widest_m = max(part.part.pour.lane.width_m for part in search.parts)
    work = with_crew(
        search.work,
        mixing_stations=MOST_STATIONS,
        placing_rate_m2_s=max(MOST_PLACING_RATE_M2_S, search.hands.placing_rate_m2_s),
        lane_width_m=min(widest_m, search.hands.lane_depth_m),
    )
    return replace(work, material_temperature_k=min(search.site.material_k, lowest_material_k(search)))
