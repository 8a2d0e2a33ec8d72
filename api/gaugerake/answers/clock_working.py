"""How the hours of the timetable came about."""

from __future__ import annotations

from gaugerake.answers.context import Context
from gaugerake.answers.times import zone_of
from gaugerake.answers.work_plan import basis_of, plan_of, runs_of
from gaugerake.floor.age import Milestone
from gaugerake.floor.caution import Value
from gaugerake.floor.cure import Column, TimeCurve, time_at
from gaugerake.floor.figure import Figure
from gaugerake.floor.timetable import LayerWork, Returned, Step, StepKind

AGE_SOURCE = "ASTM C1074, equivalent age; the maker's table in the catalogue"
WORK_SOURCE = "the crew's rates in the job"


def work_runs(context: Context) -> None:
    """Note the working of every step of the likely run and of the latest return of each class."""
    runs, plan = context.shared(runs_of), context.shared(plan_of)
    works = {work.layer: work for work in plan.layers} | {
        work.broadcast: work for work in plan.layers if work.broadcast is not None
    }
    for index, step in enumerate(runs.likely.steps):
        _work_step(context, index, step, works)
    for index, (column, one) in enumerate(runs.last_returns):
        _work_return(context, index, one, column, context.system.returns[index].after)


def _work_step(context: Context, index: int, step: Step, works: dict[str, LayerWork]) -> None:
    if step.placed is None:
        return
    lasts = Figure(step.placed.until_s - step.placed.from_s, "duration")
    worked = sum(until_s - from_s for from_s, until_s in step.placed.stretches)
    begins = {"ready": _said(context, step.ready_s), "work": Figure(worked, "duration")}
    context.record.work(f"/steps/{index}/lasts", f"rule-clock-{step.kind}", begins, lasts, WORK_SOURCE)
    work = works.get(step.layer or "")
    if step.kind is StepKind.APPLY and step.cure is not None and work is not None and work.cure is not None:
        inputs = _age_inputs(context, step.placed.until_s, work.cure, "likely", step.cure)
        context.record.work(f"/steps/{index}/cured", "rule-clock-age", inputs, _said(context, step.cured_s), AGE_SOURCE)


def _work_return(context: Context, index: int, one: Returned, column: Column, after: TimeCurve) -> None:
    if one.from_s is None or one.cure is None:
        return
    inputs = _age_inputs(context, one.from_s, after, column, one.cure)
    context.record.work(f"/returns/{index}/latest", "rule-clock-return", inputs, _said(context, one.at_s), AGE_SOURCE)


def _age_inputs(context: Context, from_s: float, curve: TimeCurve, column: Column, cure: Milestone) -> dict[str, Value]:
    """The instant that age counts from, the floor and the table's time then, and the rows of the table."""
    floor_k = context.shared(basis_of).course.at(from_s)
    inputs: dict[str, Value] = {
        "work_ends": _said(context, from_s),
        "floor_then": Figure(floor_k, "temperature"),
        "time_at_that": Figure(time_at(curve, temperature_k=floor_k, column=column), "duration"),
        "activation_energy_kj_mol": curve.activation_energy_j_mol / 1000,
        "stood_still": Figure(cure.stopped_s, "duration"),
        "capped": Figure(cure.capped_s, "duration"),
    }
    for number, point in enumerate(curve.points, start=1):
        inputs[f"row_{number}_at"] = Figure(point.temperature_k, "temperature")
        inputs[f"row_{number}_takes"] = Figure(getattr(point, f"{column}_s"), "duration")
    return inputs


def _said(context: Context, instant_s: float | None) -> Value:
    """An instant as it stands in a working: on the wall clock, or as hours from the start."""
    basis = context.shared(basis_of)
    if instant_s is None:
        return None
    if not basis.timed:
        return Figure(instant_s - basis.start_s, "duration")
    return context.shared(zone_of).datetime_at(instant_s).isoformat(timespec="seconds")
