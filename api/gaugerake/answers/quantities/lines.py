"""The order as an answer shows it: a line for each sku, in whole packs, and what the lines add up to."""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import Decimal
from typing import Annotated

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.quantities.order import ProductOrder
from gaugerake.catalogue.file.codes import MINOR_UNITS
from gaugerake.floor.packs.choice import price_of
from gaugerake.floor.product import Pack, StockItem
from gaugerake.floor.values.figure import Figure, Kind, Rate
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.money import amount_at, percent_of, to_minor
from gaugerake.floor.values.name import Named

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineNeed:
    """What a product's layers need together, in whole mixes or batches where they are never split."""

    low: Annotated[Figure, "If every mix or pack goes as far as its maker says at best, waste included."]
    likely: Annotated[Figure, "At the yields and rates that are most likely, waste included."]
    high: Annotated[Figure, "If every mix or pack goes as short as its maker says at worst, waste included."]
    ordered: Annotated[Figure, "What the packs must cover, with what is on hand."]


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One sku of the order. Need and what is left over stand on the first line of a product.

    The parts of a kit have a line each, one after the other, and the same ``packs``.
    """

    id: Annotated[str, "Its number in this order."]
    product: Annotated[str, "The code of the product."]
    sku: Annotated[str, "As the catalogue has it."]
    kit: Annotated[str | None, "Of a kit's part: the skus of all its parts, on each of their lines; else null."]
    description: Annotated[Named, "For people: product, colour and contents."]
    packs: Annotated[int, "How many whole ones to load."]
    unit_code: Annotated[str, "UN/ECE Recommendation 20 or 21."]
    contents: Annotated[Figure, "Of one pack; of a kit's part, what the whole kit holds."]
    layers: Annotated[tuple[str, ...], "Ids of the layers that take the product."]
    need: Annotated[LineNeed | None, "Of the product; null on its further lines."]
    left_over: Annotated[Figure | None, "Ordered and on hand, less the likely need."]
    weight: Annotated[Figure | None, "Of the line; null where the catalogue states none."]
    unit_price: Annotated[Decimal | None, "Of one pack at this count; null where there is none."]
    amount: Annotated[Decimal | None, "Of the line, rounded once, half up, to the currency's minor unit."]


_make_line_need = maker(LineNeed)
_make_order_line = maker(OrderLine)


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """What the order comes to, in decimal strings; what has no price is left out, and `unpriced` names it."""

    currency: Annotated[str, "Of every amount, as ISO 4217 has it."]
    lines: Annotated[Decimal, "The amounts of the lines."]
    discount: Annotated[Decimal, "Taken off the lines."]
    delivery: Annotated[Decimal, "As the job says."]
    net: Annotated[Decimal, "Lines less discount, and delivery."]
    tax: Annotated[Decimal, "On the net, once."]
    gross: Annotated[Decimal, "Net and tax."]
    weight: Annotated[Figure, "Of the packs whose weight the catalogue states."]
    per_area: Annotated[Rate, "Net by net area."]
    unpriced: Annotated[
        tuple[str, ...],
        "The skus of the lines that have no price, in the order of the lines: no sum holds them, so ask for their price"
        " before this is sold. Empty where every line has one.",
    ]


def order_lines(resolved: ResolvedJob, products: Sequence[ProductOrder]) -> tuple[OrderLine, ...]:
    """A line for each sku, in the order of the products and of their packs in the catalogue."""
    digits = MINOR_UNITS[resolved.supply.book.currency]
    lines: list[OrderLine] = []
    for one in products:
        chosen = zip(one.supply.packs, one.load.counts, strict=True)
        bought = [(pack, part, count) for pack, count in chosen if count > 0 for part in pack.ordered_as]
        for place, (pack, part, count) in enumerate(bought):
            number = str(len(lines) + 1)
            lines.append(_line(one, pack, part, count, number=number, digits=digits, first=place == 0))
    return tuple(lines)


def _line(
    one: ProductOrder, pack: Pack, part: StockItem, count: int, *, number: str, digits: int, first: bool
) -> OrderLine:
    listed = one.supply.prices.get(part.sku)
    price = None if listed is None else price_of(price=listed, packs=count)
    kind = one.product.counted_in.figure_kind
    return _make_order_line(
        id=number,
        product=one.product.code,
        sku=part.sku,
        kit=pack.kit,
        description=part.description,
        packs=count,
        unit_code=part.unit_code,
        contents=Figure(pack.contents, kind),
        layers=tuple([need.layer.id for need in one.needs]),
        need=_need(one, kind) if first else None,
        left_over=Figure(one.held - one.likely, kind) if first else None,
        weight=None if part.weight_kg is None else Figure(part.weight_kg * count, Kind.MASS),
        unit_price=None if price is None else _shown(price, digits),
        amount=None if price is None else amount_at(price=price, packs=count, digits=digits),
    )


def _need(one: ProductOrder, kind: Kind) -> LineNeed:
    return _make_line_need(
        low=Figure(one.low, kind),
        likely=Figure(one.likely, kind),
        high=Figure(one.high, kind),
        ordered=Figure(one.ordered, kind),
    )


def _shown(price: Decimal, digits: int) -> Decimal:
    """A price with the digits of its currency at least; one that is finer is shown as it is."""
    rounded = to_minor(amount=price, digits=digits)
    return rounded if rounded == price else price


def totals(resolved: ResolvedJob, lines: Sequence[OrderLine], *, area_m2: float) -> Totals:
    """What the lines add up to."""
    currency = resolved.supply.book.currency
    digits = MINOR_UNITS[currency]
    order = resolved.order
    total = to_minor(amount=sum((line.amount for line in lines if line.amount is not None), NOTHING), digits=digits)
    discount = percent_of(amount=total, percent=order.discount_percent.value, digits=digits)
    delivery = to_minor(amount=order.delivery.value, digits=digits)
    net = total - discount + delivery
    tax = percent_of(amount=net, percent=order.tax_percent.value, digits=digits)
    weight = math.fsum(line.weight.value for line in lines if line.weight is not None)
    return Totals(
        currency=currency,
        lines=total,
        discount=discount,
        delivery=delivery,
        net=net,
        tax=tax,
        gross=net + tax,
        weight=Figure(weight, Kind.MASS),
        per_area=Rate(net / Decimal(area_m2), currency, digits),
        unpriced=tuple(line.sku for line in lines if line.amount is None),
    )
