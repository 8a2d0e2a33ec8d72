"""What covering a need must cost at least: the bound that the search for packs cuts by.

Packs are let to be broken up, but a price is only had by whom buys enough for it: below the start of a tier its unit
price is out of reach, unless the whole of the tier's start is paid. The cheapest sizes are filled up first, as far as
there are any. Such a bound is a chain of straight pieces over the need.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

Tier = tuple[int, int, int]
Piece = tuple[int, int, int, int, int]  # start, origin, base, price, units: see pieces

BOUNDLESS = 1 << 62


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One size of pack: the ``units`` that it holds, and its tiers of price.

    A tier is ``(first, last, price)``: bought in ``first`` to ``last`` packs, each costs ``price``. More than the last
    tier allows cannot be had. The first tier begins at none.
    """

    units: int
    tiers: tuple[Tier, ...]

    @property
    def most(self) -> int:
        """How many can be had."""
        return self.tiers[-1][1] if self.tiers else 0

    def cost(self, count: int) -> int:
        """What ``count`` of it cost."""
        return next(price for first, last, price in self.tiers if first <= count <= last) * count


def pieces(sizes: Sequence[Size]) -> list[Piece]:
    """Give the bound on the cost of covering a need with these sizes.

    Parameters
    ----------
    sizes : Sequence[Size]
        What may be bought.

    Returns
    -------
    list of Piece
        Rising in need, the first at 0. From ``start`` to the next piece's, a need costs at least
        base + ⌈(need − origin) · price / units⌉.

    Examples
    --------
    >>> pieces([Size(units=5, tiers=((0, 9, 120),)), Size(units=1, tiers=((0, 99, 28),))])[:2]
    [(0, 0, 0, 120, 5), (45, 45, 1080, 28, 1)]
    """
    starts = sorted({0, *(first * size.units for size in sizes for first, _, _ in size.tiers)})
    chain: list[Piece] = []
    for start, end in zip(starts, [*starts[1:], BOUNDLESS], strict=True):
        filled = list(_filled(sizes, start, end))
        ends = [*(piece[0] for piece in filled[1:]), end]
        for piece, its_end in zip(filled, ends, strict=True):
            chain += _under(piece, its_end, _beyond(sizes, start))
    return _merged(chain)


def _beyond(sizes: Sequence[Size], start: int) -> int:
    """The least that it costs to reach any tier that begins beyond ``start``."""
    return min(
        (first * price for size in sizes for first, _, price in size.tiers if first * size.units > start),
        default=BOUNDLESS,
    )


def _filled(sizes: Sequence[Size], start: int, end: int) -> Iterator[Piece]:
    """The sizes filled up in the order of the best unit price that is within reach at ``start``."""
    within = [(min(price for first, _, price in size.tiers if first * size.units <= start), size) for size in sizes]
    within.sort(key=lambda entry: entry[0] / entry[1].units)
    held = paid = 0
    for price, size in within:
        if held >= end:
            return
        if held + size.units * size.most >= start:
            yield max(held, start), held, paid, price, size.units
        held, paid = held + size.units * size.most, paid + price * size.most
    if held < end:
        yield max(held + 1, start), 0, BOUNDLESS, 0, 1


def _under(piece: Piece, end: int, dearest: int) -> Iterator[Piece]:
    """A piece as far as it stays under ``dearest``, and level from there."""
    start, origin, base, price, units = piece
    crossing = end
    if base >= dearest:
        crossing = start
    elif price > 0 and dearest < BOUNDLESS:
        crossing = max(start, origin + (dearest - base) * units // price + 1)
    if crossing > start:
        yield piece
    if crossing < end:
        yield crossing, 0, dearest, 0, 1


def _merged(chain: list[Piece]) -> list[Piece]:
    """The chain without pieces that only go on as the one before."""
    kept: list[Piece] = []
    for piece in chain:
        if not kept or kept[-1][1:] != piece[1:]:
            kept.append(piece)
    return kept
