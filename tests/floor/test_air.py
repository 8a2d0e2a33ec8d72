"""The dew point over its whole range, and the spans in which a floor is too near it."""

import math
from datetime import UTC, datetime
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.cure.course import Course, SteadyCourse, daily_course, logged_course
from gaugerake.floor.slab.air import dew_point, spread
from gaugerake.floor.slab.condensation import condensation_spans
from gaugerake.floor.values.local_time import zone_named

HOUR_S = 3600.0
temperatures = st.floats(233.15, 353.15)
humidities = st.floats(1.0, 100.0)


@given(temperatures, humidities)
@settings(max_examples=100)
def test_air_is_never_colder_than_its_dew_point(temperature_k: float, humidity: float) -> None:
    assert dew_point(temperature_k=temperature_k, humidity_percent=humidity) <= temperature_k + 1e-9


@given(temperatures)
@settings(max_examples=50)
def test_saturated_air_is_at_its_dew_point(temperature_k: float) -> None:
    assert dew_point(temperature_k=temperature_k, humidity_percent=100.0) == pytest.approx(temperature_k, abs=0.01)


@given(temperatures, humidities, humidities)
@settings(max_examples=50)
def test_damper_air_has_the_higher_dew_point(temperature_k: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    below = dew_point(temperature_k=temperature_k, humidity_percent=low)
    above = dew_point(temperature_k=temperature_k, humidity_percent=high)
    # psychrolib stops within 0.001 K
    assert below <= above + 0.002


def test_a_floor_under_the_dew_point_has_a_negative_spread() -> None:
    assert spread(floor_temperature_k=280.0, dew_point_k=282.5) == -2.5


def spans(course: Course, *, level_c: float, hours: float) -> list[tuple[float, float, float]]:
    """Spans in hours from midnight UTC, with a dew point 3 K under ``level_c``."""
    start_s = datetime(2027, 3, 5, tzinfo=UTC).timestamp()
    found = condensation_spans(
        course=course,
        dew_point_k=level_c + 273.15 - 3.0,
        spread_k=3.0,
        from_s=start_s,
        until_s=start_s + hours * HOUR_S,
    )
    return [((one.from_s - start_s) / HOUR_S, (one.until_s - start_s) / HOUR_S, one.least_spread_k) for one in found]


def daily(low_c: float, high_c: float) -> Course:
    zone = zone_named("UTC")
    return daily_course(low_k=low_c + 273.15, high_k=high_c + 273.15, coldest_at_s=5 * HOUR_S, zone=zone)


def test_a_daily_wave_is_too_near_round_its_coldest_hour() -> None:
    """10 ± 4 °C is at 8 °C where cos = 1/2: four hours either side of the coldest, 05:00."""
    assert spans(daily(6, 14), level_c=8, hours=48) == [
        (pytest.approx(1.0), pytest.approx(9.0), pytest.approx(1.0)),
        (pytest.approx(25.0), pytest.approx(33.0), pytest.approx(1.0)),
    ]


def test_a_wave_that_only_touches_the_limit_is_far_enough() -> None:
    assert spans(daily(8, 14), level_c=8, hours=48) == []


def test_a_floor_too_near_throughout_is_one_span() -> None:
    assert spans(daily(2, 6), level_c=8, hours=48) == [(0.0, 48.0, pytest.approx(-3.0))]
    assert spans(SteadyCourse(temperature_k=280.15), level_c=8, hours=5) == [(0.0, 5.0, pytest.approx(2.0))]
    assert spans(SteadyCourse(temperature_k=281.15), level_c=8, hours=5) == []


def test_a_log_is_cut_where_its_lines_cross() -> None:
    """12 °C falling to 4 °C over eight hours and back crosses 8 °C half way, each time."""
    start_s = datetime(2027, 3, 5, tzinfo=UTC).timestamp()
    readings = [(start_s, 285.15), (start_s + 8 * HOUR_S, 277.15), (start_s + 16 * HOUR_S, 285.15)]
    assert spans(logged_course(readings), level_c=8, hours=24) == [
        (pytest.approx(4.0), pytest.approx(12.0), pytest.approx(-1.0))
    ]


@given(st.floats(0, 12), st.floats(0.5, 12), st.floats(0, 20), st.floats(1, 60))
@settings(max_examples=40)
def test_spans_are_what_sampling_finds(low_c: float, rise: float, level_c: float, hours: float) -> None:
    course, start_s = daily(low_c, low_c + rise), datetime(2027, 3, 5, tzinfo=UTC).timestamp()
    found = spans(course, level_c=level_c, hours=hours)
    for (_, until, _), (begins, _, _) in pairwise(found):
        assert until < begins
    for sample in range(1, 100):
        hour = hours * sample / 100
        apart = course.at(start_s + hour * HOUR_S) - (level_c + 273.15)
        if abs(apart) > 1e-3:
            assert any(begins <= hour <= until for begins, until, _ in found) is (apart < 0)


def test_the_lowest_and_the_highest_are_those_between_the_instants() -> None:
    start_s = datetime(2027, 3, 5, tzinfo=UTC).timestamp()
    low, high = daily(6, 14).reached_k(start_s + 9 * HOUR_S, start_s + 12 * HOUR_S)
    assert low - 273.15 == pytest.approx(10 - 4 * math.cos(math.pi / 3))
    assert high - 273.15 == pytest.approx(10 - 4 * math.cos(2 * math.pi * 7 / 24))
