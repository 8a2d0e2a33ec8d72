"""What holds of a job and must go on holding when a remedy changes it.

A remedy that mends one thing and breaks another is none. So a changed job is looked at whole: its wet edges, its
deadline, the people of its pour, how far its floor is above the dew point, its products' temperatures, what the system
asks of slab and air when the work begins, and that the work ends. What does not hold of the job as it stands need not
hold of the changed one. Where one wet edge is lost, those that hold are looked at room by room.

The floor's temperature is that of the planned course, from the start of the work to the end of its last cure in the
likely run; without a start it is the whole course.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import chain

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.return_times.plan import Timetable, likely_run, make_plan, run_end_s
from gaugerake.answers.wet_edge.hands import too_few
from gaugerake.answers.wet_edge.judge import holds, judging_steps, lost_edges
from gaugerake.answers.wet_edge.site import pour_site
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.latest import in_time
from gaugerake.floor.clock.timetable import Plan, Run
from gaugerake.floor.cure.course import Course
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.slab.air import dew_point
from gaugerake.floor.slab.condensation import condensation_spans
from gaugerake.floor.slab.damp_spans import is_damp
from gaugerake.floor.slab.verdict import RangeSide, at_least, side
from gaugerake.floor.values.frozen import dataclass, replace
from gaugerake.floor.values.range import Limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A job with the likely run of its work."""

    resolved: ResolvedJob
    takeoff: Takeoff
    likely: Run

    @property
    def course(self) -> Course:
        """The floor's temperature."""
        return self.resolved.work.basis.value.course

    @property
    def span_s(self) -> tuple[float, float]:
        """The span from the start to the end of the last cure [s]."""
        return self.likely.start_s, run_end_s(self.likely)


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """A deadline that a job meets: whose return, and when [s]."""

    traffic: str
    by_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What a changed job must keep: all but ``lost`` (what already fails in the job as it stands), and ``due``.

    ``due`` is the deadline that the job meets, None where there is none to keep.
    """

    takeoff: Takeoff
    lost: frozenset[str]
    due: Due | None

    def keeps(self, changed: ResolvedJob, plan: Plan, likely: Run, budget: Budget) -> bool:
        """Whether a changed job, by its plan and its likely run, has all that the job has; the steps are counted."""
        budget.spend(judging_steps(self.takeoff))
        planned = Planned(resolved=changed, takeoff=self.takeoff, likely=likely)
        return next(_lost(planned, self.lost), None) is None and self._in_time(changed, plan, budget)

    def kept_by(self, changed: ResolvedJob, budget: Budget) -> bool:
        """Whether a changed job, whose timetable is run here, has all that the job has; the steps are counted."""
        plan = make_plan(changed, self.takeoff)
        return self.keeps(changed, plan, likely_run(plan, changed.work.basis.value, budget), budget)

    def _in_time(self, changed: ResolvedJob, plan: Plan, budget: Budget) -> bool:
        basis = changed.work.basis.value
        return self.due is None or in_time(
            counted(plan, self.due.traffic),
            hours=basis.hours,
            course=basis.course,
            start_s=basis.start_s,
            by_s=self.due.by_s,
            budget=budget,
            expected=True,  # the job as it stands is in time
        )


def kept_of(timetable: Timetable) -> Kept:
    """What a job has that a remedy must keep."""
    return _kept_beside(timetable, frozenset())


def _kept_beside(timetable: Timetable, lost: frozenset[str]) -> Kept:
    """What a job has, without asking about what is lost or need not be kept."""
    planned = Planned(resolved=timetable.resolved, takeoff=timetable.takeoff, likely=timetable.runs.likely)
    return Kept(takeoff=timetable.takeoff, lost=lost.union(_lost(planned, lost)), due=due_of(timetable))


def kept_beside_the_pour(timetable: Timetable) -> Kept:
    """What a job that loses an edge must keep: all but its edges and people, which the remedy itself mends."""
    return _kept_beside(timetable, _OF_THE_POUR)


def kept_and_mended(timetable: Timetable) -> Kept:
    """What a good start must keep: all that the job has but its deadline, and always edges, people and dew point."""
    kept = kept_of(timetable)
    return replace(kept, lost=kept.lost - _OF_A_GOOD_START, due=None)


def counted(plan: Plan, traffic: str) -> Plan:
    """The plan with a single return: that of the traffic that the deadline is for."""
    return replace(plan, returns=tuple(one for one in plan.returns if one.traffic == traffic))


def due_of(timetable: Timetable) -> Due | None:
    """The deadline of a job with a start, where its latest return meets it."""
    work = timetable.resolved.work
    traffic, reopen_by = work.traffic.found, work.reopen_by.found
    if not timetable.basis.timed or traffic is None or reopen_by is None:
        return None
    by_s = reopen_by.timestamp()
    latest_s = next(one.at_s for _, one in timetable.runs.last_returns if one.traffic == traffic)
    return Due(traffic=traffic, by_s=by_s) if latest_s is not None and latest_s <= by_s else None


def _lost(planned: Planned, known: frozenset[str]) -> Iterator[str]:
    """The names of what does not hold, without those of ``known``."""
    for name, is_lost in _SINGLE.items():
        if name not in known and is_lost(planned):
            known = known | {name}
            yield name
    rooms = _edges(planned) if "edge" in known and "edges" not in known else ()
    beyond = chain(rooms, _beyond_at_start(planned), _beyond_limits(planned))
    yield from (name for name in beyond if name not in known)


def _edges(planned: Planned) -> Iterator[str]:
    """The edges that are lost, by layer and room."""
    site = pour_site(planned.resolved, planned.takeoff, planned.likely)
    for layer, room in lost_edges(planned.takeoff, site):
        yield f"edge {layer} {room}"


def _edge(planned: Planned) -> bool:
    return not holds(planned.takeoff, pour_site(planned.resolved, planned.takeoff, planned.likely))


def _people(planned: Planned) -> bool:
    return too_few(planned.resolved, planned.takeoff)


def _end(planned: Planned) -> bool:
    return not planned.likely.complete


def _spread_at_start(planned: Planned) -> bool:
    """Whether the floor, as measured or else as planned, is too near the dew point when the work begins."""
    foreseen = _foreseen(planned)
    if foreseen is None:
        return False
    dew_k, asked_k = foreseen
    return not at_least(value=_floor_at_start_k(planned) - dew_k, low=asked_k)


def _floor_at_start_k(planned: Planned) -> float:
    """The floor's temperature when the work begins, as measured or else as planned [K]."""
    measured_k = planned.resolved.slab.temperature_k
    return planned.course.at(planned.likely.start_s) if measured_k is None else measured_k


