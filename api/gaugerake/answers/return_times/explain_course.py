"""The floor's temperature as it goes into a working: what a reader needs to find it again at any hour of a span."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator

from gaugerake.answers.return_times.plan import Timetable
from gaugerake.floor.cure.course import Course, DailyCourse, LoggedCourse
from gaugerake.floor.job import Daily
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Value

Inputs = dict[str, Value]
Told = Callable[[float], Value]
"""An instant as a working tells it: on the wall clock, or as hours from the start."""


def course_inputs(timetable: Timetable, course: Course, told: Told, from_s: float, until_s: float) -> Inputs:
    """The floor between two instants: one temperature, a daily wave, or the readings that reach over them."""
    if isinstance(course, DailyCourse):
        return _wave(timetable, course, told)
    if isinstance(course, LoggedCourse):
        return dict(_readings(course, told, from_s, until_s))
    return {"floor": Figure(course.temperature_k, "temperature")}


def _wave(timetable: Timetable, course: DailyCourse, told: Told) -> Inputs:
    inputs: Inputs = {
        "floor_low": Figure(course.low_k, "temperature"),
        "floor_high": Figure(course.high_k, "temperature"),
    }
    asked, from_start = timetable.resolved.asked.work.temperatures, told(course.coldest_at_s)
    if isinstance(from_start, Figure) or not isinstance(asked, Daily):
        return {**inputs, "coldest_at": from_start}  # without a start hours count from the coldest
    coldest = timetable.resolved.work.coldest_at.value.isoformat(timespec="minutes")
    return {**inputs, "coldest_at": coldest, "zone": course.zone.name}


def _readings(course: LoggedCourse, told: Told, from_s: float, until_s: float) -> Iterator[tuple[str, Value]]:
    """From the last reading before the span to the first after it; linear between, held where there is none."""
    first = max(0, bisect_right(course.instants_s, from_s) - 1)
    last = min(len(course.instants_s) - 1, bisect_left(course.instants_s, until_s))
    for number, index in enumerate(range(first, last + 1), 1):
        yield f"reading_{number}_at", told(course.instants_s[index])
        yield f"reading_{number}", Figure(course.temperatures_k[index], "temperature")
