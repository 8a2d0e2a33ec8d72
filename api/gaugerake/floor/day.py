"""A day of a daily wave as a table: what accrues in it by phase, so that whole days are counted and not walked."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from itertools import accumulate

from gaugerake.floor.accrual import Bounds, Gait, Piece
from gaugerake.floor.arc import Arc, Slice
from gaugerake.floor.course import DailyCourse
from gaugerake.floor.cure import Column, TimeCurve
from gaugerake.floor.local import DAY_S


class Day:
    """A day of a daily wave from its coldest hour on: its pieces, and what has accrued at the start of each.

    ``lossy`` tells whether any age is lost in it: stopped, capped or frozen.
    """

    def __init__(
        self, curve: TimeCurve, column: Column, course: DailyCourse, bounds: Bounds, longest_piece_s: float
    ) -> None:
        self.curve = curve  # held, so that the table is never taken for that of another curve at the same address
        self.pieces: list[Piece | Arc] = []
        self.starts_s: list[float] = []
        self._fill(column, course, bounds, longest_piece_s)
        self.ages = [0.0, *accumulate([piece.gained for piece in self.pieces])]
        self.lossy = any(piece.gait is not Gait.ACCRUING for piece in self.pieces)
        self.spent: dict[Gait, list[float]] = {}
        if self.lossy:
            self.spent = {gait: self._spent(gait) for gait in (Gait.STOPPED, Gait.CAPPED)}

    def _fill(self, column: Column, course: DailyCourse, bounds: Bounds, longest_piece_s: float) -> None:
        """The pieces: what is gained as it warms is gained in the same way, backwards, as it cools."""
        lines, rows_k = self.curve.lines[column], self.curve.temperatures_k
        cooling: list[tuple[float, Piece | Arc]] = []
        for part in _warming(course, bounds.levels_k(self.curve), longest_piece_s):
            line = lines[bisect_right(rows_k, part.typical_k)]
            back_s = DAY_S - part.from_s - part.length_s
            self.starts_s.append(part.from_s)
            if bounds.gait(part.typical_k) is Gait.ACCRUING and part.suits(line):
                gained = part.gained(line)
                self.pieces.append(Arc(course.wave_k, line, part.from_s, part.length_s, gained))
                cooling.append((back_s, Arc(course.wave_k, line, back_s, part.length_s, gained)))
                continue
            for start_s, known in ((part.from_s, None), (back_s, cooling)):
                piece = Piece(self.curve, column, bounds, course.by_phase(start_s), part.length_s)
                self.pieces.append(piece) if known is None else known.append((start_s, piece))
        self.starts_s += [start_s for start_s, _ in reversed(cooling)]
        self.pieces += [piece for _, piece in reversed(cooling)]

    def _spent(self, gait: Gait) -> list[float]:
        lengths_s = (piece.length_s if piece.gait is gait else 0.0 for piece in self.pieces)
        return [0.0, *accumulate(lengths_s)]

    @classmethod
    def of(
        cls, course: DailyCourse, *, curve: TimeCurve, column: Column, bounds: Bounds, longest_piece_s: float
    ) -> Day:
        """The day of a course, made once for each table."""
        key = (id(curve), column, bounds, longest_piece_s)
        known = course.memo.get(key)
        if not isinstance(known, Day) or known.curve is not curve:
            known = course.memo[key] = cls(curve, column, course, bounds, longest_piece_s)
        return known

    def age(self, phase_s: float) -> float:
        """The age gained since the coldest hour of the first day."""
        days, within_s = divmod(phase_s, DAY_S)
        index = bisect_right(self.starts_s, within_s) - 1
        return days * self.ages[-1] + self.ages[index] + self.pieces[index].by(within_s - self.starts_s[index])

    def phase(self, age: float) -> float:
        """When that age is gained, the inverse; infinite when no day gains any."""
        if self.ages[-1] <= 0:
            return math.inf
        days, within = divmod(age, self.ages[-1])
        index = min(bisect_left(self.ages, within), len(self.pieces))
        if index == 0:  # at the very start of a day: the end of what accrued the day before
            days, within, index = days - 1, self.ages[-1], bisect_left(self.ages, self.ages[-1])
        piece = self.pieces[index - 1]
        return days * DAY_S + self.starts_s[index - 1] + piece.until(within - self.ages[index - 1])

    def went(self, gait: Gait, from_phase_s: float, until_phase_s: float) -> float:
        """How long age accrues in one way between two phases [s]."""
        if not self.lossy:
            return 0.0
        return self._went(gait, until_phase_s) - self._went(gait, from_phase_s)

    def _went(self, gait: Gait, phase_s: float) -> float:
        days, within_s = divmod(phase_s, DAY_S)
        index = bisect_right(self.starts_s, within_s) - 1
        part_s = within_s - self.starts_s[index] if self.pieces[index].gait is gait else 0.0
        return days * self.spent[gait][-1] + self.spent[gait][index] + part_s

    def frost(self, phase_s: float) -> float:
        """The first phase not before this one at which the floor is frozen; infinite when it never is."""
        if not self.lossy:
            return math.inf
        days, within_s = divmod(phase_s, DAY_S)
        for lap in (0.0, DAY_S):
            for start_s, piece in zip(self.starts_s, self.pieces, strict=True):
                if piece.gait is Gait.FROZEN and start_s + piece.length_s + lap > within_s:
                    return days * DAY_S + max(start_s + lap, within_s)
        return math.inf


def _warming(course: DailyCourse, levels_k: list[float], longest_s: float) -> list[Slice]:
    """The slices of a day from its coldest to its warmest hour, made once for all curves that bend where this does."""
    crossed_k = tuple(sorted({level_k for level_k in levels_k if course.low_k < level_k < course.high_k}))
    key = ("warming", crossed_k, longest_s)
    known = course.memo.get(key)
    if known is None:
        spans = course.phases(crossed_k, longest_s)
        known = course.memo[key] = [Slice(course, from_s, until_s) for from_s, until_s in spans if until_s <= DAY_S / 2]
    return known  # type: ignore[return-value]
