"""Kits: packs that are sold as parts, each with its own price and stock, and counted together."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from gaugerake.floor.packs.choice import price_of
from gaugerake.floor.product import Break, Price


def kit_price(prices: Sequence[Price | None]) -> Price | None:
    """Give what a kit costs by the prices of its parts.

    Parameters
    ----------
    prices : sequence of Price or None
        Of each part; None where a part has no price.

    Returns
    -------
    Price or None
        At each count the sum of what the parts cost at that count; None where a part has no price.

    Notes
    -----
    A break of one part is a break of the kit, as the parts are bought in one count.

    Examples
    --------
    >>> powder = Price(price=Decimal(40), breaks=(Break(from_count=10, price=Decimal(36)),))
    >>> liquid = Price(price=Decimal(55), breaks=(Break(from_count=24, price=Decimal(50)),))
    >>> [str(step.price) for step in kit_price([powder, liquid]).breaks]
    ['91', '86']
    >>> kit_price([powder, None]) is None
    True
    """
    known = [price for price in prices if price is not None]
    if len(known) < len(prices):
        return None
    if len(known) == 1:
        return known[0]
    counts = sorted({step.from_count for price in known for step in price.breaks})
    return Price(
        price=sum((price.price for price in known), Decimal(0)),
        breaks=tuple(
            Break(from_count=count, price=sum((price_of(price=price, packs=count) for price in known), Decimal(0)))
            for count in counts
        ),
    )


def whole_kits(parts: Sequence[int]) -> int:
    """Give how many kits so many of each part make.

    Parameters
    ----------
    parts : sequence of int
        How many there are of each part.

    Returns
    -------
    int
        As many as there are of the scarcest part: a part alone is no kit.

    Examples
    --------
    >>> whole_kits([3, 5])
    3
    """
    return min(parts)


def kit_sku(skus: Sequence[str]) -> str:
    """Name a kit by the skus of its parts.

    Parameters
    ----------
    skus : sequence of str
        In the order in which the catalogue lists the parts.

    Returns
    -------
    str
        All of them; as no sku holds a space, no two kits have one name.

    Examples
    --------
    >>> kit_sku(["RP-1", "RL-1"])
    'RP-1 + RL-1'
    """
    return " + ".join(skus)
