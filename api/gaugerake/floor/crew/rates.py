"""The rates of a crew, as the layers read them."""

from __future__ import annotations

from typing import Protocol

from gaugerake.floor.product import Product


class CrewRates(Protocol):
    """How fast a crew works, in SI.

    ``mixing_stations`` is how many mixes are made at once; ``placing_rate_m2_s`` how fast a body is placed,
    ``coating_rate_m2_s`` how fast a coat is rolled or a surface abraded, ``clearing_rate_m2_s`` how fast loose
    aggregate is scraped and vacuumed [m²/s]. A rate is read only by a layer that uses it, as an unsaid rate is assumed
    when it is first read.
    """

    @property
    def mixing_stations(self) -> int: ...

    @property
    def placing_rate_m2_s(self) -> float: ...

    @property
    def coating_rate_m2_s(self) -> float: ...

    @property
    def clearing_rate_m2_s(self) -> float: ...

    def seconds_per_mix(self, product: Product) -> float:
        """The time from one mix of a station to its next [s]."""
