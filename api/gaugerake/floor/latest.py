"""Backwards from the hour when the doors must open: the last minute from which the work can begin."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from gaugerake.floor.age import FREEZING_K
from gaugerake.floor.clock import run
from gaugerake.floor.course import Course
from gaugerake.floor.local import DAY_S
from gaugerake.floor.shifts import OpenHours
from gaugerake.floor.timetable import Plan

LOOK_BACK_S = 60 * DAY_S
FINE_STEP_S = 3600.0
PAST_DEADLINE_S = 60.0
"""How far past a deadline a run that is held against it looks, so that a return on the minute is seen."""


def latest_start(plan: Plan, *, hours: OpenHours, course: Course, traffic: str, by_s: float) -> float | None:
    """The last minute from which the latest return of a class of traffic still meets a deadline.

    Parameters
    ----------
    plan : Plan
        The work.
    hours : OpenHours
        When the crew works.
    course : Course
        The floor's temperature, before the job's own start too.
    traffic : str
        Whose return.
    by_s : float [s]
        When it must be back.

    Returns
    -------
    float or None
        The instant, a whole minute [s]; None when there is none in the 60 days before ``by_s``.

    Notes
    -----
    A later start gives no earlier return, except where it spares abrading or a frost. So the starts of shifts are
    tried backwards until one meets the deadline, then the minute is halved for between it and the next that does not;
    where windows or frost can turn the order, every hour of the shifts is tried instead of their starts alone.

    Examples
    --------
    >>> from gaugerake.floor.course import SteadyCourse
    >>> from gaugerake.floor.cure import time_curve, time_point
    >>> from gaugerake.floor.shifts import RoundTheClock
    >>> from gaugerake.floor.system import Return
    >>> from gaugerake.floor.timetable import LayerWork
    >>> after = time_curve([time_point(temperature_k=293.15, likely_s=36000.0)])
    >>> plan = Plan(preparation_s=0.0, layers=(LayerWork(layer="coat", parts_s=(7200.0,)),),
    ...             returns=(Return(traffic="foot", after=after),), returns_from=0)
    >>> at = latest_start(plan, hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15), traffic="foot",
    ...                   by_s=360000.0)
    >>> (360000.0 - at) / 3600
    12.0

    References
    ----------
    Our own.
    """

    def meets(start_s: float) -> bool:
        latest = run(plan, hours=hours, course=course, column="high", start_s=start_s, until_s=by_s + PAST_DEADLINE_S)
        return any(one.traffic == traffic and one.at_s is not None and one.at_s <= by_s for one in latest.returns)

    failing_s = math.floor(by_s / 60) * 60.0 + 60.0
    for candidate_s in _candidates(hours, by_s, FINE_STEP_S if _may_turn(plan, course) else math.inf):
        if candidate_s < by_s - LOOK_BACK_S:
            break
        minute_s = math.floor(candidate_s / 60) * 60.0
        if minute_s >= failing_s:
            continue  # where shifts overlap
        if meets(minute_s):
            return _last_minute(meets, minute_s, failing_s)
        failing_s = minute_s
    return None


def _may_turn(plan: Plan, course: Course) -> bool:
    """Whether a later start may be the better one."""
    return course.span_k[0] < FREEZING_K or any(work.recoat_closes is not None for work in plan.layers)


def _candidates(hours: OpenHours, by_s: float, step_s: float) -> Iterator[float]:
    """Starts to try, the last first: of every shift, and every ``step_s`` of it."""
    for open_s, close_s in hours.before(by_s):
        if step_s < math.inf:
            count = math.ceil((min(close_s, by_s) - open_s) / step_s)
            yield from (open_s + index * step_s for index in range(count - 1, 0, -1))
        yield open_s


def _last_minute(meets: Callable[[float], bool], meeting_s: float, failing_s: float) -> float:
    """The last whole minute that meets, between one that does and one that does not."""
    while failing_s - meeting_s > 60:
        middle_s = meeting_s + (failing_s - meeting_s) // 120 * 60
        if meets(middle_s):
            meeting_s = middle_s
        else:
            failing_s = middle_s
    return meeting_s
