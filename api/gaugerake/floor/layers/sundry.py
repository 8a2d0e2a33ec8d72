"""Sundries: tape, rollers, blades and the like, which the work uses up.

Decisions:

* Sundries carry no waste. Those per product follow the whole mixes ordered; in ``LayerNeed`` they stand at the mixes
  needed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum
from typing import Annotated, Any, ClassVar

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import TaskWork
from gaugerake.floor.layers.base import Layer, PerMix, Stated
from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.keys import Entry, Group, Key, Measure, ProductCode, Ready, Whole, Word
from gaugerake.floor.layers.need import Conversion, Quantity
from gaugerake.floor.layers.takeoff import BuildUp, LayerNeed, Takeoff
from gaugerake.floor.layers.trace import COLUMNS, Inputs, Trace
from gaugerake.floor.product import CountedIn
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import whole


class SundryBasis(StrEnum):
    """What a sundry is counted by."""

    AREA = "area"  # m²
    COVE = "cove"  # m
    WALLS = "walls"  # m
    JOINTS = "joints"  # m
    PRODUCT = "product"  # whole mixes ordered of another product


_AREA = Measure(dimension="area", low="0.01 m2", high="200000 m2", figure=Kind.AREA)
_LENGTH = Measure(dimension="length", low="0.01 m", high="100 km", figure=Kind.LENGTH)
_OF = Key(name="of", field="basis", form=Word(words=SundryBasis))
_COVERS_AREA = Key(name="covers", field="covers", form=_AREA)
_COVERS_LENGTH = Key(name="covers", field="covers", form=_LENGTH)
_PER = Key(
    name="per",
    field="per_product",
    form=Group(
        keys=(
            Key(
                name="product",
                field="per_product",
                form=ProductCode(counted_in=CountedIn.MIX, taker="count per mix"),
                required=True,
            ),
            Key(name="count", field="count", form=Whole(low=1, high=1000), required=True),
        )
    ),
)
_LENGTHS = {
    SundryBasis.COVE: ("cove length", "cove_length_m"),
    SundryBasis.WALLS: ("perimeter", "perimeter_m"),
    SundryBasis.JOINTS: ("moving joints", "moving_joint_length_m"),
}
"""The name of each basis of length in the working, and the field of a room that holds it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SundryRule:
    """How a sundry is counted: one for each `covers` of `basis`, or `count` to each mix of a product."""

    basis: Annotated[
        SundryBasis, "What is counted: floor, cove, walls or moving joints by their measure, or `product` by its mixes."
    ]
    covers: Annotated[Figure | None, "Null where it goes by the mix."]
    product: Annotated[str | None, "The code of the one whose mixes count."]
    count: Annotated[Figure | None, "For each of its mixes."]


