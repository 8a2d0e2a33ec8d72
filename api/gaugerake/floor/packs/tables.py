"""Tables by residue: the least reduced cost of what is left to cover, were there no limits on any size.

Only what is left modulo the filling size's units matters then. A table is filled by going once round each cycle of
residues. A size that may be bought in several price tiers has a table for each, of which the least entries count, so
one row of tables holds the choices of all tiers.

References
----------
R. E. Gomory, On the relation between integer and noninteger solutions to linear programs, Proc. Natl. Acad. Sci. 53
(1965); cited from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd

from gaugerake.floor.values.frozen import dataclass

Table = list[int]

Taken = tuple[int, int] | None
"""The departure that a size takes, by its place among those of the size, and in how many packs; None for its base."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """The size that fills the rest, in ``first`` to ``last`` packs; a unit over the need costs ``over``, reduced."""

    units: int
    first: int
    last: int
    over: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Departure:
    """Up to ``most`` packs more than the base count, or fewer where ``units`` is negative, each at ``reduced_cost``.

    In another tier than that of the base count they begin ``jump_units`` from it, and to be there has a reduced cost:
    ``jump_cost``.
    """

    units: int
    reduced_cost: int
    most: int
    jump_units: int = 0
    jump_cost: int = 0


def unlimited(
    *, left: int, filling: Filling, sizes: Sequence[Sequence[Departure]]
) -> tuple[int, tuple[Taken, ...], int | None]:
    """Find the departures of least reduced cost, were there no limits on any size.

    Parameters
    ----------
    left : int
        Units that the base counts of the other sizes leave to cover.
    filling : Filling
        The size that fills.
    sizes : Sequence[Sequence[Departure]]
        The departures of each other size, of which it may take one; that within the tier of its base count first.

    Returns
    -------
    int, tuple of Taken, int or None
        The reduced cost, which no choice within the limits is below; what each size takes; and packs of the filling
        size, None where a limit forbids this choice.

    Notes
    -----
    The cheapest departures come first. One that by itself costs what those before it come to cannot make that less,
    nor can any after it: no table is made for them.

    Examples
    --------
    >>> fives, spare = Filling(units=5, first=0, last=99, over=10), Departure(units=1, reduced_cost=4, most=9)
    >>> unlimited(left=17, filling=fives, sizes=[[Departure(units=2, reduced_cost=9, most=9)], [spare]])
    (8, (None, (0, 2)), 3)

    From the sixth on, a single costs less:

    >>> many = Departure(units=1, reduced_cost=1, most=9, jump_units=6, jump_cost=5)
    >>> unlimited(left=17, filling=fives, sizes=[[spare, many]])
    (6, ((1, 1),), 2)
    """
    rest = left % filling.units
    tables, places = [_rounded_up(filling)], []
    cheapest = [min([way.jump_cost or way.reduced_cost for way in ways]) for ways in sizes]
    for place in sorted(range(len(sizes)), key=cheapest.__getitem__):
        limit = tables[-1][rest]
        if cheapest[place] >= limit:
            break
        tables.append(_with_one_of(tables[-1], sizes[place], limit))
        places.append(place)
    taken: list[Taken] = [None] * len(sizes)
    reduced_cost = tables[-1][rest]
    while places:
        place, wanted = places.pop(), tables.pop()[rest]
        if tables[-1][rest] != wanted:
            taken[place], rest = _read_off(tables[-1], rest, wanted, sizes[place])
    return reduced_cost, tuple(taken), _filled_within_limits(left, filling, sizes, taken)


def _with_one_of(table: Table, ways: Sequence[Departure], limit: int) -> Table:
    """The table with one more size, which may depart in one of these ways, where that costs less than the limit."""
    best = table
    for way in ways:
        if (way.jump_cost or way.reduced_cost) >= limit:
            continue
        if way.jump_cost:
            jumped = _jumped(table, way)
            other = _with(jumped, way) if way.most else jumped
            best = [one if one < two else two for one, two in zip(best, other, strict=True)]
        else:
            best = _with(table, way)
    return best


def _jumped(table: Table, way: Departure) -> Table:
    """The table once a departure has begun in another tier."""
    by = way.jump_units % len(table)
    return [reduced_cost + way.jump_cost for cut in (table[-by:], table[:-by]) for reduced_cost in cut]


def _read_off(table: Table, rest: int, wanted: int, ways: Sequence[Departure]) -> tuple[Taken, int]:
    """The departure with which an entry of the table without it costs what is wanted, and the residue of that entry."""
    for place, way in enumerate(ways):
        reduced_cost, at = way.jump_cost, (rest - way.jump_units) % len(table)
        for count in range(len(table) if way.most else 1):
            if table[at] + reduced_cost == wanted:
                return (place, count), at
            reduced_cost += way.reduced_cost
            at = (at - way.units) % len(table)
    raise AssertionError("an entry of a table comes from one of the table before it")


def _filled_within_limits(
    left: int, filling: Filling, sizes: Sequence[Sequence[Departure]], taken: Sequence[Taken]
) -> int | None:
    """The packs of the filling size beside what the others take; None where a limit forbids that."""
    for ways, one in zip(sizes, taken, strict=True):
        if one is not None:
            way, count = ways[one[0]], one[1]
            if count > way.most:
                return None
            left -= way.jump_units + count * way.units
    packs = -(-left // filling.units)
    return packs if filling.first <= packs <= filling.last else None


def _rounded_up(filling: Filling) -> Table:
    """The table without departures: what the units over cost when the rest is filled up."""
    return [filling.over * (-rest % filling.units) for rest in range(filling.units)]


def residues(*, filling: Filling, departures: Sequence[Departure]) -> list[Table]:
    """Give the least reduced cost by residue, without limits on any size.

    Parameters
    ----------
    filling : Filling
        The size that fills.
    departures : Sequence[Departure]
        Of the other sizes, each within the tier of its base count.

    Returns
    -------
    list of list of int
        One table for the departures from each place on (the last: with none), by what is left modulo the filling size.

    Examples
    --------
    >>> fives, spare = Filling(units=5, first=0, last=99, over=10), Departure(units=1, reduced_cost=4, most=9)
    >>> residues(filling=fives, departures=[spare])
    [[0, 4, 8, 12, 10], [0, 40, 30, 20, 10]]
    """
    tables = [_rounded_up(filling)]
    for departure in reversed(departures):
        tables.append(_with(tables[-1], departure))
    return tables[::-1]


def _with(table: Table, departure: Departure) -> Table:
    """The table with one more kind of departure: once round each cycle of residues that its packs step through.

    A walk that starts at the least entry of its cycle, which no departure lowers, needs one round.
    """
    best, length = list(table), len(table)
    step, rings, each = departure.units % length, gcd(departure.units, length), departure.reduced_cost
    for first in range(rings):
        ring = table[first::rings]
        reduced_cost = min(ring)
        at = first + rings * ring.index(reduced_cost)
        for _ in range(len(ring) - 1):
            at = (at + step) % length
            reduced_cost += each
            if best[at] < reduced_cost:
                reduced_cost = best[at]
            else:
                best[at] = reduced_cost
    return best
