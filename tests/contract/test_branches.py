"""A branch's own prices, from its spreadsheet to its shop: by name in an open service, by the key once there is one."""

from contextlib import ExitStack
from pathlib import Path
from typing import Any

import openpyxl
import pytest
import requests
from tests.contract.ordering_site import Cart
from tests.contract.shop_day import FLOOR, Site, eventually
from tests.contract.test_readme import blocks

from gaugerake.web.describe.samples.cart import PYTHON
from gaugerake.web.describe.samples.programs import ADDRESS

ROWS = (("sku", "price", "from"), ("LB-1", 99.5, None), ("LB-1", 95, 12), ("LB-24", 2100, None))


def sheet(file: Path) -> None:
    book = openpyxl.Workbook()
    for row in ROWS:
        book.active.append(row)
    book.save(file)


def lines(answer: requests.Response) -> dict[str, tuple[int, str | None]]:
    assert answer.status_code == 200, answer.text
    found = answer.json()["quantities"]["order_lines"]
    return {line["sku"]: (line["packs"], line["unit_price"]) for line in found if line["sku"].startswith("LB-")}


def asks_for_prices(site: Site, skus: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Every cart that we show asks for what the branch's list leaves out."""
    own = '{"system": "level-clear", "order": {"price_book": "north"}, '
    for program in (PYTHON, blocks("python")[0]):
        held: dict[str, Any] = {}
        exec(program.replace(ADDRESS, site.address).replace('{"system": "level-clear", ', own), held)
        first = [line for line in capsys.readouterr().out.splitlines() if line.startswith("First: the price")]
        asked = first or held["ask_first"]
        assert [sku for sku, said in zip(skus, asked, strict=True) if sku not in said] == []
    shop = site.shop()
    shop.quote(Cart("PO 4712", {**FLOOR, "order": {"price_book": "north"}}))
    assert site.log[-1].endswith("; not to be ordered: " + " ".join(f"Ask for the price of {sku}." for sku in skus))


def test_a_branchs_spreadsheet_reaches_its_shop(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """50 mixes: 2 × 2100.00 + 2 × 99.50 = 4399.00 at the branch's prices, less than 50 × 95.00 = 4750.00."""
    north = {"LB-24": (2, "2100.00"), "LB-1": (2, "99.50")}
    listed = {"LB-24": (2, "2508.00"), "LB-1": (2, "118.50")}
    with ExitStack() as stack:
        site = Site(f"sqlite:///{tmp_path / 'site.sqlite3'}", tmp_path, stack, workers=1)
        site.start()

        def ask(key: str | None = None, book: str | None = None) -> requests.Response:
            job: dict[str, Any] = {**FLOOR, "order": {"price_book": book}}
            headers = {"Authorization": f"Bearer {key}"} if key else {}
            return requests.post(f"{site.address}/v1/quotes", json=job, headers=headers, timeout=30)

        unknown = ask(book="north")
        assert (unknown.status_code, unknown.json()["errors"][0]["pointer"]) == (422, "/order/price_book")
        sheet(tmp_path / "north.xlsx")
        assert site.keep("prices", "load", "north", str(tmp_path / "north.xlsx")) == "2 prices of north are in use\n"
        eventually(lambda: ask(book="north").status_code == 200)
        made = ask(book="north")
        assert lines(made) == north
        assert [one["code"] for one in made.json()["cautions"]].count("no-price") >= 1, (
            "other goods have no price there"
        )
        goods = [line["sku"] for line in made.json()["quantities"]["order_lines"]]
        assert made.json()["quantities"]["totals"]["unpriced"] == [sku for sku in goods if sku not in north]
        alone = requests.post(
            f"{site.address}/v1/quotes?parts=order", json={**FLOOR, "order": {"price_book": "north"}}, timeout=30
        )
        assert alone.json()["order"]["totals"] == made.json()["quantities"]["totals"]
        asks_for_prices(site, made.json()["quantities"]["totals"]["unpriced"], capsys)
        assert lines(ask()) == listed

        key = site.keep("key", "make", "North", "--book", "north").strip()
        plain = site.keep("key", "make", "Counter").strip()
        eventually(lambda: ask(plain).status_code == 200 and ask().status_code == 401)
        assert lines(ask(key)) == lines(ask(key, "north")) == north
        assert lines(ask(plain)) == listed
        assert [ask(plain, "north").status_code, ask(key, "list").status_code] == [403, 403]
        link = f"{site.address}/v1/quotes/{made.json()['token']}"
        assert requests.get(link, timeout=30).content == made.content
