"""A bridge, while answers move from ``Context`` to ``ResolvedJob``: reads a resolved value and records its remarks."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.resolve_rooms import ends_of

__all__ = ["ends_of"]


def waste_fraction(context: Context) -> float:
    """Of the job, else 5 %."""
    return context.take(context.resolved.order.waste_fraction)
