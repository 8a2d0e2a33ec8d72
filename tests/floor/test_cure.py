"""Curves through a maker's table, and the age that accrues on them."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from gaugerake.floor.cure.accrual import Bounds
from gaugerake.floor.cure.course import LONGEST_PIECE_S, DailyCourse, LoggedCourse, SteadyCourse, logged_course
from gaugerake.floor.cure.curve import (
    ASSUMED_ENERGY_J_MOL,
    COLUMNS,
    GAS_CONSTANT_J_MOL_K,
    TimeCurve,
    time_at,
    time_curve,
    time_point,
)
from gaugerake.floor.cure.maturity import NEVER_S, Milestone, _piecewise, milestone
from gaugerake.floor.values.errors import DoubledTemperature, FasterWhenColder, NoTimeStated, OutOfRange
from gaugerake.floor.values.local_time import zone_named

HOUR = 3600.0
CHICAGO = zone_named("America/Chicago")
TABLE = time_curve(
    [
        time_point(temperature_k=283.15, low_s=18 * HOUR, likely_s=20 * HOUR, high_s=26 * HOUR),
        time_point(temperature_k=293.15, low_s=9 * HOUR, likely_s=10 * HOUR, high_s=12 * HOUR),
        time_point(temperature_k=303.15, low_s=5 * HOUR, likely_s=6 * HOUR, high_s=7 * HOUR),
    ]
)


@st.composite
def tables(draw: st.DrawFn) -> TimeCurve:
    """Tables whose times fall with rising temperature, as all makers' do."""
    temperatures = draw(st.lists(st.integers(275, 320), min_size=1, max_size=5, unique=True))
    times = sorted((draw(st.floats(600, 400_000)) for _ in temperatures), reverse=True)
    spread = draw(st.floats(1, 2))
    rows = zip(sorted(temperatures), times, strict=True)
    return time_curve(
        time_point(temperature_k=float(k), low_s=s / spread, likely_s=s, high_s=s * spread) for k, s in rows
    )


def test_a_missing_likely_time_is_the_geometric_mean() -> None:
    assert time_point(temperature_k=294.0, low_s=4 * HOUR, high_s=9 * HOUR).likely_s == 6 * HOUR


@pytest.mark.parametrize("given_s", [{"low_s": 5.0}, {"likely_s": 5.0}, {"high_s": 5.0}])
def test_one_time_alone_fills_all_three(given_s: dict[str, float]) -> None:
    point = time_point(temperature_k=294.0, **given_s)
    assert (point.low_s, point.likely_s, point.high_s) == (5.0, 5.0, 5.0)


def test_a_missing_low_or_high_time_is_the_likely_one() -> None:
    assert time_point(temperature_k=294.0, likely_s=5.0, high_s=9.0).low_s == 5.0
    assert time_point(temperature_k=294.0, low_s=2.0, likely_s=5.0).high_s == 5.0


