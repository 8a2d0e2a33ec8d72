"""A bridge, while answers move from ``Context`` to ``ResolvedJob``."""

from __future__ import annotations

from datetime import datetime

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.resolved import Basis
from gaugerake.answers.return_times import answer, plan
from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.answers.return_times.plan import Runs, Timetable, make_timetable
from gaugerake.answers.takeoff.bridge import take_off
from gaugerake.floor.clock.timetable import Plan


def basis_of(context: Context) -> Basis:
    """What the clock runs on."""
    return context.take(context.resolved.work.basis)


def plan_of(context: Context) -> Plan:
    """The work of the job."""
    takeoff = context.shared(take_off)
    context.record.say(plan.plan_remarks(context.resolved, takeoff))
    return context.shared(timetable_of).plan


def runs_of(context: Context) -> Runs:
    """The three runs."""
    context.shared(plan_of)
    context.shared(basis_of)
    return context.shared(timetable_of).runs


def timetable_of(context: Context) -> Timetable:
    """The timetable; what it says is recorded by those who ask for its parts."""
    return make_timetable(context.resolved, context.shared(take_off))


def work_span(context: Context) -> tuple[datetime, datetime] | None:
    """From the start of the work to the end of its last cure."""
    if not context.shared(basis_of).timed:
        return None
    context.shared(runs_of)
    return answer.work_span(context.shared(timetable_of))


def return_times(context: Context) -> ReturnTimes:
    """The timetable of the context's job, its remarks and working recorded."""
    context.take(context.resolved.work.basis)
    found = answer.return_times(context.shared(timetable_of), explained=context.record.working is not None)
    context.record.say(found.remarks)
    if context.record.working is not None:
        context.record.working.extend(found.working)
    return found.body
