"""Covering a need with packs that may be broken up: where the whole packs are looked for, and what price they go by.

What a size costs, by its count, is a broken line that drops wherever a tier begins. Under it lies a hull of straight
stretches. Taken by the least cost for a unit, the stretches of all sizes cover any need; the one at which the need is
covered belongs to the marginal size, of which a little more or less is bought when the need changes a little.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from gaugerake.floor.packs.size import Tier


class Stretch(NamedTuple):
    """A straight stretch of a hull, in the order in which stretches are taken."""

    slope: float  # cost of a unit along it
    larger_first: int  # of two that cost the same, the larger size makes fewer packs
    size: int
    start: int
    stop: int


def stretches(*, index: int, units: int, tiers: Sequence[Tier]) -> list[Stretch]:
    """Give the hull under what a size costs, by the count of its packs.

    Parameters
    ----------
    index : int
        Of the size.
    units : int
        That it holds.
    tiers : Sequence[Tier]
        Those that may be bought in, rising.

    Returns
    -------
    list of Stretch
        From the first count to the last, each steeper than the one before.

    Examples
    --------
    >>> list(map(tuple, stretches(index=0, units=5, tiers=[Tier(0, 9, 28, 28), Tier(10, 44, 25, 25)])))
    [(5.0, -5, 0, 0, 44)]
    >>> list(map(tuple, stretches(index=0, units=5, tiers=[Tier(0, 9, 20, 20), Tier(10, 44, 25, 25)])))
    [(4.0, -5, 0, 0, 9), (5.257142857142857, -5, 0, 9, 44)]
    """
    corners = [(count, tier.price * count) for tier in tiers for count in dict.fromkeys((tier.first, tier.last))]
    found, here = [], 0
    while here < len(corners) - 1:
        start, paid = corners[here]
        slope, after = min(
            ((cost - paid) / (count - start), -place)
            for place, (count, cost) in enumerate(corners[here + 1 :], here + 1)
        )
        here = -after
        found.append(Stretch(slope / units, -units, index, start, corners[here][0]))
    return found


def marginal(*, left: int, units: Sequence[int], hulls: Iterable[Sequence[Stretch]]) -> tuple[Stretch, int] | None:
    """Find the stretch at which ``left`` units are covered.

    Parameters
    ----------
    left : int
        Units to cover beyond what the hulls start with.
    units : Sequence[int]
        Of each size.
    hulls : Iterable[Sequence[Stretch]]
        Of each size.

    Returns
    -------
    tuple of Stretch and int, or None
        With it the count of its size, rounded up; None when all there is does not cover them.

    Examples
    --------
    >>> hulls = [[Stretch(5.0, -5, 0, 0, 44)], [Stretch(4.5, -20, 1, 0, 3)]]
    >>> marginal(left=100, units=[5, 20], hulls=hulls)
    (Stretch(slope=5.0, larger_first=-5, size=0, start=0, stop=44), 8)
    """
    for stretch in sorted(stretch for hull in hulls for stretch in hull):
        held = (stretch.stop - stretch.start) * units[stretch.size]
        if held >= left:
            return stretch, stretch.start - (-left // units[stretch.size])
        left -= held
    return None