@pytest.mark.parametrize(
    "times", [{"low_s": 9.0, "high_s": 4.0}, {"low_s": 5.0, "likely_s": 4.0}, {"likely_s": -1.0}, {"high_s": 0.0}]
)
def test_times_out_of_order_or_not_above_zero_are_refused(times: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        time_point(temperature_k=294.0, **times)


def test_a_row_without_a_time_and_a_table_without_a_row_are_refused() -> None:
    with pytest.raises(NoTimeStated):
        time_point(temperature_k=294.0)
    with pytest.raises(NoTimeStated):
        time_curve([])


def test_two_rows_at_one_temperature_are_refused() -> None:
    row = time_point(temperature_k=294.0, likely_s=5.0)
    with pytest.raises(DoubledTemperature):
        time_curve([row, row])


@pytest.mark.parametrize("column", COLUMNS)
def test_a_column_that_is_faster_when_colder_is_refused_by_name(column: str) -> None:
    colder = {"low_s": 100.0, "likely_s": 200.0, "high_s": 300.0}
    warmer = dict(colder) | {f"{column}_s": colder[f"{column}_s"] + 1}
    with pytest.raises(FasterWhenColder) as refused:
        time_curve([time_point(temperature_k=290.0, **warmer), time_point(temperature_k=280.0, **colder)])
    assert (refused.value.column, refused.value.colder_k) == (column, 280.0)


@given(tables())
@settings(max_examples=60, deadline=None)
def test_a_curve_passes_through_every_row_of_its_table(curve: TimeCurve) -> None:
    for point in curve.points:
        for column in COLUMNS:
            stated = getattr(point, f"{column}_s")
            assert math.isclose(time_at(curve, temperature_k=point.temperature_k, column=column), stated, rel_tol=1e-9)


@given(tables(), st.floats(233, 353), st.floats(0, 40))
@settings(max_examples=100, deadline=None)
def test_warmer_is_never_slower_and_columns_never_cross(curve: TimeCurve, colder_k: float, more_k: float) -> None:
    for column in COLUMNS:
        cold = time_at(curve, temperature_k=colder_k, column=column)
        assert time_at(curve, temperature_k=colder_k + more_k, column=column) <= cold * (1 + 1e-9)
    low, likely, high = (time_at(curve, temperature_k=colder_k, column=column) for column in COLUMNS)
    assert low <= likely * (1 + 1e-9)
    assert likely <= high * (1 + 1e-9)


def test_one_row_goes_on_with_the_assumed_energy() -> None:
    curve = time_curve([time_point(temperature_k=293.15, likely_s=HOUR)])
    expected = HOUR * math.exp(ASSUMED_ENERGY_J_MOL / GAS_CONSTANT_J_MOL_K * (1 / 280 - 1 / 293.15))
    assert curve.energy_assumed
    assert math.isclose(time_at(curve, temperature_k=280.0), expected, rel_tol=1e-12)


def test_beyond_both_ends_the_least_squares_energy_of_the_likely_column_holds() -> None:
    inverse = [1 / point.temperature_k for point in TABLE.points]
    logs = [math.log(point.likely_s) for point in TABLE.points]
    n = len(inverse)
    slope = (n * sum(x * y for x, y in zip(inverse, logs, strict=True)) - sum(inverse) * sum(logs)) / (
        n * sum(x * x for x in inverse) - sum(inverse) ** 2
    )
    for column in COLUMNS:
        for end, beyond in ((283.15, 273.15), (303.15, 323.15)):
            ratio = time_at(TABLE, temperature_k=beyond, column=column) / time_at(
                TABLE, temperature_k=end, column=column
            )
            assert math.isclose(ratio, math.exp(slope * (1 / beyond - 1 / end)), rel_tol=1e-9)


def test_a_table_that_is_absurdly_steep_overflows_nowhere() -> None:
    curve = time_curve(
        [time_point(temperature_k=293.15, likely_s=10 * HOUR), time_point(temperature_k=293.16, likely_s=60.0)]
    )
    for temperature in (233.0, 293.155, 353.0):
        course = SteadyCourse(temperature_k=temperature)
        milestone(curve=curve, column="likely", course=course, from_s=0.0)
        assert time_at(curve, temperature_k=temperature) > 0


@given(st.floats(285, 293.2), st.floats(0.001, 20), st.floats(0, 86_400), st.floats(1e-4, 0.1))
@settings(max_examples=60, deadline=None)
def test_a_table_that_is_absurdly_steep_ends_somewhere_on_a_changing_floor(
    low_k: float, height_k: float, since_s: float, step_k: float
) -> None:
    rows = [
        time_point(temperature_k=293.15, likely_s=10 * HOUR),
        time_point(temperature_k=293.15 + step_k, likely_s=60.0),
    ]
    wave = DailyCourse(low_k=low_k, high_k=low_k + height_k, coldest_at_s=0.0, zone=CHICAGO)
    log = logged_course([(1.8e9 + index * 7 * HOUR, low_k + height_k * (index % 2)) for index in range(40)])
    for course in (wave, log):
        found = milestone(curve=time_curve(rows), column="likely", course=course, from_s=1.8e9 + since_s)
        assert found.at_s is None or found.at_s >= 1.8e9 + since_s


# Age


@pytest.mark.parametrize("kelvin", [278.15, 283.15, 288.0, 293.15, 310.0])
@pytest.mark.parametrize("column", COLUMNS)
def test_on_a_steady_floor_the_milestone_is_the_table_time(kelvin: float, column: str) -> None:
    course = SteadyCourse(temperature_k=kelvin)
    found = milestone(curve=TABLE, column=column, course=course, from_s=1.8e9)
    assert found.at_s is not None
    assert math.isclose(found.at_s - 1.8e9, time_at(TABLE, temperature_k=kelvin, column=column), rel_tol=1e-9)


def euler(course: SteadyCourse | DailyCourse | LoggedCourse, from_s: float, *, step_s: float, low_k: float) -> float:
    """The milestone of the likely column by the midpoint rule, written out."""
    age, at_s = 0.0, from_s
    while age < 1:
        kelvin = course.at(at_s + step_s / 2)
        if kelvin >= low_k:
            age += step_s / time_at(TABLE, temperature_k=min(kelvin, 300.0))
        at_s += step_s
    return at_s - (age - 1) * time_at(TABLE, temperature_k=min(course.at(at_s), 300.0))


COURSES = [
    DailyCourse(low_k=280.0, high_k=290.0, coldest_at_s=5 * HOUR, zone=CHICAGO),
    DailyCourse(low_k=278.0, high_k=306.0, coldest_at_s=3 * HOUR, zone=CHICAGO),
    logged_course([(1.8e9 + hour * HOUR, 284.0 + 9 * math.sin(hour)) for hour in range(0, 60, 2)]),
    logged_course([(1.8e9 - 5 * HOUR, 300.0), (1.8e9 + 3 * HOUR, 281.0), (1.8e9 + 4 * HOUR, 304.0)]),
]


@pytest.mark.parametrize("course", COURSES)
@pytest.mark.parametrize("low_k", [0.0, 283.5])
def test_a_changing_floor_agrees_with_small_steps(course: DailyCourse | LoggedCourse, low_k: float) -> None:
    found = milestone(curve=TABLE, column="likely", course=course, from_s=1.8e9, low_k=low_k, high_k=300.0)
    assert found.at_s is not None
    # the steps straddle a limit by up to one step a crossing, so they are the coarser of the two
    assert found.at_s == pytest.approx(euler(course, 1.8e9, step_s=5.0, low_k=low_k), abs=20)


@pytest.mark.parametrize("course", COURSES)
def test_halving_the_step_changes_nothing_in_the_sixth_digit(course: DailyCourse | LoggedCourse) -> None:
    spans = []
    for hours in (6, 3, 1.5, 0.1):
        found = milestone(
            curve=TABLE, column="high", course=course, from_s=1.8e9, low_k=281.0, longest_piece_s=hours * HOUR
        )
        assert found.at_s is not None
        spans.append(found.at_s - 1.8e9)
    for wide, narrow in pairwise(spans):
        assert math.isclose(wide, narrow, rel_tol=1e-8)


@given(
    st.lists(st.floats(274.0, 315.0), min_size=2, max_size=8),
    st.integers(0, 6),
    st.floats(0.01, 0.99),
    st.sampled_from(COLUMNS),
)
@settings(max_examples=80, deadline=None)
def test_splitting_an_interval_of_temperature_changes_nothing(
    kelvins: list[float], interval: int, share: float, column: str
) -> None:
    rows = [(1.8e9 + index * 4 * HOUR, kelvin) for index, kelvin in enumerate(kelvins)]
    interval %= len(rows) - 1
    (a_s, a_k), (b_s, b_k) = rows[interval], rows[interval + 1]
    between = (a_s + share * (b_s - a_s), a_k + share * (b_k - a_k))
    split = [*rows[: interval + 1], between, *rows[interval + 1 :]]
    whole, parted = (
        milestone(curve=TABLE, column=column, course=logged_course(log), from_s=1.8e9, low_k=280.0, high_k=305.0)
        for log in (rows, split)
    )
    assert (whole.at_s is None) == (parted.at_s is None)
    if whole.at_s is not None:
        assert whole.at_s == pytest.approx(parted.at_s, abs=0.01)


@given(st.floats(274.0, 300.0), st.floats(0, 20), st.floats(0, 15), st.integers(0, 23))
@settings(max_examples=60, deadline=None)
def test_a_warmer_day_is_never_later(low_k: float, height_k: float, more_k: float, hour: int) -> None:
    assume(low_k + height_k + more_k < 330)
    course = DailyCourse(low_k=low_k, high_k=low_k + height_k + 0.01, coldest_at_s=5 * HOUR, zone=CHICAGO)
    from_s = 1.8e9 + hour * HOUR
    cold, warm = (
        milestone(curve=TABLE, column="likely", course=one, from_s=from_s, low_k=278.0)
        for one in (course, course.warmer_by(more_k))
    )
    if cold.at_s is not None:
        assert warm.at_s is not None
        assert warm.at_s <= cold.at_s + 0.01


def test_below_the_low_limit_no_age_accrues_and_the_hours_are_counted() -> None:
    log = logged_course(
        [(0.0, 293.15), (5 * HOUR, 293.15), (5 * HOUR + 1, 279.0), (15 * HOUR, 279.0), (15 * HOUR + 1, 293.15)]
    )
    found = milestone(curve=TABLE, column="likely", course=log, from_s=0.0, low_k=283.15)
    assert found.at_s == pytest.approx(20 * HOUR, abs=2)
    assert found.stopped_s == pytest.approx(10 * HOUR, abs=2)


def test_at_the_low_limit_itself_age_accrues() -> None:
    found = milestone(curve=TABLE, column="likely", course=SteadyCourse(temperature_k=283.15), from_s=0.0, low_k=283.15)
    assert found.at_s == pytest.approx(20 * HOUR)


def test_above_the_high_limit_age_accrues_as_at_it() -> None:
    found = milestone(curve=TABLE, column="likely", course=SteadyCourse(temperature_k=320.0), from_s=0.0, high_k=303.15)
    assert found.at_s == pytest.approx(6 * HOUR)
    assert found.capped_s == pytest.approx(6 * HOUR)


def test_frost_before_the_milestone_ruins_the_layer() -> None:
    log = logged_course([(0.0, 293.15), (9 * HOUR, 293.15), (10 * HOUR, 263.15)])
    found = milestone(curve=TABLE, column="likely", course=log, from_s=0.0)
    assert found.at_s is None
    assert found.frozen_s == pytest.approx(9 * HOUR + HOUR * 20 / 30, abs=1)


def test_frost_after_the_milestone_does_not_matter() -> None:
    log = logged_course([(0.0, 293.15), (11 * HOUR, 293.15), (12 * HOUR, 263.15)])
    assert milestone(curve=TABLE, column="likely", course=log, from_s=0.0).at_s == pytest.approx(10 * HOUR)


def test_freezing_point_itself_is_not_frost() -> None:
    found = milestone(curve=TABLE, column="likely", course=SteadyCourse(temperature_k=273.15), from_s=0.0)
    assert found.frozen_s is None
    assert found.at_s is not None


def test_a_floor_below_the_limit_for_ever_is_never_cured_in_bounded_time() -> None:
    course = DailyCourse(low_k=275.0, high_k=282.0, coldest_at_s=0.0, zone=CHICAGO)
    found = milestone(curve=TABLE, column="likely", course=course, from_s=0.0, low_k=283.15)
    assert found.at_s is None
    assert found.stopped_s == pytest.approx(NEVER_S)


def test_the_daily_wave_jumps_by_an_hour_when_the_clocks_do() -> None:
    """The daily wave is on the wall clock, so it jumps with it."""
    spring = 1_772_946_000.0  # 2026-03-08T05:00:00Z, the night of the change in Chicago
    course = DailyCourse(low_k=280.0, high_k=290.0, coldest_at_s=5 * HOUR, zone=CHICAGO)
    [change] = CHICAGO.changes_s(spring - 86_400, spring + 86_400)
    assert course.at(change) - course.at(change - 1) == pytest.approx(
        -(5 * math.cos(2 * math.pi * (3 - 5) / 24) - 5 * math.cos(2 * math.pi * (2 - 5) / 24)), abs=1e-3
    )


@given(
    st.floats(262.0, 300.0),
    st.floats(0.1, 30),
    st.floats(0, 24),
    st.integers(0, 8760),
    st.sampled_from([None, 278.0, 284.0]),
    st.sampled_from([None, 290.0, 299.0]),
    st.sampled_from([TABLE, time_curve([time_point(temperature_k=288.0, likely_s=200 * HOUR)])]),
)
@settings(max_examples=150, deadline=None)
def test_whole_days_at_once_are_the_same_as_piece_by_piece(
    low_k: float,
    height_k: float,
    coldest_at: float,
    hour: int,
    floor: float | None,
    roof: float | None,
    curve: TimeCurve,
) -> None:
    """Over changes of the clocks, limits and frost alike; the walk by pieces is what a log is integrated by."""
    course = DailyCourse(low_k=low_k, high_k=low_k + height_k, coldest_at_s=coldest_at * HOUR, zone=CHICAGO)
    span = (1.8e9 + hour * HOUR, 1.8e9 + hour * HOUR + 40 * 24 * HOUR)
    fast = milestone(
        curve=curve, column="likely", course=course, from_s=span[0], until_s=span[1], low_k=floor, high_k=roof
    )
    slow = _piecewise(curve, "likely", course, span, Bounds(low_k=floor, high_k=roof), LONGEST_PIECE_S)
    assert moments(fast) == [None if moment is None else pytest.approx(moment, abs=0.01) for moment in moments(slow)]


def moments(found: Milestone) -> list[float | None]:
    return [found.at_s, found.frozen_s, found.stopped_s, found.capped_s]
