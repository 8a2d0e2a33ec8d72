"""The chance of running short against SciPy's distributions, and against a million seeded draws of the whole model.

The draws are an implementation of their own, which shares nothing with the code that it checks: it rolls a yield, the
spreading rates and a thickness for each job, counts whole mixes and batches, and looks how often they are enough. A
million draws have a standard error of 0.05 points at the middle; what is asked is 0.5 points, what is held is 0.2.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import stats

from gaugerake.floor.layers.need import Demand
from gaugerake.floor.product import CountedIn
from gaugerake.floor.shortage.chance import Chance, all_suffice, chance_of, each_chance
from gaugerake.floor.values.range import Triple

DRAWS = 1_000_000
HELD = 0.002
CONFIDENCES = (0.5, 0.75, 0.9, 0.979, 0.999)

Draws = NDArray[np.float64]


@dataclass(frozen=True)
class Layer:
    """A layer in the words of the trade: ``by_thickness`` + ``else_`` by a rate, rounded up to ``step``."""

    rate: tuple[float, float, float]
    by_thickness: float = 0.0
    else_: float = 0.0
    step: float | None = None


@dataclass(frozen=True)
class Product:
    counted_in: CountedIn
    layers: tuple[Layer, ...]


def mixes(spread: tuple[float, float, float], *volumes: tuple[float, float]) -> Product:
    return Product(
        CountedIn.MIX, tuple(Layer(spread, by_thickness=poured, else_=rest, step=1.0) for poured, rest in volumes)
    )


def liquid(*layers: tuple[float, tuple[float, float, float]], step: float | None = None) -> Product:
    return Product(CountedIn.LIQUID, tuple(Layer(rate, else_=area, step=step) for area, rate in layers))


def aggregate(*layers: tuple[float, tuple[float, float, float]]) -> Product:
    return Product(CountedIn.MASS, tuple(Layer(rate, else_=area) for area, rate in layers))


# --- a million jobs ----------------------------------------------------------------------------------------------


def rolled(chance: np.random.Generator, spread: tuple[float, float, float]) -> Draws:
    low, likely, high = spread
    return chance.triangular(low, likely, high, DRAWS) if low < high else np.full(DRAWS, likely)


def thicknesses(chance: np.random.Generator, sd: float) -> Draws:
    """Normal about 1; what falls outside three standard deviations is drawn again."""
    if sd == 0:
        return np.ones(DRAWS)
    z = chance.standard_normal(DRAWS)
    while (outside := np.abs(z) > 3).any():
        z[outside] = chance.standard_normal(int(outside.sum()))
    return 1 + sd * z


def taken(chance: np.random.Generator, product: Product, thickness: Draws) -> Draws:
    """What each of the jobs takes of a product: one yield for all its layers, a rate for each."""
    one_yield = rolled(chance, product.layers[0].rate)
    total = np.zeros(DRAWS)
    for layer in product.layers:
        quantity = layer.by_thickness * thickness + layer.else_
        if product.counted_in is CountedIn.MIX:
            need = quantity / one_yield
        elif product.counted_in is CountedIn.LIQUID:
            need = quantity / rolled(chance, layer.rate)
        else:
            need = quantity * rolled(chance, layer.rate)
        total += need if layer.step is None else np.ceil(need / layer.step) * layer.step
    return total


def ours(product: Product, sd: float) -> Chance:
    demands = []
    for layer in product.layers:
        spread = Triple(low=layer.rate[0], likely=layer.rate[1], high=layer.rate[2])
        mass = product.counted_in is CountedIn.MASS
        demands.append(
            Demand(
                varying=layer.by_thickness,
                fixed=layer.else_,
                divisor=None if mass else spread,
                multiplier=spread if mass else None,
                step=layer.step,
            )
        )
    return chance_of(demands=demands, counted_in=product.counted_in, sd_fraction=sd)


BODY = (0.0104, 0.0109, 0.0115)
MODEL: dict[str, tuple[Product, float]] = {
    "a body alone": (mixes(BODY, (0.6, 0.07)), 0.04),
    "repair, cove and body of one product": (mixes(BODY, (0.0, 0.013), (0.0, 0.041), (0.6, 0.07)), 0.04),
    "two bodies and repair of one product": (
        mixes((0.0094, 0.0098, 0.0102), (0.3, 0.05), (0.25, 0.0), (0.0, 0.02)),
        0.05,
    ),
    "a great body": (mixes(BODY, (9.0, 1.1)), 0.03),
    "a small repair": (mixes(BODY, (0.0, 0.0112)), 0.03),
    "a thickness kept closely": (mixes(BODY, (0.6, 0.07), (0.0, 0.02)), 0.002),
    "a thickness hardly kept": (mixes(BODY, (0.6, 0.07), (0.0, 0.033)), 0.25),
    "an exact yield": (mixes((0.0109, 0.0109, 0.0109), (0.6, 0.07), (0.0, 0.02)), 0.04),
    "a yield with its mode at an end": (mixes((0.0104, 0.0104, 0.0125), (0.6, 0.07), (0.0, 0.033)), 0.04),
    "a cove as large as the body": (mixes(BODY, (0.6, 0.07), (0.0, 0.52)), 0.04),
    "a coat": (liquid((120.0, (3240.0, 3706.0, 4270.0))), 0.03),
    "two coats": (liquid((120.0, (3240.0, 3706.0, 4270.0)), (120.0, (5600.0, 6430.0, 7388.0))), 0.03),
    "primer and two coats in batches": (
        liquid(
            (120.0, (6258.0, 6995.0, 7854.0)),
            (120.0, (3240.0, 3706.0, 4270.0)),
            (120.0, (5600.0, 6430.0, 7388.0)),
            step=0.00284,
        ),
        0.03,
    ),
    "two coats whose modes are at an end": (
        liquid((90.0, (3000.0, 3000.0, 4300.0)), (90.0, (5000.0, 6600.0, 6600.0))),
        0.03,
    ),
    "five coats": (liquid(*[(60.0, (3000.0 + 300 * n, 3600.0 + 250 * n, 4100.0 + 300 * n)) for n in range(5)]), 0.03),
    "a broadcast": (aggregate((115.0, (3.8, 4.5, 5.4))), 0.03),
    "two broadcasts": (aggregate((115.0, (2.4, 3.1, 3.8)), (115.0, (2.9, 3.6, 4.3))), 0.03),
}


@pytest.fixture(scope="module", params=MODEL)
def drawn(request: pytest.FixtureRequest) -> tuple[Chance, Draws]:
    """A product's chances, and what a million jobs take of it, from the least up."""
    product, sd = MODEL[request.param]
    chance = np.random.default_rng(20270305)
    needs = np.sort(taken(chance, product, thicknesses(chance, sd)))
    return ours(product, sd), needs


