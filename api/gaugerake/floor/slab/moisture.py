"""Moisture in the slab: what a dish or a probe says, how many are needed, and which readings may be counted.

Emission (ASTM F1869) and relative humidity (ASTM F2170) measure different things and are never turned into each other.
"""

from __future__ import annotations

import math

from gaugerake.floor.job import DriesFrom
from gaugerake.floor.slab.verdict import GUARD, at_least, at_most, side
from gaugerake.floor.values.range import Limits

EXPOSURE_HOURS = Limits(low=60.0, high=72.0)
"""How long a dish must stand (ASTM F1869)."""
AREA_PER_TEST_M2 = 92.90304  # 1000 ft²
FIRST_TESTS = 3
PROBE_DEPTH_FRACTION = {DriesFrom.ONE_SIDE: 0.4, DriesFrom.BOTH_SIDES: 0.2}
"""How deep a probe sits, as a fraction of the slab's thickness (ASTM F2170)."""
PROBE_SHORT_FRACTION = 0.05
NEAR_EMISSION_FRACTION = 0.1
NEAR_HUMIDITY_POINTS = 2.0


def dish_emission(*, gain_kg: float, exposure_hours: float, area_m2: float) -> float:
    """Moisture vapour emission rate from the gain of a dish of calcium chloride.

    Parameters
    ----------
    gain_kg : float [kg]
        What the dish gained.
    exposure_hours : float
        How long it stood [h].
    area_m2 : float [m²]
        Floor under the dome, less the dish.

    Returns
    -------
    float
        The emission [kg/(m²·s)].

    Examples
    --------
    3.0 g in 72 h over 0.44486 ft² is 4.956 lb/1000 ft²/24 h, one of which is 5.651e-8 kg/(m²·s):

    >>> dish_emission(gain_kg=0.003, exposure_hours=72, area_m2=0.44486 * 0.09290304) / 5.650886e-8
    4.956

    References
    ----------
    ASTM F1869, Standard Test Method for Measuring Moisture Vapor Emission Rate of Concrete Subfloor Using
    Anhydrous Calcium Chloride.
    """
    return gain_kg / (exposure_hours * 3600 * area_m2)


def exposure_counts(exposure_hours: float) -> bool:
    """Whether a dish stood long enough, and not too long, to be counted.

    Parameters
    ----------
    exposure_hours : float
        How long it stood [h].

    Returns
    -------
    bool
        True from 60 to 72 h, both included.

    Examples
    --------
    >>> exposure_counts(72), exposure_counts(48)
    (True, False)
    """
    return side(value=exposure_hours, limits=EXPOSURE_HOURS) == "within"


def moisture_test_count(area_m2: float) -> int:
    """How many moisture tests a floor needs.

    Parameters
    ----------
    area_m2 : float [m²]
        Gross area of the whole floor.

    Returns
    -------
    int
        Three for the first 1000 ft², one more for each further 1000 ft² or part of it.

    Examples
    --------
    >>> [moisture_test_count(feet * 0.09290304) for feet in (400, 1000, 1001, 2500, 10_000)]
    [3, 3, 4, 5, 12]

    References
    ----------
    ASTM F1869 and ASTM F2170; a started 1000 ft² is counted whole, which is the safe reading.
    """
    thousands = math.ceil(area_m2 / AREA_PER_TEST_M2 * (1 - GUARD))
    return FIRST_TESTS + max(0, thousands - 1)


def probe_depth(*, slab_thickness_m: float, dries_from: DriesFrom) -> float:
    """How deep a humidity probe must sit.

    Parameters
    ----------
    slab_thickness_m : float [m]
        Thickness of the slab.
    dries_from : DriesFrom
        One side (on ground or on a metal deck) or both.

    Returns
    -------
    float
        Depth below the surface [m]: 40 % of the thickness drying from one side, 20 % from both.

    Examples
    --------
    >>> probe_depth(slab_thickness_m=0.150, dries_from=DriesFrom.ONE_SIDE)
    0.06

    References
    ----------
    ASTM F2170, Standard Test Method for Determining Relative Humidity in Concrete Floor Slabs Using in situ
    Probes.
    """
    return PROBE_DEPTH_FRACTION[dries_from] * slab_thickness_m


def deep_enough(*, depth_m: float, needed_m: float) -> bool:
    """Whether a probe sits deep enough to be counted.

    Parameters
    ----------
    depth_m : float [m]
        Its depth.
    needed_m : float [m]
        The depth it should have.

    Returns
    -------
    bool
        False when it is more than 5 % too shallow; too deep reads wetter, and is safe.

    Examples
    --------
    >>> deep_enough(depth_m=0.058, needed_m=0.060), deep_enough(depth_m=0.050, needed_m=0.060)
    (True, False)
    """
    return at_least(value=depth_m, low=(1 - PROBE_SHORT_FRACTION) * needed_m)


def near_emission_limit(*, rate_kg_m2_s: float, limit_kg_m2_s: float) -> bool:
    """Whether an emission is within its limit, but by less than a tenth of it.

    Parameters
    ----------
    rate_kg_m2_s : float [kg/(m²·s)]
        The emission.
    limit_kg_m2_s : float [kg/(m²·s)]
        The most that the system stands.

    Returns
    -------
    bool
        True from 90 % of the limit up to it.

    Examples
    --------
    >>> near_emission_limit(rate_kg_m2_s=5.5e-7, limit_kg_m2_s=6e-7)
    True
    """
    near = (1 - NEAR_EMISSION_FRACTION) * limit_kg_m2_s
    return at_least(value=rate_kg_m2_s, low=near) and at_most(value=rate_kg_m2_s, high=limit_kg_m2_s)


def near_humidity_limit(*, humidity_percent: float, limit_percent: float) -> bool:
    """Whether a humidity is within its limit, but by no more than two points.

    Parameters
    ----------
    humidity_percent : float [%]
        Relative humidity in the slab.
    limit_percent : float [%]
        The most that the system stands.

    Returns
    -------
    bool
        True from two points under the limit up to it.

    Examples
    --------
    >>> near_humidity_limit(humidity_percent=88.5, limit_percent=90)
    True
    """
    near = limit_percent - NEAR_HUMIDITY_POINTS
    return at_least(value=humidity_percent, low=near) and at_most(value=humidity_percent, high=limit_percent)
