"""The chance of running short, product by product and of the order as a whole."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.quantities.order import ProductOrder
from gaugerake.floor.packs.choice import Load, choose_packs
from gaugerake.floor.shortage.chance import all_suffice
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.rounding import GUARD

Probability = Annotated[float, "Of running short with so many, 0 to 1."]
MOST_STEPS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class CurvePoint:
    """A number of packs of the product and the chance of running short with them."""

    packs: Annotated[int, "In all: the order with fewer or more of its smallest pack."]
    probability: Probability


_make_curve_point = maker(CurvePoint)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortage:
    """The chance of running short of one product."""

    product: Annotated[str, "Its code."]
    with_order: Annotated[float, "With the packs ordered, 0 to 1."]
    with_one_pack_fewer: Annotated[float | None, "Less the smallest pack ordered; null where none is ordered."]
    with_likely_need: Annotated[float, "With the cheapest packs that cover the likely need."]
    curve: Annotated[tuple[CurvePoint, ...], "The same chance with a few packs fewer and more."]


_make_shortage = maker(Shortage)


def shortages(products: Sequence[ProductOrder]) -> tuple[Shortage, ...]:
    """The chance of running short of each product."""
    return tuple(_shortage(one) for one in products)


def shortage_any(resolved: ResolvedJob, products: Sequence[ProductOrder]) -> float:
    """The chance that anything of the order runs short."""
    if any(one.basis.chance is None and _short(one, [one.held])[0] for one in products):
        return 1.0
    supplies = [(one.basis.chance, one.held) for one in products if one.basis.chance is not None]
    return _rounded(1 - all_suffice(supplies=supplies, sd_fraction=resolved.system.thickness_sd_fraction))


def likely_load(one: ProductOrder) -> Load:
    """The cheapest packs that cover the likely need."""
    if one.likely == one.ordered:
        return one.load
    return choose_packs(need=one.likely - one.supply.on_hand, offered=one.supply.offered)


def curve_amounts(one: ProductOrder) -> dict[int, float]:
    """What there is of a product, by the packs in all: some of the smallest pack ordered left out or added."""
    contents, fewer, more = _smallest(one)
    packs = sum(one.load.counts)
    held = one.held
    return {packs + step: held + step * contents for step in range(-fewer, more + 1)}


def _smallest(one: ProductOrder) -> tuple[float, int, int]:
    """The smallest pack ordered (of all, where none is): what it holds, and how many less and more are looked at."""
    rows = [row for row in zip(one.supply.offered, one.load.counts, strict=True) if row[1] > 0]
    rows = rows or [(offered, 0) for offered in one.supply.offered]
    offered, count = rows[0] if len(rows) == 1 else min(rows, key=lambda row: (row[0].contents, row[0].sku))
    more = MOST_STEPS if offered.available is None else min(MOST_STEPS, offered.available - count)
    return offered.contents, min(count, MOST_STEPS), more


def _shortage(one: ProductOrder) -> Shortage:
    if one.basis.chance is None and not one.load.lacking:
        return _exact(one)
    packs, amounts = sum(one.load.counts), curve_amounts(one)
    with_likely, *chances = _short(one, [likely_load(one).contents + one.supply.on_hand, *amounts.values()])
    curve = dict(zip(amounts, chances, strict=True))
    return _make_shortage(
        product=one.product.code,
        with_order=curve[packs],
        with_one_pack_fewer=curve.get(packs - 1),
        with_likely_need=with_likely,
        curve=tuple(
            [_make_curve_point(packs=count, probability=short) for count, short in _telling(list(curve.items()))]
        ),
    )


def _exact(one: ProductOrder) -> Shortage:
    """The shortage of a product whose exact need the order covers: its curve has the fewest packs, and one less."""
    contents, fewer, _ = _smallest(one)
    packs = sum(one.load.counts)
    spare = min(fewer, int((one.held - one.ordered * (1 - GUARD)) / contents))
    points = [_make_curve_point(packs=packs - spare, probability=0.0)]
    if spare < fewer:
        points.insert(0, _make_curve_point(packs=packs - spare - 1, probability=1.0))
    return _make_shortage(
        product=one.product.code,
        with_order=0.0,
        with_one_pack_fewer=float(spare == 0) if fewer else None,
        with_likely_need=0.0,
        curve=tuple(points),
    )


def _short(one: ProductOrder, amounts: Sequence[float]) -> list[float]:
    """The chance of running short with each of these amounts."""
    chance = one.basis.chance
    if chance is None:
        return [float(amount < one.ordered * (1 - GUARD)) for amount in amounts]
    return [_rounded(1 - enough) for enough in chance.suffice(amounts)]


def _telling(points: Sequence[tuple[int, float]]) -> Sequence[tuple[int, float]]:
    """The points from the last with no doubt of running short to the first with none of sufficing."""
    first, last = 0, len(points) - 1
    while first < last and points[first + 1][1] >= 1:
        first += 1
    while last > first and points[last - 1][1] <= 0:
        last -= 1
    return points[first : last + 1]


def _rounded(probability: float) -> float:
    """A probability rounded to a millionth, so that no noise of the sums is shown."""
    near = round(probability, 6) + 0.0
    return 0.0 if near < 0.0 else 1.0 if near > 1.0 else near
