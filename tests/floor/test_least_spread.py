"""The least spread of many stretches of time, found from one table, beside a walk through each of them."""

import random
from datetime import UTC, datetime

import psychrolib
import pytest

from gaugerake.floor.cure.course import Course, SteadyCourse, daily_course, logged_course
from gaugerake.floor.slab.air_course import AirCourse, air_course
from gaugerake.floor.slab.damp_spans import damp_spans, is_damp
from gaugerake.floor.slab.least_spread import least_spreads
from gaugerake.floor.values.local_time import zone_named

HOUR_S = 3600.0
START_S = datetime(2027, 3, 13, 12, tzinfo=UTC).timestamp()
ZERO_K = 273.15


def drawn_air(draw: random.Random) -> AirCourse:
    """Readings some minutes or some hours apart, the last of them before the end of what is looked at."""
    apart_s = draw.choice([0.5 * HOUR_S, HOUR_S, 5 * HOUR_S])
    count = max(2, int(draw.uniform(10, 40) * HOUR_S / apart_s))
    return air_course(
        (START_S + index * apart_s, draw.uniform(278, 300), draw.uniform(20, 100)) for index in range(count)
    )


def drawn_floor(draw: random.Random) -> Course:
    """A floor of any of the three kinds; the clocks of Chicago go forward within the days that are looked at."""
    zone = zone_named("America/Chicago")
    log = [(START_S + index * 3 * HOUR_S, draw.uniform(280, 300)) for index in range(12)]
    kinds = (
        SteadyCourse(temperature_k=draw.uniform(280, 300)),
        daily_course(low_k=283.0, high_k=297.0, coldest_at_s=5 * HOUR_S, zone=zone),
        logged_course(log),
    )
    return draw.choice(kinds)


def walked(course: Course, air: AirCourse, from_s: float, until_s: float) -> float:
    """The least difference at the ends, at every reading and every minute between them, the dew point by psychrolib."""
    minutes = [from_s + index * 60.0 for index in range(int((until_s - from_s) / 60) + 1)]
    half_hours = [START_S + index * 0.5 * HOUR_S for index in range(200)]
    readings = [at_s for at_s in half_hours if from_s < at_s < until_s]
    found = []
    for at_s in (*minutes, *readings, until_s):
        state = air.at(at_s)
        dew = psychrolib.GetTDewPointFromRelHum(state.temperature_k - ZERO_K, state.humidity_percent / 100)
        found.append(course.at(at_s) - ZERO_K - dew)
    return float(min(found))


@pytest.mark.parametrize("seed", range(10))
def test_the_least_of_every_span_is_that_of_a_walk_by_minutes(seed: int) -> None:
    """Between two readings the least may fall between two minutes: what is found is not above, and little under.

    Where it sags by 10 K in half an hour, half a minute off the least adds ½ · 8 · 10 K · (0.5 / 30)² = 0.011 K.
    """
    draw = random.Random(seed)
    course, air = drawn_floor(draw), drawn_air(draw)
    begins = [START_S + draw.uniform(-3, 30) * HOUR_S for _ in range(8)]
    spans = [(from_s, from_s + draw.choice([0.0, 0.1, 2, 9, 30]) * HOUR_S) for from_s in begins]
    for found, span in zip(least_spreads(course=course, air=air, spans=spans), spans, strict=True):
        least = walked(course, air, *span)
        assert least - 0.02 <= found <= least + 0.002


@pytest.mark.parametrize("seed", range(20))
def test_whether_it_is_damp_is_whether_there_is_a_damp_span(seed: int) -> None:
    draw = random.Random(seed)
    course, air, asked_k = drawn_floor(draw), drawn_air(draw), draw.uniform(-8, 6)
    within = {"from_s": START_S, "until_s": START_S + draw.choice([0.5, 6, 40]) * HOUR_S}
    spans = damp_spans(course=course, air=air, spread_k=asked_k, **within)
    assert is_damp(course=course, air=air, spread_k=asked_k, **within) is (spans != ())
