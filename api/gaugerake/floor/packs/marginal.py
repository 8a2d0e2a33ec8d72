"""The linear relaxation: a need covered with packs that may be broken up. It gives the marginal size and unit price.

The cost of a size by its count drops wherever a price tier begins. Its lower convex hull is a row of segments. Taken in
order of cost per unit, the segments of all sizes cover any need; the last one taken belongs to the marginal size, the
size of which more or less is bought when the need changes a little.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from gaugerake.floor.packs.size import Tier


class Segment(NamedTuple):
    """A segment of a hull; segments sort in the order in which they are taken."""

    slope: float  # cost per unit along it
    larger_first: int  # of two that cost the same, the larger size makes fewer packs
    size: int
    start: int
    stop: int


def lower_hull(*, index: int, units: int, tiers: Sequence[Tier]) -> list[Segment]:
    """Give the lower convex hull of the cost of a size by its count of packs.

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
    list of Segment
        From the first count to the last, each steeper than the one before.

    Examples
    --------
    >>> list(map(tuple, lower_hull(index=0, units=5, tiers=[Tier(0, 9, 28, 28), Tier(10, 44, 25, 25)])))
    [(5.0, -5, 0, 0, 44)]
    >>> list(map(tuple, lower_hull(index=0, units=5, tiers=[Tier(0, 9, 20, 20), Tier(10, 44, 25, 25)])))
    [(4.0, -5, 0, 0, 9), (5.257142857142857, -5, 0, 9, 44)]
    """
    if len(tiers) == 1:
        first, last, price, _ = tiers[0]
        return [Segment(float(price) / units, -units, index, first, last)] if first < last else []
    corners = [(count, tier.price * count) for tier in tiers for count in dict.fromkeys((tier.first, tier.last))]
    found, here = [], 0
    while here < len(corners) - 1:
        start, paid = corners[here]
        slope, after = min(
            ((cost - paid) / (count - start), -place)
            for place, (count, cost) in enumerate(corners[here + 1 :], here + 1)
        )
        here = -after
        found.append(Segment(slope / units, -units, index, start, corners[here][0]))
    return found


def marginal(*, left: int, units: Sequence[int], hulls: Iterable[Sequence[Segment]]) -> tuple[Segment, int] | None:
    """Find the segment on which ``left`` units are covered.

    Parameters
    ----------
    left : int
        Units to cover beyond what the hulls start with.
    units : Sequence[int]
        Of each size.
    hulls : Iterable[Sequence[Segment]]
        Of each size.

    Returns
    -------
    tuple of Segment and int, or None
        With it the count of its size, rounded up; None when all there is does not cover them.

    Examples
    --------
    >>> hulls = [[Segment(5.0, -5, 0, 0, 44)], [Segment(4.5, -20, 1, 0, 3)]]
    >>> marginal(left=100, units=[5, 20], hulls=hulls)
    (Segment(slope=5.0, larger_first=-5, size=0, start=0, stop=44), 8)
    """
    for segment in sorted(segment for hull in hulls for segment in hull):
        held = (segment.stop - segment.start) * units[segment.size]
        if held >= left:
            return segment, segment.start - (-left // units[segment.size])
        left -= held
    return None
