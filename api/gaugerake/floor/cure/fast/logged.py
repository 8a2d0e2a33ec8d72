"""Maturity along a log of readings, as a table: what has accrued at the start of each of its pieces.

A log is linear between its readings. Cut where it crosses a row of the maker's table or a limit, each piece has one
line of ln t, and eight Gauss-Legendre nodes give nine digits of its maturity. All pieces are computed at once; the
maturity gained between two instants is then a difference, whatever lies between them.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from itertools import pairwise
from operator import itemgetter
from typing import Any, NamedTuple

import numpy as np

from gaugerake.floor.cure.accrual import FASTEST, FREEZING_K, MOST_BEND, NODES_8, Bounds, Mode, Segment
from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.cure.curve import COLUMNS, Column, TimeCurve

Floats = np.ndarray[Any, np.dtype[np.float64]]
Places = np.ndarray[Any, np.dtype[np.intp]]
_NODES = np.array([node for node, _ in NODES_8])
_WEIGHTS = np.array([weight for _, weight in NODES_8])


class _Rates(NamedTuple):
    """The line of each piece of a log, the inverse of its temperatures at the nodes, and its length."""

    curve: TimeCurve
    lines: Places
    inverse: Floats
    lengths_s: Floats

    def gained(self, column: Column) -> Floats:
        """The maturity of each piece on one column."""
        b, m = _along(self.curve, column, self.lines)
        rates = np.exp(np.minimum(-b[:, None] - m[:, None] * self.inverse, FASTEST))
        found: Floats = (rates @ _WEIGHTS) * self.lengths_s
        return found


def _along(curve: TimeCurve, column: Column, lines: Places) -> Floats:
    """The b and the m of the line of each piece."""
    found: Floats = np.array(curve.lines[column]).T[:, lines]
    return found


class _Cut(NamedTuple):
    """A log in pieces, the first and the last without end: how maturity accrues on each, and how much of it by column.

    ``modes`` is None where it accrues unhindered on all of them; ``rates``, which knows nothing of the first and the
    last, where ln t changes by more on one of the others than the nodes can hold.
    """

    curve: TimeCurve  # held, so that the pieces are never taken for those of another curve at the same address
    bounds_s: list[float]
    modes: list[Mode] | None
    rates: _Rates | None


class LoggedMaturity:
    """The maturity by instant along a log, on one column of a table and within limits.

    Before the first reading and after the last, maturity accrues at one rate. ``lossy`` tells whether any may be lost:
    stopped, capped or frozen.
    """

    def __init__(self, course: LoggedCourse, column: Column, bounds: Bounds, cut: _Cut, gained: Floats) -> None:
        self._course, self._column, self._limits, self._curve = course, column, bounds, cut.curve
        self._bounds_s, self._modes = cut.bounds_s, cut.modes or []
        self._ends_s = [-math.inf, *cut.bounds_s, math.inf] if self._modes else []
        spans = zip(self._modes, pairwise(self._ends_s), strict=True)
        self._frozen = [span for mode, span in spans if mode is Mode.FROZEN]
        self._maturities: list[float] = [0.0, *np.cumsum(gained).tolist()]
        self._pieces: dict[int, Segment] = {}
        self.lossy = cut.modes is not None

    def _rate(self, end: int) -> float:
        """The maturity of a second at the first reading (0) or the last (-1)."""
        held_k = self._course.temperatures_k[end]
        return Segment(self._curve, self._column, self._limits, lambda _since_s: held_k, 1.0).gained

    @classmethod
    def of(cls, course: LoggedCourse, *, curve: TimeCurve, column: Column, bounds: Bounds) -> LoggedMaturity | None:
        """The table of a log, made once; None where it is too steep for one."""
        key = (id(curve), column, bounds)
        known = course.tables.get(key)
        if isinstance(known, tuple) and known[0] is curve:
            return known[1]  # type: ignore[no-any-return]
        cut = _cut(course, curve, bounds)
        log = None if cut.rates is None else cls(course, column, bounds, cut, cut.rates.gained(column))
        course.tables[key] = curve, log
        return log

    def maturity(self, instant_s: float) -> float:
        """The maturity gained since the first reading, less than nothing before it."""
        first_s, last_s = self._bounds_s[0], self._bounds_s[-1]
        if instant_s <= first_s:
            return (instant_s - first_s) * self._rate(0)
        if instant_s >= last_s:
            return self._maturities[-1] + (instant_s - last_s) * self._rate(-1)
        index = bisect_right(self._bounds_s, instant_s) - 1
        return self._maturities[index] + self._piece(index).by(instant_s - self._bounds_s[index])

    def instant(self, maturity: float) -> float:
        """When that maturity is gained, the inverse [s]; infinite when it never is."""
        first_s, last_s = self._bounds_s[0], self._bounds_s[-1]
        if maturity > self._maturities[-1]:
            rate = self._rate(-1)
            return last_s + (maturity - self._maturities[-1]) / rate if rate > 0 else math.inf
        if maturity <= 0:
            rate = self._rate(0)
            return first_s + maturity / rate if rate > 0 else first_s
        index = bisect_left(self._maturities, maturity) - 1
        return self._bounds_s[index] + self._piece(index).until(maturity - self._maturities[index])

    def _piece(self, index: int) -> Segment:
        known = self._pieces.get(index)
        if known is None:
            from_s, until_s = self._bounds_s[index : index + 2]
            within = self._course.within(from_s)
            known = self._pieces[index] = Segment(self._curve, self._column, self._limits, within, until_s - from_s)
        return known

    def spent_in(self, mode: Mode, from_s: float, until_s: float) -> float:
        """How long maturity accrues in one way between two instants [s]."""
        spans = self._spans(from_s, until_s)
        return math.fsum(min(end_s, until_s) - max(start_s, from_s) for one, start_s, end_s in spans if one is mode)

    def frost(self, instant_s: float) -> float:
        """The first instant not before this one at which the floor is frozen; infinite when it never is."""
        index = bisect_right(self._frozen, instant_s, key=itemgetter(1))
        return max(self._frozen[index][0], instant_s) if index < len(self._frozen) else math.inf

    def _spans(self, from_s: float, until_s: float) -> Iterable[tuple[Mode, float, float]]:
        """The pieces that reach into a span, where any maturity is lost."""
        ends_s, modes = self._ends_s, self._modes
        first, last = bisect_right(ends_s, from_s) - 1, bisect_left(ends_s, until_s)
        return zip(modes[first:last], ends_s[first:last], ends_s[first + 1 : last + 1], strict=True)


def _cut(course: LoggedCourse, curve: TimeCurve, bounds: Bounds) -> _Cut:
    """The pieces of a log, for all columns at once."""
    key = ("cut", id(curve), bounds)
    known = course.tables.get(key)
    if not isinstance(known, _Cut) or known.curve is not curve:
        known = course.tables[key] = _cut_anew(course, curve, bounds)
    return known


def _cut_anew(course: LoggedCourse, curve: TimeCurve, bounds: Bounds) -> _Cut:
    instants, readings = np.array(course.instants_s), np.array(course.temperatures_k)
    slopes = np.diff(readings) / np.diff(instants)
    low_k, high_k = course.span_k
    levels_k = {level_k for level_k in bounds.levels_k(curve) if low_k < level_k < high_k}
    ends = _ends(instants, readings, slopes, levels_k)
    starts, lengths = ends[:-1], np.diff(ends)
    place = np.searchsorted(instants, starts + lengths / 2, "right") - 1
    begins_k, slope = readings[place] + slopes[place] * (starts - instants[place]), slopes[place]
    modes = _modes([readings[:1], begins_k + slope * lengths / 2, readings[-1:]], bounds)
    if modes is not None:
        inner = modes[1:-1]
        capped = np.array([mode is Mode.CAPPED for mode in inner], dtype=bool)
        begins_k, slope = np.where(capped, bounds.high_k or 0.0, begins_k), np.where(capped, 0.0, slope)
        lost = np.array([mode in (Mode.FROZEN, Mode.STOPPED) for mode in inner], dtype=bool)
        rates = _rates(curve, begins_k, slope * lengths, np.where(lost, 0.0, lengths))
    else:
        rates = _rates(curve, begins_k, slope * lengths, lengths)
    return _Cut(curve, ends.tolist(), modes, rates)


def _ends(instants: Floats, readings: Floats, slopes: Floats, levels_k: set[float]) -> Floats:
    """The readings' instants, and those at which a level is crossed between two of them."""
    lower, upper = np.minimum(readings[:-1], readings[1:]), np.maximum(readings[:-1], readings[1:])
    found = [instants]
    for level_k in levels_k:
        at = np.flatnonzero((lower < level_k) & (level_k < upper))
        found.append(instants[at] + (level_k - readings[at]) / slopes[at])
    ends: Floats = np.sort(np.concatenate(found))
    apart: Floats = ends[np.append(True, ends[1:] != ends[:-1])]
    return apart


