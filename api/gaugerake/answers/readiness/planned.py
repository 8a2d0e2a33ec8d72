"""What the checks need of the clock and of the takeoff: one place where they meet."""

from __future__ import annotations

from datetime import datetime

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import course_of, start_of
from gaugerake.answers.readiness.layout import thickness_check
from gaugerake.answers.return_times.bridge import work_span
from gaugerake.answers.takeoff.bridge import gross_areas
from gaugerake.floor.cure.course import Course
from gaugerake.floor.slab.verdict import Verdict


def start_of_work(context: Context) -> datetime | None:
    """The start of the work, in its zone."""
    return context.shared(start_of)


def floor_course(context: Context) -> Course:
    """The floor's temperature over time."""
    return context.shared(course_of)


def planned_span(context: Context) -> tuple[datetime, datetime] | None:
    """From the start of the work to the end of its last cure.

    None as well without rooms, and for a thickness that the system cannot be placed at: the checks say so, and no work
    is planned for it.
    """
    if not context.job.rooms:
        return None
    thickness = thickness_check(context)
    if thickness is not None and thickness.verdict is not Verdict.GO:
        return None
    return context.shared(work_span)


def total_area_m2(context: Context) -> float:
    """Gross area of all rooms [m²]; 0 as long as there are none."""
    return sum(context.shared(gross_areas))
