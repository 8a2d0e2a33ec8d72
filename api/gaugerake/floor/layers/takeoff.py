"""What is measured off the job: each room's floor, and what each layer needs. The clock and the order both read it."""

from __future__ import annotations

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.need import Demand
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.frozen import dataclass


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
