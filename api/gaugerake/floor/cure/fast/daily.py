"""A day of a daily wave as a table: what accrues in it by phase, so that whole days are counted and not walked."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from gaugerake.floor.cure.accrual import TYPICAL, Bounds, Mode, Segment
from gaugerake.floor.cure.course import Course, DailyCourse
from gaugerake.floor.cure.curve import COLUMNS, Column, Line, TimeCurve
from gaugerake.floor.cure.fast.series import Arc, Series
from gaugerake.floor.values.local_time import DAY_S

MOST_TABLES = 500
"""A course forgets all of its tables when it holds more."""


class WaveDay:
    """A day of a daily wave from its coldest hour on: its pieces, and what has accrued at the start of each.

    ``lossy`` tells whether any maturity is lost in it: stopped, capped or frozen; ``freezes`` whether it is frozen.
    """

    def __init__(
        self, curve: TimeCurve, column: Column, course: DailyCourse, bounds: Bounds, longest_piece_s: float
    ) -> None:
        self.curve = curve  # held, so that the table is never taken for that of another curve at the same address
        self.starts_s: list[float] = []
        self.pieces: list[Segment | Arc] = []
        self._fill(column, course, bounds, longest_piece_s)
        self.maturities = [0.0, *accumulate([piece.gained for piece in self.pieces])]
        self.lossy = any(piece.mode is not Mode.ACCRUING for piece in self.pieces)
        self.freezes = any(piece.mode is Mode.FROZEN for piece in self.pieces)
        self.spent: dict[Mode, list[float]] = {}
        if self.lossy:
            self.spent = {mode: self._spent(mode) for mode in (Mode.STOPPED, Mode.CAPPED)}

    def _fill(self, column: Column, course: DailyCourse, bounds: Bounds, longest_piece_s: float) -> None:
        curve, lines = self.curve, _lines(self.curve, course)
        longest_s = longest_piece_s if lines.series is None else math.inf
        for start_s, end_s, typical_k in _spans(course, bounds.levels_k(curve), longest_s):
            self.starts_s.append(start_s)
            along = lines.along(column, typical_k)
            if along is not None and bounds.mode(typical_k) is Mode.ACCRUING:
                self.pieces.append(Arc(along, start_s, end_s))
            else:
                self.pieces.append(Segment(curve, column, bounds, course.by_phase(start_s), end_s - start_s))

    def _spent(self, mode: Mode) -> list[float]:
        lengths_s = (piece.length_s if piece.mode is mode else 0.0 for piece in self.pieces)
        return [0.0, *accumulate(lengths_s)]

    @classmethod
    def of(
        cls, course: DailyCourse, *, curve: TimeCurve, column: Column, bounds: Bounds, longest_piece_s: float
    ) -> WaveDay:
        """The day of a course for a table, made once."""
        key = (id(curve), column, bounds, longest_piece_s)
        known = course.tables.get(key)
        if not isinstance(known, WaveDay) or known.curve is not curve:
            if len(course.tables) > MOST_TABLES:  # other catalogues' among them
                course.tables.clear()
            known = course.tables[key] = cls(curve, column, course, bounds, longest_piece_s)
        return known

    def maturity(self, phase_s: float) -> float:
        """The maturity gained since the coldest hour of the first day."""
        days, within_s = divmod(phase_s, DAY_S)
        index = bisect_right(self.starts_s, within_s) - 1
        return (
            days * self.maturities[-1] + self.maturities[index] + self.pieces[index].by(within_s - self.starts_s[index])
        )

    def phase(self, maturity: float) -> float:
        """When that maturity is gained, the inverse; infinite when no day gains any."""
        if self.maturities[-1] <= 0:
            return math.inf
        days, within = divmod(maturity, self.maturities[-1])
        index = min(bisect_left(self.maturities, within), len(self.pieces))
        if index == 0:  # at the very start of a day: the end of what accrued the day before
            days, within, index = days - 1, self.maturities[-1], bisect_left(self.maturities, self.maturities[-1])
        piece = self.pieces[index - 1]
        return days * DAY_S + self.starts_s[index - 1] + piece.until(within - self.maturities[index - 1])

    def spent_in(self, mode: Mode, from_phase_s: float, until_phase_s: float) -> float:
        """How long maturity accrues in one way between two phases [s]."""
        spent = self.spent.get(mode)
        if spent is None or spent[-1] == 0.0:
            return 0.0
        return self._spent_until(mode, spent, until_phase_s) - self._spent_until(mode, spent, from_phase_s)

    def _spent_until(self, mode: Mode, spent: list[float], phase_s: float) -> float:
        days, within_s = divmod(phase_s, DAY_S)
        index = bisect_right(self.starts_s, within_s) - 1
        part_s = within_s - self.starts_s[index] if self.pieces[index].mode is mode else 0.0
        return days * spent[-1] + spent[index] + part_s

    def frost(self, phase_s: float) -> float:
        """The first phase not before this one at which the floor is frozen; infinite when it never is."""
        if not self.freezes:
            return math.inf
        days, within_s = divmod(phase_s, DAY_S)
        for lap in (0.0, DAY_S):
            for start_s, piece in zip(self.starts_s, self.pieces, strict=True):
                if piece.mode is Mode.FROZEN and start_s + piece.length_s + lap > within_s:
                    return days * DAY_S + max(start_s + lap, within_s)
        return math.inf


def _spans(course: DailyCourse, levels_k: list[float], longest_s: float) -> list[tuple[float, float, float]]:
    """The pieces of a day and a temperature within each, made once for all curves that bend where this does.

    Where every piece has its series, they are as long as the same levels hold.
    """
    crossed_k = tuple(sorted({level_k for level_k in levels_k if course.low_k < level_k < course.high_k}))
    key = ("spans", crossed_k, longest_s)
    known = course.tables.get(key)
    if known is None:
        phases = pairwise(course.crossings(crossed_k)) if longest_s == math.inf else course.phases(crossed_k, longest_s)
        known = [(from_s, until_s, course.by_phase(from_s)(TYPICAL * (until_s - from_s))) for from_s, until_s in phases]
        course.tables[key] = known
    return known  # type: ignore[return-value]


class _Lines(NamedTuple):
    """The series of the lines of a curve that a wave touches, from the coldest on, by column."""

    curve: TimeCurve
    first: int
    series: dict[Column, list[Series]] | None
    """None where some line is too steep for one."""

    def along(self, column: Column, temperature_k: float) -> Series | None:
        """The series of the line at a temperature of the wave; floats may put its warmest hour past its last line."""
        if self.series is None:
            return None
        found = self.series[column]
        index = bisect_right(self.curve.temperatures_k, temperature_k) - self.first
        return found[min(max(index, 0), len(found) - 1)]


def prepare(*, course: Course, curves: Iterable[TimeCurve]) -> None:
    """Work out the lines of some curves along a daily wave at once, which takes little longer than those of one.

    Parameters
    ----------
    course : Course
        The floor's temperature; there is nothing to do for one that is no wave.
    curves : iterable of TimeCurve
        The tables that will be asked along it. One that is left out is worked out when it is asked.

    Returns
    -------
    None
        What is worked out stands among the tables of the course.

    Notes
    -----
    What comes of a curve is to the last digit what comes of it alone.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import daily_course
    >>> from gaugerake.floor.cure.curve import time_curve, time_point
    >>> from gaugerake.floor.values.local_time import zone_named
    >>> course = daily_course(low_k=285.0, high_k=295.0, coldest_at_s=0.0, zone=zone_named("UTC"))
    >>> prepare(course=course, curves=[time_curve([time_point(temperature_k=293.15, likely_s=3600.0)])])
    >>> len(course.tables)
    1
    """
    if isinstance(course, DailyCourse):
        unknown = [curve for curve in curves if _known_lines(curve, course) is None]
        if unknown:
            _work_out(unknown, course)


def _lines(curve: TimeCurve, course: DailyCourse) -> _Lines:
    """The series of a curve's lines, worked once."""
    known = _known_lines(curve, course)
    if known is None:
        [known] = _work_out([curve], course)
    return known


