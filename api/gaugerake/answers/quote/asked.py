"""The parts of a quote that are asked for, under the number of the whole.

Decisions:

* A part that is not asked for is not computed, shown or cautioned about, unless another depends on it: an order needs
  the slab's verdict, without its sentences, and a slab needs the times of the work where water may condense on it.
* The token opens the whole quote, so a job with a fault anywhere is refused whichever parts are asked for.
* ``order`` is what a cart needs of the quantities. Asked for together, both are shown, from one calculation.
"""

from __future__ import annotations

from collections.abc import Set
from datetime import date
from typing import Annotated, ClassVar, Literal, TypeVar, get_args

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.errors import Refused
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.working import within
from gaugerake.answers.pour_plan.answer import PourPlan, pour_plan
from gaugerake.answers.quantities.answer import Quantities, quantities
from gaugerake.answers.quantities.order_alone import Order, order_alone, order_within
from gaugerake.answers.quote.answer import valid_until
from gaugerake.answers.quote.faults import job_faults, refusing_all, unmeasured_faults
from gaugerake.answers.quote.fingerprint import fingerprint
from gaugerake.answers.quote.parts import planned_span
from gaugerake.answers.readiness.answer import readiness, slab_verdict
from gaugerake.answers.readiness.body import Readiness
from gaugerake.answers.return_times.answer import ReturnTimes, return_times
from gaugerake.answers.return_times.plan import make_timetable
from gaugerake.answers.takeoff.measure import MeasuredTakeoff, measure_job
from gaugerake.answers.takeoff.survey import Survey, survey_rooms
from gaugerake.floor.values.frozen import dataclass

T = TypeVar("T")
Part = Literal["readiness", "quantities", "order", "pour_plan", "return_times"]
PARTS: tuple[Part, ...] = get_args(Part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """Slab verdict, order, pour plan and return times of one job: all but `order`, or what `parts` names."""

    may_lack: ClassVar[frozenset[str]] = frozenset(PARTS)

    reference: Annotated[str | None, "The caller's own, as it came in `order.reference`."]
    fingerprint: Annotated[str, "SHA-256 of job, revision, price book and engine; people see 12 digits in fours."]
    token: Annotated[
        str | None, "Opens the quote again, as it is, at `/v1/quotes/{token}`; null when it would be too long."
    ]
    valid_until: Annotated[date | None, "The last day of the prices, when `order.issued` is given."]
    readiness: Annotated[Readiness | None, "Is the slab ready; left out where `parts` names others."]
    quantities: Annotated[Quantities | None, "What to load on the truck; left out where `parts` names others."]
    order: Annotated[Order | None, "The order alone, where `parts` names it."]
    pour_plan: Annotated[
        PourPlan | None, "How to pour it, without the clock of each mix; left out where `parts` names others."
    ]
    return_times: Annotated[ReturnTimes | None, "When traffic may return; left out where `parts` names others."]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """The parts that are made; None is one that nobody asked for."""

    readiness: Answer[Readiness] | None
    quantities: Answer[Quantities] | None
    order: Answer[Order] | None
    pour_plan: Answer[PourPlan] | None
    return_times: Answer[ReturnTimes] | None


@refusing_all(job_faults)
def quote_parts(
    resolved: ResolvedJob, parts: Set[str], *, token: str | None = None, explained: bool = False
) -> Answer[Quote]:
    """The parts of the job's quote; ``token`` is what the whole can be opened with.

    Raises
    ------
    Refused
        When the job means something that cannot be, in these parts or in another.
    """
    survey = survey_rooms(resolved.rooms)
    measured = measure_job(resolved, survey) if parts - {"readiness"} else None
    faults = tuple(job_faults(resolved) if measured is None else unmeasured_faults(resolved))
    if faults:
        raise Refused(*faults)
    made = _made(resolved, survey, measured, parts, explained=explained)
    answers = {name: answer for name in PARTS if (answer := getattr(made, name)) is not None}
    return Answer(
        body=Quote(
            reference=resolved.order.reference,
            fingerprint=fingerprint(resolved),
            token=token,
            valid_until=valid_until(resolved),
            readiness=_body(made.readiness),
            quantities=_body(made.quantities),
            order=_body(made.order),
            pour_plan=_body(made.pour_plan),
            return_times=_body(made.return_times),
        ),
        remarks=tuple(remark for answer in answers.values() for remark in answer.remarks),
        working=tuple(one for name, answer in answers.items() for one in within(name, answer.working)),
    )


def _body(answer: Answer[T] | None) -> T | None:
    return None if answer is None else answer.body


def _made(
    resolved: ResolvedJob, survey: Survey, measured: MeasuredTakeoff | None, parts: Set[str], *, explained: bool
) -> _Made:
    """Each part from what those before it made; ``measured`` is None where nothing but the slab is asked for."""
    timetable = make_timetable(resolved, measured) if measured and parts & {"pour_plan", "return_times"} else None
    verdict = slab = whole = order = pour = times = None
    if parts & {"readiness", "quantities", "order"}:
        planned = planned_span(resolved, survey, measured=measured, timetable=timetable)
        if "readiness" in parts:
            slab = readiness(resolved, survey=survey, planned=planned, explained=explained)
        verdict = slab.body.verdict if slab else slab_verdict(resolved, survey=survey, planned=planned)
    if verdict and measured and "quantities" in parts:
        whole = quantities(resolved, measured, slab=verdict, explained=explained)
    if whole and "order" in parts:
        order = order_within(whole)
    elif verdict and measured and "order" in parts:
        order = order_alone(resolved, measured, slab=verdict, explained=explained)
    if timetable and "pour_plan" in parts:
        pour = pour_plan(timetable, with_mixes=False, explained=explained)
    if timetable and "return_times" in parts:
        times = return_times(timetable, explained=explained)
    return _Made(readiness=slab, quantities=whole, order=order, pour_plan=pour, return_times=times)
