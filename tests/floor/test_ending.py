"""What is said of the end of some work without running the clock is true of every run of it, and of a faster crew's."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.clock import ending
from gaugerake.floor.clock.ending import surely_ends
from gaugerake.floor.clock.runner import Runner
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock, Shifts
from gaugerake.floor.clock.timetable import LayerWork, Plan, Return, Run
from gaugerake.floor.cure.course import Course, SteadyCourse, daily_course
from gaugerake.floor.cure.curve import TimeCurve, time_curve, time_point
from gaugerake.floor.cure.maturity import NEVER_S
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.local_time import DAY_S, zone_named
from gaugerake.floor.values.range import Limits

HOUR = 3600.0
CHICAGO = zone_named("America/Chicago")
MARCH_S = datetime(2027, 3, 1, tzinfo=UTC).timestamp()
FIVE_DAYS, FLOOR_K = tuple(Weekday)[:5], 293.15


def table(hours: float) -> TimeCurve:
    """So many hours at 20 °C, twice as many at 10 °C; a quarter more at the most, a fifth less at the least."""
    rows = [(FLOOR_K - 10, 2 * hours), (FLOOR_K, hours)]
    return time_curve(
        [
            time_point(temperature_k=at_k, low_s=0.8 * h * HOUR, likely_s=h * HOUR, high_s=1.25 * h * HOUR)
            for at_k, h in rows
        ]
    )


def shifts(first: str, last: str, days: Sequence[Weekday] = FIVE_DAYS, closed: Sequence[date] = ()) -> Shifts:
    shift = Shift(days=tuple(days), starts=time.fromisoformat(first), ends=time.fromisoformat(last))
    return Shifts(shifts=[shift], closed=closed, zone=CHICAGO)


CURED = table(10.0)
RETURNS = (Return(traffic="foot", after=CURED),)
BODY = LayerWork(layer="body", parts_s=(3 * HOUR, 2 * HOUR), cure=CURED)
PLAN = Plan(preparation_s=4 * HOUR, layers=(BODY,), returns=RETURNS, returns_from=0)


def run_of(plan: Plan, hours: OpenHours, course: Course, start_s: float, *, late: bool = True) -> Run:
    runner = Runner(hours=hours, course=course, column="likely", start_s=start_s, until_s=start_s + NEVER_S)
    return runner.run(plan, late=late)


def took_s(run: Run) -> float:
    """From the start to the last end of any work or cure."""
    ends_s = [step.placed.until_s for step in run.steps if step.placed is not None]
    return max([*ends_s, *(step.cured_s for step in run.steps if step.cured_s is not None)], default=0.0) - run.start_s


def ends(
    plan: Plan, hours: OpenHours, within_s: float = NEVER_S, span_k: tuple[float, float] = (FLOOR_K, FLOOR_K)
) -> bool:
    return surely_ends(plan=plan, hours=hours, span_k=span_k, column="likely", within_s=within_s)


def at_the_latest(plan: Plan, hours: OpenHours, hour_count: float) -> bool:
    """Whether so many hours are what is said of a plan, to the second."""
    return ends(plan, hours, hour_count * HOUR + 1.0) and not ends(plan, hours, hour_count * HOUR - 1.0)


class TestByHand:
    def test_round_the_clock_it_is_the_work_and_the_cures(self) -> None:
        """4 h of preparing, 5 h of pouring, 10 h of cure: 19 h."""
        assert at_the_latest(PLAN, RoundTheClock(), 19)

    def test_each_piece_of_work_waits_no_longer_than_a_weekend(self) -> None:
        """From Friday 07:00 to Monday 07:00 are 72 h, and each of two pieces may wait so long; the rest takes 19 h.

        Clocks are taken to change up to eight times: three waits for each are 24 waits more.
        """
        hours = shifts("07:00", "15:00")
        assert hours.longest_wait_s == 72 * HOUR
        assert at_the_latest(PLAN, hours, 26 * 72 + 19)

    def test_work_that_no_shift_holds_waits_for_as_many_as_it_takes(self) -> None:
        """Shifts of 2 h: 4 h of preparing take two, the rooms of 3 h and 2 h two and one: five waits, not two."""
        assert at_the_latest(PLAN, shifts("07:00", "09:00"), (5 + 24) * 72 + 19)

    def test_closed_dates_and_recoat_windows_cost_their_share(self) -> None:
        closed = [date(2027, 7, 5), date(2027, 9, 6)]
        assert at_the_latest(PLAN, shifts("07:00", "15:00", closed=closed), 26 * 72 + 19 + 2 * 3 * 72)
        # abraded for an hour at most, and laid late once: twice 3 · 72 h + 20 h
        open_body = replace(BODY, recoat_closes=CURED, abrade_s=HOUR)
        assert at_the_latest(replace(PLAN, layers=(open_body,)), shifts("07:00", "15:00"), 2 * 236 + 24 * 72)

    def test_aggregate_is_waited_for_and_cleared(self) -> None:
        """12 min are likely, a quarter more is the most: 15 min. With 2 h of clearing 19 h become 21¼ h."""
        cast = replace(BODY, broadcast="sand", broadcast_wait=table(0.2), clear_s=2 * HOUR)
        assert at_the_latest(replace(PLAN, layers=(cast,)), RoundTheClock(), 21.25)

    def test_a_cure_is_taken_to_last_as_at_the_coldest_hour(self) -> None:
        """From 10 to 20 °C: 20 h of cure instead of 10, 29 h in all."""
        span_k = FLOOR_K - 10, FLOOR_K
        assert [ends(PLAN, RoundTheClock(), h * HOUR, span_k) for h in (28.99, 29.01)] == [False, True]

    @pytest.mark.parametrize("span_k", [(283.0, 283.0), (303.0, 303.0), (283.0, 293.0), (293.0, 303.0)])
    def test_nothing_is_sure_of_a_layer_that_is_ever_out_of_its_limits(self, span_k: tuple[float, float]) -> None:
        plan = replace(PLAN, layers=(replace(BODY, limits_k=Limits(low=283.15, high=302.15)),))
        assert ends(plan, RoundTheClock(), span_k=(283.15, 302.15))
        assert not ends(plan, RoundTheClock(), span_k=span_k)

    def test_nothing_is_sure_on_a_frozen_floor_or_where_only_closed_dates_part_the_hours(self) -> None:
        assert not ends(PLAN, RoundTheClock(), span_k=(272.0, 293.0))
        assert not ends(PLAN, shifts("00:00", "00:00", tuple(Weekday), [date(2027, 7, 5)]))


class TestWaits:
    @pytest.mark.parametrize(
        ("listed", "wait_h"),
        [
            ([("07:00", "15:30", FIVE_DAYS)], 72.0),  # Friday to Monday
            ([("22:00", "06:00", tuple(Weekday))], 24.0),
            ([("06:00", "18:00", (Weekday.MON,)), ("07:00", "11:00", (Weekday.WED,))], 168.0),  # the short one is none
            ([("06:00", "10:00", tuple(Weekday)), ("14:00", "18:00", tuple(Weekday))], 16.0),  # from 14:00 to 06:00
            ([("20:00", "00:00", (Weekday.SUN,)), ("00:00", "04:00", (Weekday.MON,))], 168.0),  # one, over midnight
        ],
    )
    def test_is_from_one_of_the_longest_stretches_to_the_next(
        self, listed: list[tuple[str, str, tuple[Weekday, ...]]], wait_h: float
    ) -> None:
        rows = [
            Shift(days=days, starts=time.fromisoformat(first), ends=time.fromisoformat(last))
            for first, last, days in listed
        ]
        assert Shifts(shifts=rows, closed=[], zone=CHICAGO).longest_wait_s == wait_h * HOUR


A_SHIFT = st.builds(
    lambda days, first, lasts: Shift(days=tuple(days), starts=time(first), ends=time((first + lasts) % 24)),
    st.lists(st.sampled_from(Weekday), min_size=1, max_size=7, unique=True),
    st.integers(0, 23),
    st.integers(1, 12),
)
CLOSED = st.lists(st.integers(0, 400).map(lambda day: date(2027, 2, 1) + timedelta(days=day)), max_size=12)
SHIFTS = st.lists(A_SHIFT, min_size=1, max_size=3)
HOURS = st.one_of(
    st.just(RoundTheClock()),
    st.builds(lambda rows, closed: Shifts(shifts=rows, closed=closed, zone=CHICAGO), SHIFTS, CLOSED),
)
ORDINARY_HOURS = st.builds(lambda rows: Shifts(shifts=rows, closed=[], zone=zone_named("UTC")), SHIFTS)
A_LAYER = st.builds(
    LayerWork,
    layer=st.uuids().map(str),
    parts_s=st.lists(st.floats(0.0, 20 * HOUR), min_size=1, max_size=4).map(tuple),
    cure=st.one_of(st.none(), st.floats(0.1, 200.0).map(table)),
    recoat_closes=st.one_of(st.none(), st.floats(5.0, 100.0).map(table)),
    abrade_s=st.floats(0.0, 12 * HOUR),
    clear_s=st.sampled_from([0.0, HOUR]),
    broadcast=st.just("sand"),
    broadcast_wait=st.one_of(st.none(), st.floats(0.1, 60.0).map(table)),
)
PLANS = st.builds(
    lambda preparation_s, sawing_s, layers: Plan(
        preparation_s=preparation_s,
        sawing_s=sawing_s,
        layers=tuple(layers),
        returns=RETURNS,
        returns_from=len(layers) - 1,
    ),
    st.floats(0.0, 30 * HOUR),
    st.floats(0.0, 5 * HOUR),
    st.lists(A_LAYER, min_size=1, max_size=5),
)


COURSES = st.one_of(
    st.just(SteadyCourse(temperature_k=FLOOR_K)),
    st.builds(
        lambda low_k, swing_k, hour: daily_course(
            low_k=low_k, high_k=low_k + swing_k, coldest_at_s=hour * HOUR, zone=CHICAGO
        ),
        st.floats(274.0, 300.0),
        st.floats(0.5, 15.0),
        st.integers(0, 23),
    ),
)


def run_ends_in_time(plan: Plan, hours: OpenHours, course: Course, start_s: float, share: float, late: bool) -> None:
    """A millisecond less than a run takes is never enough, and what has no end is never sure to have one."""
    quicker = replace(
        plan, layers=tuple(replace(one, parts_s=tuple(share * part_s for part_s in one.parts_s)) for one in plan.layers)
    )
    for worked in (plan, quicker):
        run = run_of(worked, hours, course, MARCH_S + start_s, late=late)
        assert not ends(plan, hours, took_s(run) - 1e-3 if run.complete else NEVER_S, course.span_k)


STARTS_S, SHARES = st.floats(0, 300 * DAY_S), st.floats(0.05, 1.0)


@settings(max_examples=150, deadline=None)
@given(plan=PLANS, hours=HOURS, course=COURSES, start_s=STARTS_S, share=SHARES, late=st.booleans())
def test_no_run_ends_after_what_is_said_nor_does_that_of_a_faster_crew(
    plan: Plan, hours: OpenHours, course: Course, start_s: float, share: float, late: bool
) -> None:
    run_ends_in_time(plan, hours, course, start_s, share, late)


@settings(max_examples=150, deadline=None)
@given(plan=PLANS, hours=ORDINARY_HOURS, course=COURSES, start_s=STARTS_S, share=SHARES, late=st.booleans())
def test_where_no_clock_is_changed_nothing_is_needed_for_that(
    plan: Plan, hours: OpenHours, course: Course, start_s: float, share: float, late: bool
) -> None:
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(ending, "MOST_CLOCK_CHANGES", 0)
        run_ends_in_time(plan, hours, course, start_s, share, late)


@settings(max_examples=60, deadline=None)
@given(rows=st.lists(A_SHIFT, min_size=1, max_size=3))
def test_the_longest_wait_is_that_of_a_year_in_which_no_clock_is_changed(rows: list[Shift]) -> None:
    hours = Shifts(shifts=rows, closed=[], zone=zone_named("UTC"))
    found = hours.since(MARCH_S)
    stretches = [next(found) for _ in range(200)][1:]  # the first may have begun before
    starts_s = [from_s for from_s, until_s in stretches if until_s - from_s >= hours.longest_s]
    assert hours.longest_wait_s == max(b - a for a, b in pairwise(starts_s)) or math.isinf(hours.longest_s)
