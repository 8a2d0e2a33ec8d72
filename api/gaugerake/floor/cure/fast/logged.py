"""Maturity along a log of readings, as a table: what has accrued at the start of each of its pieces.

A log is linear between its readings. Cut where it crosses a row of the maker's table or a limit, each piece has one
line of ln t, and eight Gauss-Legendre nodes give nine digits of its maturity. Many pieces are computed at once, as far
as somebody asks; the maturity gained between two instants is then a difference, whatever lies between them.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from itertools import pairwise
from operator import itemgetter
from typing import Any, NamedTuple

import numpy as np

from gaugerake.floor.cure.accrual import FASTEST, MOST_BEND, NODES_8, Bounds, Mode, Segment
from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.cure.curve import COLUMNS, Column, TimeCurve

Floats = np.ndarray[Any, np.dtype[np.float64]]
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
    """Of each piece of a log the line, the temperature at its start, the rise over it, and its length."""

    __slots__ = ("_begins_k", "_curve", "_inverses", "_lengths_s", "_lines", "_rises_k", "count")

    def __init__(self, curve: TimeCurve, lines: Places, begins_k: Floats, rises_k: Floats, lengths_s: Floats) -> None:
        self._curve, self._lines, self._lengths_s = curve, lines, lengths_s
        self._begins_k, self._rises_k, self.count = begins_k, rises_k, len(lines)
        self._inverses: dict[int, Floats] = {}

    def gained(self, column: Column, first: int) -> Floats:
        """The maturity of each piece of the block that begins with this one, on one column."""
        # the last piece is not left to a block of its own: a product of one row is summed in another order
        last = first + _BLOCK if first + _BLOCK < self.count - 1 else self.count
        here = slice(first, last)
        lines = np.array(self._curve.lines[column])[self._lines[here]]
        rates = np.exp(np.minimum(-lines[:, :1] - lines[:, 1:] * self._inverse(here), FASTEST))
        found: Floats = (rates @ _WEIGHTS) * self._lengths_s[here]
        return found

    def _inverse(self, here: slice) -> Floats:
        """The inverse of the temperatures at the nodes of some pieces: all columns ask for it."""
        known = self._inverses.get(here.start)
        if known is None:
            known = 1 / (self._begins_k[here, None] + self._rises_k[here, None] * _NODES)
            self._inverses[here.start] = known
        return known


class _Cut(NamedTuple):
    """A log in pieces, the first and the last without end: how maturity accrues on each, and how much of it by column.

    ``modes`` is None where it accrues unhindered all along; ``rates``, which knows nothing of the first and the last,
    where ln t changes by more on one of the others than the nodes can hold.
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

    def __init__(self, course: LoggedCourse, column: Column, bounds: Bounds, cut: _Cut, rates: _Rates) -> None:
        self._course, self._column, self._limits, self._curve = course, column, bounds, cut.curve
        self._bounds_s, self._modes, self._rates = cut.bounds_s, cut.modes or [], rates
        self._ends_s = [-math.inf, *cut.bounds_s, math.inf] if self._modes else []
        spans = zip(self._modes, pairwise(self._ends_s), strict=True)
        self._frozen = [span for mode, span in spans if mode is Mode.FROZEN]
        self._maturities = [0.0]  # at the start of each piece, as far as anybody has asked
        self._pieces: dict[int, Segment] = {}
        self._held: dict[int, float] = {}
        self.lossy = cut.modes is not None

    def _more(self) -> bool:
        """Work the next pieces; False where there are none."""
        first = len(self._maturities) - 1
        if first == self._rates.count:
            return False
        gained = self._rates.gained(self._column, first)
        gained[0] += self._maturities[-1]
        self._maturities += np.cumsum(gained).tolist()
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
        while len(self._maturities) <= index and self._more():
            pass
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
    log, (low_k, high_k) = _Readings.of(course), course.span_k
    ends = _ends(log, {level_k for level_k in bounds.levels_k(curve) if low_k < level_k < high_k})
    starts, lengths = ends[:-1], ends[1:] - ends[:-1]
    place = log.instants_s.searchsorted(starts + lengths / 2, "right") - 1
    slope = log.slopes[place]
    begins_k, rises_k = log.temperatures_k[place] + slope * (starts - log.instants_s[place]), slope * lengths
    if bounds.hinder(low_k, high_k):
        typical_k = [course.temperatures_k[0], *(begins_k + rises_k / 2).tolist(), course.temperatures_k[-1]]
        modes = [bounds.mode(temperature_k) for temperature_k in typical_k]
        capped = np.array([mode is Mode.CAPPED for mode in modes[1:-1]], dtype=bool)
        begins_k, rises_k = np.where(capped, bounds.high_k or 0.0, begins_k), np.where(capped, 0.0, rises_k)
        lost = np.array([mode in (Mode.FROZEN, Mode.STOPPED) for mode in modes[1:-1]], dtype=bool)
        rates = _rates(curve, course.span_k, begins_k, rises_k, np.where(lost, 0.0, lengths))
        return _Cut(curve, ends.tolist(), modes, rates)
    return _Cut(curve, ends.tolist(), None, _rates(curve, course.span_k, begins_k, rises_k, lengths))


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
