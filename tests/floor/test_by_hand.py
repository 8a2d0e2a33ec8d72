"""Small values worked by hand or with SciPy, beside the properties that hold for any."""

import math
from datetime import time
from itertools import islice, pairwise

import numpy as np
import pytest
from scipy import integrate, stats

from gaugerake.floor.clock.schedule import Site
from gaugerake.floor.clock.shifts import MOST_WEEKS, Shifts
from gaugerake.floor.cure import accrual
from gaugerake.floor.cure.accrual import Accrual, Bounds, Mode
from gaugerake.floor.cure.course import DailyCourse, SteadyCourse
from gaugerake.floor.cure.curve import time_curve, time_point
from gaugerake.floor.cure.fast.daily import WaveDay
from gaugerake.floor.cure.maturity import milestone
from gaugerake.floor.job import Circle, Polygon, Shift, Weekday
from gaugerake.floor.layers.need import Demand
from gaugerake.floor.packs.marginal import Segment, marginal
from gaugerake.floor.pour.edge import Lane, Pace
from gaugerake.floor.pour.windows import RoomPour, Window, pour_in_shifts
from gaugerake.floor.room.keyway import inset
from gaugerake.floor.room.shape import footprint, ring
from gaugerake.floor.shortage.mix_pairs import Pairs
from gaugerake.floor.shortage.sums import BatchChance, SumChance
from gaugerake.floor.shortage.triangular import reached, triangular_nodes
from gaugerake.floor.values.local_time import zone_named
from gaugerake.floor.values.range import Limits, Triple

EIGHT_HOURS = time_curve([time_point(temperature_k=293.15, likely_s=8 * 3600.0)])

# --- shapes


def test_a_circle_of_six_is_drawn_around_its_middle() -> None:
    found = footprint(shape=Circle(diameter_m=6.0))
    assert found.shorter_side_m == 6.0
    assert {round(math.dist((3.0, 3.0), corner), 12) for corner in found.outline_m} == {3.0}
    assert found.outline_m[16] == pytest.approx((3.0, 6.0))


def test_a_ring_of_three_is_three_from_its_middle() -> None:
    corners = ring(centre_m=(1.0, -2.0), radius_m=3.0)
    assert len(corners) == 64
    assert {round(math.dist((1.0, -2.0), corner), 12) for corner in corners} == {3.0}
    assert [corners[place] for place in (0, 16, 32)] == [
        pytest.approx(corner) for corner in ((4.0, -2.0), (1.0, 1.0), (-2.0, -2.0))
    ]


def test_a_groove_in_a_round_room_is_a_circle_within_it() -> None:
    """Half a metre off the wall of a room of 6 m: 5 m across, 15.708 m long."""
    found = inset(footprint=footprint(shape=Circle(diameter_m=6.0)), offset_m=0.5)
    assert found.length_m == pytest.approx(math.pi * 5.0)
    assert {round(math.dist((3.0, 3.0), corner), 12) for corner in found.rings_m[0]} == {2.5}


def test_a_round_room_narrower_than_twice_the_offset_has_none() -> None:
    assert inset(footprint=footprint(shape=Circle(diameter_m=6.0)), offset_m=3.0).rings_m == ()
    hair = inset(footprint=footprint(shape=Circle(diameter_m=6.0)), offset_m=2.999)
    assert hair.length_m == pytest.approx(math.tau * 0.001)


def test_a_strip_of_two_centimetres_in_nine_kilometres_is_a_floor() -> None:
    strip = footprint(shape=Polygon(points_m=((0.0, 0.0), (9000.0, 0.0), (9000.0, 0.02), (0.0, 0.02))))
    assert (strip.area_m2, strip.shorter_side_m) == (pytest.approx(180.0), pytest.approx(0.02))


# --- hours


def test_shifts_that_meet_are_one_stretch() -> None:
    """Monday 1970-01-05: 7 to 12 and 12 to 17 o'clock are ten hours from 4 · 86,400 + 25,200 s on."""
    halves = [Shift(days=(Weekday.MON,), starts=time(hour), ends=time(hour + 5)) for hour in (7, 12)]
    shifts = Shifts(shifts=halves, closed=[], zone=zone_named("UTC"))
    assert next(shifts.since(0.0)) == (370_800.0, 406_800.0)
    assert shifts.longest_s == 36_000.0


