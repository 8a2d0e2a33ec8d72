"""Maturity along a log of readings, as a table: what has accrued at the start of each of its pieces.

A log is linear between its readings. Cut where it crosses a row of the maker's table or a limit, each piece has one
line of ln t, and eight Gauss-Legendre nodes give nine digits of its maturity. Many pieces are computed at once, as far
as somebody asks; the maturity gained between two instants is then a difference, whatever lies between them.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from typing import Any, NamedTuple

import numpy as np

from gaugerake.floor.cure.accrual import FASTEST, MOST_BEND, NODES_8, Bounds, Mode, Segment
from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.cure.curve import COLUMNS, Column, TimeCurve
from gaugerake.floor.cure.fast.hindered import Floats, Hindered

Places = np.ndarray[Any, np.dtype[np.intp]]
_NODES = np.array([node for node, _ in NODES_8])
_WEIGHTS = np.array([weight for _, weight in NODES_8])
_BLOCK = 128  # pieces worked at once: most layers have cured long before a log of weeks ends


class _Readings:
    """A log as arrays, made once for all curves: its readings, and the rise in a second after each but the last."""

    __slots__ = ("instants_s", "lower_k", "slopes", "temperatures_k", "upper_k")

    def __init__(self, course: LoggedCourse) -> None:
        self.instants_s, self.temperatures_k = np.array(course.instants_s), np.array(course.temperatures_k)
        before, after = self.temperatures_k[:-1], self.temperatures_k[1:]
        self.slopes = (after - before) / (self.instants_s[1:] - self.instants_s[:-1])
        self.lower_k, self.upper_k = np.minimum(before, after), np.maximum(before, after)

    @classmethod
    def of(cls, course: LoggedCourse) -> _Readings:
        known = course.tables.get(cls)
        if not isinstance(known, cls):
            known = course.tables[cls] = cls(course)
        return known


class _Rates:
    """The pieces of a log as arrays: each one's line, temperature at its start, rise in temperature, and length."""

    __slots__ = ("_begins_k", "_curve", "_inverses", "_lengths_s", "_lines", "_rises_k", "count")

    def __init__(self, curve: TimeCurve, lines: Places, begins_k: Floats, rises_k: Floats, lengths_s: Floats) -> None:
        self._curve, self._lines, self._lengths_s = curve, lines, lengths_s
        self._begins_k, self._rises_k, self.count = begins_k, rises_k, len(lines)
        self._inverses: dict[tuple[int, int], Floats] = {}

    def gained(self, column: Column, first: int, until: int) -> Floats:
        """The maturity of each piece of the blocks from one piece until another, at least of one, on one column."""
        last = first + max(math.ceil((until - first) / _BLOCK), 1) * _BLOCK
        # the last piece is not left to a block of its own: a product of one row is summed in another order
        here = slice(first, last if last < self.count - 1 else self.count)
        lines = np.array(self._curve.lines[column])[self._lines[here]]
        rates = np.exp(np.minimum(-lines[:, :1] - lines[:, 1:] * self._inverse(here), FASTEST))
        found: Floats = (rates @ _WEIGHTS) * self._lengths_s[here]
        return found

    def _inverse(self, here: slice) -> Floats:
        """The inverse of the temperatures at the nodes of some pieces: all columns ask for it."""
        key = here.start, here.stop
        known = self._inverses.get(key)
        if known is None:
            known = 1 / (self._begins_k[here, None] + self._rises_k[here, None] * _NODES)
            self._inverses[key] = known
        return known


class _Cut(NamedTuple):
    """A log in pieces, the first and the last without end: how maturity accrues on each, and at which rate.

    ``hindered`` is None where maturity accrues by the table all along. ``rates`` are those of the pieces between the
    first and the last, None where ln t changes by more over one of these than the nodes can integrate.
    """

    curve: TimeCurve  # held, so that the pieces are never taken for those of another curve at the same address
    bounds_s: list[float]
    hindered: Hindered | None
    rates: _Rates | None


