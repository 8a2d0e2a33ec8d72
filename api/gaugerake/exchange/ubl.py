"""The quote as an OASIS UBL 2.1 Quotation.

Currencies are ISO 4217, the units of packs UN/ECE Recommendation 20 and, with X, 21, as the catalogue has them. Amounts
are those of the answer and are added here no second time. What must not be missed stands in the notes.
"""

from __future__ import annotations

from decimal import Decimal
from xml.etree.ElementTree import Element, SubElement, register_namespace, tostring

from gaugerake.answers.quantities.lines import OrderLine
from gaugerake.exchange.errors import NothingOrdered, NotIssued
from gaugerake.exchange.paper import Paper

_UBL = "urn:oasis:names:specification:ubl:schema:xsd"
ROOT = f"{_UBL}:Quotation-2"
CAC = f"{_UBL}:CommonAggregateComponents-2"
CBC = f"{_UBL}:CommonBasicComponents-2"

for _prefix, _space in (("", ROOT), ("cac", CAC), ("cbc", CBC)):
    register_namespace(_prefix, _space)


def quotation(paper: Paper) -> bytes:
    """The Quotation of a quote.

    Raises
    ------
    NotIssued
        When the job has no ``order.issued``: a Quotation has a day.
    NothingOrdered
        When the order has no line: a Quotation has one at least.
    """
    answer, order = paper.quote, paper.quote.quantities
    if paper.issued is None:
        raise NotIssued
    if not order.order_lines:
        raise NothingOrdered
    root = Element(f"{{{ROOT}}}Quotation")
    _basic(root, "UBLVersionID", "2.1")
    _basic(root, "ID", paper.number)
    _basic(root, "IssueDate", paper.issued.isoformat())
    for note in (*paper.said_first, paper.orderable):
        _basic(root, "Note", note)
    _basic(root, "PricingCurrencyCode", order.totals.currency)
    _basic(root, "LineCountNumeric", str(len(order.order_lines)))
    _add_validity(root, paper)
    if answer.reference:
        _basic(_group(root, "RequestForQuotationDocumentReference"), "ID", answer.reference)
    seller = _group(root, "SellerSupplierParty", "Party", "PartyName")
    _basic(seller, "Name", paper.envelope.catalogue.title)
    _add_sums(root, paper)
    for line in order.order_lines:
        _add_line(root, line, order.totals.currency, kit_label=paper.phrase("ubl-kit"))
    written: bytes = tostring(root, encoding="UTF-8", xml_declaration=True)
    return written


def _add_validity(root: Element, paper: Paper) -> None:
    """The last day of the prices; without ``issued`` there is none, and no Quotation either."""
    if paper.quote.valid_until is not None:
        _basic(_group(root, "ValidityPeriod"), "EndDate", paper.quote.valid_until.isoformat())


def _add_sums(root: Element, paper: Paper) -> None:
    totals = paper.quote.quantities.totals
    if totals.discount:
        _add_adjustment(root, totals.discount, totals.currency, charge=False, reason=paper.phrase("ubl-discount"))
    if totals.delivery:
        _add_adjustment(root, totals.delivery, totals.currency, charge=True, reason=paper.phrase("ubl-delivery"))
    _amount(_group(root, "TaxTotal"), "TaxAmount", totals.tax, totals.currency)
    sums = _group(root, "QuotedMonetaryTotal")
    _amount(sums, "LineExtensionAmount", totals.lines, totals.currency)
    _amount(sums, "TaxExclusiveAmount", totals.net, totals.currency)
    _amount(sums, "TaxInclusiveAmount", totals.gross, totals.currency)
    _amount(sums, "AllowanceTotalAmount", totals.discount, totals.currency)
    _amount(sums, "ChargeTotalAmount", totals.delivery, totals.currency)
    _amount(sums, "PayableAmount", totals.gross, totals.currency)


def _add_adjustment(root: Element, amount: Decimal, currency: str, *, charge: bool, reason: str) -> None:
    adjustment = _group(root, "AllowanceCharge")
    _basic(adjustment, "ChargeIndicator", "true" if charge else "false")
    _basic(adjustment, "AllowanceChargeReason", reason)
    _amount(adjustment, "Amount", amount, currency)


def _add_line(root: Element, line: OrderLine, currency: str, *, kit_label: str) -> None:
    """A line; that it is a part of a kit is a property of its item, as UBL lines have no other place for it."""
    item_line = _group(root, "QuotationLine", "LineItem")
    _basic(item_line, "ID", line.id)
    _basic(item_line, "Quantity", str(line.packs), unitCode=line.unit_code)
    if line.amount is not None:
        _amount(item_line, "LineExtensionAmount", line.amount, currency)
    if line.unit_price is not None:
        _amount(_group(item_line, "Price"), "PriceAmount", line.unit_price, currency)
    item = _group(item_line, "Item")
    _basic(item, "Name", line.description)
    _basic(_group(item, "SellersItemIdentification"), "ID", line.sku)
    if line.kit is not None:
        kit = _group(item, "AdditionalItemProperty")
        _basic(kit, "Name", kit_label)
        _basic(kit, "Value", line.kit)


def _group(parent: Element, *names: str) -> Element:
    """The innermost of new aggregates, each within the one before."""
    for name in names:
        parent = SubElement(parent, f"{{{CAC}}}{name}")
    return parent


def _basic(parent: Element, name: str, text: str, **attributes: str) -> None:
    """A text; it holds nothing that XML cannot, as neither a job's nor a catalogue's does (`gaugerake.characters`)."""
    SubElement(parent, f"{{{CBC}}}{name}", attributes).text = text


def _amount(parent: Element, name: str, amount: Decimal, currency: str) -> None:
    _basic(parent, name, format(amount, "f"), currencyID=currency)
