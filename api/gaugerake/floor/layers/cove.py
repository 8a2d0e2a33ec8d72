"""The cove: the floor turned up the wall."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import Task, TaskWork, make_task_work
from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.keys import Key, Measure
from gaugerake.floor.layers.mixed import MixedLayer
from gaugerake.floor.layers.need import Quantity
from gaugerake.floor.layers.takeoff import BuildUp, LayerNeed
from gaugerake.floor.layers.trace import Inputs
from gaugerake.floor.layers.volumes import cove_volume
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CoveLayer(MixedLayer):
    """Turns the floor up the wall: ``thickness_m`` on the wall, and a fillet of ``radius_m``. Counted in mixes."""

    kind: ClassVar[str] = "cove"
    keys: ClassVar[tuple[Key, ...]] = (
        Key(
            name="thickness",
            field="thickness_m",
            form=Measure(dimension="length", low="0.5 mm", high="100 mm", figure=Kind.SMALL_LENGTH),
            required=True,
            example="thickness: 1/4 in, or for a system {low: 5/32 in, usual: 3/16 in, high: 3/8 in}",
            shown="thickness",
        ),
        Key(
            name="radius",
            field="radius_m",
            form=Measure(dimension="length", low="0 mm", high="300 mm", figure=Kind.SMALL_LENGTH),
            required=True,
            example="radius: 1 in",
            shown="radius",
        ),
    )
    laid: ClassVar[Laid] = Laid.ON
    does: ClassVar[frozenset[Asked]] = frozenset({Asked.COVE})
    covers_floor: ClassVar[bool] = False
    bonds: ClassVar[bool] = True
    holds_aggregate: ClassVar[bool] = False
    leaves_voids: ClassVar[bool] = False
    returns_count: ClassVar[bool] = False
    time_rule: ClassVar[str] = "rule-clock-cove"
    rates: ClassVar[tuple[RateKind, ...]] = (RateKind.COVING, RateKind.CYCLE, RateKind.STATIONS)

    thickness_m: float
    radius_m: float

    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        """The volume of the cove and its fillet in each room [m³]."""
        return [
            Quantity(
                0.0,
                cove_volume(
                    length_m=room.cove_length_m,
                    height_m=room.cove_height_m,
                    thickness_m=self.thickness_m,
                    radius_m=self.radius_m,
                ),
            )
            for room in build.rooms
        ]

    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        """Its thickness and radius, and each cove."""
        own: Inputs = {
            "thickness": Figure(self.thickness_m, Kind.SMALL_LENGTH),
            "radius": Figure(self.radius_m, Kind.SMALL_LENGTH),
        }
        return "rule-quantity-cove-volume", {**own, **build.cove_inputs()}

    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        """Its length over the cove rate, or the mixing where that is longer [s]."""
        return (max(crew.coving_s(), crew.mixing_s(self.product, need.likely)),)

    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        """The cove, and the mixing for it."""
        length, rate = Figure(crew.cove_m, Kind.LENGTH), Figure(crew.rates.cove_rate_m_s, Kind.LENGTH_RATE)
        return make_task_work(task=Task.COVE, quantity=length, rate=rate), self.mixing_task(need)

    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """Its length and rate, and the mixes."""
        return {
            "length": Figure(crew.cove_m, Kind.LENGTH),
            "cove_rate": Figure(crew.rates.cove_rate_m_s, Kind.LENGTH_RATE),
            **self.mix_inputs(need, crew),
        }
