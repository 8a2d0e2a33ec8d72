"""The clock of a job: which layer is worked when, when it has cured, when traffic returns.

A run goes forward from a start. Work waits for what is under it to cure, for a shift that it fits, and for a floor
within its product's temperatures. Cures run always, in real hours. Earliest, likely and latest are three whole runs,
each on its own column of the makers' tables.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.late import MOST_LATE_STEPS, Held, laid_late
from gaugerake.floor.clock.schedule import ANY_TEMPERATURE, SAME_INSTANT_S, Placed, Site
from gaugerake.floor.clock.shifts import OpenHours, Stretch
from gaugerake.floor.clock.timetable import Cause, LayerWork, Plan, Returned, Run, Step, StepKind
from gaugerake.floor.cure.course import Course
from gaugerake.floor.cure.curve import Column, TimeCurve, time_at
from gaugerake.floor.cure.maturity import NEVER_S, Milestone, milestone
from gaugerake.floor.values.range import Limits

STEPS_OF_A_CURE = 3
"""What it takes to find when one ends, beside the hours of a room."""


def run(
    plan: Plan,
    *,
    hours: OpenHours,
    course: Course,
    column: Column,
    start_s: float,
    until_s: float | None = None,
    budget: Budget | None = None,
    late: bool = True,
) -> Run:
    """Run the clock forward.

    Parameters
    ----------
    plan : Plan
        The work.
    hours : OpenHours
        When the crew works.
    course : Course
        The floor's temperature.
    column : {"low", "likely", "high"}
        Which of the makers' times: the earliest, the likely or the latest run.
    start_s : float [s]
        The instant from which work may begin.
    until_s : float [s], optional
        Where to stop looking; 365 days after ``start_s`` unless given, and never later.
    budget : Budget, optional
        Where the steps of the run are counted; they do not stop it.
    late : bool
        False lays every layer as soon as it can be, and abrades it where that is too soon.

    Returns
    -------
    Run
        Every step and every return; what is not reached has no instant.

    Notes
    -----
    The aggregate of a broadcast is cast by the crew that has poured, even where its wait runs past the shift or the
    floor goes under the product's low limit meanwhile. A recoat window is read at its lowest time in all three runs;
    a layer that would be abraded is laid later where that spares it and costs no return (`gaugerake.floor.clock.late`).
    Traffic returns no earlier than loose aggregate is cleared.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> from gaugerake.floor.cure.curve import time_curve, time_point
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> from gaugerake.floor.clock.timetable import Return
    >>> overnight = time_curve([time_point(temperature_k=293.15, likely_s=36000.0)])
    >>> coat = LayerWork(layer="coat", parts_s=(7200.0,), cure=overnight)
    >>> plan = Plan(preparation_s=3600.0, layers=(coat,), returns=(Return(traffic="foot", after=overnight),),
    ...             returns_from=0)
    >>> done = run(plan, hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15), column="likely", start_s=0.0)
    >>> done.returns[0].at_s / 3600
    13.0

    References
    ----------
    The rules of the clock in `gaugerake.floor.clock`.
    """
    end_s = start_s + NEVER_S
    until_s = end_s if until_s is None else min(until_s, end_s)
    counting = Budget(MOST_LATE_STEPS, within=budget)
    site = Site(hours=hours, course=course, until_s=until_s, budget=counting)

    def forward(plan: Plan, held: Held) -> Run:
        runner = _Runner(plan, site, column, start_s, held)
        runner.go()
        return Run(column=column, start_s=start_s, steps=tuple(runner.steps), returns=runner.returns())

    return laid_late(plan=plan, forward=forward, budget=counting) if late else forward(plan, {})


def minute_up(*, instant_s: float) -> float:
    """An instant rounded up to the minute.

    Parameters
    ----------
    instant_s : float [s]
        The instant.

    Returns
    -------
    float
        The first whole minute not before it [s].

    Notes
    -----
    A millisecond past the minute is float noise and not a minute more.

    Examples
    --------
    >>> minute_up(instant_s=61.0), minute_up(instant_s=60.0000001)
    (120.0, 60.0)

    References
    ----------
    Our own rule: a return time is never shown too early.
    """
    return math.ceil((instant_s - SAME_INSTANT_S) / 60) * 60.0


class _Runner:
    """A run in the making."""

    def __init__(self, plan: Plan, site: Site, column: Column, start_s: float, held: Held) -> None:
        self._plan, self._site, self._column, self._held = plan, site, column, held
        self.steps: list[Step] = []
        self._ready_s: float | None = start_s
        self._cause = Cause.START
        self._awaited: str | None = None
        self._under: tuple[LayerWork, float] | None = None  # what the next layer bonds to, and when its work began
        self._counted_from_s: float | None = None
        self._cleared_s = -math.inf
        self._ruined = False

    def go(self) -> None:
        """Take every step in the order of the work."""
        if self._plan.preparation_s > 0:
            self._rework(StepKind.PREPARE, None, self._plan.preparation_s)
        if self._plan.sawing_s > 0:
            self._rework(StepKind.SAW, None, self._plan.sawing_s)
        for index, work in enumerate(self._plan.layers):
            worked_s = self._layer(work)
            if index == self._plan.returns_from:
                self._counted_from_s = worked_s

    def returns(self) -> tuple[Returned, ...]:
        """When each class of traffic returns."""
        from_s, index = self._counted_from_s, self._plan.returns_from
        if from_s is None or index is None or self._ruined or self._cleared_s == math.inf:
            return tuple(Returned(traffic=one.traffic, at_s=None) for one in self._plan.returns)
        limits_k = self._plan.layers[index].limits_k
        found = []
        for one in self._plan.returns:
            cure = self._cured(one.after, self._column, from_s, limits_k)
            at_s = None if cure.at_s is None else minute_up(instant_s=max(cure.at_s, self._cleared_s))
            found.append(Returned(traffic=one.traffic, at_s=at_s, from_s=from_s, cure=cure))
        return tuple(found)

    def _cured(self, curve: TimeCurve, column: Column, from_s: float, limits_k: Limits) -> Milestone:
        self._site.budget.spend(STEPS_OF_A_CURE)
        return milestone(
            curve=curve,
            column=column,
            course=self._site.course,
            from_s=from_s,
            until_s=self._site.until_s,
            low_k=limits_k.low,
            high_k=limits_k.high,
        )

    def _rework(self, kind: StepKind, layer: str | None, work_s: float) -> None:
        """A step that lays nothing: prepare, saw, abrade, clear."""
        placed = None if self._ready_s is None else self._site.place(self._ready_s, (work_s,))
        self._append(kind, layer, placed, work_s, ANY_TEMPERATURE)
        self._wait(None if placed is None else placed.until_s, Cause.WORK, layer)

    def _append(
        self,
        kind: StepKind,
        layer: str | None,
        placed: Placed | None,
        work_s: float,
        limits_k: Limits,
        cured_s: float | None = None,
        cure: Milestone | None = None,
        held_s: float | None = None,
    ) -> None:
        step = Step(
            kind=kind,
            layer=layer,
            placed=placed,
            work_s=work_s,
            ready_s=self._ready_s,
            cause=self._cause,
            awaited=self._awaited,
            held_s=held_s,
            cured_s=cured_s,
            cure=cure,
            limits_k=limits_k,
        )
        self.steps.append(step)

    def _wait(self, ready_s: float | None, cause: Cause, awaited: str | None) -> None:
        self._ready_s, self._cause, self._awaited = ready_s, cause, awaited

    def _layer(self, work: LayerWork) -> float | None:
        """Work a layer and what is cast into it; the end of that work."""
        placed = self._place(work)
        if placed is not None and self._window_closed(placed):
            assert self._under is not None
            self._rework(StepKind.ABRADE, self._under[0].layer, self._under[0].abrade_s)
            placed = self._place(work)
        if placed is not None and work.surface:
            self._under = work, placed.from_s
        worked_s = self._lay(work, placed)
        if work.clear_s > 0:
            self._rework(StepKind.CLEAR, work.broadcast, work.clear_s)
            self._cleared_s = math.inf if self._ready_s is None else self._ready_s
        return worked_s

    def _lay(self, work: LayerWork, placed: Placed | None) -> float | None:
        """Note the steps of a layer and wait for its cure, which is that of what is cast into it too."""
        cast = placed if placed is None or work.broadcast is None else self._broadcast(work, placed)
        worked_s = None if cast is None else cast.until_s
        cured_s, cure = self._cure(work, worked_s)
        held_s = self._held.get(work.layer)
        self._append(StepKind.APPLY, work.layer, placed, sum(work.parts_s), work.limits_k, cured_s, cure, held_s)
        if work.broadcast is not None:
            self._wait(None if cast is None else cast.from_s, Cause.WORK, work.layer)
            self._append(StepKind.APPLY, work.broadcast, cast, 0.0, work.limits_k, cured_s, cure)
        self._wait(cured_s, Cause.WORK if work.cure is None else Cause.CURE, work.broadcast or work.layer)
        return worked_s

    def _cure(self, work: LayerWork, worked_s: float | None) -> tuple[float | None, Milestone | None]:
        """When the layer has cured, and how; without a table, when its work ends."""
        if work.cure is None or worked_s is None:
            return worked_s, None
        cure = self._cured(work.cure, self._column, worked_s, work.limits_k)
        self._ruined |= cure.frozen_s is not None
        return cure.at_s, cure

    def _place(self, work: LayerWork) -> Placed | None:
        if self._ready_s is None:
            return None
        free_s = max(self._ready_s, self._held.get(work.layer, self._ready_s))
        return self._site.place(free_s, work.parts_s, work.limits_k)

    def _window_closed(self, placed: Placed) -> bool:
        """Whether what is under this work has stood too long by its end, counted from its own first square foot."""
        if self._under is None:
            return False
        under, began_s = self._under
        if under.recoat_closes is None:
            return False
        if placed.until_s - began_s <= self._soonest(under.recoat_closes, under.limits_k):
            return False
        closes_s = self._cured(under.recoat_closes, "low", began_s, under.limits_k).at_s
        return closes_s is not None and placed.until_s > closes_s + SAME_INSTANT_S

    def _soonest(self, curve: TimeCurve, limits_k: Limits) -> float:
        """The least time that a window can take on this course: were it always as warm as it ever is [s]."""
        warmest_k = self._site.course.span_k[1]
        if limits_k.high is not None:
            warmest_k = min(warmest_k, limits_k.high)
        return time_at(curve, temperature_k=warmest_k, column="low") - SAME_INSTANT_S

    def _broadcast(self, work: LayerWork, placed: Placed) -> Placed | None:
        if work.broadcast_wait is None:
            return placed
        stretches = tuple(self._cast(work.broadcast_wait, work.wait_limits_k, *one) for one in joined(placed.stretches))
        kept = tuple((from_s, until_s) for from_s, until_s in stretches if until_s is not None)
        return Placed(stretches=kept) if len(kept) == len(stretches) else None

    def _cast(
        self, wait: TimeCurve, limits_k: Limits, poured_from_s: float, poured_until_s: float
    ) -> tuple[float, float | None]:
        """When aggregate is cast into what is poured without a stop."""
        until_s = self._cured(wait, "high", poured_until_s, limits_k).at_s
        first_s = poured_from_s + time_at(wait, temperature_k=self._site.course.at(poured_from_s), column="low")
        return first_s if until_s is None else min(first_s, until_s), until_s


def joined(stretches: Sequence[Stretch]) -> list[Stretch]:
    """Hours of work, those that follow each other without a stop made one.

    Parameters
    ----------
    stretches : sequence of Stretch
        Hours of work, each by its start and its end [s], in order.

    Returns
    -------
    list of Stretch
        The same hours, no two of which meet.

    Examples
    --------
    >>> joined([(0.0, 3600.0), (3600.0, 7200.0), (9000.0, 9600.0)])
    [(0.0, 7200.0), (9000.0, 9600.0)]

    References
    ----------
    Our own.
    """
    found: list[Stretch] = []
    for from_s, until_s in stretches:
        if found and from_s - found[-1][1] < SAME_INSTANT_S:
            found[-1] = (found[-1][0], until_s)
        else:
            found.append((from_s, until_s))
    return found
