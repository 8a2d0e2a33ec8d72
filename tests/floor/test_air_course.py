"""The air over time: its dew point between readings, and the spans in which a floor is too near it."""

import math
from datetime import UTC, datetime

import numpy as np
import psychrolib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.cure.course import Course, SteadyCourse, daily_course, logged_course
from gaugerake.floor.slab.air import dew_point
from gaugerake.floor.slab.air_course import AirCourse, AirState, air_course
from gaugerake.floor.slab.condensation import condensation_spans
from gaugerake.floor.slab.damp_spans import damp_spans
from gaugerake.floor.values.errors import OutOfOrder
from gaugerake.floor.values.local_time import zone_named

HOUR_S = 3600.0
START_S = datetime(2027, 3, 13, 12, tzinfo=UTC).timestamp()
DAY_S = 24 * HOUR_S
rows = st.lists(st.tuples(st.floats(275, 300), st.floats(20, 100)), min_size=1, max_size=6)


def hourly(*states: tuple[float, float], every_h: float = 6.0) -> AirCourse:
    return air_course((START_S + index * every_h * HOUR_S, *state) for index, state in enumerate(states))


def test_air_of_20_degrees_and_65_percent_condenses_at_13_227() -> None:
    """13.2272 °C by psychrolib 2.5.0 and CoolProp, whose agreement test_air holds."""
    celsius = psychrolib.GetTDewPointFromRelHum(20.0, 0.65)
    course = hourly((291.15, 60.0), (295.15, 70.0), every_h=2.0)  # 20 °C and 65 % half-way
    assert celsius == pytest.approx(13.2272, abs=5e-4)
    assert dew_point(**course.at(START_S + HOUR_S)._asdict()) == pytest.approx(273.15 + celsius, abs=1e-6)


def test_both_are_straight_between_readings_and_held_at_the_ends() -> None:
    course = hourly((280.0, 40.0), (290.0, 60.0))
    assert course.at(START_S - DAY_S) == AirState(280.0, 40.0)
    assert course.at(START_S + 1.5 * HOUR_S) == AirState(282.5, 45.0)
    assert course.at(START_S + DAY_S) == AirState(290.0, 60.0)


def test_readings_out_of_order_are_refused() -> None:
    with pytest.raises(OutOfOrder) as refused:
        air_course([(0.0, 280.0, 50.0), (10.0, 280.0, 50.0), (10.0, 281.0, 50.0)])
    assert refused.value.index == 2


def floors() -> dict[str, Course]:
    zone = zone_named("America/Chicago")  # its clocks go forward within the day that is looked at
    return {
        "steady": SteadyCourse(temperature_k=288.0),
        "wave": daily_course(low_k=280.0, high_k=292.0, coldest_at_s=5 * HOUR_S, zone=zone),
        "log": logged_course([(START_S, 290.0), (START_S + 9 * HOUR_S, 279.0), (START_S + DAY_S, 291.0)]),
    }


@pytest.mark.parametrize("floor", ["steady", "wave", "log"])
@given(rows, st.floats(1, 6))
@settings(max_examples=25, deadline=None)
def test_spans_are_those_that_a_walk_by_minutes_finds(
    floor: str, states: list[tuple[float, float]], asked: float
) -> None:
    """Each minute is under the spread within a span and not outside, but for dips of less than 0.02 K."""
    course, air = floors()[floor], hourly(*states)
    spans = damp_spans(course=course, air=air, spread_k=asked, from_s=START_S, until_s=START_S + DAY_S)
    for instant in np.arange(START_S, START_S + DAY_S, 11 * 60.0):
        margin = course.at(instant) - dew_point(**air.at(instant)._asdict())
        inside = any(span.from_s <= instant <= span.until_s for span in spans)
        assert inside == (margin < asked) or abs(margin - asked) < 0.02
        if inside:
            least = min(span.least_spread_k for span in spans if span.from_s <= instant <= span.until_s)
            assert least <= margin + 0.05


@given(st.floats(270, 300), st.floats(10, 100), st.floats(1, 6))
@settings(max_examples=25, deadline=None)
def test_air_that_stays_has_the_spans_of_a_constant_dew_point(kelvin: float, humidity: float, asked: float) -> None:
    air, course = hourly((kelvin, humidity), (kelvin, humidity)), floors()["log"]
    dew = dew_point(temperature_k=kelvin, humidity_percent=humidity)
    bounds = {"from_s": START_S, "until_s": START_S + DAY_S}
    changing = damp_spans(course=course, air=air, spread_k=asked, **bounds)
    constant = condensation_spans(course=course, dew_point_k=dew, spread_k=asked, **bounds)
    shallow = [span for span in constant if span.least_spread_k > asked - 0.01]
    if shallow:  # may go unseen
        return
    assert [span.from_s for span in changing] == pytest.approx([span.from_s for span in constant], abs=5)
    assert [span.until_s for span in changing] == pytest.approx([span.until_s for span in constant], abs=5)
    least = [span.least_spread_k for span in constant]
    assert [span.least_spread_k for span in changing] == pytest.approx(least, abs=1e-3)


@given(rows)
@settings(max_examples=50, deadline=None)
def test_no_instant_has_a_dew_point_over_the_highest(states: list[tuple[float, float]]) -> None:
    air = hourly(*states)
    highest = air.highest_dew_point_k()
    for instant in np.linspace(START_S - HOUR_S, START_S + 40 * HOUR_S, 50):
        assert dew_point(**air.at(float(instant))._asdict()) <= highest + 2e-3  # psychrolib stops at 0.001 K


def test_a_dry_night_has_no_span() -> None:
    assert math.isclose(hourly((290.0, 30.0)).highest_dew_point_k(), dew_point(temperature_k=290, humidity_percent=30))
    spans = damp_spans(
        course=SteadyCourse(temperature_k=290.0),
        air=hourly((290.0, 30.0)),
        spread_k=3.0,
        from_s=START_S,
        until_s=START_S + DAY_S,
    )
    assert spans == ()
