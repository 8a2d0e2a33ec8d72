"""The floor's temperature as inputs of a working, from which a reader can work it out at any hour of a span."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator
from datetime import time

from gaugerake.floor.cure.course import Course, DailyCourse, LoggedCourse
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Value

Inputs = dict[str, Value]
Shown = Callable[[float], Value]
"""An instant as a working tells it: on the wall clock, or as hours from the start."""


def course_inputs(course: Course, coldest_at: time, shown: Shown, from_s: float, until_s: float) -> Inputs:
    """The floor between two instants: one temperature, a daily wave (lowest at ``coldest_at``), or the readings.

    >>> from gaugerake.floor.cure.course import logged_course
    >>> course = logged_course([(0.0, 290.0), (3600.0, 292.0), (7200.0, 291.0)])
    >>> list(course_inputs(course, time(5), str, 600.0, 1200.0))
    ['reading_1_at', 'reading_1', 'reading_2_at', 'reading_2']
    """
    if isinstance(course, DailyCourse):
        return _wave(course, coldest_at, shown)
    if isinstance(course, LoggedCourse):
        return dict(_readings(course, shown, from_s, until_s))
    return {"floor": Figure(course.temperature_k, Kind.TEMPERATURE)}


def _wave(course: DailyCourse, coldest_at: time, shown: Shown) -> Inputs:
    inputs: Inputs = {
        "floor_low": Figure(course.low_k, Kind.TEMPERATURE),
        "floor_high": Figure(course.high_k, Kind.TEMPERATURE),
    }
    from_start = shown(course.coldest_at_s)
    if isinstance(from_start, Figure):
        return {**inputs, "coldest_at": from_start}  # without a start hours count from the coldest
    return {**inputs, "coldest_at": coldest_at.isoformat(timespec="minutes"), "zone": course.zone.name}


def _readings(course: LoggedCourse, shown: Shown, from_s: float, until_s: float) -> Iterator[tuple[str, Value]]:
    """The readings that a span needs: from the last one before it to the first one after it."""
    first = max(0, bisect_right(course.instants_s, from_s) - 1)
    last = min(len(course.instants_s) - 1, bisect_left(course.instants_s, until_s))
    for number, index in enumerate(range(first, last + 1), 1):
        yield f"reading_{number}_at", shown(course.instants_s[index])
        yield f"reading_{number}", Figure(course.temperatures_k[index], Kind.TEMPERATURE)
