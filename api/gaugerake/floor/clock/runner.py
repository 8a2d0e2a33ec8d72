"""One column of the makers' times, run forward from one start: each step in the order of the work.

Plans that are tried one after the other are mostly the same up to some layer, and most of them come together again at
the next shift. So a runner keeps how it worked each layer, and does not work it out again where everything that the
layer hangs on is as it was. The steps of what is repeated are counted all the same, so that a search ends where it
would have ended.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial

from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.late import MOST_LATE_STEPS, Held, laid_late
from gaugerake.floor.clock.schedule import ANY_TEMPERATURE, SAME_INSTANT_S, Placed, Site, joined, minute_up
from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.clock.timetable import Cause, LayerWork, Plan, Returned, Run, Step, StepKind
from gaugerake.floor.cure.course import Course
from gaugerake.floor.cure.curve import Column, TimeCurve, time_at
from gaugerake.floor.cure.maturity import Milestone, milestone
from gaugerake.floor.values.range import Limits

STEPS_OF_A_CURE = 3
"""What it takes to find when one ends, beside the hours of a room."""
_State = tuple[float | None, Cause, str | None, tuple[LayerWork, float] | None, float | None, float, bool]
"""What the rest of a run hangs on; the attributes of a runner in `_state` say what each is."""
_Known = tuple[object, _State, tuple[Step, ...], _State, int]
"""A stage and the state that it was begun in; its steps, the state after it, and how many of the clock's it took.

