"""The air over the floor: its dew point, and how far the floor stays above it."""

from __future__ import annotations

from functools import lru_cache

import psychrolib

ZERO_CELSIUS_K = 273.15
# psychrolib keeps its units in one switch for the whole process: it is set here, and nothing else calls it
psychrolib.SetUnitSystem(psychrolib.SI)


@lru_cache(maxsize=64)  # psychrolib solves it by steps, and all that is said of one job asks about the same air
def dew_point(*, temperature_k: float, humidity_percent: float) -> float:
    """Temperature at which water begins to condense out of the air.

    Parameters
    ----------
    temperature_k : float [K]
        Temperature of the air.
    humidity_percent : float [%]
        Its relative humidity, over 0 and up to 100.

    Returns
    -------
    float
        The dew point [K] (the frost point below freezing).

    Notes
    -----
    It does not depend on the pressure: humidity is relative to saturation over the same water (or ice).

    Examples
    --------
    >>> dew_point(temperature_k=293.15, humidity_percent=50) - 273.15
    9.272

    References
    ----------
    ASHRAE Handbook, Fundamentals, 2017, ch. 1, eq. 5 and 6, as solved by psychrolib.
    """
    celsius = psychrolib.GetTDewPointFromRelHum(temperature_k - ZERO_CELSIUS_K, humidity_percent / 100)
    return float(celsius) + ZERO_CELSIUS_K


def spread(*, floor_temperature_k: float, dew_point_k: float) -> float:
    """How far a floor is above the dew point.

    Parameters
    ----------
    floor_temperature_k : float [K]
        Temperature of the floor's surface.
    dew_point_k : float [K]
        Dew point of the air over it.

    Returns
    -------
    float
        The difference [K]; negative where water condenses.

    Examples
    --------
    >>> spread(floor_temperature_k=290.0, dew_point_k=286.5)
    3.5

    References
    ----------
    ISO 8502-4, Guidance on the estimation of the probability of condensation prior to paint application.
    """
    return floor_temperature_k - dew_point_k
