"""The pour with everything at its utmost: how far its edge is from holding even so, where no change frees it."""

from __future__ import annotations

from gaugerake.answers.pour_plan.change import with_crew
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.pour_plan.steps import lowest_floor_k, lowest_material_k
from gaugerake.answers.wet_edge.judge import MOST_CAST_RATE_KG_S, MOST_PLACING_RATE_M2_S, MOST_STATIONS
from gaugerake.floor.job import Work
from gaugerake.floor.pour.edge import WetEdge
from gaugerake.floor.values.frozen import dataclass, replace


@dataclass(frozen=True, slots=True, kw_only=True)
class Utmost:
    """A pour at its utmost: most stations, fastest placing and casting, narrowest lanes, coldest floor and material.

    ``temperature_k`` is the hotter of floor and material; ``lost`` is an edge that is lost even so, None where none is.
    """

    placing_rate_m2_s: float
    lane_width_m: float
    temperature_k: float
    lost: WetEdge | None


def at_utmost(search: Search) -> Utmost:
    """The pour with everything at its utmost."""
    rate_m2_s = max(MOST_PLACING_RATE_M2_S, search.crew.placing_rate_m2_s)
    width_m = min(search.widest_lane_m, search.crew.lane_depth_m)
    material_k = min(search.site.material_k, lowest_material_k(search))
    work = _work(search, rate_m2_s, width_m, material_k)
    coldest_k = search.span_k(work)[0]
    floor_k = min(coldest_k, lowest_floor_k(search)) if search.steady else coldest_k
    return Utmost(
        placing_rate_m2_s=rate_m2_s,
        lane_width_m=width_m,
        temperature_k=max(floor_k, material_k),
        lost=search.lost_edge(work, floor_k=floor_k),
    )


def _work(search: Search, rate_m2_s: float, width_m: float, material_k: float) -> Work:
    work = with_crew(
        search.work,
        mixing_stations=MOST_STATIONS,
        placing_rate_m2_s=rate_m2_s,
        cast_rate_kg_s=max(MOST_CAST_RATE_KG_S, search.crew.cast_rate_kg_s),
        lane_width_m=width_m,
    )
    return replace(work, material_temperature_k=material_k)
