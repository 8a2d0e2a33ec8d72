"""The primer, rolled under the body."""

from __future__ import annotations

from typing import ClassVar

from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.rolled import RolledLayer
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PrimerLayer(RolledLayer):
    """Rolled under the body; ``spreading_rate_m2_m3`` [m²/m³]."""

    kind: ClassVar[str] = "primer"
    laid: ClassVar[Laid] = Laid.ON
    does: ClassVar[frozenset[Asked]] = frozenset()
    covers_floor: ClassVar[bool] = True
    bonds: ClassVar[bool] = True
    holds_aggregate: ClassVar[bool] = True
    leaves_voids: ClassVar[bool] = False
    returns_count: ClassVar[bool] = False
