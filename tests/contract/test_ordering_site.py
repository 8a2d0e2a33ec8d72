"""The sample shop against the running service: its day, as its log tells it."""

import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
import requests
from requests.adapters import HTTPAdapter
from tests.contract.ordering_site import Cart, Misled, Shop, ToMend, TryLater
from tests.service import running

from gaugerake.catalogue.demo import demo_text

FLOOR = {"system": "level-clear", "rooms": [{"name": "Proofing", "shape": {"measured": {"area": "1200 sq ft"}}}]}


@dataclass
class Site:
    """A service with a database of its own, and who keeps it."""

    database: str
    folder: Path
    stack: ExitStack
    address: str = ""
    log: list[str] = field(default_factory=list)

    def start(self) -> None:
        """Begin to serve."""
        self.address = self.stack.enter_context(running(self.folder, database=self.database))

    def keep(self, *command: str) -> str:
        """What a command of the service's keeper tells."""
        main = [sys.executable, "-m", "gaugerake.cli", *command]
        environment = {**os.environ, "GAUGERAKE_DATABASE": self.database}
        return subprocess.run(main, env=environment, check=True, capture_output=True, text=True, timeout=120).stdout

    def load(self, text: str) -> None:
        """Use another catalogue, and wait until both workers do."""
        file = self.folder / "floors.yaml"
        file.write_text(text, "utf-8")
        revision = self.keep("catalogue", "load", str(file)).split()[1]
        served = f'gaugerake_catalogue_workers{{revision="{revision}"}} 2.0'
        eventually(lambda: served in requests.get(f"{self.address}/metrics", timeout=30).text)

    def shop(self, key: str | None = None) -> Shop:
        """A shop that logs here."""
        return Shop(self.address, key=key, say=self.log.append)


def eventually(seen: Callable[[], bool]) -> None:
    for _ in range(600):
        if seen():
            return
        time.sleep(0.1)
    raise AssertionError("it never became so")


@pytest.fixture(params=["sqlite", "postgresql"])
def site(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Site]:
    database = f"sqlite:///{tmp_path / 'site.sqlite3'}"
    if request.param == "postgresql":
        database = request.getfixturevalue("new_postgres")()
    with ExitStack() as stack:
        yield Site(database, tmp_path, stack)


def test_a_day_at_the_shop(site: Site) -> None:
    site.start()
    shop, cart = site.shop(), Cart("PO 4711", FLOOR)
    shop.systems()
    shop.systems()

    first = shop.quote(cart)
    last_week = cart.token
    assert last_week is not None
    made = shop.reopen(last_week)
    assert json.loads(made) == first

    assert demo_text().count('price: "2508.00"') == 1
    site.load(demo_text().replace('price: "2508.00"', 'price: "2608.00"'))
    shop.systems()
    shop.quote(cart)
    assert shop.reopen(last_week) == made, "last week's quote is the same to the byte"
    assert b"PO 4711" in shop.reopen(last_week, "text/html")
    lines = shop.reopen(last_week, "text/csv").decode().splitlines()
    assert len(lines) == 1 + len(first["quantities"]["order_lines"])

    shop.quote(cart, offers=[{"sku": "LB-24", "price": "2200.00"}])
    shop.quote(cart, offers=[{"sku": "LB-24", "price": "2200.00", "available": 0}, {"sku": "LB-1", "available": 3}])

    codes = ", ".join(system["code"] for system in shop.systems())
    before, after, own, short = (line for line in site.log if re.match(r"PO 4711: [0-9.]+ USD", line))
    # 50 mixes: 2 LB-24 at 2508.00 and 2 LB-1 at 118.50 make 5253.00 of the sum that README.md shows; at 2608.00 it is
    # 50 LB-1 at the break's 106.75, 5337.50; at the customer's own 2200.00 it is the first choice again, 4637.00
    assert before == "PO 4711: 7547.25 USD"
    assert after == "PO 4711: 7631.75 USD"
    assert own == "PO 4711: 6931.25 USD"
    assert "; not to be ordered: " in short
    assert site.log[:4] == [f"systems: {codes}", "systems: nothing new", before, f"systems: {codes}"]
    assert site.log[4:8] == [
        "PO 4711: the price has changed from 7547.25 to 7631.75: ask before it is ordered",
        after,
        "PO 4711: the price has changed from 7631.75 to 6931.25: ask before it is ordered",
        own,
    ]


def test_what_the_customer_is_to_mend_stands_beside_the_field(site: Site) -> None:
    site.start()
    job = {**FLOOR, "rooms": [{"shape": {"rectangle": {"length": "42", "width": "28 ft"}}}, {"shape": {}}]}
    with pytest.raises(ToMend) as told:
        site.shop().quote(Cart("PO 1", job))
    assert told.value.by_field.keys() == {"/rooms/0/shape/rectangle/length", "/rooms/1/shape"}
    assert "12 ft" in told.value.by_field["/rooms/0/shape/rectangle/length"]


def test_a_shop_with_a_key_waits_when_it_asks_too_often(site: Site) -> None:
    key = site.keep("key", "make", "Shop", "--rate", "1/second").strip()
    slow = site.keep("key", "make", "Slow shop", "--rate", "1/hour").strip()
    site.start()
    with pytest.raises(Misled, match="401 key-needed"):
        site.shop().systems()
    shop = site.shop(key)
    for _ in range(50):
        shop.systems()
        if "429: again in 1 s" in site.log:
            break
    assert "429: again in 1 s" in site.log
    assert site.log[-1] == "systems: nothing new"
    with pytest.raises(TryLater, match=r"429: again in \d+ s"):
        for _ in range(3):  # each worker has its share of the hour's one
            site.shop(slow).systems()
    site.keep("key", "revoke", key.split("_")[1])
    eventually(lambda: requests.get(f"{site.address}/v1/units", headers=bearer(key), timeout=30).status_code == 401)
    assert key.split("_")[2] not in (site.folder / "log").read_text("utf-8")


def bearer(key: str) -> dict[str, str]:
    return {"Authorization": f"Bearer {key}"}


class Away(HTTPAdapter):
    """A way to the service on which it is away for the first requests: no answer, then 503."""

    def __init__(self) -> None:
        super().__init__()
        self.left: list[Any] = [requests.ConnectionError("reset"), 503]

    def send(self, request: requests.PreparedRequest, *args: Any, **options: Any) -> requests.Response:
        if not self.left:
            return super().send(request, *args, **options)
        trouble = self.left.pop(0)
        if isinstance(trouble, Exception):
            raise trouble
        response = requests.Response()
        response.status_code, response.request = trouble, request
        response.headers["Retry-After"] = "5"
        return response


def test_a_shop_asks_again_while_the_service_is_away(site: Site) -> None:
    site.start()
    shop = site.shop()
    shop.wire.mount("http://", Away())
    waited: list[float] = []
    shop.wait = waited.append
    shop.quote(Cart("PO 2", FLOOR))
    assert waited == [1.0, 5.0]
    assert site.log == ["no answer: again in 1 s", "503: again in 5 s", "PO 2: 7547.25 USD"]
    nowhere = Shop("http://127.0.0.1:9", say=site.log.append, wait=waited.append)
    with pytest.raises(TryLater):
        nowhere.systems()
