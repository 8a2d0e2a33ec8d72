"""The layers of a system as an integrator needs them."""

from __future__ import annotations

from typing import Annotated

from gaugerake.answers.systems.products import CONTENTS_KIND
from gaugerake.answers.systems.ranges import Spread, TimeRow, figure_of, rows_of, spread_of
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.sundry import SundryBasis, SundryLayer
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SundryRule:
    """How a sundry is counted: one for each `covers` of `basis`, or `count` to each mix of a product."""

    basis: SundryBasis
    covers: Annotated[Figure | None, "Null where it goes by the mix."]
    product: Annotated[str | None, "The code of the one whose mixes count."]
    count: Annotated[Figure | None, "For each of its mixes."]


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemLayer:
    """One layer, in the order of the work. Null is: not stated, or not of this kind of layer."""

    id: Annotated[str, "What order.optional_layers and the answers call it."]
    layer: Annotated[str, "Its kind."]
    name: str
    product: Annotated[str, "The code of its product."]
    optional: Annotated[bool, "Whether it takes part only when order.optional_layers names it."]
    cure: Annotated[tuple[TimeRow, ...] | None, "Until the next layer may go on."]
    recoat_closes: Annotated[tuple[TimeRow, ...] | None, "After which it must be abraded before the next layer."]
    spreading_rate: Spread | None
    share: Annotated[float | None, "The part of the thickness that this body layer makes."]
    broadcast_wait: Annotated[tuple[TimeRow, ...] | None, "From placing to the broadcast."]
    broadcast_rate: Annotated[Spread | None, "Cast, to refusal."]
    retained: Annotated[Figure | None, "What stays of the broadcast."]
    thickness: Annotated[Figure | None, "Of the cove on the wall."]
    radius: Annotated[Figure | None, "Of the cove's fillet."]
    counted_by: SundryRule | None


def system_layer(layer: Layer) -> SystemLayer:
    """One layer, with what is stated of its kind."""
    rate = layer.spreading_rate_m2_m3 if isinstance(layer, PrimerLayer | CoatLayer) else None
    body = layer if isinstance(layer, BodyLayer) else None
    broadcast = layer if isinstance(layer, BroadcastLayer) else None
    cove = layer if isinstance(layer, CoveLayer) else None
    return SystemLayer(
        id=layer.id,
        layer=layer.kind,
        name=layer.name,
        product=layer.product.code,
        optional=layer.optional,
        cure=rows_of(layer.cure),
        recoat_closes=rows_of(layer.recoat_closes),
        spreading_rate=spread_of(rate, "spreading-rate"),
        share=body.share_fraction if body else None,
        broadcast_wait=rows_of(body.broadcast_wait, "minutes") if body else None,
        broadcast_rate=spread_of(broadcast.rate_kg_m2, "areal-mass") if broadcast else None,
        retained=figure_of(broadcast.retained_kg_m2, "areal-mass") if broadcast else None,
        thickness=Figure(cove.thickness_m, "small-length") if cove else None,
        radius=Figure(cove.radius_m, "small-length") if cove else None,
        counted_by=_sundry(layer) if isinstance(layer, SundryLayer) else None,
    )


def _sundry(layer: SundryLayer) -> SundryRule:
    return SundryRule(
        basis=layer.basis,
        covers=figure_of(layer.covers, "area" if layer.basis is SundryBasis.AREA else "length"),
        product=layer.per_product,
        count=figure_of(layer.count, CONTENTS_KIND[layer.product.counted_in]),
    )
