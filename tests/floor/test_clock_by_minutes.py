"""The clock beside one that counts every minute."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from tests.floor.clock_work import CASES, DAY_SHIFT, PLAN, at, reads, shifts

from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock
from gaugerake.floor.clock.timetable import LayerWork, Plan
from gaugerake.floor.cure.course import logged_course
from gaugerake.floor.cure.curve import COLUMNS, Column, TimeCurve
from gaugerake.floor.job import Shift
from gaugerake.floor.values.range import Limits


@dataclass
class SlowClock:
    """Minute by minute in plain Python: no shared code with the clock that it judges."""

    listed: tuple[Shift, ...] | None
    closed: tuple[date, ...]
    kelvin: Callable[[float], float]
    column: Column

    def open(self, minute_s: float) -> bool:
        """Whether the whole minute is in a shift, by the wall clock."""
        if self.listed is None:
            return True
        wall = datetime.fromtimestamp(minute_s + 30, tz=ZoneInfo("America/Chicago")).replace(tzinfo=None)
        for shift in self.listed:
            for began in (wall.date(), wall.date() - timedelta(days=1)):
                names = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
                if began in self.closed or names[began.weekday()] not in [day.value for day in shift.days]:
                    continue
                opens = datetime.combine(began, shift.starts)
                closes = datetime.combine(began, shift.ends)
                closes += timedelta(days=1) if closes <= opens else timedelta()
                if opens <= wall < closes:
                    return True
        return False

    def takes(self, table: TimeCurve, kelvin: float, column: str) -> float:
        """Interpolated in ln t over 1/T, by its own arithmetic."""
        rows = [(1 / p.temperature_k, math.log(getattr(p, f"{column}_s"))) for p in table.points]
        likely = [(1 / p.temperature_k, math.log(p.likely_s)) for p in table.points]
        n, x = len(rows), 1 / kelvin
        sx, sy = sum(r[0] for r in likely), sum(r[1] for r in likely)
        slope = (n * sum(a * b for a, b in likely) - sx * sy) / (n * sum(a * a for a, _ in likely) - sx * sx)
        if x >= rows[0][0]:
            return math.exp(rows[0][1] + slope * (x - rows[0][0]))
        if x <= rows[-1][0]:
            return math.exp(rows[-1][1] + slope * (x - rows[-1][0]))
        for (x0, y0), (x1, y1) in pairwise(rows):
            if x1 <= x <= x0:
                return math.exp(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
        raise AssertionError

    def cured(self, table: TimeCurve, from_s: float, limits: Limits, column: str) -> float:
        age, minute_s = 0.0, from_s
        while age < 1:
            kelvin = self.kelvin(minute_s + 30)
            if limits.low is None or kelvin >= limits.low:
                capped = kelvin if limits.high is None else min(kelvin, limits.high)
                age += 60 / self.takes(table, capped, column)
            minute_s += 60
        return minute_s

    def place(self, ready_s: float, work_s: float, limits: Limits) -> float:
        begin_s = math.ceil(ready_s / 60) * 60.0
        while True:
            kelvin = self.kelvin(begin_s)
            good = (limits.low is None or kelvin >= limits.low) and (limits.high is None or kelvin <= limits.high)
            if good and all(self.open(begin_s + k * 60) for k in range(math.ceil(work_s / 60))):
                return begin_s
            begin_s += 60

    def go(self, plan: Plan, start_s: float) -> list[float]:
        ready_s, counted_s = start_s, start_s
        under: tuple[LayerWork, float] | None = None
        anything = Limits()
        if plan.preparation_s:
            ready_s = self.place(ready_s, plan.preparation_s, anything) + plan.preparation_s
        for work in plan.layers:
            work_s = sum(work.parts_s)
            begin_s = self.place(ready_s, work_s, work.limits_k)
            if under is not None and under[0].recoat_closes is not None:
                closes_s = self.cured(under[0].recoat_closes, under[1], under[0].limits_k, "low")
                if begin_s + work_s > closes_s:
                    ready_s = self.place(ready_s, under[0].abrade_s, anything) + under[0].abrade_s
                    begin_s = self.place(ready_s, work_s, work.limits_k)
            under, counted_s = (work, begin_s), begin_s + work_s
            if work.broadcast_wait is not None:
                counted_s = self.cured(work.broadcast_wait, counted_s, Limits(high=work.limits_k.high), "high")
            ready_s = counted_s
            if work.cure is not None:
                ready_s = self.cured(work.cure, counted_s, work.limits_k, self.column)
            if work.clear_s:
                ready_s = self.place(ready_s, work.clear_s, anything) + work.clear_s
        last = plan.layers[-1].limits_k
        return [self.cured(one.after, counted_s, last, self.column) for one in plan.returns]


LOG = [
    ("2027-03-11T18:00", 285.0),
    ("2027-03-12T09:00", 281.0),
    ("2027-03-13T02:00", 290.0),
    ("2027-03-16T00:00", 283.0),
]


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("column", COLUMNS)
def test_the_clock_agrees_with_counting_minutes(name: str, column: Column) -> None:
    plan, listed, closed, course, kelvin, start = CASES[name]
    hours: OpenHours = RoundTheClock() if listed is None else shifts(*listed, closed=closed)
    fast = run(plan, hours=hours, course=course, column=column, start_s=at(start))
    slow = SlowClock(listed, closed, kelvin, column).go(plan, at(start))
    for one, expected in zip(fast.returns, slow, strict=True):
        assert one.at_s is not None
        # each of the five cures and waits on the way is cut to whole minutes by the slow one
        assert one.at_s == pytest.approx(expected, abs=8 * 60), (reads(one.at_s), reads(expected))


def test_a_log_agrees_with_counting_minutes() -> None:
    rows = [(at(text), kelvin) for text, kelvin in LOG]

    def kelvin(instant_s: float) -> float:
        if instant_s <= rows[0][0] or instant_s >= rows[-1][0]:
            return rows[0][1] if instant_s <= rows[0][0] else rows[-1][1]
        k = next(k for k in range(len(rows)) if rows[k][0] > instant_s)
        (t0, k0), (t1, k1) = rows[k - 1], rows[k]
        return k0 + (k1 - k0) * (instant_s - t0) / (t1 - t0)

    start_s = at("2027-03-11T07:00")
    fast = run(PLAN, hours=shifts(DAY_SHIFT), course=logged_course(rows), column="likely", start_s=start_s)
    slow = SlowClock((DAY_SHIFT,), (), kelvin, "likely").go(PLAN, start_s)
    assert [one.at_s for one in fast.returns] == [pytest.approx(expected, abs=8 * 60) for expected in slow]
