"""Whether traffic is back in time, when the work must begin at the latest, and what would bring it in time."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.times import course_of, reopen_by_of, shifts_of, zone_of
from gaugerake.answers.return_times.bridge import basis_of, plan_of, runs_of
from gaugerake.answers.return_times.remedies import MOST_REMEDY_STEPS, MOST_WARMTH_K, Remedy, remedies_of
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.latest import latest_start
from gaugerake.floor.values.errors import UnknownName
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass

MOST_STEPS = 40_000
"""Of the clock's, to find the latest start. A job of four rooms that may freeze takes some thousands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Deadline:
    """The hour when traffic must be back, against the latest run."""

    traffic: Annotated[str, "The class of traffic that is asked for."]
    reopen_by: datetime
    met: Annotated[bool | None, "Whether the latest return is in time; null without `work.start`."]
    latest_start: Annotated[
        datetime | None,
        "The last minute from which it still would be; null: none in the 60 days before, or none found in the steps"
        " that an answer may take, with the caution `latest-start-search-ended`.",
    ]
    slack: Annotated[Figure | None, "Hours from the latest return to the deadline, negative when it is late."]
    remedies: Annotated[
        tuple[Remedy, ...],
        "Each one alone brings it in time; one step less of it does not. With the caution `remedy-search-ended` not"
        " every kind was looked for.",
    ]


def deadline_of(context: Context) -> Deadline | None:
    """The deadline of the job; None when it has none, or the system states no return of traffic.

    Raises
    ------
    Refused
        When the system states no return of the traffic asked for.
    """
    traffic = traffic_of(context)
    reopen_by = context.shared(reopen_by_of)
    if reopen_by is None:
        return None
    if traffic is None:
        context.record.caution("no-returns-stated", "/work/reopen_by")
        return None
    basis, by_s = context.shared(basis_of), reopen_by.timestamp()
    latest = next(one.at_s for _, one in context.shared(runs_of).last_returns if one.traffic == traffic)
    met = (latest is not None and latest <= by_s) if basis.timed else None
    budget = Budget(MOST_REMEDY_STEPS)
    remedies = remedies_of(context, traffic=traffic, by_s=by_s, budget=budget) if met is False else ()
    if budget.ended:
        context.record.caution("remedy-search-ended", "/work/reopen_by")
    elif met is False and not remedies:
        _say_hopeless(context, traffic, before=basis.start_s >= by_s)
    return Deadline(
        traffic=traffic,
        reopen_by=reopen_by,
        met=met,
        latest_start=_latest_start(context, traffic, by_s),
        slack=Figure(by_s - latest, "duration") if basis.timed and latest is not None else None,
        remedies=remedies,
    )


def _say_hopeless(context: Context, traffic: str, *, before: bool) -> None:
    """That nothing brings traffic back in time."""
    if before:
        context.record.caution("deadline-before-start", "/work/reopen_by")
        return
    warmth = Figure(MOST_WARMTH_K, "temperature-difference")
    context.record.caution("no-remedy-in-time", "/work/reopen_by", traffic=traffic, warmth=warmth)


def traffic_of(context: Context) -> str | None:
    """The class of traffic that the deadline is for: as asked, else the last that the system lists.

    Raises
    ------
    Refused
        When the system states no return of the traffic asked for.
    """
    asked, known = context.job.work.traffic, [one.traffic for one in context.system.returns]
    if asked is not None and asked not in known:
        raise Refused(Fault("/work/traffic", UnknownName("traffic", seen=asked, known=known)))
    if asked is None and known and context.job.work.reopen_by is not None:
        context.record.assume("traffic-last", "/work/traffic", known[-1])
    return asked or (known[-1] if known else None)


def _latest_start(context: Context, traffic: str, by_s: float) -> datetime | None:
    """On the job's own clock, also where the hours of the answer count from no start."""
    budget = Budget(MOST_STEPS)
    start_s = latest_start(
        context.shared(plan_of),
        hours=context.shared(shifts_of),
        course=context.shared(course_of),
        traffic=traffic,
        by_s=by_s,
        budget=budget,
    )
    if budget.ended:
        context.record.caution("latest-start-search-ended", "/work/reopen_by")
    return None if start_s is None else context.shared(zone_of).datetime_at(start_s)
