"""What the takeoff says of one room."""

from __future__ import annotations

import math
from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark, assumption, caution, missing
from gaugerake.answers.job.resolved import ResolvedJob, ResolvedRoom
from gaugerake.answers.takeoff.rooms import does
from gaugerake.floor.job import Joint, JointKind, Measured
from gaugerake.floor.layers.facts import Asked
from gaugerake.floor.layers.volumes import allowance_at
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.system import System
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.rounding import GUARD


def room_remarks(resolved: ResolvedJob, room: ResolvedRoom, measured: RoomTakeoff) -> Iterator[Remark]:
    """What is assumed of a room, what it leaves unsaid, and what cannot be made as asked."""
    system = resolved.system
    yield from _walls(system, room, measured)
    yield from _joints(resolved, room)
    if system.keyway is not None and isinstance(room.shape, Measured) and not room.terminations:
        yield missing("terminations-unsaid", f"{room.pointer}/terminations")
    if isinstance(room.shape, Measured) and _has_places(measured):
        yield caution("placed-in-measured-room", room.pointer)
    if room.thickness_m is not None:
        yield from room.thickness_m.remarks
    yield from room.profile_csp.remarks
    if does(resolved.layers.value, Asked.CRACKS):
        yield from room.opened_cracks.remarks
    if resolved.poured:
        yield from _profile(system, room)


def _walls(system: System, room: ResolvedRoom, measured: RoomTakeoff) -> Iterator[Remark]:
    shape = room.shape
    if isinstance(shape, Measured) and shape.perimeter_m is None:
        pointer = f"{room.pointer}/shape/measured/perimeter"
        yield assumption("perimeter-two-to-one", pointer, Figure(measured.perimeter_m, Kind.LENGTH))
        yield missing("perimeter-unsaid", pointer)
    if system.keyway is not None and not measured.keyway_whole:
        code = "keyway-part-vanishes" if measured.wall_keyway_m else "keyway-vanishes"
        yield caution(code, f"{room.pointer}/shape", offset=Figure(system.keyway.offset_m, Kind.SMALL_LENGTH))


def _joints(resolved: ResolvedJob, room: ResolvedRoom) -> Iterator[Remark]:
    system = resolved.system
    concerned = system.keyway is not None or does(system.layers, Asked.JOINTS)
    if room.joints is None and concerned:
        yield joints_unsaid(system, room)
    sealed = bool(room.joints) and does(resolved.layers.value, Asked.JOINTS)
    for number, (joint, kind) in enumerate(zip(room.joints or (), room.joint_kinds, strict=True)):
        yield from kind.remarks
        pointer = f"{room.pointer}/joints/{number}"
        if joint.width_m is not None and joint.depth_m is not None:
            continue
        if kind.value is JointKind.MOVING and sealed:
            yield from _size_unsaid(joint, pointer)
            yield caution("joint-not-sealed", pointer)
        elif kind.value is not JointKind.MOVING and (joint.width_m is not None or joint.depth_m is not None):
            yield from _size_unsaid(joint, pointer)
            yield caution("joint-not-filled", pointer)


def joints_unsaid(system: System, room: ResolvedRoom) -> Remark:
    """The joints of a room are not listed, and why they matter with this system."""
    sealed = does(system.layers, Asked.JOINTS)
    if system.keyway is None:
        why = "joints-take-sealant" if sealed else "joints-take-nothing"
    else:
        why = "joints-take-both" if sealed else "joints-take-keyway"
    return missing("joints-unsaid", f"{room.pointer}/joints", why=Say(code=why))


def _size_unsaid(joint: Joint, pointer: str) -> Iterator[Remark]:
    if joint.width_m is None:
        yield missing("joint-width-unsaid", f"{pointer}/width")
    if joint.depth_m is None:
        yield missing("joint-depth-unsaid", f"{pointer}/depth")


def _has_places(measured: RoomTakeoff) -> bool:
    """Whether anything is placed in the room."""
    lines = any(math.dist(*line) > GUARD for line in measured.joint_lines_m)
    return bool(measured.holes_m or measured.drains_m) or lines


def _profile(system: System, room: ResolvedRoom) -> Iterator[Remark]:
    """Whether another profile's allowance stands in for that of the room."""
    csp = room.profile_csp.value
    if csp is None:
        return
    listed = allowance_at(csp=csp, allowances=system.profile_allowance)
    if listed is not None and listed.csp != csp:
        yield caution(
            "profile-not-listed", room.profile_csp.at or "/slab/profile_csp", listed=Figure(listed.csp, Kind.CSP)
        )
