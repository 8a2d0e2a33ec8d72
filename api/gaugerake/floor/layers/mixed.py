"""Layers whose product is counted in whole mixes."""

from __future__ import annotations

from abc import ABC
from typing import ClassVar

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.tasks import Task, TaskWork, make_task_work
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.need import Conversion
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.layers.trace import Inputs, StatedBy
from gaugerake.floor.product import CountedIn
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class MixedLayer(Layer, ABC):
    """What is measured by its volume and counted in mixes."""

    counted_in: ClassVar[CountedIn] = CountedIn.MIX

    @property
    def quantity_kind(self) -> Kind:
        """It holds a volume."""
        return Kind.VOLUME

    @property
    def conversion(self) -> Conversion | None:
        """The volume over the yield of a mix."""
        rate = self.product.yield_m3
        if rate is None:
            return None
        return Conversion(
            rate=rate, name="yield", figure=Kind.VOLUME, rule="rule-need-mixes", stated_by=StatedBy.PRODUCT
        )

    def mixing_task(self, need: LayerNeed) -> TaskWork:
        """The mixing of its mixes, which goes by stations and not at a rate."""
        return make_task_work(task=Task.MIX, quantity=Figure(need.likely, Kind.MIX), rate=None)

    def mix_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """The mixes, the time of one, and the stations."""
        return {"mixes": Figure(need.likely, Kind.MIX), **crew.mixing_inputs(self.product)}