@pytest.mark.parametrize("work_h", [4.0, 25.0])
def test_a_floor_that_is_always_too_cold_gives_no_hours(work_h: float) -> None:
    """280 K under a limit of 283 K: neither for work that fits a shift of ten hours nor for work that is split."""
    monday = Shift(days=tuple(Weekday), starts=time(7), ends=time(17))
    shifts = Shifts(shifts=[monday], closed=[], zone=zone_named("UTC"))
    cold, warm = (
        Site(hours=shifts, course=SteadyCourse(temperature_k=temperature_k), until_s=1e7)
        for temperature_k in (280.0, 290.0)
    )
    assert cold.place(0.0, [work_h * 3600], Limits(low=283.0, high=300.0)) is None
    assert warm.place(0.0, [work_h * 3600], Limits(low=270.0, high=283.0)) is None
    placed = warm.place(0.0, [work_h * 3600], Limits(low=283.0, high=300.0))
    assert placed is not None
    assert sum(until_s - from_s for from_s, until_s in placed.stretches) == work_h * 3600


def test_a_day_without_loss_neither_stops_nor_freezes() -> None:
    course = DailyCourse(low_k=288.0, high_k=296.0, coldest_at_s=0.0, zone=zone_named("UTC"))
    curve = time_curve([time_point(temperature_k=293.15, likely_s=8 * 3600.0)])
    for low_k, stopped_s in ((None, 0.0), (292.0, 43_200.0)):
        day = WaveDay.of(
            course, curve=curve, column="likely", bounds=Bounds(low_k=low_k, high_k=None), longest_piece_s=7200.0
        )
        assert day.spent_in(Mode.STOPPED, 0.0, 86_400.0) == pytest.approx(stopped_s)
        assert day.spent_in(Mode.CAPPED, 0.0, 86_400.0) == 0.0
        assert day.frost(0.0) == math.inf


def test_what_a_cold_day_stops_is_counted_to_the_second_and_frost_from_any_day_on() -> None:
    """From 272 to 280 K: under 276 K from 18 to 6 hours after the coldest, under 273.15 K about its coldest hour."""
    course = DailyCourse(low_k=272.0, high_k=280.0, coldest_at_s=0.0, zone=zone_named("UTC"))
    curve = time_curve([time_point(temperature_k=293.15, likely_s=8 * 3600.0)])
    limits = Bounds(low_k=276.0, high_k=None)
    day = WaveDay.of(course, curve=curve, column="likely", bounds=limits, longest_piece_s=7200.0)
    frozen_s = math.acos((276.0 - 273.15) / 4.0) / math.tau * 86_400.0  # on either side of the coldest hour
    assert day.spent_in(Mode.STOPPED, 0.0, 43_200.0) == pytest.approx(21_600.0 - frozen_s, abs=0.1)
    assert day.frost(43_200.0) == pytest.approx(86_400.0 - frozen_s, abs=0.1)
    assert day.frost(2 * 86_400.0 + 43_200.0) == pytest.approx(3 * 86_400.0 - frozen_s, abs=0.1)
    assert day.frost(86_400.0 + 60.0) == 86_460.0


@pytest.mark.parametrize("low_k", [276.0, 279.0, 283.15, 288.0])
def test_a_day_whose_warmest_hour_just_touches_the_low_limit_is_under_it(low_k: float) -> None:
    course = DailyCourse(low_k=low_k - 2.5, high_k=low_k, coldest_at_s=0.0, zone=zone_named("UTC"))
    found = milestone(curve=EIGHT_HOURS, column="likely", course=course, from_s=43_200.0, until_s=9e6, low_k=low_k)
    assert (found.at_s, found.frozen_s) == (None, None)
    assert found.stopped_s == pytest.approx(9e6 - 43_200.0, abs=60.0)


def test_a_day_whose_warmest_hour_just_touches_freezing_point_is_frozen() -> None:
    course = DailyCourse(low_k=268.15, high_k=273.15, coldest_at_s=0.0, zone=zone_named("UTC"))
    found = milestone(curve=EIGHT_HOURS, column="likely", course=course, from_s=43_200.0)
    assert found.at_s is None
    assert found.frozen_s == pytest.approx(43_200.0, abs=30.0)


