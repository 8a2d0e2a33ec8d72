"""What the timetable says beside its hours: what held a cure up, what never ends, where work is split or abraded."""

from __future__ import annotations

import math

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import zone_of
from gaugerake.answers.return_times.bridge import basis_of, plan_of, runs_of
from gaugerake.floor.clock.schedule import Site, Stops
from gaugerake.floor.clock.timetable import Cause, LayerWork, Returned, Run, Step, StepKind
from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.cure.curve import ASSUMED_ENERGY_J_MOL, TimeCurve
from gaugerake.floor.cure.maturity import NEVER_S, Milestone
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.range import Limits

TEMPERATURES = "/work/temperatures"
SAID_FROM_S = 60.0
"""What takes less than this is not worth a sentence."""
SAME_ROW_K = 0.05
"""A floor this close to a row of a table is at it."""


def say_runs(context: Context) -> None:
    """Note what the runs of the context's job tell."""
    runs = context.shared(runs_of)
    works = {work.broadcast or work.layer: work for work in context.shared(plan_of).layers}
    say_first_stop(context, runs.likely if not runs.likely.complete else runs.latest)
    for step in runs.likely.steps:
        _say_work(context, step)
        if step.cure is not None and step.layer in works:
            _say_cure(context, step, step.cure, works[step.layer])
    for (_, one), stated in zip(runs.last_returns, context.system.returns, strict=True):
        _say_return(context, one, stated.after)
    never = any(one.at_s is None for _, one in runs.last_returns)
    say_log(context, runs.latest.start_s, math.inf if never else runs.end_s)
    context.record.caution("floor-warmer-or-colder", TEMPERATURES)
    context.record.caution("engines-indoors")


def say_log(context: Context, from_s: float, until_s: float) -> None:
    """Where a log does not reach over a span, that its first or last reading is held, which no floor does."""
    course = context.shared(basis_of).course
    if not isinstance(course, LoggedCourse):
        return
    ends = (
        ("readings-begin-late", 0, course.instants_s[0] - from_s),
        ("readings-end-early", -1, until_s - course.instants_s[-1]),
    )
    for code, index, beyond_s in ends:
        if beyond_s > SAID_FROM_S:
            at = context.shared(zone_of).datetime_at(course.instants_s[index]).strftime("%Y-%m-%d %H:%M")
            held = Figure(course.temperatures_k[index], "temperature")
            context.record.caution(code, f"{TEMPERATURES}/readings", at=at, held=held)


def _say_return(context: Context, one: Returned, after: TimeCurve) -> None:
    counted = context.shared(plan_of).returns_from
    if one.cure is None or one.from_s is None or counted is None:
        return
    limits_k = context.shared(plan_of).layers[counted].limits_k
    what = Say(code="of-return", params={"traffic": one.traffic})
    _say_curve(context, _reached_k(context, one.from_s, one.cure, limits_k), after, what)
    if one.at_s is None:
        _say_endless(context, one.cure, Say(code="return-of", params={"traffic": one.traffic}))


def _say_work(context: Context, step: Step) -> None:
    """Splits and abrading; dust."""
    layer = _name(context, step.layer)
    if step.kind is StepKind.APPLY and step.placed is not None and step.placed.stops is not Stops.NOWHERE:
        context.record.caution(f"split-{step.placed.stops}", "/work/shifts", layer=layer)
    if step.kind is StepKind.ABRADE:
        context.record.caution("abrade-first", None, layer=layer)
    if step.kind in (StepKind.ABRADE, StepKind.CLEAR):
        context.record.caution("loose-dust")
    if step.kind is StepKind.APPLY and step.cause is Cause.WORK and step.placed is not None:
        _say_past_shift(context, step)


def _say_past_shift(context: Context, step: Step) -> None:
    """A broadcast that ends when its shift is over: by how much at most."""
    if step.placed is None or step.placed.until_s == step.placed.from_s:
        return
    over_s = max(until_s - _closes(context, from_s) for from_s, until_s in step.placed.stretches)
    if over_s > SAID_FROM_S:
        over = Figure(over_s, "minutes")
        context.record.caution("broadcast-past-shift", "/work/shifts", layer=_name(context, step.layer), over=over)


def _closes(context: Context, at_s: float) -> float:
    """The end of the shift that an instant is in, else of the one before it."""
    hours = context.shared(basis_of).hours
    open_s, close_s = next(hours.since(at_s))
    return close_s if open_s <= at_s else next(hours.before(at_s))[1]


