"""The cheapest whole packs where there are few choices: trying them all is faster than a search."""

from __future__ import annotations

from collections.abc import Sequence

from gaugerake.floor.packs.size import Tier

Choice = tuple[int, tuple[int, ...]]  # weight, counts


def few(*, need: int, units: Sequence[int], tiers: Sequence[Sequence[Tier]], most: int) -> bool:
    """Tell whether there are so few choices that all can be tried.

    Parameters
    ----------
    need : int
        Units to cover.
    units : Sequence[int]
        Of each size.
    tiers : Sequence[Sequence[Tier]]
        Of each size.
    most : int
        How many choices are still few.

    Returns
    -------
    bool
        True up to ``most`` choices: the counts of all sizes but the last, which covers what they leave.

    Examples
    --------
    17 units are none to four fives; none to two tens.

    >>> few(need=17, units=[10, 5], tiers=[[Tier(0, 99, 8, 8)], [Tier(0, 99, 5, 5)]], most=3)
    True
    >>> few(need=17, units=[5, 10], tiers=[[Tier(0, 3, 5, 5)], [Tier(0, 99, 8, 8)]], most=3)
    False
    """
    number = 1
    for held, mine in zip(units[:-1], tiers, strict=False):
        number *= min(-(-need // held), mine[-1].last) + 1
        if number > most:
            return False
    return True


def lightest(*, need: int, units: Sequence[int], tiers: Sequence[Sequence[Tier]]) -> Choice | None:
    """Try every choice of packs that cover a need.

    Parameters
    ----------
    need : int
        Units to cover.
    units : Sequence[int]
        Of each size.
    tiers : Sequence[Sequence[Tier]]
        Of each size.

    Returns
    -------
    tuple of int and tuple of int, or None
        The least weight and its counts; None when all there is does not cover the need.

    Notes
    -----
    Only the size that covers what the others leave may be bought beyond that, to reach a break: the last, or one
    before it when that leaves nothing.

    Examples
    --------
    >>> lightest(need=17, units=[10, 5], tiers=[[Tier(0, 99, 8, 8)], [Tier(0, 99, 5, 5)]])
    (16, (2, 0))
    >>> lightest(need=17, units=[10], tiers=[[Tier(0, 1, 8, 8)]])
    """
    held, mine, others = units[0], tiers[0], units[1:]
    enough = max(0, -(-need // held))
    found: Choice | None = None
    for first, last, _, weight in mine:
        covering = first if first > enough else enough
        if covering <= last and (found is None or weight * covering < found[0]):
            found = weight * covering, (covering, *(0,) * len(others))
        for count in range(first, min(last, enough - 1) + 1) if others else ():
            rest = lightest(need=need - count * held, units=others, tiers=tiers[1:])
            if rest is not None and (found is None or weight * count + rest[0] < found[0]):
                found = weight * count + rest[0], (count, *rest[1])
    return found
