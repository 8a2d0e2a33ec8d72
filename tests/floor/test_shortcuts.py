"""What is worked the short way comes out as it does the long way."""

import math
from dataclasses import replace
from datetime import time
from itertools import accumulate, pairwise
from typing import Any

import pytest
import shapely
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from gaugerake.floor.clock import schedule
from gaugerake.floor.clock.backward import about_latest_start
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.latest import _Search, latest_start
from gaugerake.floor.clock.schedule import Site
from gaugerake.floor.clock.shifts import Shifts
from gaugerake.floor.clock.timetable import LayerWork, Plan, Return
from gaugerake.floor.cure.accrual import Bounds
from gaugerake.floor.cure.course import Course, DailyCourse, SteadyCourse, daily_course, logged_course, pieces
from gaugerake.floor.cure.curve import COLUMNS, Column, time_at, time_curve, time_point
from gaugerake.floor.cure.fast import series
from gaugerake.floor.cure.fast.daily import WaveDay
from gaugerake.floor.cure.fast.logged import LoggedMaturity
from gaugerake.floor.cure.fast.series import MOST_SWING, Series
from gaugerake.floor.cure.maturity import milestone
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.room import keyway
from gaugerake.floor.room.keyway import MITRE_LIMIT, _follows_each_corner, inset
from gaugerake.floor.room.placing import _apart, lies_inside, line_piece, overlaps, piece
from gaugerake.floor.room.shape import Circle, Polygon, Rectangle, footprint
from gaugerake.floor.values.local_time import DAY_S, zone_named
from gaugerake.floor.values.range import Limits

HOUR = 3600.0
CHICAGO = zone_named("America/Chicago")
CURE = time_curve(
    [
        time_point(temperature_k=283.15, low_s=14 * HOUR, likely_s=18 * HOUR, high_s=24 * HOUR),
        time_point(temperature_k=293.15, low_s=7 * HOUR, likely_s=9 * HOUR, high_s=12 * HOUR),
    ]
)


def hours(first: str = "07:00", last: str = "15:30") -> Shifts:
    days = tuple(Weekday)[:5]
    shift = Shift(days=days, starts=time.fromisoformat(first), ends=time.fromisoformat(last))
    return Shifts(shifts=[shift], closed=[], zone=CHICAGO)


def wave(low_k: float, height_k: float, coldest_h: float = 5.0) -> Course:
    return daily_course(low_k=low_k, high_k=low_k + height_k, coldest_at_s=coldest_h * HOUR, zone=CHICAGO)


def coats(count: int, work_s: float, recoat: bool = False) -> Plan:
    closes = time_curve([time_point(temperature_k=293.15, likely_s=30 * HOUR)]) if recoat else None
    layers = [
        LayerWork(layer=f"coat-{at}", parts_s=(work_s,), cure=CURE, recoat_closes=closes, abrade_s=HOUR)
        for at in range(count)
    ]
    returns = (Return(traffic="foot", after=CURE),)
    return Plan(preparation_s=HOUR, layers=tuple(layers), returns=returns, returns_from=count - 1)


@settings(max_examples=60, deadline=None)
@given(
    count=st.integers(1, 3),
    work_h=st.floats(0.5, 14.0),
    recoat=st.booleans(),
    low_k=st.floats(275.0, 295.0),
    height_k=st.floats(0.0, 15.0),
    by_h=st.floats(0.0, 200.0),
)
def test_the_latest_start_is_the_same_without_a_guess(
    count: int, work_h: float, recoat: bool, low_k: float, height_k: float, by_h: float
) -> None:
    asked = coats(count, work_h * HOUR, recoat)
    course, by_s = wave(low_k, height_k), 1.8e9 + by_h * HOUR
    found = latest_start(asked, hours=hours(), course=course, traffic="foot", by_s=by_s)
    search = _Search(hours(), course, by_s, Budget())
    if found is None:
        assert search.last(asked, by_s + 60.0) is None
    else:
        assert search.meets(asked, found)
        assert recoat or not search.meets(asked, found + 60.0)


