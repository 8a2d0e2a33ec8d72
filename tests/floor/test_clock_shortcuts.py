"""What the clock spares itself changes neither an answer nor the steps that it counts."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.floor.clock_work import DAY_SHIFT, HOUR, NIGHT_SHIFT, at, shifts

from gaugerake.floor.clock import schedule
from gaugerake.floor.clock.schedule import Site
from gaugerake.floor.clock.shifts import RoundTheClock
from gaugerake.floor.cure.course import LoggedCourse, logged_course
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
    if schedule._comes_near(course, from_s, from_s + lasts_h * HOUR, limits_k):
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
    for comes_near in (schedule._comes_near, lambda *_span: True):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(schedule, "_comes_near", comes_near)
            site = Site(hours=hours, course=course, until_s=MONDAY + 400 * HOUR)
            placed = site.place(MONDAY + from_h * HOUR, [part * HOUR for part in parts_h], limits_k)
            found.append((placed, site.budget.spent))
    assert found[0] == found[1]
