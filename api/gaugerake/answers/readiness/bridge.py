"""A bridge, while answers move from ``Context`` to ``ResolvedJob``."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Refused
from gaugerake.answers.job.record import Record
from gaugerake.answers.readiness import answer
from gaugerake.answers.readiness.ahead import NO_PLAN, Planned, needs_plan
from gaugerake.answers.readiness.answer import Readiness
from gaugerake.answers.return_times.bridge import work_span
from gaugerake.answers.takeoff.bridge import survey


def readiness(context: Context) -> Readiness:
    """Whether the slab is ready, its remarks and working recorded."""
    working = context.record.working
    planned = _planned(context) if needs_plan(context.resolved) else NO_PLAN
    found = answer.readiness(
        context.resolved, survey=context.shared(survey), planned=planned, explained=working is not None
    )
    context.record.say(found.remarks)
    if working is not None:
        working.extend(found.working)
    return found.body


def _planned(context: Context) -> Planned:
    """When the work is done; what the takeoff and the clock say of it is kept for its place in the answer."""
    record, context.record = context.record, Record()
    try:
        span = context.shared(work_span)
        return Planned(span=span, remarks=tuple(context.record.remarks()))
    except Refused as error:
        return Planned(faults=error.faults)
    finally:
        context.record = record
