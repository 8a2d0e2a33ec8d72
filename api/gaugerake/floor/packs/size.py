"""Sizes of pack in whole numbers, and the weight of a pack: one number that says all that a choice is judged by."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from gaugerake.floor.values.frozen import dataclass

_COUNT = 44  # bits of a count of packs
_UNITS = 96  # bits of a number of units


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One size of pack: the ``units`` that it holds, and its tiers of price.

    A tier is ``(first, last, price)``: bought in ``first`` to ``last`` packs, each costs ``price``. More than the last
    tier allows cannot be had. The first tier begins at none.
    """

    units: int
    tiers: tuple[tuple[int, int, int], ...]

    @property
    def most(self) -> int:
        """How many can be had."""
        return self.tiers[-1][1] if self.tiers else 0

    def cost(self, count: int) -> int:
        """What ``count`` of it cost."""
        return next(price for first, last, price in self.tiers if first <= count <= last) * count


class Tier(NamedTuple):
    """A tier with the weight of one of its packs."""

    first: int
    last: int
    price: int
    weight: int


def with_weights(sizes: Sequence[Size]) -> list[tuple[Tier, ...]]:
    """Give the tiers of each size with the weights of their packs.

    Parameters
    ----------
    sizes : Sequence[Size]
        In the order of their skus.

    Returns
    -------
    list of tuple of Tier
        For each size.

    Notes
    -----
    Weights add up: of two choices of packs, the one whose packs weigh less in all costs less; or costs the same and
    has fewer packs; or as many, which hold less; or as much, and has more of the first sku, and so on. No two choices
    weigh the same. A weight is a whole number with a field of bits for each of these, the cost in front.

    Examples
    --------
    >>> five, ten = Size(units=5, tiers=((0, 99, 50),)), Size(units=10, tiers=((0, 99, 100),))
    >>> (small,), (large,) = with_weights([five, ten])
    >>> small.weight < large.weight < 2 * small.weight
    True
    """
    over = _COUNT * len(sizes)
    packs = over + _UNITS
    cost = packs + _COUNT
    found = []
    for place, size in enumerate(sizes, 1):
        free = (
            (1 << packs) + (size.units << over) - (1 << over - _COUNT * place)
        )  # what a pack weighs besides its price
        found.append(tuple([Tier(first, last, price, (price << cost) + free) for first, last, price in size.tiers]))
    return found
