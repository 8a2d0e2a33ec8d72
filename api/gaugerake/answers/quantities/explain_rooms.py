"""How each figure of the takeoff came about, room by room and layer by layer; made only when it is asked for."""

from __future__ import annotations

import math
from collections.abc import Iterator

from gaugerake.answers.job.resolve_rooms import ends_of
from gaugerake.answers.job.resolved import ResolvedJob, ResolvedRoom
from gaugerake.answers.job.sources import GEOMETRY, JOB, system_source, taken_source
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.quantities.explain_layers import explain_layers
from gaugerake.floor.job import Circle, JointKind, Measured, Rectangle
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.room.keyway import Keyway, inset, surround_length
from gaugerake.floor.room.shape import Footprint, drain_shape, footprint
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Value

Inputs = dict[str, Value]


def explain_takeoff(resolved: ResolvedJob, takeoff: Takeoff) -> Iterator[Working]:
    """The working of every room and layer; their pointers are those of an answer's ``rooms`` and ``layers``."""
    for measured, room in zip(takeoff.rooms, resolved.rooms, strict=True):
        yield from _explain_room(resolved, measured, room)
    yield from explain_layers(resolved, takeoff)


def _explain_room(resolved: ResolvedJob, measured: RoomTakeoff, room: ResolvedRoom) -> Iterator[Working]:
    at = f"/rooms/{measured.index}"
    found = footprint(shape=room.shape)
    gross, perimeter = Figure(found.area_m2, Kind.AREA), Figure(found.perimeter_m, Kind.LENGTH)
    rule, inputs = _outline_rule(room)
    yield working(f"{at}/gross_area", f"rule-area-{rule}", inputs, gross, GEOMETRY)
    rule, inputs = _perimeter_rule(room, found)
    yield working(f"{at}/perimeter", f"rule-perimeter-{rule}", inputs, perimeter, GEOMETRY)
    net = {"gross area": gross, **dict(_taken(room))}
    yield working(f"{at}/area", "rule-net-area", net, Figure(measured.area_m2, Kind.AREA), GEOMETRY)
    moving = {f"joint {number}": Figure(length, Kind.LENGTH) for number, length in enumerate(_moving(room), 1)}
    total = Figure(measured.moving_joint_length_m, Kind.LENGTH)
    yield working(f"{at}/moving_joint_length", "rule-moving-joints", moving, total, JOB)
    cove = Figure(measured.cove_length_m, Kind.LENGTH)
    yield working(f"{at}/cove_length", "rule-as-stated", {"stated": cove}, cove, JOB)
    for axis, name in enumerate(("length", "width") if measured.outline_m else ()):
        reach = [point[axis] for point in measured.outline_m]
        ends: Inputs = {"least": Figure(min(reach), Kind.LENGTH), "greatest": Figure(max(reach), Kind.LENGTH)}
        yield working(f"{at}/box/{name}", "rule-extent", ends, Figure(max(reach) - min(reach), Kind.LENGTH), GEOMETRY)
    yield from _explain_keyway(resolved, measured, room, found)
    yield from _explain_choices(resolved, measured, room)


def _outline_rule(room: ResolvedRoom) -> tuple[str, Inputs]:
    shape = room.shape
    if isinstance(shape, Rectangle):
        sides = {"length": Figure(shape.length_m, Kind.LENGTH), "width": Figure(shape.width_m, Kind.LENGTH)}
        return "rectangle", dict(sides)
    if isinstance(shape, Circle):
        return "circle", {"diameter": Figure(shape.diameter_m, Kind.LENGTH)}
    if isinstance(shape, Measured):
        return "stated", {"stated": Figure(shape.area_m2, Kind.AREA)}
    corners: Inputs = {}
    for number, (x, y) in enumerate(shape.points_m, 1):
        corners[f"x {number}"], corners[f"y {number}"] = Figure(x, Kind.LENGTH), Figure(y, Kind.LENGTH)
    return "polygon", corners


