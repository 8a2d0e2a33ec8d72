"""How a slab is judged: the four verdicts, and a figure against a range."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from gaugerake.floor.values.range import Limits

GUARD = 1e-9
"""Relative width by which a limit is met: float noise fails no slab."""


class Verdict(StrEnum):
    """What a check comes to, from good to bad."""

    GO = "go"
    UNTESTED = "untested"
    FIX = "fix"  # can be mended on site
    STOP = "stop"  # cannot: the product's maker must be asked


_RANK = {verdict: rank for rank, verdict in enumerate(Verdict)}


class RangeSide(StrEnum):
    """Where a figure lies against a range."""

    BELOW = "below"
    WITHIN = "within"
    ABOVE = "above"


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The worst of several verdicts.

    Parameters
    ----------
    verdicts : iterable of Verdict
        In any order; none at all is untested.

    Returns
    -------
    Verdict
        The worst in the order go, untested, fix, stop.

    Examples
    --------
    >>> worst([Verdict.GO, Verdict.FIX, Verdict.UNTESTED])
    <Verdict.FIX: 'fix'>
    >>> worst([])
    <Verdict.UNTESTED: 'untested'>
    """
    return max(verdicts, key=_RANK.__getitem__, default=Verdict.UNTESTED)


def at_least(*, value: float, low: float) -> bool:
    """Whether a figure reaches a limit, noise aside.

    Parameters
    ----------
    value : float
        The figure.
    low : float
        The limit, in the figure's unit.

    Returns
    -------
    bool
        True from the limit (less a billionth of it) upwards.

    Examples
    --------
    >>> at_least(value=0.1 + 0.2 - 1e-12, low=0.3), at_least(value=0.29, low=0.3)
    (True, False)
    """
    return value >= low - GUARD * abs(low)


def at_most(*, value: float, high: float) -> bool:
    """Whether a figure keeps within a limit, noise aside.

    Parameters
    ----------
    value : float
        The figure.
    high : float
        The limit, in the figure's unit.

    Returns
    -------
    bool
        True up to the limit (and a billionth of it beyond).

    Examples
    --------
    >>> at_most(value=0.1 + 0.2, high=0.3), at_most(value=0.31, high=0.3)
    (True, False)
    """
    return value <= high + GUARD * abs(high)


def side(*, value: float, limits: Limits) -> RangeSide:
    """On which side of an inclusive range a figure lies.

    Parameters
    ----------
    value : float
        The figure.
    limits : Limits
        The range, in the figure's unit; an end that is None is open.

    Returns
    -------
    RangeSide
        Below, within or above.

    Examples
    --------
    >>> side(value=4, limits=Limits(low=3, high=5))
    <RangeSide.WITHIN: 'within'>
    >>> side(value=12.5, limits=Limits(high=11))
    <RangeSide.ABOVE: 'above'>
    """
    # as ``at_least`` and ``at_most`` have it, without a call of each: a clock asks at every step of every run
    low, high = limits.low, limits.high
    if low is not None and value < low - GUARD * abs(low):
        return RangeSide.BELOW
    if high is not None and value > high + GUARD * abs(high):
        return RangeSide.ABOVE
    return RangeSide.WITHIN


def stated(limits: Limits) -> bool:
    """Whether a range has any end.

    Parameters
    ----------
    limits : Limits
        The range.

    Returns
    -------
    bool
        False when both ends are open: the maker states no such limit.

    Examples
    --------
    >>> stated(Limits()), stated(Limits(high=85))
    (False, True)
    """
    return limits.low is not None or limits.high is not None
