"""Whole packs against an oracle that tries every count there is, and what the choice may never do."""

import itertools
import math
import random
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.floor.pack_by_table import table_best

from gaugerake.floor.packs.choice import Load, Offered, choose_packs, price_of
from gaugerake.floor.packs.search import Assortment, PackSearch
from gaugerake.floor.packs.size import Size
from gaugerake.floor.product import Break, Price

GALLON, LITRE = 0.003785411784, 0.001


def listed(price: str, **breaks: str) -> Price:
    """A price, and its breaks as ``from_20="84"``."""
    steps = tuple(Break(from_count=int(name[5:]), price=Decimal(value)) for name, value in breaks.items())
    return Price(price=Decimal(price), breaks=steps)


def offer(sku: str, contents: float, price: Price | None = None, available: int | None = None) -> Offered:
    return Offered(sku=sku, contents=contents, price=price, available=available)


# --- the oracle: every count of every sku, in exact fractions ----------------------------------------------------


def oracle(need: float, offered: Sequence[Offered]) -> tuple[int, ...]:
    """Counts in the order offered: cheapest, fewest packs, least over, most of the first sku; or all there is."""
    counts = [0] * len(offered)
    left = Fraction(need)
    guard = Fraction(need) * Fraction(1, 10**9)
    for with_price in (True, False):
        group = sorted((i for i, one in enumerate(offered) if (one.price is not None) == with_price), key=name(offered))
        if not group or left <= guard:
            continue
        chosen = best_of([offered[i] for i in group], left, guard)
        if chosen is None:
            chosen = tuple(offered[i].available or 0 for i in group)
        for index, count in zip(group, chosen, strict=True):
            counts[index] = count
            left -= count * Fraction(offered[index].contents)
    return tuple(counts)


def name(offered: Sequence[Offered]):  # type: ignore[no-untyped-def]
    return lambda index: offered[index].sku


def best_of(offered: Sequence[Offered], need: Fraction, guard: Fraction) -> tuple[int, ...] | None:
    ranges = []
    for one in offered:
        enough = math.ceil(need / Fraction(one.contents)) + 1
        most = max([enough, *(step.from_count for step in (one.price.breaks if one.price else ()))])
        ranges.append(range((most if one.available is None else min(most, one.available)) + 1))
    best = None
    for counts in itertools.product(*ranges):
        held = sum((count * Fraction(one.contents) for count, one in zip(counts, offered, strict=True)), Fraction(0))
        if held < need - guard:
            continue
        over = round(held - need, 6)
        cost = sum((paid(one, count) for one, count in zip(offered, counts, strict=True)), Decimal(0))
        key = (cost, sum(counts), over, tuple(-count for count in counts))
        if offered[0].price is None:
            key = (over, sum(counts), over, tuple(-count for count in counts))  # type: ignore[assignment]
        if best is None or key < best:
            best = key
    return None if best is None else tuple(-count for count in best[3])


def paid(one: Offered, count: int) -> Decimal:
    if one.price is None or count == 0:
        return Decimal(0)
    price = one.price.price
    for step in one.price.breaks:
        if count >= step.from_count:
            price = step.price
    return price * count


# --- examples ----------------------------------------------------------------------------------------------------


def test_more_is_bought_to_reach_a_break_where_that_is_cheaper() -> None:
    kits = [offer("B-1", 1, listed("90.00", from_20="84.00"))]
    assert choose_packs(need=18, offered=kits).counts == (18,)  # 1620.00 against 1680.00
    assert choose_packs(need=19, offered=kits).counts == (20,)  # 1710.00 against 1680.00


def test_a_break_beyond_the_stock_is_out_of_reach() -> None:
    assert choose_packs(need=19, offered=[offer("B-1", 1, listed("90", from_20="84"), available=19)]).counts == (19,)


def test_a_sku_without_stock_is_never_chosen() -> None:
    kits = [offer("A", 5, listed("10"), available=0), offer("B", 1, listed("90"))]
    assert choose_packs(need=5, offered=kits).counts == (0, 5)


def test_what_stock_does_not_cover_is_said_and_the_most_is_taken() -> None:
    kits = [offer("A", 5, listed("10"), available=2), offer("B", 1, listed("90"), available=3)]
    assert choose_packs(need=20, offered=kits) == Load(counts=(2, 3), contents=13.0, lacking=7.0)


