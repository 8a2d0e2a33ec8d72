"""Liquids that are rolled over the floor, and up the cove."""

from __future__ import annotations

from abc import ABC
from collections.abc import Iterator, Sequence
from typing import ClassVar

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import Task, TaskWork, make_task_work
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.film import coated_area, dry_film, wet_film
from gaugerake.floor.layers.keys import Key, Measure, Ranged
from gaugerake.floor.layers.need import Conversion, Quantity
from gaugerake.floor.layers.takeoff import NO_EXTRAS, BuildUp, Extras, LayerNeed
from gaugerake.floor.layers.trace import Inputs, StatedBy, Trace
from gaugerake.floor.product import CountedIn
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple

SPREADING_RATE = Measure(dimension="spreading-rate", low="0.05 m2/L", high="100 m2/L", figure=Kind.SPREADING_RATE)


@dataclass(frozen=True, slots=True, kw_only=True)
class RolledLayer(Layer, ABC):
    """A liquid rolled at ``spreading_rate_m2_m3`` [m²/m³]; it makes a film, except over voids, which it fills."""

    rates: ClassVar[tuple[RateKind, ...]] = (RateKind.COATING,)
    cast_time_rule: ClassVar[str] = "rule-clock-coat-and-cast"

    counted_in: ClassVar[CountedIn] = CountedIn.LIQUID
    keys: ClassVar[tuple[Key, ...]] = (
        Key(
            name="spreading_rate",
            field="spreading_rate_m2_m3",
            form=Ranged(each=SPREADING_RATE),
            required=True,
            example="spreading_rate: {low: 180 ft2/gal, likely: 210 ft2/gal, high: 240 ft2/gal}",
            shown="spreading_rate",
        ),
    )

    spreading_rate_m2_m3: Triple

    @property
    def film_rate(self) -> Triple:
        """Its spreading rate [m²/m³]."""
        return self.spreading_rate_m2_m3

    @property
    def quantity_kind(self) -> Kind:
        """It covers an area."""
        return Kind.AREA

    @property
    def conversion(self) -> Conversion:
        """The area over the spreading rate."""
        return Conversion(
            rate=self.spreading_rate_m2_m3,
            name="spreading rate",
            figure=Kind.SPREADING_RATE,
            rule="rule-need-spreading",
            stated_by=StatedBy.SYSTEM,
        )

    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        """The floor of each room, and the cove that it climbs [m²]."""
        if not build.coved:
            return [Quantity(0.0, room.area_m2) for room in build.rooms]
        return [
            Quantity(
                0.0,
                coated_area(area_m2=room.area_m2, cove_length_m=room.cove_length_m, cove_height_m=room.cove_height_m),
            )
            for room in build.rooms
        ]

    def extras(self, build: BuildUp) -> Extras:
        """Its likely film, wet, and dry where the volume solids are stated."""
        if build.lies_on_voids(self):
            return NO_EXTRAS
        wet_m, solids = (
            wet_film(spreading_rate_m2_m3=self.spreading_rate_m2_m3.likely),
            self.product.volume_solids_fraction,
        )
        dry_m = None if solids is None else dry_film(wet_film_m=wet_m, volume_solids_fraction=solids)
        return Extras(wet_film_m=wet_m, dry_film_m=dry_m)

    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        """The net areas, and the coves where it climbs one."""
        if not build.coved:
            return "rule-quantity-area", build.area_inputs()
        return "rule-quantity-coated", {**build.area_inputs(), **build.cove_inputs()}

    def extra_traces(self, need: LayerNeed) -> Iterator[Trace]:
        """The film from the spreading rate, and dry from the volume solids."""
        wet_m, dry_m, solids = need.wet_film_m, need.dry_film_m, self.product.volume_solids_fraction
        if wet_m is None:
            return
        film, rate = Figure(wet_m, Kind.FILM), Figure(self.spreading_rate_m2_m3.likely, Kind.SPREADING_RATE)
        yield Trace("wet_film", "rule-wet-film", {"spreading rate": rate}, film)
        if dry_m is not None and solids is not None:
            inputs: Inputs = {"wet film": film, "volume solids": Figure(solids * 100, Kind.PERCENT)}
            yield Trace("dry_film", "rule-dry-film", inputs, Figure(dry_m, Kind.FILM), StatedBy.PRODUCT)

    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        """The area over the coating rate [s]; where aggregate is cast into it and takes longer, that."""
        return (max(crew.coating_s(), crew.casting_s()),)

    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        """Coating, and the casting of what is cast into it."""
        area, rate = Figure(crew.area_m2, Kind.AREA), Figure(crew.rates.coating_rate_m2_s, Kind.AREA_RATE)
        return make_task_work(task=Task.COAT, quantity=area, rate=rate), *crew.casting_tasks()

    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """The areas and the coating rate, and what is cast into it."""
        return {**crew.area_inputs(crew.rates.coating_rate_m2_s), **crew.casting_inputs()}
