"""Answers given before the body was read: a connection that is said to be kept is kept, whatever was left unread."""

import http.client
from collections.abc import Iterator

import pytest
import requests
from tests.faults.processes import Deployed, Service

from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.catalogue.store.keys import make_key

JSON, TEXT, LINES = "application/json", "text/plain", "application/x-ndjson"
EARLY = [
    ("POST", "/v1/quotes", JSON, 413),
    ("POST", "/v1/quotes", TEXT, 415),
    ("POST", "/v1/batches", JSON, 415),
    ("POST", "/v1/nothing", JSON, 404),
    ("DELETE", "/v1/quotes", JSON, 405),
]
SIZES = [270_000, 900_000, 5_000_000]


def pieces(size: int) -> Iterator[bytes]:
    for begin in range(0, size, 8192):
        yield b" " * min(8192, size - begin)


def then_asks_again(connection: http.client.HTTPConnection, response: http.client.HTTPResponse) -> None:
    """The next request on the connection is answered, unless it was said to close."""
    closes = response.headers["Connection"] == "close"
    response.read()
    if not closes:
        connection.auto_open = 0  # on this very socket: no other is opened
        connection.request("GET", "/healthz")
        assert connection.getresponse().read()
    connection.close()


def refused(connection: http.client.HTTPConnection, sent: tuple[str, str, str, int], body: object) -> None:
    method, path, media_type, status = sent
    connection.request(method, path, body, {"Content-Type": media_type})  # type: ignore[arg-type]
    response = connection.getresponse()
    assert response.status in {status, 413}
    then_asks_again(connection, response)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("sent", EARLY, ids=lambda sent: f"{sent[0]} {sent[1]} {sent[3]}")
@pytest.mark.parametrize("chunked", [False, True], ids=["sized", "chunked"])
def test_a_connection_that_is_said_to_be_kept_is_kept(
    service: Service, sent: tuple[str, str, str, int], size: int, chunked: bool
) -> None:
    for _ in range(3):
        connection = http.client.HTTPConnection("127.0.0.1", service.port, timeout=30)
        refused(connection, sent, pieces(size) if chunked else b" " * size)


@pytest.mark.parametrize("size", SIZES)
def test_a_session_goes_on_after_early_answers(service: Service, size: int) -> None:
    with requests.Session() as session:
        session.trust_env = False
        for method, path, media_type, status in EARLY * 3:
            address = f"http://127.0.0.1:{service.port}{path}"
            answer = session.request(method, address, data=b" " * size, headers={"Content-Type": media_type})
            assert answer.status_code == status
            assert session.get(f"http://127.0.0.1:{service.port}/healthz").ok


def test_a_small_rest_is_read_and_the_connection_kept(service: Service) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", service.port, timeout=30)
    connection.request("POST", "/v1/nothing", b" " * 900_000, {"Content-Type": JSON})
    response = connection.getresponse()
    assert response.headers["Connection"] == "keep-alive"
    then_asks_again(connection, response)


def test_one_who_stalls_is_answered_and_let_go(service: Service) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", service.port, timeout=30)
    connection.putrequest("POST", "/v1/nothing")
    connection.putheader("Content-Length", "90000")
    connection.endheaders(b" " * 100)
    response = connection.getresponse()
    assert (response.status, response.headers["Connection"]) == (404, "close")
    response.read()
    connection.close()


@pytest.mark.parametrize("code", [401, 429])
def test_a_refusal_of_who_asks_keeps_to_what_it_says(tmp_path_factory: pytest.TempPathFactory, code: int) -> None:
    folder = tmp_path_factory.mktemp("refused")
    database = f"sqlite:///{folder / 'refused.sqlite3'}"
    settings = {"GAUGERAKE_RATE": "1/hour"} if code == 429 else {}
    if code == 401:
        make_key(ensure_ready(database), "Shop")
    guarded = Service(folder, database, **settings)
    try:
        for size in SIZES:
            for _ in range(3):
                connection = http.client.HTTPConnection("127.0.0.1", guarded.port, timeout=30)
                connection.request("POST", "/v1/quotes", b" " * size, {"Content-Type": JSON})
                response = connection.getresponse()
                assert response.status in {code, 413}
                then_asks_again(connection, response)
    finally:
        guarded.stop()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("sent", EARLY, ids=lambda sent: f"{sent[0]} {sent[1]} {sent[3]}")
def test_behind_the_edge_it_is_kept_too(deployed: Deployed, sent: tuple[str, str, str, int], size: int) -> None:
    nginx = deployed.nginx
    for _ in range(3):
        connection = http.client.HTTPSConnection("127.0.0.1", nginx.port, timeout=30, context=nginx.tls)
        refused(connection, sent, b" " * size)