def _modes(typical_k: list[Floats], bounds: Bounds) -> list[Mode] | None:
    """How maturity accrues on each piece, as ``Bounds.mode`` says of one temperature; None where unhindered on all."""
    all_k = np.concatenate(typical_k)
    least_k = max(FREEZING_K, bounds.low_k or FREEZING_K)
    if all_k.min() >= least_k and (bounds.high_k is None or all_k.max() <= bounds.high_k):
        return None
    return [bounds.mode(temperature_k) for temperature_k in all_k.tolist()]


def _rates(curve: TimeCurve, begins_k: Floats, rises_k: Floats, lengths_s: Floats) -> _Rates | None:
    """What the maturity of each piece comes from; None where some piece is too steep for the nodes."""
    lines = np.searchsorted(curve.temperatures_k, begins_k + rises_k / 2, "right")
    bends = np.abs(1 / begins_k - 1 / (begins_k + rises_k))
    steepest = max(m for column in COLUMNS for _, m in curve.lines[column])
    if steepest * bends.max(initial=0.0) > MOST_BEND and _too_steep(curve, lines, bends):
        return None
    return _Rates(curve, lines, 1 / (begins_k[:, None] + rises_k[:, None] * _NODES), lengths_s)


def _too_steep(curve: TimeCurve, lines: Places, bends: Floats) -> bool:
    return any((_along(curve, column, lines)[1] * bends > MOST_BEND).any() for column in COLUMNS)
