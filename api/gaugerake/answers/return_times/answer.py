"""When each step of the work is done, when traffic may return, and whether that is in time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime
from itertools import takewhile
from typing import Annotated

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.return_times.cautions import run_remarks
from gaugerake.answers.return_times.deadline import Deadline, deadline_remarks, judge_deadline
from gaugerake.answers.return_times.explain import explain_times
from gaugerake.answers.return_times.labour import Labour, ManWork, labour_of, labour_remarks, steps_labour
from gaugerake.answers.return_times.plan import Runs, Timetable, run_end_s, timetable_remarks
from gaugerake.floor.clock.schedule import SAME_INSTANT_S, Placed, Site, Stops
from gaugerake.floor.clock.timetable import Cause, Step, StepKind
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.local_time import DAY_S

MOST_OPEN_HOURS = 400
"""More shifts than this are not listed."""
MOST_PARTS = 400
"""More parts of a step than this are not listed: a year of eight shifts a day has 2,920."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A stretch of time."""

    from_: Annotated[datetime, "When it begins, with the offset of the job's zone."]
    until: Annotated[datetime, "When it ends, with the offset of the job's zone."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """What a step waits for, one after the other, before it can begin."""

    cause: Annotated[
        Cause,
        "`cure` and `work` are those of `layer`; `shift` is hours that it fits into; `window`: laid late, so that"
        " its recoat window is still open when the next layer is down.",
    ]
    layer: Annotated[str | None, "The id of the layer that is waited for; null where the wait is for none."]
    until: Annotated[datetime | None, "When that wait is over; null without a start."]
    after: Annotated[Figure, "The same, as hours from the start."]


_make_wait = maker(Wait)


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedStep:
    """One step of the likely run. Instants are null without `work.start`, and in what is never reached."""

    step: Annotated[
        StepKind,
        "`prepare` or `saw` the slab, `apply` the layer, `clear` loose aggregate, or `abrade` a coat for the next one.",
    ]
    layer: Annotated[str | None, "The id of the layer; null for preparing the slab."]
    from_: Annotated[datetime | None, "When its work begins."]
    until: Annotated[datetime | None, "When its work ends."]
    after: Annotated[Figure | None, "Hours from the start to the step's beginning; null: never."]
    lasts: Annotated[Figure | None, "Hours from its beginning to its end, nights between its parts included."]
    hands: Annotated[int, "The people that it takes at once; 0 of what is cast by the hands of the layer under it."]
    person_hours: Annotated[Figure, "The hands times the hours of work, nights left out."]
    cured: Annotated[datetime | None, "When the next layer may go on."]
    cured_after: Annotated[Figure | None, "The same, as hours from the start."]
    parts: Annotated[
        tuple[Span, ...],
        f"The hours of a step that is split over shifts, the first {MOST_PARTS} of them; empty for one that is not.",
    ]
    waits_for: Annotated[tuple[Wait, ...], "Why it begins no sooner."]


_make_timed_step = maker(TimedStep)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnTime:
    """When one class of traffic may return: shown alone, it is the latest."""

    traffic: Annotated[str, "As the system calls it."]
    earliest: Annotated[datetime | None, "The soonest of the three runs; null without `work.start`, or for never."]
    likely: Annotated[datetime | None, "In the likely run."]
    latest: Annotated[datetime | None, "The last of the three runs."]
    after: Annotated[Figure | None, "Hours from the start to the latest return; null: never."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnTimes:
    """The timetable of the job, from the first step to the last class of traffic."""

    steps: Annotated[tuple[TimedStep, ...], "What is done and when, in the order of time."]
    returns: Annotated[
        tuple[ReturnTime, ...], "When each class of traffic may come back, in the order of load, the lightest first."
    ]
    deadline: Annotated[Deadline | None, "Null without `work.reopen_by`."]
    labour: Annotated[Labour, "The people and the hours that the likely run takes."]
    open_hours: Annotated[tuple[Span, ...], "The shifts as instants, from the start to the last return."]


def return_times(timetable: Timetable, *, explained: bool = False) -> Answer[ReturnTimes]:
    """When each step is done and when traffic returns.

    Raises
    ------
    Refused
        When the job's traffic or deadline mean something that cannot be.
    """
    clock = _Clock(timetable)
    labour = steps_labour(timetable)
    judged = judge_deadline(timetable, explained=explained)
    body = ReturnTimes(
        steps=tuple(map(clock.step, timetable.runs.likely.steps, labour)),
        returns=tuple(clock.returns(timetable.runs)),
        deadline=None if judged is None else judged.shown,
        labour=labour_of(timetable, labour),
        open_hours=tuple(clock.open_hours(timetable.runs)),
    )
    remarks = (
        *timetable_remarks(timetable),
        *run_remarks(timetable),
        *labour_remarks(timetable, labour),
        *deadline_remarks(timetable, judged),
    )
    working = tuple(explain_times(timetable, body, judged)) if explained else ()
    return Answer(body=body, remarks=remarks, working=working)


def returns_of(timetable: Timetable) -> tuple[ReturnTime, ...]:
    """When each class of traffic may return."""
    return tuple(_Clock(timetable).returns(timetable.runs))


def work_span(timetable: Timetable) -> tuple[datetime, datetime] | None:
    """The start of the work and the end of the last cure of the likely run; None without a start.

    Where a cure never ends, the end is that of the last step that has one.
    """
    if not timetable.basis.timed:
        return None
    zone = timetable.zone
    return zone.datetime_at(timetable.basis.start_s), zone.datetime_at(run_end_s(timetable.runs.likely))


class _Clock:
    """Turns a run into what people read: instants of the zone, or hours from the start alone."""

    def __init__(self, timetable: Timetable) -> None:
        basis = self._basis = timetable.basis
        self._zone = timetable.zone if basis.timed else None
        self._site = Site(hours=basis.hours, course=basis.course, until_s=basis.start_s + 400 * DAY_S)

    def step(self, step: Step, labour: ManWork) -> TimedStep:
        placed = step.placed
        from_s, until_s = (placed.from_s, placed.until_s) if placed else (None, None)
        stretches = placed.stretches[:MOST_PARTS] if placed and len(placed.stretches) > 1 else ()
        return _make_timed_step(
            step=step.kind,
            layer=step.layer,
            from_=self._at(from_s),
            until=self._at(until_s),
            after=self._after(from_s),
            lasts=None if placed is None else Figure(placed.until_s - placed.from_s, Kind.DURATION),
            hands=labour.hands,
            person_hours=Figure(labour.person_s, Kind.DURATION),
            cured=self._at(step.cured_s),
            cured_after=self._after(step.cured_s),
            parts=tuple(self._spans(stretches)),
            waits_for=tuple(self._waits(step)),
        )

    def returns(self, runs: Runs) -> Iterator[ReturnTime]:
        rows = zip(runs.first_returns, runs.likely.returns, runs.last_returns, strict=True)
        for earliest, likely, (_, latest) in rows:
            yield ReturnTime(
                traffic=latest.traffic,
                earliest=self._at(earliest.at_s),
                likely=self._at(likely.at_s),
                latest=self._at(latest.at_s),
                after=self._after(latest.at_s),
            )

    def open_hours(self, runs: Runs) -> Iterator[Span]:
        if self._zone is None:
            return
        end_s = runs.end_s
        stretches = takewhile(lambda stretch: stretch[0] < end_s, self._basis.hours.since(self._basis.start_s))
        for _, (from_s, until_s) in zip(range(MOST_OPEN_HOURS), stretches, strict=False):
            yield from self._spans([(from_s, min(until_s, max(end_s, from_s + DAY_S)))])

    def _spans(self, stretches: Iterable[tuple[float, float]]) -> Iterator[Span]:
        if self._zone is not None:
            for from_s, until_s in stretches:
                yield Span(from_=self._zone.datetime_at(from_s), until=self._zone.datetime_at(until_s))

    def _waits(self, step: Step) -> Iterator[Wait]:
        """What a step waits for: the layer under it, the time to lay it late, a shift that holds it, then warmth."""
        if step.ready_s is None or step.free_s is None or step.placed is None:
            return
        yield self._wait(step.cause, step.awaited, step.ready_s)
        if step.free_s > step.ready_s:
            yield self._wait(Cause.WINDOW, step.layer, step.free_s)
        begins_s = step.placed.from_s
        if begins_s <= step.free_s + SAME_INSTANT_S:
            return
        open_s = self._opens(step.free_s, step.placed)
        if open_s > step.free_s + SAME_INSTANT_S:
            yield self._wait(Cause.SHIFT, None, open_s)
        if begins_s > open_s + SAME_INSTANT_S:
            yield self._wait(Cause.TEMPERATURE, None, begins_s)

    def _opens(self, ready_s: float, placed: Placed) -> float:
        """When a step (its first part where it is split) could begin if the temperature did not matter."""
        from_s, until_s = placed.stretches[0]
        since = self._basis.hours.since
        if placed.stops is Stops.AT_SHIFT_END and until_s > next(since(from_s))[1] - SAME_INSTANT_S:
            return max(ready_s, next(since(ready_s))[0])  # longer than any shift: any open hour will do
        fits_s = self._site.fit(ready_s, until_s - from_s)
        return from_s if fits_s is None else fits_s

    def _wait(self, cause: Cause, layer: str | None, until_s: float) -> Wait:
        return _make_wait(
            cause=cause,
            layer=layer,
            until=self._at(until_s),
            after=Figure(until_s - self._basis.start_s, Kind.DURATION),
        )

    def _at(self, instant_s: float | None) -> datetime | None:
        return None if instant_s is None or self._zone is None else self._zone.datetime_at(instant_s)

    def _after(self, instant_s: float | None) -> Figure | None:
        return None if instant_s is None else Figure(instant_s - self._basis.start_s, Kind.DURATION)