@pytest.mark.parametrize("need", [0.0, -3.0])
def test_no_need_takes_no_packs(need: float) -> None:
    assert choose_packs(need=need, offered=[offer("A", 5, listed("10"))]) == Load(
        counts=(0,), contents=0.0, lacking=0.0
    )


def test_float_noise_buys_nothing() -> None:
    assert choose_packs(need=9.000000000000002, offered=[offer("A", 1, listed("10"))]).counts == (9,)
    assert choose_packs(need=6 * GALLON * (1 + 1e-12), offered=[offer("A", 2 * GALLON, listed("10"))]).counts == (3,)


def test_without_prices_the_least_is_left_over_then_the_packs_are_fewest() -> None:
    assert choose_packs(need=11, offered=[offer("A", 1), offer("B", 5)]).counts == (1, 2)
    assert choose_packs(need=9.5, offered=[offer("A", 2), offer("B", 5)]).counts == (0, 2)


def test_what_has_no_price_makes_up_only_what_priced_packs_cannot() -> None:
    mixed = [offer("A", 1), offer("B", 5, listed("999"))]
    assert choose_packs(need=11, offered=mixed).counts == (0, 3)
    limited = [offer("A", 1), offer("B", 5, listed("999"), available=2)]
    assert choose_packs(need=11, offered=limited).counts == (1, 2)


def test_ties_go_to_fewer_packs_then_to_less_left_over_then_to_the_first_sku() -> None:
    assert choose_packs(need=4, offered=[offer("A", 1, listed("5")), offer("B", 2, listed("10"))]).counts == (0, 2)
    same_cost = [offer("B", 4, listed("20")), offer("A", 5, listed("20"))]
    assert choose_packs(need=4, offered=same_cost).counts == (1, 0)
    linear = [offer("C", 15, listed("15")), offer("B", 10, listed("10")), offer("A", 5, listed("5"))]
    assert choose_packs(need=20, offered=linear).counts == (1, 0, 1)


def test_packs_in_gallons_and_litres_are_compared_exactly() -> None:
    both = [offer("G", GALLON, listed("40")), offer("L", 4 * LITRE, listed("41"))]
    assert choose_packs(need=1.5 * GALLON, offered=both).counts == (2, 0)
    assert choose_packs(need=3.9 * LITRE, offered=both).counts == (0, 1)


def test_a_price_with_more_decimals_than_the_currency_still_counts_exactly() -> None:
    fine = [offer("A", 1, listed("0.3334")), offer("B", 3, listed("1.0001"))]
    assert choose_packs(need=3, offered=fine).counts == (0, 1)
    cents = [offer("A", 1, listed("0.09")), offer("B", 3, listed("0.26"))]
    assert choose_packs(need=3, offered=cents).counts == (0, 1)


def test_the_price_of_a_break_holds_from_its_count_on() -> None:
    price = listed("90.00", from_20="84.00", from_50="80.00")
    assert [price_of(price=price, packs=packs) for packs in (1, 19, 20, 49, 50)] == [
        Decimal(words) for words in ("90.00", "90.00", "84.00", "84.00", "80.00")
    ]


# --- against the oracle ------------------------------------------------------------------------------------------

MONEY = st.integers(0, 60).map(lambda cents: Decimal(cents) / 4)
PRICES = st.builds(
    lambda price, steps: Price(
        price=price,
        breaks=tuple(Break(from_count=2 + 3 * place + start, price=each) for place, (start, each) in enumerate(steps)),
    ),
    MONEY,
    st.lists(st.tuples(st.integers(0, 2), MONEY), max_size=2),
)
STOCK = st.none() | st.integers(0, 6)


@st.composite
def shelves(draw: st.DrawFn) -> list[Offered]:
    count = draw(st.integers(1, 3))
    skus = draw(st.permutations("ABC"[:count]))
    priced = draw(st.sampled_from(["all", "none", "some"]))
    shelf = []
    for sku in skus:
        with_price = priced == "all" or (priced == "some" and draw(st.booleans()))
        contents = draw(st.sampled_from([1.0, 2.0, 2.5, 3.0, 5.0]))
        shelf.append(offer(sku, contents, draw(PRICES) if with_price else None, draw(STOCK)))
    return shelf


