"""A customer's own prices and stock over HTTP, in every form of the quote: what they decide and what they prevent.

The need is README.md's: 50 mixes of the body, sold as LB-1 (118.50, from 12 at 112.25, from 48 at 106.75) and LB-24
(24 mixes at 2508.00). The sums are by hand.
"""

import csv
import io
import json
from collections.abc import Callable
from decimal import Decimal
from html.parser import HTMLParser
from typing import Any

import pytest
import requests
from lxml import etree

JOB: dict[str, Any] = {
    "system": "level-clear",
    "rooms": [{"name": "Floor", "shape": {"measured": {"area": "1200 sq ft"}}}],
    "order": {"issued": "2027-03-01", "reference": "PO 9"},
}
FORMS = {"json": "application/json", "html": "text/html", "csv": "text/csv", "ubl": "application/xml"}
Lines = dict[str, tuple[int, str | None]]
Ask = Callable[..., dict[str, Any]]


def ask(http: requests.Session, *offers: dict[str, Any], **order: Any) -> requests.Response:
    job = {**JOB, "order": {**JOB["order"], "offers": list(offers), **order}}
    return http.post(f"{http.base}/v1/quotes", json=job, timeout=30)  # type: ignore[attr-defined]


def body_lines(quote: dict[str, Any]) -> Lines:
    """Packs and unit price of the body's skus."""
    lines = quote["quantities"]["order_lines"]
    return {line["sku"]: (line["packs"], line["unit_price"]) for line in lines if line["sku"].startswith("LB-")}


def others(quote: dict[str, Any]) -> list[dict[str, Any]]:
    lines = quote["quantities"]["order_lines"]
    return [{**line, "id": None} for line in lines if not line["sku"].startswith("LB-")]


@pytest.mark.parametrize(
    ("offers", "lines"),
    [
        ([], {"LB-24": (2, "2508.00"), "LB-1": (2, "118.50")}),
        # 50 × 104.00 = 5200.00 is less than 5016.00 + 2 × 104.00 = 5224.00
        ([{"sku": "LB-1", "price": "104.00"}], {"LB-1": (50, "104.00")}),
        # 5016.00 + 210.00 = 5226.00 is less than 50 × 105.00 = 5250.00; at 106.75 by the break it would be 5337.50
        ([{"sku": "LB-1", "price": "105.00"}], {"LB-24": (2, "2508.00"), "LB-1": (2, "105.00")}),
        # dearer than the list: 3 × 2508.00 = 7524.00 is less than 5016.00 + 2 × 1300.00
        ([{"sku": "LB-1", "price": "1300.00"}], {"LB-24": (3, "2508.00")}),
        # one pallet in stock: 50 × 106.75 = 5337.50 is less than 2508.00 + 26 × 112.25 = 5426.50 ...
        ([{"sku": "LB-24", "available": 1}], {"LB-1": (50, "106.75")}),
        # ... which is what is left with 40 single ones, at the book's break
        (
            [{"sku": "LB-24", "available": 1}, {"sku": "LB-1", "available": 40}],
            {"LB-24": (1, "2508.00"), "LB-1": (26, "112.25")},
        ),
        # the customer's price takes the book's breaks away, even for many: 50 × 118.50
        (
            [{"sku": "LB-24", "available": 0}, {"sku": "LB-1", "price": "118.50"}],
            {"LB-1": (50, "118.50")},
        ),
        # finer than the currency's cents, for one pack; the amount is rounded once: 2 × 118.123 = 236.246
        ([{"sku": "LB-1", "price": "118.123"}], {"LB-24": (2, "2508.00"), "LB-1": (2, "118.123")}),
    ],
    ids=["none", "cheaper", "little-cheaper", "dearer", "one-pallet", "both-bounded", "no-breaks", "finer"],
)
def test_a_price_replaces_the_books_and_its_breaks_and_stock_bounds_the_choice(
    http: requests.Session, offers: list[dict[str, Any]], lines: Lines
) -> None:
    quote = ask(http, *offers).json()
    assert body_lines(quote) == lines
    assert others(quote) == others(ask(http).json())
    assert quote["quantities"]["orderable"] is True
    assert quote["quantities"]["blockers"] == []
    spent = sum(Decimal(packs * Decimal(price)).quantize(Decimal("0.01")) for packs, price in lines.values() if price)
    rest = sum(Decimal(line["amount"]) for line in others(quote))
    assert Decimal(quote["quantities"]["totals"]["lines"]) == spent + rest


