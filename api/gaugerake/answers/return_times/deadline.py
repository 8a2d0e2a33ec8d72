"""Whether traffic is back in time, when the work must begin at the latest, and what would bring it in time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Annotated

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolved import Basis
from gaugerake.answers.job.traffic import traffic_words
from gaugerake.answers.return_times.change import CombinedRemedy, Remedy, heats
from gaugerake.answers.return_times.kept import counted
from gaugerake.answers.return_times.plan import Timetable, last_of_all, runs_of
from gaugerake.answers.return_times.remedies import MOST_REMEDY_STEPS, Back, Found, remedies_of
from gaugerake.answers.return_times.steps import MOST_WARMTH_K
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.latest import latest_start
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass

MOST_STEPS = 40_000
"""Steps of the clock to find the latest start. A job of four rooms that may freeze takes some thousands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Deadline:
    """The hour when traffic must be back, against the latest run."""

    traffic: Annotated[str, "The class of traffic that is asked for."]
    reopen_by: Annotated[datetime, "As `work.reopen_by` says, with the offset of the job's zone."]
    met: Annotated[bool | None, "Whether the latest return is in time; null without `work.start`."]
    latest_start: Annotated[
        datetime | None,
        "The last minute from which it still would be; null: none in the 60 days before, or none found in the steps"
        " that an answer may take, with the caution `latest-start-search-ended`.",
    ]
    slack: Annotated[Figure | None, "Hours from the latest return to the deadline, negative when it is late."]
    remedies: Annotated[
        tuple[Remedy | CombinedRemedy, ...],
        "Each one brings it in time and breaks nothing that holds now; one step less of it does not. With the caution"
        " `remedy-search-ended` not every kind was looked for.",
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedDeadline:
    """A deadline, and whether its searches were complete.

    Where it is to be explained, ``backs`` are what its remedies come to, in their order, and ``from_start`` when
    traffic is back with the latest start and with a minute later.
    """

    shown: Deadline
    backs: tuple[Back | None, ...]
    from_start: Back | None
    before_start: bool
    remedies_cut_short: bool
    latest_start_cut_short: bool


def judge_deadline(
    timetable: Timetable, *, start_steps: int = MOST_STEPS, mended: bool = True, explained: bool = False
) -> JudgedDeadline | None:
    """The deadline of the job; None when it has none, or the system states no return of traffic.

    The search for the latest start takes at most ``start_steps``; remedies are sought only where ``mended``.

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
    freeing, starting = Budget(MOST_REMEDY_STEPS), Budget(start_steps)
    found: tuple[Found, ...] = ()
    if mended and met is False:
        found = remedies_of(timetable, traffic=traffic, by_s=by_s, budget=freeing, explained=explained)
    start_s = _latest_start(timetable, traffic, by_s, starting)
    shown = Deadline(
        traffic=traffic,
        reopen_by=reopen_by,
        met=met,
        latest_start=None if start_s is None else timetable.zone.datetime_at(start_s),
        slack=Figure(by_s - latest, Kind.DURATION) if basis.timed and latest is not None else None,
        remedies=tuple(one.remedy for one in found),
    )
    return JudgedDeadline(
        shown=shown,
        backs=tuple(one.back for one in found),
        from_start=_from_start(timetable, traffic, start_s) if explained and start_s is not None else None,
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
    if heats(shown.remedies):
        yield caution("indirect-heat")
    if judged.remedies_cut_short:
        yield caution("remedy-search-ended", "/work/reopen_by")
    elif shown.met is False and not shown.remedies and judged.before_start:
        yield caution("deadline-before-start", "/work/reopen_by")
    elif shown.met is False and not shown.remedies:
        warmth = Figure(MOST_WARMTH_K, Kind.TEMPERATURE_DIFFERENCE)
        yield caution("no-remedy-in-time", "/work/reopen_by", traffic=traffic_words(shown.traffic), warmth=warmth)


def _latest_start(timetable: Timetable, traffic: str, by_s: float, budget: Budget) -> float | None:
    """The latest start on the job's own clock [s], even when the answer's hours count from no start."""
    work = timetable.resolved.work
    return latest_start(
        timetable.plan,
        hours=work.hours.value,
        course=work.course.value,
        traffic=traffic,
        by_s=by_s,
        budget=budget,
    )


def _from_start(timetable: Timetable, traffic: str, start_s: float) -> Back:
    """When traffic is back with work begun then, and a minute later."""
    work, plan = timetable.resolved.work, counted(timetable.plan, traffic)
    bases = (
        Basis(hours=work.hours.value, course=work.course.value, start_s=at_s, timed=True)
        for at_s in (start_s, start_s + 60.0)
    )
    returns = (runs_of(plan, basis).last_returns for basis in bases)
    back_s, later_s = (max((one for _, one in found), key=last_of_all).at_s for found in returns)
    return Back(at_s=back_s, stepped=True, less_s=later_s)
