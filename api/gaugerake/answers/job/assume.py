"""What the takeoff takes for the fields that a job leaves out; each use is noted with its place and value."""

from __future__ import annotations

import math

from gaugerake.answers.job.context import Context
from gaugerake.floor.job import Joint, JointKind, Room
from gaugerake.floor.system import Thickness
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.range import Limits

WASTE_PERCENT = 5.0
COATING_RATE_M2_S = 1000 * 0.3048**2 / 3600  # 1000 ft²/h


def waste_fraction(context: Context) -> float:
    """Of the job, else 5 %."""
    percent = context.job.order.waste_percent
    if percent is None:
        percent = WASTE_PERCENT
        context.record.assume("waste", "/order/waste_percent", Figure(percent, "percent"))
    return percent / 100


def coating_rate(context: Context) -> float:
    """Of the crew [m²/s], else 1000 ft²/h."""
    rate = context.job.work.crew.coating_rate_m2_s
    if rate is None:
        rate = COATING_RATE_M2_S
        context.record.assume("crew-coating-rate", "/work/crew/coating_rate", Figure(rate, "area-rate"))
    return rate


def material_temperature(context: Context) -> float:
    """Of the job [K], else the system's reference temperature."""
    temperature = context.job.work.material_temperature_k
    if temperature is None:
        temperature = context.system.reference_temperature_k
        context.record.assume("material-temperature", "/work/material_temperature", Figure(temperature, "temperature"))
    return temperature


def thickness(context: Context, room: Room, usual: Thickness) -> float:
    """Of the room, else the job, else the system's usual [m]."""
    if room.thickness_m is not None:
        return room.thickness_m
    if context.job.thickness_m is not None:
        return context.job.thickness_m
    context.record.assume("thickness-usual", "/thickness", Figure(usual.usual_m, "small-length"))
    return usual.usual_m


def profile_csp(context: Context, room: Room, *, poured: bool) -> int | None:
    """Of the room, else the slab, else the middle of the system's range where a poured body's allowance hangs on it."""
    if room.profile_csp is not None:
        return room.profile_csp
    if context.job.slab.profile_csp is not None:
        return context.job.slab.profile_csp
    middle = middle_csp(context.system.slab_limits.profile_csp)
    if middle is None or not poured or not context.system.profile_allowance:
        return None
    context.record.assume("profile-middle", "/slab/profile_csp", Figure(middle, "csp"))
    context.record.lack("profile-unsaid", "/slab/profile_csp")
    return middle


def middle_csp(limits: Limits) -> int | None:
    """The middle of a range of profiles, rounded up; its one end where the other is open.

    >>> middle_csp(Limits(low=3, high=6)), middle_csp(Limits(low=4)), middle_csp(Limits())
    (5, 4, None)
    """
    ends = ends_of(limits)
    return math.ceil(sum(ends) / len(ends)) if ends else None


def ends_of(limits: Limits) -> list[float]:
    """The ends of a range that are stated."""
    return [end for end in (limits.low, limits.high) if end is not None]


def joint_kind(context: Context, joint: Joint, pointer: str) -> JointKind:
    """As said, else moving."""
    if joint.kind is None:
        context.record.assume("joint-moving", f"{pointer}/kind", JointKind.MOVING.value)
        return JointKind.MOVING
    return joint.kind