def test_a_day_whose_coldest_hour_just_touches_the_high_limit_counts_as_at_it() -> None:
    course = DailyCourse(low_k=293.15, high_k=303.15, coldest_at_s=0.0, zone=zone_named("UTC"))
    found = milestone(curve=EIGHT_HOURS, column="likely", course=course, from_s=0.0, high_k=293.15)
    assert found.at_s == pytest.approx(8 * 3600.0)
    assert found.capped_s == pytest.approx(8 * 3600.0)


def test_a_day_is_cut_at_its_bends_and_its_level_and_then_in_equal_parts() -> None:
    """From 280 to 290 K it is at 285 six hours before and after its warmest hour."""
    course = DailyCourse(low_k=280.0, high_k=290.0, coldest_at_s=18_000.0, zone=zone_named("UTC"))
    hours = [(start_s / 3600, end_s / 3600) for start_s, end_s in course.phases([285.0], 18_000.0)]
    assert hours == [pytest.approx((at, at + 3)) for at in range(0, 24, 3)]


@pytest.mark.parametrize(
    ("from_h", "until_h", "reached_k"),
    [
        (18, 24, (280.0, 285.0)),  # from half way down to the coldest hour
        (18, 30, (280.0, 285.0)),
        (18, 36, (280.0, 290.0)),  # the next day's warmest hour is on the way
        (6, 18, (285.0, 290.0)),
    ],
)
def test_what_a_wave_reaches_in_a_part_of_a_day(from_h: float, until_h: float, reached_k: tuple[float, float]) -> None:
    course = DailyCourse(low_k=280.0, high_k=290.0, coldest_at_s=0.0, zone=zone_named("UTC"))
    assert course.reached_k(from_h * 3600, until_h * 3600) == pytest.approx(reached_k)


def test_packs_that_cover_to_the_last_unit_cover() -> None:
    hulls = [[Segment(slope=5.0, larger_first=-5, size=0, start=0, stop=10)]]
    assert marginal(left=50, units=[5], hulls=hulls) == (hulls[0][0], 10)
    assert marginal(left=51, units=[5], hulls=hulls) is None


def test_two_tables_on_one_wave_are_not_taken_for_each_other() -> None:
    """The one takes twice as long as the other, at every temperature: so it gains half as much in a day."""
    course = DailyCourse(low_k=288.0, high_k=296.0, coldest_at_s=0.0, zone=zone_named("UTC"))
    bounds = Bounds(low_k=None, high_k=None)
    gained = [
        WaveDay.of(course, curve=curve, column="likely", bounds=bounds, longest_piece_s=7200.0).maturities[-1]
        for curve in [time_curve([time_point(temperature_k=293.15, likely_s=hours * 3600.0)]) for hours in (8, 16)]
    ]
    assert gained[0] == pytest.approx(2 * gained[1])


def test_work_may_end_with_what_is_looked_at_and_no_later() -> None:
    """Ten hours in shifts of eight, from midnight on: two of them on the second day."""
    shift = Shift(days=tuple(Weekday), starts=time(0), ends=time(8))
    hours = Shifts(shifts=[shift], closed=[], zone=zone_named("UTC"))
    for until_h, ends_h in ((26.0, 26.0), (25.9, None)):
        site = Site(hours=hours, course=SteadyCourse(temperature_k=293.15), until_s=until_h * 3600)
        placed = site.place(0.0, [36_000.0])
        assert (None if placed is None else placed.until_s / 3600) == ends_h


def test_weeks_are_remembered_150_at_a_time() -> None:
    """Eight hours a day: the 1,500th shift is on the 1,500th day, whatever was forgotten on the way."""
    daily = Shift(days=tuple(Weekday), starts=time(8), ends=time(16))
    shifts = Shifts(shifts=[daily], closed=[], zone=zone_named("UTC"))
    assert next(islice(shifts.since(0.0), 1499, None)) == (1499 * 86_400 + 28_800, 1499 * 86_400 + 57_600)
    assert len(shifts._known) <= MOST_WEEKS


# --- age on a piece


