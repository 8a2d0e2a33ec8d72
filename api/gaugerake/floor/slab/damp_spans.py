"""When a floor is too near the dew point of air that changes.

The dew point has no closed form along a course, so that a span's ends are found by halving: a piece is cut until its
margin (floor less dew point) is straight, and a dip of less than 0.01 K under the limit may go unseen.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from gaugerake.floor.cure.course import Course
from gaugerake.floor.slab.air import dew_point
from gaugerake.floor.slab.air_course import TABLE_ERROR_K, AirCourse, Margin, cut_pieces, least_of, margin_in
from gaugerake.floor.slab.condensation import DampSpan
from gaugerake.floor.slab.verdict import GUARD

STRAIGHT_K, BENT_K = 0.01, 0.05
"""A piece whose middle is this near to its chord is straight, near the level and under it."""
FAR = 4.0
"""A piece that is farther from the level than so many times the bow of its middle does not cross it."""
_SHORTEST_PIECE_S = 60.0
_SAME_INSTANT_S = 0.01

Point = tuple[float, float]  # seconds since the start of a piece, and the margin there [K]


def damp_spans(
    *, course: Course, air: AirCourse, spread_k: float, from_s: float, until_s: float
) -> tuple[DampSpan, ...]:
    """Spans in which the floor's temperature less the dew point of changing air is under the spread that is asked.

    Parameters
    ----------
    course : Course
        The floor's temperature.
    air : AirCourse
        The air over it.
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

    Notes
    -----
    A dip of less than 0.01 K under the limit may go unseen.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> from gaugerake.floor.slab.air_course import air_course
    >>> air = air_course([(0.0, 290.0, 50.0), (3600.0, 290.0, 100.0)])
    >>> spans = damp_spans(
    ...     course=SteadyCourse(temperature_k=291.0), air=air, spread_k=3.0, from_s=0.0, until_s=7200.0
    ... )
    >>> [(round(span.from_s), span.until_s, round(span.least_spread_k, 2)) for span in spans]
    [(2735, 7200.0, 1.0)]

    References
    ----------
    ISO 8502-4 for the spread; ASHRAE Handbook, Fundamentals, 2017, ch. 1, eq. 5 and 6, for the dew point.
    """
    found: list[_Damp] = []
    for damp in _damps(course, air, spread_k, (from_s, until_s)):
        if found and damp.from_s - found[-1].until_s <= _SAME_INSTANT_S:
            last = found.pop()
            least = min(last, damp, key=lambda one: one.least_k)
            damp = least._replace(from_s=last.from_s, until_s=damp.until_s)
        found.append(damp)
    return tuple(_span(course, air, damp) for damp in found)


def is_damp(*, course: Course, air: AirCourse, spread_k: float, from_s: float, until_s: float) -> bool:
    """Whether `damp_spans` finds any span, looking no further than the first.

    Parameters
    ----------
    course : Course
        The floor's temperature.
    air : AirCourse
        The air over it.
    spread_k : float [K]
        The least difference that is asked.
    from_s : float [s]
        Instant to begin at.
    until_s : float [s]
        Instant to end at.

    Returns
    -------
    bool
        Whether there is one.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> from gaugerake.floor.slab.air_course import air_course
    >>> floor, air = SteadyCourse(temperature_k=291.0), air_course([(0.0, 290.0, 50.0), (3600.0, 290.0, 100.0)])
    >>> [is_damp(course=floor, air=air, spread_k=3.0, from_s=0.0, until_s=until_s) for until_s in (2700.0, 2800.0)]
    [False, True]
    """
    return next(_damps(course, air, spread_k, (from_s, until_s)), None) is not None


def _damps(course: Course, air: AirCourse, spread_k: float, between_s: tuple[float, float]) -> Iterator[_Damp]:
    """The damp parts of each piece between two instants, in order."""
    level_k, (from_s, until_s) = spread_k - GUARD * abs(spread_k), between_s
    for start_s, end_s in cut_pieces(course=course, air=air, from_s=from_s, until_s=until_s):
        margin = margin_in(course=course, air=air, start_s=start_s)
        yield from _below(margin, start_s, end_s - start_s, level_k)


class _Damp(NamedTuple):
    """From one instant to another [s] the margin is under the level, at its least within ``near_s`` of ``least_s``."""

    from_s: float
    until_s: float
    least_s: float
    least_k: float
    near_s: float


def _below(margin: Margin, start_s: float, length_s: float, level_k: float) -> Iterator[_Damp]:
    """The parts of a piece in which the margin is under the level."""
    first = 0.0, margin(0.0)
    last = length_s, margin(length_s)
    for begin, end in pairwise([first, *_points(margin, first, last, level_k)]):
        below = [point for point in (begin, end) if point[1] < level_k]
        if not below:
            continue
        begin_s = begin[0] if begin in below else _crossing(margin, end[0], begin[0], level_k)
        end_s = end[0] if end in below else _crossing(margin, begin[0], end[0], level_k)
        least_s, least_k = min(below, key=lambda point: point[1])
        yield _Damp(start_s + begin_s, start_s + end_s, start_s + least_s, least_k, end[0] - begin[0])


def _points(margin: Margin, begin: Point, end: Point, level_k: float) -> Iterator[Point]:
    """Points after the beginning, up to the end, between which the margin is straight, or far from the level."""
    middle_s = (begin[0] + end[0]) / 2
    middle = middle_s, margin(middle_s)
    bow_k = abs(middle[1] - (begin[1] + end[1]) / 2)
    three_k = [point[1] for point in (begin, middle, end)]
    dry = min(three_k) - level_k > FAR * bow_k
    straight = bow_k <= (STRAIGHT_K if max(three_k) > level_k - FAR * bow_k else BENT_K)
    if dry or straight or end[0] - begin[0] <= _SHORTEST_PIECE_S:
        yield from (middle, end)
        return
    yield from _points(margin, begin, middle, level_k)
    yield from _points(margin, middle, end, level_k)


def _crossing(margin: Margin, below_s: float, above_s: float, level_k: float) -> float:
    while abs(above_s - below_s) > _SAME_INSTANT_S / 2:
        middle_s = (below_s + above_s) / 2
        if margin(middle_s) < level_k:
            below_s = middle_s
        else:
            above_s = middle_s
    return below_s


def _span(course: Course, air: AirCourse, damp: _Damp) -> DampSpan:
    """A span, with the dew point of its worst instant as ``dew_point`` has it."""
    margin = _margin_at(course, air)
    least_s = least_of(
        margin=margin,
        begin_s=max(damp.from_s, damp.least_s - damp.near_s),
        end_s=min(damp.until_s, damp.least_s + damp.near_s),
    )
    if margin(least_s) > damp.least_k:
        least_s = damp.least_s
    least_k = course.at(least_s) - dew_point(**air.at(least_s)._asdict())
    # where the floor jumps with the clocks the worse of both sides is the one found before
    return DampSpan(from_s=damp.from_s, until_s=damp.until_s, least_spread_k=min(least_k, damp.least_k + TABLE_ERROR_K))


def _margin_at(course: Course, air: AirCourse) -> Margin:
    """The floor less the dew point [K], by the instant."""
    return lambda instant_s: margin_in(course=course, air=air, start_s=instant_s)(0.0)
