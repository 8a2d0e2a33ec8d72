"""The body: poured to thickness."""

from __future__ import annotations

from typing import ClassVar

from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyLayer(Layer):
    """Poured to thickness; ``share_fraction`` of the system's thickness. Counted in mixes."""

    kind: ClassVar[str] = "body"

    share_fraction: float = 1.0
    broadcast_wait: TimeCurve | None = None