def _known_lines(curve: TimeCurve, course: DailyCourse) -> _Lines | None:
    known = course.tables.get(("lines", id(curve)))
    return known if isinstance(known, _Lines) and known.curve is curve else None


def _work_out(curves: Sequence[TimeCurve], course: DailyCourse) -> list[_Lines]:
    """The series of the lines of curves, those of all columns together, put among the tables of the course."""
    touched = [_touched(curve, course) for curve in curves]
    series = Series.on([[line for lines in by_column for line in lines] for _, by_column in touched], course)
    worked = list[_Lines]()
    for curve, (first, by_column), found in zip(curves, touched, series, strict=True):
        count = len(by_column[0])
        parts = None if found is None else [found[at * count : (at + 1) * count] for at in range(len(COLUMNS))]
        lines = _Lines(curve, first, None if parts is None else dict(zip(COLUMNS, parts, strict=True)))
        course.tables["lines", id(curve)] = lines
        worked.append(lines)
    return worked


def _touched(curve: TimeCurve, course: DailyCourse) -> tuple[int, list[tuple[Line, ...]]]:
    """The lines that a wave touches, by column, and which of the curve's is the first of them."""
    rows_k = curve.temperatures_k
    first = bisect_right(rows_k, course.low_k)
    count = max(bisect_left(rows_k, course.high_k) - first, 0) + 1
    return first, [curve.lines[column][first : first + count] for column in COLUMNS]
