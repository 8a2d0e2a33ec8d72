"""Another distributor's catalogue takes the place of the one in use, while shops ask: none is failed or told a mixture.

The catalogue was written from its reference alone. An answer is held to the very bytes that its revision gives.
"""

import itertools
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import requests
from tests.builders import document
from tests.faults.load import ANSWERED, LOST, REFUSED, Load, Sent
from tests.faults.processes import ROOT, Service, eventually, gaugerake

SECOND = ROOT / "tests" / "contract" / "data" / "second.yaml"
DEMO_JOB = document()
JOB = {
    "system": "usunuri",
    "rooms": [{"shape": {"rectangle": {"length": "20 m", "width": "15 m"}}}],
    "work": {"round_the_clock": True, "preparation": "0 h"},
    "order": {"colour": "hai", "tax_percent": 10, "issued": "2027-03-01"},
}
CLIENTS = 5
Told = tuple[str, str]


class Shops:
    """Shops that ask without pause, each with a session of its own; what each answer said is kept by its revision."""

    def __init__(self, service: Service, name: str, asks: list[Callable[["Shops", requests.Session], None]]) -> None:
        self.address, self.asks = f"http://127.0.0.1:{service.port}", asks
        self.load = Load(service.port, name)
        self.bodies: dict[Told, set[bytes]] = {}
        self.sent_away: list[Sent] = []
        self._stop = threading.Event()
        self._numbers = itertools.count(1)

    @contextmanager
    def running(self) -> Iterator[None]:
        """Ask until the block ends."""
        threads = [threading.Thread(target=self._shop, args=(number,)) for number in range(CLIENTS)]
        for thread in threads:
            thread.start()
        try:
            self.ask_more(40)
            yield
        finally:
            self._stop.set()
            for thread in threads:
                thread.join(60)

    def ask_more(self, count: int) -> None:
        """Until so many more requests have ended."""
        goal = len(self.load.sent) + count
        eventually(lambda: len([one for one in self.load.sent if one.ended]) >= goal or self._stop.is_set(), "asked")

    def _shop(self, number: int) -> None:
        with requests.Session() as session:
            session.trust_env = False
            while not self._stop.is_set():
                self.asks[number % len(self.asks)](self, session)

    def ask(
        self, session: requests.Session, what: str, method: str, path: str, **sent: Any
    ) -> requests.Response | None:
        """One request and what became of it; a system that is sold no longer is told apart."""
        one = Sent(f"{self.load.name}-{next(self._numbers)}", time.monotonic())
        self.load.sent.append(one)
        response = None
        try:
            response = session.request(method, self.address + path, timeout=30, **sent)
            one.outcome = ANSWERED if response.status_code == 200 else REFUSED
            one.seen = "" if response.status_code == 200 else f"{response.status_code} {response.text[:300]}"
        except requests.RequestException as error:
            one.outcome, one.seen = LOST, repr(error)
        if response is not None and response.status_code == 200:
            self.bodies.setdefault((what, response.json()["catalogue_revision"]), set()).add(response.content)
        one.ended = time.monotonic()
        return response


def list_systems(shops: Shops, session: requests.Session) -> None:
    shops.ask(session, "systems", "GET", "/v1/systems")


def quote_always_the_same(shops: Shops, session: requests.Session) -> None:
    shops.ask(session, "quote", "POST", "/v1/quotes", json=DEMO_JOB)


def reopen(token: str) -> Callable[[Shops, requests.Session], None]:
    return lambda shops, session: shops.ask(session, "old quote", "GET", f"/v1/quotes/{token}") and None


def quote_what_is_sold(shops: Shops, session: requests.Session) -> None:
    """As a shop does: see what is sold, quote the first of it, and look again when it is sold no longer."""
    listed = shops.ask(session, "systems", "GET", "/v1/systems")
    assert listed is not None
    code = listed.json()["systems"][0]["code"]
    quoted = shops.ask(session, f"quote of {code}", "POST", "/v1/quotes", json={**DEMO_JOB, "system": code})
    if quoted is not None and quoted.status_code == 422 and quoted.json()["errors"][0]["pointer"] == "/system":
        last = next(one for one in reversed(shops.load.sent) if "422" in one.seen)
        last.outcome, last.seen = ANSWERED, ""
        shops.sent_away.append(last)


def revision_of(service: Service) -> str:
    return str(service.get("/v1/systems")["catalogue_revision"])


def served_by_both(service: Service, revision: str) -> bool:
    return f'gaugerake_catalogue_workers{{revision="{revision[:12]}"}} 2.0' in service.text("/metrics")


