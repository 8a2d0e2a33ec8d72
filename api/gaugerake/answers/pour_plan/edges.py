"""The edges of a pour, judged again with another crew or at other temperatures.

Only the parts that decide are judged, the hardest first. Nothing of the job is resolved again for that: what a pour's
edges depend on, besides its rooms, is its crew and the hotter of floor and material.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from gaugerake.answers.wet_edge.judge import Judged, JudgedLayer, JudgedPart, LayerSite, PourCrew, PourSite, pace_in
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.job import Crew
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.edge import Pace, WetEdge, lane, wet_edge
from gaugerake.floor.pour.mixes import open_time_s
from gaugerake.floor.values.frozen import replace

Crews = Sequence[PourCrew]
"""The crew on the product of each body layer, in the order of the work."""


class Edges:
    """The edges of a pour; each that is judged is a step of the budget."""

    def __init__(self, takeoff: Takeoff, site: PourSite, judged: Judged, budget: Budget) -> None:
        self._takeoff, self._site, self._budget = takeoff, site, budget
        self._hardest_first = [_hardest_first(takeoff, layer) for layer in judged.layers]
        self._open_times_s: dict[tuple[int, float], float | None] = {}

    def crews(self, said: Crew) -> Crews:
        """The crew of the pour where the job says other stations, placing, casting or lanes of it."""
        return [_with_said(layer.crew, said) for layer in self._site.layers]

    def lost(self, crews: Crews, *, material_k: float, floor_k: float | None = None) -> WetEdge | None:
        """An edge that is lost, with the floor as hot as it gets in each part's own hours, or at one temperature of it.

        None when none is.
        """
        for at, (layer, crew) in enumerate(zip(self._site.layers, crews, strict=True)):
            paces: dict[float | None, Pace] = {}
            for part in self._hardest_first[at]:
                self._budget.spend(1)
                hottest_k = part.hottest_floor_k if floor_k is None else floor_k
                hotter_k = hottest_k if hottest_k > material_k else material_k
                edge = self._edge(layer, part, crew, paces, self._open_time_s(at, hotter_k))
                if edge.holds is False:
                    return edge
        return None

    def _edge(
        self, layer: LayerSite, part: JudgedPart, crew: PourCrew, paces: dict[float | None, Pace], stays_s: float | None
    ) -> WetEdge:
        room = self._takeoff.rooms[part.part.pour.room]
        return wet_edge(
            lane=lane(shorter_side_m=room.shorter_side_m, depth_m=crew.lane_depth_m, widest_m=crew.widest_lane_m),
            pace=pace_in(room, layer.pour, crew, paces),
            pour_within_s=layer.layer.product.pour_within_s,
            open_time_s=stays_s,
        )

    def _open_time_s(self, at: int, hotter_k: float) -> float | None:
        """How long the material of a layer stays open; a search asks again and again at the same temperature."""
        key = at, hotter_k
        if key not in self._open_times_s:
            curve = self._site.layers[at].layer.product.open_time
            self._open_times_s[key] = open_time_s(curve=curve, floor_k=hotter_k, material_k=hotter_k)
        return self._open_times_s[key]


def _with_said(crew: PourCrew, said: Crew) -> PourCrew:
    """The crew with what the job says of it; what the job leaves out stays as it was, but for the lane's width."""
    return replace(
        crew,
        mixing_stations=crew.mixing_stations if said.mixing_stations is None else said.mixing_stations,
        placing_rate_m2_s=crew.placing_rate_m2_s if said.placing_rate_m2_s is None else said.placing_rate_m2_s,
        cast_rate_kg_s=crew.cast_rate_kg_s if said.cast_rate_kg_s is None else said.cast_rate_kg_s,
        widest_lane_m=said.lane_width_m,
    )


def _hardest_first(takeoff: Takeoff, layer: JudgedLayer) -> list[JudgedPart]:
    """The parts that decide, by the share of their open time that they need, so that a lost edge is found first.

    A part that is no wider, on a floor no hotter, than another of the same thickness is left out: it holds wherever
    that one does.
    """

    def share(part: JudgedPart) -> float:
        return part.edge.needed_s / (part.edge.open_time_s or math.inf)

    def width_m(part: JudgedPart) -> float:
        return takeoff.rooms[part.part.pour.room].shorter_side_m

    hottest_k: dict[float | None, float] = {}
    kept = []
    for part in sorted(layer.parts, key=lambda part: (width_m(part), part.hottest_floor_k), reverse=True):
        thickness_m = takeoff.rooms[part.part.pour.room].thickness_m
        if part.hottest_floor_k > hottest_k.get(thickness_m, -math.inf):
            hottest_k[thickness_m] = part.hottest_floor_k
            kept.append(part)
    return sorted(kept, key=share, reverse=True)