@given(shelves(), st.integers(1, 30).map(lambda halves: halves / 2))
@settings(max_examples=400, deadline=None)
def test_the_choice_is_the_best_of_all_there_are(shelf: list[Offered], need: float) -> None:
    assert choose_packs(need=need, offered=shelf).counts == oracle(need, shelf)


@given(shelves(), st.integers(1, 60).map(lambda halves: halves / 2))
@settings(max_examples=200, deadline=None)
def test_what_is_chosen_is_in_stock_and_covers_the_need_or_says_what_is_lacking(
    shelf: list[Offered], need: float
) -> None:
    load = choose_packs(need=need, offered=shelf)
    assert all(one.available is None or count <= one.available for one, count in zip(shelf, load.counts, strict=True))
    assert load.contents == sum(count * one.contents for one, count in zip(shelf, load.counts, strict=True))
    assert load.contents + load.lacking >= need * (1 - 1e-9)
    assert load.lacking == 0 or load.contents == sum((one.available or 0) * one.contents for one in shelf)


@given(shelves(), st.integers(1, 40).map(float), st.integers(1, 5).map(float))
@settings(max_examples=100, deadline=None)
def test_a_greater_need_never_costs_less(shelf: list[Offered], need: float, more: float) -> None:
    fewer, greater = (choose_packs(need=amount, offered=shelf) for amount in (need, need + more))
    if greater.lacking == 0 and all(one.price for one in shelf):
        costs = [sum(map(paid, shelf, load.counts), Decimal(0)) for load in (fewer, greater)]
        assert costs[0] <= costs[1]


@pytest.mark.parametrize("order", list(itertools.permutations(range(3))))
def test_the_order_in_which_skus_are_offered_changes_nothing(order: tuple[int, ...]) -> None:
    shelf = [offer("A", 1, listed("5")), offer("B", 2, listed("10")), offer("C", 3, listed("15"), available=4)]
    asked = choose_packs(need=17, offered=[shelf[place] for place in order])
    straight = choose_packs(need=17, offered=shelf)
    assert [asked.counts[order.index(place)] for place in range(3)] == list(straight.counts)


# --- great needs -------------------------------------------------------------------------------------------------

WITHOUT_END = 1 << 40


