"""The starts of a search, the best of them, and where none is ok what would mend the nearest."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Annotated

from gaugerake.answers.choosing.start_search.judged import (
    Because,
    JudgedStart,
    bar_of,
    judge_start,
    nearest_ok,
    ranked,
    spreads_of,
)
from gaugerake.answers.choosing.start_search.remedies import Mended, StartRemedy, mend
from gaugerake.answers.choosing.start_search.resolve import Starts, StartsAsked, resolve_starts
from gaugerake.answers.choosing.start_search.trial import Outcome, Trials
from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.remarks import Remark, caution, missing
from gaugerake.answers.job.resolve import with_start
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.taken import Taken, refused
from gaugerake.answers.quote.faults import job_faults, refusing_all
from gaugerake.answers.return_times.plan import make_timetable, timetable_remarks
from gaugerake.answers.takeoff.measure import MeasuredTakeoff, measure_job
from gaugerake.answers.takeoff.survey import survey_rooms
from gaugerake.answers.wet_edge.site import pour_site, site_remarks
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.values.errors import AgeOfOneStart, Contradiction, TooLate
from gaugerake.floor.values.frozen import dataclass, replace
from gaugerake.floor.values.note import Say

MOST_STEPS = 120_000
"""Steps of the clock, of judging edges and of following the air, for all starts together."""
STEPS_OF_A_READING = 4
"""What it takes to hold the floor against the air up to its next reading."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """What is against some of the starts, in words."""

    code: Annotated[Because, "The same word as in `because`."]
    text: Annotated[Say, "The reason in a sentence for people."]
    starts: Annotated[int, "Against how many it is."]


@dataclass(frozen=True, slots=True, kw_only=True)
class StartSearch:
    """The hours at which a job can begin, each judged as the job posted with it would be."""

    starts: Annotated[tuple[JudgedStart, ...], "In the order of time."]
    best: Annotated[
        tuple[datetime, ...],
        "Those that are ok, by the earliest return, then the larger edge margin, then the earlier start: as many as"
        " `keep` says.",
    ]
    reasons: Annotated[tuple[Reason, ...], "Every reason that stands in a `because`, in words."]
    remedies_at: Annotated[
        datetime | None, "Where no start is ok: the one with the fewest reasons against it, ranked likewise."
    ]
    remedies: Annotated[
        tuple[StartRemedy, ...], "What makes that one ok: each of them alone, put back into a job that begins then."
    ]


def start_search(resolved: ResolvedJob, said: StartsAsked) -> Answer[StartSearch]:
    """Try every start; the start that the job itself asks for is left aside.

    Raises
    ------
    Refused
        When the search or the job means something that cannot be, at any of the starts.
    """
    starts = resolve_starts(resolved.work.zone, said)
    if starts.faults:
        raise Refused(*starts.faults)
    first, last = _of_one_age(with_start(resolved, starts.value.at(0)), with_start(resolved, starts.value.at(-1)))
    return _searched(first, starts.value, last, said.kept_count)


def _of_one_age(first: ResolvedJob, last: ResolvedJob) -> tuple[ResolvedJob, ResolvedJob]:
    """The first and the last of the starts; an age that the slab's date of pour does not make so at both is refused."""
    errors = [type(fault.error) for one in (first, last) for fault in one.age_s.faults]
    poured, starts = first.slab.poured, [one.work.start.value for one in (first, last)]
    if poured is None or Contradiction not in errors or TooLate in errors:
        return first, last
    youngest, oldest = (f"{(start.date() - poured).days} d" for start in starts if start is not None)
    error = AgeOfOneStart("age", other="poured", youngest=youngest, oldest=oldest)
    age: Taken[float | None] = refused((Fault("/slab/age", error),))
    return replace(first, age_s=age), replace(last, age_s=age)


