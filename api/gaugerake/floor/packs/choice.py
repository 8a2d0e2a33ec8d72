"""Packs: the whole packs that cover a need at the least cost.

A price break holds for all packs of its sku, and more than the need may be bought to reach one. Of choices that cost
the same the fewest packs win, then the least left over, then the most of the first sku. Where nothing has a price, the
least left over wins, then the fewest packs. A product of which only some packs have a price is bought in those; the
others make up only what those cannot.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from math import floor, gcd, lcm

from gaugerake.floor.packs.search import Assortment, PackSearch
from gaugerake.floor.packs.size import Size
from gaugerake.floor.product import Price
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.rounding import GUARD, whole

_UNLIMITED = 1 << 40
_FINEST = 1 << 20  # a common unit is looked for down to this part of the smallest pack
_MOST_COMPARED = 50_000  # counts that the search may compare


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """One sku that can be bought: its contents in the product's base quantity, its price, how many there are."""

    sku: str
    contents: float
    price: Price | None = None
    available: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """Packs of each sku offered, in the order offered; ``contents`` of all; ``lacking`` is what no stock covers."""

    counts: tuple[int, ...]
    contents: float
    lacking: float


_make_load = maker(Load)


def choose_packs(*, need: float, offered: Sequence[Offered]) -> Load:
    """Choose the cheapest whole packs that cover a need.

    Parameters
    ----------
    need : float
        In the product's base quantity; 0 or less takes no packs.
    offered : Sequence[Offered]
        The skus, in any order; a tie goes to the first by sku.

    Returns
    -------
    Load
        When all stock together does not cover the need, all of it, and what is lacking.

    Notes
    -----
    A need is covered within a relative guard of 1e-9. The choice is exact unless more than 50,000 counts would have to
    be compared, which takes several packs that share no unit and cost alike by contents: then it is the best of those,
    and costs no more than filling up with packs of one size.

    Examples
    --------
    >>> from decimal import Decimal
    >>> from gaugerake.floor.product import Break
    >>> listed = Price(price=Decimal(90), breaks=(Break(from_count=20, price=Decimal(84)),))
    >>> small = Offered(sku="A-1", contents=1, price=listed)
    >>> choose_packs(need=19, offered=[small])
    Load(counts=(20,), contents=20.0, lacking=0.0)
    >>> choose_packs(need=12, offered=[small, Offered(sku="A-5", contents=5, price=Price(price=Decimal(430)))])
    Load(counts=(2, 2), contents=12.0, lacking=0.0)
    """
    counts = [0] * len(offered)
    left = need
    if left > 0:
        for group in _groups(tuple(offered)):
            for index, count in zip(group.indices, group.choose(left), strict=True):
                counts[index] = count
                left -= count * offered[index].contents
            if left <= need * GUARD:
                break
    contents = float(math.fsum([count * offer.contents for count, offer in zip(counts, offered, strict=True)]))
    return _make_load(counts=tuple(counts), contents=contents, lacking=left if left > max(need, 0) * GUARD else 0.0)


class _Group:
    """Skus that all have a price, or all have none, in the order of their names, made ready to choose from."""

    def __init__(self, offered: Sequence[Offered], indices: Sequence[int]) -> None:
        self.indices = sorted(indices, key=lambda index: offered[index].sku)
        mine = [offered[index] for index in self.indices]
        self.unit, units = _common_unit([offer.contents for offer in mine])
        self.stock = tuple(offer.available or 0 for offer in mine)
        tiers = _tiers(mine, units)
        self.ready = Assortment([Size(units=held, tiers=its) for held, its in zip(units, tiers, strict=True)])

    def choose(self, need: float) -> tuple[int, ...]:
        """Counts in the order of the indices; all there are when they do not cover the need."""
        found = PackSearch(self.ready, need=whole(need / self.unit), allowed=_MOST_COMPARED).best()
        return self.stock if found is None else found


@lru_cache(maxsize=4096)
def _groups(offered: tuple[Offered, ...]) -> tuple[_Group, ...]:
    """First what has a price, then what has none."""
    priced = [index for index, offer in enumerate(offered) if offer.price is not None]
    others = [index for index, offer in enumerate(offered) if offer.price is None]
    return tuple(_Group(offered, indices) for indices in (priced, others) if indices)


def _tiers(offered: Sequence[Offered], units: Sequence[int]) -> list[tuple[tuple[int, int, int], ...]]:
    """The tiers of each sku in whole numbers; without prices a pack costs the units that it holds."""
    stocks = [_UNLIMITED if offer.available is None else offer.available for offer in offered]
    steps = [_prices(offer.price) for offer in offered if offer.price]
    if not steps:
        return [_within_stock([(0, held)], stock) for held, stock in zip(units, stocks, strict=True)]
    scale = 10 ** max(0, *(-int(price.as_tuple().exponent) for prices in steps for _, price in prices))
    return [
        _within_stock([(start, int(price * scale)) for start, price in prices], stock)
        for prices, stock in zip(steps, stocks, strict=True)
    ]


def _prices(price: Price) -> list[tuple[int, Decimal]]:
    return [(0, price.price), *((step.from_count, step.price) for step in price.breaks)]


def _within_stock(steps: Sequence[tuple[int, int]], stock: int) -> tuple[tuple[int, int, int], ...]:
    """The tiers that the stock reaches.

    >>> _within_stock([(0, 90), (20, 84), (50, 80)], 30)
    ((0, 19, 90), (20, 30, 84))
    """
    if len(steps) == 1:
        return ((0, stock, steps[0][1]),)
    found, end = [], stock
    for start, price in reversed(steps):
        if start <= stock:
            found.append((start, end, price))
            end = start - 1
    return tuple(reversed(found))


def _common_unit(contents: Sequence[float]) -> tuple[float, tuple[int, ...]]:
    """A unit of which each of these holds a whole number, and those numbers.

    Contents that share none down to a millionth of the smallest are counted in so fine a unit that the noise stays
    under the guard.

    >>> _common_unit([2.5, 10.0, 4.0])
    (0.5, (5, 20, 8))
    """
    least = min(contents)
    if least <= _FINEST and all(map(float.is_integer, map(float, contents))):
        counted = [int(held) for held in contents]
        shared = gcd(*counted)
        return least / (counted[contents.index(least)] // shared), tuple(held // shared for held in counted)
    ratios = [Fraction(held / least).limit_denominator(_FINEST) for held in contents]
    if all(
        abs(float(ratio) * least - held) <= held * GUARD / 100 for ratio, held in zip(ratios, contents, strict=True)
    ):
        parts = lcm(*(ratio.denominator for ratio in ratios))
        if parts <= _FINEST:
            return least / parts, tuple(int(ratio * parts) for ratio in ratios)
    unit = least * GUARD / 1000
    return unit, tuple(floor(held / unit) for held in contents)


def price_of(*, price: Price, packs: int) -> Decimal:
    """Give what each pack of a sku costs when this many are bought.

    Parameters
    ----------
    price : Price
        List price and breaks.
    packs : int
        How many.

    Returns
    -------
    Decimal
        The price of the last break reached, for all of them.

    Examples
    --------
    >>> from gaugerake.floor.product import Break
    >>> listed = Price(price=Decimal("90.00"), breaks=(Break(from_count=20, price=Decimal("84.00")),))
    >>> price_of(price=listed, packs=19), price_of(price=listed, packs=20)
    (Decimal('90.00'), Decimal('84.00'))
    """
    return next((step.price for step in reversed(price.breaks) if packs >= step.from_count), price.price)
