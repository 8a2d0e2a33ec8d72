"""How the hours of the timetable came about: its steps, its returns, and the runs that the returns are from."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.sources import CLOCK, MATURITY
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.return_times.explain_cure import cure_inputs, said
from gaugerake.answers.return_times.explain_deadline import explain_deadline, shift_inputs
from gaugerake.answers.return_times.explain_labour import explain_labour
from gaugerake.answers.return_times.explain_steps import SHIFTS, StepsWorking
from gaugerake.answers.return_times.plan import Runs, Timetable, last_of_all
from gaugerake.floor.clock.shifts import RoundTheClock
from gaugerake.floor.clock.timetable import Cause, Returned, Run, Step, StepKind
from gaugerake.floor.cure.curve import Column, TimeCurve
from gaugerake.floor.values.figure import Figure, Kind

if TYPE_CHECKING:
    from gaugerake.answers.return_times.answer import ReturnTimes, TimedStep, Wait
    from gaugerake.answers.return_times.deadline import JudgedDeadline

_RULES: dict[Column, str] = {
    "low": "rule-clock-return-low",
    "likely": "rule-clock-return-likely",
    "high": "rule-clock-return",
}


def explain_times(timetable: Timetable, answer: ReturnTimes, judged: JudgedDeadline | None) -> Iterator[Working]:
    """The working of every step, every return, the deadline and the open hours."""
    runs = timetable.runs
    likely = StepsWorking(timetable, runs.likely, "/steps")
    yield from likely.record(lasts=True)
    for index, (step, shown) in enumerate(zip(runs.likely.steps, answer.steps, strict=True)):
        yield from _explain_waits(timetable, likely, index, step, shown)
        yield from _explain_after(
            timetable, f"/steps/{index}/after", None if step.placed is None else step.placed.from_s
        )
        yield from _explain_after(timetable, f"/steps/{index}/cured_after", step.cured_s)
    yield from explain_labour(timetable, answer.labour)
    yield from _Returns(timetable, runs).record()
    if judged is not None:
        yield from explain_deadline(timetable, judged)
    yield from _explain_open_hours(timetable, answer)


def _explain_after(timetable: Timetable, figure: str, at_s: float | None) -> Iterator[Working]:
    if at_s is None:
        return
    start_s = timetable.basis.start_s
    inputs: Inputs = {"at": said(timetable, at_s), "start": said(timetable, start_s)}
    yield working(figure, "rule-clock-after", inputs, Figure(at_s - start_s, Kind.DURATION), CLOCK)


def _explain_waits(
    timetable: Timetable, steps: StepsWorking, index: int, step: Step, shown: TimedStep
) -> Iterator[Working]:
    before_s = timetable.basis.start_s
    for number, wait in enumerate(shown.waits_for):
        at_s = timetable.basis.start_s + wait.after.value
        at = f"/steps/{index}/waits_for/{number}"
        rule, inputs = _wait(steps, step, wait, before_s, at_s)
        yield working(f"{at}/until", rule, inputs, said(timetable, at_s), SHIFTS)
        yield from _explain_after(timetable, f"{at}/after", at_s)
        before_s = at_s


def _wait(steps: StepsWorking, step: Step, wait: Wait, before_s: float, at_s: float) -> tuple[str, Inputs]:
    """What ends a wait: what it was for, a shift that holds the work, or a floor within limits."""
    assert step.placed is not None
    if wait.cause in (Cause.SHIFT, Cause.TEMPERATURE):
        from_s, until_s = step.placed.stretches[0]  # of work that is split, its first part
        inputs: Inputs = {"ready": steps.said(before_s), "work": Figure(until_s - from_s, Kind.DURATION)}
        shift = wait.cause is Cause.SHIFT
        fits = steps.shifts(before_s, at_s) if shift else steps.fits(before_s, at_s, step.limits_k)
        return f"rule-clock-wait-{wait.cause}", inputs | fits
    name = {Cause.START: "start", Cause.CURE: "cured", Cause.WINDOW: "held"}.get(wait.cause, "ends")
    return f"rule-clock-wait-{wait.cause}", {name: steps.said(at_s)}


class _Returns:
    """Records when traffic returns in each of the three runs, and which of them is shown."""

    def __init__(self, timetable: Timetable, runs: Runs) -> None:
        self._timetable, self._runs = timetable, runs
        self._explained_columns: set[Column] = {"likely"}  # the steps of the likely run are the answer's own

    def record(self) -> Iterator[Working]:
        """The working of every class of traffic."""
        by_column: dict[Column, Run] = {run.column: run for run in self._all()}
        for index, last in enumerate(self._runs.last_returns):
            same: dict[Column, Returned] = {column: run.returns[index] for column, run in by_column.items()}
            first = min(same, key=lambda column: last_of_all(same[column]))
            yield from self._explained(index, "earliest", by_column[first], same)
            yield from self._explained(index, "likely", self._runs.likely, same)
            yield from self._explained(index, "latest", by_column[last[0]], same)
            yield from _explain_after(self._timetable, f"/returns/{index}/after", last[1].at_s)

    def _all(self) -> tuple[Run, ...]:
        return self._runs.earliest, self._runs.likely, self._runs.latest

    def _explained(self, index: int, name: str, run: Run, same: dict[Column, Returned]) -> Iterator[Working]:
        one, figure = run.returns[index], f"/returns/{index}/{name}"
        if one.from_s is None or one.cure is None:
            return
        if run.column not in self._explained_columns:
            self._explained_columns.add(run.column)
            yield from StepsWorking(self._timetable, run, f"{figure}/steps").record(lasts=False)
        inputs = self._inputs(index, run)
        if name != "likely":
            inputs |= {f"{column}_run": said(self._timetable, other.at_s) for column, other in same.items()}
        yield working(figure, _RULES[run.column], inputs, said(self._timetable, one.at_s), MATURITY)

    def _inputs(self, index: int, run: Run) -> Inputs:
        one, plan, after = run.returns[index], self._timetable.plan, self._after(index)
        assert one.from_s is not None and one.cure is not None and plan.returns_from is not None
        limits_k = plan.layers[plan.returns_from].limits_k
        inputs = cure_inputs(self._timetable, one.from_s, after, run.column, one.cure, limits_k)
        cleared = [step.placed.until_s for step in run.steps if step.kind is StepKind.CLEAR and step.placed is not None]
        return inputs | ({"cleared": said(self._timetable, max(cleared))} if cleared else {})

    def _after(self, index: int) -> TimeCurve:
        return self._timetable.system.returns[index].after


def _explain_open_hours(timetable: Timetable, answer: ReturnTimes) -> Iterator[Working]:
    """One working for the whole list: the shifts of the job, put on the calendar."""
    if not answer.open_hours:
        return
    runs, start = timetable.runs, said(timetable, timetable.basis.start_s)
    inputs: Inputs = {"start": start, "all_done": said(timetable, runs.end_s), "zone": timetable.zone.name}
    inputs |= shift_inputs(timetable)
    for number, day in enumerate(timetable.resolved.work.closed, 1):
        inputs[f"closed_{number}"] = day.isoformat()
    all_hours = isinstance(timetable.basis.hours, RoundTheClock)
    rule = "rule-clock-all-hours" if all_hours else "rule-clock-open-hours"
    yield working("/open_hours", rule, inputs, len(answer.open_hours), SHIFTS)
