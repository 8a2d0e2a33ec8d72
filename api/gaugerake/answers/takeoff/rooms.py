"""Each room measured: its shape, what is cut out of it and placed in it, and what lies along its edges."""

from __future__ import annotations

import math

from gaugerake.answers.job import assume
from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Fault, Faults, Refused
from gaugerake.floor.job import Joint, JointKind, Measured, Point, Polygon, Rectangle, Room, Shape
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Asked
from gaugerake.floor.layers.volumes import allowance_at, crack_volume, spall_volume
from gaugerake.floor.room.keyway import beside_line, inset, surround_length, surround_ring
from gaugerake.floor.room.placing import Piece, lies_inside, line_piece, overlaps, piece
from gaugerake.floor.room.shape import Plan, drain_shape, plan
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.system import Thickness
from gaugerake.floor.values.errors import (
    Contradiction,
    CrossingOutline,
    DegenerateOutline,
    FloorError,
    ImpossiblePerimeter,
    NoPlace,
    NothingLeft,
    OutOfRange,
    OutsideRoom,
    Overlapping,
)
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.rounding import GUARD

MOST_AREA_M2 = 200_000.0
"""The most that a whole job may measure [m²]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """The plan of each room, None where its shape is refused, and the faults found."""

    plans: tuple[Plan | None, ...]
    faults: tuple[Fault, ...]


def survey(context: Context) -> Survey:
    """The rooms' own shapes, measured; call it as ``context.shared(survey)``."""
    plans: list[Plan | None] = []
    faults: list[Fault] = []
    for index, room in enumerate(context.job.rooms):
        try:
            plans.append(plan(shape=room.shape))
        except FloorError as error:
            plans.append(None)
            faults.append(Fault(f"/rooms/{index}/shape/{_refused_field(room.shape)}", error))
    total = math.fsum(measured.area_m2 for measured in plans if measured is not None)
    if total > MOST_AREA_M2 * (1 + GUARD):
        most = Figure(MOST_AREA_M2, "area")
        faults.append(Fault("/rooms", OutOfRange("area", value=Figure(total, "area"), low=None, high=most)))
    return Survey(plans=tuple(plans), faults=tuple(faults))


def gross_areas(context: Context) -> tuple[float, ...]:
    """The gross area of each room [m²]; call it as ``context.shared(gross_areas)``.

    Raises
    ------
    Refused
        When a shape cannot be, or all of them are more than 200,000 m².
    """
    found = context.shared(survey)
    if found.faults:
        raise Refused(*found.faults)
    return tuple(measured.area_m2 for measured in found.plans if measured is not None)


def measure_rooms(context: Context, layers: tuple[Layer, ...], faults: Faults) -> tuple[RoomTakeoff, ...]:
    """Every room that can be measured; what cannot be is added to ``faults``."""
    found = context.shared(survey)
    for fault in found.faults:
        faults.add(fault.pointer, fault.error)
    bodied = any(Asked.THICKNESS in layer.does for layer in layers)
    sealed = any(Asked.JOINTS in layer.does for layer in layers)
    if bodied and context.job.thickness_m is not None:
        _check_thickness(context.system.thickness, context.job.thickness_m, "/thickness", faults)
    return tuple(
        _Surveyor(context, index, room, measured, faults).takeoff(bodied=bodied, sealed=sealed)
        for index, (room, measured) in enumerate(zip(context.job.rooms, found.plans, strict=True))
        if measured is not None
    )


