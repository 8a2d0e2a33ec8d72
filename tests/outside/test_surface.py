"""The surface and the strength under it, against ICRI, ASTM and ACI figures."""

import math

import pytest

from gaugerake.floor.job import PullOff
from gaugerake.floor.slab.pull_off import judge_pull_off
from gaugerake.floor.slab.strength import expected_strength, strength_fraction
from gaugerake.floor.slab.surface import Preparation, preparation
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.range import Limits

PSI = 0.45359237 * 9.80665 / 0.0254**2
DAY_S = 86_400.0


@pytest.mark.parametrize(("days", "fraction"), [(7, 0.7035), (28, 1.0072)])
def test_strength_by_age(days: float, fraction: float) -> None:
    """ACI 209R, moist cured, Type I cement, f(t) / f28 = t / (4 + 0.85 t) (from memory).

    By hand: 7 / (4 + 5.95) = 0.70352; 28 / (4 + 23.8) = 1.00719.
    """
    assert strength_fraction(age_s=days * DAY_S) == pytest.approx(fraction, abs=5e-5)


def test_strength_taken_on_from_a_test_at_seven_days() -> None:
    """3000 psi at 7 days: 3000 · (28 / 27.8) / (7 / 9.95) = 3000 · 1.00719 / 0.70352 = 4294.96 psi at 28 (by hand)."""
    found = expected_strength(strength_pa=3000 * PSI, tested_age_s=7 * DAY_S, age_s=28 * DAY_S)
    assert found is not None
    assert found / PSI == pytest.approx(4294.96, abs=0.01)


def test_the_curve_begins_with_the_first_day() -> None:
    assert expected_strength(strength_pa=1e6, tested_age_s=DAY_S, age_s=28 * DAY_S) is not None
    assert expected_strength(strength_pa=1e6, tested_age_s=DAY_S - 1, age_s=28 * DAY_S) is None


@pytest.mark.parametrize(
    ("tests_psi", "verdict"),
    [
        ((200, 200, 200), Verdict.GO),
        ((260, 190, 160), Verdict.GO),  # mean 203.3, weakest 160 over 150
        ((250, 240, 149), Verdict.FIX),  # mean 213, but the weakest under 0.75 · 200 = 150
        ((199, 200, 200), Verdict.FIX),  # mean 199.67
    ],
)
def test_pull_off_by_mean_and_weakest(tests_psi: tuple[float, ...], verdict: Verdict) -> None:
    """A limit of 200 psi; no single test under three quarters of it (common practice, no source)."""
    tests = [PullOff(strength_pa=psi * PSI) for psi in tests_psi]
    judged = judge_pull_off(tests=tests, limit_pa=200 * PSI)
    assert judged.verdict is verdict
    assert judged.mean_pa == pytest.approx(math.fsum(tests_psi) / 3 * PSI)


@pytest.mark.parametrize(
    ("csp", "low", "high", "method"),
    [
        (1, 2, 3, Preparation.GRIND),  # grinding reaches CSP 1 to 3
        (2, 3, 5, Preparation.BLAST),  # shot blasting 2 to 8
        (3, 5, 7, Preparation.BLAST_OR_SCARIFY),  # scarifying 4 to 8
        (6, 9, 10, Preparation.MILL),  # scabbling and milling 8 to 10
    ],
)
def test_which_preparation_reaches_a_profile(csp: int, low: float, high: float, method: Preparation) -> None:
    """ICRI 310.2R, the table of methods (from memory)."""
    assert preparation(csp=csp, limits=Limits(low=low, high=high)) is method
