"""One column of the makers' times, run forward from one start: each step in the order of the work.

Runs that are tried one after the other are mostly the same up to some layer, and most of them come together again at
the next shift. So a runner keeps how each stage went from each state that a run came to, and does not work it again.
The steps of what is repeated are counted all the same, so that a search ends where it would have ended.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import partial

from gaugerake.floor.clock.backward import about_last_begin
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.late import MOST_LATE_STEPS, Held, NextLayer, Trial, Windows, laid_late
from gaugerake.floor.clock.schedule import SAME_INSTANT_S, Site, minute_up
from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.clock.stages import Ready, Stages, State, Worked
from gaugerake.floor.clock.timetable import Cause, LayerWork, Plan, Returned, Run, Step, StepKind
from gaugerake.floor.cure.accrual import FREEZING_K
from gaugerake.floor.cure.course import Course
from gaugerake.floor.cure.curve import Column
from gaugerake.floor.values.frozen import maker

NO_WINDOWS: Windows = frozenset()
_Key = tuple[int, float | None, bool, bool]
"""The key of a layer's stage: the id of its work, its soonest begin [s], whether the window of what is under it closes,
and whether returns count from it."""
_Stage = tuple[LayerWork, Worked, "_Known", int]
"""The work of a layer, how it went, the state after it, and the steps that it took of the clock's."""
_make_returned = maker(Returned)


class _Known:
    """A state that some run reached, with the stages and returns that were worked from it so far.

    Keys hold the ids of objects. Each entry keeps its object alive, so that no other object gets the same id.
    """

    __slots__ = ("closing", "returns", "stages", "state")

    def __init__(self, state: State) -> None:
        self.state = state
        self.closing = None if state.under is None or state.under[0].recoat_closes is None else state.under[0].layer
        """The layer whose recoat window may close before the next one is down."""
        self.stages: dict[_Key, _Stage] = {}
        self.returns: dict[tuple[int, int], tuple[Plan, tuple[Returned, ...], int]] = {}


class _Tried:
    """A run that was tried, by its stages; the list of its steps is made when it is first read."""

    __slots__ = ("_stages", "_steps", "returns")

    def __init__(self, stages: Sequence[Worked], returns: tuple[Returned, ...]) -> None:
        self._stages, self.returns = stages, returns
        self._steps: tuple[Step, ...] | None = None

    def last_layer(self) -> NextLayer:
        """How its last stage goes on from the one before it."""
        before, last = self._stages[-2:]
        step = next(step for step in last.steps if step.kind is StepKind.APPLY)
        if step.placed is None:
            return NextLayer(math.inf, stands=True)
        goes_on_s = (before.state.ready.at_s or 0.0) + step.work_s + SAME_INSTANT_S
        return NextLayer(step.placed.from_s, stands=step.placed.until_s > goes_on_s)

    @property
    def steps(self) -> tuple[Step, ...]:
        """Every step in the order of the work."""
        if self._steps is None:
            self._steps = tuple([step for stage in self._stages for step in stage.steps])
        return self._steps