class Words(HTMLParser):
    """The words of a page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.text = ""
        self.feed(page)

    def handle_data(self, data: str) -> None:
        self.text += data


def opened(http: requests.Session, token: str, form: str) -> requests.Response:
    response = http.get(f"{http.base}/v1/quotes/{token}", headers={"Accept": FORMS[form]}, timeout=30)  # type: ignore[attr-defined]
    assert response.status_code == 200
    assert response.headers["Content-Type"].startswith(FORMS[form])
    return response


def told(response: requests.Response, form: str) -> tuple[bool, Lines, str]:
    """What a form says: whether it may be ordered, the body's packs and prices, and all its words."""
    if form == "json":
        quote = response.json()
        return quote["quantities"]["orderable"], body_lines(quote), response.text
    if form == "csv":
        rows = list(csv.DictReader(io.StringIO(response.content.decode("utf-8"), newline="")))
        lines = {row["sku"]: (int(row["packs"]), row["unit_price"]) for row in rows if row["sku"].startswith("LB-")}
        (orderable,) = {row["orderable"] for row in rows}
        return orderable == "yes", lines, response.text
    if form == "ubl":
        root = etree.fromstring(response.content)
        items = {
            one.findtext(".//{*}SellersItemIdentification/{*}ID"): (
                int(one.findtext("{*}Quantity")),
                one.findtext("{*}Price/{*}PriceAmount"),
            )
            for one in root.iter("{*}LineItem")
        }
        notes = " ".join(note.text for note in root.iter("{*}Note"))
        lines = {sku: line for sku, line in items.items() if sku.startswith("LB-")}
        return "Do not place this order" not in notes, lines, notes
    page = Words(response.text).text
    table = etree.HTML(response.text).xpath("//tr[td or th]")
    cells = [["".join(cell.itertext()).strip() for cell in row] for row in table]
    lines = {
        sku: (
            next(int(cell) for cell in row if cell.isdigit()),
            next((c for c in row if "." in c and c[0].isdigit()), ""),
        )
        for row in cells
        for sku in row
        if sku.startswith("LB-")
    }
    return "Do not place this order" not in page, lines, page


@pytest.mark.parametrize("form", FORMS)
def test_every_form_has_the_customers_price_and_no_word_against_ordering(http: requests.Session, form: str) -> None:
    quote = ask(http, {"sku": "LB-1", "price": "104.00"}).json()
    orderable, lines, _ = told(opened(http, quote["token"], form), form)
    assert orderable
    assert {sku: packs for sku, (packs, _) in lines.items()} == {"LB-1": 50}
    assert "104.00" in str(lines)


@pytest.mark.parametrize("form", FORMS)
def test_too_little_stock_keeps_every_form_from_being_ordered(http: requests.Session, form: str) -> None:
    quote = ask(http, {"sku": "LB-24", "available": 1}, {"sku": "LB-1", "available": 3}).json()
    assert quote["quantities"]["orderable"] is False
    (blocker,) = quote["quantities"]["blockers"]
    assert blocker["code"] == "stock-lacking"
    assert "23 mixes" in blocker["text"]  # 50 less 24 and 3
    orderable, lines, words = told(opened(http, quote["token"], form), form)
    assert not orderable
    assert blocker["text"] in (words if form != "json" else json.dumps(json.loads(words), ensure_ascii=False))
    assert {sku: packs for sku, (packs, _) in lines.items()} == {"LB-24": 1, "LB-1": 3}


@pytest.mark.parametrize(
    ("offer", "pointer", "code"),
    [
        ({"sku": "", "price": "1.00"}, "/order/offers/0/sku", None),
        ({"price": "1.00"}, "/order/offers/0/sku", "required"),
        ({"sku": "LB-1", "price": "-1.00"}, "/order/offers/0/price", "not-money"),
        ({"sku": "LB-1", "price": 1.0}, "/order/offers/0/price", None),
        ({"sku": "LB-1", "price": "1,00"}, "/order/offers/0/price", "not-money"),
        ({"sku": "LB-1", "available": -1}, "/order/offers/0/available", None),
        ({"sku": "LB-1", "available": 1.5}, "/order/offers/0/available", None),
        ({"sku": "LB-1", "cost": "1.00"}, "/order/offers/0/cost", "unknown-field"),
    ],
    ids=lambda value: value if isinstance(value, str) else None,
)
def test_an_offer_that_cannot_be_is_a_422_at_its_field(
    http: requests.Session, offer: dict[str, Any], pointer: str, code: str | None
) -> None:
    response = ask(http, offer)
    assert response.status_code == 422
    (error,) = response.json()["errors"]
    assert error["pointer"] == pointer
    assert error["hint"]
    assert code is None or error["code"] == code


def test_a_sku_that_is_offered_twice_is_told(http: requests.Session) -> None:
    response = ask(http, {"sku": "LB-1", "price": "1.00"}, {"sku": "LB-1", "available": 2})
    assert (response.status_code, response.json()["errors"][0]["code"]) == (422, "sku-twice")


def test_an_offer_of_another_systems_goods_is_a_caution_and_no_fault(http: requests.Session) -> None:
    quote = ask(http, {"sku": "TM-1", "price": "1.00"}).json()
    assert [one["pointer"] for one in quote["cautions"] if one["code"] == "offer-unused"] == ["/order/offers/0/sku"]
    assert body_lines(quote) == body_lines(ask(http).json())


def test_an_offer_of_goods_that_the_catalogue_lacks_is_a_caution_and_changes_no_figure(http: requests.Session) -> None:
    quote = ask(http, {"sku": "LB-1", "price": "104.00"}, {"sku": "LB-2", "price": "1.00"}).json()
    assert [one["pointer"] for one in quote["cautions"] if one["code"] == "offer-unknown"] == ["/order/offers/1/sku"]
    assert quote["quantities"] == ask(http, {"sku": "LB-1", "price": "104.00"}).json()["quantities"]


def test_offers_leave_nothing_behind(http: requests.Session) -> None:
    before = ask(http).content
    ask(http, {"sku": "LB-1", "price": "0.01"})
    assert ask(http).content == before
