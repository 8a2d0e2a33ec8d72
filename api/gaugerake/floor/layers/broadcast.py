"""The broadcast: aggregate cast into the wet layer under it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import ClassVar

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import TaskWork
from gaugerake.floor.layers.aggregate import cast_mass, cleared_mass
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.keys import Key, Measure, Ranged
from gaugerake.floor.layers.need import Conversion, Quantity
from gaugerake.floor.layers.takeoff import NO_EXTRAS, BuildUp, Extras, LayerNeed
from gaugerake.floor.layers.trace import Inputs, StatedBy, Trace
from gaugerake.floor.product import CountedIn
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple

_RATE = Measure(dimension="areal-mass", low="1 g/m2", high="100 kg/m2", figure=Kind.AREAL_MASS)


@dataclass(frozen=True, slots=True, kw_only=True)
class BroadcastLayer(Layer):
    """Aggregate cast to refusal into the layer before it: ``rate_kg_m2`` cast, ``retained_kg_m2`` that stays."""

    kind: ClassVar[str] = "broadcast"
    counted_in: ClassVar[CountedIn] = CountedIn.MASS
    keys: ClassVar[tuple[Key, ...]] = (
        Key(
            name="rate",
            field="rate_kg_m2",
            form=Ranged(each=_RATE),
            required=True,
            example="rate: {low: 0.5 lb/ft2, likely: 0.6 lb/ft2, high: 0.8 lb/ft2}",
            shown="broadcast_rate",
        ),
        Key(name="retained", field="retained_kg_m2", form=_RATE, shown="retained"),
    )
    laid: ClassVar[Laid] = Laid.INTO
    does: ClassVar[frozenset[Asked]] = frozenset()
    covers_floor: ClassVar[bool] = True
    bonds: ClassVar[bool] = True
    holds_aggregate: ClassVar[bool] = False
    leaves_voids: ClassVar[bool] = True
    returns_count: ClassVar[bool] = False
    rates: ClassVar[tuple[RateKind, ...]] = (RateKind.CASTING, RateKind.CLEARING)

    rate_kg_m2: Triple
    retained_kg_m2: float | None = None

    def faults(self) -> Iterator[tuple[str, str]]:
        """Tell when more stays than is cast."""
        if self.retained_kg_m2 is not None and self.retained_kg_m2 > self.rate_kg_m2.likely:
            yield "retained", "more is retained than is cast: it is what stays of the likely rate"

    @property
    def quantity_kind(self) -> Kind:
        """It covers an area."""
        return Kind.AREA

    @property
    def conversion(self) -> Conversion:
        """The area times the rate that is cast."""
        return Conversion(
            rate=self.rate_kg_m2,
            name="rate",
            figure=Kind.AREAL_MASS,
            rule="rule-need-broadcast",
            stated_by=StatedBy.SYSTEM,
            multiplies=True,
        )

    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        """The floor of each room [m²]."""
        return [Quantity(0.0, room.area_m2) for room in build.rooms]

    def extras(self, build: BuildUp) -> Extras:
        """What stays and what is cleared away again, where the system states what stays."""
        if self.retained_kg_m2 is None:
            return NO_EXTRAS
        area_m2, rate_kg_m2 = math.fsum(room.area_m2 for room in build.rooms), self.rate_kg_m2.likely
        cast = cast_mass(area_m2=area_m2, rate_kg_m2=rate_kg_m2)
        cleared = cleared_mass(area_m2=area_m2, rate_kg_m2=rate_kg_m2, retained_kg_m2=self.retained_kg_m2)
        return Extras(retained_kg=cast - cleared, cleared_away_kg=cleared)

    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        """The net areas."""
        return "rule-quantity-area", build.area_inputs()

    def extra_traces(self, need: LayerNeed) -> Iterator[Trace]:
        """What stays and what is cleared away, from the rate and what it holds."""
        if self.retained_kg_m2 is None or need.retained_kg is None or need.cleared_away_kg is None:
            return
        inputs: Inputs = {
            "quantity": need.quantity_figure,
            "rate": Figure(self.rate_kg_m2.likely, Kind.AREAL_MASS),
            "retained": Figure(self.retained_kg_m2, Kind.AREAL_MASS),
        }
        yield Trace("retained", "rule-retained", inputs, Figure(need.retained_kg, Kind.MASS))
        yield Trace("cleared_away", "rule-cleared-away", inputs, Figure(need.cleared_away_kg, Kind.MASS))

    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        """None of its own: it is cast while the layer under it is placed."""
        return (0.0,)

    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        """None of its own: what is cast is a task of the layer under it."""
        return ()

    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """Nothing, as it takes no time of its own."""
        return {}

    def cast_kg_m2(self, waste_fraction: float) -> float:
        """The likely rate, and the waste [kg/m²]."""
        return self.rate_kg_m2.likely * (1 + waste_fraction)

    def clear_s(self, crew: CrewOnSite) -> float:
        """The area over the clearing rate [s]."""
        return crew.clearing_s()
