"""Paths that few jobs take: what is worked the long way round, never ends, or is only just a shape."""

from dataclasses import replace
from datetime import UTC, datetime, time
from decimal import Decimal

import numpy as np
import pytest

from gaugerake.floor.clock.backward import about_latest_start
from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.latest import latest_start
from gaugerake.floor.clock.schedule import Site
from gaugerake.floor.clock.shifts import RoundTheClock, Shifts
from gaugerake.floor.clock.timetable import LayerWork, Plan, Return
from gaugerake.floor.cure.course import SteadyCourse, daily_course, logged_course
from gaugerake.floor.cure.curve import TimeCurve, time_at, time_curve, time_point
from gaugerake.floor.cure.fast.daily import MOST_TABLES
from gaugerake.floor.cure.maturity import milestone
from gaugerake.floor.job import Polygon, Shift, Weekday
from gaugerake.floor.layers.need import Demand
from gaugerake.floor.packs import choice as pack
from gaugerake.floor.packs.choice import Offered, choose_packs
from gaugerake.floor.product import Break, Price
from gaugerake.floor.room.shape import footprint
from gaugerake.floor.shortage.sums import SumChance
from gaugerake.floor.values.errors import DegenerateOutline, OutOfRange
from gaugerake.floor.values.local_time import zone_named
from gaugerake.floor.values.range import Limits, Triple

HOUR = 3600.0


def curve(hours: float) -> TimeCurve:
    return time_curve([time_point(temperature_k=293.15, likely_s=hours * HOUR)])


def offer(sku: str, contents: float) -> Offered:
    return Offered(sku=sku, contents=contents)


def priced(sku: str, contents: float, price: str) -> Offered:
    return Offered(sku=sku, contents=contents, price=Price(price=Decimal(price)))


# --- packs


SHELF = [priced("A", 5, "43"), priced("B", 12, "99"), priced("C", 1, "9.5")]


@pytest.mark.parametrize("need", [250_001, 400_001, 3_000_017, 84_000_000])
@pytest.mark.parametrize(
    "shelf", [SHELF, [SHELF[2]], [offer("D", 3**0.5), offer("E", 5)], [offer("E", 5), offer("F", 64)]]
)
def test_a_need_that_is_soon_given_up_is_covered_at_about_the_least_cost(
    monkeypatch: pytest.MonkeyPatch, shelf: list[Offered], need: int
) -> None:
    monkeypatch.setattr(pack, "_MOST_COMPARED", 0)
    load = choose_packs(need=need, offered=shelf)
    assert load.lacking == 0.0
    assert need <= load.contents <= need + max(one.contents for one in shelf)
    if all(one.price for one in shelf):
        least = min(one.price.price / Decimal(one.contents) for one in shelf if one.price) * need
        paid = sum(count * one.price.price for count, one in zip(load.counts, shelf, strict=True) if one.price)
        assert least <= paid <= least * Decimal("1.002")


def test_absurd_prices_are_compared_too() -> None:
    """4,000 fives and 3 ones cost 3,800,600,000,001.10; a five fewer and two fours for the ones, 50 million more."""
    dear = [priced("A", 5, "949999999.9999"), priced("B", 4, "800000000.0001"), priced("C", 1, "200000000.5")]
    assert choose_packs(need=20_003, offered=dear).counts == (4000, 0, 3)


def test_the_little_that_a_dearer_pack_has_in_stock_is_taken_too() -> None:
    """Of the cheap one all 299,990 are taken; the rest comes in twos of the dear one, of which a few are left."""
    cheap, dear = replace(priced("A", 1, "1"), available=299_990), replace(priced("B", 2, "3"), available=7)
    assert choose_packs(need=300_000, offered=[cheap, dear]).counts == (299_990, 5)
    short = choose_packs(need=300_005, offered=[cheap, dear])
    assert (short.counts, short.lacking) == ((299_990, 7), 1.0)


