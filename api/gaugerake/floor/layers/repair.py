"""The repair of the slab: cracks, bridged joints and spalls, filled."""

from __future__ import annotations

from typing import ClassVar

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairLayer(Layer):
    """Fills cracks, bridged joints and spalls; its product is counted in mixes."""

    kind: ClassVar[str] = "repair"
