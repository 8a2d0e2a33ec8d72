"""Each room measured: its shape, what is cut out of it and placed in it, and what lies along its edges."""

from __future__ import annotations

import math
from collections.abc import Iterable

from gaugerake.answers.job.errors import Faults
from gaugerake.answers.job.resolved import ResolvedJob, ResolvedRoom
from gaugerake.answers.takeoff.survey import Survey, refused_field
from gaugerake.floor.job import Joint, JointKind, Measured, Point, Shape
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Asked
from gaugerake.floor.layers.volumes import crack_volume, spall_volume
from gaugerake.floor.room.keyway import beside_line, inset, surround_length, surround_ring
from gaugerake.floor.room.placing import Piece, lies_inside, line_piece, overlaps, piece
from gaugerake.floor.room.shape import Footprint, drain_shape, footprint
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.errors import (
    Contradiction,
    CrossingOutline,
    DegenerateOutline,
    ImpossiblePerimeter,
    NoPlace,
    NothingLeft,
    OutOfRange,
    OutsideRoom,
    Overlapping,
)
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.rounding import GUARD


def measure_rooms(resolved: ResolvedJob, survey: Survey, faults: Faults) -> tuple[RoomTakeoff, ...]:
    """Every room that can be measured; what cannot be is added to ``faults``."""
    if resolved.thickness_m is not None:
        faults.keep(resolved.thickness_m.faults)
    poured = resolved.poured
    return tuple(
        _RoomMeasurer(resolved, room, measured, faults, poured=poured).takeoff()
        for room, measured in zip(resolved.rooms, survey.footprints, strict=True)
        if measured is not None
    )


def does(layers: Iterable[Layer], what: Asked) -> bool:
    """Whether any of the layers does what is asked."""
    return any(what in layer.does for layer in layers)


