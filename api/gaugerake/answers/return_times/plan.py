"""The job as work for the clock: each layer's hours from what it needs and how fast the crew is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import field
from datetime import time

from gaugerake.answers.job.remarks import Remark, Remarks
from gaugerake.answers.job.resolved import Basis, ResolvedJob
from gaugerake.answers.takeoff.measure import MeasuredTakeoff
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.runner import Runner
from gaugerake.floor.clock.timetable import LayerWork, Plan, Returned, Run
from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.cure.curve import Column
from gaugerake.floor.cure.fast.daily import prepare
from gaugerake.floor.cure.maturity import NEVER_S
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.system import System
from gaugerake.floor.values.frozen import dataclass, maker, replace
from gaugerake.floor.values.local_time import Zone


@dataclass(frozen=True, slots=True, kw_only=True)
class Runs:
    """The three forward runs of a job.

    A run that is ahead may wait for a shift until a recoat window has closed, abrade, and be overtaken. So a class of
    traffic returns at the earliest in whichever run is first, and at the latest in whichever is last.

    ``last_returns`` is derived: the latest return of each class of traffic, and the column of the run that it is in.
    """

    earliest: Run
    likely: Run
    latest: Run
    last_returns: tuple[tuple[Column, Returned], ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Look for the last returns once, as all that is said of an answer depends on them."""
        columns = [run.column for run in (self.latest, self.likely, self.earliest)]
        last = (
            max(zip(columns, same, strict=True), key=lambda found: last_of_all(found[1])) for same in self._returns()
        )
        object.__setattr__(self, "last_returns", tuple(last))

    @property
    def first_returns(self) -> tuple[Returned, ...]:
        """The soonest return of each class of traffic."""
        return tuple(min(same, key=last_of_all) for same in self._returns())

    @property
    def end_s(self) -> float:
        """When nothing of any run is still to come [s]."""
        ends = [one.at_s for _, one in self.last_returns if one.at_s is not None]
        return max([*map(run_end_s, (self.earliest, self.likely, self.latest)), *ends])

    def _returns(self) -> Iterator[tuple[Returned, ...]]:
        return zip(self.latest.returns, self.likely.returns, self.earliest.returns, strict=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """What the clock makes of a job: its work, and the three runs of it.

    ``work_remarks`` are what the takeoff and the crew's rates say.
    """

    resolved: ResolvedJob
    measured: MeasuredTakeoff
    plan: Plan
    basis: Basis
    runs: Runs
    work_remarks: Remarks

    @property
    def takeoff(self) -> Takeoff:
        """What is laid."""
        return self.measured.takeoff

    @property
    def system(self) -> System:
        """The system that is laid."""
        return self.resolved.system

    @property
    def zone(self) -> Zone:
        """The zone of the job's instants."""
        return self.resolved.work.zone.value

    @property
    def coldest_at(self) -> time:
        """The hour at which a daily wave is lowest."""
        return self.resolved.work.coldest_at.value


def make_timetable(resolved: ResolvedJob, measured: MeasuredTakeoff) -> Timetable:
    """Run the clock over the job's work.

    Raises
    ------
    Refused
        When the job's times, temperatures or shifts mean something that cannot be.
    """
    basis, plan = resolved.work.basis.value, make_plan(resolved, measured.takeoff)
    prepare(course=basis.course, curves=plan.curves)
    return Timetable(
        resolved=resolved,
        measured=measured,
        plan=plan,
        basis=basis,
        runs=runs_of(plan, basis),
        work_remarks=(*measured.remarks, *plan_remarks(resolved, measured.takeoff)),
    )


def timetable_remarks(timetable: Timetable) -> Iterator[Remark]:
    """What is assumed of the times, the rooms and the crew."""
    yield from timetable.resolved.work.basis.remarks
    yield from timetable.work_remarks


def last_of_all(one: Returned) -> float:
    """The instant of a return [s], of one that never comes after all others."""
    return math.inf if one.at_s is None else one.at_s


def run_end_s(run: Run) -> float:
    """The end of the last work or cure of a run that ends [s]."""
    end_s = run.start_s
    for step in run.steps:
        if step.placed is not None and step.placed.until_s > end_s:
            end_s = step.placed.until_s
        if step.cured_s is not None and step.cured_s > end_s:
            end_s = step.cured_s
    return end_s


def runs_of(plan: Plan, basis: Basis, budget: Budget | None = None) -> Runs:
    """The three runs, their steps counted in ``budget``."""
    earliest, likely, latest = (_runner(basis, column, budget).run(plan) for column in ("low", "likely", "high"))
    return Runs(earliest=earliest, likely=likely, latest=latest)


def likely_run(plan: Plan, basis: Basis, budget: Budget) -> Run:
    """The likely run alone, its steps counted in ``budget``."""
    return likely_runner(basis, budget).run(plan)


def likely_runner(basis: Basis, budget: Budget) -> Runner:
    """What makes likely runs, of which the next begins where its plan first differs."""
    return _runner(basis, "likely", budget)


def _runner(basis: Basis, column: Column, budget: Budget | None = None) -> Runner:
    return Runner(
        hours=basis.hours,
        course=basis.course,
        column=column,
        start_s=basis.start_s,
        until_s=basis.start_s + NEVER_S,
        budget=budget,
    )


def make_plan(resolved: ResolvedJob, takeoff: Takeoff, *, station_count: int | None = None) -> Plan:
    """The work of the job, with its own mixing stations or another number of them."""
    rates, preparation_s = resolved.work.crew.rates(), resolved.work.preparation_s.value
    crew = CrewOnSite(rooms=takeoff.rooms, rates=rates, station_count=station_count)
    works = _Works(crew, takeoff)
    for need in takeoff.layers:
        works.add(need)
    return Plan(
        preparation_s=crew.preparing_s() if preparation_s is None else preparation_s,
        sawing_s=crew.sawing_s(),
        layers=tuple(works.found),
        returns=resolved.system.returns,
        returns_from=works.returns_from,
    )


def plan_remarks(resolved: ResolvedJob, takeoff: Takeoff) -> Iterator[Remark]:
    """What is assumed of the crew, in the order of the layers that depend on it, of the sawing and the preparation."""
    crew = resolved.work.crew
    if any(room.keyway_length_m > 0 for room in takeoff.rooms):
        yield from crew.saw_rate_m_s.remarks
    for need in takeoff.layers:
        layer = need.layer
        recoated = (RateKind.COATING,) if layer.recoat_closes is not None else ()
        rates = (*recoated, *layer.rates) if layer.laid is Laid.INTO else (*layer.rates, *recoated)
        if layer.laid is not Laid.BESIDE:
            for rate in rates:
                yield from crew.remarks_on(rate, layer.product)
    yield from resolved.work.preparation_s.remarks


_make_layer_work = maker(LayerWork)


class _Works:
    """Collects the work of the layers; ``returns_from`` is the layer from which returns count."""

    def __init__(self, crew: CrewOnSite, takeoff: Takeoff) -> None:
        self._crew, self._takeoff = crew, takeoff
        self.found: list[LayerWork] = []
        self.returns_from: int | None = None
        self._counted = False

    def add(self, need: LayerNeed) -> None:
        """Add a layer: as a step of its own, cast into the step before it, or beside the work."""
        if need.layer.laid is Laid.ON:
            self._append(need)
        elif need.layer.laid is Laid.INTO:
            self._cast(need)

    def _append(self, need: LayerNeed) -> None:
        layer = need.layer
        parts_s = layer.parts_s(need, self._crew.casting(self._takeoff.cast_kg_m2(layer)))
        work = _make_layer_work(
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