def enough(needs: Draws, amount: float) -> float:
    """How often an amount was enough; noise in the last digits of a batch's multiple is none."""
    return float(np.searchsorted(needs, amount * (1 + 1e-9), side="right")) / len(needs)


def test_the_chance_that_an_amount_suffices(drawn: tuple[Chance, Draws]) -> None:
    chance, needs = drawn
    amounts = np.linspace(needs[0] * 0.99, needs[-1] * 1.01, 41).tolist()
    off = [abs(found - enough(needs, amount)) for found, amount in zip(chance.suffice(amounts), amounts, strict=True)]
    assert max(off) < HELD


@pytest.mark.parametrize("confidence", CONFIDENCES)
def test_the_quantity_that_suffices_with_a_confidence(drawn: tuple[Chance, Draws], confidence: float) -> None:
    chance, needs = drawn
    quantity = chance.quantity(confidence)
    assert enough(needs, quantity) > confidence - HELD
    just_less = float(needs[np.searchsorted(needs, quantity * (1 - 1e-6)) - 1]) if quantity > needs[0] else 0.0
    assert enough(needs, just_less) < confidence + HELD


JOBS: dict[str, tuple[tuple[str, ...], float]] = {
    "body and coat": (("a body alone", "a coat"), 0.04),
    "two products that share the thickness": (("a body alone", "two bodies and repair of one product"), 0.04),
    "three that share it, and what goes over them": (
        ("a body alone", "an exact yield", "repair, cove and body of one product", "two coats", "a broadcast"),
        0.04,
    ),
    "two of exact yield": (("an exact yield", "an exact yield"), 0.04),
}


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("confidence", [0.5, 0.9, 0.99])
def test_the_chance_that_nothing_of_an_order_runs_short(job: str, confidence: float) -> None:
    names, sd = JOBS[job]
    products = [MODEL[name][0] for name in names]
    chances = [ours(product, sd) for product in products]
    each = each_chance(confidence=confidence, product_count=len(products))
    amounts = [one.quantity(each) for one in chances]
    chance = np.random.default_rng(31)
    thickness = thicknesses(chance, sd)
    good = np.ones(DRAWS, dtype=bool)
    for product, amount in zip(products, amounts, strict=True):
        good &= taken(chance, product, thickness) <= amount * (1 + 1e-9)
    together = all_suffice(supplies=list(zip(chances, amounts, strict=True)), sd_fraction=sd)
    assert together == pytest.approx(float(good.mean()), abs=HELD)
    assert together >= confidence - 1e-3  # whole mixes and a shared thickness can only help


