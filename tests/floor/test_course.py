"""The floor's temperature along the instants, and the pieces in which it is smooth."""

import math
from datetime import UTC, datetime
from itertools import islice, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.cure.course import Course, SteadyCourse, daily_course, logged_course, pieces
from gaugerake.floor.values.errors import OutOfOrder, OutOfRange
from gaugerake.floor.values.local_time import zone_named

HOUR = 3600.0
NEW_YORK = zone_named("America/New_York")


def at(text: str) -> float:
    return datetime.fromisoformat(text).replace(tzinfo=UTC).timestamp()


WAVE = daily_course(low_k=280.0, high_k=290.0, coldest_at_s=5 * HOUR, zone=NEW_YORK)


@pytest.mark.parametrize(
    ("instant", "kelvin"),
    [
        ("2026-01-15T10:00", 280.0),  # 05:00 in New York
        ("2026-01-15T16:00", 285.0),
        ("2026-01-15T22:00", 290.0),
        ("2026-07-15T09:00", 280.0),  # 05:00 in summer
        ("2026-01-15T14:00", 285 - 5 * math.cos(2 * math.pi * 4 / 24)),
    ],
)
def test_a_daily_wave_follows_the_wall_clock(instant: str, kelvin: float) -> None:
    assert WAVE.at(at(instant)) == pytest.approx(kelvin, abs=1e-9)


def test_a_wave_without_height_is_steady() -> None:
    assert daily_course(low_k=285.0, high_k=285.0, coldest_at_s=0.0, zone=NEW_YORK) == SteadyCourse(temperature_k=285.0)


def test_a_low_above_the_high_is_refused() -> None:
    with pytest.raises(OutOfRange):
        daily_course(low_k=290.0, high_k=280.0, coldest_at_s=0.0, zone=NEW_YORK)


def test_a_log_is_linear_between_readings_and_held_at_both_ends() -> None:
    log = logged_course([(0.0, 280.0), (2 * HOUR, 290.0)])
    assert [log.at(t) for t in (-9e9, 0.0, HOUR / 2, 2 * HOUR, 9e9)] == [280.0, 280.0, 282.5, 290.0, 290.0]


@pytest.mark.parametrize("times", [(0.0, 0.0), (10.0, 5.0)])
def test_readings_doubled_or_out_of_order_are_refused_by_index(times: tuple[float, float]) -> None:
    with pytest.raises(OutOfOrder) as refused:
        logged_course([(-1.0, 280.0), *((time, 281.0) for time in times)])
    assert refused.value.index == 2


COURSES = [
    WAVE,
    logged_course([(at("2026-03-07T12:00") + index * 1.7 * HOUR, 285 + 6 * math.sin(index)) for index in range(40)]),
    logged_course([(at("2026-03-07T12:00"), 285.0)]),
    SteadyCourse(temperature_k=284.0),
]


@pytest.mark.parametrize("course", COURSES)
@pytest.mark.parametrize("start", ["2026-03-06T00:00", "2026-03-08T06:59", "2026-10-31T13:00"])
def test_pieces_join_up_and_cross_no_level(course: Course, start: str) -> None:
    levels = (281.0, 283.0, 284.0, 289.0)
    found = list(islice(pieces(course, from_s=at(start), levels_k=levels), 60))
    assert found[0][0] == at(start)
    for (_, end_s), (next_s, _) in pairwise(found):
        assert end_s == next_s
    for from_s, until_s in found:
        until_s = min(until_s, from_s + 1e6)
        inside = [course.at(from_s + (until_s - from_s) * share) for share in (0.01, 0.2, 0.4, 0.6, 0.8, 0.99)]
        assert inside == sorted(inside) or inside == sorted(inside, reverse=True)
        for level in levels:
            assert max(inside) <= level + 1e-6 or min(inside) >= level - 1e-6


@given(st.floats(0, 5e6), st.floats(0.05, 6))
@settings(max_examples=50, deadline=None)
def test_no_piece_of_a_wave_is_longer_than_asked(since: float, hours: float) -> None:
    for from_s, until_s in islice(pieces(WAVE, from_s=at("2026-03-01T00:00") + since, longest_s=hours * HOUR), 40):
        assert 0 < until_s - from_s <= hours * HOUR * (1 + 1e-9)


@pytest.mark.parametrize("course", COURSES)
def test_warmer_is_warmer_at_every_hour(course: Course) -> None:
    for hour in range(72):
        instant = at("2026-03-07T00:00") + hour * HOUR
        assert course.warmer_by(2.5).at(instant) == pytest.approx(course.at(instant) + 2.5)


SPRING_S = at("2027-03-14T07:00")  # New York's clocks are set forward (zoneinfo)


@settings(max_examples=200, deadline=None)
@given(
    low_k=st.floats(275.0, 300.0),
    height_k=st.floats(0.1, 15.0),
    coldest_h=st.floats(0.0, 23.9),
    from_s=st.floats(1.7e9, 1.9e9) | st.floats(SPRING_S - 60 * HOUR, SPRING_S + HOUR),
    length_h=st.floats(0.0, 60.0),
)
def test_what_a_wave_reaches_is_at_its_ends_or_bends(
    low_k: float, height_k: float, coldest_h: float, from_s: float, length_h: float
) -> None:
    course = daily_course(low_k=low_k, high_k=low_k + height_k, coldest_at_s=coldest_h * HOUR, zone=NEW_YORK)
    until_s = from_s + length_h * HOUR
    at_k = [course.at(at_s) for at_s in (from_s, until_s, *course.kinks(from_s, until_s, ()))]
    assert course.reached_k(from_s, until_s) == pytest.approx((min(at_k), max(at_k)), abs=1e-6)
