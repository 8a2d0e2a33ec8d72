"""Every check with a limit, at it, just under it and just over it, in both systems of units."""

from collections.abc import Callable
from typing import Any, NamedTuple

import pytest

from gaugerake.floor.job import EmissionReading, HumidityReading, PullOff
from gaugerake.floor.slab.air import dew_point
from gaugerake.floor.system import Thickness
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.range import Limits
from gaugerake.measure.dimension import Dimension
from gaugerake.measure.grammar import read

AIR_K, HUMIDITY = 293.15, 60.0


class Case(NamedTuple):
    """A limit, and figures at it, just on its good side and just on its bad side, as people write them."""

    check: str
    dimension: Dimension | None
    end: str  # low or high
    bad: str
    limits: Callable[[Limits], dict[str, Any]]  # the limit as changes to the system
    given: Callable[[float], dict[str, Any]]  # the figure as changes to the job
    us: tuple[str, str, str]
    si: tuple[str, str, str]


def slab_limit(name: str, *, ranged: bool = False) -> Callable[[Limits], dict[str, Any]]:
    def changed(limits: Limits) -> dict[str, Any]:
        one = limits.low if limits.low is not None else limits.high
        return {"slab_limits": {name: limits if ranged else one}}

    return changed


def air_limit(name: str, *, ranged: bool = True) -> Callable[[Limits], dict[str, Any]]:
    return lambda limits: {"air_limits": {name: limits if ranged else limits.low}}


def thickness_limit(limits: Limits) -> dict[str, Any]:
    low, high = limits.low or 0.0, limits.high or 1.0
    return {"system": {"thickness": Thickness(low_m=low, usual_m=(low + high) / 2, high_m=high)}}


def slab(name: str) -> Callable[[float], dict[str, Any]]:
    return lambda value: {"slab": {name: value}}


def spread(value: float) -> dict[str, Any]:
    dew = dew_point(temperature_k=AIR_K, humidity_percent=HUMIDITY)
    return {"slab": {"temperature_k": dew + value}, "air": {"temperature_k": AIR_K, "humidity_percent": HUMIDITY}}


def emissions(value: float) -> dict[str, Any]:
    return {"slab": {"moisture_emission": (EmissionReading(rate_kg_m2_s=value),) * 3}}


def humidities(value: float) -> dict[str, Any]:
    return {"slab": {"relative_humidity": (HumidityReading(percent=value, depth_m=0.05),) * 3}}


def pulls(value: float) -> dict[str, Any]:
    return {"slab": {"pull_off": (PullOff(strength_pa=value),) * 3}}


D = Dimension
TEMPERATURE = (("50 degF", "50.01 degF", "49.99 degF"), ("10 degC", "10.01 degC", "9.99 degC"))
HOT = (("85 degF", "84.99 degF", "85.01 degF"), ("30 degC", "29.99 degC", "30.01 degC"))
CASES = [
    Case("age", D.DURATION, "low", "fix", slab_limit("age_s"), slab("age_s"),
         ("28 d", "28.001 d", "27.999 d"), ("672 h", "672.1 h", "671.9 h")),
    Case("strength", D.PRESSURE, "low", "stop", slab_limit("compressive_strength_pa"), slab("compressive_strength_pa"),
         ("3200 psi", "3200.1 psi", "3199.9 psi"), ("22 MPa", "22.001 MPa", "21.999 MPa")),
    Case("moisture-emission", D.MOISTURE_EMISSION, "high", "stop",
         slab_limit("moisture_emission_kg_m2_s"), emissions,
         ("12 lb/1000ft2/24h", "11.999 lb/1000ft2/24h", "12.001 lb/1000ft2/24h"),
         ("58 g/m2/24h", "57.99 g/m2/24h", "58.01 g/m2/24h")),
    Case("relative-humidity", None, "high", "stop", slab_limit("relative_humidity_percent"), humidities,
         ("90", "89.99", "90.01"), ("85", "84.99", "85.01")),
    Case("ph", None, "low", "fix", slab_limit("ph", ranged=True), slab("ph"),
         ("7", "7.01", "6.99"), ("6", "6.1", "5.9")),
    Case("ph", None, "high", "fix", slab_limit("ph", ranged=True), slab("ph"),
         ("11", "10.99", "11.01"), ("10", "9.9", "10.1")),
    Case("profile", None, "low", "fix", slab_limit("profile_csp", ranged=True), slab("profile_csp"),
         ("3", "4", "2"), ("5", "6", "4")),
    Case("profile", None, "high", "fix", slab_limit("profile_csp", ranged=True), slab("profile_csp"),
         ("5", "4", "6"), ("3", "2", "4")),
    Case("pull-off", D.PRESSURE, "low", "fix", slab_limit("pull_off_pa"), pulls,
         ("200 psi", "200.1 psi", "199.9 psi"), ("1.5 MPa", "1.501 MPa", "1.499 MPa")),
    Case("slope", None, "high", "fix", slab_limit("slope_percent"), lambda value: {"room": {"slope_percent": value}},
         ("1.5", "1.49", "1.51"), ("2", "1.99", "2.01")),
    Case("thickness", D.LENGTH, "low", "fix", thickness_limit, lambda value: {"job": {"thickness_m": value}},
         ("1/8 in", "0.126 in", "0.124 in"), ("3 mm", "3.01 mm", "2.99 mm")),
    Case("thickness", D.LENGTH, "high", "fix", thickness_limit, lambda value: {"job": {"thickness_m": value}},
         ("1/4 in", "0.249 in", "0.251 in"), ("9 mm", "8.99 mm", "9.01 mm")),
    Case("slab-temperature", D.TEMPERATURE, "low", "fix", slab_limit("temperature_k", ranged=True),
         slab("temperature_k"), *TEMPERATURE),
    Case("slab-temperature", D.TEMPERATURE, "high", "fix", slab_limit("temperature_k", ranged=True),
         slab("temperature_k"), *HOT),
    Case("air-temperature", D.TEMPERATURE, "low", "fix", air_limit("temperature_k"),
         lambda value: {"air": {"temperature_k": value}}, *TEMPERATURE),
    Case("air-temperature", D.TEMPERATURE, "high", "fix", air_limit("temperature_k"),
         lambda value: {"air": {"temperature_k": value}}, *HOT),
    Case("air-humidity", None, "low", "fix", air_limit("humidity_percent"),
         lambda value: {"air": {"humidity_percent": value}}, ("25", "25.1", "24.9"), ("30", "30.1", "29.9")),
    Case("air-humidity", None, "high", "fix", air_limit("humidity_percent"),
         lambda value: {"air": {"humidity_percent": value}}, ("85", "84.9", "85.1"), ("80", "79.9", "80.1")),
    Case("dew-point-spread", D.TEMPERATURE_DIFFERENCE, "low", "fix",
         air_limit("dew_point_spread_k", ranged=False), spread,
         ("5 delta_degF", "5.001 delta_degF", "4.999 delta_degF"),
         ("3 delta_degC", "3.001 delta_degC", "2.999 delta_degC")),
]  # fmt: skip


