"""What to aim at while a layer is laid: the wet film, and the floor that a pack covers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated

from gaugerake.answers.day_sheet.dated import DatedWork, PouredOn
from gaugerake.answers.quantities.order import ProductOrder
from gaugerake.floor.clock.days import WorkDay
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.product import Pack
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerTarget:
    """What one pack of a layer's product is to cover, without waste, and how thick it then lies."""

    layer: Annotated[str, "The id of the layer."]
    sku: Annotated[str, "Of the pack; of a kit, the skus of its parts."]
    wet_film: Annotated[
        Figure | None, "As laid, at the likely rate; null of aggregate, and over a broadcast, whose voids it fills."
    ]
    area_per_pack: Annotated[Figure, "The floor that one pack covers at the likely rate or yield."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverage:
    """The floor that a product's base quantity covers [m²], and the film that it then makes [m].

    ``thickness_m`` is that of the floor, of a layer that is poured.
    """

    need: LayerNeed
    pack: Pack
    per_unit_m2: float
    film_m: float | None
    thickness_m: float | None = None

    @property
    def shown(self) -> LayerTarget:
        """As a sheet shows it."""
        return LayerTarget(
            layer=self.need.layer.id,
            sku=self.pack.sku,
            wet_film=None if self.film_m is None else Figure(self.film_m, Kind.FILM),
            area_per_pack=Figure(self.pack.contents * self.per_unit_m2, Kind.AREA),
        )


def coverages(
    work: DatedWork, day: WorkDay, poured: Sequence[PouredOn], orders: Mapping[str, ProductOrder]
) -> Iterator[Coverage]:
    """What to aim at on a day, in the order of the work."""
    for need in work.takeoff.layers:
        if (day.date, need.layer.id) in work.begins_s:
            for pack in _packs(orders[need.layer.product.code]):
                yield from _coverages(work, need, pack, poured)


def _packs(order: ProductOrder) -> list[Pack]:
    """The packs that are ordered; where none is, as all is on hand, those on offer."""
    ordered = [pack for pack, count in zip(order.supply.packs, order.load.counts, strict=True) if count > 0]
    return ordered or list(order.supply.packs)


def _coverages(work: DatedWork, need: LayerNeed, pack: Pack, poured: Sequence[PouredOn]) -> Iterator[Coverage]:
    """The coverages of a layer: a body has one for each thickness poured that day, a layer measured by area has one."""
    layer = need.layer
    if layer.pour is not None:
        areas = {
            work.takeoff.rooms[one.judged.part.pour.room].thickness_m or 0.0: one.judged.part.pour.pace.mix_area_m2
            for one in poured
            if one.layer.site.layer.id == layer.id
        }
        for thickness_m, mix_area_m2 in areas.items():
            film_m = thickness_m * layer.pour.share_fraction
            yield Coverage(need=need, pack=pack, per_unit_m2=mix_area_m2, film_m=film_m, thickness_m=thickness_m)
    elif layer.quantity_kind is Kind.AREA and layer.conversion is not None:
        rate = layer.conversion.rate.likely
        per_unit_m2 = 1 / rate if layer.conversion.multiplies else rate
        yield Coverage(need=need, pack=pack, per_unit_m2=per_unit_m2, film_m=need.wet_film_m)