def test_packs_that_share_no_unit_are_told_apart_all_the_same() -> None:
    """√2 and 1: 7 of the one are 9.8995, 7 of the other 7; 9.9 needs 10 of 1 or 8 of √2 or a mixture."""
    root, one = Offered(sku="R", contents=2**0.5), Offered(sku="O", contents=1.0)
    load = choose_packs(need=9.9, offered=[root, one])
    counts = {(r, o): r * 2**0.5 + o for r in range(9) for o in range(12)}
    least = min(held for held in counts.values() if held >= 9.9)
    assert load.counts == next(pair for pair, held in counts.items() if held == least)
    assert load.lacking == 0.0


@pytest.mark.parametrize("contents", [(1.0, 2**0.5, 3**0.5), (1.0, 1 + 1 / 1021, 1 + 1 / 1031), (1.0, 1 + 3e-7, 1.7)])
def test_three_packs_that_share_no_unit_are_counted_in_a_very_fine_one(contents: tuple[float, ...]) -> None:
    """Irrational, or of a common unit under a millionth; held against every count that there is."""
    load = choose_packs(need=10.0, offered=[offer(name, held) for name, held in zip("ABC", contents, strict=True)])
    every = {
        (a, b, c): a * contents[0] + b * contents[1] + c * contents[2]
        for a in range(11)
        for b in range(11)
        for c in range(11)
    }
    assert load.contents == pytest.approx(min(held for held in every.values() if held >= 10.0), rel=1e-9)


def test_more_than_is_needed_is_bought_where_a_break_makes_it_cheaper() -> None:
    """300,000 at 1.00, or the pallet count of 300,100 at 0.90 each: 270,090."""
    broken = Price(price=Decimal("1.00"), breaks=(Break(from_count=300_100, price=Decimal("0.90")),))
    shelf = [Offered(sku="A", contents=1, price=broken), priced("B", 2, "2.10")]
    assert choose_packs(need=300_000, offered=shelf).counts == (300_100, 0)


# --- the clock


def test_aggregate_that_need_not_wait_is_cast_with_the_body() -> None:
    body = LayerWork(layer="body", parts_s=(2 * HOUR,), cure=curve(5), broadcast="sand")
    done = run(
        Plan(preparation_s=0.0, layers=(body,), returns=(), returns_from=0),
        hours=RoundTheClock(),
        course=SteadyCourse(temperature_k=293.15),
        column="likely",
        start_s=0.0,
    )
    applied, cast = done.steps
    assert cast.placed == applied.placed
    assert cast.cured_s == applied.cured_s == pytest.approx(7 * HOUR)


def test_aggregate_does_not_wait_for_a_floor_to_be_warm_again() -> None:
    """Laid in the last warm hour: under 10 °C the cure stands still, but the body sets all the same."""
    limits = Limits(low=283.15)
    body = LayerWork(
        layer="body", parts_s=(HOUR,), limits_k=limits, cure=curve(5), broadcast="sand", broadcast_wait=curve(0.5)
    )
    course = logged_course([(0.0, 293.15), (HOUR, 283.2), (HOUR + 60, 278.15)])
    done = run(
        Plan(preparation_s=0.0, layers=(body,), returns=(), returns_from=0),
        hours=RoundTheClock(),
        course=course,
        column="likely",
        start_s=0.0,
    )
    _, cast = done.steps
    assert cast.placed is not None
    wait_s = time_at(curve(0.5), temperature_k=278.15, column="high")
    assert cast.placed.until_s == pytest.approx(HOUR + wait_s, abs=60)  # but for a minute in which the floor cools
    assert (cast.cured_s, done.complete) == (None, False)


HALF_DAYS = Shifts(
    shifts=(Shift(days=tuple(Weekday), starts=time(6), ends=time(10)),), closed=(), zone=zone_named("UTC")
)
TWO_DAYS = LayerWork(
    layer="body", parts_s=(4 * HOUR, HOUR, HOUR), cure=curve(5), broadcast="sand", broadcast_wait=curve(0.5)
)


def test_aggregate_is_cast_in_each_of_the_shifts_that_pour_the_body() -> None:
    """Four hours on one day, two rooms without a stop on the next: half an hour after each begins and ends."""
    done = run(
        Plan(preparation_s=0.0, layers=(TWO_DAYS,), returns=(), returns_from=0),
        hours=HALF_DAYS,
        course=SteadyCourse(temperature_k=293.15),
        column="likely",
        start_s=0.0,
    )
    _, cast = done.steps
    assert cast.placed is not None
    assert len(cast.placed.stretches) == 2
    hours = [instant_s / HOUR for stretch in cast.placed.stretches for instant_s in stretch]
    assert hours == pytest.approx([6.5, 10.5, 30.5, 32.5])