def _say_cure(context: Context, step: Step, cure: Milestone, work: LayerWork) -> None:
    layer = _name(context, work.broadcast or work.layer)
    if cure.stopped_s > SAID_FROM_S and work.limits_k.low is not None:
        limit = Figure(work.limits_k.low, "temperature")
        lost = Figure(cure.stopped_s, "duration")
        context.record.caution("cure-stands-still", TEMPERATURES, layer=layer, limit=limit, lost=lost)
    if cure.capped_s > SAID_FROM_S and work.limits_k.high is not None:
        limit = Figure(work.limits_k.high, "temperature")
        hours = Figure(cure.capped_s, "duration")
        context.record.caution("cure-capped", TEMPERATURES, layer=layer, limit=limit, hours=hours)
    if work.cure is not None and step.placed is not None:
        what = Say(code="of-cure", params={"layer": layer})
        _say_curve(context, _reached_k(context, step.placed.until_s, cure, work.limits_k), work.cure, what)


def _reached_k(context: Context, from_s: float, cure: Milestone, limits_k: Limits) -> tuple[float, float] | None:
    """The coldest and the warmest at which age accrued [K]; None when it did not to the end."""
    if cure.at_s is None:
        return None
    coldest_k, warmest_k = context.shared(basis_of).course.reached_k(from_s, cure.at_s)
    return max(coldest_k, limits_k.low or coldest_k), min(warmest_k, limits_k.high or warmest_k)


def _say_curve(context: Context, reached_k: tuple[float, float] | None, curve: TimeCurve, what: Say) -> None:
    """What the maker's table does not reach."""
    low_k, high_k = curve.temperatures_k[0], curve.temperatures_k[-1]
    if reached_k is None or (reached_k[0] > low_k - SAME_ROW_K and reached_k[1] < high_k + SAME_ROW_K):
        return
    low, high = Figure(low_k, "temperature"), Figure(high_k, "temperature")
    if curve.energy_assumed:
        energy = ASSUMED_ENERGY_J_MOL / 1000
        context.record.caution("single-row-cure", TEMPERATURES, what=what, at=low, energy=energy)
    else:
        context.record.caution("beyond-the-table", TEMPERATURES, what=what, low=low, high=high)


def say_first_stop(context: Context, run: Run) -> None:
    """Why a run comes to an end before its work does."""
    for step in run.steps:
        if step.placed is None and step.ready_s is not None:
            _say_unplaced(context, step)
            return
        if step.cure is not None and step.cure.at_s is None:
            _say_endless(context, step.cure, Say(code="cure-of", params={"layer": _name(context, step.layer)}))
            return


def _say_unplaced(context: Context, step: Step) -> None:
    """Work without hours: no shift is open, it takes too long, or the floor is never within limits where it fits."""
    basis = context.shared(basis_of)
    assert step.ready_s is not None
    site = Site(hours=basis.hours, course=basis.course, until_s=basis.start_s + NEVER_S)
    what = _work_said(context, step)
    if site.fit(step.ready_s, 0.0) is None:
        context.record.caution("never-open", "/work/shifts", what=what)
    elif site.place(step.ready_s, (step.work_s,)) is None:
        context.record.caution("never-done", "/work/crew", what=what, work=Figure(step.work_s, "duration"))
    else:
        within = _limits_said(step.limits_k)
        context.record.caution("never-within-limits", TEMPERATURES, what=what, within=within)


def _work_said(context: Context, step: Step) -> Say:
    """A step in words."""
    return Say(code=f"step-{step.kind}", params={"layer": _name(context, step.layer)})


def _name(context: Context, layer: str | None) -> str:
    """A layer as the catalogue names it."""
    return next((one.name for one in context.system.layers if one.id == layer), layer or "")


def _limits_said(limits_k: Limits) -> Say:
    low, high = Figure(limits_k.low or 0.0, "temperature"), Figure(limits_k.high or 0.0, "temperature")
    if limits_k.high is None:
        return Say(code="not-below", params={"low": low})
    if limits_k.low is None:
        return Say(code="not-above", params={"high": high})
    return Say(code="from-to", params={"low": low, "high": high})


def _say_endless(context: Context, cure: Milestone, what: Say) -> None:
    if cure.frozen_s is None:
        context.record.caution("not-within-a-year", TEMPERATURES, what=what)
    elif context.shared(basis_of).timed:
        at = context.shared(zone_of).datetime_at(cure.frozen_s).strftime("%Y-%m-%d %H:%M")
        context.record.caution("freezes", TEMPERATURES, what=what, at=at)
    else:
        context.record.caution("freezes-untimed", TEMPERATURES, what=what)
