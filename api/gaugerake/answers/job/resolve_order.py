"""How the order is made up and priced, and what is taken for what nobody states."""

from __future__ import annotations

from decimal import Decimal

from gaugerake.answers.job.remarks import assumption
from gaugerake.answers.job.resolved import ResolvedOrder
from gaugerake.answers.job.taken import Taken, asked, assumed
from gaugerake.catalogue.file.codes import MINOR_UNITS
from gaugerake.floor.job import Order
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.money import to_minor

WASTE_PERCENT = 5.0
CONFIDENCE = 0.9
NOTHING = Decimal(0)


def resolve_order(order: Order, currency: str) -> ResolvedOrder:
    """The job's order with every value present; money in ``currency`` (ISO 4217)."""
    return ResolvedOrder(
        reference=order.reference,
        buyer=order.buyer,
        issued=order.issued,
        colour=order.colour,
        offers=order.offers,
        on_hand=order.on_hand,
        waste_fraction=_waste(order.waste_percent),
        confidence=_confidence(order.confidence),
        tax_percent=_percent(order.tax_percent, "no-tax", "/order/tax_percent"),
        discount_percent=_percent(order.discount_percent, "no-discount", "/order/discount_percent"),
        delivery=_delivery(order.delivery, currency),
    )


def _waste(percent: float | None) -> Taken[float]:
    """The waste that the job states, else 5 % (common practice, no source)."""
    if percent is not None:
        return asked(percent / 100)
    return assumed(
        WASTE_PERCENT / 100, assumption("waste", "/order/waste_percent", Figure(WASTE_PERCENT, Kind.PERCENT))
    )


def _confidence(confidence: float | None) -> Taken[float]:
    if confidence is not None:
        return asked(confidence)
    percent = Figure(100 * CONFIDENCE, Kind.PERCENT)
    return assumed(CONFIDENCE, assumption("confidence", "/order/confidence", CONFIDENCE, percent=percent))


def _percent(percent: Decimal | None, code: str, pointer: str) -> Taken[Decimal]:
    if percent is not None:
        return asked(percent)
    return assumed(NOTHING, assumption(code, pointer, Figure(0.0, Kind.PERCENT)))


def _delivery(amount: Decimal | None, currency: str) -> Taken[Decimal]:
    if amount is not None:
        return asked(amount)
    none = to_minor(amount=NOTHING, digits=MINOR_UNITS[currency])
    return assumed(NOTHING, assumption("no-delivery", "/order/delivery", str(none)))
