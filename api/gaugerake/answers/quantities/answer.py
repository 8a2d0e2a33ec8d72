"""What to load on the truck: rooms, layers, order, the chance of running short, and what it all comes to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.working import Working
from gaugerake.answers.quantities.cautions import blockers, order_remarks
from gaugerake.answers.quantities.explain_order import explain_lines, explain_totals
from gaugerake.answers.quantities.explain_rooms import explain_takeoff
from gaugerake.answers.quantities.explain_shortage import explain_shortages
from gaugerake.answers.quantities.lines import OrderLine, Totals, order_lines, totals
from gaugerake.answers.quantities.measured import LayerAnswer, RoomAnswer, layer_answers, room_answers
from gaugerake.answers.quantities.order import JobOrder, ProductOrder, order_of
from gaugerake.answers.quantities.shortages import Shortage, shortage_any, shortages
from gaugerake.answers.takeoff.measure import MeasuredTakeoff
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """The order of one job and where it comes from."""

    rooms: Annotated[tuple[RoomAnswer, ...], "What was measured of each room, in the job's order."]
    layers: Annotated[tuple[LayerAnswer, ...], "In the order of the work; those that the job gives something for."]
    order_lines: Annotated[tuple[OrderLine, ...], "A line for each sku, in whole packs."]
    shortage: Annotated[tuple[Shortage, ...], "Of each product, in the order of the work."]
    shortage_any: Annotated[float, "The chance that anything of the order runs short, 0 to 1."]
    totals: Annotated[Totals, "What the lines come to, with discount, delivery and tax."]
    orderable: Annotated[bool, "False when `blockers` says why the order should not be placed as it is."]
    blockers: Annotated[tuple[Note, ...], "Why the order should not be placed as it is; empty where it may."]


def quantities(
    resolved: ResolvedJob, measured: MeasuredTakeoff, *, slab: Verdict, explained: bool = False
) -> Answer[Quantities]:
    """The order of the job; nothing is ordered for a ``slab`` that stops the work, though the order is still shown.

    Raises
    ------
    Refused
        When the job names a colour or sku that is not known.
    """
    takeoff = measured.takeoff
    order = order_of(resolved, takeoff)
    body = _shown(resolved, takeoff, order, slab)
    remarks = (*measured.remarks, *order_remarks(resolved, order))
    working = tuple(_explained(resolved, takeoff, order.products, body)) if explained else ()
    return Answer(body=body, remarks=remarks, working=working)


def order_blockers(resolved: ResolvedJob, order: JobOrder, slab: Verdict) -> tuple[Note, ...]:
    """Why the order should not be placed as it is."""
    stops = (Note(code="slab-stops-the-order", pointer="/slab"),) if slab is Verdict.STOP else ()
    return (*stops, *blockers(resolved.order.offers, order.products))


def _shown(resolved: ResolvedJob, takeoff: Takeoff, order: JobOrder, slab: Verdict) -> Quantities:
    products = order.products
    lines = order_lines(resolved, products)
    blocked = order_blockers(resolved, order, slab)
    return Quantities(
        rooms=room_answers(takeoff, keyed=resolved.system.keyway is not None),
        layers=layer_answers(takeoff),
        order_lines=lines,
        shortage=shortages(products),
        shortage_any=shortage_any(resolved, products),
        totals=totals(resolved, lines, area_m2=takeoff.area_m2),
        orderable=not blocked,
        blockers=blocked,
    )


def _explained(
    resolved: ResolvedJob, takeoff: Takeoff, products: Sequence[ProductOrder], body: Quantities
) -> Iterator[Working]:
    yield from explain_takeoff(resolved, takeoff)
    yield from explain_lines(resolved, products, body.order_lines)
    yield from explain_shortages(resolved, products, body.shortage, body.shortage_any)
    yield from explain_totals(resolved, body.order_lines, body.totals, takeoff.area_m2)
