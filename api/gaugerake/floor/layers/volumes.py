"""What is trowelled and poured: repair, cove and body volumes, and the whole mixes that they take."""

from __future__ import annotations

import math
from collections.abc import Sequence

from gaugerake.floor.job import Crack
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileAllowance:
    """The mean depth [m] that a surface profile takes before the floor has any thickness."""

    csp: int
    depth_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CrackChase:
    """The least width and depth [m] that a crack is opened to before it is filled."""

    width_m: float
    depth_m: float


def opened(*, crack: Crack, chase: CrackChase | None) -> Crack:
    """Give a crack as it is opened: the larger width and the larger depth.

    Parameters
    ----------
    crack : Crack
        As the job has it.
    chase : CrackChase or None
        The system's least; None where it states none.

    Returns
    -------
    Crack
        Of the same length. Joints that are filled are left as they are sawn.

    Examples
    --------
    >>> hairline = Crack(length_m=5.0, width_m=0.001, depth_m=0.02)
    >>> opened(crack=hairline, chase=CrackChase(width_m=0.006, depth_m=0.006))
    Crack(length_m=5.0, width_m=0.006, depth_m=0.02)
    """
    if chase is None or (crack.width_m >= chase.width_m and crack.depth_m >= chase.depth_m):
        return crack
    return Crack(
        length_m=crack.length_m,
        width_m=max(crack.width_m, chase.width_m),
        depth_m=max(crack.depth_m, chase.depth_m),
    )


def body_volume(*, area_m2: float, thickness_m: float, share_fraction: float) -> float:
    """Give the volume of a poured layer above the slab's peaks.

    Parameters
    ----------
    area_m2 : float [m²]
        Net floor.
    thickness_m : float [m]
        The floor's whole thickness, wet, before any broadcast.
    share_fraction : float
        The part of the thickness that this layer makes.

    Returns
    -------
    volume_m3 : float [m³]
        area · thickness · share. The surface's texture and the keyways come on top.

    Examples
    --------
    >>> body_volume(area_m2=100.0, thickness_m=0.006, share_fraction=0.5)
    0.3
    """
    return area_m2 * thickness_m * share_fraction


def profile_volume(*, area_m2: float, depth_m: float) -> float:
    """Give what the slab's texture takes before the floor has any thickness.

    Parameters
    ----------
    area_m2 : float [m²]
        Net floor.
    depth_m : float [m]
        Mean depth of the texture.

    Returns
    -------
    volume_m3 : float [m³]
        area · depth: 1 mm of texture takes 1 L on each square metre.

    Examples
    --------
    >>> profile_volume(area_m2=100.0, depth_m=0.0004)
    0.04
    """
    return area_m2 * depth_m


def allowance_at(*, csp: int, allowances: Sequence[ProfileAllowance]) -> ProfileAllowance | None:
    """Find the profile allowance listed nearest to a concrete surface profile.

    Parameters
    ----------
    csp : int
        Concrete surface profile, 1 to 10 (ICRI 310.2R).
    allowances : sequence of ProfileAllowance
        What the system lists.

    Returns
    -------
    ProfileAllowance or None
        Of two equally near, the rougher, which takes more; None when nothing is listed.

    Notes
    -----
    No public standard gives a mean depth to a CSP: the figures are each system's own.

    Examples
    --------
    >>> listed = [ProfileAllowance(csp=3, depth_m=0.0002), ProfileAllowance(csp=5, depth_m=0.0006)]
    >>> allowance_at(csp=4, allowances=listed).csp
    5
    """
    return min(allowances, key=lambda listed: (abs(listed.csp - csp), -listed.csp), default=None)


def crack_volume(*, length_m: float, width_m: float, depth_m: float) -> float:
    """Give what a crack, a bridged joint or a sealed joint holds.

    Parameters
    ----------
    length_m, width_m, depth_m : float [m]
        As opened.

    Returns
    -------
    volume_m3 : float [m³]
        length · width · depth.

    Examples
    --------
    >>> crack_volume(length_m=5.0, width_m=0.01, depth_m=0.012)
    0.0006
    """
    return length_m * width_m * depth_m


def spall_volume(*, area_m2: float, depth_m: float) -> float:
    """Give what a spall holds.

    Parameters
    ----------
    area_m2 : float [m²]
        As opened.
    depth_m : float [m]
        Mean depth.

    Returns
    -------
    volume_m3 : float [m³]
        area · depth.

    Examples
    --------
    >>> spall_volume(area_m2=0.3, depth_m=0.01)
    0.003
    """
    return area_m2 * depth_m


def cove_volume(*, length_m: float, height_m: float, thickness_m: float, radius_m: float) -> float:
    """Give the volume of a cove base and the fillet at its foot.

    Parameters
    ----------
    length_m : float [m]
        Along the wall.
    height_m : float [m]
        Up the wall.
    thickness_m : float [m]
        On the wall.
    radius_m : float [m]
        Of the fillet.

    Returns
    -------
    volume_m3 : float [m³]
        length · height · thickness + (1 − π/4) · radius² · length: a quarter circle cut out of its square.

    Examples
    --------
    >>> cove_volume(length_m=10.0, height_m=0.1, thickness_m=0.006, radius_m=0.02)
    0.0068584
    """
    fillet_m2 = (1 - math.pi / 4) * radius_m**2
    return length_m * (height_m * thickness_m + fillet_m2)
