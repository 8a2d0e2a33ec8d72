"""The week that a job without a start is worked in.

Decisions:

* A job at the counter has no start, and its crew goes home all the same. So its hours count from a Monday of no date:
  from the earliest beginning of a shift on Monday, else of the first weekday that has one. No day of that week is
  closed, and its clocks are never changed.
* A daily wave of the floor's temperature goes by the wall clock of that week.
* Readings have instants, and no week of theirs is nominal: they need a start.
* ``round_the_clock: true`` without a start still counts from the coldest hour of a daily wave or the first reading.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import time

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.hours import hours_open
from gaugerake.answers.job.remarks import Remark, Remarks, assumption
from gaugerake.answers.job.resolved import Basis
from gaugerake.answers.job.taken import Taken, assumed, refused
from gaugerake.floor.cure.course import Course, DailyCourse, LoggedCourse
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.errors import FloorError, NoStart
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.local_time import DAY_S, zone_named
from gaugerake.floor.values.note import Say

MONDAY_S = 4 * DAY_S  # 1970-01-05 in UTC, where no clock is changed


def nominal_basis(shifts: tuple[Shift, ...], course: Course, remarks: Remarks) -> Taken[Basis]:
    """Work in the shifts of a nominal week; readings are refused, as they have instants."""
    if isinstance(course, LoggedCourse):
        return refused((Fault("/work/start", NoStart("start")),))
    utc = zone_named("UTC")
    try:
        hours = hours_open(shifts, (), utc)
    except FloorError as error:
        return refused((Fault("/work/shifts", error),))
    if isinstance(course, DailyCourse):
        course = replace(course, zone=utc)
    day, at = _first(shifts)
    start_s = MONDAY_S + list(Weekday).index(day) * DAY_S + at.hour * 3600.0 + at.minute * 60.0 + at.second
    basis = Basis(hours=hours, course=course, start_s=start_s, timed=False)
    return assumed(basis, *remarks, _told(day, at))


def _first(shifts: Sequence[Shift]) -> tuple[Weekday, time]:
    """The first weekday that has a shift, and when its earliest begins."""
    day = next(day for day in Weekday if any(day in shift.days for shift in shifts))
    return day, min(shift.starts for shift in shifts if day in shift.days)


def _told(day: Weekday, at: time) -> Remark:
    begins = at.isoformat(timespec="seconds" if at.second else "minutes")
    return assumption("nominal-monday", "/work/start", begins, day=Say(code=f"weekday-{day.value}"))
