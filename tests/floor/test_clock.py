"""The clock, forward and backwards, against a slow one that counts minutes."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from gaugerake.floor.clock.forward import minute_up, run
from gaugerake.floor.clock.latest import in_time, latest_start
from gaugerake.floor.clock.schedule import Stops
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock, Shifts
from gaugerake.floor.clock.timetable import Cause, LayerWork, Plan, Return, Run, StepKind
from gaugerake.floor.cure.course import Course, DailyCourse, SteadyCourse, logged_course
from gaugerake.floor.cure.curve import COLUMNS, Column, TimeCurve, time_curve, time_point
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.local_time import zone_named
from gaugerake.floor.values.range import Limits

HOUR = 3600.0
CHICAGO = zone_named("America/Chicago")
WEEKDAYS = tuple(Weekday)[:5]


def curve(*rows: tuple[float, float]) -> TimeCurve:
    """(°C, likely hours), with a tenth less and a fifth more as low and high."""
    return time_curve(
        time_point(
            temperature_k=at + 273.15, low_s=hours * 0.9 * HOUR, likely_s=hours * HOUR, high_s=hours * 1.2 * HOUR
        )
        for at, hours in rows
    )


BODY = LayerWork(
    layer="body",
    parts_s=(2 * HOUR, 1.5 * HOUR),
    limits_k=Limits(low=278.15, high=303.15),
    cure=curve((10, 20), (20, 10), (30, 6)),
    broadcast="broadcast",
    broadcast_wait=curve((10, 0.25), (20, 0.2), (30, 0.1)),
    clear_s=0.75 * HOUR,
)
FIRST = LayerWork(
    layer="coat-1",
    parts_s=(1.2 * HOUR,),
    limits_k=Limits(low=280.15, high=303.15),
    cure=curve((10, 7), (20, 4)),
    abrade_s=1.2 * HOUR,
)
SECOND = replace(FIRST, layer="coat-2")
PLAN = Plan(
    preparation_s=6 * HOUR,
    layers=(BODY, FIRST, SECOND),
    returns=(
        Return(traffic="foot", after=curve((10, 16), (20, 8))),
        Return(traffic="vehicle", after=curve((10, 130), (20, 70))),
    ),
    returns_from=2,
)
DAY_SHIFT = Shift(days=WEEKDAYS, starts=time(7, 0), ends=time(15, 30))
NIGHT_SHIFT = Shift(days=WEEKDAYS, starts=time(22, 0), ends=time(6, 0))


def shifts(*listed: Shift, closed: tuple[date, ...] = ()) -> Shifts:
    return Shifts(shifts=listed, closed=closed, zone=CHICAGO)


def at(text: str) -> float:
    return datetime.fromisoformat(text).replace(tzinfo=CHICAGO.info).timestamp()


def reads(instant_s: float | None) -> str | None:
    return None if instant_s is None else CHICAGO.datetime_at(instant_s).strftime("%a %d %H:%M")


# A slow clock


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


def wave(low_c: float, high_c: float, coldest_at: float) -> Callable[[float], float]:
    def kelvin(instant_s: float) -> float:
        wall = datetime.fromtimestamp(instant_s, tz=ZoneInfo("America/Chicago"))
        hour = wall.hour + wall.minute / 60 + wall.second / 3600
        mean, height = (low_c + high_c) / 2, (high_c - low_c) / 2
        return 273.15 + mean - height * math.cos(2 * math.pi * (hour - coldest_at) / 24)

    return kelvin


def daily(low_c: float, high_c: float, coldest_at: float = 5.0) -> DailyCourse:
    return DailyCourse(low_k=low_c + 273.15, high_k=high_c + 273.15, coldest_at_s=coldest_at * HOUR, zone=CHICAGO)


LOG = [
    ("2027-03-11T18:00", 285.0),
    ("2027-03-12T09:00", 281.0),
    ("2027-03-13T02:00", 290.0),
    ("2027-03-16T00:00", 283.0),
]
CLOSING = replace(PLAN, layers=(BODY, replace(FIRST, recoat_closes=curve((10, 30), (25, 20))), SECOND))
LONG_GAP = replace(PLAN, layers=(BODY, replace(FIRST, recoat_closes=curve((10, 12), (25, 6))), SECOND))
CASES = {
    "steady, day shifts": (PLAN, (DAY_SHIFT,), (), daily(15, 15.001), wave(15, 15.001, 5), "2027-03-04T06:00"),
    "a cold wave and a weekend": (PLAN, (DAY_SHIFT,), (), daily(4, 14), wave(4, 14, 5), "2027-03-04T06:00"),
    "a hot wave": (PLAN, (DAY_SHIFT,), (), daily(22, 37), wave(22, 37, 5), "2027-07-08T06:00"),
    "over the change of the clocks": (PLAN, (DAY_SHIFT,), (), daily(6, 16), wave(6, 16, 5), "2027-03-12T07:00"),
    "back again in autumn": (PLAN, (DAY_SHIFT,), (), daily(6, 16), wave(6, 16, 5), "2027-11-05T07:00"),
    "nights": (PLAN, (NIGHT_SHIFT,), (), daily(10, 18), wave(10, 18, 5), "2027-03-10T12:00"),
    "a closed day": (
        PLAN,
        (DAY_SHIFT,),
        (date(2027, 3, 8), date(2027, 3, 9)),
        daily(8, 16),
        wave(8, 16, 5),
        "2027-03-05T06:00",
    ),
    "round the clock": (PLAN, None, (), daily(6, 13), wave(6, 13, 5), "2027-03-05T06:00"),
    "a window that closes over the weekend": (
        CLOSING,
        (DAY_SHIFT,),
        (),
        daily(10, 18),
        wave(10, 18, 5),
        "2027-03-03T06:00",
    ),
    "a window that is short": (LONG_GAP, (DAY_SHIFT,), (), daily(10, 18), wave(10, 18, 5), "2027-03-04T06:00"),
}


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


# Steps, by hand

STEADY = SteadyCourse(temperature_k=293.15)


def forward(plan: Plan, start: str, *listed: Shift, course: Course = STEADY, column: Column = "likely") -> Run:
    return run(plan, hours=shifts(*(listed or (DAY_SHIFT,))), course=course, column=column, start_s=at(start))


def table(done: Run) -> list[tuple[str, str | None, str | None, str | None]]:
    return [
        (step.kind.value, step.layer, reads(step.placed.from_s), reads(step.placed.until_s))
        for step in done.steps
        if step.placed is not None
    ]


def test_a_week_of_work_reads_like_a_timetable() -> None:
    """All at 20 °C, a row of each table: body 10 h, coats 4 h, foot 8 h, vehicle 70 h; broadcast 10.8 to 14.4 min."""
    done = forward(PLAN, "2027-03-04T06:00")
    assert table(done) == [
        ("prepare", None, "Thu 04 07:00", "Thu 04 13:00"),
        ("apply", "body", "Fri 05 07:00", "Fri 05 10:30"),
        ("apply", "broadcast", "Fri 05 07:10", "Fri 05 10:44"),
        ("clear", "broadcast", "Mon 08 07:00", "Mon 08 07:45"),
        ("apply", "coat-1", "Mon 08 07:45", "Mon 08 08:57"),
        ("apply", "coat-2", "Mon 08 12:57", "Mon 08 14:09"),
    ]
    assert reads(done.steps[2].cured_s) == "Fri 05 20:44"
    assert reads(done.returns[0].at_s) == "Mon 08 22:09"
    assert reads(done.returns[1].at_s) == "Thu 11 12:09"


def test_each_step_says_what_it_waited_for() -> None:
    done = forward(PLAN, "2027-03-04T06:00")
    assert [(step.cause, step.awaited) for step in done.steps] == [
        (Cause.START, None),
        (Cause.WORK, None),
        (Cause.WORK, "body"),
        (Cause.CURE, "broadcast"),
        (Cause.WORK, "broadcast"),
        (Cause.CURE, "coat-1"),
    ]


def test_a_step_that_does_not_fit_today_waits_for_tomorrow() -> None:
    plan = Plan(preparation_s=0.0, layers=(replace(BODY, clear_s=0.0),), returns=(), returns_from=None)
    assert table(forward(plan, "2027-03-04T12:00"))[0][2] == "Thu 04 12:00"
    assert table(forward(plan, "2027-03-04T12:01"))[0][2] == "Fri 05 07:00"


def test_a_step_begins_only_while_the_floor_is_within_limits() -> None:
    plan = Plan(preparation_s=0.0, layers=(FIRST,), returns=(), returns_from=None)
    course = daily(2, 12)  # 7 °C at 05:00 + acos(0)·24/2π = 11:00
    done = forward(plan, "2027-03-04T06:00", course=course)
    assert table(done)[0][2] == "Thu 04 11:00"


def test_work_longer_than_a_shift_stops_between_rooms_where_it_can() -> None:
    rooms = replace(BODY, parts_s=(5 * HOUR, 4 * HOUR, 3 * HOUR), clear_s=0.0)
    done = forward(Plan(preparation_s=0.0, layers=(rooms,), returns=(), returns_from=None), "2027-03-04T06:00")
    placed = done.steps[0].placed
    assert placed is not None
    assert placed.stops is Stops.BETWEEN_ROOMS
    assert [(reads(a), reads(b)) for a, b in placed.stretches] == [
        ("Thu 04 07:00", "Thu 04 12:00"),
        ("Fri 05 07:00", "Fri 05 11:00"),
        ("Fri 05 11:00", "Fri 05 14:00"),
    ]


def test_a_room_longer_than_a_shift_stops_at_its_end() -> None:
    hall = replace(BODY, parts_s=(20 * HOUR,), clear_s=0.0)
    done = forward(Plan(preparation_s=0.0, layers=(hall,), returns=(), returns_from=None), "2027-03-04T09:00")
    placed = done.steps[0].placed
    assert placed is not None
    assert placed.stops is Stops.AT_SHIFT_END
    assert [(reads(a), reads(b)) for a, b in placed.stretches] == [
        ("Thu 04 09:00", "Thu 04 15:30"),
        ("Fri 05 07:00", "Fri 05 15:30"),
        ("Mon 08 07:00", "Mon 08 12:00"),
    ]


def test_a_recoat_window_counts_from_the_first_foot_to_the_end_of_the_next_layer() -> None:
    """Coat 1 from 07:00 to 08:12, cured 12:12, coat 2 until 13:24: 6.4 h after the first foot was placed."""

    def plan(closes_h: float) -> Plan:
        closes = time_curve([time_point(temperature_k=293.15, likely_s=closes_h * HOUR)])
        layers = (replace(FIRST, recoat_closes=closes), SECOND)
        return Plan(preparation_s=0.0, layers=layers, returns=(), returns_from=None)

    open_still, just_closed = (table(forward(plan(hours), "2027-03-04T07:00")) for hours in (6.4001, 6.3999))
    assert [row[0] for row in open_still] == ["apply", "apply"]
    assert just_closed[1:] == [
        ("abrade", "coat-1", "Thu 04 12:12", "Thu 04 13:24"),
        ("apply", "coat-2", "Thu 04 13:24", "Thu 04 14:36"),
    ]


def test_sealant_takes_no_time_and_is_nothing_to_recoat() -> None:
    closes = time_curve([time_point(temperature_k=293.15, likely_s=6 * HOUR)])
    joint = LayerWork(layer="joint", parts_s=(0.0,), surface=False)
    layers = (replace(FIRST, recoat_closes=closes), joint, SECOND)
    done = forward(Plan(preparation_s=0.0, layers=layers, returns=(), returns_from=None), "2027-03-04T07:00")
    assert [row[0:2] for row in table(done)] == [
        ("apply", "coat-1"),
        ("apply", "joint"),
        ("abrade", "coat-1"),
        ("apply", "coat-2"),
    ]


def test_traffic_waits_for_loose_aggregate_to_be_cleared() -> None:
    plan = Plan(preparation_s=0.0, layers=(BODY,), returns=PLAN.returns, returns_from=0)
    done = forward(plan, "2027-03-05T06:00")
    assert [row[0] for row in table(done)] == ["apply", "apply", "clear"]
    assert reads(done.returns[0].at_s) == "Mon 08 07:45"  # its own age was reached on Friday evening


def test_frost_leaves_everything_after_it_without_an_hour() -> None:
    freezing = logged_course(
        [(at("2027-03-04T12:00"), 288.0), (at("2027-03-05T15:00"), 288.0), (at("2027-03-05T18:00"), 270.0)]
    )
    done = forward(PLAN, "2027-03-04T06:00", course=freezing)
    assert [step.placed is None for step in done.steps] == [False, False, False, True, True, True]
    assert done.steps[1].cured_s is None
    assert [one.at_s for one in done.returns] == [None, None]
    assert not done.complete


def test_frost_in_the_cure_of_the_last_coat_leaves_no_return_even_to_what_came_before() -> None:
    plan = Plan(
        preparation_s=0.0,
        layers=(replace(FIRST, cure=curve((20, 24), (30, 12))),),
        returns=PLAN.returns,
        returns_from=0,
    )
    freezing = logged_course([(at("2027-03-05T01:00"), 293.15), (at("2027-03-05T02:00"), 270.0)])
    assert [one.at_s for one in forward(plan, "2027-03-04T07:00", course=freezing).returns] == [None, None]


def test_a_floor_that_is_never_warm_enough_never_begins() -> None:
    done = forward(PLAN, "2027-03-04T06:00", course=SteadyCourse(temperature_k=277.0))
    assert [step.placed is not None for step in done.steps] == [True, False, False, False, False, False]


def test_a_cure_of_more_than_a_year_never_ends() -> None:
    slow = replace(FIRST, cure=curve((10, 24 * 400), (25, 24 * 380)))
    done = forward(
        Plan(preparation_s=0.0, layers=(slow, SECOND), returns=PLAN.returns, returns_from=1), "2027-03-04T06:00"
    )
    assert done.steps[0].cured_s is None
    assert done.steps[1].placed is None


def test_returns_are_rounded_up_to_the_minute() -> None:
    assert [minute_up(instant_s=s) for s in (120.0, 120.0005, 120.5, 179.999)] == [120.0, 120.0, 180.0, 180.0]


# Properties, each with its conditions: no recoat window, no frost, one list of shifts


@st.composite
def jobs(draw: st.DrawFn) -> tuple[Plan, DailyCourse, tuple[Shift, ...], float]:
    low = draw(st.floats(8, 20))
    course = daily(low, low + draw(st.floats(0.5, 9)), draw(st.integers(0, 23)))
    starts, length = draw(st.integers(0, 23)), draw(st.integers(4, 14))
    days = draw(st.sets(st.sampled_from(list(Weekday)), min_size=1))
    listed = (Shift(days=tuple(days), starts=time(starts), ends=time((starts + length) % 24)),)
    scale = draw(st.floats(0.2, 1))
    layers = tuple(
        replace(work, parts_s=tuple(part * scale for part in work.parts_s), limits_k=Limits(low=278.15))
        for work in PLAN.layers
    )
    plan = replace(PLAN, layers=layers, preparation_s=draw(st.floats(0, 4)) * HOUR)
    return plan, course, listed, at("2027-02-26T00:00") + draw(st.integers(0, 20_000)) * 60.0


def ends(
    plan: Plan, course: Course, listed: tuple[Shift, ...], start_s: float, column: Column = "likely"
) -> list[float]:
    done = run(plan, hours=shifts(*listed), course=course, column=column, start_s=start_s)
    return [math.inf if one.at_s is None else one.at_s for one in done.returns]


def not_later(sooner: list[float], later: list[float]) -> bool:
    return all(a <= b for a, b in zip(sooner, later, strict=True))


@given(jobs(), st.floats(0, 12))
@settings(max_examples=40, deadline=None)
def test_warmer_is_never_later(job: tuple[Plan, DailyCourse, tuple[Shift, ...], float], more_k: float) -> None:
    plan, course, listed, start_s = job
    assert not_later(ends(plan, course.warmer_by(more_k), listed, start_s), ends(plan, course, listed, start_s))


@given(jobs(), st.integers(0, 23), st.integers(1, 3), st.sampled_from(list(Weekday)))
@settings(max_examples=40, deadline=None)
def test_another_shift_is_never_later(
    job: tuple[Plan, DailyCourse, tuple[Shift, ...], float], starts: int, length: int, day: Weekday
) -> None:
    plan, course, listed, start_s = job
    more = (*listed, Shift(days=(day,), starts=time(starts), ends=time((starts + length) % 24)))
    assume(shifts(*more).longest_s == shifts(*listed).longest_s)
    assert not_later(ends(plan, course, more, start_s), ends(plan, course, listed, start_s))


@given(jobs(), st.integers(0, 3000))
@settings(max_examples=40, deadline=None)
def test_a_later_start_is_never_earlier(job: tuple[Plan, DailyCourse, tuple[Shift, ...], float], minutes: int) -> None:
    plan, course, listed, start_s = job
    assert not_later(ends(plan, course, listed, start_s), ends(plan, course, listed, start_s + minutes * 60.0))


@given(jobs())
@settings(max_examples=30, deadline=None)
def test_earliest_likely_and_latest_come_in_that_order(job: tuple[Plan, DailyCourse, tuple[Shift, ...], float]) -> None:
    low, likely, high = (ends(*job, column) for column in COLUMNS)
    assert not_later(low, likely)
    assert not_later(likely, high)


@given(jobs(), st.integers(4, 40), st.sampled_from(["foot", "vehicle"]))
@settings(max_examples=40, deadline=None)
def test_the_latest_start_meets_the_deadline_and_a_minute_later_does_not(
    job: tuple[Plan, DailyCourse, tuple[Shift, ...], float], days: int, traffic: str
) -> None:
    plan, course, listed, start_s = job
    by_s = start_s + days * 86_400.0
    found = latest_start(plan, hours=shifts(*listed), course=course, traffic=traffic, by_s=by_s)
    index = 0 if traffic == "foot" else 1
    if found is None:
        assert ends(plan, course, listed, by_s - 60 * 86_400.0, "high")[index] > by_s
        return
    assert found % 60 == 0
    assert ends(plan, course, listed, found, "high")[index] <= by_s
    assert ends(plan, course, listed, found + 60, "high")[index] > by_s


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("by", ["2027-03-25T05:00", "2027-11-20T05:00"])
def test_the_latest_start_holds_for_windows_and_changes_of_the_clocks_too(name: str, by: str) -> None:
    plan, listed, closed, course, _, _ = CASES[name]
    hours: OpenHours = RoundTheClock() if listed is None else shifts(*listed, closed=closed)
    found = latest_start(plan, hours=hours, course=course, traffic="vehicle", by_s=at(by))
    assert found is not None

    def vehicle(start_s: float) -> float:
        at_s = run(plan, hours=hours, course=course, column="high", start_s=start_s).returns[1].at_s
        return math.inf if at_s is None else at_s

    assert vehicle(found) <= at(by) < vehicle(found + 60)
    if name == "round the clock":
        assert datetime.fromtimestamp(found, tz=UTC).second == 0


@pytest.mark.parametrize("name", [name for name in CASES if "window" in name])
def test_no_later_minute_meets_either_where_windows_close(name: str) -> None:
    """Where a later start can be the better one, tried every seven minutes up to the deadline."""
    plan, listed, closed, course, _, _ = CASES[name]
    hours, by_s = shifts(*listed or (), closed=closed), at("2027-03-25T05:00")
    found = latest_start(plan, hours=hours, course=course, traffic="vehicle", by_s=by_s)
    assert found is not None
    for minutes in range(1, int(by_s - found) // 60, 7):
        late = run(plan, hours=hours, course=course, column="high", start_s=found + minutes * 60, until_s=by_s + 60)
        assert late.returns[1].at_s is None or late.returns[1].at_s > by_s


def test_no_start_within_60_days_is_none() -> None:
    slow = replace(PLAN, returns=(Return(traffic="vehicle", after=curve((10, 24 * 90), (20, 24 * 70))),))
    by_s = at("2027-06-01T00:00")
    assert latest_start(slow, hours=shifts(DAY_SHIFT), course=STEADY, traffic="vehicle", by_s=by_s) is None


def test_a_run_to_a_deadline_stops_there() -> None:
    done = run(
        PLAN,
        hours=shifts(DAY_SHIFT),
        course=STEADY,
        column="likely",
        start_s=at("2027-03-04T06:00"),
        until_s=at("2027-03-06T00:00"),
    )
    assert [step.placed is not None for step in done.steps] == [True, True, True, False, False, False]
    assert {step.kind for step in done.steps if step.placed is None} == {StepKind.CLEAR, StepKind.APPLY}


def test_a_run_that_is_ahead_may_be_overtaken_and_the_deadline_is_held_against_it() -> None:
    """Ahead, the first coat goes down on Friday, and on Monday its window has closed; behind, both wait for Monday."""
    base = LayerWork(layer="base", parts_s=(HOUR,), cure=hours(4, 8))
    first = LayerWork(
        layer="coat-1", parts_s=(2 * HOUR,), cure=hours(4, 4), recoat_closes=hours(24, 24), abrade_s=7 * HOUR
    )
    second = LayerWork(layer="coat-2", parts_s=(2 * HOUR,))
    plan = Plan(
        preparation_s=0.0,
        layers=(base, first, second),
        returns=(Return(traffic="foot", after=hours(1, 1)),),
        returns_from=2,
    )
    open_hours, course = (
        shifts(Shift(days=WEEKDAYS, starts=time(7, 0), ends=time(15, 0))),
        SteadyCourse(temperature_k=293.15),
    )
    friday = at("2027-03-05T07:00")
    back = {
        column: reads(run(plan, hours=open_hours, course=course, column=column, start_s=friday).returns[0].at_s)
        for column in COLUMNS
    }
    assert back == {"low": "Tue 09 10:00", "likely": "Mon 08 16:00", "high": "Mon 08 16:00"}
    by_s = at("2027-03-08T20:00")
    assert not in_time(plan, hours=open_hours, course=course, start_s=friday, by_s=by_s)
    assert in_time(plan, hours=open_hours, course=course, start_s=friday, by_s=at("2027-03-09T10:00"))
    # begun at 14:00, no run has cured before Monday
    last = latest_start(plan, hours=open_hours, course=course, traffic="foot", by_s=by_s)
    assert reads(last) == "Fri 05 14:00"


def hours(low: float, high: float) -> TimeCurve:
    return time_curve([time_point(temperature_k=293.15, low_s=low * HOUR, high_s=high * HOUR)])