def shelf_of(chance: random.Random, *, spread: float, stock: tuple[int, ...]) -> list[Size]:
    """Eight sizes of up to 60 units whose unit prices lie within a spread, each with two breaks, some limited."""
    base = chance.randint(500, 3000)
    sizes = []
    for _ in range(8):
        units = chance.randint(1, 60)
        price = int(base * units * (1 + chance.uniform(-spread, spread)))
        first, second = chance.randint(5, 50), chance.randint(60, 250)
        tiers = (
            (0, first - 1, price),
            (first, second - 1, price * 97 // 100),
            (second, WITHOUT_END, price * 94 // 100),
        )
        most = chance.choice(stock)
        within = tuple((start, min(end, most), each) for start, end, each in tiers if start <= most)
        sizes.append(Size(units=units, tiers=within))
    return sizes


STOCKS = {"plenty": (WITHOUT_END, 1000), "some": (20, 100, 400), "little": (0, 1, 7, 60)}


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("spread", [0.05, 0.005, 0.0])
@pytest.mark.parametrize("stock", STOCKS)
def test_a_great_need_is_covered_as_a_table_over_every_quantity_covers_it(seed: int, spread: float, stock: str) -> None:
    chance = random.Random(f"{seed} {spread} {stock}")
    sizes = shelf_of(chance, spread=spread, stock=STOCKS[stock])
    need = min(20_000, chance.randint(1, sum(size.units * size.most for size in sizes)))
    found = PackSearch(Assortment(sizes), need=need, allowed=50_000).best()
    assert found is not None
    assert found == table_best(need=need, sizes=sizes)


@pytest.mark.parametrize("seed", range(6))
def test_without_prices_a_great_need_is_covered_as_by_the_table(seed: int) -> None:
    chance = random.Random(seed)
    sizes = [
        Size(units=units, tiers=((0, chance.choice([30, 200, WITHOUT_END]), units),))
        for units in chance.sample(range(2, 60), 8)
    ]
    need = chance.randint(1, min(20_000, sum(size.units * size.most for size in sizes)))
    assert PackSearch(Assortment(sizes), need=need, allowed=50_000).best() == table_best(need=need, sizes=sizes)


@pytest.mark.parametrize("seed", range(30))
@pytest.mark.parametrize("stock", STOCKS)
def test_the_work_does_not_grow_with_the_need(seed: int, stock: str) -> None:
    """Up to 50,000 packs; a count is weighed in about a microsecond."""
    chance = random.Random(seed)
    sizes = shelf_of(chance, spread=0.05, stock=STOCKS[stock])
    most = sum(size.units * size.most for size in sizes)
    search = PackSearch(Assortment(sizes), need=min(most, chance.randint(100_000, 1_500_000)), allowed=3_000)
    assert search.best() is not None
    assert search.budget.left > 0


class CountedSearch(PackSearch):
    """A search that counts its branches."""

    branches = 0

    def _branch(self, ranges: list[tuple[int, int]]) -> None:
        self.branches += 1
        super()._branch(ranges)


@pytest.mark.parametrize("seed", range(40))
def test_prices_alike_to_the_cent_need_few_branches(seed: int) -> None:
    """Every tier of every size is then within a cent of the best by its reduced cost: 3^8 choices of tiers."""
    chance = random.Random(seed)
    sizes, need = shelf_of(chance, spread=0.0, stock=STOCKS["plenty"]), chance.randint(100_000, 1_500_000)
    search = CountedSearch(Assortment(sizes), need=need, allowed=50_000)
    assert search.best() is not None
    assert search.branches <= 10


def test_more_than_all_there_is_is_not_covered() -> None:
    assert PackSearch(Assortment([Size(units=5, tiers=((0, 2, 7),))]), need=10, allowed=9).best() == (2,)
    assert PackSearch(Assortment([Size(units=5, tiers=((0, 2, 7),))]), need=11, allowed=9).best() is None
    assert table_best(need=11, sizes=[Size(units=5, tiers=((0, 2, 7),))]) is None


def test_packs_for_which_another_stands_in_are_not_weighed_over_and_over() -> None:
    """Two sizes of 55 units at one price: any of the one for as many of the other changes nothing but the sku."""
    rows = (
        (56, 35, 190, 1000, 141512, 137266, 133021),
        (56, 35, 109, 1000, 141512, 137266, 133021),
        (27, 17, 94, 100, 68229, 66182, 64135),
        (55, 6, 145, 1000, 138985, 134815, 130645),
        (55, 29, 71, WITHOUT_END, 138985, 134815, 130645),
        (27, 33, 202, 400, 68229, 66182, 64135),
    )
    sizes = [
        Size(units=units, tiers=((0, second - 1, one), (second, third - 1, two), (third, most, three)))
        for units, second, third, most, one, two, three in rows
    ]
    search = PackSearch(Assortment(sizes), need=147_147, allowed=5_000)
    assert search.best() == table_best(need=147_147, sizes=sizes)
    assert search.budget.left > 0


def test_who_may_weigh_nothing_fills_up_with_one_size() -> None:
    """977 by twelves at 99 are 82 packs for 8118, though 81 of them and a five for 43 cover it for 8062."""
    sizes = [Size(units=5, tiers=((0, WITHOUT_END, 43),)), Size(units=12, tiers=((0, WITHOUT_END, 99),))]
    assert PackSearch(Assortment(sizes), need=977, allowed=50_000).best() == (1, 81)
    assert PackSearch(Assortment(sizes), need=977, allowed=0).best() == (0, 82)


@pytest.mark.parametrize("allowed", [0, 5, 50, 500])
def test_who_may_weigh_little_still_covers_the_need(allowed: int) -> None:
    """Prices alike to the cent, each with two breaks: what takes longest."""
    for seed in range(10):
        sizes, need = shelf_of(random.Random(seed), spread=0.0, stock=STOCKS["plenty"]), 60_000
        found = PackSearch(Assortment(sizes), need=need, allowed=allowed).best()
        best = PackSearch(Assortment(sizes), need=need, allowed=50_000).best()
        assert found is not None
        assert best is not None
        assert sum(size.units * count for size, count in zip(sizes, found, strict=True)) >= need
        costs = [sum(size.cost(count) for size, count in zip(sizes, counts, strict=True)) for counts in (best, found)]
        assert costs[0] <= costs[1] <= costs[0] * 1.01
