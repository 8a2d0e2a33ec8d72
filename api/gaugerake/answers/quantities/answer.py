"""What to load on the truck: rooms, layers, order, the chance of running short, and what it all comes to."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum
from typing import Annotated

from gaugerake.answers.job.context import Context
from gaugerake.answers.quantities.cautions import assume_money, blockers, caution_order
from gaugerake.answers.quantities.explain_order import work_lines, work_totals
from gaugerake.answers.quantities.explain_rooms import work_takeoff
from gaugerake.answers.quantities.explain_shortage import work_shortages
from gaugerake.answers.quantities.lines import OrderLine, Totals, order_lines, totals
from gaugerake.answers.quantities.measured import LayerAnswer, RoomAnswer, layer_answers, room_answers
from gaugerake.answers.quantities.order import ProductOrder, order
from gaugerake.answers.quantities.shortages import Shortage, shortage_any, shortages
from gaugerake.answers.readiness.answer import readiness
from gaugerake.answers.takeoff.bridge import take_off
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """The order of one job and where it comes from."""

    rooms: tuple[RoomAnswer, ...]
    layers: Annotated[tuple[LayerAnswer, ...], "In the order of the work; those that the job gives something for."]
    order_lines: tuple[OrderLine, ...]
    shortage: Annotated[tuple[Shortage, ...], "Of each product, in the order of the work."]
    shortage_any: Annotated[float, "The chance that anything of the order runs short, 0 to 1."]
    totals: Totals
    orderable: Annotated[bool, "False when `blockers` says why the order should not be placed as it is."]
    blockers: tuple[Note, ...]


def quantities(context: Context) -> Quantities:
    """The order of the context's job.

    Raises
    ------
    Refused
        When the job cannot be measured, or names a colour or sku that is not known.
    """
    takeoff = context.shared(take_off)
    products = context.shared(order)
    lines = order_lines(context, products)
    assume_money(context)
    caution_order(context, products)
    blocked = (*_slab_stops(context), *blockers(context, products))
    answer = Quantities(
        rooms=room_answers(takeoff, keyed=context.system.keyway is not None),
        layers=layer_answers(takeoff),
        order_lines=lines,
        shortage=shortages(products),
        shortage_any=shortage_any(context, products),
        totals=totals(context, lines, area_m2=fsum(room.area_m2 for room in takeoff.rooms)),
        orderable=not blocked,
        blockers=blocked,
    )
    if context.record.working is not None:
        work_takeoff(context, takeoff)
        _work_order(context, products, answer)
    return answer


def _work_order(context: Context, products: Sequence[ProductOrder], answer: Quantities) -> None:
    area_m2 = fsum(room.area.value for room in answer.rooms)
    work_lines(context, products, answer.order_lines)
    work_shortages(context, products, answer.shortage, answer.shortage_any)
    work_totals(context, answer.order_lines, answer.totals, area_m2)


def _slab_stops(context: Context) -> tuple[Note, ...]:
    """Nothing is poured on a slab that stops the work, so nothing is ordered for it; the order is still shown."""
    stops = context.aside(readiness).verdict is Verdict.STOP
    return (Note(code="slab-stops-the-order", pointer="/slab"),) if stops else ()
