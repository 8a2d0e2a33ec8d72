"""The broadcast: aggregate cast into the wet layer under it."""

from __future__ import annotations

from typing import ClassVar

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class BroadcastLayer(Layer):
    """Aggregate cast to refusal into the layer before it: ``rate_kg_m2`` cast, ``retained_kg_m2`` that stays."""

    kind: ClassVar[str] = "broadcast"

    rate_kg_m2: Triple
    retained_kg_m2: float | None = None
