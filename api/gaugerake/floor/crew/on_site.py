"""A crew in the rooms of a job."""

from __future__ import annotations

import math

from gaugerake.floor.crew.rates import Rates
from gaugerake.floor.product import Product
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Value


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewOnSite:
    """The rooms as measured and the rates of the crew; ``station_count`` takes the place of its mixing stations."""

    rooms: tuple[RoomTakeoff, ...]
    rates: Rates
    station_count: int | None = None

    @property
    def mixing_stations(self) -> int:
        """How many mixes are made at once."""
        return self.rates.mixing_stations if self.station_count is None else self.station_count

    @property
    def area_m2(self) -> float:
        """The net area of all rooms [m²]."""
        return math.fsum(room.area_m2 for room in self.rooms)

    def mixing_s(self, product: Product, mixes: float) -> float:
        """How long all stations take over ``mixes`` [s]."""
        return mixes * self.rates.seconds_per_mix(product) / self.mixing_stations

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
