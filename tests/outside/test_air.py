"""Dew points against tables and a second library: psychrolib computes ours, and so proves nothing here."""

from collections.abc import Callable

import pytest

from gaugerake.floor.slab.air import dew_point

ZERO_C = 273.15
PRESSURE_PA = 101_325.0

# Air temperature [°C], relative humidity [%], dew point [°C]: CoolProp 8.0.0, HAPropsSI, at 101 325 Pa. The tolerance
# of 0.03 K is that of one formulation of saturation against another, and a hundredth of any spread that is asked.
COOLPROP = [
    (5, 90, 3.4985),
    (10, 85, 7.5975),
    (20, 50, 9.2724),
    (20, 65, 13.2272),
    (25, 85, 22.3018),
    (30, 70, 23.9279),
    (38, 30, 17.4143),
]
# Temperature [°C], saturation pressure over water [Pa]: ASHRAE Handbook, Fundamentals, 2017, ch. 1, table 3.
ASHRAE = {5: 872.6, 25: 3169.7, 50: 12351.3}


@pytest.fixture(scope="module")
def of_humid_air() -> Callable[..., float]:
    """CoolProp's function; it takes seconds to load, and every process of the tests reads this file."""
    from CoolProp.HumidAirProp import HAPropsSI

    function: Callable[..., float] = HAPropsSI
    return function


@pytest.mark.parametrize(("air_c", "humidity", "dew_c"), COOLPROP)
def test_dew_points_written_down_from_coolprop(air_c: float, humidity: float, dew_c: float) -> None:
    found = dew_point(temperature_k=air_c + ZERO_C, humidity_percent=humidity) - ZERO_C
    assert found == pytest.approx(dew_c, abs=0.03)


@pytest.mark.parametrize("air_c", [2, 8, 15, 22, 31, 45, 60])
@pytest.mark.parametrize("humidity", [25, 40, 55, 70, 85, 100])
def test_dew_points_against_coolprop_as_it_runs(
    of_humid_air: Callable[..., float], air_c: float, humidity: float
) -> None:
    expected_k = of_humid_air("D", "T", air_c + ZERO_C, "P", PRESSURE_PA, "R", humidity / 100)
    found = dew_point(temperature_k=air_c + ZERO_C, humidity_percent=humidity)
    assert found == pytest.approx(expected_k, abs=0.03)


@pytest.mark.parametrize(("dew_c", "air_c"), [(5, 25), (5, 50), (25, 50)])
def test_dew_points_against_the_table_of_saturation(dew_c: int, air_c: int) -> None:
    """Air that holds as much as saturated air of another temperature has that temperature for its dew point."""
    humidity = 100 * ASHRAE[dew_c] / ASHRAE[air_c]
    found = dew_point(temperature_k=air_c + ZERO_C, humidity_percent=humidity) - ZERO_C
    # 300 ppm of pressure, what the table's own formula leaves, is 0.005 K at these temperatures
    assert found == pytest.approx(dew_c, abs=0.006)
