"""The group relaxation of the knapsack: the cheapest departures from the base counts, with one size filling the rest.

The filling size is the basic variable: its reduced cost is 0. Each pack by which another size departs from its base
count has a reduced cost, and so has each unit bought over the need. Without limits on any size only the rest modulo the
filling size's units matters, so a table by residue gives the least reduced cost from any rest on, and the choice is
read off along it (``tables``). Where a limit of stock or of a price tier forbids that choice, the table is the lower
bound of a branch and bound.

References
----------
R. E. Gomory, On the relation between integer and noninteger solutions to linear programs, Proc. Natl. Acad. Sci. 53
(1965); cited from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from math import gcd, prod

from gaugerake.floor.packs.tables import Departure, Filling, residues, unlimited

LONGEST = 60_000  # residues of the longest table
_WORTH = 4  # choices that a residue in a table may save weighing

Pace = tuple[int, int] | None
"""A reduced cost and the units that it buys; None where nothing moves the rest that way."""


class CountBudget:
    """How many more counts may be compared before the search ends with the best so far."""

    def __init__(self, allowed: int) -> None:
        self.left = allowed


def least_reduced_cost(
    *, left: int, filling: Filling, departures: Sequence[Departure], limit: int, budget: CountBudget
) -> tuple[int, tuple[int, ...], int] | None:
    """Find the departures of least reduced cost with which the filling size covers what is left.

    Parameters
    ----------
    left : int
        Units that the base counts of the other sizes leave to cover.
    filling : Filling
        The size that fills.
    departures : Sequence[Departure]
        Of the other sizes.
    limit : int
        Only a reduced cost below this is looked for.
    budget : CountBudget
        Counted down; below 0 the best so far is returned.

    Returns
    -------
    tuple of int, tuple of int, int; or None
        Reduced cost, packs departed of each, packs of the filling size; None when nothing is below the limit.

    Examples
    --------
    17 units in fives are four packs with 3 units over, at 10 each: 30. Two single units more, at 4 each, leave three
    fives and cost 8. Where only one single can be had, it does not pay.

    >>> fives = Filling(units=5, first=0, last=99, over=10)
    >>> spare = Departure(units=1, reduced_cost=4, most=9)
    >>> least_reduced_cost(left=17, filling=fives, departures=[spare], limit=99, budget=CountBudget(99))
    (8, (2,), 3)
    >>> scarce = Departure(units=1, reduced_cost=4, most=1)
    >>> least_reduced_cost(left=17, filling=fives, departures=[scarce], limit=99, budget=CountBudget(99))
    (30, (0,), 4)
    """
    base = _filled(left, filling)
    if base is not None and base[0] < limit:
        limit = base[0]
    else:
        base = None
    used = [place for place, kind in enumerate(departures) if kind.reduced_cost < limit]
    found = _least(left, filling, [departures[place] for place in used], limit, budget) if used else None
    if found is None:
        return None if base is None else (base[0], (0,) * len(departures), base[1])
    counts = [0] * len(departures)
    for place, count in zip(used, found[1], strict=True):
        counts[place] = count
    return found[0], tuple(counts), found[2]


def _least(
    left: int, filling: Filling, kinds: Sequence[Departure], limit: int, budget: CountBudget
) -> tuple[int, Sequence[int], int] | None:
    """Find what `least_reduced_cost` gives, of departures each of which alone costs less than the limit."""
    choices = prod([min(kind.most, (limit - 1) // kind.reduced_cost) + 1 for kind in kinds])
    many = choices > _WORTH * len(kinds) * filling.units and filling.units <= LONGEST
    if many:
        reduced_cost, taken, packs = unlimited(left=left, filling=filling, sizes=[[kind] for kind in kinds])
        if reduced_cost >= limit:
            return None
        if packs is not None:
            return reduced_cost, [0 if one is None else one[1] for one in taken], packs
    order = sorted(range(len(kinds)), key=lambda place: kinds[place].units > 0)
    found = _Search(filling, [kinds[place] for place in order], limit, budget, tabled=many).best(left)
    if found is None:
        return None
    return found[0], [count for _, count in sorted(zip(order, found[1], strict=True))], found[2]


def _filled(left: int, filling: Filling) -> tuple[int, int] | None:
    """The reduced cost and the packs of filling what is left.

    >>> _filled(17, Filling(units=5, first=0, last=99, over=10))
    (30, 4)
    """
    packs = max(filling.first, -(-left // filling.units))
    return ((packs * filling.units - left) * filling.over, packs) if packs <= filling.last else None


class _Search:
    """Depth-first over the departures. Those that take packs away come first, so that then the rest only shrinks."""

    def __init__(
        self, filling: Filling, departures: Sequence[Departure], limit: int, budget: CountBudget, *, tabled: bool
    ) -> None:
        self.filling, self.departures, self.limit, self.budget = filling, departures, limit, budget
        self.bottom, self.top = filling.first * filling.units, filling.last * filling.units
        self.tables = residues(filling=filling, departures=departures) if tabled else None
        self.counts = [0] * len(departures)
        self.found: tuple[int, tuple[int, ...], int] | None = None

    @cached_property
    def falls(self) -> list[Pace]:
        """By place, the cheapest way to make the rest greater."""
        return _cheapest([-kind.units for kind in self.departures], self.departures, (self.filling.over, 1))

    @cached_property
    def rises(self) -> list[Pace]:
        """By place, the cheapest way to make it less."""
        return _cheapest([kind.units for kind in self.departures], self.departures, None)

    def best(self, left: int) -> tuple[int, tuple[int, ...], int] | None:
        self._walk(0, left, 0)
        return self.found

    def _beyond(self, place: int, left: int) -> int:
        """The least reduced cost of bringing the rest within what can be filled; the limit where nothing can."""
        if left < self.bottom:
            fall = self.falls[place]
            assert fall is not None
            return (self.bottom - left) * fall[0] // fall[1]
        rise = self.rises[place]
        return self.limit if rise is None else (left - self.top) * rise[0] // rise[1]

    def _walk(self, place: int, left: int, reduced_cost: int) -> None:
        if self.budget.left < 0:
            return
        if place == len(self.departures):
            self._fill(left, reduced_cost)
            return
        for least, count in sorted(self._counts(place, left, reduced_cost)):
            if least >= self.limit:
                return
            self.counts[place] = count
            move = self.departures[place]
            self._walk(place + 1, left - count * move.units, reduced_cost + count * move.reduced_cost)

    def _counts(self, place: int, left: int, reduced_cost: int) -> list[tuple[int, int]]:
        """Counts of one departure with a lower bound of the reduced cost, where that is below the limit.

        A count beyond one round of its cycle is worse than the same residue before, unless a limit of the filling size
        may forbid that one.
        """
        move, length, limit = self.departures[place], self.filling.units, self.limit
        table = None if self.tables is None else self.tables[place + 1]
        most = min(move.most, (limit - 1 - reduced_cost) // move.reduced_cost)
        cycle = length // gcd(length, move.units)
        if most >= cycle and self._within_on_the_way(place, left, limit - reduced_cost):
            most = cycle - 1
        found = []
        most = min(most, self.budget.left // 2)
        self.budget.left -= most + 1
        for count in range(most + 1):
            least = reduced_cost + (table[left % length] if table else 0)
            if least < limit and not self.bottom <= left <= self.top:
                beyond = reduced_cost + self._beyond(place + 1, left)
                if beyond > least:
                    least = beyond
            if least < limit:
                found.append((least, count))
            reduced_cost += move.reduced_cost
            left -= move.units
        return found

    def _within_on_the_way(self, place: int, left: int, spare: int) -> bool:
        """Whether the rest can't leave what can be filled by fewer packs of a departure, at what may be spent still."""
        if self.departures[place].units > 0:
            return left <= self.top  # departures from here on only lower the rest
        rise = self.rises[place + 1]
        return left - (spare * rise[1] // rise[0] if rise else 0) >= self.bottom

    def _fill(self, left: int, reduced_cost: int) -> None:
        filled = _filled(left, self.filling)
        if filled is not None and reduced_cost + filled[0] < self.limit:
            self.limit = reduced_cost + filled[0]
            self.found = self.limit, tuple(self.counts), filled[1]


def _cheapest(moved: Sequence[int], departures: Sequence[Departure], last: Pace) -> list[Pace]:
    """From each place on, the least reduced cost of units that departures move the rest one way, and those units."""
    best, found = last, [last]
    for units, move in zip(reversed(moved), reversed(departures), strict=True):
        if units > 0 and (best is None or move.reduced_cost * best[1] <= best[0] * units):
            best = move.reduced_cost, units
        found.append(best)
    return found[::-1]
