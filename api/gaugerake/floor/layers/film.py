"""Liquids: what coats cover, how thick their films are, and how long a batch takes to spread."""

from __future__ import annotations


def coated_area(*, area_m2: float, cove_length_m: float, cove_height_m: float) -> float:
    """Give what a primer or coat covers: the floor, and the cove that it climbs.

    Parameters
    ----------
    area_m2 : float [m²]
        Net floor.
    cove_length_m, cove_height_m : float [m]
        The cove; 0 where there is none.

    Returns
    -------
    area_m2 : float [m²]
        area + length · height.

    Examples
    --------
    >>> coated_area(area_m2=100.0, cove_length_m=40.0, cove_height_m=0.1)
    104.0
    """
    return area_m2 + cove_length_m * cove_height_m


def wet_film(*, spreading_rate_m2_m3: float) -> float:
    """Give the thickness of a film as it is rolled.

    Parameters
    ----------
    spreading_rate_m2_m3 : float [m²/m³]
        Area that a volume of the liquid is spread over.

    Returns
    -------
    film_m : float [m]
        1 / rate: a gallon (231 in³) over 1604.17 ft² is 1 mil.

    Notes
    -----
    Holds on a dense surface; the first coat over a broadcast fills its voids and has no one thickness.

    Examples
    --------
    >>> wet_film(spreading_rate_m2_m3=5000.0)
    0.0002
    """
    return 1 / spreading_rate_m2_m3


def dry_film(*, wet_film_m: float, volume_solids_fraction: float) -> float:
    """Give the thickness of a film when its solvent or water has left.

    Parameters
    ----------
    wet_film_m : float [m]
        As it is rolled.
    volume_solids_fraction : float
        The part of the liquid's volume that stays, 0 to 1.

    Returns
    -------
    film_m : float [m]
        wet · solids.

    Examples
    --------
    >>> dry_film(wet_film_m=0.0002, volume_solids_fraction=0.65)
    0.00013
    """
    return wet_film_m * volume_solids_fraction


def spreading_time(*, batch_m3: float, spreading_rate_m2_m3: float, coating_rate_m2_s: float) -> float:
    """Give how long a crew takes to spread a batch.

    Parameters
    ----------
    batch_m3 : float [m³]
        What is mixed at a time.
    spreading_rate_m2_m3 : float [m²/m³]
        Area that a volume of it covers.
    coating_rate_m2_s : float [m²/s]
        Area that the crew coats in a time.

    Returns
    -------
    time_s : float [s]
        batch · spreading rate / coating rate.

    Examples
    --------
    >>> spreading_time(batch_m3=0.004, spreading_rate_m2_m3=5000.0, coating_rate_m2_s=0.02)
    1000.0
    """
    return batch_m3 * spreading_rate_m2_m3 / coating_rate_m2_s
