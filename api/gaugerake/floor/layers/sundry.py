"""Sundries: what is used up by the way."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.values.frozen import dataclass


class SundryBasis(StrEnum):
    """What a sundry is counted by."""

    AREA = "area"  # m²
    COVE = "cove"  # m
    WALLS = "walls"  # m
    JOINTS = "joints"  # m
    PRODUCT = "product"  # whole mixes ordered of another product


@dataclass(frozen=True, slots=True, kw_only=True)
class SundryLayer(Layer):
    """Something used up by the way: one for each ``covers`` [m² or m] of ``basis``, or ``count`` per mix of a product.

    With ``basis`` PRODUCT, ``per_product`` is the code of the product and ``count`` the pieces (or base quantity) to
    each whole mix of it; otherwise ``covers`` is in the unit of the basis.
    """

    kind: ClassVar[str] = "sundry"

    basis: SundryBasis
    covers: float | None = None
    per_product: str | None = None
    count: float | None = None
