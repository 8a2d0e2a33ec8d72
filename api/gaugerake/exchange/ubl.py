"""The quote as an OASIS UBL 2.1 Quotation.

Currencies are ISO 4217, the units of packs UN/ECE Recommendation 20 and, with X, 21, as the catalogue has them. Amounts
are those of the answer and are added here no second time. What must not be missed stands in the notes.

Decisions:

* ``order.reference`` is the number under which the buyer orders: an additional document of UN/CEFACT code 1001 ``220``,
  an order, as a Quotation has no place of its own for it.
* The seller is the catalogue's title, the buyer ``order.buyer``, left out where the job does not say.
* A tax category says the percent of ``order.tax_percent``, with UN/CEFACT code 5305 ``S`` (standard rate) above 0 and
  ``Z`` (zero rated) at 0. Where the job says no percent nothing is known of tax, and there is no category.
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

_ORDER = "220"
_STANDARD_RATE, _ZERO_RATED = "S", "Z"

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
        _add_reference(root, answer.reference)
    _add_party(root, "SellerSupplierParty", paper.writes(paper.envelope.catalogue.title))
    if paper.buyer:
        _add_party(root, "BuyerCustomerParty", paper.buyer)
    _add_sums(root, paper)
    for line in order.order_lines:
        _add_line(root, line, paper)
    written: bytes = tostring(root, encoding="UTF-8", xml_declaration=True)
    return written


def _add_reference(root: Element, reference: str) -> None:
    order = _group(root, "AdditionalDocumentReference")
    _basic(order, "ID", reference)
    _basic(order, "DocumentTypeCode", _ORDER, listID="UNCL1001")


def _add_party(root: Element, role: str, name: str) -> None:
    _basic(_group(root, role, "Party", "PartyName"), "Name", name)


def _add_tax(parent: Element, name: str, paper: Paper) -> None:
    """The category of tax that holds for all of the quote, where the job says its percent."""
    if not paper.tax_percent.stated:
        return
    percent = paper.tax_percent.value
    category = _group(parent, name)
    _basic(category, "ID", _STANDARD_RATE if percent else _ZERO_RATED, schemeID="UNCL5305")
    _basic(category, "Percent", format(percent, "f"))
    _basic(_group(category, "TaxScheme"), "Name", paper.phrase("ubl-tax"))


def _add_validity(root: Element, paper: Paper) -> None:
    """The last day of the prices; without ``issued`` there is none, and no Quotation either."""
    if paper.quote.valid_until is not None:
        _basic(_group(root, "ValidityPeriod"), "EndDate", paper.quote.valid_until.isoformat())


def _add_sums(root: Element, paper: Paper) -> None:
    totals = paper.quote.quantities.totals
    if totals.discount:
        _add_adjustment(root, totals.discount, paper, charge=False, reason=paper.phrase("ubl-discount"))
    if totals.delivery:
        _add_adjustment(root, totals.delivery, paper, charge=True, reason=paper.phrase("ubl-delivery"))
    tax = _group(root, "TaxTotal")
    _amount(tax, "TaxAmount", totals.tax, totals.currency)
    if paper.tax_percent.stated:
        part = _group(tax, "TaxSubtotal")
        _amount(part, "TaxableAmount", totals.net, totals.currency)
        _amount(part, "TaxAmount", totals.tax, totals.currency)
        _add_tax(part, "TaxCategory", paper)
    sums = _group(root, "QuotedMonetaryTotal")
    _amount(sums, "LineExtensionAmount", totals.lines, totals.currency)
    _amount(sums, "TaxExclusiveAmount", totals.net, totals.currency)
    _amount(sums, "TaxInclusiveAmount", totals.gross, totals.currency)
    _amount(sums, "AllowanceTotalAmount", totals.discount, totals.currency)
    _amount(sums, "ChargeTotalAmount", totals.delivery, totals.currency)
    _amount(sums, "PayableAmount", totals.gross, totals.currency)


def _add_adjustment(root: Element, amount: Decimal, paper: Paper, *, charge: bool, reason: str) -> None:
    adjustment = _group(root, "AllowanceCharge")
    _basic(adjustment, "ChargeIndicator", "true" if charge else "false")
    _basic(adjustment, "AllowanceChargeReason", reason)
    _amount(adjustment, "Amount", amount, paper.quote.quantities.totals.currency)
    _add_tax(adjustment, "TaxCategory", paper)


def _add_line(root: Element, line: OrderLine, paper: Paper) -> None:
    """A line; that it is a part of a kit is a property of its item, as UBL lines have no other place for it."""
    currency = paper.quote.quantities.totals.currency
    item_line = _group(root, "QuotationLine", "LineItem")
    _basic(item_line, "ID", line.id)
    _basic(item_line, "Quantity", str(line.packs), unitCode=line.unit_code)
    if line.amount is not None:
        _amount(item_line, "LineExtensionAmount", line.amount, currency)
    if line.unit_price is not None:
        _amount(_group(item_line, "Price"), "PriceAmount", line.unit_price, currency)
    item = _group(item_line, "Item")
    _basic(item, "Name", paper.writes(line.description))
    _basic(_group(item, "SellersItemIdentification"), "ID", line.sku)
    _add_tax(item, "ClassifiedTaxCategory", paper)
    if line.kit is not None:
        kit = _group(item, "AdditionalItemProperty")
        _basic(kit, "Name", paper.phrase("ubl-kit"))
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
