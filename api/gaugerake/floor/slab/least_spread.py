"""The least spread of a floor above the dew point in each of many stretches of time, found from one table of pieces."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from gaugerake.floor.cure.course import Course
from gaugerake.floor.slab.air import dew_point
from gaugerake.floor.slab.air_course import AirCourse, cut_pieces, least_of, margin_in

STRAIGHT_K = 1e-3
"""A piece has its least at an end or in the middle, unless that is farther than this below the chord of the ends."""

Span = tuple[float, float]


_Bound = tuple[float, int]  # how low the margin of a piece may be [K], and which piece it is


class _Least(NamedTuple):
    """The least margin of a piece [K], and the instant of it [s]."""

    margin_k: float
    at_s: float


class _Piece(NamedTuple):
    """The least that was found in a piece, and what its margin never comes under [K]."""

    least: _Least
    no_less_k: float


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
    table = _Table(course, air, spans)
    return tuple(
        min(one.margin_k, course.at(one.at_s) - dew_point(**air.at(one.at_s)._asdict())) for one in table.least()
    )


class _Table:
    """The pieces that spans fall into. One is looked at closely only where it may hold the least of a span."""

    def __init__(self, course: Course, air: AirCourse, spans: Sequence[Span]) -> None:
        self._course, self._air, self._spans = course, air, spans
        ends = {end_s for span in spans for end_s in span}
        self._pieces = list(cut_pieces(course=course, air=air, from_s=min(ends), until_s=max(ends), cuts_s=ends))
        self._bounds = [piece[0] for piece in self._pieces]
        self._found = [self._looked_at(index) for index in range(len(self._pieces))]
        self._rows = _rows([(one.no_less_k, index) for index, one in enumerate(self._found)])

    def least(self) -> Iterator[_Least]:
        """The least of each span."""
        for from_s, until_s in self._spans:
            if until_s > from_s:
                yield self._within(bisect_left(self._bounds, from_s), bisect_left(self._bounds, until_s))
            else:
                yield _Least(margin_in(course=self._course, air=self._air, start_s=from_s)(0.0), from_s)

    def _within(self, first: int, after: int) -> _Least:
        """The least of the pieces from ``first`` up to ``after``: those that may be less than it are searched."""
        best, open_parts = _Least(math.inf, math.inf), [(first, after)]
        while open_parts:
            begin, end = open_parts.pop()
            if begin >= end:
                continue
            no_less_k, index = _lowest(self._rows, begin, end)
            if no_less_k < best.margin_k:
                best = min(best, self._searched(index))
                open_parts += [(begin, index), (index + 1, end)]
        return best

    def _looked_at(self, index: int) -> _Piece:
        """The ends of a piece and its middle, and how far under them it may come."""
        from_s, until_s = self._pieces[index]
        margin, length_s = margin_in(course=self._course, air=self._air, start_s=from_s), until_s - from_s
        first, middle, last = (margin(since_s) for since_s in (0.0, length_s / 2, length_s))
        least = min(_Least(first, from_s), _Least(middle, from_s + length_s / 2), _Least(last, until_s))
        sag_k = (first + last) / 2 - middle
        # a parabola comes a quarter of its sag under the three
        return _Piece(least, least.margin_k - sag_k if sag_k > STRAIGHT_K else least.margin_k)

    def _searched(self, index: int) -> _Least:
        """The least of a piece, searched once."""
        piece = self._found[index]
        if piece.no_less_k < piece.least.margin_k:
            from_s, until_s = self._pieces[index]
            margin = margin_in(course=self._course, air=self._air, start_s=from_s)
            since_s = least_of(margin=margin, begin_s=0.0, end_s=until_s - from_s)
            least = min(piece.least, _Least(margin(since_s), from_s + since_s))
            piece = self._found[index] = _Piece(least, least.margin_k)
        return piece.least


def _rows(bounds: list[_Bound]) -> list[list[_Bound]]:
    """Row n holds the lowest of 2ⁿ pieces from each one on."""
    rows = [bounds]
    for step in _doubling(len(bounds)):
        rows.append([min(pair) for pair in zip(rows[-1], rows[-1][step:], strict=False)])
    return rows


def _doubling(count: int) -> Iterator[int]:
    step = 1
    while 2 * step <= count:
        yield step
        step *= 2


def _lowest(rows: list[list[_Bound]], first: int, after: int) -> _Bound:
    """The lowest of the pieces from ``first`` up to ``after``."""
    level = (after - first).bit_length() - 1
    return min(rows[level][first], rows[level][after - (1 << level)])