# --- SciPy's own -------------------------------------------------------------------------------------------------


def triangular(low: float, likely: float, high: float) -> stats.rv_continuous:
    return stats.triang((likely - low) / (high - low), loc=low, scale=high - low)


def test_a_coat_is_the_reciprocal_of_scipys_triangular() -> None:
    rate = triangular(3240.0, 3706.0, 4270.0)
    coat = ours(liquid((120.0, (3240.0, 3706.0, 4270.0))), 0.0)
    for confidence in CONFIDENCES:
        assert coat.quantity(confidence) == pytest.approx(120.0 / rate.ppf(1 - confidence), rel=1e-4)
    amounts = [0.029, 0.031, 0.033, 0.036]
    assert coat.suffice(amounts) == pytest.approx([rate.sf(120.0 / amount) for amount in amounts], abs=1e-6)


def test_a_broadcast_is_scipys_triangular() -> None:
    rate = triangular(3.8, 4.5, 5.4)
    sand = ours(aggregate((115.0, (3.8, 4.5, 5.4))), 0.0)
    for confidence in CONFIDENCES:
        assert sand.quantity(confidence) == pytest.approx(115.0 * rate.ppf(confidence), rel=1e-4)


def test_whole_mixes_of_a_repair_are_steps_of_scipys_triangular() -> None:
    product = ours(mixes(BODY, (0.0, 0.5)), 0.0)
    amounts = [43.0, 44.0, 45.0, 46.0, 47.0, 48.0, 49.0]
    assert product.suffice(amounts) == pytest.approx([triangular(*BODY).sf(0.5 / n) for n in amounts], abs=1e-6)


def test_a_body_of_exact_yield_is_steps_of_scipys_truncated_normal() -> None:
    factor = stats.truncnorm(-3, 3, loc=1.0, scale=0.04)
    body = ours(mixes((0.01, 0.01, 0.01), (0.6, 0.05)), 0.04)
    amounts = [float(n) for n in range(57, 75)]
    assert body.suffice(amounts) == pytest.approx([factor.cdf((0.01 * n - 0.05) / 0.6) for n in amounts], abs=1e-6)


@pytest.mark.parametrize(("confidence", "quantile"), [(0.9, 1.281552), (0.95, 1.644854), (0.99, 2.326348)])
def test_a_great_body_of_exact_yield_goes_by_the_normal_quantiles(confidence: float, quantile: float) -> None:
    """One-sided normal quantiles as any table prints them (here SciPy's); cut off at ±3 they
    come down by 0.5, 0.7 and 2.0 % (SciPy's truncnorm, held below to 0.001)."""
    body = ours(mixes((0.01, 0.01, 0.01), (1000.0, 0.0)), 0.03)
    sigmas = (body.quantity(confidence) / 100_000 - 1) / 0.03
    assert stats.norm.ppf(confidence) == pytest.approx(quantile, abs=1e-6)
    assert sigmas == pytest.approx(quantile, rel=0.021)
    assert sigmas == pytest.approx(float(stats.truncnorm.ppf(confidence, -3, 3)), abs=0.001)


def test_yield_and_thickness_together_are_scipys_convolution() -> None:
    """Volume over yield is at most n when the factor is at most (n·y − c) / v: SciPy's cdf averaged over its pdf."""
    yields, factor = triangular(*BODY), stats.truncnorm(-3, 3, loc=1.0, scale=0.04)
    y = np.linspace(BODY[0], BODY[2], 20_001)
    body = ours(mixes(BODY, (0.6, 0.07)), 0.04)
    for mixes_had in (56.0, 60.0, 62.0, 64.0, 67.0, 70.0):
        expected = np.trapezoid(yields.pdf(y) * factor.cdf((mixes_had * y - 0.07) / 0.6), y)
        assert body.suffice([mixes_had])[0] == pytest.approx(float(expected), abs=2e-5)


def test_an_order_of_five_at_ninety_percent_asks_979_of_each() -> None:
    """0.9 for the order of five independent products means 0.9791 each: 0.9791⁵ = 0.9."""
    assert each_chance(confidence=0.9, product_count=5) == pytest.approx(0.9791, abs=5e-5)


def test_five_independent_products_at_that_chance_make_the_order() -> None:
    each = each_chance(confidence=0.9, product_count=5)
    supplies: Sequence[tuple[Chance, float]] = [
        (coat := ours(liquid((90.0 + n, (3000.0, 3500.0, 4100.0))), 0.0), coat.quantity(each)) for n in range(5)
    ]
    assert all_suffice(supplies=supplies, sd_fraction=0.03) == pytest.approx(0.9, abs=2e-4)
