"""The rooms with what they leave unsaid filled in: thickness, profile, the kinds of their joints, cracks as opened.

Decisions:

* A crack is opened to the system's ``crack_chase`` at least, in width and in depth each for itself. It is a caution and
  not an assumption, as the job did say a size. Joints are filled as they are sawn.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.remarks import assumption, caution, missing
from gaugerake.answers.job.resolve_readings import PROFILE_AT, ProfileOf, profiles_of
from gaugerake.answers.job.resolved import ResolvedRoom
from gaugerake.answers.job.taken import Taken, asked, assumed, disputed, from_catalogue, refused
from gaugerake.floor.job import Advance, Crack, Job, Joint, JointKind, Measured, Room
from gaugerake.floor.layers.volumes import CrackChase, opened
from gaugerake.floor.system import System
from gaugerake.floor.values.errors import NoRun, NoSide, OutOfRange, RunOfDrawing
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.range import Limits
from gaugerake.floor.values.rounding import GUARD

MOVING = JointKind.MOVING


def resolve_rooms(
    job: Job, system: System, thickness_m: Taken[float] | None, *, poured: bool, misnamed: Sequence[Fault] = ()
) -> tuple[ResolvedRoom, ...]:
    """Every room; ``thickness_m`` is that of rooms that state none, ``poured`` whether a layer that takes part is.

    ``misnamed`` are the readings of the slab that name no room.
    """
    unsaid = _middle_csp(system, poured=poured)
    faults = tuple(fault for fault in misnamed if fault.pointer.startswith(PROFILE_AT))
    return tuple(
        _room(
            index,
            room,
            system,
            _own_thickness(index, room, system, poured=poured) or thickness_m,
            profiles_of(index, room, job.slab),
            refused(faults) if faults else unsaid,
        )
        for index, room in enumerate(job.rooms)
    )


def _room(
    index: int,
    room: Room,
    system: System,
    thickness_m: Taken[float] | None,
    profiles: tuple[ProfileOf, ...],
    unsaid_csp: Taken[int | None],
) -> ResolvedRoom:
    kinds = _joint_kinds(index, room)
    joints = room.joints or ()
    return ResolvedRoom(
        index=index,
        name=room.name or Say(code="unnamed-room", params={"number": index + 1}),
        shape=room.shape,
        cutouts=room.cutouts,
        drains=room.drains,
        joints=None if room.joints is None else tuple(map(_of_kind, joints, kinds)),
        joint_kinds=kinds,
        terminations=room.terminations,
        cracks=room.cracks,
        opened_cracks=_opened_cracks(index, room, system.crack_chase),
        spalls=room.spalls,
        cove=room.cove,
        slope_percent=room.slope_percent,
        thickness_m=thickness_m,
        profile_csp=unsaid_csp if unsaid_csp.faults or not profiles else _roughest(profiles),
        profiles=profiles,
        advance=_advance(index, room),
    )


def _roughest(profiles: tuple[ProfileOf, ...]) -> Taken[int | None]:
    """The first of the roughest."""
    worst = max(profiles, key=lambda one: one.csp)
    return asked(worst.csp, at=worst.at)


def _of_kind(joint: Joint, kind: Taken[JointKind]) -> Joint:
    return joint if joint.kind is not None else replace(joint, kind=kind.value)


def _own_thickness(index: int, room: Room, system: System, *, poured: bool) -> Taken[float] | None:
    if room.thickness_m is None:
        return None
    return _stated_thickness(room.thickness_m, system, f"/rooms/{index}/thickness", poured=poured)


def _stated_thickness(thickness_m: float, system: System, at: str, *, poured: bool) -> Taken[float]:
    """A stated thickness; with a fault where a body is poured that cannot be placed so thick or thin."""
    limits = system.thickness
    stated = asked(thickness_m, at=at)
    if not poured or limits is None:
        return stated
    if limits.low_m * (1 - GUARD) <= thickness_m <= limits.high_m * (1 + GUARD):
        return stated
    value, low, high = (Figure(at_m, Kind.SMALL_LENGTH) for at_m in (thickness_m, limits.low_m, limits.high_m))
    return disputed(thickness_m, Fault(at, OutOfRange("thickness", value=value, low=low, high=high)), at=at)


def resolve_thickness(job: Job, system: System, *, poured: bool) -> Taken[float] | None:
    """The thickness [m] that the job states, else the system's usual one where a body is poured, else None."""
    if job.thickness_m is not None:
        return _stated_thickness(job.thickness_m, system, "/thickness", poured=poured)
    if not poured:
        return None
    thickness = system.thickness
    if thickness is None:
        raise ValueError(f"system {job.system} has a body and states no thickness")
    usual_m = thickness.usual_m
    return from_catalogue(usual_m, assumption("thickness-usual", "/thickness", Figure(usual_m, Kind.SMALL_LENGTH)))


def _middle_csp(system: System, *, poured: bool) -> Taken[int | None]:
    """The profile where the job states none: the middle of the system's range, if a body's allowance needs one."""
    middle = middle_csp(system.slab_limits.profile_csp)
    if middle is None or not poured or not system.profile_allowance:
        return assumed(None)
    remark = assumption("profile-middle", PROFILE_AT, Figure(middle, Kind.CSP))
    return from_catalogue(middle, remark, missing("profile-unsaid", PROFILE_AT))


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


def _opened_cracks(index: int, room: Room, chase: CrackChase | None) -> Taken[tuple[Crack, ...]]:
    """The cracks of a room as they are opened, with a caution where that is further than the job says."""
    cracks = tuple(opened(crack=crack, chase=chase) for crack in room.cracks)
    further = sum(one != other for one, other in zip(cracks, room.cracks, strict=True))
    if chase is None or not further:
        return asked(cracks)
    remark = caution(
        "cracks-opened-further",
        f"/rooms/{index}/cracks",
        width=Figure(chase.width_m, Kind.SMALL_LENGTH),
        depth=Figure(chase.depth_m, Kind.SMALL_LENGTH),
        count=further,
    )
    return from_catalogue(cracks, remark)


def _joint_kinds(index: int, room: Room) -> tuple[Taken[JointKind], ...]:
    joints = room.joints or ()
    return tuple(_joint_kind(joint, f"/rooms/{index}/joints/{number}/kind") for number, joint in enumerate(joints))


def _joint_kind(joint: Joint, pointer: str) -> Taken[JointKind]:
    """The kind of a joint; moving where the job does not say, the safe one: it is carried through and sealed."""
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
