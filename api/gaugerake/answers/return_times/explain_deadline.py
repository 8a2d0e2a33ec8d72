"""How the deadline's figures came about: what is left of the time, the last start, and what each remedy does."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import time
from typing import TYPE_CHECKING

from gaugerake.answers.job.course_inputs import Inputs, course_inputs
from gaugerake.answers.job.sources import CLOCK_AGAIN, JOB
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.return_times.explain_cure import said
from gaugerake.answers.return_times.plan import Timetable, make_plan
from gaugerake.answers.return_times.remedies import (
    WARMTH_STEP_K,
    DailyValue,
    ReadingsValue,
    Remedy,
    ShiftValue,
    SteadyValue,
)
from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.clock.timetable import Plan
from gaugerake.floor.cure.course import Course, LoggedCourse
from gaugerake.floor.cure.curve import COLUMNS
from gaugerake.floor.job import Shift
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Value, Words

if TYPE_CHECKING:
    from gaugerake.answers.return_times.deadline import Deadline


def explain_deadline(timetable: Timetable, deadline: Deadline) -> Iterator[Working]:
    """The working of the deadline, the last start, the slack and every remedy."""
    yield from _Deadline(timetable, deadline).record()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """A job changed by a remedy: what of it is another."""

    plan: Plan | None = None
    hours: OpenHours | None = None
    course: Course | None = None


class _Deadline:
    """The working of one deadline."""

    def __init__(self, timetable: Timetable, deadline: Deadline) -> None:
        self._timetable, self._deadline = timetable, deadline
        self._basis = timetable.basis
        self._by: Inputs = {"reopen_by": deadline.reopen_by.isoformat(timespec="seconds")}

    def record(self) -> Iterator[Working]:
        """The working of everything that the deadline holds."""
        by = self._by["reopen_by"]
        yield from self._explained("reopen_by", "rule-as-stated", {"stated": by}, by, JOB)
        latest = next(one.at_s for _, one in self._timetable.runs.last_returns if one.traffic == self._deadline.traffic)
        if self._deadline.slack is not None:
            inputs = {**self._by, "latest": said(self._timetable, latest)}
            yield from self._explained("slack", "rule-clock-slack", inputs, self._deadline.slack, CLOCK_AGAIN)
        yield from self._latest_start()
        for index, remedy in enumerate(self._deadline.remedies):
            yield from self._remedy(f"remedies/{index}", remedy)

    def _explained(self, figure: str, rule: str, inputs: Inputs, result: Value, source: Words) -> Iterator[Working]:
        yield working(f"/deadline/{figure}", rule, inputs, result, source)

    def _latest_start(self) -> Iterator[Working]:
        found = self._deadline.latest_start
        if found is None:
            return
        start_s = found.timestamp()
        own = _Change(
            hours=self._timetable.resolved.work.hours.value, course=self._timetable.resolved.work.course.value
        )
        backs = self._backs(own, None, start_s=start_s)
        backs |= _under("a_minute_later", self._back(own, start_s + 60.0))
        yield from self._explained(
            "latest_start", "rule-clock-latest-start", backs, found.isoformat(timespec="seconds"), CLOCK_AGAIN
        )

    def _backs(self, change: _Change, less: _Change | None, *, start_s: float) -> Inputs:
        inputs = {**self._by, **_under("back", self._back(change, start_s))}
        return inputs if less is None else inputs | _under("back_with_less", self._back(less, start_s))

    def _back(self, change: _Change, start_s: float) -> Value:
        """When traffic is back at the latest in a changed job, to the minute."""
        plan = change.plan or self._timetable.plan
        counted = replace(plan, returns=tuple(one for one in plan.returns if one.traffic == self._deadline.traffic))
        hours, course = change.hours or self._basis.hours, change.course or self._basis.course
        runs = [run(counted, hours=hours, course=course, column=column, start_s=start_s) for column in COLUMNS]
        ends = [one.returns[0].at_s for one in runs]
        known = [end_s for end_s in ends if end_s is not None]
        if len(known) < len(ends):
            return None
        return self._timetable.zone.datetime_at(max(known)).isoformat(timespec="seconds")

    def _remedy(self, at: str, remedy: Remedy) -> Iterator[Working]:
        change, less = _CHANGES[remedy.kind](self._timetable, remedy)
        inputs = self._backs(change, less, start_s=self._basis.start_s)
        rule = "rule-clock-remedy" if less is None else "rule-clock-remedy-least"
        yield from self._explained(f"{at}/by", rule, inputs, remedy.by, CLOCK_AGAIN)
        yield from self._value(f"{at}/value", remedy)

    def _value(self, at: str, remedy: Remedy) -> Iterator[Working]:
        """The changed field: what it was, and what is made of it."""
        value = remedy.value
        inputs: Inputs = {"by": remedy.by}
        if isinstance(value, int):
            inputs["stations"] = self._timetable.resolved.work.crew.mixing_stations.value
            yield from self._explained(at, "rule-clock-more-stations", inputs, value, JOB)
        elif isinstance(value, tuple):
            inputs |= shift_inputs(self._timetable)
            yield from self._explained(at, f"rule-clock-{remedy.kind}", inputs, len(value), JOB)
        else:
            yield from self._warmer(at, value, inputs | self._planned())

    def _planned(self) -> Inputs:
        course = self._basis.course
        ends = (course.instants_s[0], course.instants_s[-1]) if isinstance(course, LoggedCourse) else (0.0, 0.0)
        return course_inputs(course, self._timetable.coldest_at, lambda at_s: said(self._timetable, at_s), *ends)

    def _warmer(self, at: str, value: SteadyValue | DailyValue | ReadingsValue, inputs: Inputs) -> Iterator[Working]:
        if isinstance(value, SteadyValue):
            yield from self._explained(f"{at}/steady", "rule-clock-warmer", inputs, value.steady, JOB)
        elif isinstance(value, DailyValue):
            wave, ends_k = value.daily, self._basis.course.span_k
            for end, end_k, result in zip(("low", "high"), ends_k, (wave.low, wave.high), strict=True):
                planned: Inputs = {"by": inputs["by"], "floor": Figure(end_k, Kind.TEMPERATURE)}
                yield from self._explained(f"{at}/daily/{end}", "rule-clock-warmer", planned, result, JOB)
            coldest: Inputs = {"coldest_at": wave.coldest_at}
            yield from self._explained(
                f"{at}/daily/coldest_at", "rule-clock-coldest-as-planned", coldest, wave.coldest_at, JOB
            )
        else:
            yield from self._explained(f"{at}/readings", "rule-clock-warmer-readings", inputs, len(value.readings), JOB)


def shift_inputs(timetable: Timetable) -> Inputs:
    """The shifts of a job, one after the other; none round the clock."""
    inputs: Inputs = {}
    shifts = timetable.resolved.work.listed_shifts.value
    for number, shift in enumerate(shifts or (), 1):
        inputs[f"shift_{number}_days"] = " ".join(day.value for day in shift.days)
        inputs[f"shift_{number}_from"] = shift.starts.isoformat()
        inputs[f"shift_{number}_to"] = shift.ends.isoformat()
    return inputs


def _under(name: str, back: Value) -> Inputs:
    """When traffic is back; never said as a word."""
    return {name: "never" if back is None else back}


def _warmth(timetable: Timetable, remedy: Remedy) -> tuple[_Change, _Change | None]:
    course = timetable.basis.course
    less_k = remedy.by.value - WARMTH_STEP_K
    return _Change(course=course.warmer_by(remedy.by.value)), _Change(course=course.warmer_by(less_k))


def _more_hours(timetable: Timetable, remedy: Remedy) -> tuple[_Change, _Change | None]:
    assert isinstance(remedy.value, tuple)
    shifts = tuple(_shift(value) for value in remedy.value)
    less = _one_less(remedy, shifts, timetable.resolved.work.listed_shifts.value)
    changed = _Change(hours=timetable.hours_of(shifts))
    return changed, None if less is None else _Change(hours=timetable.hours_of(less))


def _one_less(remedy: Remedy, shifts: tuple[Shift, ...], own: tuple[Shift, ...] | None) -> tuple[Shift, ...] | None:
    """An hour of each shift, a crew or a day less; of several days no one set is the next less."""
    if remedy.kind == "longer-shifts":
        return tuple(replace(shift, ends=_earlier(shift.ends)) for shift in shifts)
    if remedy.kind == "another-shift":
        return shifts[:-1]
    return own if remedy.by.value == 1 else None


def _earlier(at: time) -> time:
    return at.replace(hour=(at.hour - 1) % 24)


def _shift(value: ShiftValue) -> Shift:
    return Shift(days=value.days, starts=time.fromisoformat(value.from_), ends=time.fromisoformat(value.to))


def _stations(timetable: Timetable, remedy: Remedy) -> tuple[_Change, _Change | None]:
    assert isinstance(remedy.value, int)
    more, less = (
        make_plan(timetable.resolved, timetable.takeoff, station_count=count)
        for count in (remedy.value, remedy.value - 1)
    )
    return _Change(plan=more), _Change(plan=less)


_CHANGES: Mapping[str, Callable[[Timetable, Remedy], tuple[_Change, _Change | None]]] = {
    "warmer-floor": _warmth,
    "longer-shifts": _more_hours,
    "another-shift": _more_hours,
    "extra-days": _more_hours,
    "mixing-stations": _stations,
}
"""The job with each kind of remedy, and with one step less of it."""
