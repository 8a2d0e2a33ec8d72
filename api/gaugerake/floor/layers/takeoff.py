"""What is measured off the job: each room's floor, and what each layer needs. The clock and the order both read it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.need import Demand, Quantity, needed, rounded
from gaugerake.floor.layers.volumes import CrackChase, ProfileAllowance, allowance_at
from gaugerake.floor.room.keyway import Keyway
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.note import Value
from gaugerake.floor.values.range import Triple

if TYPE_CHECKING:
    from gaugerake.floor.layers.base import Layer


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildUp:
    """The rooms as measured, the layers that take part in the order of the work, and what the system says of all."""

    rooms: tuple[RoomTakeoff, ...]
    layers: tuple[Layer, ...]
    waste_fraction: float
    keyway: Keyway | None = None
    profile_allowance: tuple[ProfileAllowance, ...] = ()
    crack_chase: CrackChase | None = None

    @property
    def coved(self) -> bool:
        """Whether a cove is made: a layer that takes part makes coves, and a room asks for one."""
        made = any(Asked.COVE in layer.does for layer in self.layers)
        return made and any(room.cove_length_m > 0 for room in self.rooms)

    def is_first_pour(self, layer: Layer) -> bool:
        """Whether a layer is the first that is poured, which fills the slab's texture and the keyways."""
        return layer is next((one for one in self.layers if one.pour is not None), None)

    def lies_on_voids(self, layer: Layer) -> bool:
        """Whether a layer that covers the floor lies directly on one that leaves voids."""
        covering = [one for one in self.layers if one.covers_floor]
        place = next(place for place, one in enumerate(covering) if one is layer)
        return place > 0 and covering[place - 1].leaves_voids

    def profile_depth_m(self, room: RoomTakeoff) -> float:
        """The mean depth of the slab's texture in a room [m]; 0 where none is listed."""
        listed = None if room.csp is None else allowance_at(csp=room.csp, allowances=self.profile_allowance)
        return 0.0 if listed is None else listed.depth_m

    def area_inputs(self) -> dict[str, Value]:
        """The net areas of the rooms, by name."""
        return {f"room {room.index + 1} area": Figure(room.area_m2, Kind.AREA) for room in self.rooms}

    def cove_inputs(self) -> dict[str, Value]:
        """The length and height of each cove, by name."""
        found: dict[str, Value] = {}
        for room in self.rooms:
            if room.cove_length_m > 0:
                found[f"room {room.index + 1} cove length"] = Figure(room.cove_length_m, Kind.LENGTH)
                found[f"room {room.index + 1} cove height"] = Figure(room.cove_height_m, Kind.SMALL_LENGTH)
        return found


class Extras(NamedTuple):
    """A liquid's likely film, wet and dry [m], and what stays of a broadcast and is cleared away again [kg]."""

    wet_film_m: float | None = None
    dry_film_m: float | None = None
    retained_kg: float | None = None
    cleared_away_kg: float | None = None


NO_EXTRAS = Extras()


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

    @property
    def quantity_figure(self) -> Figure:
        """What it covers or holds, with its kind."""
        return Figure(self.quantity, self.layer.quantity_kind)

    def figure(self, column: str) -> Figure:
        """The need of a column, with its kind."""
        return Figure(getattr(self, column), self.layer.product.counted_in.figure_kind)

    def used_figure(self, column: str) -> Figure:
        """What is used up of a column, with its kind."""
        return Figure(getattr(self, f"rounded_{column}"), self.layer.product.counted_in.figure_kind)

    @staticmethod
    def of_demand(
        layer: Layer, demand: Demand, parts: Sequence[Quantity], *, factor: float, extras: Extras
    ) -> LayerNeed:
        """The need of a demand; ``parts`` is the quantity in each room, ``factor`` 1 and the waste."""
        need = needed(demand)
        each = need.likely / demand.quantity * factor
        return _make_layer_need(
            layer=layer,
            demand=demand,
            low=need.low,
            likely=need.likely,
            high=need.high,
            rounded_low=rounded(need=need.low, step=demand.step),
            rounded_likely=rounded(need=need.likely, step=demand.step),
            rounded_high=rounded(need=need.high, step=demand.step),
            quantity=demand.quantity / factor,
            room_likely=tuple([(part.varying + part.fixed) * each for part in parts]),
            wet_film_m=extras.wet_film_m,
            dry_film_m=extras.dry_film_m,
            retained_kg=extras.retained_kg,
            cleared_away_kg=extras.cleared_away_kg,
        )

    @staticmethod
    def exact(layer: Layer, need: Triple, *, quantity: float) -> LayerNeed:
        """A need that follows from others, and is rounded already."""
        return _make_layer_need(
            layer=layer,
            demand=None,
            low=need.low,
            likely=need.likely,
            high=need.high,
            rounded_low=need.low,
            rounded_likely=need.likely,
            rounded_high=need.high,
            quantity=quantity,
        )


_make_layer_need = maker(LayerNeed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Takeoff:
    """The job measured: rooms in the asker's order, layers in the order of the work (those that take part).

    ``build`` is what the needs were worked out from.
    """

    rooms: tuple[RoomTakeoff, ...]
    layers: tuple[LayerNeed, ...]
    build: BuildUp

    @property
    def area_m2(self) -> float:
        """The net floor of all rooms [m²]."""
        return math.fsum(room.area_m2 for room in self.rooms)

    def cast_into(self, layer: Layer) -> LayerNeed | None:
        """The need of what is cast into a layer; None where nothing is."""
        for under, cast in pairwise(self.layers):
            if under.layer is layer:
                return cast if cast.layer.laid is Laid.INTO else None
        return None

    def cast_kg_m2(self, layer: Layer) -> float:
        """The aggregate that is cast into a layer, at the likely rate and with waste [kg/m²]; 0 where none is."""
        cast = self.cast_into(layer)
        return 0.0 if cast is None else cast.layer.cast_kg_m2(self.build.waste_fraction)
