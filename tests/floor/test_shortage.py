"""The chance of running short: what it must always be, whatever the figures."""

from itertools import pairwise

import numpy as np
import pytest
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.layers.need import Demand
from gaugerake.floor.product import CountedIn
from gaugerake.floor.shortage.chance import Chance, all_suffice, chance_of, each_chance, uncertain
from gaugerake.floor.shortage.mixes import MixChance
from gaugerake.floor.shortage.sums import BatchChance, SumChance, _in_order
from gaugerake.floor.shortage.triangular import factor_nodes, triangular_nodes
from gaugerake.floor.values.range import Triple

EXACT, RANGED = Triple(low=0.1, likely=0.1, high=0.1), Triple(low=0.09, likely=0.1, high=0.105)


@st.composite
def triples(draw: st.DrawFn, around: float = 1.0) -> Triple:
    low = around * draw(st.floats(0.7, 1.0))
    likely = low * draw(st.sampled_from([1.0, 1.03, 1.2]))
    return Triple(low=low, likely=likely, high=likely * draw(st.sampled_from([1.0, 1.05, 1.4])))


SIZES = st.sampled_from([0.0, 0.03, 0.4, 2.0, 30.0])
SDS = st.sampled_from([0.0, 0.002, 0.03, 0.2, 0.3])


@st.composite
def mixes(draw: st.DrawFn) -> MixChance:
    spread = draw(triples(0.1))
    parts = draw(st.lists(st.tuples(SIZES, SIZES), min_size=1, max_size=4))
    parts.append((0.0, 0.2))
    demands = [Demand(varying=varying, fixed=fixed, divisor=spread, step=1) for varying, fixed in parts]
    return MixChance(demands=demands, sd_fraction=draw(SDS))


@st.composite
def sums(draw: st.DrawFn) -> SumChance | BatchChance:
    step = draw(st.sampled_from([None, 0.5, 4.0]))
    demands = [
        Demand(varying=0.0, fixed=draw(st.floats(1.0, 60.0)), divisor=draw(triples()), step=step)
        for _ in range(draw(st.integers(1, 4)))
    ]
    demands[0] = Demand(varying=0.0, fixed=20.0, multiplier=draw(triples()), step=step)
    return SumChance(demands=demands) if step is None else BatchChance(demands=demands, step=step)


CHANCES = st.one_of(mixes(), sums())


@given(CHANCES, st.floats(0.5, 0.999), st.floats(0.5, 0.999))
@settings(max_examples=150, deadline=None)
def test_more_confidence_never_orders_less(chance: Chance, one: float, other: float) -> None:
    assert chance.quantity(min(one, other)) <= chance.quantity(max(one, other))


@given(CHANCES, st.floats(0.5, 0.999))
@settings(max_examples=150, deadline=None)
def test_what_is_ordered_suffices_with_the_chance_asked(chance: Chance, asked: float) -> None:
    assert chance.suffice([chance.quantity(asked)])[0] >= asked - 2e-4


@given(st.one_of(mixes(), sums().filter(lambda chance: isinstance(chance, BatchChance))), st.floats(0.5, 0.999))
@settings(max_examples=100, deadline=None)
def test_one_whole_mix_or_batch_less_would_not_suffice(chance: Chance, asked: float) -> None:
    step = chance.step if isinstance(chance, BatchChance) else 1.0
    assert chance.suffice([chance.quantity(asked) - step])[0] < asked


@given(CHANCES)
@settings(max_examples=150, deadline=None)
def test_chances_rise_with_the_amount_from_never_to_always(chance: Chance) -> None:
    most = chance.quantity(0.999999) * 3 + 10
    chances = chance.suffice(np.linspace(0.0, most, 60).tolist())
    assert chances[0] == pytest.approx(0.0, abs=1e-9)
    assert chances[-1] == pytest.approx(1.0, abs=1e-9)
    assert all(after >= before - 1e-9 for before, after in pairwise(chances))


@given(mixes(), st.integers(0, 6))
@settings(max_examples=100, deadline=None)
def test_the_chances_at_each_thickness_add_up_to_the_chance(chance: MixChance, more: int) -> None:
    amount = chance.quantity(0.5) + more
    factors, weights = factor_nodes(sd_fraction=chance.sd_fraction, turns=chance.turns(amount))
    assert float(weights @ chance.suffice_at(amount, factors)) == pytest.approx(chance.suffice([amount])[0], abs=2e-3)