def _perimeter_rule(room: ResolvedRoom, found: Footprint) -> tuple[str, Inputs]:
    shape = room.shape
    if not isinstance(shape, Measured):
        return _outline_rule(room)
    if shape.perimeter_m is None:
        return "two-to-one", {"area": Figure(found.area_m2, Kind.AREA)}
    return "stated", {"stated": Figure(shape.perimeter_m, Kind.LENGTH)}


def _taken(room: ResolvedRoom) -> Iterator[tuple[str, Value]]:
    for name, part, count in _parts(room):
        yield f"{name} area", Figure(part.area_m2, Kind.AREA)
        yield f"{name} count", count


def _parts(room: ResolvedRoom) -> Iterator[tuple[str, Footprint, int]]:
    for number, cutout in enumerate(room.cutouts, 1):
        yield f"cutout {number}", footprint(shape=cutout.shape), cutout.count
    for number, drain in enumerate(room.drains, 1):
        yield f"drain {number}", footprint(shape=drain_shape(drain=drain.shape)), drain.count


def _moving(room: ResolvedRoom) -> Iterator[float]:
    for joint in room.joints or ():
        if joint.kind is JointKind.MOVING:
            yield joint.length_m or 0.0 if joint.line_m is None else math.dist(*joint.line_m)


def _explain_keyway(
    resolved: ResolvedJob, measured: RoomTakeoff, room: ResolvedRoom, found: Footprint
) -> Iterator[Working]:
    keyway = resolved.system.keyway
    if keyway is None:
        return
    figure = f"/rooms/{measured.index}/keyway_length"
    inputs = dict(_keyway_inputs(keyway, measured, room, found))
    source = system_source(resolved.system.code)
    yield working(figure, "rule-keyway-length", inputs, Figure(measured.keyway_length_m, Kind.LENGTH), source)


def _keyway_inputs(
    keyway: Keyway, measured: RoomTakeoff, room: ResolvedRoom, found: Footprint
) -> Iterator[tuple[str, Value]]:
    offset = keyway.offset_m
    yield "offset", Figure(offset, Kind.SMALL_LENGTH)
    yield "along walls", Figure(inset(footprint=found, offset_m=offset).length_m, Kind.LENGTH)
    for name, part, count in _parts(room):
        yield f"round {name}", Figure(surround_length(shape=part.shape, offset_m=offset), Kind.LENGTH)
        yield f"{name} count", count
    yield "terminations", Figure(math.fsum(stop.length_m for stop in room.terminations), Kind.LENGTH)
    yield "moving joints", Figure(measured.moving_joint_length_m, Kind.LENGTH)


def _explain_choices(resolved: ResolvedJob, measured: RoomTakeoff, room: ResolvedRoom) -> Iterator[Working]:
    """What the job or the system says, as it was taken."""
    at, system, taken_m = f"/rooms/{measured.index}", resolved.system, room.thickness_m
    if measured.thickness_m is not None and taken_m is not None and system.thickness is not None:
        thickness = Figure(measured.thickness_m, Kind.SMALL_LENGTH)
        rule = "rule-as-stated" if taken_m.stated else "rule-as-usual"
        yield working(f"{at}/thickness", rule, {"stated": thickness}, thickness, taken_source(taken_m, system))
    if measured.csp is not None:
        csp, source = Figure(measured.csp, Kind.CSP), taken_source(room.profile_csp, system)
        profiles = room.profiles
        if len(profiles) == 1:
            yield working(f"{at}/profile_csp", "rule-as-stated", {"stated": csp}, csp, source)
        elif profiles:
            stated: Inputs = {f"reading_{number}": Figure(one.csp, Kind.CSP) for number, one in enumerate(profiles, 1)}
            yield working(f"{at}/profile_csp", "rule-roughest", stated, csp, source)
        else:
            ends = ends_of(system.slab_limits.profile_csp)
            inputs: Inputs = {f"end {number}": Figure(end, Kind.CSP) for number, end in enumerate(ends, 1)}
            yield working(f"{at}/profile_csp", "rule-profile-middle", inputs, csp, source)
