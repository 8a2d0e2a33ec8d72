"""The rates of a crew, as the layers read them."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum, auto

from gaugerake.floor.product import Product
from gaugerake.floor.values.frozen import dataclass


class Rate(Enum):
    """What the time of a layer's work hangs on."""

    CYCLE = auto()  # from one mix of a station to its next
    STATIONS = auto()
    PLACING = auto()
    COATING = auto()
    CLEARING = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """How fast a crew works, in SI.

    ``mixing_stations`` is how many mixes are made at once; ``placing_rate_m2_s`` how fast a body is placed,
    ``coating_rate_m2_s`` how fast a coat is rolled or a surface abraded, ``clearing_rate_m2_s`` how fast loose
    aggregate is scraped and vacuumed [m²/s]; ``cycle_s`` is from one mix of a station to its next, by product code [s].
    """

    mixing_stations: int
    placing_rate_m2_s: float
    coating_rate_m2_s: float
    clearing_rate_m2_s: float
    cycle_s: Mapping[str, float]

    def seconds_per_mix(self, product: Product) -> float:
        """The time from one mix of a station to its next [s]."""
        return self.cycle_s[product.code]