class _RoomMeasurer:
    """Measures one room; ``poured`` is whether a layer that takes part is poured to the floor's thickness."""

    def __init__(
        self, job: ResolvedJob, room: ResolvedRoom, measured: Footprint, faults: Faults, *, poured: bool
    ) -> None:
        self.poured, self.room = poured, room
        self.footprint, self.faults = measured, faults
        self.pointer = room.pointer
        self.keyway, self.wall_keyway_m, self.keyway_whole = None if job.chosen.faults else job.system.keyway, 0.0, True
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
        self.sealed_m: list[float] = []
        self.filled_m: list[float] = []

    def takeoff(self) -> RoomTakeoff:
        """The room as measured; what cannot be is added to the faults."""
        inset_m = self._walls()
        self._cutouts()
        self._drains()
        self._joints()
        self._terminations()
        self._repairs()
        self._check_placed()
        cut_out = math.fsum(self.cut_out_m2.values())
        gross_m2 = self.footprint.area_m2
        if cut_out >= gross_m2 * (1 - GUARD):
            self.faults.add(self._taker(), NothingLeft("cutouts", taken_m2=cut_out, gross_m2=gross_m2))
        return self._measured(cut_out, inset_m)

    def _measured(self, cut_out: float, inset_m: tuple[tuple[Point, ...], ...]) -> RoomTakeoff:
        room, measured = self.room, self.footprint
        return RoomTakeoff(
            index=room.index,
            name=room.name,
            gross_area_m2=measured.area_m2,
            area_m2=measured.area_m2 - cut_out,
            perimeter_m=measured.perimeter_m,
            shorter_side_m=measured.shorter_side_m,
            thickness_m=self._thickness(),
            csp=room.profile_csp.value,
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
            wall_keyway_m=self.wall_keyway_m,
            keyway_whole=self.keyway_whole,
            cracks=room.cracks,
            spalls=room.spalls,
            joints=room.joints or (),
            sealed_length_m=math.fsum(self.sealed_m),
            filled_length_m=math.fsum(self.filled_m),
            spall_area_m2=math.fsum(spall.area_m2 for spall in room.spalls),
        )

    def _walls(self) -> tuple[tuple[Point, ...], ...]:
        if self.keyway is None:
            return ()
        found = inset(footprint=self.footprint, offset_m=self.keyway.offset_m)
        self.keyway_m.append(found.length_m)
        self.wall_keyway_m, self.keyway_whole = found.length_m, found.whole
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
            measured = footprint(shape=drain_shape(drain=drain.shape))
            self._take(pointer, measured, drain.count)
            placed = self._place(pointer, measured, drain.at_m, drain.count)
            if placed is not None:
                self.drains.append(placed.ring_m)

    def _part(self, pointer: str, shape: Shape) -> Footprint | None:
        try:
            return footprint(shape=shape)
        except (CrossingOutline, DegenerateOutline, ImpossiblePerimeter) as error:
            self.faults.add(f"{pointer}/{refused_field(shape)}", error)
            return None

    def _take(self, pointer: str, measured: Footprint, count: int) -> None:
        self.cut_out_m2[pointer] = measured.area_m2 * count
        if self.keyway is not None:
            around = surround_length(shape=measured.shape, offset_m=self.keyway.offset_m)
            self.keyway_m.append(around * count)

    def _taker(self) -> str:
        """The pointer of what covers the whole floor: one entry that does so alone, else the room."""
        least_m2 = self.footprint.area_m2 * (1 - GUARD)
        return next((pointer for pointer, taken_m2 in self.cut_out_m2.items() if taken_m2 >= least_m2), self.pointer)

    def _place(self, pointer: str, measured: Footprint, at_m: Point | None, count: int) -> Piece | None:
        if at_m is None:
            return None
        if count > 1:
            self.faults.add(f"{pointer}/at", Contradiction("at", other="count", expected=Say(code="expected-unplaced")))
            return None
        if isinstance(measured.shape, Measured):
            self.faults.add(f"{pointer}/at", NoPlace("at"))
            return None
        placed = piece(footprint=measured, at_m=at_m)
        self.pieces.append((f"{pointer}/at", placed))
        if self.keyway is not None:
            # grown where it is drawn, then moved: the drain is one of many, its place is not
            east, north = at_m
            grown = surround_ring(ring_m=measured.outline_m, offset_m=self.keyway.offset_m)
            self.grooves.append(tuple([(x + east, y + north) for x, y in grown]))
        return placed

    def _joints(self) -> None:
        for number, joint in enumerate(self.room.joints or ()):
            length = self._joint_length(joint, f"{self.pointer}/joints/{number}")
            if joint.kind is JointKind.MOVING:
                self._moving_joint(joint, length)
            elif joint.width_m is not None and joint.depth_m is not None:
                volume = crack_volume(length_m=length, width_m=joint.width_m, depth_m=joint.depth_m)
                self.repair_m3.append(volume)
                self.filled_m.append(length)

    def _joint_length(self, joint: Joint, pointer: str) -> float:
        if joint.line_m is None:
            return joint.length_m or 0.0
        self.lines.append(joint.line_m)
        length = math.dist(*joint.line_m)
        if length <= GUARD:
            error = OutOfRange("line", value=Figure(length, Kind.LENGTH), low=Figure(0.01, Kind.LENGTH), high=None)
            self.faults.add(f"{pointer}/line", error)
        else:
            self.pieces.append((f"{pointer}/line", line_piece(line_m=joint.line_m)))
        return length

    def _moving_joint(self, joint: Joint, length: float) -> None:
        self.moving_m.append(length)
        if self.keyway is not None:
            self.keyway_m.append(2 * length)
            if joint.line_m is not None and length > GUARD:
                self.grooves.extend(beside_line(line_m=joint.line_m, offset_m=self.keyway.offset_m))
        if joint.width_m is not None and joint.depth_m is not None:
            self.sealant_m3.append(crack_volume(length_m=length, width_m=joint.width_m, depth_m=joint.depth_m))
            self.sealed_m.append(length)

    def _terminations(self) -> None:
        if self.keyway is not None:
            self.keyway_m.extend(termination.length_m for termination in self.room.terminations)

    def _repairs(self) -> None:
        for crack in self.room.opened_cracks.value:
            self.repair_m3.append(crack_volume(length_m=crack.length_m, width_m=crack.width_m, depth_m=crack.depth_m))
            self.filled_m.append(crack.length_m)
        self.repair_m3.extend(spall_volume(area_m2=spall.area_m2, depth_m=spall.depth_m) for spall in self.room.spalls)

    def _check_placed(self) -> None:
        if not self.pieces:
            return
        if not isinstance(self.footprint.shape, Measured):
            for pointer, placed in self.pieces:
                if not lies_inside(room=self.footprint, piece=placed):
                    self.faults.add(pointer, OutsideRoom(pointer.rpartition("/")[2]))
        found = overlaps([placed for _, placed in self.pieces])
        for second, first in {second: first for first, second in reversed(found)}.items():
            pointer = self.pieces[second][0]
            other = self.pieces[first][0].rpartition("/")[0]
            self.faults.add(pointer, Overlapping(pointer.rpartition("/")[2], other=other))

    def _thickness(self) -> float | None:
        thickness_m = self.room.thickness_m
        if thickness_m is None or not self.poured:
            return None
        self.faults.keep(thickness_m.faults)
        return thickness_m.found
