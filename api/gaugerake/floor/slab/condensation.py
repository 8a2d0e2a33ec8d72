"""When a floor is too near the dew point: exact, by the course of its temperature."""

from __future__ import annotations

from itertools import pairwise

from gaugerake.floor.cure.course import Course
from gaugerake.floor.slab.verdict import GUARD
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class DampSpan:
    """From one instant to another [s] the floor is too near the dew point, at the least by ``least_spread_k``."""

    from_s: float
    until_s: float
    least_spread_k: float


def condensation_spans(
    *, course: Course, dew_point_k: float, spread_k: float, from_s: float, until_s: float
) -> tuple[DampSpan, ...]:
    """Spans in which the floor's temperature less the dew point is under the spread that is asked.

    Parameters
    ----------
    course : Course
        The floor's temperature.
    dew_point_k : float [K]
        Dew point of the air, taken as constant.
    spread_k : float [K]
        The least difference that is asked.
    from_s : float [s]
        Instant to begin at.
    until_s : float [s]
        Instant to end at.

    Returns
    -------
    tuple of DampSpan
        In order, none touching the next.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import logged_course
    >>> course = logged_course([(0.0, 290.0), (3600.0, 280.0), (7200.0, 290.0)])
    >>> condensation_spans(course=course, dew_point_k=282.0, spread_k=3.0, from_s=0.0, until_s=7200.0)
    (DampSpan(from_s=1800.0, until_s=5400.0, least_spread_k=-2.0),)

    References
    ----------
    ISO 8502-4 for the spread; the spans are the exact roots of the course.
    """
    level_k = dew_point_k + spread_k - GUARD * abs(spread_k)
    bounds = [from_s, *course.kinks(from_s, until_s, [level_k]), until_s]
    spans: list[DampSpan] = []
    for start_s, end_s in pairwise(bounds):
        within = course.within(start_s)  # between two kinks it is monotone and crosses nothing
        if end_s <= start_s or within((end_s - start_s) / 2) >= level_k:
            continue
        least = min(within(0.0), within(end_s - start_s)) - dew_point_k
        if spans and spans[-1].until_s == start_s:
            last = spans.pop()
            start_s, least = last.from_s, min(last.least_spread_k, least)
        spans.append(DampSpan(from_s=start_s, until_s=end_s, least_spread_k=least))
    return tuple(spans)
