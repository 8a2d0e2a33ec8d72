"""The quote: every answer to one job, under one number."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import Annotated, TypeVar

from gaugerake.answers.job.context import Context
from gaugerake.answers.pour_plan.answer import PourPlan, pour_plan
from gaugerake.answers.quantities.answer import Quantities
from gaugerake.answers.quantities.bridge import quantities
from gaugerake.answers.quote.fingerprint import fingerprint
from gaugerake.answers.readiness.answer import Readiness
from gaugerake.answers.readiness.bridge import readiness
from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.answers.return_times.bridge import return_times
from gaugerake.floor.values.frozen import dataclass

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """Slab verdict, order, pour plan and return times of one job."""

    reference: Annotated[str | None, "The caller's own, as it came in `order.reference`."]
    fingerprint: Annotated[str, "SHA-256 of job, revision, price book and engine; people see 12 digits in fours."]
    token: Annotated[
        str | None, "Opens the quote again, as it is, at `/v1/quotes/{token}`; null when it would be too long."
    ]
    valid_until: Annotated[date | None, "The last day of the prices, when `order.issued` is given."]
    readiness: Readiness
    quantities: Quantities
    pour_plan: PourPlan
    return_times: ReturnTimes


def quote(context: Context, *, token: str | None = None) -> Quote:
    """All answers to the context's job; ``token`` is what the quote can be opened with again.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    issued = context.job.order.issued
    return Quote(
        reference=context.job.order.reference,
        fingerprint=fingerprint(context),
        token=token,
        valid_until=None if issued is None else issued + timedelta(days=context.catalogue.valid_days),
        readiness=_part(context, "readiness", lambda: context.shared(readiness)),
        quantities=_part(context, "quantities", lambda: quantities(context)),
        pour_plan=_part(context, "pour_plan", lambda: pour_plan(context, with_mixes=False)),
        return_times=_part(context, "return_times", lambda: return_times(context)),
    )


def _part(context: Context, name: str, make: Callable[[], T]) -> T:
    """One answer within the quote; the figures of its working then stand one level deeper."""
    working = context.record.working
    before = len(working or ())
    answer = make()
    if working is not None:
        working[before:] = [replace(work, figure=f"/{name}{work.figure}") for work in working[before:]]
    return answer
