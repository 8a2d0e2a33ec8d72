"""Which packs of a load are opened by the time that some of it is used up."""

from __future__ import annotations

from collections.abc import Sequence

from gaugerake.floor.values.rounding import GUARD, whole


def packs_through(*, counts: Sequence[int], contents: Sequence[float], used: float) -> tuple[int, ...]:
    """Give the packs that cover what is used so far, those that hold most first.

    Parameters
    ----------
    counts : sequence of int
        How many packs of each kind there are.
    contents : sequence of float
        What one of each kind holds, in the product's base quantity.
    used : float
        What is used up so far, in the same; 0 or less takes no pack.

    Returns
    -------
    tuple of int
        Whole packs of each kind; all of them where together they do not cover it. It never falls as ``used`` grows.

    Examples
    --------
    Of two packs of 24 and five of one, 50 take both large ones and two of the small.

    >>> packs_through(counts=(5, 2), contents=(1.0, 24.0), used=50.0)
    (2, 2)
    """
    found, left = [0] * len(counts), used
    for place in sorted(range(len(counts)), key=lambda place: -contents[place]):
        if left <= used * GUARD:
            break
        found[place] = min(counts[place], whole(left / contents[place]))
        left -= found[place] * contents[place]
    return tuple(found)
