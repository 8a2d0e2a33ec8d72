"""The sealant in the moving joints."""

from __future__ import annotations

from typing import ClassVar

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class JointLayer(Layer):
    """Sealant in the moving joints, by the joint's own width and depth."""

    kind: ClassVar[str] = "joint"
