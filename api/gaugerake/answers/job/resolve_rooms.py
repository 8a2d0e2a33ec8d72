"""The rooms with what they leave unsaid filled in: thickness, profile, the kinds of their joints."""

from __future__ import annotations

import math
from collections.abc import Sequence

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.remarks import assumption, missing
from gaugerake.answers.job.resolved import ResolvedRoom
from gaugerake.answers.job.taken import Taken, asked, assumed, from_catalogue, refused
from gaugerake.floor.job import Advance, Job, Joint, JointKind, Measured, Room
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.system import System, Thickness
from gaugerake.floor.values.errors import NoRun, NoSide, RunOfDrawing
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.range import Limits

MOVING = JointKind.MOVING


def resolve_rooms(job: Job, system: System, layers: Sequence[Layer]) -> tuple[ResolvedRoom, ...]:
    """Every room; ``layers`` are those that take part."""
    poured = any(layer.pour is not None for layer in layers)
    usual = _usual_thickness(job, system.thickness) if poured else None
    slab_csp = _slab_csp(job, system, poured=poured)
    return tuple(
        ResolvedRoom(
            index=index,
            asked=room,
            name=room.name or Say(code="unnamed-room", params={"number": index + 1}),
            thickness_m=usual if usual is None or room.thickness_m is None else asked(room.thickness_m),
            profile_csp=slab_csp if room.profile_csp is None else asked(room.profile_csp),
            joint_kinds=_joint_kinds(index, room),
            advance=_advance(index, room),
        )
        for index, room in enumerate(job.rooms)
    )


def _usual_thickness(job: Job, thickness: Thickness | None) -> Taken[float]:
    """Of the job, else the system's usual [m]."""
    if job.thickness_m is not None:
        return asked(job.thickness_m)
    if thickness is None:
        raise ValueError(f"system {job.system} has a body and states no thickness")
    usual_m = thickness.usual_m
    return from_catalogue(usual_m, assumption("thickness-usual", "/thickness", Figure(usual_m, Kind.SMALL_LENGTH)))


def _slab_csp(job: Job, system: System, *, poured: bool) -> Taken[int | None]:
    """Of the slab, else the middle of the system's range where a poured body's allowance hangs on it."""
    pointer = "/slab/profile_csp"
    if job.slab.profile_csp is not None:
        return asked(job.slab.profile_csp)
    middle = middle_csp(system.slab_limits.profile_csp)
    if middle is None or not poured or not system.profile_allowance:
        return assumed(None)
    remark = assumption("profile-middle", pointer, Figure(middle, Kind.CSP))
    return from_catalogue(middle, remark, missing("profile-unsaid", pointer))


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


def _joint_kinds(index: int, room: Room) -> tuple[Taken[JointKind], ...]:
    joints = room.joints or ()
    return tuple(_joint_kind(joint, f"/rooms/{index}/joints/{number}/kind") for number, joint in enumerate(joints))


def _joint_kind(joint: Joint, pointer: str) -> Taken[JointKind]:
    """As said, else moving: the safe one, as it is carried through the floor and sealed."""
    return (
        assumed(MOVING, assumption("joint-moving", pointer, MOVING.value)) if joint.kind is None else asked(joint.kind)
    )


def _advance(index: int, room: Room) -> Taken[Advance | None]:
    """The way of the pour's edge: a drawing says how long it is, a measured room has no sides to begin at."""
    said, pointer = room.pour, f"/rooms/{index}/pour"
    if said is None:
        return assumed(None)
    if isinstance(room.shape, Measured):
        return asked(said) if said.run_m is not None else refused((Fault(f"{pointer}/run", NoRun("run")),))
    if said.side is None:
        return refused((Fault(f"{pointer}/from", NoSide("from")),))
    return asked(said) if said.run_m is None else refused((Fault(f"{pointer}/run", RunOfDrawing("run")),))