class LoggedMaturity:
    """The maturity by instant along a log, on one column of a table and within limits.

    Before the first reading and after the last, maturity accrues at one rate. ``lossy`` tells whether any may be lost:
    stopped, capped or frozen.
    """

    def __init__(self, course: LoggedCourse, column: Column, bounds: Bounds, cut: _Cut, rates: _Rates) -> None:
        self._course, self._column, self._limits, self._curve = course, column, bounds, cut.curve
        self._bounds_s, self._hindered, self._rates = cut.bounds_s, cut.hindered, rates
        self._maturities = [0.0]  # at the start of each piece, as far as anybody has asked
        self._pieces: dict[int, Segment] = {}
        self._held: dict[int, float] = {}
        self.lossy = cut.hindered is not None

    def _more(self, until: int = 0) -> bool:
        """Work the next pieces, until one at least; False where there are none."""
        first = len(self._maturities) - 1
        if first == self._rates.count:
            return False
        gained = self._rates.gained(self._column, first, until)
        gained[0] += self._maturities[-1]
        self._maturities += gained.cumsum().tolist()
        return True

    def _rate(self, end: int) -> float:
        """The maturity of a second at the first reading (0) or the last (-1)."""
        known = self._held.get(end)
        if known is None:
            held_k = self._course.temperatures_k[end]
            known = Segment(self._curve, self._column, self._limits, lambda _since_s: held_k, 1.0).gained
            self._held[end] = known
        return known

    @classmethod
    def of(cls, course: LoggedCourse, *, curve: TimeCurve, column: Column, bounds: Bounds) -> LoggedMaturity | None:
        """The table of a log, made once; None where it is too steep for one."""
        key = (id(curve), column, bounds)
        known = course.tables.get(key)
        if isinstance(known, tuple) and known[0] is curve:
            return known[1]  # type: ignore[no-any-return]
        cut = _cut(course, curve, bounds)
        log = None if cut.rates is None else cls(course, column, bounds, cut, cut.rates)
        course.tables[key] = curve, log
        return log

    def maturity(self, instant_s: float) -> float:
        """The maturity gained since the first reading, less than nothing before it."""
        first_s, last_s = self._bounds_s[0], self._bounds_s[-1]
        if instant_s <= first_s:
            return (instant_s - first_s) * self._rate(0) if instant_s < first_s else 0.0
        index = bisect_right(self._bounds_s, instant_s) - 1
        if len(self._maturities) <= index:
            self._more(index)
        if instant_s >= last_s:
            return self._maturities[-1] + (instant_s - last_s) * self._rate(-1)
        return self._maturities[index] + self._piece(index).by(instant_s - self._bounds_s[index])

    def instant(self, maturity: float) -> float:
        """When that maturity is gained, the inverse [s]; infinite when it never is."""
        first_s, last_s = self._bounds_s[0], self._bounds_s[-1]
        if maturity <= 0:
            rate = self._rate(0)
            return first_s + maturity / rate if rate > 0 else first_s
        while self._maturities[-1] < maturity:
            if not self._more():
                rate = self._rate(-1)
                return last_s + (maturity - self._maturities[-1]) / rate if rate > 0 else math.inf
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
        return 0.0 if self._hindered is None else self._hindered.spent_in(mode, from_s, until_s)

    def frost(self, instant_s: float) -> float:
        """The first instant not before this one at which the floor is frozen; infinite when it never is."""
        return math.inf if self._hindered is None else self._hindered.frost(instant_s)


def _cut(course: LoggedCourse, curve: TimeCurve, bounds: Bounds) -> _Cut:
    """The pieces of a log, for all columns at once."""
    key = ("cut", id(curve), bounds)
    known = course.tables.get(key)
    if not isinstance(known, _Cut) or known.curve is not curve:
        known = course.tables[key] = _cut_anew(course, curve, bounds)
    return known


def _cut_anew(course: LoggedCourse, curve: TimeCurve, bounds: Bounds) -> _Cut:
    log, (low_k, high_k) = _Readings.of(course), course.span_k
    ends = _ends(log, {level_k for level_k in bounds.levels_k(curve) if low_k < level_k < high_k})
    starts, lengths = ends[:-1], ends[1:] - ends[:-1]
    place = log.instants_s.searchsorted(starts + lengths / 2, "right") - 1
    slope = log.slopes[place]
    begins_k, rises_k = log.temperatures_k[place] + slope * (starts - log.instants_s[place]), slope * lengths
    hindered = None
    if bounds.hinder(low_k, high_k):
        held_k = log.temperatures_k
        hindered = Hindered(bounds, np.concatenate((held_k[:1], begins_k + rises_k / 2, held_k[-1:])), ends)
        capped, lost = hindered.among(Mode.CAPPED), hindered.among(Mode.FROZEN, Mode.STOPPED)
        begins_k, rises_k = np.where(capped, bounds.high_k or 0.0, begins_k), np.where(capped, 0.0, rises_k)
        lengths = np.where(lost, 0.0, lengths)
    return _Cut(curve, ends.tolist(), hindered, _rates(curve, course.span_k, begins_k, rises_k, lengths))


def _ends(log: _Readings, levels_k: set[float]) -> Floats:
    """The readings' instants, and those at which a level is crossed between two of them."""
    found = [log.instants_s]
    for level_k in levels_k:
        at = ((log.lower_k < level_k) & (level_k < log.upper_k)).nonzero()[0]
        found.append(log.instants_s[at] + (level_k - log.temperatures_k[at]) / log.slopes[at])
    ends = np.concatenate(found)
    ends.sort()
    apart = ends[1:] != ends[:-1]
    return ends if apart.all() else ends[np.append(True, apart)]


def _rates(
    curve: TimeCurve, span_k: tuple[float, float], begins_k: Floats, rises_k: Floats, lengths_s: Floats
) -> _Rates | None:
    """What the maturity of each piece comes from; None where some piece is too steep for the nodes."""
    lines = np.array(curve.temperatures_k).searchsorted(begins_k + rises_k / 2, "right")
    steepest = max(m for column in COLUMNS for _, m in curve.lines[column])
    if steepest * (1 / span_k[0] - 1 / span_k[1]) > MOST_BEND and _too_steep(curve, lines, begins_k, rises_k):
        return None
    return _Rates(curve, lines, begins_k, rises_k, lengths_s)


def _too_steep(curve: TimeCurve, lines: Places, begins_k: Floats, rises_k: Floats) -> bool:
    bends = np.abs(1 / begins_k - 1 / (begins_k + rises_k))
    return any((np.array(curve.lines[column])[lines, 1] * bends > MOST_BEND).any() for column in COLUMNS)
