"""The packs of each day, and what must be at its mixing temperature before."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime
from typing import Annotated

from gaugerake.answers.day_sheet.dated import DatedWork, Shares
from gaugerake.answers.quantities.order import ProductOrder
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.packs.portions import packs_through
from gaugerake.floor.product import Pack, StockItem
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named


@dataclass(frozen=True, slots=True, kw_only=True)
class BroughtPacks:
    """Packs of one sku that come to the site on a day."""

    sku: Annotated[str, "As the order has it."]
    description: Annotated[Named, "For people: product, colour and contents."]
    packs: Annotated[int, "Whole ones; over all days, those of the order."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ConditionedPacks:
    """Packs that must come in out of the cold, or the heat, on a day."""

    sku: Annotated[str, "As the order has it."]
    description: Annotated[Named, "For people: product, colour and contents."]
    packs: Annotated[int, "How many whole packs to bring in."]
    by: Annotated[datetime, "The hour by which they are in, so that they have their time before they are mixed."]
    temperature: Annotated[Figure, "At which they are to be mixed."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion:
    """The packs of one kind that a day brings, and when the first of its product is used on it [s].

    ``through`` is what the order counts on until that evening, in the base quantity; ``before`` packs of the kind have
    come on days before.
    """

    order: ProductOrder
    pack: Pack
    count: int
    day: date
    begins_s: float
    through: float
    before: int

    @property
    def items(self) -> Iterator[tuple[StockItem, int]]:
        """What is carried: the pack, or each part of a kit."""
        return ((item, self.count) for item in self.pack.ordered_as)

    @property
    def condition_by_s(self) -> float | None:
        """When it must be in [s]; None where its product states no time."""
        store = self.order.product.store
        return None if store is None or store.condition_s is None else self.begins_s - store.condition_s


def portions(work: DatedWork, products: Sequence[ProductOrder]) -> Mapping[date, tuple[Portion, ...]]:
    """The packs that each day brings."""
    found: dict[date, list[Portion]] = {day.date: [] for day in work.days}
    for one in products:
        for portion in _portions(one, _used(work, one)):
            found[portion.day].append(portion)
    return {day: tuple(each) for day, each in found.items()}


def conditioned(
    work: DatedWork, brought: Mapping[date, Sequence[Portion]]
) -> Mapping[date, tuple[tuple[float, Portion], ...]]:
    """What must come in on each day of work, and by when [s]: the last that begins before, else the first."""
    found: dict[date, list[tuple[float, Portion]]] = {day.date: [] for day in work.days}
    begins_s = [day.from_s for day in work.days]
    for each in brought.values():
        for portion in each:
            by_s = portion.condition_by_s
            if by_s is not None:
                on = work.days[max(0, bisect_right(begins_s, by_s) - 1)]
                found[on.date].append((by_s, portion))
    return {day: tuple(sorted(each, key=lambda one: one[0])) for day, each in found.items()}


def brought_rows(each: Iterable[Portion]) -> tuple[BroughtPacks, ...]:
    """What a day brings, as its sheet shows it."""
    return tuple(
        BroughtPacks(sku=item.sku, description=item.description, packs=count)
        for portion in each
        for item, count in portion.items
    )


def conditioned_rows(work: DatedWork, each: Iterable[tuple[float, Portion]]) -> tuple[ConditionedPacks, ...]:
    """What must come in, as a day's sheet shows it."""
    zone, resolved = work.timetable.zone, work.timetable.resolved
    mixed = Figure(resolved.work.material_temperature_k.value, Kind.TEMPERATURE)
    return tuple(
        ConditionedPacks(
            sku=item.sku,
            description=item.description,
            packs=count,
            by=zone.datetime_at(math.floor(by_s)),
            temperature=mixed,
        )
        for by_s, portion in each
        for item, count in portion.items
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """What of a product is used up on a day, and when the first of it is [s]."""

    amount: float
    begins_s: float


def _portions(one: ProductOrder, used: Mapping[date, Use]) -> Iterator[Portion]:
    """The packs of each day: so many that what has come covers what is used up; the last day brings the rest."""
    packs, counts, last = one.supply.packs, one.load.counts, max(used, default=None)
    whole, through = math.fsum(use.amount for use in used.values()), 0.0
    before: Sequence[int] = (0,) * len(packs)
    for day, use in used.items():
        through += use.amount
        wanted = one.ordered if day == last else one.ordered * through / whole
        contents = [pack.contents for pack in packs]
        after = packs_through(counts=counts, contents=contents, used=wanted - one.supply.on_hand)
        if day == last:
            after = counts
        for pack, until, had in zip(packs, after, before, strict=True):
            if until > had:
                yield Portion(
                    order=one,
                    pack=pack,
                    count=until - had,
                    day=day,
                    begins_s=use.begins_s,
                    through=wanted,
                    before=had,
                )
        before = after


def _used(work: DatedWork, one: ProductOrder) -> Mapping[date, Use]:
    """What of a product is used up on each day."""
    found: dict[date, Use] = {}
    for need in one.needs:
        shares = _shares(work, need)
        whole = math.fsum(shares.values())
        for day, share in shares.items():
            begins_s = work.begins_s.get((day, need.layer.id), work.day(day).from_s)
            so_far = found.get(day, Use(amount=0.0, begins_s=begins_s))
            amount = so_far.amount + need.rounded_likely * share / whole
            found[day] = Use(amount=amount, begins_s=min(so_far.begins_s, begins_s))
    return {day: found[day] for day in sorted(found)}


def _shares(work: DatedWork, need: LayerNeed) -> Shares:
    """How a need falls on the days."""
    if need.layer.laid is not Laid.BESIDE:
        return work.layer_days(need)
    first = {day.date: 1.0 for day in work.days[:1]}
    by = need.layer.per_mix
    if by is None:
        return first
    found: dict[date, float] = {}
    for other in work.takeoff.layers:
        if other.layer.product.code == by.product and other.layer.laid is not Laid.BESIDE:
            shares = work.layer_days(other)
            whole = math.fsum(shares.values())
            for day, share in shares.items():
                found[day] = found.get(day, 0.0) + other.rounded_likely * share / whole
    return found or first
