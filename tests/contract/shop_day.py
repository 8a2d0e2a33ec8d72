"""A day at the sample shop, as its log tells it, and the papers that it gets: ``python -m tests.contract.shop_day``.

Like the shop it needs Python and gaugerake alone, so it runs once ``api/serve`` has set up. It starts a service with
the demonstration and writes what a shop sees anew: the log beside this file, and the quote of the fullest example as
UBL 2.1 and as CSV in ``openapi/examples``. Tests hold what is kept to what is answered.
"""

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.contract.ordering_site import Cart, Shop, send
from tests.service import running

from gaugerake.catalogue.store.demo import demo_text

EXAMPLES = Path(__file__).parents[2] / "openapi" / "examples"
LOG = Path(__file__).with_name("shop_day.log")
PAPERS = {EXAMPLES / "quote.ubl.xml": "application/xml", EXAMPLES / "quote.csv": "text/csv"}
FLOOR = {"system": "level-clear", "rooms": [{"name": "Proofing", "shape": {"measured": {"area": "1200 sq ft"}}}]}


@dataclass
class Site:
    """A service with a database of its own, and who keeps it; ``key`` is the shop's."""

    database: str
    folder: Path
    stack: ExitStack
    address: str = ""
    log: list[str] = field(default_factory=list)
    workers: int = 2
    key: str | None = None

    def start(self) -> None:
        """Begin to serve."""
        self.address = self.stack.enter_context(running(self.folder, database=self.database, workers=self.workers))

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
        eventually(lambda: served in send("GET", f"{self.address}/metrics", {}, None).content.decode())

    def shop(self, key: str | None = None) -> Shop:
        """A shop that logs here."""
        return Shop(self.address, key=key, say=self.log.append)


def eventually(seen: Callable[[], bool]) -> None:
    for _ in range(600):
        if seen():
            return
        time.sleep(0.1)
    raise AssertionError("it never became so")


def a_day(site: Site) -> None:
    """What the shop does from morning to evening; the site's log tells it."""
    site.key = site.keep("key", "make", "Shop").strip()
    hasty = site.keep("key", "make", "Shop in a hurry", "--rate", "1/second").strip()
    site.start()
    shop, cart = site.shop(site.key), Cart("PO 4711", FLOOR)
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
    a_rush(site, hasty)


def a_rush(site: Site, key: str) -> None:
    """Questions faster than the key's rate; of what is said, the log has the first wait and what comes after it."""
    told: list[str] = []
    shop = Shop(site.address, key=key, say=told.append)
    for _ in range(50):
        shop.systems()
        waits = [line for line in told if line.startswith("429")]
        if waits:
            site.log += [waits[0], told[-1]]
            return
    raise AssertionError("no question was too fast")


def papers(address: str, key: str | None = None) -> dict[Path, bytes]:
    """The fullest example's quote in the forms that are kept as examples, issued on a day of its own."""
    job: dict[str, Any] = json.loads((EXAMPLES / "full.json").read_text("utf-8"))
    job["order"]["issued"] = "2027-03-01"
    shop = Shop(address, key=key, say=lambda _line: None)
    token = shop.quote(Cart("PO 4711", job))["token"]
    return {file: shop.reopen(token, form) for file, form in PAPERS.items()}


def main() -> None:
    """Write the log and the papers."""
    with tempfile.TemporaryDirectory(prefix="gaugerake-shop-") as folder, ExitStack() as stack:
        site = Site(f"sqlite:///{folder}/site.sqlite3", Path(folder), stack)
        a_day(site)
        LOG.write_text("\n".join(site.log) + "\n", "utf-8")
        print(LOG.read_text("utf-8"), end="")
        site.load(demo_text())
        for file, body in papers(site.address, site.key).items():
            file.write_bytes(body)
            print(f"{file.name}: {len(body)} bytes")


if __name__ == "__main__":
    main()
