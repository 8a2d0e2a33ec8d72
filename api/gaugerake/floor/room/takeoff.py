"""One room as measured: what is covered, and what lies along its edges."""

from __future__ import annotations

from gaugerake.floor.job import Crack, Joint, Point, Spall
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomTakeoff:
    """One room, measured.

    ``gross_area_m2`` is the shape's own; ``area_m2`` is net of cutouts and drains. ``perimeter_m`` is the shape's.
    ``shorter_side_m`` is that of the minimum rotated rectangle (√(A/2) for a measured room), ``lane`` across it.
    ``outline_m`` and ``inset_m`` (rings of the shape shrunk by the keyway's offset) are for drawing; empty for a
    measured room. So are ``holes_m``, ``drains_m`` and ``joint_lines_m``, what was placed in it, and ``grooves_m``, the
    keyways round and beside that. ``csp`` is None when nothing depends on it and none was given. ``cut_out_m2`` is what
    cutouts and drains take. ``wall_keyway_m`` is the keyway along its walls,
    ``keyway_whole`` False where the room is too narrow for all of the keyway at its walls. ``cracks``, ``spalls`` and
    ``joints`` (each with its kind) are what the volumes of repair and sealant were measured from. ``sealed_length_m``
    is that of the moving joints whose width and depth are known, ``filled_length_m`` that of cracks and of the
    contraction joints that are filled, ``spall_area_m2`` what is patched.
    """

    index: int
    name: Words
    gross_area_m2: float
    area_m2: float
    perimeter_m: float
    shorter_side_m: float
    thickness_m: float | None
    csp: int | None
    keyway_length_m: float
    moving_joint_length_m: float
    sealant_volume_m3: float
    repair_volume_m3: float
    cove_length_m: float
    cove_height_m: float
    outline_m: tuple[Point, ...]
    inset_m: tuple[tuple[Point, ...], ...]
    holes_m: tuple[tuple[Point, ...], ...] = ()
    drains_m: tuple[tuple[Point, ...], ...] = ()
    joint_lines_m: tuple[tuple[Point, Point], ...] = ()
    grooves_m: tuple[tuple[Point, ...], ...] = ()
    cut_out_m2: float = 0.0
    wall_keyway_m: float = 0.0
    keyway_whole: bool = True
    cracks: tuple[Crack, ...] = ()
    spalls: tuple[Spall, ...] = ()
    joints: tuple[Joint, ...] = ()
    sealed_length_m: float = 0.0
    filled_length_m: float = 0.0
    spall_area_m2: float = 0.0
