"""How the hours of the timetable came about: its steps, its returns, and the runs that the returns are from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import zone_of
from gaugerake.answers.return_times.bridge import basis_of, plan_of, runs_of
from gaugerake.answers.return_times.explain_course import Inputs
from gaugerake.answers.return_times.explain_cure import AGE_SOURCE, cure_inputs, said
from gaugerake.answers.return_times.explain_deadline import shift_inputs, work_deadline
from gaugerake.answers.return_times.explain_steps import SHIFTS, StepsWorking
from gaugerake.answers.return_times.plan import Runs, last_of_all
from gaugerake.floor.clock.shifts import RoundTheClock
from gaugerake.floor.clock.timetable import Cause, Returned, Run, Step, StepKind
from gaugerake.floor.cure.curve import Column, TimeCurve
from gaugerake.floor.values.figure import Figure

if TYPE_CHECKING:
    from gaugerake.answers.return_times.answer import ReturnTimes, TimedStep, Wait

CLOCK = "the clock"
_RULES: dict[Column, str] = {
    "low": "rule-clock-return-low",
    "likely": "rule-clock-return-likely",
    "high": "rule-clock-return",
}


def work_times(context: Context, answer: ReturnTimes) -> None:
    """Note the working of every step, every return, the deadline and the open hours."""
    runs = context.shared(runs_of)
    likely = StepsWorking(context, runs.likely, "/steps")
    likely.record(lasts=True)
    for index, (step, shown) in enumerate(zip(runs.likely.steps, answer.steps, strict=True)):
        _work_waits(context, likely, index, step, shown)
        _work_after(context, f"/steps/{index}/after", None if step.placed is None else step.placed.from_s)
        _work_after(context, f"/steps/{index}/cured_after", step.cured_s)
    _Returns(context, runs).record()
    if answer.deadline is not None:
        work_deadline(context, answer.deadline)
    _work_open_hours(context, answer)


def _work_after(context: Context, figure: str, at_s: float | None) -> None:
    if at_s is None:
        return
    start_s = context.shared(basis_of).start_s
    inputs: Inputs = {"at": said(context, at_s), "start": said(context, start_s)}
    context.record.work(figure, "rule-clock-after", inputs, Figure(at_s - start_s, "duration"), CLOCK)


def _work_waits(context: Context, steps: StepsWorking, index: int, step: Step, shown: TimedStep) -> None:
    before_s = context.shared(basis_of).start_s
    for number, wait in enumerate(shown.waits_for):
        at_s = context.shared(basis_of).start_s + wait.after.value
        at = f"/steps/{index}/waits_for/{number}"
        rule, inputs = _wait(steps, step, wait, before_s, at_s)
        context.record.work(f"{at}/until", rule, inputs, said(context, at_s), SHIFTS)
        _work_after(context, f"{at}/after", at_s)
        before_s = at_s


def _wait(steps: StepsWorking, step: Step, wait: Wait, before_s: float, at_s: float) -> tuple[str, Inputs]:
    """What ends a wait: what it was for, a shift that holds the work, or a floor within limits."""
    assert step.placed is not None
    if wait.cause in (Cause.SHIFT, Cause.TEMPERATURE):
        from_s, until_s = step.placed.stretches[0]  # of work that is split, its first part
        inputs: Inputs = {"ready": steps.said(before_s), "work": Figure(until_s - from_s, "duration")}
        shift = wait.cause is Cause.SHIFT
        fits = steps.shifts(before_s, at_s) if shift else steps.fits(before_s, at_s, step.limits_k)
        return f"rule-clock-wait-{wait.cause}", inputs | fits
    name = {Cause.START: "start", Cause.CURE: "cured"}.get(wait.cause, "ends")
    return f"rule-clock-wait-{wait.cause}", {name: steps.said(at_s)}


class _Returns:
    """Records when traffic returns in each of the three runs, and which of them is shown."""

    def __init__(self, context: Context, runs: Runs) -> None:
        self._context, self._runs = context, runs
        self._told: set[Column] = {"likely"}  # the steps of the likely run are the answer's own

    def record(self) -> None:
        """Record every class of traffic."""
        by_column: dict[Column, Run] = {run.column: run for run in self._all()}
        for index, last in enumerate(self._runs.last_returns):
            same: dict[Column, Returned] = {column: run.returns[index] for column, run in by_column.items()}
            first = min(same, key=lambda column: last_of_all(same[column]))
            self._work(index, "earliest", by_column[first], same)
            self._work(index, "likely", self._runs.likely, same)
            self._work(index, "latest", by_column[last[0]], same)
            _work_after(self._context, f"/returns/{index}/after", last[1].at_s)

    def _all(self) -> tuple[Run, ...]:
        return self._runs.earliest, self._runs.likely, self._runs.latest

    def _work(self, index: int, name: str, run: Run, same: dict[Column, Returned]) -> None:
        one, figure = run.returns[index], f"/returns/{index}/{name}"
        if one.from_s is None or one.cure is None:
            return
        if run.column not in self._told:
            self._told.add(run.column)
            StepsWorking(self._context, run, f"{figure}/steps").record(lasts=False)
        inputs = self._inputs(index, run)
        if name != "likely":
            inputs |= {f"{column}_run": said(self._context, other.at_s) for column, other in same.items()}
        self._context.record.work(figure, _RULES[run.column], inputs, said(self._context, one.at_s), AGE_SOURCE)

    def _inputs(self, index: int, run: Run) -> Inputs:
        one, plan, after = run.returns[index], self._context.shared(plan_of), self._after(index)
        assert one.from_s is not None and one.cure is not None and plan.returns_from is not None
        limits_k = plan.layers[plan.returns_from].limits_k
        inputs = cure_inputs(self._context, one.from_s, after, run.column, one.cure, limits_k)
        cleared = [step.placed.until_s for step in run.steps if step.kind is StepKind.CLEAR and step.placed is not None]
        return inputs | ({"cleared": said(self._context, max(cleared))} if cleared else {})

    def _after(self, index: int) -> TimeCurve:
        return self._context.system.returns[index].after


def _work_open_hours(context: Context, answer: ReturnTimes) -> None:
    """One working for the whole list: the shifts of the job, put on the calendar."""
    if not answer.open_hours:
        return
    runs, start = context.shared(runs_of), said(context, context.shared(basis_of).start_s)
    inputs: Inputs = {"start": start, "all_done": said(context, runs.end_s), "zone": context.shared(zone_of).name}
    inputs |= shift_inputs(context)
    for number, day in enumerate(context.job.work.closed, 1):
        inputs[f"closed_{number}"] = day.isoformat()
    all_hours = isinstance(context.shared(basis_of).hours, RoundTheClock)
    rule = "rule-clock-all-hours" if all_hours else "rule-clock-open-hours"
    context.record.work("/open_hours", rule, inputs, len(answer.open_hours), SHIFTS)
