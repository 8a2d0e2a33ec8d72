"""The primer, rolled under the body."""

from __future__ import annotations

from typing import ClassVar

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class PrimerLayer(Layer):
    """Rolled under the body; ``spreading_rate_m2_m3`` [m²/m³]."""

    kind: ClassVar[str] = "primer"

    spreading_rate_m2_m3: Triple