@dataclass(frozen=True, slots=True, kw_only=True)
class SundryLayer(Layer):
    """Something used up by the way: one for each ``covers`` [m² or m] of ``basis``, or ``count`` per mix of a product.

    With ``basis`` PRODUCT, ``per_product`` is the code of the product and ``count`` the pieces (or base quantity) to
    each whole mix of it; otherwise ``covers`` is in the unit of the basis.
    """

    kind: ClassVar[str] = "sundry"
    counted_in: ClassVar[CountedIn] = CountedIn.PIECE
    keys: ClassVar[tuple[Key, ...]] = (_COVERS_AREA, _OF, _PER)
    laid: ClassVar[Laid] = Laid.BESIDE
    does: ClassVar[frozenset[Asked]] = frozenset()
    covers_floor: ClassVar[bool] = False
    bonds: ClassVar[bool] = True
    holds_aggregate: ClassVar[bool] = False
    leaves_voids: ClassVar[bool] = False
    returns_count: ClassVar[bool] = False
    rates: ClassVar[tuple[RateKind, ...]] = ()

    basis: SundryBasis
    covers: float | None = None
    per_product: str | None = None
    count: float | None = None

    @classmethod
    def read(cls, entry: Entry) -> dict[str, Any]:
        """How it is counted: by what it covers, or by the mixes of a product; both or neither is a fault."""
        if ("per" in entry) == ("covers" in entry):
            entry.fault(None, "a sundry is counted one way: write covers: 600 ft2, or per: {product: body, count: 1}")
        if "per" in entry and "of" in entry:
            entry.fault("of", "of goes with covers; per says already what is counted")
        if "per" in entry:
            found = entry.read(_PER)
            return {**found, "basis": SundryBasis.PRODUCT, "count": float(found["count"] or 1)}
        basis = entry.read(_OF) if "of" in entry else SundryBasis.AREA
        if basis is SundryBasis.PRODUCT:
            entry.fault("of", "write per: {product: body, count: 1} to count by the mixes of a product")
            basis = None
        if basis is None:
            return {"basis": SundryBasis.AREA}
        covers = _COVERS_AREA if basis is SundryBasis.AREA else _COVERS_LENGTH
        return {"basis": basis, "covers": entry.read(covers) if "covers" in entry else None}

    def shown(self) -> Mapping[str, Stated]:
        """How it is counted."""
        covers = None if self.covers is None else Figure(self.covers, self.quantity_kind)
        count = None if self.count is None else Figure(self.count, self.product.counted_in.figure_kind)
        rule = SundryRule(basis=self.basis, covers=covers, product=self.per_product, count=count)
        return {"counted_by": Stated(rule, Ready())}

    @property
    def quantity_kind(self) -> Kind:
        """An area, the mixes of a product, or a length."""
        return {SundryBasis.AREA: Kind.AREA, SundryBasis.PRODUCT: Kind.MIX}.get(self.basis, Kind.LENGTH)

    @property
    def conversion(self) -> Conversion | None:
        """None: pieces are counted."""
        return None

    @property
    def per_mix(self) -> PerMix | None:
        """The product whose mixes it goes by."""
        if self.basis is not SundryBasis.PRODUCT:
            return None
        return PerMix(product=self.per_product or "", count=self.count or 0.0)

    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        """What it is counted by in each room [m² or m]; nothing where it goes by the mixes of a product."""
        if self.basis is SundryBasis.PRODUCT or (self.basis is SundryBasis.COVE and not build.coved):
            return ()
        if self.basis is SundryBasis.AREA:
            return [Quantity(0.0, room.area_m2) for room in build.rooms]
        field = _LENGTHS[self.basis][1]
        return [Quantity(0.0, getattr(room, field)) for room in build.rooms]

    def need(self, build: BuildUp, before: Sequence[LayerNeed]) -> LayerNeed | None:
        """One for each that is begun of what it covers; or by the whole mixes needed of a product.

        The order counts the mixes that it buys.
        """
        if self.basis is SundryBasis.PRODUCT:
            mixes = _mixes([need for need in before if need.layer.product.code == self.per_product])
            quantity, count = mixes.likely, self.count or 0.0
            need = Triple(low=count * mixes.low, likely=count * mixes.likely, high=count * mixes.high)
        else:
            quantity = math.fsum(part.fixed for part in self.measure(build))
            pieces = float(whole(quantity / (self.covers or math.inf)))
            need = Triple(low=pieces, likely=pieces, high=pieces)
        return LayerNeed.exact(self, need, quantity=quantity) if need.high > 0 else None

    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        """The areas or lengths of its basis."""
        rule = f"rule-quantity-{self.basis}"
        if self.basis is SundryBasis.AREA:
            return rule, build.area_inputs()
        name, field = _LENGTHS[self.basis]
        return rule, {
            f"room {room.index + 1} {name}": Figure(getattr(room, field), Kind.LENGTH) for room in build.rooms
        }

    def traces(self, need: LayerNeed, takeoff: Takeoff) -> Iterator[Trace]:
        """How its pieces came about: from what it covers, or from the mixes used of a product."""
        if self.basis is SundryBasis.PRODUCT:
            yield from self._product_traces(need, takeoff)
            return
        yield Trace("quantity", *self.quantity_inputs(takeoff.build), need.quantity_figure)
        covers = Figure(self.covers or math.inf, self.quantity_kind)
        for column in COLUMNS:
            inputs: Inputs = {"quantity": need.quantity_figure, "covers": covers}
            yield Trace(f"need/{column}", "rule-need-covers", inputs, need.figure(column))
            yield self.used_trace(need, column)

    def _product_traces(self, need: LayerNeed, takeoff: Takeoff) -> Iterator[Trace]:
        made = [one for one in takeoff.layers if one.demand and one.layer.product.code == self.per_product]
        for column in COLUMNS:
            mixes: Inputs = {f"mixes {number}": one.used_figure(column) for number, one in enumerate(made, 1)}
            if column == "likely":
                yield Trace("quantity", "rule-quantity-product", mixes, need.quantity_figure)
            yield Trace(f"need/{column}", "rule-need-per-mix", {"count": self.count, **mixes}, need.figure(column))
            yield self.used_trace(need, column)

    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        """No time: it is used up in the work of others."""
        return ()

    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        """None: it is used up in the work of others."""
        return ()

    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """Nothing, as it takes no time."""
        return {}


def _mixes(needs: Sequence[LayerNeed]) -> Triple:
    return Triple(
        low=math.fsum(need.rounded_low for need in needs),
        likely=math.fsum(need.rounded_likely for need in needs),
        high=math.fsum(need.rounded_high for need in needs),
    )