What is looked up by id is held here, so that nothing else comes to have its id.
"""


class Runner:
    """Runs plans from one start on one column.

    Parameters
    ----------
    hours : OpenHours
        When the crew works.
    course : Course
        The floor's temperature.
    column : {"low", "likely", "high"}
        Which of the makers' times.
    start_s : float [s]
        The instant from which work may begin.
    until_s : float [s]
        Where to stop looking.
    budget : Budget, optional
        Where the steps of all runs are counted; they do not stop them.

    Examples
    --------
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> runner = Runner(hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15), column="likely",
    ...                 start_s=0.0, until_s=86400.0)
    >>> runner.run(Plan(preparation_s=3600.0, layers=(), returns=(), returns_from=None)).steps[0].placed.until_s
    3600.0

    References
    ----------
    The rules of the clock in `gaugerake.floor.clock`.
    """

    def __init__(
        self,
        *,
        hours: OpenHours,
        course: Course,
        column: Column,
        start_s: float,
        until_s: float,
        budget: Budget | None = None,
    ) -> None:
        self._site = Site(hours=hours, course=course, until_s=until_s)
        self._column, self._start_s, self._budget = column, start_s, budget
        self._begin: _State = (start_s, Cause.START, None, None, None, -math.inf, False)
        self._stages: dict[tuple[object, ...], _Known] = {}
        self._cures: dict[tuple[object, ...], tuple[TimeCurve, Milestone]] = {}
        self._returned: dict[tuple[object, ...], tuple[Plan, tuple[Returned, ...], int]] = {}

    def run(self, plan: Plan, *, late: bool = True) -> Run:
        """The run of a plan; unless ``late``, every layer is laid as soon as it can be."""
        counting = Budget(MOST_LATE_STEPS, within=self._budget)

        def counted(plan: Plan, held: Held) -> Run:
            found = self.forward(plan, held)
            counting.spend(self.taken)
            return found

        return laid_late(plan=plan, forward=counted, budget=counting) if late else counted(plan, {})

    def forward(self, plan: Plan, held: Held) -> Run:
        """The run of a plan with some layers held back, and nothing looked for."""
        self._go(plan, held)
        returns = self._returns(plan)
        return Run(column=self._column, start_s=self._start_s, steps=tuple(self._steps), returns=returns)

    @property
    def taken(self) -> int:
        """The steps that this run has counted, those of what it repeats among them."""
        return self._site.budget.spent + self._repeated

    def _go(self, plan: Plan, held: Held) -> None:
        """Take every step in the order of the work."""
        self._held, self._repeated = held, -self._site.budget.spent
        self._steps: list[Step] = []
        self._take_up(self._begin)
        self._stage((plan.preparation_s, plan.sawing_s), plan, partial(self._slab, plan))
        for index, work in enumerate(plan.layers):
            counts = index == plan.returns_from
            self._stage((id(work), held.get(work.layer), counts), work, partial(self._work, work, counts))

    def _stage(self, of: tuple[object, ...], stage: object, take: Callable[[], None]) -> None:
        """Take a stage, or repeat what it came to from the same state."""
        before = ready_s, cause, awaited, under, *rest = self._state()
        under_id, under_s = (None, None) if under is None else (id(under[0]), under[1])
        key = *of, ready_s, cause, awaited, under_id, under_s, *rest
        known = self._stages.get(key)
        if known is None:
            noted, taken = len(self._steps), self.taken
            take()
            self._stages[key] = stage, before, tuple(self._steps[noted:]), self._state(), self.taken - taken
            return
        _, _, steps, after, taken = known
        self._steps += steps
        self._repeated += taken
        self._take_up(after)

    def _work(self, work: LayerWork, counts: bool) -> None:
        worked_s = self._layer(work)
        if counts:
            self._counted_from_s = worked_s

    def _state(self) -> _State:
        return (
            self._ready_s,
            self._cause,
            self._awaited,
            self._under,  # what the next layer bonds to, and when its work began
            self._counted_from_s,
            self._cleared_s,
            self._ruined,
        )

    def _take_up(self, state: _State) -> None:
        (
            self._ready_s,
            self._cause,
            self._awaited,
            self._under,
            self._counted_from_s,
            self._cleared_s,
            self._ruined,
        ) = state

    def _slab(self, plan: Plan) -> None:
        if plan.preparation_s > 0:
            self._rework(StepKind.PREPARE, None, plan.preparation_s)
        if plan.sawing_s > 0:
            self._rework(StepKind.SAW, None, plan.sawing_s)

    def _returns(self, plan: Plan) -> tuple[Returned, ...]:
        """When each class of traffic returns, or what that came to from the same work."""
        work = None if plan.returns_from is None else plan.layers[plan.returns_from]
        key = id(plan.returns), id(work), self._counted_from_s, self._cleared_s, self._ruined
        known = self._returned.get(key)
        if known is None:
            taken = self.taken
            returns = self._counted(plan)
            self._returned[key] = plan, returns, self.taken - taken
            return returns
        self._repeated += known[2]
        return known[1]

    def _counted(self, plan: Plan) -> tuple[Returned, ...]:
        from_s, index = self._counted_from_s, plan.returns_from
        if from_s is None or index is None or self._ruined or self._cleared_s == math.inf:
            return tuple(Returned(traffic=one.traffic, at_s=None) for one in plan.returns)
        limits_k = plan.layers[index].limits_k
        found = []
        for one in plan.returns:
            cure = self._cured(one.after, self._column, from_s, limits_k)
            at_s = None if cure.at_s is None else minute_up(instant_s=max(cure.at_s, self._cleared_s))
            found.append(Returned(traffic=one.traffic, at_s=at_s, from_s=from_s, cure=cure))
        return tuple(found)

    def _cured(self, curve: TimeCurve, column: Column, from_s: float, limits_k: Limits) -> Milestone:
        self._site.budget.spend(STEPS_OF_A_CURE)
        key = id(curve), column, from_s, limits_k.low, limits_k.high
        known = self._cures.get(key)
        if known is None:
            found = milestone(
                curve=curve,
                column=column,
                course=self._site.course,
                from_s=from_s,
                until_s=self._site.until_s,
                low_k=limits_k.low,
                high_k=limits_k.high,
            )
            self._cures[key] = curve, found
            return found
        return known[1]

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
        self._steps.append(step)

    def _wait(self, ready_s: float | None, cause: Cause, awaited: str | None) -> None:
        self._ready_s, self._cause, self._awaited = ready_s, cause, awaited

    def _layer(self, work: LayerWork) -> float | None:
        """Work a layer and what is cast into it; the end of that work."""
        placed = self._hours(work)
        if placed is not None and self._window_closed(placed):
            assert self._under is not None
            self._rework(StepKind.ABRADE, self._under[0].layer, self._under[0].abrade_s)
            placed = self._hours(work)
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
        self._append(StepKind.APPLY, work.layer, placed, math.fsum(work.parts_s), work.limits_k, cured_s, cure, held_s)
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

    def _hours(self, work: LayerWork) -> Placed | None:
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