class _Surveyor:
    """Measures one room."""

    def __init__(self, context: Context, index: int, room: Room, measured: Plan, faults: Faults) -> None:
        self.context, self.index, self.room, self.plan, self.faults = context, index, room, measured, faults
        self.pointer = f"/rooms/{index}"
        self.keyway = context.system.keyway
        self.cut_out_m2: dict[str, float] = {}
        self.keyway_m: list[float] = []
        self.pieces: list[tuple[str, Piece]] = []
        self.holes: list[tuple[Point, ...]] = []
        self.drains: list[tuple[Point, ...]] = []
        self.lines: list[tuple[Point, Point]] = []
        self.grooves: list[tuple[Point, ...]] = []
        self.moving_m: list[float] = []
        self.sealant_m3: list[float] = []
        self.repair_m3: list[float] = []

    def takeoff(self, *, bodied: bool, sealed: bool) -> RoomTakeoff:
        room, measured = self.room, self.plan
        inset_m = self._walls()
        self._cutouts()
        self._drains()
        self._joints(sealed=sealed)
        self._terminations()
        self._repairs()
        self._check_placed()
        cut_out = math.fsum(self.cut_out_m2.values())
        if cut_out >= measured.area_m2 * (1 - GUARD):
            self.faults.add(self._taker(), NothingLeft("cutouts", taken_m2=cut_out, gross_m2=measured.area_m2))
        return RoomTakeoff(
            index=self.index,
            name=room.name or Say(code="unnamed-room", params={"number": self.index + 1}),
            gross_area_m2=measured.area_m2,
            area_m2=measured.area_m2 - cut_out,
            perimeter_m=measured.perimeter_m,
            shorter_side_m=measured.shorter_side_m,
            thickness_m=self._thickness() if bodied else None,
            csp=self._csp(bodied=bodied),
            keyway_length_m=math.fsum(self.keyway_m),
            moving_joint_length_m=math.fsum(self.moving_m),
            sealant_volume_m3=math.fsum(self.sealant_m3),
            repair_volume_m3=math.fsum(self.repair_m3),
            cove_length_m=room.cove.length_m if room.cove else 0.0,
            cove_height_m=room.cove.height_m if room.cove else 0.0,
            outline_m=measured.outline_m,
            inset_m=inset_m,
            holes_m=tuple(self.holes),
            drains_m=tuple(self.drains),
            joint_lines_m=tuple(self.lines),
            grooves_m=tuple(self.grooves),
            cut_out_m2=cut_out,
        )

    def _walls(self) -> tuple[tuple[Point, ...], ...]:
        record, shape = self.context.record, self.room.shape
        if isinstance(shape, Measured) and shape.perimeter_m is None:
            pointer = f"{self.pointer}/shape/measured/perimeter"
            record.assume("perimeter-two-to-one", pointer, Figure(self.plan.perimeter_m, "length"))
            record.lack("perimeter-unsaid", pointer)
        if self.keyway is None:
            return ()
        found = inset(plan=self.plan, offset_m=self.keyway.offset_m)
        self.keyway_m.append(found.length_m)
        if not found.whole:
            code = "keyway-part-vanishes" if found.length_m else "keyway-vanishes"
            offset = Figure(self.keyway.offset_m, "small-length")
            record.caution(code, f"{self.pointer}/shape", offset=offset)
        return found.rings_m

    def _cutouts(self) -> None:
        for number, cutout in enumerate(self.room.cutouts):
            pointer = f"{self.pointer}/cutouts/{number}"
            measured = self._part(pointer, cutout.shape)
            if measured is None:
                continue
            self._take(pointer, measured, cutout.count)
            placed = self._place(pointer, measured, cutout.at_m, cutout.count)
            if placed is not None:
                self.holes.append(placed.ring_m)

    def _drains(self) -> None:
        for number, drain in enumerate(self.room.drains):
            pointer = f"{self.pointer}/drains/{number}"
            measured = plan(shape=drain_shape(drain=drain.shape))
            self._take(pointer, measured, drain.count)
            placed = self._place(pointer, measured, drain.at_m, drain.count)
            if placed is not None:
                self.drains.append(placed.ring_m)

    def _part(self, pointer: str, shape: Shape) -> Plan | None:
        try:
            return plan(shape=shape)
        except (CrossingOutline, DegenerateOutline, ImpossiblePerimeter) as error:
            self.faults.add(f"{pointer}/{_refused_field(shape)}", error)
            return None

    def _take(self, pointer: str, measured: Plan, count: int) -> None:
        self.cut_out_m2[pointer] = measured.area_m2 * count
        if self.keyway is not None:
            around = surround_length(shape=measured.shape, offset_m=self.keyway.offset_m)
            self.keyway_m.append(around * count)

    def _taker(self) -> str:
        """What takes the whole floor: one entry that does so alone, else the room."""
        least_m2 = self.plan.area_m2 * (1 - GUARD)
        return next((pointer for pointer, taken_m2 in self.cut_out_m2.items() if taken_m2 >= least_m2), self.pointer)

    def _place(self, pointer: str, measured: Plan, at_m: Point | None, count: int) -> Piece | None:
        if at_m is None:
            return None
        if count > 1:
            self.faults.add(f"{pointer}/at", Contradiction("at", other="count", expected="unplaced"))
            return None
        if isinstance(measured.shape, Measured):
            self.faults.add(f"{pointer}/at", NoPlace("at"))
            return None
        placed = piece(plan=measured, at_m=at_m)
        self.pieces.append((f"{pointer}/at", placed))
        if self.keyway is not None:
            # grown where it is drawn, then moved: the drain is one of many, its place is not
            east, north = at_m
            grown = surround_ring(ring_m=measured.outline_m, offset_m=self.keyway.offset_m)
            self.grooves.append(tuple([(x + east, y + north) for x, y in grown]))
        return placed

    def _joints(self, *, sealed: bool) -> None:
        system = self.context.system
        concerned = self.keyway is not None or any(Asked.JOINTS in layer.does for layer in system.layers)
        if self.room.joints is None and concerned:
            self.context.record.lack("joints-unsaid", f"{self.pointer}/joints")
        for number, joint in enumerate(self.room.joints or ()):
            pointer = f"{self.pointer}/joints/{number}"
            length = self._joint_length(joint, pointer)
            if assume.joint_kind(self.context, self.index, number) is JointKind.MOVING:
                self._moving_joint(joint, pointer, length, sealed=sealed)
            else:
                self._bridged_joint(joint, pointer, length)

    def _joint_length(self, joint: Joint, pointer: str) -> float:
        if joint.line_m is None:
            return joint.length_m or 0.0
        self.lines.append(joint.line_m)
        length = math.dist(*joint.line_m)
        if length <= GUARD:
            error = OutOfRange("line", value=Figure(length, "length"), low=Figure(0.01, "length"), high=None)
            self.faults.add(f"{pointer}/line", error)
        else:
            self.pieces.append((f"{pointer}/line", line_piece(line_m=joint.line_m)))
        return length

    def _moving_joint(self, joint: Joint, pointer: str, length: float, *, sealed: bool) -> None:
        self.moving_m.append(length)
        if self.keyway is not None:
            self.keyway_m.append(2 * length)
            if joint.line_m is not None and length > GUARD:
                self.grooves.extend(beside_line(line_m=joint.line_m, offset_m=self.keyway.offset_m))
        if joint.width_m is not None and joint.depth_m is not None:
            self.sealant_m3.append(crack_volume(length_m=length, width_m=joint.width_m, depth_m=joint.depth_m))
        elif sealed:
            self._lack_size(joint, pointer)
            self.context.record.caution("joint-not-sealed", pointer)

    def _bridged_joint(self, joint: Joint, pointer: str, length: float) -> None:
        if joint.width_m is not None and joint.depth_m is not None:
            self.repair_m3.append(crack_volume(length_m=length, width_m=joint.width_m, depth_m=joint.depth_m))
        elif joint.width_m is not None or joint.depth_m is not None:
            self._lack_size(joint, pointer)
            self.context.record.caution("joint-not-filled", pointer)

    def _lack_size(self, joint: Joint, pointer: str) -> None:
        if joint.width_m is None:
            self.context.record.lack("joint-width-unsaid", f"{pointer}/width")
        if joint.depth_m is None:
            self.context.record.lack("joint-depth-unsaid", f"{pointer}/depth")

    def _terminations(self) -> None:
        if self.keyway is None:
            return
        self.keyway_m.extend(termination.length_m for termination in self.room.terminations)
        if isinstance(self.room.shape, Measured) and not self.room.terminations:
            self.context.record.lack("terminations-unsaid", f"{self.pointer}/terminations")

    def _repairs(self) -> None:
        for crack in self.room.cracks:
            self.repair_m3.append(crack_volume(length_m=crack.length_m, width_m=crack.width_m, depth_m=crack.depth_m))
        self.repair_m3.extend(spall_volume(area_m2=spall.area_m2, depth_m=spall.depth_m) for spall in self.room.spalls)

    def _check_placed(self) -> None:
        if not self.pieces:
            return
        if isinstance(self.plan.shape, Measured):
            self.context.record.caution("placed-in-measured-room", self.pointer)
        else:
            for pointer, placed in self.pieces:
                if not lies_inside(room=self.plan, piece=placed):
                    self.faults.add(pointer, OutsideRoom(pointer.rpartition("/")[2]))
        found = overlaps([placed for _, placed in self.pieces])
        for second, first in {second: first for first, second in reversed(found)}.items():
            pointer = self.pieces[second][0]
            other = self.pieces[first][0].rpartition("/")[0]
            self.faults.add(pointer, Overlapping(pointer.rpartition("/")[2], other=other))

    def _thickness(self) -> float:
        system = self.context.system
        if system.thickness is None:
            raise ValueError(f"system {system.code} has a body and states no thickness")
        if self.room.thickness_m is not None:
            _check_thickness(system.thickness, self.room.thickness_m, f"{self.pointer}/thickness", self.faults)
        return assume.thickness(self.context, self.index)

    def _csp(self, *, bodied: bool) -> int | None:
        csp = assume.profile_csp(self.context, self.index)
        listed = (
            None
            if csp is None or not bodied
            else allowance_at(csp=csp, allowances=self.context.system.profile_allowance)
        )
        if listed is not None and listed.csp != csp:
            pointer = "/slab/profile_csp" if self.room.profile_csp is None else f"{self.pointer}/profile_csp"
            self.context.record.caution("profile-not-listed", pointer, listed=Figure(listed.csp, "csp"))
        return csp


def _check_thickness(limits: Thickness | None, thickness_m: float, pointer: str, faults: Faults) -> None:
    if limits is not None and not limits.low_m * (1 - GUARD) <= thickness_m <= limits.high_m * (1 + GUARD):
        low, high = Figure(limits.low_m, "small-length"), Figure(limits.high_m, "small-length")
        asked = Figure(thickness_m, "small-length")
        faults.add(pointer, OutOfRange("thickness", value=asked, low=low, high=high))


def _refused_field(shape: Shape) -> str:
    """Where in a shape the fault lies, as the document writes it."""
    if isinstance(shape, Polygon):
        return "polygon/points"
    if isinstance(shape, Measured):
        return "measured/perimeter"
    return "rectangle" if isinstance(shape, Rectangle) else "circle"
