"""The slab's age, and the strength that concrete of one age lets expect at another."""

from __future__ import annotations

import math

from gaugerake.floor.slab.verdict import at_least

DAY_S = 86400.0
MATURE_S = 28 * DAY_S
"""The age at which strength is stated; younger concrete may still gain what it lacks."""


def strength_fraction(*, age_s: float) -> float:
    """Compressive strength at an age, as a fraction of that at 28 days (ACI 209).

    Parameters
    ----------
    age_s : float [s]
        Age of the concrete, from one day on.

    Returns
    -------
    float
        f(t) / f(28 d) = t / (4 + 0.85 t), t in days.

    Notes
    -----
    Moist-cured concrete of Type I cement; steam cure and rapid cements gain faster, cold slabs slower. Information
    for planning a retest, never a pass.

    Examples
    --------
    >>> strength_fraction(age_s=7 * 86400)
    0.7035

    References
    ----------
    ACI 209R, Prediction of Creep, Shrinkage, and Temperature Effects in Concrete Structures, eq. 2-1 (its
    constants from memory).
    """
    days = age_s / DAY_S
    return days / (4 + 0.85 * days)


def expected_strength(*, strength_pa: float, tested_age_s: float, age_s: float) -> float | None:
    """Strength to be expected at an age from a test at another, by the ACI 209 curve.

    Parameters
    ----------
    strength_pa : float [Pa]
        Compressive strength as tested.
    tested_age_s : float [s]
        Age at which it was tested.
    age_s : float [s]
        Age for which it is wanted.

    Returns
    -------
    float or None
        The strength [Pa]; None for a test in the first day, which the curve does not cover.

    Examples
    --------
    >>> expected_strength(strength_pa=20e6, tested_age_s=7 * 86400, age_s=28 * 86400)
    28633093.
    """
    if tested_age_s < DAY_S:
        return None
    return strength_pa * strength_fraction(age_s=age_s) / strength_fraction(age_s=tested_age_s)


def may_still_gain(age_s: float | None) -> bool:
    """Whether concrete is so young that a weak test may be taken again.

    Parameters
    ----------
    age_s : float [s] or None
        Age of the concrete; None when nobody knows.

    Returns
    -------
    bool
        True under 28 days; an unknown age is not counted on.

    Examples
    --------
    >>> may_still_gain(20 * 86400.0), may_still_gain(28 * 86400.0), may_still_gain(None)
    (True, False, False)
    """
    return age_s is not None and not at_least(value=age_s, low=MATURE_S)


def whole_days_short(*, age_s: float, asked_s: float) -> int:
    """Whole days until a slab has the age that is asked.

    Parameters
    ----------
    age_s : float [s]
        Its age.
    asked_s : float [s]
        The age that the system asks.

    Returns
    -------
    int
        Days to wait, a started day counted whole; 0 when it is old enough.

    Examples
    --------
    >>> whole_days_short(age_s=20 * 86400.0, asked_s=28 * 86400.0), whole_days_short(age_s=3e6, asked_s=28 * 86400.0)
    (8, 0)
    """
    if at_least(value=age_s, low=asked_s):
        return 0
    return math.ceil((asked_s - age_s) / DAY_S * (1 - 1e-9))