@pytest.mark.parametrize("bend", [0.015, 1.0, 9.0])
def test_age_on_a_piece_is_the_integral_of_its_rate(bend: float) -> None:
    """ln t = b + m/T with T rising from 280 K so that ln t changes by the bend in an hour; SciPy's quadrature."""
    m = 8000.0
    end_k = 1 / (1 / 280.0 - bend / m)
    b = 30.0 - m / 280.0
    piece = Accrual((b, m), lambda since_s: 280.0 + (end_k - 280.0) * since_s / 3600, bend)
    expected, _ = integrate.quad(
        lambda since_s: math.exp(-b - m / (280.0 + (end_k - 280.0) * since_s / 3600)), 0, 3600, epsrel=1e-12
    )
    assert piece.over(3600.0) == pytest.approx(expected, rel=1e-7)
    assert piece.until(expected / 3, expected, 3600.0) == pytest.approx(
        next(
            since_s
            for since_s in np.arange(0, 3600, 0.5)
            if integrate.quad(
                lambda at_s: math.exp(-b - m / (280.0 + (end_k - 280.0) * at_s / 3600)), 0, since_s, epsrel=1e-9
            )[0]
            >= expected / 3
        ),
        abs=0.6,
    )


def test_a_time_that_has_not_settled_is_given_as_far_as_it_came(monkeypatch: pytest.MonkeyPatch) -> None:
    """Age at a rate that hardly changes: half of an hour's is gained after half an hour, less the little it rises."""
    line, rising = (30.0 - 8000.0 / 280.0, 8000.0), 1 / (1 / 280.0 - 0.1 / 8000.0) - 280.0
    slow = Accrual(line, lambda since_s: 280.0 + rising * since_s / 3600, 0.1)
    half = slow.over(3600.0) / 2
    settled_s = slow.until(half, 2 * half, 3600.0)
    assert slow.over(settled_s) == pytest.approx(half, rel=1e-9)
    assert 1800.0 < settled_s < 1900.0
    monkeypatch.setattr(accrual, "_MOST_STEPS", 1)
    assert slow.until(half, 2 * half, 3600.0) == pytest.approx(settled_s, abs=5.0)


# --- chances


def test_an_exact_layer_takes_what_it_takes() -> None:
    """100 m² at 5 m² a litre are 20 l, and 30 kg are 30 kg: never less, never more."""
    coat = Demand(varying=60.0, fixed=40.0, divisor=Triple(low=5.0, likely=5.0, high=5.0))
    assert SumChance(demands=[coat]).suffice([19.999, 20.0, 20.001]) == [0.0, 1.0, 1.0]
    weighed = Demand(varying=0.0, fixed=30.0)
    assert SumChance(demands=[weighed]).suffice([29.999, 30.0, 30.001]) == [0.0, 1.0, 1.0]
    assert SumChance(demands=[weighed, coat]).suffice([49.999, 50.0]) == [0.0, 1.0]


def test_batches_are_counted_up_to_the_last() -> None:
    """100 m² at 4 to 6 m² a litre (likely 5) are 16.7 to 25 l, in batches of 2: 18 to 26, never more."""
    coat = Demand(varying=0.0, fixed=100.0, divisor=Triple(low=4.0, likely=5.0, high=6.0), step=2.0)
    chance = BatchChance(demands=[coat], step=2.0)
    spreading = stats.triang(c=0.5, loc=4.0, scale=2.0)
    amounts = [14.0, 16.0, 18.0, 22.0, 24.0, 26.0, 28.0, 400.0]
    expected = [float(spreading.sf(100.0 / amount)) for amount in amounts]
    assert chance.suffice(amounts) == pytest.approx(expected)
    assert expected[-3:] == [1.0, 1.0, 1.0]
    assert [chance.quantity(wanted) for wanted in (expected[3], expected[3] + 1e-6, 1.0)] == [22.0, 24.0, 26.0]


@pytest.mark.parametrize("shape", [(1.0, 2.0, 3.0), (1.0, 1.0, 3.0), (1.0, 3.0, 3.0), (1.0, 1.4, 3.0)])
def test_the_chance_to_reach_a_value_is_scipys(shape: tuple[float, float, float]) -> None:
    low, likely, high = shape
    values = np.array([0.2, 1.0, 1.3, 1.4, 2.0, 2.9, 3.0, 3.5])
    expected = stats.triang(c=(likely - low) / (high - low), loc=low, scale=high - low).sf(values)
    assert reached(figure=Triple(low=low, likely=likely, high=high), values=values) == pytest.approx(expected)


