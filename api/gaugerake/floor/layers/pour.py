"""How a layer is poured: its share of the thickness, its product's yield, and when it is broadcast."""

from __future__ import annotations

from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.product import Product
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPour:
    """A pour of ``share_fraction`` of the floor's thickness; ``broadcast_wait`` from placing to the broadcast.

    ``cast_kg_m2`` is the aggregate that is cast into it, at the likely rate and with waste [kg/m²].
    """

    product: Product
    share_fraction: float
    broadcast_wait: TimeCurve | None
    cast_kg_m2: float = 0.0

    @property
    def yield_m3(self) -> Triple:
        """The volume that one mix makes [m³]."""
        assert self.product.yield_m3 is not None, "the catalogue lets no pour in without a yield"
        return self.product.yield_m3
