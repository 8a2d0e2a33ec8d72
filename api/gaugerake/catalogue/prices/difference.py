"""What differs between two price books."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.catalogue.file.prices import price_line
from gaugerake.floor.product import PriceBook


def price_differences(old: PriceBook, new: PriceBook) -> Iterator[str]:
    """One line for each sku whose price or breaks changed, in the order of the skus.

    Examples
    --------
    >>> from decimal import Decimal
    >>> from gaugerake.floor.product import Price
    >>> old, new = (
    ...     PriceBook(code="north", currency="USD", prices={"B-1": Price(price=Decimal(amount))})
    ...     for amount in ("84.00", "86.00")
    ... )
    >>> list(price_differences(old, new))
    ['B-1: 84.00 -> 86.00']
    """
    if old.currency != new.currency:
        yield f"currency: {old.currency} -> {new.currency}"
    for sku in sorted(old.prices.keys() | new.prices.keys()):
        before, after = old.prices.get(sku), new.prices.get(sku)
        if before is None and after is not None:
            yield f"new: {sku}: {price_line(after)}"
        elif after is None:
            yield f"no longer there: {sku} (was {price_line(before)})"
        elif before != after:
            yield f"{sku}: {price_line(before)} -> {price_line(after)}"
