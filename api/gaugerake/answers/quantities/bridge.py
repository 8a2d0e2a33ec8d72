"""A bridge, while answers move from ``Context`` to ``ResolvedJob``."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.answers.quantities import answer
from gaugerake.answers.quantities.answer import Quantities
from gaugerake.answers.readiness.bridge import readiness
from gaugerake.answers.takeoff.bridge import take_off


def quantities(context: Context) -> Quantities:
    """The order of the context's job, its remarks and working recorded."""
    takeoff, slab = context.shared(take_off), context.aside(readiness).verdict
    found = answer.quantities(context.resolved, takeoff, slab=slab, explained=context.record.working is not None)
    context.record.say(found.remarks)
    if context.record.working is not None:
        context.record.working.extend(found.working)
    return found.body
