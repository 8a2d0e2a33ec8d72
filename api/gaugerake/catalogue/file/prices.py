"""Reading money: prices and their breaks, in the currency of the catalogue and no finer than its minor unit."""

from __future__ import annotations

import re
from decimal import Decimal
from itertools import pairwise

from gaugerake.catalogue.file.codes import MINOR_UNITS
from gaugerake.catalogue.file.nodes import Node, Scalar
from gaugerake.catalogue.file.read import Table, integer, items
from gaugerake.floor.product import Break, Price

FREE = Decimal(0)
MOST_PACKS = 1_000_000
_AMOUNT = re.compile(r"[0-9]{1,9}(?:\.([0-9]{1,6}))?")
_WITH_CODE = re.compile(r"([A-Z]{3}) ?[-0-9.,]+|[-0-9.,]+ ?([A-Z]{3})")


class BadAmount(ValueError):
    """A text that is not an amount of money; its message says what to write instead."""


def amount(written: str, currency: str) -> Decimal:
    """Money, with the decimals that its currency has.

    Raises
    ------
    BadAmount

    Examples
    --------
    >>> amount("84", "USD")
    Decimal('84.00')
    >>> amount("84", "JPY")
    Decimal('84')
    """
    coded = _WITH_CODE.fullmatch(written)
    if coded:
        raise BadAmount(_coded(coded[1] or coded[2], currency))
    if len(written) > 1 and written[0] == "-" and not written[1:].strip("0123456789."):
        raise BadAmount("a price cannot be negative")
    found = _AMOUNT.fullmatch(written)
    if not found:
        raise BadAmount(
            f'"{written[:40]}" is not an amount of money: write figures alone, such as {_example(currency)}'
        )
    decimals = MINOR_UNITS.get(currency)
    if decimals is not None and len(found[1] or "") > decimals:
        raise BadAmount(f"{currency} has {decimals or 'no'} decimals: round {written} to that")
    return Decimal(written) if decimals is None else Decimal(written).quantize(Decimal(1).scaleb(-decimals))


def _example(currency: str) -> str:
    """An amount in quotes, with the decimals of its currency.

    >>> _example("EUR"), _example("JPY")
    ('"84.00"', '"84"')
    """
    return f'"{amount("84", currency)}"' if currency in MINOR_UNITS else '"84.00"'


def _coded(seen: str, currency: str) -> str:
    if seen == currency:
        return "write the figures alone: the currency is said once, at the top"
    return f"a price in another currency ({seen}): this catalogue is in {currency}; write figures alone"


def currency(node: Node) -> str:
    """A code of ISO 4217."""
    words = node.text if isinstance(node, Scalar) else ""
    if words in MINOR_UNITS:
        return words
    near = f" {node.nearest(words.upper(), MINOR_UNITS)}" if words.upper() in MINOR_UNITS else ""
    node.fault(f'"{words[:40]}" is no currency of ISO 4217: write three capitals, such as USD.{near}')
    return ""


def price(table: Table, code: str) -> Price | None:
    """The ``price`` and ``breaks`` of a pack; None when it has no price."""

    def money(node: Node) -> Decimal:
        return _money(node, code)

    def breaks(node: Node) -> tuple[Break, ...]:
        return _breaks(node, code)

    listed = table.read("price", money, None)
    steps = table.read("breaks", breaks, ())
    if listed is None:
        if "breaks" in table:
            table.fault("breaks", "breaks need a price that they break: write price before them")
        return None
    dearer = next((step for step in steps if step.price > listed), None)
    if dearer:
        table.caution("breaks", f"{dearer.from_count} packs or more cost more each than one does: is that meant?")
    return Price(price=listed, breaks=steps)


def _money(node: Node, code: str) -> Decimal:
    if not isinstance(node, Scalar) or not node.written:
        node.fault(f"write an amount of money here, such as {_example(code)}")
        return FREE
    try:
        return amount(node.text, code)
    except BadAmount as error:
        node.fault(str(error))
        return FREE


def _breaks(node: Node, code: str) -> tuple[Break, ...]:
    found = [(place, _break(place, code)) for place in items(node)]
    for (_, before), (place, after) in pairwise(found):
        if before and after and after.from_count <= before.from_count:
            place.fault("breaks must rise in their number of packs (from)")
    return tuple(step for _, step in found if step)


def _break(node: Node, code: str) -> Break | None:
    table = Table(node, required=("from", "price"))
    count = table.read("from", integer(2, MOST_PACKS), None)
    paid = table.read("price", lambda place: _money(place, code), FREE)
    return None if count is None else Break(from_count=count, price=paid)


def price_line(price: Price | None) -> str:
    """A price and its breaks, for people."""
    if price is None:
        return "no price"
    return "; ".join([f"{price.price}", *(f"{step.price} from {step.from_count}" for step in price.breaks)])
