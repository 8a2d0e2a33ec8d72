"""Aggregate cast into a wet layer to refusal: what is bought, what stays and what is cleared away again."""

from __future__ import annotations


def cast_mass(*, area_m2: float, rate_kg_m2: float) -> float:
    """Give the aggregate that is cast.

    Parameters
    ----------
    area_m2 : float [m²]
        Net floor, with waste if there is any.
    rate_kg_m2 : float [kg/m²]
        Cast to refusal: until no wet spot shows.

    Returns
    -------
    mass_kg : float [kg]
        area · rate.

    Examples
    --------
    >>> cast_mass(area_m2=100.0, rate_kg_m2=3.0)
    300.0
    """
    return area_m2 * rate_kg_m2


def cleared_mass(*, area_m2: float, rate_kg_m2: float, retained_kg_m2: float) -> float:
    """Give the loose aggregate that is cleared away after the cure.

    Parameters
    ----------
    area_m2 : float [m²]
        Net floor.
    rate_kg_m2 : float [kg/m²]
        Cast to refusal.
    retained_kg_m2 : float [kg/m²]
        What the layer under it holds.

    Returns
    -------
    mass_kg : float [kg]
        area · (rate − retained), not below 0. It is bought all the same: refusal needs the excess.

    Examples
    --------
    >>> cleared_mass(area_m2=100.0, rate_kg_m2=3.0, retained_kg_m2=2.0)
    100.0
    """
    return area_m2 * max(0.0, rate_kg_m2 - retained_kg_m2)
