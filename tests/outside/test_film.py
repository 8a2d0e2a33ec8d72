"""Spreading rates and films against figures from outside.

A US gallon is 231 cubic inches (NIST Handbook 44, appendix C, from memory), so that it covers 231 x 1000 / 144 =
1604.1667 square feet a mil deep: the constant of every paint calculation of the trade.
"""

import pytest

from gaugerake.floor.layers.film import dry_film, spreading_time, wet_film
from gaugerake.floor.layers.need import Demand, needed
from gaugerake.floor.values.range import Triple
from gaugerake.measure.choice import SI, US
from gaugerake.measure.dimension import Dimension
from gaugerake.measure.grammar import read


def rate(text: str) -> float:
    return read(text, Dimension.SPREADING_RATE)


def mils(film_m: float) -> float:
    return US.show(film_m, "film")[0]


def test_a_gallon_over_1604_square_feet_is_one_mil() -> None:
    # computed from 231 in3, tolerance that of the seven digits of the constant
    assert mils(wet_film(spreading_rate_m2_m3=rate("1604.1667 ft2/gal"))) == pytest.approx(1.0, rel=1e-7)


def test_five_mil_dry_of_65_percent_solids_spreads_208_54_square_feet_to_the_gallon() -> None:
    # computed from the constant: 1604.1667 x 0.65 / 5 = 208.54
    film = wet_film(spreading_rate_m2_m3=rate("208.54 ft2/gal"))
    assert mils(dry_film(wet_film_m=film, volume_solids_fraction=0.65)) == pytest.approx(5.0, rel=2e-5)


def test_eight_mil_wet_of_35_percent_solids_is_2_80_mil_dry() -> None:
    # the everyday rule wet x solids = dry
    wet = read("8 mil", Dimension.LENGTH)
    assert mils(dry_film(wet_film_m=wet, volume_solids_fraction=0.35)) == pytest.approx(2.80)


def test_120_square_feet_to_the_gallon_is_2_9_square_metres_to_the_litre() -> None:
    # Ohio DOT specification 512 prints both: 120 square feet per gallon (2.9 square meters per liter)
    shown = SI.show(rate("120 ft2/gal"), "spreading-rate")
    assert shown[0] == pytest.approx(2.9451, rel=1e-5)
    assert shown[1] == "m2/L"
    assert round(shown[0], 1) == 2.9


def test_1400_square_feet_at_80_mil_takes_69_818_gallons() -> None:
    # computed: 1400 x 80 / 1604.1667, tolerance that of the five digits
    film = read("80 mil", Dimension.LENGTH)
    spread = Triple(low=1 / film, likely=1 / film, high=1 / film)
    need = needed(Demand(varying=0.0, fixed=read("1400 ft2", Dimension.AREA), divisor=spread))
    assert US.show(need.likely, "liquid")[0] == pytest.approx(69.818, rel=1e-5)


def test_two_gallons_at_200_square_feet_to_the_gallon_take_a_crew_of_800_an_hour_half_an_hour() -> None:
    time_s = spreading_time(
        batch_m3=read("2 gal", Dimension.VOLUME),
        spreading_rate_m2_m3=rate("200 ft2/gal"),
        coating_rate_m2_s=read("800 ft2/h", Dimension.AREA_RATE),
    )
    assert time_s == pytest.approx(1800.0)
