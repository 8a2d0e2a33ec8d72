"""A day of a daily wave as a table: what accrues in it by phase, so that whole days are counted and not walked."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from itertools import accumulate

from gaugerake.floor.accrual import Bounds, Gait, Piece
from gaugerake.floor.course import DailyCourse
from gaugerake.floor.cure import Column, TimeCurve
from gaugerake.floor.local import DAY_S


class Day:
    """A day of a daily wave from its coldest hour on: its pieces, and what has accrued at the start of each."""

    def __init__(
        self, curve: TimeCurve, column: Column, course: DailyCourse, bounds: Bounds, longest_piece_s: float
    ) -> None:
        self.curve = curve  # held, so that the table is never taken for that of another curve at the same address
        self.starts_s: list[float] = []
        self.pieces: list[Piece] = []
        for start_s, end_s in course.phases(bounds.levels_k(curve), longest_piece_s):
            self.starts_s.append(start_s)
            self.pieces.append(Piece(curve, column, bounds, course.by_phase(start_s), end_s - start_s))
        self.ages = [0.0, *accumulate(piece.gained for piece in self.pieces)]
        self.spent = {
            gait: [0.0, *accumulate(piece.length_s if piece.gait is gait else 0.0 for piece in self.pieces)]
            for gait in (Gait.STOPPED, Gait.CAPPED)
        }

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

    def went(self, gait: Gait, phase_s: float) -> float:
        """How long age has accrued in one way since the coldest hour of the first day [s]."""
        days, within_s = divmod(phase_s, DAY_S)
        index = bisect_right(self.starts_s, within_s) - 1
        part_s = within_s - self.starts_s[index] if self.pieces[index].gait is gait else 0.0
        return days * self.spent[gait][-1] + self.spent[gait][index] + part_s

    def frost(self, phase_s: float) -> float:
        """The first phase not before this one at which the floor is frozen; infinite when it never is."""
        days, within_s = divmod(phase_s, DAY_S)
        for lap in (0.0, DAY_S):
            for start_s, piece in zip(self.starts_s, self.pieces, strict=True):
                if piece.gait is Gait.FROZEN and start_s + piece.length_s + lap > within_s:
                    return days * DAY_S + max(start_s + lap, within_s)
        return math.inf