def value_of(text: str, dimension: Dimension | None) -> float:
    return float(text) if dimension is None else read(text, dimension)


@pytest.mark.parametrize("place", ["at", "on the good side", "on the bad side"])
@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.check}-{case.end}")
def test_a_check_at_its_limit(judge: Any, case: Case, units: str, place: str) -> None:
    texts = case.us if units == "us" else case.si
    value = value_of(texts[["at", "on the good side", "on the bad side"].index(place)], case.dimension)
    end = value_of(texts[0], case.dimension)
    limits = Limits(low=end) if case.end == "low" else Limits(high=end)
    judged = judge(**case.limits(limits), **case.given(int(value) if case.check == "profile" else value))
    check = judged.check(case.check)
    assert check.verdict == (case.bad if place == "on the bad side" else "go")
    assert isinstance(check.measured, Figure)
    assert check.measured.value == pytest.approx(value, rel=1e-9)
    shown = check.limit.low if case.end == "low" else check.limit.high
    assert shown.value == pytest.approx(end, rel=1e-12)
    assert (check.do is None) is (place != "on the bad side")


@pytest.mark.parametrize(
    ("change", "gone"),
    [
        ({"slab_limits": {"age_s": None}}, "age"),
        ({"slab_limits": {"compressive_strength_pa": None}}, "strength"),
        ({"slab_limits": {"pull_off_pa": None}}, "pull-off"),
        ({"slab_limits": {"profile_csp": Limits()}}, "profile"),
        ({"slab_limits": {"moisture_emission_kg_m2_s": None}}, "moisture-emission"),
        ({"slab_limits": {"relative_humidity_percent": None}}, "relative-humidity"),
        ({"slab_limits": {"relative_humidity_percent": None}}, "probe-depth"),
        ({"slab_limits": {"ph": Limits()}}, "ph"),
        ({"slab_limits": {"slope_percent": None}}, "slope"),
        ({"slab_limits": {"temperature_k": Limits()}}, "slab-temperature"),
        ({"air_limits": {"temperature_k": Limits()}}, "air-temperature"),
        ({"air_limits": {"humidity_percent": Limits()}}, "air-humidity"),
        ({"air_limits": {"dew_point_spread_k": None}}, "dew-point-spread"),
        ({"system": {"thickness": None}}, "thickness"),
        ({"job": {"thickness_m": None}}, "thickness"),  # nothing asked, nothing to check
        (
            {"slab_limits": {"moisture_emission_kg_m2_s": None, "relative_humidity_percent": None}},
            "test-count",
        ),
    ],
)
def test_a_limit_that_the_system_does_not_state_is_no_check(judge: Any, change: Any, gone: str) -> None:
    assert gone in judge().names
    assert gone not in judge(**change).names
