"""A bridge, while answers move from ``Context`` to ``ResolvedJob``: reads a resolved value and records its remarks."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.resolve_rooms import ends_of
from gaugerake.floor.job import JointKind

__all__ = ["ends_of"]


def waste_fraction(context: Context) -> float:
    """Of the job, else 5 %."""
    return context.take(context.resolved.order.waste_fraction)


def coating_rate(context: Context) -> float:
    """Of the crew [m²/s]."""
    return context.take(context.resolved.work.crew.coating_rate_m2_s)


def material_temperature(context: Context) -> float:
    """Of the job [K]."""
    return context.take(context.resolved.work.material_temperature_k)


def thickness(context: Context, index: int) -> float:
    """Of a room [m]."""
    found = context.resolved.rooms[index].thickness_m
    assert found is not None
    return context.take(found)


def profile_csp(context: Context, index: int) -> int | None:
    """Of a room."""
    return context.take(context.resolved.rooms[index].profile_csp)


def joint_kind(context: Context, index: int, number: int) -> JointKind:
    """Of a joint of a room."""
    return context.take(context.resolved.rooms[index].joint_kinds[number])
