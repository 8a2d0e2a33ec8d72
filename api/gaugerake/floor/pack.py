"""Packs: the whole packs that cover a need at the least cost.

A price break holds for all packs of its sku, and more than the need may be bought to reach one. Of choices that cost
the same the fewest packs win, then the least left over, then the most of the first sku. Where nothing has a price, the
least left over wins, then the fewest packs. A product of which only some packs have a price is bought in those; the
others make up only what those cannot.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from math import floor, lcm

from gaugerake.floor.body import GUARD, whole
from gaugerake.floor.pack_bound import Size, Tier
from gaugerake.floor.pack_search import Assortment, Search, TooMany
from gaugerake.floor.pack_table import DEAREST, table_best
from gaugerake.floor.system import Price

_UNLIMITED = 1 << 40
_FINEST = 1 << 20  # a common unit is looked for down to this part of the smallest pack
_WEIGHED = 10_000  # counts that the search may weigh before the table takes over
_LONGEST = 250_000  # the longest table, in units
_FINE = 1000  # as coarse units as a pack, or a bundle of them, must hold to be counted in them


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
    A need is covered within a relative guard of 1e-9. The choice is exact, by branch and bound; prices so nearly alike
    that it would weigh more than 10,000 counts go to a table over every quantity, which is as exact while the packs
    share a unit of which the need has up to 250,000, and otherwise to about a part in a thousand of the cost.

    Examples
    --------
    >>> from decimal import Decimal
    >>> from gaugerake.floor.system import Break
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
    contents = float(sum(count * offer.contents for count, offer in zip(counts, offered, strict=True)))
    return Load(counts=tuple(counts), contents=contents, lacking=left if left > max(need, 0) * GUARD else 0.0)


class _Group:
    """Skus that all have a price, or all have none, in the order of their names, made ready to choose from."""

    def __init__(self, offered: Sequence[Offered], indices: Sequence[int]) -> None:
        self.indices = sorted(indices, key=lambda index: offered[index].sku)
        mine = [offered[index] for index in self.indices]
        self.unit, units = _common_unit([offer.contents for offer in mine])
        self.stock = tuple(offer.available or 0 for offer in mine)
        self.sizes = [Size(units=held, tiers=tiers) for held, tiers in zip(units, _tiers(mine, units), strict=True)]
        self.ready = Assortment(self.sizes)

    def choose(self, need: float) -> tuple[int, ...]:
        """Counts in the order of the indices; all there are when they do not cover the need."""
        found = self._fewest(whole(need / self.unit))
        return self.stock if found is None else found

    def _fewest(self, need: int) -> tuple[int, ...] | None:
        if len(self.sizes) == 1:
            return _of_one(need, self.sizes[0])
        try:
            return Search(self.ready, need=need, allowed=_WEIGHED).best()
        except TooMany:
            return _by_table(need, self.sizes)


@lru_cache(maxsize=4096)
def _groups(offered: tuple[Offered, ...]) -> tuple[_Group, ...]:
    """First what has a price, then what has none."""
    priced = [index for index, offer in enumerate(offered) if offer.price is not None]
    others = [index for index, offer in enumerate(offered) if offer.price is None]
    return tuple(_Group(offered, indices) for indices in (priced, others) if indices)


def _by_table(need: int, sizes: Sequence[Size]) -> tuple[int, ...] | None:
    """The best counts by the table; where that would be too long, about the best, which cover the need too.

    Then units are taken together, and packs that hold few of these in bundles. What is too much of them is taken off.
    """
    coarse = -(-need // _LONGEST)
    bundles = [1 if coarse == 1 else max(1, _FINE * coarse // size.units) for size in sizes]
    bundled = [_bundled(size, bundle, coarse) for size, bundle in zip(sizes, bundles, strict=True)]
    found = table_best(need=-(-need // coarse), sizes=_in_reach(-(-need // coarse), bundled))
    if found is not None and coarse == 1:
        return found
    most = tuple(size.most for size in sizes)
    counts = most if found is None else [count * bundle for count, bundle in zip(found, bundles, strict=True)]
    return _trimmed(need, sizes, counts)


def _in_reach(need: int, sizes: Sequence[Size]) -> list[Size]:
    """The sizes, their prices in such parts that no cost in the table is too great for it."""
    dearest = max((need // size.units + first + 1) * price for size in sizes for first, _, price in size.tiers)
    part = 1 + dearest * len(sizes) // DEAREST
    if part == 1:
        return list(sizes)
    return [
        Size(units=size.units, tiers=tuple((first, last, price // part) for first, last, price in size.tiers))
        for size in sizes
    ]


def _bundled(size: Size, bundle: int, coarse: int) -> Size:
    """Bundles of a size, in coarse units that they surely hold.

    >>> _bundled(Size(units=5, tiers=((0, 9, 28), (10, 44, 25))), 4, 2)
    Size(units=10, tiers=((0, 2, 112), (3, 11, 100)))
    """
    tiers = [(-(-first // bundle), last // bundle, price * bundle) for first, last, price in size.tiers]
    return Size(units=size.units * bundle // coarse, tiers=tuple(tier for tier in tiers if tier[0] <= tier[1]))


def _trimmed(need: int, sizes: Sequence[Size], counts: Sequence[int]) -> tuple[int, ...]:
    """The counts, which cover the need, without what is not needed, the dearest first, where that costs no more."""
    over = sum(size.units * count for size, count in zip(sizes, counts, strict=True)) - need
    kept = list(counts)
    dear = sorted(
        (i for i in range(len(sizes)) if kept[i]), key=lambda i: -sizes[i].cost(kept[i]) / kept[i] / sizes[i].units
    )
    for i in dear:
        size, least = sizes[i], kept[i] - min(kept[i], over // sizes[i].units)
        breaks = (first for first, _, _ in size.tiers if least < first < kept[i])
        _, count = min((size.cost(count), count) for count in (least, *breaks, kept[i]))
        over -= (kept[i] - count) * size.units
        kept[i] = count
    return tuple(kept)


def _of_one(need: int, size: Size) -> tuple[int, ...] | None:
    """The count of a single sku: what covers the need, or the start of a tier that makes more of it cheaper."""
    enough = -(-need // size.units)
    choices = [
        (max(first, enough) * price, max(first, enough))
        for first, last, price in size.tiers
        if max(first, enough) <= last
    ]
    return (min(choices)[1],) if choices else None


def _tiers(offered: Sequence[Offered], units: Sequence[int]) -> list[tuple[Tier, ...]]:
    """The tiers of each sku in whole numbers; without prices a pack costs the units that it holds."""
    exact = [price for offer in offered if offer.price for price in _prices(offer.price)]
    scale = 10 ** max([0, *(-int(price.as_tuple().exponent) for _, price in exact)])
    return [
        _within_stock(
            [(0, held)]
            if offer.price is None
            else [(start, int(price * scale)) for start, price in _prices(offer.price)],
            _UNLIMITED if offer.available is None else offer.available,
        )
        for offer, held in zip(offered, units, strict=True)
    ]


def _prices(price: Price) -> list[tuple[int, Decimal]]:
    return [(0, price.price), *((step.from_count, step.price) for step in price.breaks)]


def _within_stock(steps: Sequence[tuple[int, int]], stock: int) -> tuple[Tier, ...]:
    """The tiers that the stock reaches.

    >>> _within_stock([(0, 90), (20, 84), (50, 80)], 30)
    ((0, 19, 90), (20, 30, 84))
    """
    ends = [start - 1 for start, _ in steps[1:]] + [stock]
    reached = zip(steps, ends, strict=True)
    return tuple((start, min(end, stock), price) for (start, price), end in reached if start <= stock)


def _common_unit(contents: Sequence[float]) -> tuple[float, tuple[int, ...]]:
    """A unit of which each of these holds a whole number, and those numbers.

    Contents that share none down to a millionth of the smallest are counted in so fine a unit that the noise stays
    under the guard.

    >>> _common_unit([2.5, 10.0, 4.0])
    (0.5, (5, 20, 8))
    """
    least = min(contents)
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
    >>> from gaugerake.floor.system import Break
    >>> listed = Price(price=Decimal("90.00"), breaks=(Break(from_count=20, price=Decimal("84.00")),))
    >>> price_of(price=listed, packs=19), price_of(price=listed, packs=20)
    (Decimal('90.00'), Decimal('84.00'))
    """
    return next((step.price for step in reversed(price.breaks) if packs >= step.from_count), price.price)
