"""What the crew must know beside its sheet: all that its quote says of slab, work, pour and products, said once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gaugerake.answers.day_sheet.dated import DatedWork
from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.pour_plan.cautions import pour_remarks
from gaugerake.answers.pour_plan.marks import ListedMarks, mark_remarks
from gaugerake.answers.pour_plan.people import people_remarks
from gaugerake.answers.quantities.cautions import products_remarks
from gaugerake.answers.quantities.order import JobOrder
from gaugerake.answers.readiness.body import Readiness
from gaugerake.answers.return_times.cautions import run_remarks
from gaugerake.answers.return_times.labour import ManWork, labour_remarks
from gaugerake.answers.return_times.plan import timetable_remarks
from gaugerake.answers.wet_edge.site import site_remarks
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.note import Say, listed

_OF_OTHER_ANSWERS = {"no-price", "no-weight", "pour-mixes-unlisted"}
"""What is said of figures that no sheet shows."""


def sheet_remarks(
    work: DatedWork, order: JobOrder, marked: ListedMarks, labour: Sequence[ManWork], slab: Readiness
) -> Iterator[Remark]:
    """The remarks of the work; those of the slab come from its checks."""
    if slab.verdict is Verdict.STOP:
        yield caution("day-sheet-slab-stops", "/slab")
    elif slab.verdict is Verdict.FIX:
        names = [Say(code=f"name-{one.check}") for one in slab.checks if one.verdict is Verdict.FIX]
        yield caution("day-sheet-slab-fix", "/slab", checks=listed(code="slab-work-list", phrases=names))
    for remark in _quoted(work, order, marked, labour):
        if remark.note.code not in _OF_OTHER_ANSWERS:
            yield remark


def _quoted(work: DatedWork, order: JobOrder, marked: ListedMarks, labour: Sequence[ManWork]) -> Iterator[Remark]:
    timetable = work.timetable
    resolved, takeoff = timetable.resolved, timetable.takeoff
    yield from timetable_remarks(timetable)
    yield from site_remarks(resolved, work.site)
    yield from pour_remarks(resolved, takeoff, work.judged)
    yield from mark_remarks(marked)
    yield from people_remarks(resolved, takeoff)
    yield from run_remarks(timetable)
    yield from labour_remarks(timetable, labour)
    yield from products_remarks(resolved.order.colour, order.products)
    if any(one.product.store is not None and one.product.store.condition_s is not None for one in order.products):
        yield from resolved.work.material_temperature_k.remarks