def test_a_thin_layer_whose_jumps_move_with_the_thickness() -> None:
    """Beside every yield and thickness of a grid, by SciPy's distributions: mixes are counted layer by layer."""
    volumes, sd = [(0.03, 0.4), (0.4, 0.0), (0.0, 0.2)], 0.3
    made = Triple(low=0.0875, likely=0.105, high=0.147)
    demands = [Demand(varying=varying, fixed=fixed, divisor=made, step=1) for varying, fixed in volumes]
    ranks = (np.arange(1500) + 0.5) / 1500
    width = made.high - made.low
    yields = scipy.stats.triang.ppf(ranks, (made.likely - made.low) / width, loc=made.low, scale=width)
    factors = scipy.stats.truncnorm.ppf(ranks, -3, 3, loc=1, scale=sd)[:, None]
    taken = sum(np.ceil((varying * factors + fixed) / yields) for varying, fixed in volumes)
    chance = MixChance(demands=demands, sd_fraction=sd)
    for count in (9, 11, 13):
        assert chance.suffice([count])[0] == pytest.approx(float((taken <= count).mean()), abs=1e-3)


@given(triples(), st.lists(st.floats(0.5, 2.0), max_size=9))
@settings(max_examples=100, deadline=None)
def test_the_weights_of_a_sum_add_up_to_one_and_its_mean_is_the_mean(spread: Triple, jumps: list[float]) -> None:
    values, weights = triangular_nodes(figure=spread, jumps=jumps)
    assert float(weights.sum()) == pytest.approx(1.0, abs=1e-9)
    assert float(values @ weights) == pytest.approx((spread.low + spread.likely + spread.high) / 3, rel=1e-9)


def test_an_exact_product_on_an_exact_thickness_takes_what_it_takes() -> None:
    exact = MixChance(demands=[Demand(varying=1.0, fixed=0.05, divisor=EXACT, step=1)], sd_fraction=0.0)
    assert [exact.quantity(chance) for chance in (0.5, 0.999)] == [11.0, 11.0]
    assert exact.suffice([10.0, 11.0]) == [0.0, 1.0]


def test_float_noise_in_a_need_of_whole_mixes_buys_nothing() -> None:
    noisy = MixChance(demands=[Demand(varying=0.0, fixed=0.1 * 9.000000000000002, divisor=EXACT)], sd_fraction=0.03)
    assert noisy.quantity(0.9) == 9.0


@pytest.mark.parametrize(
    ("demand", "sd_fraction", "expected"),
    [
        (Demand(varying=0.0, fixed=1.0), 0.03, False),
        (Demand(varying=0.0, fixed=1.0, divisor=EXACT), 0.03, False),
        (Demand(varying=0.0, fixed=1.0, divisor=RANGED), 0.0, True),
        (Demand(varying=0.0, fixed=1.0, multiplier=RANGED), 0.0, True),
        (Demand(varying=1.0, fixed=0.0, divisor=EXACT), 0.03, True),
        (Demand(varying=1.0, fixed=0.0, divisor=EXACT), 0.0, False),
    ],
)
def test_a_need_is_uncertain_by_a_range_or_by_the_thickness_of_a_body(
    demand: Demand, sd_fraction: float, expected: bool
) -> None:
    assert uncertain(demands=[demand], sd_fraction=sd_fraction) is expected


def test_two_bodies_share_the_thickness_and_so_run_short_together() -> None:
    bodies = [
        MixChance(demands=[Demand(varying=size, fixed=0.1, divisor=RANGED, step=1)], sd_fraction=0.05)
        for size in (2.0, 3.1)
    ]
    supplies: list[tuple[Chance, float]] = [(body, body.quantity(0.9)) for body in bodies]
    apart = bodies[0].suffice([supplies[0][1]])[0] * bodies[1].suffice([supplies[1][1]])[0]
    together = all_suffice(supplies=supplies, sd_fraction=0.05)
    assert (
        apart + 0.005
        < together
        <= min(body.suffice([amount])[0] for body, amount in zip(bodies, (s[1] for s in supplies), strict=True)) + 1e-6
    )