class Runner:
    """Runs plans from one start on one column, by the rules of `gaugerake.floor.clock`.

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
        self._work = Stages(site=self._site, column=column)
        self._begin = State(Ready(start_s, Cause.START, None))
        self._slabs: dict[tuple[float, float], tuple[Worked, _Known, int]] = {}
        self._states: dict[tuple[object, ...], _Known] = {}
        self.taken = 0
        """The steps that the last run has counted, those of what it repeats among them."""

    def run(self, plan: Plan, *, late: bool = True, never_closing: Windows = NO_WINDOWS) -> Run:
        """The run of a plan; unless ``late``, every layer is laid as soon as it can be.

        The recoat windows of the layers ``never_closing`` are taken as if they never closed.
        """
        counting = Budget(MOST_LATE_STEPS, within=self._budget)
        found = self._tried(plan, counting, late=late, never_closing=never_closing)
        return self._run(found, cut_short=counting.ended)

    def returns(self, plan: Plan, *, late: bool = True, never_closing: Windows = NO_WINDOWS) -> tuple[Returned, ...]:
        """The returns of the same run: all that a search for an hour reads of most."""
        counting = Budget(MOST_LATE_STEPS, within=self._budget)
        return self._tried(plan, counting, late=late, never_closing=never_closing).returns

    def forward(self, plan: Plan, held: Held, never_closing: Windows = NO_WINDOWS) -> Run:
        """The run of a plan with some layers held back, and nothing looked for."""
        return self._run(self._forward(plan, held, never_closing))

    def _run(self, found: _Tried, *, cut_short: bool = False) -> Run:
        return Run(
            column=self._column,
            start_s=self._start_s,
            steps=found.steps,
            returns=found.returns,
            cut_short=cut_short,
        )

    def _tried(self, plan: Plan, counting: Budget, *, late: bool, never_closing: Windows) -> _Tried:
        def counted(held: Held, open_windows: Windows) -> _Tried:
            found = self._forward(plan, held, never_closing | open_windows)
            counting.spend(self.taken)
            return found

        if not late:
            return counted({}, NO_WINDOWS)

        def following(held: Held, open_windows: Windows, layer: str) -> NextLayer:
            found = self._forward(plan, held, never_closing | open_windows, past=layer)
            counting.spend(2 * self.taken)  # what comes before is looked up each time, which costs about as much
            return found.last_layer()

        return laid_late(
            forward=counted,
            guess=partial(self._about_last_begin, plan),
            following=following,
            opened=self._site.hours.opened_s,
            budget=counting,
        )

    def _forward(self, plan: Plan, held: Held, never_closing: Windows, *, past: str | None = None) -> _Tried:
        """The stages of a plan one after the other, each worked from the state after the one before it.

        Not beyond the layer that follows the one ``past``, if it is given: then without returns, and the steps of what
        comes before it are not counted, as no hour of them changes while it is held back.
        """
        worked, known = self._slab(plan)
        stages = [worked]
        for index, work in enumerate(plan.layers):
            closes = known.closing is not None and known.closing not in never_closing
            key = id(work), held.get(work.layer), closes, index == plan.returns_from
            _, worked, known, taken = known.stages.get(key) or self._layer(known, work, key)
            stages.append(worked)
            self.taken = taken if work.layer == past else self.taken + taken
            if index and plan.layers[index - 1].layer == past:
                return _Tried(stages, ())
        return _Tried(stages, self._returns(known, plan))

    def _about_last_begin(self, plan: Plan, layer: str, no_later_than: Trial) -> float | None:
        """About when a layer may begin at the latest [s]; no guess where it may freeze."""
        if self._site.span_k[0] < FREEZING_K:
            return None
        by_s = [math.inf if one.at_s is None else one.at_s for one in no_later_than.returns]
        hours, course = self._site.hours, self._site.course
        return about_last_begin(plan, layer=layer, hours=hours, course=course, column=self._column, by_s=by_s)

    def _slab(self, plan: Plan) -> tuple[Worked, _Known]:
        """The slab made ready, and what is known of the state after that."""
        key = plan.preparation_s, plan.sawing_s
        found = self._slabs.get(key)
        if found is None:
            spent = self._site.budget.spent
            worked = self._work.slab(self._begin, plan)
            found = self._slabs[key] = worked, self._known(worked.state), self._site.budget.spent - spent
        worked, known, self.taken = found
        return worked, known

    def _layer(self, known: _Known, work: LayerWork, key: _Key) -> _Stage:
        """Work a layer from a state, and keep how it went."""
        _, held_s, window_closes, counts = key
        spent = self._site.budget.spent
        worked = self._work.layer(known.state, work, held_s=held_s, window_closes=window_closes, counts=counts)
        found = work, worked, self._known(worked.state), self._site.budget.spent - spent
        known.stages[key] = found
        if known.closing is not None and not worked.window_asked:
            known.stages[id(work), held_s, not window_closes, counts] = found
        return found

    def _known(self, state: State) -> _Known:
        """What is known of a state, however a run came to it."""
        ready = state.ready
        below, began_s = (None, None) if state.under is None else (id(state.under[0]), state.under[1])
        key = (
            ready.at_s,
            ready.cause,
            ready.awaited,
            below,
            began_s,
            state.counted_from_s,
            state.cleared_s,
            state.ruined,
        )
        found = self._states.get(key)
        if found is None:
            found = self._states[key] = _Known(state)
        return found

    def _returns(self, known: _Known, plan: Plan) -> tuple[Returned, ...]:
        """When each class of traffic returns after the last layer."""
        work = None if plan.returns_from is None else plan.layers[plan.returns_from]
        key = id(plan.returns), id(work)
        found = known.returns.get(key)
        if found is None:
            spent = self._site.budget.spent
            returns = tuple(self._counted(known.state, plan, work))
            found = known.returns[key] = plan, returns, self._site.budget.spent - spent
        self.taken += found[2]
        return found[1]

    def _counted(self, state: State, plan: Plan, work: LayerWork | None) -> Iterator[Returned]:
        from_s = state.counted_from_s
        if work is None or from_s is None or state.ruined or state.cleared_s == math.inf:
            yield from (_make_returned(traffic=one.traffic, at_s=None) for one in plan.returns)
            return
        for one in plan.returns:
            cure = self._work.cured(one.after, from_s, work.limits_k)
            at_s = None if cure.at_s is None else minute_up(instant_s=max(cure.at_s, state.cleared_s))
            yield _make_returned(traffic=one.traffic, at_s=at_s, from_s=from_s, cure=cure)
