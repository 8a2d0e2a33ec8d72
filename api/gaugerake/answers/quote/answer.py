"""The quote: every answer to one job, under one number."""

from __future__ import annotations

from datetime import date, timedelta

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.working import within
from gaugerake.answers.pour_plan.answer import PourPlan, pour_plan
from gaugerake.answers.quantities.answer import Quantities, quantities
from gaugerake.answers.quote.faults import job_faults, refusing_all
from gaugerake.answers.quote.fingerprint import fingerprint
from gaugerake.answers.quote.parts import planned_by
from gaugerake.answers.readiness.ahead import NO_PLAN, needs_plan
from gaugerake.answers.readiness.answer import readiness
from gaugerake.answers.readiness.body import Readiness
from gaugerake.answers.return_times.answer import ReturnTimes, return_times
from gaugerake.answers.return_times.plan import make_timetable
from gaugerake.answers.takeoff.measure import measure_job
from gaugerake.answers.takeoff.survey import survey_rooms
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeQuote:
    """Slab verdict, order, pour plan and return times of one job; ``asked.Quote`` says what its fields are."""

    reference: str | None
    fingerprint: str
    token: str | None
    valid_until: date | None
    readiness: Readiness
    quantities: Quantities
    pour_plan: PourPlan
    return_times: ReturnTimes


@refusing_all(job_faults)
def quote(resolved: ResolvedJob, *, token: str | None = None, explained: bool = False) -> Answer[WholeQuote]:
    """All answers to the job; ``token`` is what the quote can be opened with again.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    survey = survey_rooms(resolved.rooms)
    timetable = make_timetable(resolved, measure_job(resolved, survey))
    planned = planned_by(timetable) if needs_plan(resolved) else NO_PLAN
    slab = readiness(resolved, survey=survey, planned=planned, explained=explained)
    order = quantities(resolved, timetable.measured, slab=slab.body.verdict, explained=explained)
    pour = pour_plan(timetable, with_mixes=False, explained=explained)
    times = return_times(timetable, explained=explained)
    return Answer(
        body=WholeQuote(
            reference=resolved.order.reference,
            fingerprint=fingerprint(resolved),
            token=token,
            valid_until=valid_until(resolved),
            readiness=slab.body,
            quantities=order.body,
            pour_plan=pour.body,
            return_times=times.body,
        ),
        remarks=(*slab.remarks, *order.remarks, *pour.remarks, *times.remarks),
        working=(
            *within("readiness", slab.working),
            *within("quantities", order.working),
            *within("pour_plan", pour.working),
            *within("return_times", times.working),
        ),
    )


def valid_until(resolved: ResolvedJob) -> date | None:
    """The last day of the prices; None without a day of issue."""
    issued = resolved.order.issued
    return None if issued is None else issued + timedelta(days=resolved.supply.catalogue.valid_days)
