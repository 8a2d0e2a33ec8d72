"""The rates of a crew, as the layers read them."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum, auto

from gaugerake.floor.product import Product
from gaugerake.floor.values.frozen import dataclass


class RateKind(Enum):
    """What the time of a layer's work depends on."""

    CYCLE = auto()  # from one mix of a station to its next
    STATIONS = auto()
    PLACING = auto()
    CASTING = auto()
    COATING = auto()
    CLEARING = auto()
    CHASING = auto()
    PATCHING = auto()
    COVING = auto()
    SEALING = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """How fast a crew works, in SI: each rate is what all hands of its task do together.

    ``mixing_stations`` is how many mixes are made at once; ``prepare_rate_m2_s`` how fast the slab is prepared,
    ``placing_rate_m2_s`` how fast a body is placed, ``coating_rate_m2_s`` how fast a coat is rolled or a surface
    abraded, ``clearing_rate_m2_s`` how fast loose aggregate is scraped and vacuumed, ``patch_rate_m2_s`` how fast
    spalls are patched [m²/s]; ``saw_rate_m_s`` how fast a keyway is sawn, ``chase_rate_m_s`` a crack opened and
    filled, ``cove_rate_m_s`` a cove made, ``seal_rate_m_s`` a joint sealed [m/s]; ``cast_rate_kg_s`` how fast aggregate
    is cast [kg/s]; ``cycle_s`` is from one mix of a station to its next, by product code [s].
    """

    mixing_stations: int
    prepare_rate_m2_s: float
    saw_rate_m_s: float
    chase_rate_m_s: float
    patch_rate_m2_s: float
    cove_rate_m_s: float
    placing_rate_m2_s: float
    cast_rate_kg_s: float
    coating_rate_m2_s: float
    clearing_rate_m2_s: float
    seal_rate_m_s: float
    cycle_s: Mapping[str, float]

    def seconds_per_mix(self, product: Product) -> float:
        """The time from one mix of a station to its next [s]."""
        return self.cycle_s[product.code]
