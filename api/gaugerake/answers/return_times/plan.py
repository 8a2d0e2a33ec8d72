"""The job as work for the clock: each layer's hours from what it needs and how fast the crew is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import course_of, crew_of, preparation_of, shifts_of, start_of
from gaugerake.answers.takeoff.measure import take_off
from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock
from gaugerake.floor.clock.timetable import LayerWork, Plan, Returned, Run
from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.cure.course import Course, DailyCourse, LoggedCourse
from gaugerake.floor.cure.curve import Column
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import zone_named


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """What the clock runs on. Without a start of the job ``timed`` is False: hours count from ``start_s``, no more."""

    hours: OpenHours
    course: Course
    start_s: float
    timed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Runs:
    """The three forward runs of a job.

    A run that is ahead may wait for a shift until a recoat window has closed, abrade, and be overtaken. So a class of
    traffic returns at the earliest in whichever run is first, and at the latest in whichever is last.
    """

    earliest: Run
    likely: Run
    latest: Run

    @property
    def first_returns(self) -> tuple[Returned, ...]:
        """The soonest return of each class of traffic."""
        return tuple(min(same, key=last_of_all) for same in self._returns())

    @property
    def last_returns(self) -> tuple[tuple[Column, Returned], ...]:
        """The latest return of each class of traffic, and the column of the run that it is in."""
        columns = [run.column for run in (self.latest, self.likely, self.earliest)]
        return tuple(
            max(zip(columns, same, strict=True), key=lambda found: last_of_all(found[1])) for same in self._returns()
        )

    @property
    def end_s(self) -> float:
        """When nothing of any run is still to come [s]."""
        ends = [one.at_s for _, one in self.last_returns if one.at_s is not None]
        return max([*map(run_end_s, (self.earliest, self.likely, self.latest)), *ends])

    def _returns(self) -> Iterator[tuple[Returned, ...]]:
        return zip(self.latest.returns, self.likely.returns, self.earliest.returns, strict=True)


def last_of_all(one: Returned) -> float:
    """The instant of a return [s], of one that never comes after all others."""
    return math.inf if one.at_s is None else one.at_s


def run_end_s(run: Run) -> float:
    """The end of the last work or cure of a run that ends [s]."""
    ends = [run.start_s]
    for step in run.steps:
        ends += [step.placed.until_s] if step.placed else []
        ends += [step.cured_s] if step.cured_s is not None else []
    return max(ends)


def basis_of(context: Context) -> Basis:
    """The job's hours, temperatures and start.

    Without a start work goes round the clock, from the coldest hour of a daily wave or the first reading of a log.
    """
    start, course = context.shared(start_of), context.shared(course_of)
    if start is not None:
        return Basis(hours=context.shared(shifts_of), course=course, start_s=start.timestamp(), timed=True)
    context.record.lack("start-unsaid", "/work/start")
    start_s = 0.0
    if isinstance(course, DailyCourse):
        course, start_s = replace(course, zone=zone_named("UTC")), course.coldest_at_s
        context.record.assume("start-at-coldest", "/work/start", Figure(course.low_k, "temperature"))
    elif isinstance(course, LoggedCourse):
        start_s = course.instants_s[0]
        context.record.assume("start-at-first-reading", "/work/start", Figure(course.temperatures_k[0], "temperature"))
    return Basis(hours=RoundTheClock(), course=course, start_s=start_s, timed=False)


def runs_of(context: Context) -> Runs:
    """The three runs; call as ``context.shared(runs_of)``."""
    plan, basis = context.shared(plan_of), context.shared(basis_of)
    earliest, likely, latest = (
        run(plan, hours=basis.hours, course=basis.course, column=column, start_s=basis.start_s)
        for column in ("low", "likely", "high")
    )
    return Runs(earliest=earliest, likely=likely, latest=latest)


def plan_of(context: Context) -> Plan:
    """The work of the job; call as ``context.shared(plan_of)``."""
    return make_plan(context, station_count=None)


def make_plan(context: Context, *, station_count: int | None) -> Plan:
    """The work of the job, with its own mixing stations or another number of them."""
    takeoff, crew = context.shared(take_off), context.shared(crew_of)
    works = _Works(CrewOnSite(rooms=takeoff.rooms, rates=crew, station_count=station_count))
    for need in takeoff.layers:
        works.add(need)
    return Plan(
        preparation_s=context.shared(preparation_of),
        layers=tuple(works.found),
        returns=context.system.returns,
        returns_from=works.returns_from,
    )


class _Works:
    """The layers as work, in the making; ``returns_from`` is the layer from which returns count."""

    def __init__(self, crew: CrewOnSite) -> None:
        self._crew = crew
        self.found: list[LayerWork] = []
        self.returns_from: int | None = None
        self._counted = False

    def add(self, need: LayerNeed) -> None:
        """Add a layer as its kind is laid: as a step of its own, into the step before it, or not at all."""
        if need.layer.laid is Laid.ON:
            self._append(need)
        elif need.layer.laid is Laid.INTO:
            self._cast(need)

    def _append(self, need: LayerNeed) -> None:
        layer, parts_s = need.layer, need.layer.parts_s(need, self._crew)
        work = LayerWork(
            layer=layer.id,
            parts_s=parts_s,
            limits_k=layer.product.temperature_k,
            cure=layer.cure,
            recoat_closes=layer.recoat_closes,
            broadcast_wait=layer.pour.broadcast_wait if layer.pour else None,
            abrade_s=self._crew.coating_s() if layer.recoat_closes is not None else 0.0,
            surface=layer.bonds,
        )
        self.found.append(work)
        self._count_returns(layer)

    def _count_returns(self, layer: Layer) -> None:
        """Returns count from the last layer whose kind says so; from the last surface of a system that has none."""
        if layer.returns_count or (not self._counted and layer.bonds):
            self.returns_from = len(self.found) - 1
            self._counted |= layer.returns_count

    def _cast(self, need: LayerNeed) -> None:
        """Cast a layer into the one before it, whose cure and window become its own where it has them."""
        layer = need.layer
        if not self.found or self.found[-1].broadcast is not None:
            self._append(need)
        under = self.found[-1]
        self.found[-1] = replace(
            under,
            broadcast=layer.id if under.layer != layer.id else None,
            cure=layer.cure or under.cure,
            recoat_closes=layer.recoat_closes or under.recoat_closes,
            abrade_s=self._crew.coating_s() if layer.recoat_closes else under.abrade_s,
            clear_s=layer.clear_s(self._crew),
        )
