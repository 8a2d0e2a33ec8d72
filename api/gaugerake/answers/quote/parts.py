"""The parts of a quote asked for alone; what one needs of the others is made here and passed on."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.errors import Refused
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.answer import PourPlan, pour_plan
from gaugerake.answers.quantities.answer import Quantities, quantities
from gaugerake.answers.quote.faults import job_faults, refusing_all, slab_faults
from gaugerake.answers.readiness.ahead import NO_PLAN, PlannedSpan, needs_plan
from gaugerake.answers.readiness.answer import readiness
from gaugerake.answers.readiness.body import Readiness
from gaugerake.answers.return_times.answer import ReturnTimes, return_times, work_span
from gaugerake.answers.return_times.plan import Timetable, make_timetable, timetable_remarks
from gaugerake.answers.takeoff.measure import MeasuredTakeoff, measure_job
from gaugerake.answers.takeoff.survey import Survey, survey_rooms


@refusing_all(slab_faults)
def readiness_alone(resolved: ResolvedJob, *, explained: bool = False) -> Answer[Readiness]:
    """Whether the slab is ready; the work is planned only where that depends on it.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    survey = survey_rooms(resolved.rooms)
    return _readiness(resolved, survey, partial(measure_job, resolved, survey), explained=explained)


@refusing_all(job_faults)
def quantities_alone(resolved: ResolvedJob, *, explained: bool = False) -> Answer[Quantities]:
    """What to load.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    survey = survey_rooms(resolved.rooms)
    measured = measure_job(resolved, survey)
    slab = _readiness(resolved, survey, lambda: measured).body.verdict
    return quantities(resolved, measured, slab=slab, explained=explained)


@refusing_all(job_faults)
def pour_plan_alone(resolved: ResolvedJob, *, explained: bool = False) -> Answer[PourPlan]:
    """How to pour, mix by mix.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    return pour_plan(_timetable(resolved, survey_rooms(resolved.rooms)), explained=explained)


@refusing_all(job_faults)
def return_times_alone(resolved: ResolvedJob, *, explained: bool = False) -> Answer[ReturnTimes]:
    """When each step is done and traffic returns.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    return return_times(_timetable(resolved, survey_rooms(resolved.rooms)), explained=explained)


def planned_by(timetable: Timetable) -> PlannedSpan:
    """The span of the work, and what the timetable rests on; without a start that is the times alone."""
    if not timetable.basis.timed:
        return PlannedSpan(remarks=timetable.resolved.work.basis.remarks)
    return PlannedSpan(span=work_span(timetable), remarks=tuple(timetable_remarks(timetable)))


def planned_span(
    resolved: ResolvedJob, survey: Survey, *, measured: MeasuredTakeoff | None, timetable: Timetable | None
) -> PlannedSpan:
    """When the work is done, from as much as is known already; it is planned only where the slab depends on it."""
    if not needs_plan(resolved):
        return NO_PLAN
    if timetable is not None:
        return planned_by(timetable)
    return _planned(resolved, lambda: measured or measure_job(resolved, survey))


def _readiness(
    resolved: ResolvedJob, survey: Survey, measure: Callable[[], MeasuredTakeoff], *, explained: bool = False
) -> Answer[Readiness]:
    """``measure`` is called only where the work must be planned."""
    planned = _planned(resolved, measure) if needs_plan(resolved) else NO_PLAN
    return readiness(resolved, survey=survey, planned=planned, explained=explained)


def _planned(resolved: ResolvedJob, measure: Callable[[], MeasuredTakeoff]) -> PlannedSpan:
    """When the work is done; where it cannot be planned, why."""
    if resolved.work.start.found is None and not resolved.work.start.faults:
        return PlannedSpan(remarks=resolved.work.basis.remarks)
    try:
        return planned_by(make_timetable(resolved, measure()))
    except Refused as error:
        return PlannedSpan(faults=error.faults)


def _timetable(resolved: ResolvedJob, survey: Survey) -> Timetable:
    return make_timetable(resolved, measure_job(resolved, survey))
