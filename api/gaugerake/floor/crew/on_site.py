"""A crew in the rooms of a job."""

from __future__ import annotations

import math
from dataclasses import field

from gaugerake.floor.crew.rates import Rates
from gaugerake.floor.crew.tasks import Task, TaskWork, make_task_work
from gaugerake.floor.product import Product
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Value


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewOnSite:
    """The rooms as measured and the rates of the crew; ``station_count`` takes the place of its mixing stations.

    ``cast_kg_m2`` is the aggregate that is cast into the layer at work, at the likely rate and with waste [kg/m²]; 0
    where none is. ``area_m2`` is derived: the net area of all rooms [m²].
    """

    rooms: tuple[RoomTakeoff, ...]
    rates: Rates
    station_count: int | None = None
    cast_kg_m2: float = 0.0
    area_m2: float = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Add the rooms up once: most layers are worked by the area."""
        object.__setattr__(self, "area_m2", math.fsum([room.area_m2 for room in self.rooms]))

    def casting(self, cast_kg_m2: float) -> CrewOnSite:
        """The same crew with so much aggregate to be cast into the layer at work [kg/m²]."""
        if cast_kg_m2 == self.cast_kg_m2:
            return self
        return CrewOnSite(rooms=self.rooms, rates=self.rates, station_count=self.station_count, cast_kg_m2=cast_kg_m2)

    @property
    def mixing_stations(self) -> int:
        """How many mixes are made at once."""
        return self.rates.mixing_stations if self.station_count is None else self.station_count

    @property
    def gross_area_m2(self) -> float:
        """The area of all rooms as they are drawn, cutouts and drains in it [m²]."""
        return math.fsum(room.gross_area_m2 for room in self.rooms)

    @property
    def keyway_m(self) -> float:
        """The keyway of all rooms [m]."""
        return math.fsum(room.keyway_length_m for room in self.rooms)

    @property
    def filled_m(self) -> float:
        """The cracks and bridged joints of all rooms that are filled [m]."""
        return math.fsum(room.filled_length_m for room in self.rooms)

    @property
    def spall_m2(self) -> float:
        """The spalls of all rooms [m²]."""
        return math.fsum(room.spall_area_m2 for room in self.rooms)

    @property
    def cove_m(self) -> float:
        """The cove of all rooms [m]."""
        return math.fsum(room.cove_length_m for room in self.rooms)

    @property
    def sealed_m(self) -> float:
        """The moving joints of all rooms that are sealed [m]."""
        return math.fsum(room.sealed_length_m for room in self.rooms)

    def mixing_s(self, product: Product, mixes: float) -> float:
        """How long all stations take over ``mixes`` [s]."""
        return mixes * self.rates.seconds_per_mix(product) / self.mixing_stations

    def preparing_s(self) -> float:
        """How long the slab of all rooms takes to be prepared [s]."""
        return self.gross_area_m2 / self.rates.prepare_rate_m2_s

    def sawing_s(self) -> float:
        """How long the keyway of all rooms takes to be sawn [s]."""
        return self.keyway_m / self.rates.saw_rate_m_s

    def chasing_s(self) -> float:
        """How long cracks and bridged joints take to be opened and filled [s]."""
        return self.filled_m / self.rates.chase_rate_m_s

    def patching_s(self) -> float:
        """How long spalls take to be patched [s]."""
        return self.spall_m2 / self.rates.patch_rate_m2_s

    def coving_s(self) -> float:
        """How long the cove of all rooms takes to be made [s]."""
        return self.cove_m / self.rates.cove_rate_m_s

    def sealing_s(self) -> float:
        """How long moving joints take to be sealed [s]."""
        return self.sealed_m / self.rates.seal_rate_m_s

    def casting_tasks(self) -> tuple[TaskWork, ...]:
        """The casting of what goes into the layer at work; nothing where nothing does."""
        if not self.cast_kg_m2:
            return ()
        mass = Figure(self.area_m2 * self.cast_kg_m2, Kind.MASS)
        return (make_task_work(task=Task.CAST, quantity=mass, rate=Figure(self.rates.cast_rate_kg_s, Kind.MASS_RATE)),)

    def casting_s(self) -> float:
        """How long what goes into the layer at work takes to be cast [s]; 0 where nothing does."""
        return self.area_m2 * self.cast_kg_m2 / self.rates.cast_rate_kg_s if self.cast_kg_m2 else 0.0

    def casting_inputs(self) -> dict[str, Value]:
        """The numbers that it comes from; nothing where nothing is cast."""
        if not self.cast_kg_m2:
            return {}
        return {
            "aggregate": Figure(self.cast_kg_m2, Kind.AREAL_MASS),
            "cast_rate": Figure(self.rates.cast_rate_kg_s, Kind.MASS_RATE),
        }

    def coating_s(self) -> float:
        """How long all rooms take to be coated, or abraded [s]."""
        return self.area_m2 / self.rates.coating_rate_m2_s

    def clearing_s(self) -> float:
        """How long all rooms take to be cleared of loose aggregate [s]."""
        return self.area_m2 / self.rates.clearing_rate_m2_s

    def mixing_inputs(self, product: Product) -> dict[str, Value]:
        """The numbers that the time of mixing comes from."""
        return {
            "time_per_mix": Figure(self.rates.seconds_per_mix(product), Kind.MINUTES),
            "stations": self.mixing_stations,
        }

    def area_inputs(self, rate_m2_s: float) -> dict[str, Value]:
        """The numbers that a time by area comes from, with the rate that it is worked at [m²/s]."""
        areas = {f"room_{number}_area": Figure(room.area_m2, Kind.AREA) for number, room in enumerate(self.rooms, 1)}
        return {"rate": Figure(rate_m2_s, Kind.AREA_RATE), **areas}