def test_products_without_a_common_thickness_are_independent() -> None:
    coat = SumChance(demands=[Demand(varying=0.0, fixed=50.0, divisor=RANGED)])
    body = MixChance(demands=[Demand(varying=2.0, fixed=0.1, divisor=RANGED, step=1)], sd_fraction=0.05)
    amounts = coat.quantity(0.8), body.quantity(0.8)
    expected = coat.suffice([amounts[0]])[0] * body.suffice([amounts[1]])[0]
    assert all_suffice(supplies=[(coat, amounts[0]), (body, amounts[1])], sd_fraction=0.05) == pytest.approx(expected)


def test_nothing_uncertain_always_suffices() -> None:
    assert all_suffice(supplies=[], sd_fraction=0.03) == 1.0
    assert each_chance(confidence=0.9, product_count=0) == 0.9


def test_the_same_demands_give_the_same_figures_every_time() -> None:
    demands = [Demand(varying=2.0, fixed=0.1, divisor=RANGED, step=1), Demand(varying=0.0, fixed=0.3, divisor=RANGED)]
    made = [MixChance(demands=demands, sd_fraction=0.04).chances.tobytes() for _ in range(3)]
    assert len(set(made)) == 1


@pytest.mark.parametrize(
    ("counted_in", "step", "kind"),
    [
        (CountedIn.MIX, 1.0, MixChance),
        (CountedIn.LIQUID, None, SumChance),
        (CountedIn.LIQUID, 0.5, BatchChance),
        (CountedIn.MASS, None, SumChance),
    ],
)
def test_each_way_of_counting_has_its_distribution(counted_in: CountedIn, step: float | None, kind: type) -> None:
    demand = Demand(varying=0.0, fixed=1.0, divisor=RANGED, step=step)
    assert type(chance_of(demands=[demand], counted_in=counted_in, sd_fraction=0.03)) is kind


@given(mixes(), st.integers(-2, 40))
@settings(max_examples=150, deadline=None)
def test_a_number_of_mixes_worked_out_alone_has_the_chance_that_it_has_among_all(chance: MixChance, more: int) -> None:
    """Of very many mixes only those asked about are worked out, from other sums over other pairs."""
    asked = [float(chance.base + more), chance.quantity(0.7), chance.quantity(0.9999)]
    together, quantity = chance.suffice(asked), chance.quantity(0.93)
    chance.chances = None
    assert chance.suffice(asked) == pytest.approx(together, abs=1e-9)
    assert chance.quantity(0.93) == quantity


def test_very_many_mixes_and_batches_are_worked_out_too() -> None:
    """200,000 mixes: a scale at which rounding no longer shows, so the chances are those of one great triangle."""
    body = Demand(varying=0.001, fixed=20_000.0, divisor=RANGED, step=1)
    great = MixChance(demands=[body], sd_fraction=0.03)
    smooth = SumChance(demands=[Demand(varying=0.0, fixed=20_000.0, divisor=RANGED)])
    assert great.chances is None
    assert great.quantity(0.9) == pytest.approx(smooth.quantity(0.9), abs=1.0)
    fine = [Demand(varying=0.0, fixed=2_000.0, divisor=RANGED, step=1.0) for _ in range(2)]
    batches, poured = BatchChance(demands=fine, step=1.0), SumChance(demands=fine)
    assert batches.quantity(0.9) == pytest.approx(poured.quantity(0.9), rel=2e-4)
    assert batches.chances[-1] == pytest.approx(1.0, abs=1e-9)


@given(
    few=st.lists(st.floats(0.0, 1e6), min_size=1, max_size=12),
    many=st.lists(
        st.tuples(st.integers(0, 11), st.integers(-9, 9) | st.integers(-3000, 3000)), min_size=1, max_size=600
    ),
)
def test_amounts_are_ordered_as_by_a_stable_sort(few: list[float], many: list[tuple[int, int]]) -> None:
    """Amounts that are equal, or that their last bits alone tell apart, as well."""
    bits = np.array(few).view(np.int64)
    amounts = np.array([max(int(bits[place % len(few)]) + off, 0) for place, off in many]).view(np.float64)
    assert _in_order(amounts).tolist() == sorted(range(len(amounts)), key=amounts.__getitem__)
