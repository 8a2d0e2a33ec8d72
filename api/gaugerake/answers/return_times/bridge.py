"""A bridge, while answers move from ``Context`` to ``ResolvedJob``."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.resolved import Basis
from gaugerake.answers.return_times import plan
from gaugerake.answers.return_times.plan import Runs
from gaugerake.answers.takeoff.bridge import take_off
from gaugerake.floor.clock.timetable import Plan


def basis_of(context: Context) -> Basis:
    """What the clock runs on."""
    return context.take(context.resolved.work.basis)


def plan_of(context: Context) -> Plan:
    """The work of the job."""
    takeoff = context.shared(take_off)
    context.record.say(plan.plan_remarks(context.resolved, takeoff))
    return plan.make_plan(context.resolved, takeoff)


def runs_of(context: Context) -> Runs:
    """The three runs."""
    return plan.runs_of(context.shared(plan_of), context.shared(basis_of))
