"""The layers of a system as an integrator needs them."""

from __future__ import annotations

from typing import Annotated, Any

from gaugerake.answers.systems.ranges import StatedRange, TimeRow, figure_of, rows_of, stated_range
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import RaisedLimits
from gaugerake.floor.layers.keys import Form, Measure, Ranged, Times
from gaugerake.floor.layers.sundry import SundryRule
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named


@dataclass(frozen=True, slots=True, kw_only=True)
class Raises:
    """Up to which moisture of the slab the system goes with this layer. Null is: as the system's slab_limits say."""

    relative_humidity: Annotated[Figure | None, "Of the slab at a probe's depth, at most, in % (ASTM F2170)."]
    moisture_emission: Annotated[Figure | None, "Of the slab, at most (ASTM F1869)."]


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemLayer:
    """One layer, in the order of the work. Null is: not stated, or not of this kind of layer."""

    id: Annotated[str, "What order.optional_layers and the answers call it."]
    layer: Annotated[str, "Its kind."]
    name: Annotated[Named, "What people call it."]
    product: Annotated[str, "The code of its product."]
    optional: Annotated[bool, "Whether it takes part only when order.optional_layers names it."]
    cure: Annotated[tuple[TimeRow, ...] | None, "Until the next layer may go on."]
    recoat_closes: Annotated[tuple[TimeRow, ...] | None, "After which it must be abraded before the next layer."]
    raises: Annotated[Raises | None, "The moisture limits that it raises when it takes part."] = None
    spreading_rate: Annotated[StatedRange | None, "Of a primer or coat: the area that a volume covers."] = None
    share: Annotated[float | None, "The part of the thickness that this body layer makes."] = None
    broadcast_wait: Annotated[tuple[TimeRow, ...] | None, "From placing to the broadcast."] = None
    broadcast_rate: Annotated[StatedRange | None, "Cast, to refusal."] = None
    retained: Annotated[Figure | None, "What stays of the broadcast."] = None
    thickness: Annotated[Figure | None, "Of the cove on the wall."] = None
    radius: Annotated[Figure | None, "Of the cove's fillet."] = None
    counted_by: Annotated[SundryRule | None, "Of a sundry: what it is counted by."] = None


def system_layer(layer: Layer) -> SystemLayer:
    """One layer, with what is stated of its kind."""
    stated = {name: _shown(value, form) for name, (value, form) in layer.shown().items()}
    return SystemLayer(
        id=layer.id,
        layer=layer.kind,
        name=layer.name,
        product=layer.product.code,
        optional=layer.optional,
        cure=rows_of(layer.cure),
        recoat_closes=rows_of(layer.recoat_closes),
        raises=_raises(layer.raises),
        **stated,
    )


def _raises(raised: RaisedLimits | None) -> Raises | None:
    if raised is None:
        return None
    return Raises(
        relative_humidity=figure_of(raised.relative_humidity_percent, Kind.PERCENT),
        moisture_emission=figure_of(raised.moisture_emission_kg_m2_s, Kind.MOISTURE_EMISSION),
    )


def _shown(value: Any, form: Form) -> Any:
    """A stated value in the form that answers have."""
    match form:
        case Measure():
            return figure_of(value, form.figure)
        case Ranged():
            return stated_range(value, form.each.figure)
        case Times():
            return rows_of(value, form.figure)
        case _:
            return value
