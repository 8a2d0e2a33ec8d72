"""The job as work for the clock: each layer's hours from what it needs and how fast the crew is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import CrewRates, course_of, crew_of, preparation_of, shifts_of, start_of
from gaugerake.answers.takeoff.measure import take_off
from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock
from gaugerake.floor.clock.timetable import LayerWork, Plan, Returned, Run
from gaugerake.floor.cure.course import Course, DailyCourse, LoggedCourse
from gaugerake.floor.cure.curve import Column
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.pour.edge import mix_area_m2, pace
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
    works = _Works(takeoff, crew, station_count)
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

    def __init__(self, takeoff: Takeoff, crew: CrewRates, station_count: int | None) -> None:
        self._takeoff, self._crew, self._station_count = takeoff, crew, station_count
        self._area_m2 = math.fsum(room.area_m2 for room in takeoff.rooms)
        self.found: list[LayerWork] = []
        self.returns_from: int | None = None
        self._counted = False

    def add(self, need: LayerNeed) -> None:
        """Add a layer; a broadcast joins what it is cast into, a sundry takes no time."""
        layer = need.layer
        if isinstance(layer, BroadcastLayer):
            self._cast(layer)
        elif isinstance(layer, RepairLayer | CoveLayer):
            self._append(layer, (need.likely * self._crew.seconds_per_mix(layer.product) / self._stations,))
        elif isinstance(layer, BodyLayer):
            parts_s = zip(need.room_likely, self._cadences(layer), strict=True)
            self._append(layer, tuple(mixes * cadence_s for mixes, cadence_s in parts_s))
        elif isinstance(layer, PrimerLayer | CoatLayer):
            self._append(layer, (self._area_m2 / self._crew.coating_rate_m2_s,))
        elif isinstance(layer, JointLayer):
            self._append(layer, (0.0,))

    @property
    def _stations(self) -> int:
        return self._crew.mixing_stations if self._station_count is None else self._station_count

    def _cadences(self, layer: BodyLayer) -> list[float]:
        """The time from one mix to the next in each room [s]."""
        assert layer.product.yield_m3 is not None, "the catalogue lets no body in without a yield"
        found = []
        for room in self._takeoff.rooms:
            thickness_m = (room.thickness_m or math.inf) * layer.share_fraction
            one = pace(
                mix_cycle_s=self._crew.seconds_per_mix(layer.product),
                station_count=self._stations,
                placing_rate_m2_s=self._crew.placing_rate_m2_s,
                mix_area_m2=mix_area_m2(yield_m3=layer.product.yield_m3.likely, thickness_m=thickness_m),
            )
            found.append(one.cadence_s)
        return found

    def _append(self, layer: Layer, parts_s: tuple[float, ...]) -> None:
        recoated = layer.recoat_closes is not None
        work = LayerWork(
            layer=layer.id,
            parts_s=parts_s,
            limits_k=layer.product.temperature_k,
            cure=layer.cure,
            recoat_closes=layer.recoat_closes,
            broadcast_wait=layer.broadcast_wait if isinstance(layer, BodyLayer) else None,
            abrade_s=self._area_m2 / self._crew.coating_rate_m2_s if recoated else 0.0,
            surface=not isinstance(layer, JointLayer),
        )
        self.found.append(work)
        self._count_returns(layer)

    def _count_returns(self, layer: Layer) -> None:
        """Returns count from the last coat or body; from the last surface of a system that has neither."""
        counted = isinstance(layer, BodyLayer | CoatLayer)
        if counted or (not self._counted and not isinstance(layer, JointLayer)):
            self.returns_from = len(self.found) - 1
            self._counted |= counted

    def _cast(self, layer: BroadcastLayer) -> None:
        """Cast a layer of aggregate into the one before it, whose cure and window become its own where it has them."""
        if not self.found or self.found[-1].broadcast is not None:
            self._append(layer, (0.0,))
        under = self.found[-1]
        self.found[-1] = replace(
            under,
            broadcast=layer.id if under.layer != layer.id else None,
            cure=layer.cure or under.cure,
            recoat_closes=layer.recoat_closes or under.recoat_closes,
            abrade_s=self._area_m2 / self._crew.coating_rate_m2_s if layer.recoat_closes else under.abrade_s,
            clear_s=self._area_m2 / self._crew.clearing_rate_m2_s,
        )
