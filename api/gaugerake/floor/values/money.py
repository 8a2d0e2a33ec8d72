"""Money: decimal throughout, rounded once, half up, to the currency's minor unit."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from functools import cache


def to_minor(*, amount: Decimal, digits: int) -> Decimal:
    """Round an amount half up to its currency's minor unit.

    Parameters
    ----------
    amount : Decimal
        In major units.
    digits : int
        Of the minor unit: 2 for most currencies, 0 or 3 for some (ISO 4217).

    Returns
    -------
    Decimal
        With exactly that many digits.

    Examples
    --------
    >>> to_minor(amount=Decimal("12.345"), digits=2), to_minor(amount=Decimal("12.5"), digits=0)
    (Decimal('12.35'), Decimal('13'))
    """
    return amount.quantize(_minor_unit(digits), rounding=ROUND_HALF_UP)


@cache
def _minor_unit(digits: int) -> Decimal:
    return Decimal(1).scaleb(-digits)


def percent_of(*, amount: Decimal, percent: Decimal, digits: int) -> Decimal:
    """Give a percentage of an amount, rounded once.

    Parameters
    ----------
    amount : Decimal
        In major units.
    percent : Decimal [%]
        Of it.
    digits : int
        Of the currency's minor unit.

    Returns
    -------
    Decimal
        amount · percent / 100, half up.

    Examples
    --------
    >>> percent_of(amount=Decimal("200.10"), percent=Decimal("8.25"), digits=2)
    Decimal('16.51')
    """
    return to_minor(amount=amount * percent / 100, digits=digits)


def amount_at(*, price: Decimal, packs: int, digits: int) -> Decimal:
    """Give what a line of an order comes to.

    Parameters
    ----------
    price : Decimal
        Of one pack.
    packs : int
        How many.
    digits : int
        Of the currency's minor unit.

    Returns
    -------
    Decimal
        price · packs, rounded once, half up.

    Examples
    --------
    >>> amount_at(price=Decimal("0.125"), packs=3, digits=2)
    Decimal('0.38')
    """
    return to_minor(amount=price * packs, digits=digits)
