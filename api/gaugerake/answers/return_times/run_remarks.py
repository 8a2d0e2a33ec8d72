"""What the pour plan says of a run as well: why it stops before its work is done, and where a log does not reach."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.floor.clock.schedule import Site
from gaugerake.floor.clock.timetable import Run, Step
from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.cure.maturity import NEVER_S, Milestone
from gaugerake.floor.system import System
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.range import Limits

TEMPERATURES = "/work/temperatures"
SAID_FROM_S = 60.0
"""What takes less than this is not worth a sentence."""


def log_remarks(resolved: ResolvedJob, from_s: float, until_s: float) -> Iterator[Remark]:
    """A caution where a log does not reach over a span: its first or last reading is held, which no real floor does."""
    course = resolved.work.basis.value.course
    if not isinstance(course, LoggedCourse):
        return
    ends = (
        ("readings-begin-late", 0, course.instants_s[0] - from_s),
        ("readings-end-early", -1, until_s - course.instants_s[-1]),
    )
    for code, index, beyond_s in ends:
        if beyond_s > SAID_FROM_S:
            at = _local(resolved, course.instants_s[index])
            held = Figure(course.temperatures_k[index], Kind.TEMPERATURE)
            yield caution(code, f"{TEMPERATURES}/readings", at=at, held=held)


def air_log_remarks(resolved: ResolvedJob, until_s: float) -> Iterator[Remark]:
    """A caution where readings of the air end before a span does, and the system asks for a dew-point spread."""
    air = resolved.air.course
    if air is None or resolved.system.air_limits.dew_point_spread_k is None:
        return
    ends_s = air.value.instants_s[-1]
    if until_s - ends_s > SAID_FROM_S:
        yield caution("air-readings-end-early", "/air/readings", at=_local(resolved, ends_s))


def first_stop_remarks(resolved: ResolvedJob, run: Run) -> Iterator[Remark]:
    """Why a run comes to an end before its work does."""
    for step in run.steps:
        if step.placed is None and step.ready_s is not None:
            yield _unplaced(resolved, step, step.ready_s)
            return
        if step.cure is not None and step.cure.at_s is None:
            what = Say(code="cure-of", params={"layer": layer_name(resolved, step.layer)})
            yield endless_remark(resolved, step.cure, what)
            return


def endless_remark(resolved: ResolvedJob, cure: Milestone, what: Say) -> Remark:
    """A caution that a cure or a return does not come within a year, or stands still from some day on."""
    if cure.frozen_s is None:
        return caution("not-within-a-year", TEMPERATURES, what=what)
    if resolved.work.basis.value.timed:
        return caution("freezes", TEMPERATURES, what=what, at=_local(resolved, cure.frozen_s))
    return caution("freezes-untimed", TEMPERATURES, what=what)


_TOLD_BY_KIND = frozenset({"repair", "cove"})


def layer_name(resolved: ResolvedJob, layer: str | None) -> str | Say:
    """A layer as the catalogue names it; a repair or cove by its kind as well, where another layer has that name."""
    layers = resolved.system.layers
    found = next((one for one in layers if one.id == layer), None)
    if found is None:
        return layer or ""
    if found.kind not in _TOLD_BY_KIND or sum(one.name == found.name for one in layers) == 1:
        return found.name
    return Say(code=f"layer-{found.kind}", params={"layer": found.name})


def stop_place(system: System) -> Say:
    """Where a pour may stop within a room: at a keyway where the system anchors its edges, else at a taped edge."""
    return Say(code="stop-at-edge" if system.keyway is None else "stop-at-keyway")


def _unplaced(resolved: ResolvedJob, step: Step, ready_s: float) -> Remark:
    """Work without hours: no shift is open, it takes too long, or the floor is never within limits where it fits."""
    basis = resolved.work.basis.value
    site = Site(hours=basis.hours, course=basis.course, until_s=basis.start_s + NEVER_S)
    what = Say(code=f"step-{step.kind}", params={"layer": layer_name(resolved, step.layer)})
    if site.fit(ready_s, 0.0) is None:
        return caution("never-open", "/work/shifts", what=what)
    if site.place(ready_s, (step.work_s,)) is None:
        return caution("never-done", "/work/crew", what=what, work=Told(step.work_s, Kind.DURATION, Telling.WORK))
    return caution("never-within-limits", TEMPERATURES, what=what, within=_limits_said(step.limits_k))


def _limits_said(limits_k: Limits) -> Say:
    low, high = Figure(limits_k.low or 0.0, Kind.TEMPERATURE), Figure(limits_k.high or 0.0, Kind.TEMPERATURE)
    if limits_k.high is None:
        return Say(code="not-below", params={"low": low})
    if limits_k.low is None:
        return Say(code="not-above", params={"high": high})
    return Say(code="from-to", params={"low": low, "high": high})


def _local(resolved: ResolvedJob, at_s: float) -> str:
    return resolved.work.zone.value.datetime_at(at_s).strftime("%Y-%m-%d %H:%M")
