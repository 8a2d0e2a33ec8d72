"""What is measured off the job: each room's floor, and what each layer needs. The clock and the order both read it."""

from __future__ import annotations

from gaugerake.floor.job import Point
from gaugerake.floor.system import Layer, Triple
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomTakeoff:
    """One room, measured.

    ``gross_area_m2`` is the shape's own; ``area_m2`` is net of cutouts and drains. ``perimeter_m`` is the shape's.
    ``shorter_side_m`` is that of the minimum rotated rectangle (√(A/2) for a measured room), ``lane`` across it.
    ``outline_m`` and ``inset_m`` (rings of the shape shrunk by the keyway's offset) are for drawing; empty for a
    measured room. So are ``holes_m``, ``drains_m`` and ``joint_lines_m``, what was placed in it, and ``grooves_m``, the
    keyways round and beside that. ``csp`` is None when nothing hangs on it and none was given. ``cut_out_m2`` is what
    cutouts and drains take.
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What makes a layer's need uncertain: ``(varying · f + fixed) / divisor · multiplier``, rounded up to ``step``.

    ``varying`` and ``fixed`` are in the unit that the layer is measured by (m³, m² or kg-free area), waste included;
    ``f`` is the job's one thickness factor (it touches area × thickness of a body, not its keyways and profile).
    ``divisor`` is a mix's yield [m³] or a spreading rate [m²/m³], ``multiplier`` a broadcast rate [kg/m²]; None is 1.
    ``step`` is 1 for whole mixes, the smallest batch, or None where it is measured out.
    """

    varying: float
    fixed: float
    divisor: Triple | None = None
    multiplier: Triple | None = None
    step: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerNeed:
    """What one layer needs, in its product's base quantity (mixes, m³, kg, pieces), waste included.

    ``low``, ``likely`` and ``high`` are not rounded; ``rounded_*`` are what is used up when mixes (or smallest
    batches) are never split. ``room_likely`` holds the likely need of each room, unrounded, in the order of the rooms
    (for a body, the mixes that the clock counts; empty where a layer is not counted by rooms). ``demand`` is None for
    a sundry, whose need follows from others.

    ``quantity`` is what the layer covers [m²] or holds [m³] in all, without waste (m² or m of a sundry's basis; its
    whole mixes where it goes by a product). For what people ask beside the need: a liquid's likely film, wet and dry
    (None over a broadcast, whose voids it fills), and of a broadcast what stays in the floor and what is cleared away
    again, waste left out.
    """

    layer: Layer
    demand: Demand | None
    low: float
    likely: float
    high: float
    rounded_low: float
    rounded_likely: float
    rounded_high: float
    quantity: float = 0.0
    room_likely: tuple[float, ...] = ()
    wet_film_m: float | None = None
    dry_film_m: float | None = None
    retained_kg: float | None = None
    cleared_away_kg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Takeoff:
    """The job measured: rooms in the asker's order, layers in the order of the work (those that take part)."""

    rooms: tuple[RoomTakeoff, ...]
    layers: tuple[LayerNeed, ...]
