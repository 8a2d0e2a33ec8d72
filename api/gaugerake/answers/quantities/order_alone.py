"""The order without what it came from: what a cart needs of the quantities."""

from __future__ import annotations

from typing import Annotated

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.quantities.answer import Quantities, order_blockers
from gaugerake.answers.quantities.cautions import order_remarks
from gaugerake.answers.quantities.explain_order import explain_lines, explain_totals
from gaugerake.answers.quantities.explain_shortage import explain_any
from gaugerake.answers.quantities.lines import OrderLine, Totals, order_lines, totals
from gaugerake.answers.quantities.order import order_of
from gaugerake.answers.quantities.shortages import shortage_any
from gaugerake.answers.takeoff.measure import MeasuredTakeoff
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note

_FIGURES = ("/order_lines/", "/shortage_any", "/totals/")


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What to buy for one job, what it comes to, and whether to place it."""

    order_lines: Annotated[tuple[OrderLine, ...], "A line for each sku."]
    shortage_any: Annotated[float, "The chance that anything of the order runs short, 0 to 1."]
    totals: Annotated[Totals, "What the lines come to, with discount, delivery and tax."]
    orderable: Annotated[bool, "False when `blockers` says why the order should not be placed as it is."]
    blockers: Annotated[tuple[Note, ...], "Why the order should not be placed as it is."]


def order_alone(
    resolved: ResolvedJob, measured: MeasuredTakeoff, *, slab: Verdict, explained: bool = False
) -> Answer[Order]:
    """The order of the job, as its quantities have it.

    Raises
    ------
    Refused
        When the job names a colour or sku that is not known.
    """
    placed = order_of(resolved, measured.takeoff)
    products = placed.products
    lines = order_lines(resolved, products)
    blocked = order_blockers(resolved, placed, slab)
    area_m2 = measured.takeoff.area_m2
    body = Order(
        order_lines=lines,
        shortage_any=shortage_any(resolved, products),
        totals=totals(resolved, lines, area_m2=area_m2),
        orderable=not blocked,
        blockers=blocked,
    )
    remarks = (*measured.remarks, *order_remarks(resolved, placed))
    if not explained:
        return Answer(body=body, remarks=remarks)
    working = (
        *explain_lines(resolved, products, lines),
        explain_any(resolved, products, body.shortage_any),
        *explain_totals(resolved, lines, body.totals, area_m2),
    )
    return Answer(body=body, remarks=remarks, working=working)


def order_within(answer: Answer[Quantities]) -> Answer[Order]:
    """The order that an answer of quantities holds already."""
    whole = answer.body
    return Answer(
        body=Order(
            order_lines=whole.order_lines,
            shortage_any=whole.shortage_any,
            totals=whole.totals,
            orderable=whole.orderable,
            blockers=whole.blockers,
        ),
        remarks=answer.remarks,
        working=tuple(one for one in answer.working if one.figure.startswith(_FIGURES)),
    )
