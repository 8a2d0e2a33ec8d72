"""The least regrettable way to make packs come out even: one size fills what some packs more or less of others leave.

Regret is what is paid beyond the price of the filling size, by the unit. Each pack by which another size departs from
its home count is regretted, and so is each unit over. The filling size is regretted not at all, so that without limits
nothing counts but what remains when the rest is divided by its units: a table over these residues says what any
choice still has to regret at least, and the choice is read off along it. Where a limit bars that way, the table
remains the bound by which a search for the next best is cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd, prod

_LONGEST = 60_000  # residues of the longest table
_WORTH = 4  # choices that a residue in a table may save weighing


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """The size that fills the rest: from ``first`` to ``last`` packs; each unit over is regretted by ``over``."""

    units: int
    first: int
    last: int
    over: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Departure:
    """Up to ``most`` packs more (or, where ``units`` is negative, fewer) than at home, each regretted by ``regret``."""

    units: int
    regret: int
    most: int


class Weighed:
    """How many more counts may be weighed before the search is content with what it has."""

    def __init__(self, allowed: int) -> None:
        self.left = allowed


def least_regret(
    *, left: int, filling: Filling, departures: Sequence[Departure], limit: int, weighed: Weighed
) -> tuple[int, tuple[int, ...], int] | None:
    """Find the departures that let the filling size cover what is left with the least regret.

    Parameters
    ----------
    left : int
        Units that the other sizes leave when all of them are at home.
    filling : Filling
        The size that fills.
    departures : Sequence[Departure]
        Of the other sizes.
    limit : int
        Only less regret than this is of interest.
    weighed : Weighed
        Counted down; at nothing left, the best so far is given.

    Returns
    -------
    tuple of int, tuple of int, int; or None
        Regret, departure of each, packs of the filling size; None when nothing is below the limit.

    Examples
    --------
    17 units by fives leave 3 over, at 10 each. Two packs of a single unit more, at 4 each, are regretted less; no more
    than one can be had here, which leaves 16.

    >>> fives = Filling(units=5, first=0, last=99, over=10)
    >>> spare = Departure(units=1, regret=4, most=9)
    >>> least_regret(left=17, filling=fives, departures=[spare], limit=99, weighed=Weighed(99))
    (8, (2,), 3)
    >>> scarce = Departure(units=1, regret=4, most=1)
    >>> least_regret(left=17, filling=fives, departures=[scarce], limit=99, weighed=Weighed(99))
    (30, (0,), 4)
    """
    home = _filled(left, filling)
    if home is not None and home[0] < limit:
        limit = home[0]
    else:
        home = None
    used = [place for place, kind in enumerate(departures) if kind.regret < limit]
    used.sort(key=lambda place: departures[place].units > 0)
    kinds = [departures[place] for place in used]
    found = _Search(filling, kinds, limit, weighed).best(left) if kinds else None
    if found is None:
        return None if home is None else (home[0], (0,) * len(departures), home[1])
    counts = [0] * len(departures)
    for place, count in zip(used, found[1], strict=True):
        counts[place] = count
    return found[0], tuple(counts), found[2]


def _filled(left: int, filling: Filling) -> tuple[int, int] | None:
    """The regret, and the packs, of filling what is left.

    >>> _filled(17, Filling(units=5, first=0, last=99, over=10))
    (30, 4)
    """
    packs = max(filling.first, -(-left // filling.units))
    return ((packs * filling.units - left) * filling.over, packs) if packs <= filling.last else None


def residues(*, filling: Filling, departures: Sequence[Departure]) -> list[list[int]]:
    """Give the least regret by what is left to cover, as if there were no limits.

    Parameters
    ----------
    filling : Filling
        The size that fills.
    departures : Sequence[Departure]
        Of the other sizes.

    Returns
    -------
    list of list of int
        For the departures from each on (the last: for none), by what is left modulo the units of the filling size.

    Examples
    --------
    >>> fives, spare = Filling(units=5, first=0, last=99, over=10), Departure(units=1, regret=4, most=9)
    >>> residues(filling=fives, departures=[spare])
    [[0, 4, 8, 12, 10], [0, 40, 30, 20, 10]]
    """
    tables = [[filling.over * (-rest % filling.units) for rest in range(filling.units)]]
    for departure in reversed(departures):
        tables.append(_with(tables[-1], departure))
    return tables[::-1]


def _with(table: Sequence[int], departure: Departure) -> list[int]:
    """The table with one more kind of departure: once round each ring of residues that its packs go through.

    Begun at a ring's least regret, which no departure can better, once is enough.
    """
    best, length = list(table), len(table)
    step, rings = departure.units % length, gcd(departure.units, length)
    for first in range(rings):
        ring = table[first::rings]
        regret = min(ring)
        at = first + rings * ring.index(regret)
        for _ in range(len(ring) - 1):
            at = (at + step) % length
            regret += departure.regret
            if best[at] < regret:
                regret = best[at]
            else:
                best[at] = regret
    return best


class _Search:
    """Departures one after the other; those that take away come first, so that the rest only shrinks after them."""

    def __init__(self, filling: Filling, departures: Sequence[Departure], limit: int, weighed: Weighed) -> None:
        self.filling, self.departures, self.limit, self.weighed = filling, departures, limit, weighed
        self.bottom, self.top = filling.first * filling.units, filling.last * filling.units
        choices = prod(min(kind.most, (limit - 1) // kind.regret) + 1 for kind in departures)
        many = choices > _WORTH * len(departures) * filling.units and filling.units <= _LONGEST
        self.tables = residues(filling=filling, departures=departures) if many else None
        self.falls = [self._cheapest(place, falling=True) for place in range(len(departures) + 1)]
        self.rises = [self._cheapest(place, falling=False) for place in range(len(departures) + 1)]
        self.counts = [0] * len(departures)
        self.found: tuple[int, tuple[int, ...], int] | None = None

    def best(self, left: int) -> tuple[int, tuple[int, ...], int] | None:
        limit = self.limit
        if self.tables is not None:
            promised = self.tables[0][left % self.filling.units]
            if promised >= limit:
                return None
            self.limit = promised + 1
            self._walk(0, left, 0, promised=True)
        if self.found is None:
            self.limit = limit
            self._walk(0, left, 0, promised=False)
        return self.found

    def _cheapest(self, place: int, *, falling: bool) -> tuple[int, int] | None:
        """What moves the rest up or down at the least regret by the unit, of the departures from a place on."""
        moves = [(move.regret, abs(move.units)) for move in self.departures[place:] if (move.units < 0) == falling] + (
            [(self.filling.over, 1)] if falling else []
        )
        best = None
        for regret, units in moves:
            if best is None or regret * best[1] < best[0] * units:
                best = regret, units
        return best

    def _beyond(self, place: int, left: int) -> int:
        """The regret for bringing what is left within what can be filled; the limit where nothing can."""
        if left < self.bottom:
            fall = self.falls[place]
            assert fall is not None
            return (self.bottom - left) * fall[0] // fall[1]
        rise = self.rises[place]
        return self.limit if rise is None else (left - self.top) * rise[0] // rise[1]

    def _walk(self, place: int, left: int, regret: int, *, promised: bool) -> None:
        if self.weighed.left < 0:
            return
        if place == len(self.departures):
            self._fill(left, regret)
            return
        for least, count in sorted(self._counts(place, left, regret, promised=promised)):
            if least >= self.limit:
                return
            self.counts[place] = count
            move = self.departures[place]
            self._walk(place + 1, left - count * move.units, regret + count * move.regret, promised=promised)

    def _counts(self, place: int, left: int, regret: int, *, promised: bool) -> list[tuple[int, int]]:
        """Counts of one departure and what they must be regretted by at least, where that is below the limit.

        Once round the ring of residues a count can only be worse; but a limit may bar the better one.
        """
        move, length, limit = self.departures[place], self.filling.units, self.limit
        table = None if self.tables is None else self.tables[place + 1]
        most = min(move.most, (limit - 1 - regret) // move.regret)
        if promised or (move.units > 0 and left <= self.top):
            most = min(most, length // gcd(length, move.units) - 1)
        found = []
        most = min(most, self.weighed.left // 2)
        self.weighed.left -= most + 1
        for count in range(most + 1):
            least = regret + (table[left % length] if table else 0)
            if least < limit and not self.bottom <= left <= self.top:
                beyond = regret + self._beyond(place + 1, left)
                if beyond > least:
                    least = beyond
            if least < limit:
                found.append((least, count))
            regret += move.regret
            left -= move.units
        return found

    def _fill(self, left: int, regret: int) -> None:
        filled = _filled(left, self.filling)
        if filled is not None and regret + filled[0] < self.limit:
            self.limit = regret + filled[0]
            self.found = self.limit, tuple(self.counts), filled[1]
