"""The same choice as choose_packs makes, by a table over every number of units: slow, simple, and long with the need.

The oracle for needs that are too great to try every count of every sku.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from gaugerake.floor.packs.size import Size

Table = NDArray[np.int64]

NEVER = np.int64(1) << 62
_PACK = 1 << 20  # a cost and a number of packs in one whole number: cost · _PACK + packs


def table_best(*, need: int, sizes: Sequence[Size]) -> tuple[int, ...] | None:
    """Counts in the order of the sizes: cheapest, fewest packs, least over, most of the first; None when too few."""
    length = need + max(_reach(need, size) for size in sizes) + 1
    tables = [np.full(length, NEVER, dtype=np.int64)]
    tables[0][0] = 0
    for size in reversed(sizes):
        tables.append(_with(tables[-1], size))
    last = tables[-1][need:]
    over = int(last.argmin())
    if last[over] >= NEVER:
        return None
    return _counts(need + over, sizes, tables[::-1])


def _reach(need: int, size: Size) -> int:
    """How far beyond the need a size may take it: by less than one pack, or to the start of a tier."""
    return max(size.units, *(first * size.units - need for first, _, _ in size.tiers), 0)


def _with(table: Table, size: Size) -> Table:
    """For each number of units held exactly, the least cost with this size as well."""
    rows = -(-len(table) // size.units)
    padded = np.full(rows * size.units, NEVER, dtype=np.int64)
    padded[: len(table)] = table
    grid: Table = padded.reshape(rows, size.units)
    best = np.full_like(grid, NEVER)
    for tier in size.tiers:
        np.minimum(best, _in_tier(grid, tier), out=best)
    return best.reshape(-1)[: len(table)]


def _in_tier(grid: Table, tier: tuple[int, int, int]) -> Table:
    """The least cost when the count is within one tier; a row of the grid is one pack more."""
    first, last, price = tier
    rows = len(grid)
    cost = (np.arange(rows, dtype=np.int64) * (price * _PACK + 1))[:, None]
    level = np.where(grid >= NEVER, NEVER, grid - cost)
    least = _window(level, min(last, rows - 1) - first + 1)
    moved = np.full_like(grid, NEVER)
    moved[first:] = least[: rows - first]
    return np.where(moved >= NEVER, NEVER, moved + cost)


def _window(level: Table, width: int) -> Table:
    """For each row the least of it and the ``width - 1`` before it, by doubling."""
    least, done = level, 1
    while done < width:
        step = min(done, width - done)
        shifted = np.full_like(least, NEVER)
        shifted[step:] = least[: len(least) - step]
        least = np.minimum(least, shifted)
        done += step
    return least


def _counts(units: int, sizes: Sequence[Size], tables: Sequence[Table]) -> tuple[int, ...]:
    """The counts behind a cell of the first table: the most of the first sku, then of the second, and so on."""
    counts = []
    for size, table, rest in zip(sizes, tables, tables[1:], strict=False):
        count = next(
            count
            for first, last, price in reversed(size.tiers)
            for count in range(min(last, units // size.units), first - 1, -1)
            if rest[units - count * size.units] + count * (price * _PACK + 1) == table[units]
        )
        counts.append(count)
        units -= count * size.units
    return tuple(counts)
