"""One layer of a floor."""

from __future__ import annotations

from typing import ClassVar

from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.product import Product
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of a system, in the order of the work.

    ``id`` is the kind, numbered when the kind repeats, unless the catalogue gives one. ``cure`` is the time until the
    next layer may go on, from the end of this one's work; ``recoat_closes`` the time after which it must be abraded
    first. ``kind`` is the word for it in the catalogue and the answers.
    """

    kind: ClassVar[str]

    id: str
    name: str
    product: Product
    optional: bool = False
    cure: TimeCurve | None = None
    recoat_closes: TimeCurve | None = None
