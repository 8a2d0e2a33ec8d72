"""What makes traffic return sooner, and never later."""

import math
from dataclasses import replace
from datetime import UTC, datetime, time

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.floor.clock_work import CASES, DAY_SHIFT, HOUR, PLAN, STEADY, WEEKDAYS, at, curve, daily, reads, shifts

from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.latest import in_time, latest_start, unabraded
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock
from gaugerake.floor.clock.timetable import LayerWork, Plan, Return, StepKind
from gaugerake.floor.cure.course import Course, DailyCourse, SteadyCourse
from gaugerake.floor.cure.curve import COLUMNS, Column, TimeCurve, time_curve, time_point
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.range import Limits


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


@given(jobs(), st.floats(0, 12), st.floats(4, 40), st.integers(20, 300))
@settings(max_examples=60, deadline=None)
def test_what_is_late_on_a_warm_floor_if_no_window_closed_is_late_on_a_cooler_one(
    job: tuple[Plan, DailyCourse, tuple[Shift, ...], float], more_k: float, window_h: float, by_h: int
) -> None:
    """So a search for remedies need not run the cooler ones, on which windows do close."""
    plan, course, listed, start_s = job
    closes = curve((10, 1.6 * window_h), (20, window_h))
    closing = tuple(replace(work, recoat_closes=closes, abrade_s=HOUR) for work in plan.layers)
    plan = replace(plan, layers=closing, returns=plan.returns[:1])

    def meets(work: Plan, floor: Course) -> bool:
        return in_time(work, hours=shifts(*listed), course=floor, start_s=start_s, by_s=start_s + by_h * HOUR)

    assert meets(unabraded(plan), course.warmer_by(more_k)) or not meets(plan, course)


@given(jobs(), st.floats(4, 40), st.integers(20, 300))
@settings(max_examples=60, deadline=None)
def test_what_is_expected_changes_no_answer(
    job: tuple[Plan, DailyCourse, tuple[Shift, ...], float], window_h: float, by_h: int
) -> None:
    """It changes only which run is tried first."""
    plan, course, listed, start_s = job
    closes = curve((10, 1.6 * window_h), (20, window_h))
    closing = tuple(replace(work, recoat_closes=closes, abrade_s=HOUR) for work in plan.layers)
    plan = replace(plan, layers=closing, returns=plan.returns[:1])
    when = {"hours": shifts(*listed), "course": course, "start_s": start_s, "by_s": start_s + by_h * HOUR}
    assert in_time(plan, **when, expected=True) == in_time(plan, **when, expected=False)


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