def _young(planned: Planned) -> bool:
    """Whether the slab is younger than the system asks when the work begins."""
    age_s, asked_s = planned.resolved.age_s.value, planned.resolved.system.slab_limits.age_s
    return age_s is not None and asked_s is not None and not at_least(value=age_s, low=asked_s)


def _spread_ahead(planned: Planned) -> bool:
    """Whether the floor comes too near the dew point at some time of the work."""
    foreseen, air = _foreseen(planned), planned.resolved.air.course
    if foreseen is None:
        return False
    dew_k, asked_k = foreseen
    highest_k = dew_k if air is None else air.value.highest_dew_point_k()
    if at_least(value=planned.course.span_k[0] - highest_k, low=asked_k):
        return False
    course, (from_s, until_s) = planned.course, planned.span_s
    if air is not None:
        return is_damp(course=course, air=air.value, spread_k=asked_k, from_s=from_s, until_s=until_s)
    return bool(condensation_spans(course=course, dew_point_k=dew_k, spread_k=asked_k, from_s=from_s, until_s=until_s))


def _foreseen(planned: Planned) -> tuple[float, float] | None:
    """The dew point at the start and the spread asked [K], where both are known."""
    air, asked_k = planned.resolved.air, planned.resolved.system.air_limits.dew_point_spread_k
    temperature_k, humidity = air.temperature_k.value, air.humidity_percent.value
    if asked_k is None or temperature_k is None or humidity is None:
        return None
    return dew_point(temperature_k=temperature_k, humidity_percent=humidity), asked_k


def _beyond_limits(planned: Planned) -> Iterator[str]:
    """The limits that the floor goes beyond, the system's and each product's, and those that the material does."""
    timed = planned.resolved.work.basis.value.timed
    ends_k = planned.course.reached_k(*planned.span_s) if timed else planned.course.span_k
    yield from _beyond("slab", planned.resolved.system.slab_limits.temperature_k, ends_k)
    material_k = planned.resolved.work.material_temperature_k.value
    for layer in planned.resolved.layers.value:
        yield from _beyond(f"floor {layer.product.code}", layer.product.temperature_k, ends_k)
        if layer.pour is not None:
            yield from _beyond(f"material {layer.product.code}", layer.product.temperature_k, (material_k, material_k))


def _beyond_at_start(planned: Planned) -> Iterator[str]:
    """The system's limits that floor and air go beyond when the work begins."""
    system, air, floor_k = planned.resolved.system, planned.resolved.air, _floor_at_start_k(planned)
    yield from _beyond("slab-at-start", system.slab_limits.temperature_k, (floor_k, floor_k))
    for name, value, limits in (
        ("air-at-start", air.temperature_k.value, system.air_limits.temperature_k),
        ("humidity-at-start", air.humidity_percent.value, system.air_limits.humidity_percent),
    ):
        if value is not None:
            yield from _beyond(name, limits, (value, value))


def _beyond(name: str, limits: Limits, ends_k: tuple[float, float]) -> Iterator[str]:
    for value, where in zip(ends_k, (RangeSide.BELOW, RangeSide.ABOVE), strict=True):
        if side(value=value, limits=limits) is where:
            yield f"{name} {where.value}"


_SINGLE: dict[str, Callable[[Planned], bool]] = {
    "edge": _edge,
    "end": _end,
    "people": _people,
    "age": _young,
    "spread-at-start": _spread_at_start,
    "spread-ahead": _spread_ahead,
}
"""Whether each is lost, by its name."""
_OF_THE_POUR = frozenset({"edge", "edges", "people"})
"""What the pour's own remedies mend; ``edges`` stands for those of single rooms."""
_OF_A_GOOD_START = frozenset({"edge", "people", "spread-ahead"})
