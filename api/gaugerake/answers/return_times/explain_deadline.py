"""How the deadline's figures came about: what is left of the time, the last start, and what each remedy does.

Nothing is run again here: when traffic is back with a remedy, and with one step less of it, the search has passed on.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from gaugerake.answers.job.course_inputs import Inputs, course_inputs
from gaugerake.answers.job.sources import CLOCK_AGAIN, JOB
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.return_times.change import (
    AnyRemedy,
    DailyValue,
    ReadingsValue,
    RemedyChange,
    SteadyValue,
    places_of,
)
from gaugerake.answers.return_times.explain_cure import said
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.answers.return_times.remedies import Back
from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say, Value, Words, listed

NEVER = Say(code="written-never")

if TYPE_CHECKING:
    from gaugerake.answers.return_times.deadline import JudgedDeadline


def explain_deadline(timetable: Timetable, judged: JudgedDeadline) -> Iterator[Working]:
    """The working of the deadline, the last start, the slack and every remedy."""
    yield from _Deadline(timetable, judged).record()


class _Deadline:
    """The working of one deadline."""

    def __init__(self, timetable: Timetable, judged: JudgedDeadline) -> None:
        self._timetable, self._judged, self._deadline = timetable, judged, judged.shown
        self._basis = timetable.basis
        self._by: Inputs = {"reopen_by": judged.shown.reopen_by.isoformat(timespec="seconds")}

    def record(self) -> Iterator[Working]:
        """The working of everything that the deadline holds."""
        by = self._by["reopen_by"]
        yield from self._explained("reopen_by", "rule-as-stated", {"stated": by}, by, JOB)
        latest = next(one.at_s for _, one in self._timetable.runs.last_returns if one.traffic == self._deadline.traffic)
        if self._deadline.slack is not None:
            inputs = {**self._by, "latest": said(self._timetable, latest)}
            yield from self._explained("slack", "rule-clock-slack", inputs, self._deadline.slack, CLOCK_AGAIN)
        yield from self._latest_start()
        pairs = zip(self._deadline.remedies, self._judged.backs, strict=True)
        for index, (remedy, back) in enumerate(pairs):
            yield from self._remedy(f"remedies/{index}", remedy, back)

    def _explained(self, figure: str, rule: str, inputs: Inputs, result: Value, source: Words) -> Iterator[Working]:
        yield working(f"/deadline/{figure}", rule, inputs, result, source)

    def _latest_start(self) -> Iterator[Working]:
        found, back = self._deadline.latest_start, self._judged.from_start
        if found is not None and back is not None:
            inputs = self._back("back", back.at_s) | self._back("a_minute_later", back.less_s)
            yield from self._explained(
                "latest_start",
                "rule-clock-latest-start",
                self._by | inputs,
                found.isoformat(timespec="seconds"),
                CLOCK_AGAIN,
            )

    def _back(self, name: str, at_s: float | None) -> Inputs:
        """When traffic is back at the latest in a changed job, to the minute, or that it never is."""
        return {name: NEVER if at_s is None else self._timetable.zone.datetime_at(at_s).isoformat(timespec="seconds")}

    def _remedy(self, at: str, remedy: AnyRemedy, back: Back | None) -> Iterator[Working]:
        for place, change in places_of(remedy):
            if back is not None:
                yield from self._does(f"{at}{place}", change, back)
            yield from self._value(f"{at}{place}/value", change)

    def _does(self, at: str, change: RemedyChange, back: Back) -> Iterator[Working]:
        """What the remedy achieves, written beside each of its changes."""
        inputs, rule = self._by | self._back("back", back.at_s), "rule-clock-remedy"
        if back.stepped:
            inputs, rule = inputs | self._back("back_with_less", back.less_s), "rule-clock-remedy-least"
        if change.by is not None:
            yield from self._explained(f"{at}/by", rule, inputs, change.by, CLOCK_AGAIN)
        elif change.value is True:
            yield from self._explained(f"{at}/value", rule, inputs, True, CLOCK_AGAIN)

    def _value(self, at: str, change: RemedyChange) -> Iterator[Working]:
        """The changed field: what it was, and what is made of it."""
        value = change.value
        if value is None or change.by is None:
            return
        inputs: Inputs = {"by": change.by}
        if isinstance(value, int):
            inputs["stations"] = self._timetable.resolved.work.crew.mixing_stations.value
            yield from self._explained(at, "rule-clock-more-stations", inputs, value, JOB)
        elif isinstance(value, tuple):
            inputs |= shift_inputs(self._timetable)
            yield from self._explained(at, f"rule-clock-{change.kind}", inputs, len(value), JOB)
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
        inputs[f"shift_{number}_days"] = listed(
            code="written-words", phrases=[Say(code=f"written-{day.value}") for day in shift.days]
        )
        inputs[f"shift_{number}_from"] = shift.starts.isoformat()
        inputs[f"shift_{number}_to"] = shift.ends.isoformat()
    return inputs
