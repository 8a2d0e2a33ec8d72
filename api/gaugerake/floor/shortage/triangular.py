"""The triangular distribution about a likely value, and the normal one with its ends cut off."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import GUARD

Floats = NDArray[np.float64]

CUT_SIGMAS = 3.0
"""Where the normal factor is cut off, in standard deviations; what is left is made to add up to 1."""
_KEPT = math.erf(CUT_SIGMAS / math.sqrt(2))

_Z = np.linspace(-CUT_SIGMAS, CUT_SIGMAS, 4097)
_BELOW = np.array([0.5 + math.erf(z / math.sqrt(2)) / _KEPT / 2 for z in _Z])
_RULES = {count: np.polynomial.legendre.leggauss(count) for count in (6, 12, 16)}


def reached(*, figure: Triple, values: Floats) -> Floats:
    """Give the chance that a triangular figure is at least each of some values.

    Parameters
    ----------
    figure : Triple
        Low, likely (the mode) and high.
    values : ndarray, any shape
        In the figure's unit.

    Returns
    -------
    ndarray, as the values
        Probabilities. An exact figure reaches itself, within a relative guard of 1e-9.

    Examples
    --------
    >>> reached(figure=Triple(low=1, likely=2, high=3), values=np.array([1.0, 1.5, 2.0, 2.5, 3.0])).tolist()
    [1.0, 0.875, 0.5, 0.125, 0.0]

    References
    ----------
    Triangular distribution, as in scipy.stats.triang.
    """
    low, likely, high = figure.low, figure.likely, figure.high
    if low == high:
        return np.where(values <= low * (1 + GUARD), 1.0, 0.0)
    if likely > low:
        chance = 1 - (np.maximum(values, low) - low) ** 2 / ((high - low) * (likely - low))
        if likely == high:
            return np.where(values < high, chance, 0.0)
        above = (high - np.minimum(values, high)) ** 2 / ((high - low) * (high - likely))
        return np.where(values < likely, chance, above)
    clipped = np.minimum(np.maximum(values, low), high)
    return (high - clipped) ** 2 / (high - low) ** 2


def triangular_quantile(*, figure: Triple, chance: float) -> float:
    """Give the value that a triangular figure stays under with a chance.

    Parameters
    ----------
    figure : Triple
        Low, likely (the mode) and high.
    chance : float
        0 to 1.

    Returns
    -------
    float
        In the figure's unit.

    Examples
    --------
    >>> triangular_quantile(figure=Triple(low=1, likely=2, high=3), chance=0.125)
    1.5

    References
    ----------
    Triangular distribution, as in scipy.stats.triang.
    """
    low, likely, high = figure.low, figure.likely, figure.high
    below = chance * (high - low)
    if below < likely - low:
        return low + math.sqrt(below * (likely - low))
    return high - math.sqrt((1 - chance) * (high - low) * (high - likely))


def triangular_nodes(*, figure: Triple, jumps: Sequence[float] = ()) -> tuple[Floats, Floats]:
    """Give values and weights that stand for a triangular figure in a sum over it.

    Parameters
    ----------
    figure : Triple
        Low, likely and high.
    jumps : Sequence[float]
        Values at which what is summed jumps: no panel runs across one.

    Returns
    -------
    values, weights : ndarray
        Gauss-Legendre between low, likely, high and the jumps; one value where the figure is exact. The weights add up
        to 1.

    Examples
    --------
    >>> values, weights = triangular_nodes(figure=Triple(low=1, likely=2, high=6))
    >>> float(values @ weights)
    3.0
    """
    low, likely, high = figure.low, figure.likely, figure.high
    if low == high:
        return np.array([likely]), np.array([1.0])
    middle = likely if low < likely < high else (low + high) / 2
    edges = sorted({low, middle, high, *(jump for jump in jumps if low < jump < high)})
    nodes, weights = _RULES[16 if len(edges) <= 5 else 6]
    starts, ends = np.array(edges[:-1]), np.array(edges[1:])
    half = ((ends - starts) / 2)[:, None]
    values = ((ends + starts) / 2)[:, None] + half * nodes
    rising = 2 * (values - low) / ((high - low) * (likely - low or math.inf))
    falling = 2 * (high - values) / ((high - low) * (high - likely or math.inf))
    density = np.where(values < likely, rising, falling)
    return values.reshape(-1), (half * weights * density).reshape(-1)


@lru_cache(maxsize=1024)
def rate_nodes(figure: Triple) -> tuple[Floats, Floats]:
    """Give the nodes of a maker's rate or yield; cached, as every job that takes the product sums over it.

    Parameters
    ----------
    figure : Triple
        Low, likely and high.

    Returns
    -------
    values, weights : ndarray
        As of ``triangular_nodes``; they cannot be written to.

    Examples
    --------
    >>> values, weights = rate_nodes(Triple(low=1, likely=2, high=6))
    >>> float(values @ weights)
    3.0
    """
    return _read_only(triangular_nodes(figure=figure))


def _read_only(nodes: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    """The nodes, made read-only because every caller gets the same arrays."""
    for each in nodes:
        each.flags.writeable = False
    return nodes


def factor_below(*, values: Floats, sd_fraction: float) -> Floats:
    """Give the chance that the thickness factor is at most each of some values.

    Parameters
    ----------
    values : ndarray, any shape
        Of the factor, whose mean is 1.
    sd_fraction : float
        Standard deviation of the normal before it is cut off at ±3 of them.

    Returns
    -------
    ndarray, as the values
        Probabilities, to 1e-7.

    Examples
    --------
    >>> factor_below(values=np.array([0.9, 1.0, 1.03, 1.1]), sd_fraction=0.03).round(6).tolist()
    [0.0, 0.5, 0.842269, 1.0]

    References
    ----------
    Truncated normal distribution, as in scipy.stats.truncnorm.
    """
    chances: Floats = np.interp((values - 1) / sd_fraction, _Z, _BELOW)
    return chances


def factor_nodes(*, sd_fraction: float, panels: int = 4, turns: Sequence[float] = ()) -> tuple[Floats, Floats]:
    """Give values and weights that stand for the thickness factor in a sum over it.

    Parameters
    ----------
    sd_fraction : float
        Standard deviation; 0 is a factor of exactly 1.
    panels : int
        Panels of equal width.
    turns : Sequence[float]
        Values at which what is summed turns sharply: no panel runs across one.

    Returns
    -------
    values, weights : ndarray
        Gauss-Legendre, 12 in each panel. The weights add up to 1.

    Examples
    --------
    >>> values, weights = factor_nodes(sd_fraction=0.03)
    >>> float(weights.sum()), float(values @ weights)
    (1.0, 1.0)
    """
    if sd_fraction <= 0:
        return np.array([1.0]), np.array([1.0])
    inside = [(turn - 1) / sd_fraction for turn in turns]
    even = (CUT_SIGMAS * (2 * place / panels - 1) for place in range(panels + 1))
    edges = sorted({*even, *(z for z in inside if -CUT_SIGMAS < z < CUT_SIGMAS)})
    starts, ends = np.array(edges[:-1]), np.array(edges[1:])
    half = ((ends - starts) / 2)[:, None]
    nodes, shares = _RULES[12]
    z = ((ends + starts) / 2)[:, None] + half * nodes
    weights = half * shares * np.exp(-(z**2) / 2) / (math.sqrt(2 * math.pi) * _KEPT)
    return 1 + sd_fraction * z.reshape(-1), weights.reshape(-1)


@lru_cache(maxsize=256)
def even_factor_nodes(sd_fraction: float, panels: int) -> tuple[Floats, Floats]:
    """Give the nodes of the thickness factor over panels of equal width; cached, as all jobs on a system sum over them.

    Parameters
    ----------
    sd_fraction : float
        Standard deviation; 0 is a factor of exactly 1.
    panels : int
        Panels of equal width.

    Returns
    -------
    values, weights : ndarray
        As of ``factor_nodes``; they cannot be written to.

    Examples
    --------
    >>> values, weights = even_factor_nodes(0.03, 4)
    >>> float(weights.sum()), values.flags.writeable
    (1.0, False)
    """
    return _read_only(factor_nodes(sd_fraction=sd_fraction, panels=panels))