def test_aggregate_that_frost_keeps_from_the_first_shift_is_never_cast() -> None:
    """The floor freezes a quarter of an hour after the first shift, before its last mix is ready for the aggregate."""
    course = logged_course([(0.0, 293.15), (10.25 * HOUR, 273.2), (10.3 * HOUR, 260.0), (11 * HOUR, 293.15)])
    done = run(
        Plan(preparation_s=0.0, layers=(TWO_DAYS,), returns=(), returns_from=0),
        hours=HALF_DAYS,
        course=course,
        column="likely",
        start_s=0.0,
    )
    applied, cast = done.steps
    assert applied.placed is not None
    assert (cast.placed, done.complete) == (None, False)


def test_work_without_a_return_has_no_latest_start_to_guess() -> None:
    nothing = Plan(preparation_s=HOUR, layers=(), returns=(), returns_from=None)
    coat = replace(nothing, layers=(LayerWork(layer="coat", parts_s=(HOUR,)),))
    for plan_ in (nothing, coat):
        found = about_latest_start(
            plan_, hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15), by_s=100 * HOUR
        )
        assert found is None


@pytest.mark.parametrize("temperature_k", [0.0, -1.0])
def test_a_row_of_a_table_is_above_absolute_zero(temperature_k: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        time_point(temperature_k=temperature_k, likely_s=60.0)
    assert refused.value.parameter == "temperature_k"


def test_a_floor_under_the_products_limit_does_not_age() -> None:
    found = milestone(
        curve=curve(5),
        column="likely",
        course=SteadyCourse(temperature_k=280.15),
        from_s=0.0,
        until_s=100.0,
        low_k=283.15,
    )
    assert (found.at_s, found.stopped_s, found.frozen_s) == (None, 100.0, None)


@pytest.mark.parametrize(
    ("temperature_k", "low_k", "high_k", "hours"),
    [
        (273.15, None, None, 5.0),  # freezing is below, not at
        (283.15, 283.15, None, 5.0),
        (303.15, None, 303.15, 5.0),
        (308.15, None, 303.15, 5.0),  # as at the limit
    ],
)
def test_a_limit_belongs_to_what_it_allows(
    temperature_k: float, low_k: float | None, high_k: float | None, hours: float
) -> None:
    level = time_curve([time_point(temperature_k=at, likely_s=5 * HOUR) for at in (270.15, 303.15)])
    found = milestone(
        curve=level,
        column="likely",
        course=SteadyCourse(temperature_k=temperature_k),
        from_s=0.0,
        until_s=100 * HOUR,
        low_k=low_k,
        high_k=high_k,
    )
    assert found.at_s == pytest.approx(hours * HOUR)
    assert (found.stopped_s, found.frozen_s) == (0.0, None)
    assert found.capped_s == (pytest.approx(hours * HOUR) if temperature_k > (high_k or 400) else 0.0)


@pytest.mark.parametrize(("below_k", "frozen"), [(0.01, True), (0.0, False)])
def test_what_freezes_before_its_milestone_is_ruined_from_then_on(below_k: float, frozen: bool) -> None:
    found = milestone(
        curve=curve(5), column="likely", course=SteadyCourse(temperature_k=273.15 - below_k), from_s=7.0, until_s=1e9
    )
    assert (found.at_s is None) == frozen
    assert found.frozen_s == (7.0 if frozen else None)


def test_a_wave_forgets_tables_when_it_has_seen_too_many() -> None:
    wave = daily_course(low_k=288.15, high_k=298.15, coldest_at_s=5 * HOUR, zone=zone_named("UTC"))
    curves = [curve(hours) for hours in range(1, MOST_TABLES + 4)]
    reached = [milestone(curve=one, column="likely", course=wave, from_s=0.0, until_s=1e9).at_s for one in curves]
    again = [milestone(curve=one, column="likely", course=wave, from_s=0.0, until_s=1e9).at_s for one in curves]
    assert again == reached
    assert reached == sorted(reached)  # type: ignore[type-var]
    assert len(wave.tables) <= MOST_TABLES + 1  # type: ignore[union-attr]


MORNINGS = Shift(days=tuple(Weekday), starts=time(6, 0), ends=time(10, 0))


def test_long_work_skips_a_shift_that_is_too_cold_all_through() -> None:
    """From Monday noon to Wednesday at 03:00 the floor is cold: the work goes on on Wednesday."""
    monday = datetime(2027, 3, 1, tzinfo=UTC).timestamp()
    hours = Shifts(shifts=[MORNINGS], closed=(), zone=zone_named("UTC"))
    warm, cold = 293.15, 278.15
    course = logged_course(
        [(monday, warm), (monday + 12 * HOUR, warm), (monday + 12.1 * HOUR, cold), (monday + 50.9 * HOUR, cold),
         (monday + 51 * HOUR, warm)]
    )  # fmt: skip
    site = Site(hours=hours, course=course, until_s=monday + 300 * HOUR)
    placed = site.place(monday, (6 * HOUR,), Limits(low=283.15))
    assert placed is not None
    assert [((a - monday) / HOUR, (b - monday) / HOUR) for a, b in placed.stretches] == [(6.0, 10.0), (54.0, 56.0)]


def test_work_round_the_clock_never_begins_on_a_floor_that_stays_cold() -> None:
    course = logged_course([(0.0, 293.15), (HOUR, 278.15)])
    site = Site(hours=RoundTheClock(), course=course, until_s=1000 * HOUR)
    assert site.place(2 * HOUR, (HOUR,), Limits(low=283.15)) is None


def test_the_latest_start_is_found_in_shifts_that_overlap() -> None:
    """06:00–10:00 and 08:00–12:00 are 06:00–12:00; 3 h of work, 5 h of cure: 12:30 asks for the day before."""
    late = Shift(days=tuple(Weekday), starts=time(8, 0), ends=time(12, 0))
    hours = Shifts(shifts=[MORNINGS, late], closed=(), zone=zone_named("UTC"))
    coat = LayerWork(layer="coat", parts_s=(3 * HOUR,), recoat_closes=curve(500), abrade_s=HOUR)
    plan_ = Plan(preparation_s=0.0, layers=(coat,), returns=(Return(traffic="foot", after=curve(5)),), returns_from=0)
    frosty = logged_course([(0.0, 268.15), (86_400.0, 293.15)])
    for day, hour, begun in ((1, 16.5, "2027-03-01T08:30"), (1, 12.5, "2027-02-28T09:00")):
        by = datetime(2027, 3, day, tzinfo=UTC).timestamp() + hour * HOUR
        for course in (SteadyCourse(temperature_k=293.15), frosty):
            found = latest_start(plan_, hours=hours, course=course, traffic="foot", by_s=by)
            assert found == datetime.fromisoformat(f"{begun}Z").timestamp()


# --- shapes


def test_an_angle_thinner_than_a_hair_is_no_floor() -> None:
    """A path of a nanometre along two walls: it crosses nothing, and its box is a room's, but it has no area."""
    thin = 1e-9
    corners = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (10.0 - thin, 10.0), (10.0 - thin, thin), (0.0, thin))
    with pytest.raises(DegenerateOutline):
        footprint(shape=Polygon(points_m=corners))


# --- chances


def test_what_both_divides_and_multiplies_is_divided_by_its_likely() -> None:
    rate = Triple(low=0.5, likely=0.6, high=0.8)
    both = SumChance(
        demands=[Demand(varying=0.0, fixed=100.0, divisor=Triple(low=4.0, likely=5.0, high=6.0), multiplier=rate)]
    )
    alone = SumChance(demands=[Demand(varying=0.0, fixed=20.0, multiplier=rate)])
    assert both.quantity(0.9) == pytest.approx(alone.quantity(0.9), rel=1e-12)
    assert np.allclose(both.suffice([11.0, 13.0]), alone.suffice([11.0, 13.0]))