def slices(number: int) -> Shifts:
    """So many shifts a day, each half as long as the way to the next."""
    step = 1440 // number
    at = [time(*divmod(minute, 60)) for index in range(number) for minute in (index * step, index * step + step // 2)]
    shifts = [Shift(days=tuple(Weekday), starts=at[2 * index], ends=at[2 * index + 1]) for index in range(number)]
    return Shifts(shifts=shifts, closed=[], zone=CHICAGO)


@settings(max_examples=40, deadline=None)
@given(
    number=st.integers(1, 6),
    work_h=st.floats(0.2, 5.0),
    low_k=st.floats(274.0, 290.0),
    height_k=st.floats(0.0, 12.0),
    least_k=st.floats(280.0, 290.0),
)
def test_halving_the_starts_of_shifts_finds_what_trying_them_all_does(
    number: int, work_h: float, low_k: float, height_k: float, least_k: float
) -> None:
    limited = [replace(layer, limits_k=Limits(low=least_k)) for layer in coats(1, work_h * HOUR).layers]
    asked, by_s = replace(coats(1, HOUR), layers=tuple(limited)), 1.8e9
    search = _Search(slices(number), wave(low_k, height_k), by_s, Budget())
    failing_s, found = by_s + 60.0, None
    for start_s, _ in slices(number).before(failing_s):
        if start_s < by_s - 60 * DAY_S:
            break
        if search.meets(asked, start_s):
            found = search._last_minute(asked, start_s, failing_s)
            break
        failing_s = start_s
    assert search.last_start(asked, by_s + 60.0) == found


def test_shifts_that_begin_together_are_tried_once() -> None:
    days = tuple(Weekday)[:5]
    both = [Shift(days=days, starts=time(7), ends=ends) for ends in (time(12), time(15, 30))]
    asked, course, by_s = coats(1, 2 * HOUR), wave(285.0, 5.0), 1.8e9
    tried = [
        list(
            _Search(open_hours, course, by_s, Budget())._minutes(
                (start_s for start_s, _ in open_hours.before(by_s)), by_s
            )
        )
        for open_hours in (hours(), Shifts(shifts=both, closed=[], zone=CHICAGO))
    ]
    assert tried[0] == tried[1]
    assert _Search(hours(), course, by_s, Budget()).last_start(asked, by_s) is not None


def test_a_deadline_that_nothing_meets_is_given_up_after_a_few_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    tried: list[float] = []
    monkeypatch.setattr(_Search, "meets", lambda _search, _plan, start_s: tried.append(start_s) or False)
    found = latest_start(coats(2, HOUR), hours=slices(50), course=wave(280.0, 5.0), traffic="foot", by_s=1.8e9)
    assert found is None
    assert len(tried) < 20  # of 3,000 shifts in 60 days


def test_a_wave_that_keeps_outside_the_limits_is_not_walked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(schedule, "pieces")
    site = Site(hours=hours(last="08:00"), course=wave(280.0, 10.0), until_s=1.8e9 + 365 * DAY_S)
    assert site.fit(1.8e9, HOUR / 2, Limits(low=289.0)) is None  # warm in the afternoon alone


def test_of_a_log_no_more_is_looked_at_than_a_shift_and_an_hour(monkeypatch: pytest.MonkeyPatch) -> None:
    looked: list[float] = []

    def seen(course: Course, *, ahead_s: float, **given: Any) -> Any:
        looked.append(ahead_s)
        return pieces(course, ahead_s=ahead_s, **given)

    monkeypatch.setattr(schedule, "pieces", seen)
    cold = [(1.8e9 + 60.0 * index, 290.0 if index == 2999 else 280.0 + index % 6) for index in range(3000)]
    site = Site(hours=hours(), course=logged_course(cold), until_s=1.8e9 + DAY_S)
    assert site.fit(1.8e9, 8 * HOUR, Limits(low=286.5)) is None
    assert not looked  # the readings of the span tell that it is too cold throughout
    warms = [(1.8e9 + 60.0 * index, 290.0 if index % 60 == 59 else 280.0 + index % 6) for index in range(3000)]
    site = Site(hours=hours(), course=logged_course(warms), until_s=1.8e9 + DAY_S)
    assert site.fit(1.8e9, HOUR, Limits(low=286.5)) is not None
    assert looked
    assert max(looked) <= 7.5 * HOUR


@pytest.mark.parametrize("work_h", [1.0, 8.0, 11.0])
@pytest.mark.parametrize("course", [SteadyCourse(temperature_k=291.0), wave(287.0, 8.0)])
def test_the_guess_is_mostly_the_minute(work_h: float, course: Course) -> None:
    by_s = 1.8e9
    asked = coats(2, work_h * HOUR)
    guess_s = about_latest_start(asked, hours=hours(), course=course, by_s=math.floor(by_s / 60) * 60.0)
    assert guess_s is not None
    assert math.floor(guess_s / 60) * 60.0 == latest_start(
        asked, hours=hours(), course=course, traffic="foot", by_s=by_s
    )


def test_a_log_is_guessed_on_unless_age_is_lost_in_it() -> None:
    by_s, asked = 1.8e9, coats(2, HOUR)
    log = logged_course([(by_s - at * HOUR, 290.0 + at % 5) for at in range(200, -1, -1)])
    guess_s = about_latest_start(asked, hours=hours(), course=log, by_s=by_s)
    assert guess_s is not None
    assert math.floor(guess_s / 60) * 60.0 == latest_start(asked, hours=hours(), course=log, traffic="foot", by_s=by_s)
    frosty = logged_course([(1.7e9, 290.0), (1.75e9, 272.0), (1.9e9, 291.0)])
    assert about_latest_start(asked, hours=hours(), course=frosty, by_s=by_s) is None


READINGS = st.lists(st.tuples(st.floats(0.05, 30.0), st.floats(262.0, 318.0)), min_size=1, max_size=12)
LIMITS = st.tuples(st.none() | st.floats(274.0, 288.0), st.none() | st.floats(295.0, 305.0))


@settings(max_examples=200, deadline=None)
@given(readings=READINGS, limits=LIMITS, from_h=st.floats(-20.0, 200.0), column=st.sampled_from(COLUMNS))
def test_the_table_of_a_log_is_its_quadrature(
    readings: list[tuple[float, float]],
    limits: tuple[float | None, float | None],
    from_h: float,
    column: Column,
) -> None:
    at_h = list(accumulate(step for step, _ in readings))
    rows = [(1.8e9 + hour * HOUR, at_k) for hour, (_, at_k) in zip(at_h, readings, strict=True)]
    asked: Any = {"curve": CURE, "column": column, "course": logged_course(rows), "from_s": 1.8e9 + from_h * HOUR}
    asked |= {"low_k": limits[0], "high_k": limits[1]}
    short, long = milestone(**asked), milestone(**asked, longest_piece_s=900.0)
    for one, other in (
        (short.at_s, long.at_s),
        (short.frozen_s, long.frozen_s),
        (short.stopped_s, long.stopped_s),
        (short.capped_s, long.capped_s),
    ):
        assert one == (other if other is None else pytest.approx(other, rel=0, abs=0.01))


def test_nothing_has_accrued_at_the_first_reading() -> None:
    for first_k, hours_before in ((280.0, 0.0), (290.0, 3.0)):  # held below the limit, and above it
        course = logged_course([(1e6, first_k), (1e6 + HOUR, 292.0)])
        log = LoggedMaturity.of(course, curve=CURE, column="high", bounds=Bounds(low_k=283.0, high_k=None))
        assert log is not None
        assert (log.maturity(1e6), log.instant(0.0), log.lossy) == (0.0, 1e6, first_k < 283.0)
        gained = -hours_before * HOUR / time_at(CURE, temperature_k=first_k, column="high")
        assert log.maturity(1e6 - 3 * HOUR) == pytest.approx(gained)
        assert log.instant(gained) == pytest.approx(1e6 - hours_before * HOUR)


def test_a_log_that_is_too_steep_for_its_table_goes_the_long_way() -> None:
    steep = time_curve([time_point(temperature_k=283.15, likely_s=1e7), time_point(temperature_k=293.15, likely_s=1e2)])
    course = logged_course([(0.0, 283.0), (3600.0, 293.0)])
    bounds = Bounds(low_k=None, high_k=None)
    assert LoggedMaturity.of(course, curve=steep, column="likely", bounds=bounds) is None
    found = milestone(curve=steep, column="likely", course=course, from_s=0.0)
    line = steep.lines["likely"][1]
    expected, _ = quad(lambda s: math.exp(-line[0] - line[1] / (283.0 + s / 360)), 60.0, found.at_s, epsrel=1e-10)
    assert expected == pytest.approx(1.0, abs=2e-3)  # all but what the first minute adds on the line below


def test_work_that_finds_no_shift_in_a_hundred_is_not_guessed_at() -> None:
    """Nine hours on Sundays; on other days twenty shifts of fifty minutes: 120 of them lie between two Sundays."""
    *others, sunday = Weekday
    short = [Shift(days=tuple(others), starts=time(hour), ends=time(hour, 50)) for hour in range(20)]
    long = Shift(days=(sunday,), starts=time(8), ends=time(17))
    mixed = Shifts(shifts=[*short, long], closed=[], zone=CHICAGO)
    saturday_s = 1.8e9 + 1.9 * DAY_S  # 2027-01-16, 23:36 in Chicago
    asked, course = coats(1, 8 * HOUR), SteadyCourse(temperature_k=291.0)
    assert about_latest_start(asked, hours=mixed, course=course, by_s=saturday_s) is None
    found = latest_start(asked, hours=mixed, course=course, traffic="foot", by_s=saturday_s)
    assert found is not None
    assert _Search(mixed, course, saturday_s, Budget()).meets(asked, found)


def test_an_age_that_has_not_settled_is_given_as_far_as_it_came(monkeypatch: pytest.MonkeyPatch) -> None:
    """After one of Newton's steps from the cubic's guess it is within a minute."""
    wave_of_ten = DailyCourse(low_k=285.0, high_k=295.0, coldest_at_s=0.0, zone=CHICAGO)
    [found] = Series.on([[(math.log(8 * HOUR) - 6000.0 / 293.15, 6000.0)]], wave_of_ten)
    assert found is not None
    arc = series.Arc(found[0], 0.0, DAY_S)
    settled = [arc.until(arc.gained * share) for share in (0.1, 0.5, 0.9)]
    assert [arc.by(since_s) / arc.gained for since_s in settled] == pytest.approx([0.1, 0.5, 0.9])
    monkeypatch.setattr(series, "_MOST_STEPS", 1)
    assert [arc.until(arc.gained * share) for share in (0.1, 0.5, 0.9)] == pytest.approx(settled, abs=60.0)


def test_what_a_day_gains_is_gained_when_its_last_warm_hour_ends() -> None:
    """Warm enough from 6 to 18 hours after the coldest: a whole number of days' ages is gained at 18 hours."""
    wave_of_eight = DailyCourse(low_k=288.0, high_k=296.0, coldest_at_s=0.0, zone=CHICAGO)
    limits = Bounds(low_k=292.0, high_k=None)
    day = WaveDay.of(wave_of_eight, curve=CURE, column="likely", bounds=limits, longest_piece_s=7200.0)
    assert [day.phase(days * day.maturities[-1]) for days in (1, 3)] == pytest.approx(
        [18 * HOUR, 2 * DAY_S + 18 * HOUR]
    )
    assert day.phase(0.5 * day.maturities[-1]) == pytest.approx(12 * HOUR)


@settings(max_examples=60, deadline=None)
@given(
    low_k=st.floats(250.0, 310.0),
    height_k=st.floats(0.01, 40.0),
    energy=st.floats(1e3, 15e3),
    until_s=st.floats(0.0, DAY_S),
)
def test_a_series_is_the_integral(low_k: float, height_k: float, energy: float, until_s: float) -> None:
    course = DailyCourse(low_k=low_k, high_k=low_k + height_k, coldest_at_s=0.0, zone=CHICAGO)
    line = (math.log(8 * HOUR) - energy / 293.15, energy)
    [found] = Series.on([[line]], course)
    if found is None:
        assert energy * height_k / 2 > MOST_SWING * low_k**2 or math.exp(line[0] + energy / course.high_k) < 1
        return
    at = course.by_phase(0.0)
    expected, _ = quad(lambda s: math.exp(-line[0] - line[1] / at(s)), 0.0, until_s, epsabs=0, epsrel=1e-11, limit=200)
    assert found[0].maturity(until_s) == pytest.approx(expected, rel=1e-9, abs=1e-9 * found[0].maturity(DAY_S))


SIDES = st.floats(0.05, 12.0)


@settings(max_examples=100, deadline=None)
@given(diameter=st.floats(0.05, 3.0), x=st.floats(0.0, 12.0), y=st.floats(0.0, 12.0), length=SIDES, width=SIDES)
def test_a_rectangle_holds_what_its_polygon_holds(
    diameter: float, x: float, y: float, length: float, width: float
) -> None:
    room = footprint(shape=Rectangle(length_m=10.0, width_m=8.0))
    same = footprint(shape=Polygon(points_m=((0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (0.0, 8.0))))
    placed = [
        piece(footprint=footprint(shape=Circle(diameter_m=diameter)), at_m=(x, y)),
        piece(footprint=footprint(shape=Rectangle(length_m=length, width_m=width)), at_m=(x, y)),
        line_piece(line_m=((x, y), (length, width))),
    ]
    for one in placed:
        assert lies_inside(room=room, piece=one) == lies_inside(room=same, piece=one)


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(st.floats(0.05, 2.0), st.floats(0.0, 9.0), st.floats(0.0, 9.0)), min_size=2, max_size=5))
def test_few_things_overlap_as_many_do(things: list[tuple[float, float, float]]) -> None:
    circle = [piece(footprint=footprint(shape=Circle(diameter_m=size)), at_m=(x, y)) for size, x, y in things]
    far = [piece(footprint=footprint(shape=Circle(diameter_m=0.1)), at_m=(100.0 + at, 100.0)) for at in range(9)]
    assert overlaps(circle) == overlaps([*circle, *far])
    if _apart(circle):
        assert overlaps(circle) == []


def test_a_day_holds_its_whole_age() -> None:
    course = DailyCourse(low_k=285.0, high_k=291.0, coldest_at_s=0.0, zone=CHICAGO)
    line = CURE.lines["likely"][1]
    [found] = Series.on([[line]], course)
    [series] = found or []
    pieces = [series.maturity(end) - series.maturity(start) for start, end in pairwise([0.0, HOUR, 9 * HOUR, DAY_S])]
    assert sum(pieces) == pytest.approx(series.maturity(DAY_S), rel=1e-12)
    assert (
        DAY_S / time_at(CURE, temperature_k=285.0) < series.maturity(DAY_S) < DAY_S / time_at(CURE, temperature_k=291.0)
    )


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(
    reaches=st.lists(st.floats(0.3, 6.0), min_size=3, max_size=9),
    offset=st.floats(0.01, 0.5),
)
def test_a_keyway_that_follows_each_corner_loses_nothing(reaches: list[float], offset: float) -> None:
    turn = 2 * math.pi / len(reaches)
    corners = tuple((reach * math.cos(at * turn), reach * math.sin(at * turn)) for at, reach in enumerate(reaches))
    room = footprint(shape=Polygon(points_m=corners))
    found = inset(footprint=room, offset_m=offset)
    floor = shapely.Polygon(room.outline_m)
    shrunk = floor.buffer(-offset, join_style="mitre", mitre_limit=MITRE_LIMIT)
    assume(shrunk.is_empty or shrunk.length > 20 * offset)  # GEOS simplifies what is small beside the offset
    grown_back = shrunk.buffer(offset, join_style="mitre", mitre_limit=1e6)
    lost = shapely.difference(floor, grown_back, grid_size=1e-8).area
    assert found.whole == (not shrunk.is_empty and lost <= 1e-3 * offset**2)
    if len(found.rings_m) == 1 and _follows_each_corner(room.outline_m, found.rings_m[0], offset):
        assert lost <= 1e-5 * offset**2  # what GEOS leaves of growing and shrinking, a hundredth of what counts


@pytest.mark.parametrize(
    ("corners", "offset"),
    [
        (((3.8, 0.0), (0.0, 1.99), (-5.14, 0.0), (0.0, -2.42)), 0.574),
        (((3.36, 0.0), (0.0, 5.27), (-2.81, 0.0), (0.0, -5.41)), 0.77),
    ],
)
def test_outlines_that_all_but_coincide_lose_nothing(
    monkeypatch: pytest.MonkeyPatch, corners: tuple[tuple[float, float], ...], offset: float
) -> None:
    """GEOS takes the whole floor for lost here, unless it is asked on a grid."""
    room = footprint(shape=Polygon(points_m=corners))
    assert inset(footprint=room, offset_m=offset).whole
    monkeypatch.setattr(keyway, "_follows_each_corner", lambda *_given: False)
    keyway._polygon_inset.cache_clear()
    assert inset(footprint=room, offset_m=offset).whole


def test_the_corners_of_a_plain_room_are_followed() -> None:
    ell = Polygon(points_m=((0.0, 0.0), (6.0, 0.0), (6.0, 3.0), (2.0, 3.0), (2.0, 7.0), (0.0, 7.0)))
    room = footprint(shape=ell)
    [ring] = inset(footprint=room, offset_m=0.1).rings_m
    assert _follows_each_corner(room.outline_m, ring, 0.1)
    assert not _follows_each_corner(room.outline_m, ring, 0.11)
    assert not _follows_each_corner(room.outline_m, ring[1:], 0.1)
