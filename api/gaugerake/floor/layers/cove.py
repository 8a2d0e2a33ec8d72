"""The cove: the floor turned up the wall."""

from __future__ import annotations

from typing import ClassVar

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CoveLayer(Layer):
    """Turns the floor up the wall: ``thickness_m`` on the wall, and a fillet of ``radius_m``. Counted in mixes."""

    kind: ClassVar[str] = "cove"

    thickness_m: float
    radius_m: float