def put(service: Service, *command: str) -> str:
    """Load or use a catalogue, and wait until both workers serve it; its revision."""
    done = gaugerake(service.database, "catalogue", *command)
    assert done.returncode == 0, done.stdout + done.stderr
    short = done.stdout.split()[1]
    eventually(lambda: served_by_both(service, short), "both workers on the new catalogue")
    return short


@pytest.fixture
def before(service: Service) -> Iterator[str]:
    """The revision in use, which is used again afterwards."""
    revision = revision_of(service)
    yield revision
    if revision_of(service) != revision:
        put(service, "use", revision)


def test_a_second_distributors_catalogue_takes_over_under_load(
    service: Service, before: str, note: Callable[..., None]
) -> None:
    made = requests.post(f"http://127.0.0.1:{service.port}/v1/quotes", json=DEMO_JOB, timeout=30)
    shops = Shops(service, "second", [list_systems, reopen(made.json()["token"]), quote_what_is_sold])
    with shops.running():
        at = time.monotonic()
        short = put(service, "load", str(SECOND))
        first = requests.post(f"http://127.0.0.1:{service.port}/v1/quotes?units=si", json=JOB, timeout=30)
        shops.ask_more(40)
    assert [one for one in shops.load.sent if one.outcome != ANSWERED] == []
    assert len(shops.sent_away) <= CLIENTS, "a shop is sent away once, when what it just saw is sold no longer"
    assert {what for what, _ in shops.bodies} == {"systems", "old quote", "quote of level-clear", "quote of usunuri"}
    for (what, revision), bodies in shops.bodies.items():
        assert len(bodies) == 1, f"{what} of {revision}: more than one answer"
    assert {revision[:12] for what, revision in shops.bodies if what == "systems"} == {before[:12], short}
    assert shops.bodies["old quote", before] == {made.content}, "last week's quote is the same to the byte"
    the_first_quote_is_right(first.json())
    note("another distributor's catalogue loaded", shops.load, at)


def the_first_quote_is_right(quote: dict[str, Any]) -> None:
    """By hand, 300 m² and 5 % waste, with no spread in any rate.

    Primer: 315/4 + 315/6 = 131.25 L: 8 × 16 L at the break's 20 400 and 1 × 4 L at 5 900. Coats: 2 × 315/5 = 126 L,
    just 7 × 18 L at 32 400. Sleeves: 300/80, so 4 at 640. Together 169 100 + 226 800 + 2 560 = 398 460, and 10 %.
    """
    lines = {line["sku"]: (line["packs"], line["amount"]) for line in quote["quantities"]["order_lines"]}
    assert lines == {
        "UW-16": (8, "163200"),
        "UW-4": (1, "5900"),
        "IRO-18-HAI": (7, "226800"),
        "RO-250": (4, "2560"),
    }
    totals = quote["quantities"]["totals"]
    assert (totals["currency"], totals["net"], totals["tax"], totals["gross"]) == ("JPY", "398460", "39846", "438306")
    assert Decimal(totals["per_area"]["value"]) == 1328  # 398 460 / 300, to the yen
    assert quote["quantities"]["shortage_any"] == 0
    assert quote["valid_until"] == "2027-03-11"
    # four layers at 1000 ft²/h, cures of 6, 6 and 8 h between them, and 12 h after the last
    (foot, _) = quote["return_times"]["returns"]
    hours = 4 * 300 / (1000 * 0.3048**2) + 6 + 6 + 8 + 12
    assert hours <= foot["after"]["value"] <= hours + 1 / 60 + 1e-3
    assert quote["pour_plan"]["pours"] == []
    assert any(caution["code"] == "invented-data" for caution in quote["cautions"])


def test_no_answer_has_goods_of_one_catalogue_and_prices_of_the_other(
    service: Service, before: str, tmp_path: Path
) -> None:
    """The same code means another floor in the other catalogue, so every request can be answered from either."""
    other = tmp_path / "same-code.yaml"
    other.write_text(SECOND.read_text("utf-8").replace("code: usunuri", "code: level-clear"), "utf-8")
    shops = Shops(service, "mixed", [quote_always_the_same])
    with shops.running():
        short = put(service, "load", str(other))
        shops.ask_more(20)
        put(service, "use", before)
        shops.ask_more(20)
    assert [one for one in shops.load.sent if one.outcome != ANSWERED] == []
    assert {revision[:12] for _, revision in shops.bodies} == {before[:12], short}
    assert all(len(bodies) == 1 for bodies in shops.bodies.values())
    sold = {revision[:12]: body for (_, revision), bodies in shops.bodies.items() for body in bodies}
    assert b'"UW-16"' in sold[short]
    assert b'"JPY"' in sold[short]
    assert b'"LB-24"' in sold[before[:12]]
    assert b'"JPY"' not in sold[before[:12]]
