"""Paths that few jobs take: what is worked the long way round, never ends, or is only just a shape."""

from dataclasses import replace
from decimal import Decimal

import numpy as np
import pytest

from gaugerake.floor import pack
from gaugerake.floor.backward import about_latest_start
from gaugerake.floor.clock import run
from gaugerake.floor.course import SteadyCourse, logged_course
from gaugerake.floor.cure import TimeCurve, time_curve, time_point
from gaugerake.floor.errors import DegenerateOutline, OutOfRange
from gaugerake.floor.job import Polygon
from gaugerake.floor.pack import Offered, choose_packs
from gaugerake.floor.pack_bound import Size, pieces
from gaugerake.floor.shape import plan
from gaugerake.floor.shifts import RoundTheClock
from gaugerake.floor.sum_chance import SumChance
from gaugerake.floor.system import Limits, Price, Triple
from gaugerake.floor.takeoff import Demand
from gaugerake.floor.timetable import LayerWork, Plan

HOUR = 3600.0


def curve(hours: float) -> TimeCurve:
    return time_curve([time_point(temperature_k=293.15, likely_s=hours * HOUR)])


def offer(sku: str, contents: float) -> Offered:
    return Offered(sku=sku, contents=contents)


def priced(sku: str, contents: float, price: str) -> Offered:
    return Offered(sku=sku, contents=contents, price=Price(price=Decimal(price)))


# --- packs


SHELF = [priced("A", 5, "43"), priced("B", 12, "99"), priced("C", 1, "9.5")]


@pytest.mark.parametrize("need", [11, 977, 20_003])
def test_the_table_chooses_as_the_search_does(monkeypatch: pytest.MonkeyPatch, need: int) -> None:
    searched = choose_packs(need=need, offered=SHELF)
    monkeypatch.setattr(pack, "_WEIGHED", 1)
    assert choose_packs(need=need, offered=SHELF) == searched


@pytest.mark.parametrize("need", [250_001, 400_001, 3_000_017, 84_000_000])
@pytest.mark.parametrize(
    "shelf", [SHELF, [SHELF[2]], [offer("D", 3**0.5), offer("E", 5)], [offer("E", 5), offer("F", 64)]]
)
def test_a_need_too_great_for_the_table_is_covered_at_about_the_least_cost(
    monkeypatch: pytest.MonkeyPatch, shelf: list[Offered], need: int
) -> None:
    monkeypatch.setattr(pack, "_WEIGHED", 1)
    load = choose_packs(need=need, offered=shelf)
    assert load.lacking == 0.0
    assert need <= load.contents <= need + max(one.contents for one in shelf)
    if all(one.price for one in shelf):
        least = min(one.price.price / Decimal(one.contents) for one in shelf if one.price) * need
        paid = sum(count * one.price.price for count, one in zip(load.counts, shelf, strict=True) if one.price)
        assert least <= paid <= least * Decimal("1.002")


def test_absurd_prices_are_compared_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """To fewer digits than they have: a pack of 5 at 190 million each is told from the others, the last cent is not."""
    monkeypatch.setattr(pack, "_WEIGHED", 1)
    dear = [priced("A", 5, "949999999.9999"), priced("B", 4, "800000000.0001"), priced("C", 1, "200000000.5")]
    assert choose_packs(need=20_003, offered=dear).counts == (4000, 0, 3)


def test_the_little_that_a_dearer_pack_has_in_stock_is_taken_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of the cheap one all 299,990 are taken; the rest comes in twos of the dear one, of which a few are left."""
    monkeypatch.setattr(pack, "_WEIGHED", 1)
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


def test_a_size_that_is_used_up_where_a_tier_begins_leaves_one_piece_there() -> None:
    small = Size(units=5, tiers=((0, 10, 10),))
    broken = Size(units=1, tiers=((0, 49, 9), (50, 99, 3)))
    chain = pieces([small, broken])
    assert [piece[0] for piece in chain] == sorted({piece[0] for piece in chain})
    # up to 49 units only the small ones are as cheap as 2 each; from 50 on 1 costs 3 if 50 of them are bought
    assert chain[0] == (0, 0, 0, 10, 5)


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


def test_aggregate_is_never_cast_into_a_body_that_the_cold_stops() -> None:
    """Laid in the last warm hour: under 10 °C it does not age, so it never gets ready for the aggregate."""
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
    applied, cast = done.steps
    assert applied.placed is not None
    assert (cast.placed, cast.cured_s, done.complete) == (None, None, False)


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


# --- shapes


def test_an_angle_thinner_than_a_hair_is_no_floor() -> None:
    """A path of a nanometre along two walls: it crosses nothing, and its box is a room's, but it has no area."""
    thin = 1e-9
    corners = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (10.0 - thin, 10.0), (10.0 - thin, thin), (0.0, thin))
    with pytest.raises(DegenerateOutline):
        plan(shape=Polygon(points_m=corners))


# --- chances


def test_what_both_divides_and_multiplies_is_divided_by_its_likely() -> None:
    rate = Triple(low=0.5, likely=0.6, high=0.8)
    both = SumChance(
        demands=[Demand(varying=0.0, fixed=100.0, divisor=Triple(low=4.0, likely=5.0, high=6.0), multiplier=rate)]
    )
    alone = SumChance(demands=[Demand(varying=0.0, fixed=20.0, multiplier=rate)])
    assert both.quantity(0.9) == pytest.approx(alone.quantity(0.9), rel=1e-12)
    assert np.allclose(both.suffice([11.0, 13.0]), alone.suffice([11.0, 13.0]))