def test_an_exact_figure_reaches_itself_and_no_more() -> None:
    exact = Triple(low=2.0, likely=2.0, high=2.0)
    assert reached(figure=exact, values=np.array([1.9, 2.0, 2.0 * (1 + 1e-9), 2.1])).tolist() == [1.0, 1.0, 1.0, 0.0]


@pytest.mark.parametrize("shape", [(1.0, 2.0, 3.0), (1.0, 1.0, 3.0), (1.0, 3.0, 3.0)])
def test_the_nodes_of_a_triangular_figure_give_its_mean_and_spread(shape: tuple[float, float, float]) -> None:
    """Mean (a + b + c)/3, variance (a² + b² + c² − ab − ac − bc)/18 (any table of distributions)."""
    low, likely, high = shape
    values, weights = triangular_nodes(figure=Triple(low=low, likely=likely, high=high))
    mean = (low + likely + high) / 3
    variance = (low**2 + likely**2 + high**2 - low * likely - low * high - likely * high) / 18
    assert weights.sum() == pytest.approx(1.0)
    assert values @ weights == pytest.approx(mean)
    assert (values - mean) ** 2 @ weights == pytest.approx(variance)


def test_the_yield_up_to_which_a_mix_more_is_needed() -> None:
    """2 m³ that go with the thickness and 1 that do not: at factor 1.1, 3.2 m³; with 4 mixes each has to make 0.8."""
    pairs = Pairs(varying=[2.0], fixed=[1.0], yields=Triple(low=0.5, likely=0.8, high=1.0), reach_fraction=0.1)
    first = pairs.first[0]
    assert first == 2  # at least (1.8 + 1) / 1 mixes, rounded down
    yields = pairs.first_yields(np.array([0.9, 1.1]))
    assert yields[1, 4 - first] == pytest.approx(0.8)
    assert yields[0, 4 - first] == pytest.approx(0.7)
    assert pairs.last_factors(np.array([0.8]))[0, 4 - first] == pytest.approx(1.1)


# --- a pour over shifts


def rooms(*needs: float) -> list[RoomPour]:
    pace = Pace(mix_area_m2=2.2, mixing_s=120, placing_s=100)
    lane = Lane(width_m=6, depth_m=1)
    return [RoomPour(room=place, need_mixes=need, pace=pace, lane=lane) for place, need in enumerate(needs)]


def test_the_second_room_of_a_later_morning_begins_when_the_first_is_done() -> None:
    """Mixes of two minutes: 30 fill the first hour; then 10 and 15, from 86,400 s on."""
    mornings = [Window(from_s=0, until_s=3600), Window(from_s=86_400, until_s=90_000)]
    found = pour_in_shifts(pours=rooms(30, 10, 15), windows=mornings, longest_shift_s=3600)
    parts = [(part.begins_s, part.ends_s, part.first_mix, part.last_mix) for stretch in found for part in stretch.parts]
    assert parts == [(0, 3600, 1, 30), (86_400, 87_600, 31, 40), (87_600, 89_400, 41, 55)]


def test_a_room_as_long_as_the_longest_shift_is_poured_whole() -> None:
    """60 mixes of two minutes are two hours: what is left of the first morning is not begun."""
    days = [Window(from_s=0, until_s=3600), Window(from_s=86_400, until_s=93_600)]
    (stretch,) = pour_in_shifts(pours=rooms(60), windows=days, longest_shift_s=7200)
    assert [(part.begins_s, part.first_mix, part.last_mix) for part in stretch.parts] == [(86_400, 1, 60)]
    split = pour_in_shifts(
        pours=rooms(61), windows=[*days, Window(from_s=172_800, until_s=180_000)], longest_shift_s=7200
    )
    assert [part.last_mix for stretch in split for part in stretch.parts] == [30, 61]


def test_mixes_of_rooms_that_share_one_begin_at_once() -> None:
    """2.5 and 1.5 mixes: the third mix reaches both rooms."""
    (stretch,) = pour_in_shifts(pours=rooms(2.5, 1.5), windows=[Window(from_s=600, until_s=4200)], longest_shift_s=3600)
    first, second = stretch.parts
    assert (first.begins_s, first.ends_s, first.last_mix, first.shares_first) == (600, 960, 3, False)
    assert (second.begins_s, second.ends_s, second.first_mix, second.shares_first) == (840, 1080, 3, True)
    assert all(before.last_mix >= after.first_mix - 1 for before, after in pairwise(stretch.parts))
