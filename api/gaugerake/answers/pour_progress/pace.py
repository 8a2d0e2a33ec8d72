"""The pace of a pour under way: what was planned, what is seen, when it ends, and whether the wet edge holds so."""

from __future__ import annotations

from gaugerake.answers.job.remarks import Remark
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_progress.resolve import ResolvedProgress
from gaugerake.answers.wet_edge.judge import room_pour
from gaugerake.answers.wet_edge.site import crew_on
from gaugerake.floor.clock.ongoing import Ending, work_ending
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.pour.edge import WetEdge
from gaugerake.floor.pour.mixes import open_time_s
from gaugerake.floor.pour.windows import RoomPour
from gaugerake.floor.values.frozen import dataclass, replace


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenPace:
    """The pace in the room where the edge stands [s].

    ``seen_s`` is None where nobody says when the pour began and how late it is; so is ``edge``. ``hotter_k`` is what
    its open time is read at.
    """

    planned: RoomPour
    began_s: float | None
    at_s: float | None
    seen_s: float | None
    edge: WetEdge | None
    hotter_k: float

    @property
    def cadence_s(self) -> float:
        """The pace at which the rest goes on: the one seen, else the planned one."""
        return self.planned.pace.cadence_s if self.seen_s is None else self.seen_s


def paced(
    resolved: ResolvedJob,
    progress: ResolvedProgress,
    takeoff: Takeoff,
    need: LayerNeed,
    room: int,
    coverage_m2: float,
) -> SeenPace:
    """The pace of a pour whose edge stands in a room."""
    layer = need.layer
    assert layer.pour is not None, "progress is of a layer that is poured"
    crew = crew_on(resolved.work.crew, layer.product)
    pour = replace(layer.pour, cast_kg_m2=takeoff.cast_kg_m2(layer))
    planned = room_pour(takeoff.rooms[room], need.room_likely[room], pour, crew, {})
    began, at = progress.began.value, progress.at.value
    at_s = None if at is None else at.timestamp()
    began_s = None if began is None else began.timestamp()
    seen_s = None if at_s is None or began_s is None else (at_s - began_s) / progress.mix_count
    course = resolved.work.course.value
    floor_k = course.span_k[1] if at_s is None else course.at(at_s)
    material_k = resolved.work.material_temperature_k.value
    stays_s = open_time_s(curve=layer.product.open_time, floor_k=floor_k, material_k=material_k)
    return SeenPace(
        planned=planned,
        began_s=began_s,
        at_s=at_s,
        seen_s=seen_s,
        edge=None if seen_s is None else _edge(planned, seen_s, coverage_m2, layer.product.pour_within_s, stays_s),
        hotter_k=max(floor_k, material_k),
    )


def _edge(planned: RoomPour, seen_s: float, coverage_m2: float, pour_within_s: float, open_s: float | None) -> WetEdge:
    """The wet edge at the pace seen; a mix is placed in no more time than the next one takes to come."""
    overtaken_s = max(1.0, planned.lane.area_m2 / coverage_m2) * seen_s
    placing_s = min(planned.pace.placing_s, seen_s)
    return WetEdge(overtaken_after_s=overtaken_s, needed_s=overtaken_s + pour_within_s + placing_s, open_time_s=open_s)


def ending(resolved: ResolvedJob, pace: SeenPace, mix_count: int) -> Ending | None:
    """When so many more mixes are placed; None where nobody says how late it is."""
    if pace.at_s is None:
        return None
    hours = resolved.work.hours.value
    return work_ending(hours=hours, from_s=pace.at_s, work_s=mix_count * pace.cadence_s)


def pace_remarks(
    resolved: ResolvedJob, progress: ResolvedProgress, takeoff: Takeoff, need: LayerNeed
) -> tuple[Remark, ...]:
    """What the pace, its hours and its temperatures rest on."""
    work, crew = resolved.work, resolved.work.crew
    found = (
        *crew.mixing_stations.remarks,
        *crew.seconds_per_mix(need.layer.product).remarks,
        *crew.placing_rate_m2_s.remarks,
        *(crew.cast_rate_kg_s.remarks if takeoff.cast_kg_m2(need.layer) else ()),
        *crew.lane_depth_m.remarks,
        *work.course.remarks,
        *work.material_temperature_k.remarks,
    )
    return found if progress.at.value is None else (*found, *work.zone.remarks, *work.hours.remarks)
