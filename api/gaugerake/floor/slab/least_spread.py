"""The least spread of a floor above the dew point in each of many stretches of time, found from one table of pieces."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from gaugerake.floor.cure.course import Course
from gaugerake.floor.slab.air import dew_point
from gaugerake.floor.slab.air_course import AirCourse, cut_pieces, least_of, margin_in

STRAIGHT_K = 1e-3
"""A piece whose middle is this near to its chord has its least at an end or in the middle."""

Span = tuple[float, float]


class _Least(NamedTuple):
    """The least margin of a piece [K], and the instant of it [s]."""

    margin_k: float
    at_s: float


def least_spreads_in_still_air(*, course: Course, dew_point_k: float, spans: Iterable[Span]) -> tuple[float, ...]:
    """The least spread in each of several spans, under air that stays as it is.

    Parameters
    ----------
    course : Course
        The floor's temperature.
    dew_point_k : float [K]
        Dew point of the air.
    spans : iterable of (float, float) [s]
        Instants to begin and to end at.

    Returns
    -------
    tuple of float [K]
        The lowest temperature of the floor in each, less the dew point.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import logged_course
    >>> course = logged_course([(0.0, 290.0), (3600.0, 280.0)])
    >>> least_spreads_in_still_air(course=course, dew_point_k=278.0, spans=[(0.0, 1800.0), (0.0, 3600.0)])
    (7.0, 2.0)

    References
    ----------
    ISO 8502-4 for the spread.
    """
    return tuple(course.reached_k(*span)[0] - dew_point_k for span in spans)


def least_spreads(*, course: Course, air: AirCourse, spans: Sequence[Span]) -> tuple[float, ...]:
    """The least spread in each of several spans, under air that changes.

    Parameters
    ----------
    course : Course
        The floor's temperature.
    air : AirCourse
        The air over it.
    spans : sequence of (float, float) [s]
        Instants to begin and to end at.

    Returns
    -------
    tuple of float [K]
        The least difference of the floor and the dew point in each.

    Notes
    -----
    The time that the spans cover is cut once where the floor or the air bends and where a span begins or ends. The
    least of a span is that of its pieces. It is found to 0.002 K.

    Examples
    --------
    The dew point rises with the humidity up to the air's temperature.

    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> from gaugerake.floor.slab.air_course import AirState
    >>> air = AirCourse(instants_s=(0.0, 3600.0), states=(AirState(290.0, 50.0), AirState(290.0, 100.0)))
    >>> spreads = least_spreads(
    ...     course=SteadyCourse(temperature_k=291.0), air=air, spans=[(0.0, 7200.0), (3600.0, 7200.0)]
    ... )
    >>> [round(spread, 2) for spread in spreads]
    [1.0, 1.0]

    References
    ----------
    ISO 8502-4 for the spread; ASHRAE Handbook, Fundamentals, 2017, ch. 1, eq. 5 and 6, for the dew point.
    """
    if not spans:
        return ()
    bounds, least = _pieces(course, air, spans)
    rows = _rows(least)
    found = (_within(rows, bisect_left(bounds, from_s), bisect_left(bounds, until_s)) for from_s, until_s in spans)
    return tuple(min(one.margin_k, course.at(one.at_s) - dew_point(**air.at(one.at_s)._asdict())) for one in found)


def _pieces(course: Course, air: AirCourse, spans: Sequence[Span]) -> tuple[list[float], list[_Least]]:
    """The bounds of the pieces that the spans fall into, and the least of each; a span of no length has one too."""
    ends = {end_s for span in spans for end_s in span}
    first_s, last_s = min(ends), max(ends)
    pieces = list(cut_pieces(course=course, air=air, from_s=first_s, until_s=last_s, cuts_s=ends))
    pieces.append((last_s, last_s))
    return [piece[0] for piece in pieces], [_least(course, air, *piece) for piece in pieces]


def _least(course: Course, air: AirCourse, from_s: float, until_s: float) -> _Least:
    margin, length_s = margin_in(course=course, air=air, start_s=from_s), until_s - from_s
    points = [_Least(margin(since_s), from_s + since_s) for since_s in (0.0, length_s / 2, length_s)]
    first, middle, last = points
    if abs(middle.margin_k - (first.margin_k + last.margin_k) / 2) > STRAIGHT_K:
        since_s = least_of(margin=margin, begin_s=0.0, end_s=length_s)
        points.append(_Least(margin(since_s), from_s + since_s))
    return min(points)


def _rows(least: list[_Least]) -> list[list[_Least]]:
    """Row n holds the least of 2ⁿ pieces from each one on."""
    rows = [least]
    for step in _doubling(len(least)):
        rows.append([min(pair) for pair in zip(rows[-1], rows[-1][step:], strict=False)])
    return rows


def _doubling(count: int) -> Iterator[int]:
    step = 1
    while 2 * step <= count:
        yield step
        step *= 2


def _within(rows: list[list[_Least]], first: int, after: int) -> _Least:
    """The least of the pieces from ``first`` up to ``after``, or of that one alone."""
    after = max(after, first + 1)
    level = (after - first).bit_length() - 1
    return min(rows[level][first], rows[level][after - (1 << level)])
