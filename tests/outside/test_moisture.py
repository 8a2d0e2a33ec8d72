"""Moisture in slabs against ASTM F1869 and F2170, worked by hand."""

import pytest

from gaugerake.floor.job import DriesFrom
from gaugerake.floor.slab.moisture import (
    deep_enough,
    dish_emission,
    exposure_counts,
    moisture_test_count,
    probe_depth,
)

FT2 = 0.3048**2
LB = 0.45359237
IN = 0.0254
LB_PER_1000FT2_24H = LB / (1000 * FT2) / 86_400
G_PER_M2_24H = 1e-3 / 86_400


def test_the_published_dish() -> None:
    """ASTM F1869: 3.0 g in 72 h over 0.44486 ft²; published worked results are 4.95 to 4.956 (secondary).

    By hand: 24 000 · 3.0 / (453.59237 · 0.44486 · 72) = 72 000 / 14 528.49 = 4.9558 lb/1000 ft²/24 h.
    """
    rate = dish_emission(gain_kg=0.0030, exposure_hours=72, area_m2=0.44486 * FT2)
    assert rate / LB_PER_1000FT2_24H == pytest.approx(4.9558, abs=5e-5)


@pytest.mark.parametrize(
    ("gain_g", "hours", "area_ft2", "expected"),
    [
        (3.0, 60, 0.44486, 5.9469),  # 72 000 / (453.59237 · 0.44486 · 60) = 72 000 / 12 107.07
        (1.8, 66, 0.44486, 3.2438),  # 43 200 / (453.59237 · 0.44486 · 66) = 43 200 / 13 317.78
        (7.25, 72, 0.5, 10.6556),  # 174 000 / (453.59237 · 0.5 · 72) = 174 000 / 16 329.33
    ],
)
def test_dishes_by_hand(gain_g: float, hours: float, area_ft2: float, expected: float) -> None:
    """MVER = 24 000 · g / (453.59237 · ft² · h), ASTM F1869."""
    rate = dish_emission(gain_kg=gain_g / 1000, exposure_hours=hours, area_m2=area_ft2 * FT2)
    assert rate / LB_PER_1000FT2_24H == pytest.approx(expected, abs=5e-4)


def test_one_pound_is_4_88_grams() -> None:
    """1 lb/1000 ft²/24 h = 453.59237 g / 92.90304 m² = 4.88243 g/m²/24 h, from the units."""
    pound_in_grams = LB_PER_1000FT2_24H / G_PER_M2_24H
    assert pound_in_grams == pytest.approx(4.88243, abs=5e-6)
    dish = dish_emission(gain_kg=0.45359237, exposure_hours=24, area_m2=92.90304)
    assert dish / G_PER_M2_24H == pytest.approx(4.88243, abs=5e-6)


@pytest.mark.parametrize(("hours", "counts"), [(59.9, False), (60, True), (66, True), (72, True), (72.1, False)])
def test_a_dish_stands_for_60_to_72_hours(hours: float, counts: bool) -> None:
    """ASTM F1869."""
    assert exposure_counts(hours) is counts


@pytest.mark.parametrize(
    ("area_ft2", "count"),
    [(1, 3), (999, 3), (1000, 3), (1001, 4), (2000, 4), (2001, 5), (2500, 5), (10_000, 12), (10_001, 13)],
)
def test_how_many_tests(area_ft2: float, count: int) -> None:
    """ASTM F2170 (secondary) and F1869: three for the first 1000 ft², one for each further 1000 ft² or part."""
    assert moisture_test_count(area_ft2 * FT2) == count


@pytest.mark.parametrize(
    ("thickness_m", "dries_from", "depth_m"),
    [
        (5 * IN, DriesFrom.ONE_SIDE, 2.0 * IN),
        (5 * IN, DriesFrom.BOTH_SIDES, 1.0 * IN),
        (0.150, DriesFrom.ONE_SIDE, 0.060),
        (0.150, DriesFrom.BOTH_SIDES, 0.030),
    ],
)
def test_how_deep_a_probe_sits(thickness_m: float, dries_from: DriesFrom, depth_m: float) -> None:
    """ASTM F2170: 40 % of the slab drying from one side, 20 % from both."""
    assert probe_depth(slab_thickness_m=thickness_m, dries_from=dries_from) == pytest.approx(depth_m, rel=1e-12)


@pytest.mark.parametrize(("depth_mm", "enough"), [(80, True), (60, True), (57, True), (56.9, False), (30, False)])
def test_a_probe_more_than_a_twentieth_too_shallow_does_not_count(depth_mm: float, enough: bool) -> None:
    """60 mm is asked in a slab of 150 mm drying from one side; 57 mm is 5 % less (common practice, no source)."""
    assert deep_enough(depth_m=depth_mm / 1000, needed_m=0.060) is enough
