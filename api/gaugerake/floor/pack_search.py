"""The cheapest whole packs that cover a need, in whole numbers: a search that never visits what cannot be better.

The sizes are taken in the order of their best unit price. What is left to cover after some of them is a state, worked
out once for all ways that lead to it. In a state the count of the next size moves away from the end of a stretch that
promises most, until the bound on the sizes after it says that nothing further on can win. That is soon, unless unit
prices are nearly equal: the work depends on how close they are, and hardly on the need.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from operator import itemgetter

from gaugerake.floor.pack_bound import BOUNDLESS, Piece, Size, pieces

Key = tuple[int, int, int, tuple[int, ...]]  # cost, packs, units over, counts taken negative in the order of the skus
Bound = tuple[int, int, int]  # cost, packs, units over
Run = tuple[int, int, int, int, bool]  # from, to, step, price, whether the bound on the cost is level along it

_START = itemgetter(0)


class TooMany(Exception):
    """More counts were weighed than the search was allowed."""


class Assortment:
    """Sizes, in the order of their skus, made ready to search for any need."""

    def __init__(self, sizes: Sequence[Size]) -> None:
        self.sizes = tuple(sizes)
        self.order = sorted((i for i, size in enumerate(sizes) if size.most > 0), key=self._rank)
        after = [[sizes[i] for i in self.order[place:]] for place in range(len(self.order) + 1)]
        self.after = after
        self.bounds: list[list[Piece] | None] = [None] * len(after)
        self.largest = [max((size.units for size in rest), default=1) for rest in after]
        self.all_units = [sum(size.units * size.most for size in rest) for rest in after]
        self.first_sku = [min(self.order[place:]) == index for place, index in enumerate(self.order)]

    def bound(self, place: int) -> list[Piece]:
        """The bound on what the sizes from a place on cost; made when the first search comes by."""
        made = self.bounds[place]
        if made is None:
            made = self.bounds[place] = pieces(self.after[place])
        return made

    def _rank(self, index: int) -> tuple[float, int, int]:
        size = self.sizes[index]
        return (min(price for *_, price in size.tiers) / size.units, -size.units, index)


class Search:
    """One search for ``need`` units."""

    def __init__(self, assortment: Assortment, *, need: int, allowed: int) -> None:
        self.need, self.left = need, allowed
        self.assortment, self.all_units = assortment, assortment.all_units
        self.nothing = (0,) * len(assortment.sizes)
        self.known: dict[tuple[int, int], tuple[int, Key | None]] = {}

    def best(self) -> tuple[int, ...] | None:
        """Counts in the order of the sizes as given; None when all there is does not cover the need.

        Raises
        ------
        TooMany
        """
        found = self.solve(0, self.need, _first_cost(self.need, self.assortment.sizes))
        return None if found is None else tuple(-count for count in found[3])

    def solve(self, place: int, need: int, limit: int) -> Key | None:
        """The best way to cover ``need`` with the sizes from ``place`` on; None when it costs over ``limit``."""
        if need <= 0:
            return (0, 0, -need, self.nothing)
        if need > self.all_units[place]:
            return None
        tried, found = self.known.get((place, need), (-1, None))
        if found is None and tried < limit:
            found = _Choice(self, place, need, limit).best()
            self.known[place, need] = (limit, found)
        return found


class _Choice:
    """How many of one size to take, with ``need`` units to cover by it and the sizes after it."""

    __slots__ = ("after", "first_sku", "found", "index", "largest", "limit", "need", "place", "search", "size")

    def __init__(self, search: Search, place: int, need: int, limit: int) -> None:
        self.search, self.place, self.need, self.limit = search, place, need, limit
        ready = search.assortment
        self.index = ready.order[place]
        self.size = ready.sizes[self.index]
        self.after, self.largest = ready.bound(place + 1), ready.largest[place + 1]
        self.first_sku = ready.first_sku[place]
        self.found: Key | None = None

    def best(self) -> Key | None:
        for bound, run in sorted(self._runs()):
            if bound[0] <= self.limit:
                self._walk(run)
        return self.found

    def _runs(self) -> Iterator[tuple[Bound, Run]]:
        """Stretches of counts at one price along which the bound does not fall, and the bound at their start."""
        units = self.size.units
        enough = -(-self.need // units)
        least = max(0, -(-(self.need - self.search.all_units[self.place + 1]) // units))
        for first, last, price in self.size.tiers:
            if first > enough:  # more than is needed is bought only to reach a break
                yield self._bound(first, price), (first, first, 1, price, False)
                continue
            if last >= enough:
                yield self._bound(enough, price), (enough, enough, 1, price, False)
            low, high = max(first, least), min(last, enough - 1)
            if low <= high:
                yield from self._split(low, high, price)

    def _split(self, low: int, high: int, price: int) -> Iterator[tuple[Bound, Run]]:
        """A stretch in parts in each of which the bound on the rest is one straight piece."""
        units, need = self.size.units, self.need
        place = bisect_right(self.after, need - low * units, key=_START) - 1
        end = bisect_right(self.after, need - high * units, key=_START) - 1
        while low <= high:
            piece = self.after[place]
            last = high if place == end else min(high, (need - piece[0]) // units)
            if low <= last:
                run = self._run(low, last, price, piece)
                bound = self._bound(run[0], price, piece)
                if bound[0] <= self.limit:
                    yield bound, run
            low, place = max(low, last + 1), place - 1

    def _run(self, low: int, high: int, price: int, piece: Piece) -> Run:
        """A part from its more promising end to the other."""
        _, _, _, rest_price, rest_units = piece
        slope = price * rest_units - self.size.units * rest_price
        if slope > 0 or (slope == 0 and self.size.units < self.largest):
            return (low, high, 1, price, slope == 0)
        return (high, low, -1, price, slope == 0)

    def _bound(self, count: int, price: int, piece: Piece | None = None) -> Bound:
        """Cost, packs and units over that no choice with ``count`` of this size falls below."""
        rest = self.need - count * self.size.units
        if rest <= 0:
            return (count * price, count, -rest)
        piece = piece or self.after[bisect_right(self.after, rest, key=_START) - 1]
        _, origin, base, rest_price, rest_units = piece
        cost = count * price + base - ((origin - rest) * rest_price // rest_units)
        return (cost, count - (-rest // self.largest), 0)

    def _walk(self, run: Run) -> None:
        search = self.search
        start, stop, step, price, level = run
        for count in range(start, stop + step, step):
            search.left -= 1
            if search.left < 0:
                raise TooMany
            bound = self._bound(count, price)
            if bound[0] > self.limit:
                return
            if self.found is not None and bound >= self.found[:3]:
                tie = bound == self.found[:3]
                if level and (not tie or (step < 0 and not self._may_break_the_tie(count))):
                    return
                if not tie or not self._may_break_the_tie(count):
                    continue
            rest = search.solve(self.place + 1, self.need - count * self.size.units, self.limit - count * price)
            if rest is not None:
                self._keep(count, price, rest)

    def _may_break_the_tie(self, count: int) -> bool:
        """Whether ``count`` could come before the best found in the order of the skus."""
        assert self.found is not None
        return not self.first_sku or count > -self.found[3][self.index]

    def _keep(self, count: int, price: int, rest: Key) -> None:
        cost, packs, over, counts = rest
        here = self.index
        key = (cost + count * price, packs + count, over, (*counts[:here], -count, *counts[here + 1 :]))
        if key[0] <= self.limit and (self.found is None or key < self.found):
            self.found, self.limit = key, key[0]


def _first_cost(need: int, sizes: Sequence[Size]) -> int:
    """The cost of some packs that cover the need: no better choice costs more."""
    costs = [BOUNDLESS]
    for size in sizes:
        count = -(-need // size.units)
        if count <= size.most:
            costs.append(size.cost(count))
    return min(costs)