@refusing_all(job_faults)
def _searched(resolved: ResolvedJob, starts: Starts, last: ResolvedJob, kept_count: int) -> Answer[StartSearch]:
    """``resolved`` begins with the first of the starts, ``last`` with the last one."""
    # where a date of the slab does not allow every start, it is the first or the last that it does not
    faults = (*job_faults(resolved), *last.age_s.faults)
    if faults:
        raise Refused(*faults)
    measured = measure_job(resolved, survey_rooms(resolved.rooms))
    budget = Budget(MOST_STEPS)
    if resolved.air.course is not None:
        budget.spend(STEPS_OF_A_READING * len(resolved.air.course.value.instants_s))
    outcomes = _outcomes(Trials(resolved, measured.takeoff, budget), starts, budget)
    bar = bar_of(resolved, measured.takeoff, starts.zone)
    spreads_k = spreads_of(resolved, starts.instants_s[: len(outcomes)], outcomes)
    rows = zip(starts.instants_s, outcomes, spreads_k, strict=False)
    judged = tuple(judge_start(start_s, outcome, spread_k, bar) for start_s, outcome, spread_k in rows)
    good = ranked([one for one in judged if one.ok])
    nearest = None if good else nearest_ok(judged)
    mended = None if nearest is None else _mended(resolved, measured, nearest)
    return Answer(
        body=StartSearch(
            starts=judged,
            best=tuple(one.start for one in good[:kept_count]),
            reasons=tuple(_reasons(judged)),
            remedies_at=None if nearest is None else nearest.start,
            remedies=() if mended is None else mended.remedies,
        ),
        remarks=(
            *starts.remarks,
            *_job_remarks(resolved, measured),
            *_readings_remarks(resolved, starts, outcomes),
            *_search_remarks(judged, starts),
            *(() if mended is None else mended.remarks),
        ),
        working=(),
    )


def _outcomes(trials: Trials, starts: Starts, budget: Budget) -> list[Outcome]:
    """What comes of the starts; the first is tried whatever it takes."""
    found = [trials.outcome(starts.at(0))]
    for index in range(1, len(starts.instants_s)):
        if not budget.allows():
            break
        found.append(trials.outcome(starts.at(index)))
    return found


def _mended(resolved: ResolvedJob, measured: MeasuredTakeoff, nearest: JudgedStart) -> Mended:
    return mend(make_timetable(with_start(resolved, nearest.start), measured), nearest.because)


def _reasons(judged: Sequence[JudgedStart]) -> Iterator[Reason]:
    counts = Counter(reason for one in judged for reason in one.because)
    for code in Because:
        if counts[code]:
            yield Reason(code=code, text=Say(code=f"start-{code}"), starts=counts[code])


def _job_remarks(resolved: ResolvedJob, measured: MeasuredTakeoff) -> Iterator[Remark]:
    """What the clock and the pour rest on, and what nobody knows."""
    work = resolved.work
    timetable = make_timetable(resolved, measured)
    yield from timetable_remarks(timetable)
    yield from site_remarks(resolved, pour_site(resolved, measured.takeoff, timetable.runs.likely))
    yield from work.traffic.remarks
    yield from work.reopen_by.remarks
    if work.reopen_by.value is not None and work.traffic.value is None:
        yield caution("no-returns-stated", "/work/reopen_by")
    unstated = (need.layer.product for need in measured.takeoff.layers if need.layer.pour is not None)
    for product in unstated:
        if product.open_time is None:
            yield caution("pour-open-time-unstated", product=product.name)
    air = resolved.air
    if air.course is None and (air.temperature_k.value is None or air.humidity_percent.value is None):
        yield missing("spread-unknown", "/air")
    yield caution("start-search-in-short")


def _readings_remarks(resolved: ResolvedJob, starts: Starts, outcomes: Sequence[Outcome]) -> Iterator[Remark]:
    """A caution that says from which start on the work outlasts a forecast or a log."""
    course, air = resolved.work.course.value, resolved.air.course
    ends = []
    if isinstance(course, LoggedCourse):
        ends.append(("floor", "/work/temperatures/readings", course.instants_s[0], course.instants_s[-1]))
    if air is not None:
        ends.append(("air", "/air/readings", air.value.instants_s[0], air.value.instants_s[-1]))
    for name, pointer, first_s, last_s in ends:
        what = Say(code=f"readings-of-the-{name}")
        beyond = [start_s for start_s, one in zip(starts.instants_s, outcomes, strict=False) if one.ends_s > last_s]
        if beyond:
            span = {"at": _local(starts, last_s), "start": _local(starts, beyond[0])}
            yield caution("starts-outlast-readings", pointer, what=what, **span, count=len(beyond), of=len(outcomes))
        if starts.instants_s[0] < first_s:
            yield caution("starts-before-readings", pointer, what=what, at=_local(starts, first_s))


def _search_remarks(judged: Sequence[JudgedStart], starts: Starts) -> Iterator[Remark]:
    if len(judged) < len(starts.instants_s):
        after = _local(starts, starts.instants_s[len(judged) - 1])
        left = len(starts.instants_s) - len(judged)
        yield caution("start-search-ended", "/search", after=after, count=left)


def _local(starts: Starts, at_s: float) -> str:
    return starts.zone.datetime_at(at_s).strftime("%Y-%m-%d %H:%M")
