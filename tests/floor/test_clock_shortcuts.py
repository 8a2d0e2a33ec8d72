"""What the clock spares itself changes neither an answer nor the steps that it counts."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.floor.clock_work import DAY_SHIFT, HOUR, NIGHT_SHIFT, at, curve, daily, shifts

from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.runner import Runner
from gaugerake.floor.clock.schedule import Near, Site
from gaugerake.floor.clock.shifts import RoundTheClock
from gaugerake.floor.clock.timetable import LayerWork, Plan, Return, Run, StepKind
from gaugerake.floor.cure.course import LoggedCourse, logged_course
from gaugerake.floor.cure.curve import Column
from gaugerake.floor.cure.maturity import NEVER_S
from gaugerake.floor.job import Shift
from gaugerake.floor.values.range import Limits

MONDAY = at("2027-03-01T07:00")

KELVINS = st.one_of(st.floats(276, 300), st.sampled_from([280.0, 280.0 - 1e-6, 290.0, 290.0 + 1.5e-6]))
LOGS = st.lists(st.tuples(st.floats(0.5, 30), KELVINS), min_size=1, max_size=12)
LIMITS = st.sampled_from([Limits(low=280.0, high=290.0), Limits(low=284.0), Limits(high=285.0), Limits()])


def log_of(gaps: list[tuple[float, float]]) -> LoggedCourse:
    """Readings by the hours since the one before."""
    at_s, readings = MONDAY - 12 * HOUR, []
    for hours, kelvin in gaps:
        at_s += hours * HOUR
        readings.append((at_s, kelvin))
    return logged_course(readings)


@settings(max_examples=150, deadline=None)
@given(gaps=LOGS, limits_k=LIMITS, from_h=st.floats(-20, 120), lasts_h=st.floats(0, 40))
def test_a_log_that_does_not_come_near_its_limits_is_outside_of_them_all_the_time(
    gaps: list[tuple[float, float]], limits_k: Limits, from_h: float, lasts_h: float
) -> None:
    course, from_s = log_of(gaps), MONDAY + from_h * HOUR
    if Near.of(course, limits_k).touches(from_s, from_s + lasts_h * HOUR):
        return
    for part in range(101):
        at_k = course.at(from_s + lasts_h * HOUR * part / 100)
        assert (limits_k.low is not None and at_k < limits_k.low - 1e-6) or (
            limits_k.high is not None and at_k > limits_k.high + 1e-6
        )


@settings(max_examples=150, deadline=None)
@given(
    gaps=LOGS,
    limits_k=LIMITS,
    from_h=st.floats(-20, 120),
    parts_h=st.lists(st.floats(0.2, 12), min_size=1, max_size=3),
    shift=st.sampled_from([DAY_SHIFT, NIGHT_SHIFT, None]),
)
def test_hours_are_found_alike_whether_a_log_is_looked_through_or_not(
    gaps: list[tuple[float, float]], limits_k: Limits, from_h: float, parts_h: list[float], shift: Shift | None
) -> None:
    hours = RoundTheClock() if shift is None else shifts(shift)
    course, found = log_of(gaps), list[Any]()
    for touches in (Near.touches, lambda *_span: True):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(Near, "touches", touches)
            site = Site(hours=hours, course=course, until_s=MONDAY + 400 * HOUR)
            placed = site.place(MONDAY + from_h * HOUR, [part * HOUR for part in parts_h], limits_k)
            found.append((placed, site.budget.spent))
    assert found[0] == found[1]


def runner(column: Column, low_c: float, begins_h: int, shift: Shift) -> Runner:
    start_s = MONDAY + begins_h * HOUR
    course = daily(low_c, low_c + 6)
    return Runner(hours=shifts(shift), course=course, column=column, start_s=start_s, until_s=start_s + NEVER_S)


def coat(layer: str, work_h: float, cure_h: float, window_h: float | None) -> LayerWork:
    closes = None if window_h is None else curve((10, 1.6 * window_h), (20, window_h))
    cure = curve((10, 1.8 * cure_h), (20, cure_h))
    return LayerWork(layer=layer, parts_s=(work_h * HOUR,), cure=cure, recoat_closes=closes, abrade_s=HOUR)


COATS = st.tuples(
    st.sampled_from([0.5, 1.0, 2.25, 4.0, 6.0]),
    st.floats(2, 14),
    st.one_of(st.none(), st.floats(9, 40)),
)
RUNS: dict[str, st.SearchStrategy[Any]] = {
    "coats": st.lists(COATS, min_size=2, max_size=4),
    "cast": st.booleans(),
    "low_c": st.floats(8, 24),
    "begins_h": st.integers(0, 7 * 24),
    "shift": st.sampled_from([DAY_SHIFT, NIGHT_SHIFT]),
    "column": st.sampled_from(["low", "likely", "high"]),
}


def plan_of(coats: list[tuple[float, float, float | None]], cast: bool) -> Plan:
    layers = [coat(f"coat-{index}", *one) for index, one in enumerate(coats)]
    if cast:
        wait = curve((10, 0.4), (20, 0.2))
        layers[1] = replace(layers[1], broadcast="sand", broadcast_wait=wait, clear_s=0.75 * HOUR)
    returns = (Return(traffic="foot", after=curve((10, 20), (20, 12))),)
    return Plan(preparation_s=2 * HOUR, layers=tuple(layers), returns=returns, returns_from=len(layers) - 1)


def by_halving(make: Callable[[], Runner], plan: Plan) -> Run:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Runner, "_about_last_begin", lambda *_of: None)
        return make().run(plan)


def abraded(found: Run) -> set[str | None]:
    return {step.layer for step in found.steps if step.kind is StepKind.ABRADE}


@settings(max_examples=120, deadline=None)
@given(**RUNS)
def test_where_one_window_closes_the_last_begin_is_that_of_halving(
    coats: list[tuple[float, float, float | None]],
    cast: bool,
    low_c: float,
    begins_h: int,
    shift: Shift,
    column: Column,
) -> None:
    """With one window nothing but the layer under it is ever abraded, and there is one last begin."""
    first = next((index for index, one in enumerate(coats[:-1]) if one[2] is not None), 0)
    coats = [one if index == first else (one[0], one[1], None) for index, one in enumerate(coats)]
    plan = plan_of(coats, cast)

    def make() -> Runner:
        return runner(column, low_c, begins_h, shift)

    assert make().run(plan) == by_halving(make, plan)


@settings(max_examples=120, deadline=None)
@given(**RUNS)
def test_where_several_windows_close_no_return_is_later_than_by_halving(
    coats: list[tuple[float, float, float | None]],
    cast: bool,
    low_c: float,
    begins_h: int,
    shift: Shift,
    column: Column,
) -> None:
    plan = plan_of(coats, cast)

    def make() -> Runner:
        return runner(column, low_c, begins_h, shift)

    found, halved = make().run(plan), by_halving(make, plan)
    assert [one.at_s for one in found.returns] == [one.at_s for one in halved.returns]
    assert len(abraded(found)) <= len(abraded(halved))


@settings(max_examples=60, deadline=None)
@given(
    trials=st.lists(
        st.tuples(st.lists(COATS, min_size=2, max_size=3), st.booleans(), st.booleans(), st.sets(st.integers(0, 2))),
        min_size=2,
        max_size=6,
    ),
    low_c=st.floats(8, 24),
    begins_h=st.integers(0, 7 * 24),
)
def test_a_run_after_others_is_the_run_alone_and_counts_as_much(
    trials: list[tuple[list[tuple[float, float, float | None]], bool, bool, set[int]]], low_c: float, begins_h: int
) -> None:
    """Of plans that are gone when the next one comes, so that what is known by id may meet a new plan at the old id."""
    of_all_counted, alone_counted = Budget(), Budget()
    start_s, course = MONDAY + begins_h * HOUR, daily(low_c, low_c + 6)

    def begun(counted: Budget) -> Runner:
        until_s = start_s + NEVER_S
        return Runner(
            hours=shifts(DAY_SHIFT), course=course, column="high", start_s=start_s, until_s=until_s, budget=counted
        )

    of_all = begun(of_all_counted)
    for coats, cast, late, open_ in trials:
        never_closing = frozenset(f"coat-{index}" for index in open_)
        plan = plan_of(coats, cast)
        for windows in (never_closing, frozenset[str]()):
            found = of_all.run(plan, late=late, never_closing=windows)
            assert found == begun(alone_counted).run(plan, late=late, never_closing=windows)
        assert of_all_counted.spent == alone_counted.spent


def test_work_that_is_gone_is_not_taken_for_new_work_at_its_old_address() -> None:
    """Sealant is under nothing, so nobody but the runner holds on to it."""
    of_all = runner("likely", 15.0, 0, DAY_SHIFT)
    for minutes in range(1, 6):
        works = [LayerWork(layer="sealant", parts_s=(minutes * 60.0,), surface=False) for _ in range(50)]
        for sealant in works:
            found = of_all.run(Plan(preparation_s=0.0, layers=(sealant,), returns=(), returns_from=None))
            assert found.steps[0].work_s == minutes * 60.0


def test_returns_that_are_gone_are_not_taken_for_new_ones_at_their_old_address() -> None:
    of_all = runner("likely", 15.0, 0, DAY_SHIFT)
    done = LayerWork(layer="coat", parts_s=(HOUR,))
    for hours in range(1, 30):
        returns = (Return(traffic=f"after {hours} h", after=curve((10, hours), (20, hours))),)
        found = of_all.run(Plan(preparation_s=0.0, layers=(done,), returns=returns, returns_from=0))
        assert [one.traffic for one in found.returns] == [f"after {hours} h"]
