"""The unit choice out: which unit, how many digits."""

import math

import pytest

from gaugerake.measure.choice import SI, US, UnitChoice, choice
from gaugerake.measure.dimension import KINDS


def test_a_choice_is_found_by_its_name() -> None:
    assert choice("us") is US and choice("si") is SI
    assert (US.name, SI.name) == ("us", "si")


@pytest.mark.parametrize(
    ("kind", "us", "si"),
    [
        ("length", "ft", "m"),
        ("small-length", "in", "mm"),
        ("film", "mil", "um"),
        ("area", "ft2", "m2"),
        ("small-area", "in2", "cm2"),
        ("volume", "ft3", "L"),
        ("liquid", "gal", "L"),
        ("mass", "lb", "kg"),
        ("small-mass", "g", "g"),
        ("pressure", "psi", "MPa"),
        ("temperature", "degF", "degC"),
        ("temperature-difference", "delta_degF", "delta_degC"),
        ("duration", "h", "h"),
        ("minutes", "min", "min"),
        ("days", "d", "d"),
        ("spreading-rate", "ft2/gal", "m2/L"),
        ("areal-mass", "lb/ft2", "kg/m2"),
        ("moisture-emission", "lb/1000ft2/24h", "g/m2/24h"),
        ("area-rate", "ft2/h", "m2/h"),
        ("length-rate", "ft/h", "m/h"),
        ("mass-rate", "lb/h", "kg/h"),
        ("mix", "mix", "mix"),
        ("piece", "piece", "piece"),
        ("percent", "%", "%"),
        ("csp", "CSP", "CSP"),
        ("ph", "pH", "pH"),
        ("count", "1", "1"),
    ],
)
def test_each_kind_has_its_unit(kind: str, us: str, si: str) -> None:
    assert (US.unit(kind), SI.unit(kind)) == (us, si)
    assert (US.show(1.0, kind)[1], SI.show(1.0, kind)[1]) == (us, si)


def test_every_kind_is_in_the_list_above() -> None:
    assert len(KINDS) == 27


@pytest.mark.parametrize(
    ("shown_by", "value_si", "kind", "expected"),
    [
        (US, 0.3048, "length", (1.0, "ft")),
        (US, 1.0, "length", (3.28084, "ft")),  # 1/0.3048 = 3.280839895
        (US, 0.0047625, "small-length", (0.1875, "in")),
        (SI, 0.0047625, "small-length", (4.7625, "mm")),
        (US, 0.000127, "film", (5.0, "mil")),
        (US, 111.483648, "area", (1200.0, "ft2")),
        (SI, 111.483648, "area", (111.484, "m2")),
        (US, 0.003785411784, "liquid", (1.0, "gal")),
        (SI, 0.003785411784, "liquid", (3.78541, "L")),
        (US, 0.45359237, "mass", (1.0, "lb")),
        (SI, 28_957_980.6, "pressure", (28.958, "MPa")),
        (US, 28_957_980.6, "pressure", (4200.0, "psi")),  # 4200 * 6894.757293
        (US, 273.15, "temperature", (32.0, "degF")),
        (US, 255.372222222, "temperature", (0.0, "degF")),  # 459.67 * 5/9, to 12 digits
        (SI, 273.15, "temperature", (0.0, "degC")),
        (US, 294.261111111, "temperature", (70.0, "degF")),
        (US, 233.15, "temperature", (-40.0, "degF")),
        (US, 2.77777777778, "temperature-difference", (5.0, "delta_degF")),
        (SI, 300.2 - 300.2 + 4e-14, "temperature-difference", (0.0, "delta_degC")),
        (US, 5400.0, "duration", (1.5, "h")),
        (US, 5400.0, "minutes", (90.0, "min")),
        (US, 2_419_200.0, "days", (28.0, "d")),
        (SI, 1000.0, "spreading-rate", (1.0, "m2/L")),
        (US, 84.0, "percent", (84.0, "%")),
        (US, 1 / 3, "count", (0.333333, "1")),
        (US, 1234567.8, "count", (1234570.0, "1")),
    ],
)
def test_is_shown_in_its_unit_to_six_digits(
    shown_by: UnitChoice, value_si: float, kind: str, expected: tuple[float, str]
) -> None:
    assert shown_by.show(value_si, kind) == expected


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("shown_by", [US, SI], ids=["us", "si"])
def test_zero_has_no_sign(shown_by: UnitChoice, kind: str) -> None:
    assert all(math.copysign(1, shown_by.show(zero, kind)[0]) == 1 for zero in (0.0, -0.0) if kind != "temperature")
