"""Whether traffic is back in time, when the work must begin at the latest, and what would bring it in time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Annotated

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.answers.return_times.remedies import MOST_REMEDY_STEPS, MOST_WARMTH_K, Remedy, remedies_of
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.latest import latest_start
from gaugerake.floor.values.figure import Figure, Kind
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


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedDeadline:
    """A deadline, and whether its searches went on to their end."""

    shown: Deadline
    before_start: bool
    remedies_cut_short: bool
    latest_start_cut_short: bool


def judge_deadline(timetable: Timetable) -> JudgedDeadline | None:
    """The deadline of the job; None when it has none, or the system states no return of traffic.

    Raises
    ------
    Refused
        When the system states no return of the traffic asked for, or the deadline is no time of its zone.
    """
    work, basis = timetable.resolved.work, timetable.basis
    traffic, reopen_by = work.traffic.value, work.reopen_by.value
    if reopen_by is None or traffic is None:
        return None
    by_s = reopen_by.timestamp()
    latest = next(one.at_s for _, one in timetable.runs.last_returns if one.traffic == traffic)
    met = (latest is not None and latest <= by_s) if basis.timed else None
    freeing, starting = Budget(MOST_REMEDY_STEPS), Budget(MOST_STEPS)
    shown = Deadline(
        traffic=traffic,
        reopen_by=reopen_by,
        met=met,
        latest_start=_latest_start(timetable, traffic, by_s, starting),
        slack=Figure(by_s - latest, Kind.DURATION) if basis.timed and latest is not None else None,
        remedies=remedies_of(timetable, traffic=traffic, by_s=by_s, budget=freeing) if met is False else (),
    )
    return JudgedDeadline(
        shown=shown,
        before_start=basis.start_s >= by_s,
        remedies_cut_short=freeing.ended,
        latest_start_cut_short=starting.ended,
    )


def deadline_remarks(timetable: Timetable, judged: JudgedDeadline | None) -> Iterator[Remark]:
    """What is said beside the deadline: whose return it is for, and where nothing brings it in time."""
    work = timetable.resolved.work
    yield from work.traffic.remarks
    yield from work.reopen_by.remarks
    if judged is None:
        if work.reopen_by.value is not None:
            yield caution("no-returns-stated", "/work/reopen_by")
        return
    yield from _remedies_remarks(judged)
    yield from work.hours.remarks
    if judged.latest_start_cut_short:
        yield caution("latest-start-search-ended", "/work/reopen_by")


def _remedies_remarks(judged: JudgedDeadline) -> Iterator[Remark]:
    shown = judged.shown
    if any(remedy.kind == "warmer-floor" for remedy in shown.remedies):
        yield caution("indirect-heat", "/work/temperatures")
    if judged.remedies_cut_short:
        yield caution("remedy-search-ended", "/work/reopen_by")
    elif shown.met is False and not shown.remedies and judged.before_start:
        yield caution("deadline-before-start", "/work/reopen_by")
    elif shown.met is False and not shown.remedies:
        warmth = Figure(MOST_WARMTH_K, Kind.TEMPERATURE_DIFFERENCE)
        yield caution("no-remedy-in-time", "/work/reopen_by", traffic=shown.traffic, warmth=warmth)


def _latest_start(timetable: Timetable, traffic: str, by_s: float, budget: Budget) -> datetime | None:
    """On the job's own clock, also where the hours of the answer count from no start."""
    work = timetable.resolved.work
    start_s = latest_start(
        timetable.plan,
        hours=work.hours.value,
        course=work.course.value,
        traffic=traffic,
        by_s=by_s,
        budget=budget,
    )
    return None if start_s is None else timetable.zone.datetime_at(start_s)
