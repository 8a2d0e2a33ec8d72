"""What comes in costs no more than twice as much when it is twice as long, whatever it holds."""

import json
from collections.abc import Callable
from itertools import product
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.growth import MOST_RATIO, ratio

from gaugerake.characters import has_hidden
from gaugerake.exchange.errors import NotAToken
from gaugerake.exchange.token import Keys
from gaugerake.floor.values.errors import MOST_COMPARED, UnknownName
from gaugerake.nearest import nearest_name
from gaugerake.web.api.headers import MOST_CHARACTERS, READ
from gaugerake.web.errors.refusal import MOST_BYTES, Refusal
from gaugerake.web.json_in.reading import read

HALF = MOST_BYTES // 2 - 100

BODIES: dict[str, tuple[bytes, bytes, bytes]] = {
    "a string of escaped quotes that never ends": (b'"\\u0041', b'\\"', b""),
    "a string of escaped quotes": (b'"', b'\\"', b'"'),
    "a string of backslashes": (b'"', b"\\\\", b'"'),
    "half pairs of surrogates": (b'["', b"\\ud800", b'"]'),
    "half pairs in strings of their own": (b"[", b'"\\ud800",', b'""]'),
    "pairs of surrogates": (b'"', b"\\ud83d\\ude00", b'"'),
    "openings of lists": (b"", b"[", b""),
    "openings of objects": (b"", b'{"a":', b""),
    "lists beside one another": (b"[", b"[[[]]],", b"[]]"),
    "closings": (b"[", b"]", b""),
    "quotes": (b"", b'"', b""),
    "digits": (b"", b"1", b""),
    "digits after a point": (b"1.", b"0", b""),
    "an exponent": (b"1e", b"9", b""),
    "minus signs": (b"", b"-", b""),
    "numbers": (b"[", b"1.5,", b"1]"),
    "spaces": (b"[", b" ", b"]"),
    "lines": (b"[", b"\n", b"!"),
    "a field that stands twice, often": (b"{", b'"a":1,', b'"a":1}'),
    "objects with a doubled field": (b"[", b'{"a":1,"a":2},', b"1]"),
    "letters beyond ASCII": (b'"', "é".encode(), b'"'),
    "bytes that are no UTF-8": (b'"', b"\xff", b'"'),
}


def _twice(make: Callable[[int], Callable[[], object]], length: int) -> float:
    return ratio(make(length), make(2 * length))


@pytest.mark.parametrize("parts", BODIES.values(), ids=BODIES)
def test_reading_a_body(parts: tuple[bytes, bytes, bytes]) -> None:
    begins, part, ends = parts

    def reading(length: int) -> Callable[[], object]:
        data = begins + part * (length // len(part)) + ends

        def call() -> object:
            try:
                return read(data)
            except Refusal as refusal:
                return refusal

        return call

    assert _twice(reading, HALF) < MOST_RATIO


TEXTS = (*" 1a-.,/:½'\"\\", "é", "1,", "111,", "1/", "1 ", "ft ", "' ", "a.", "per ", "\u200c", "a\u200d", "\t")
FIELDS: dict[str, Callable[[str], dict[str, Any]]] = {
    "system": lambda text: {"system": text},
    "thickness": lambda text: {"thickness": text},
    "a unit": lambda text: {"thickness": {"value": 1, "unit": text}},
    "a room's name": lambda text: {"rooms": [{"name": text}]},
    "a unit of length": lambda text: {"rooms": [{"shape": {"polygon": {"unit": text, "points": []}}}]},
    "a zone": lambda text: {"work": {"zone": text}},
    "a moment": lambda text: {"work": {"start": text}},
    "a price": lambda text: {"order": {"offers": [{"sku": "A", "price": text}]}},
    "a day": lambda text: {"order": {"issued": text}},
    "a field": lambda text: {text: 1},
}


@pytest.mark.parametrize("made", FIELDS.values(), ids=FIELDS)
def test_answering_a_job_with_a_long_text(client: FlaskClient, made: Callable[[str], dict[str, Any]]) -> None:
    for part in TEXTS:
        assert _twice(_posting(client, lambda count, part=part: made(part * count)), 10_000 // len(part)) < MOST_RATIO


MANY: dict[str, Callable[[int], dict[str, Any]]] = {
    "fields": lambda count: {f"field{n}": 1 for n in range(count)},
    "fields of a room": lambda count: {"rooms": [{f"name{n}": 1 for n in range(count)}]},
    "rooms": lambda count: {"rooms": [{"nam": n} for n in range(count)]},
    "skus": lambda count: {
        "system": "level-clear",
        "rooms": [{"name": "Floor", "shape": {"measured": {"area": "1200 sq ft"}}}],
        "order": {"offers": [{"sku": f"sku-{n}", "price": "1"} for n in range(count)]},
    },
}


@pytest.mark.parametrize("made", MANY.values(), ids=MANY)
def test_answering_a_job_with_many_unknown_names(client: FlaskClient, made: Callable[[int], dict[str, Any]]) -> None:
    assert _twice(_posting(client, made), 1_000) < MOST_RATIO


def _posting(client: FlaskClient, made: Callable[[int], dict[str, Any]]) -> Callable[[int], Callable[[], object]]:
    def posting(count: int) -> Callable[[], object]:
        body = json.dumps(made(count))

        def call() -> object:
            return client.post("/v1/quotes", data=body, content_type="application/json")

        return call

    return posting


LINES = (
    *" \t,;=*/\"\\a-1.", "a,", ", ", "; ", "a;", "a=", "a=b;", '"a",', '\\"', 'a="\\",', "a/b,", "a/*;q=0.1,", ";q=",
    'W/"a", ', "a*=utf-8''%", "a*0=b;", "::",
)  # fmt: skip
BEGINNINGS = ("", "a", 'Digest a="', 'application/json;a="')
WHOLE = ("Origin", "X-Request-Id", "traceparent", "Content-Encoding", "Cookie")
"""Headers that nothing takes apart."""


@pytest.mark.parametrize("length", [MOST_CHARACTERS // 2 - 20, 60_000], ids=["read", "refused"])
@pytest.mark.parametrize("header", [*READ, *WHOLE])
def test_answering_a_request_with_a_long_header(client: FlaskClient, header: str, length: int) -> None:
    for beginning, part in (
        product(BEGINNINGS, LINES) if header in READ and length < 60_000 else [("a", " "), ("", "a,")]
    ):

        def asking(count: int, begins: str = beginning, part: str = part) -> Callable[[], object]:
            value = begins + part * (count // len(part)) + "x"
            return lambda: client.get("/v1/systems", headers={header: value})

        assert _twice(asking, length) < MOST_RATIO, (beginning, part)


@pytest.mark.parametrize("header", READ)
def test_a_header_that_is_too_long_is_told(client: FlaskClient, problem: Callable[..., Any], header: str) -> None:
    told = problem(client.get("/v1/systems", headers={header: "a" * (MOST_CHARACTERS + 1)}))
    assert (told["status"], told["code"]) == (400, "header-too-long")
    assert told["detail"] == f"{header} has more than 4096 characters. Send a shorter one."
    assert client.get("/healthz", headers={"Cookie": "a" * 8000}).status_code == 200


@pytest.mark.parametrize("written", ["?{}", "?units={}", "/{}", "?a&{}"])
def test_answering_a_request_with_a_long_address(client: FlaskClient, written: str) -> None:
    for part in ("a", "&", "&a", "a&", "=", "&a=", "%", "%41", "%ff", "+", ";", "/", "a/", ".", "./", "?"):

        def asking(count: int, part: str = part) -> Callable[[], object]:
            path = "/v1/systems" + written.format(part * (count // len(part)))
            return lambda: client.get(path)

        assert _twice(asking, 4_000) < MOST_RATIO, part


def test_telling_unknown_parameters_ends(client: FlaskClient, problem: Callable[..., Any]) -> None:
    told = problem(client.get("/v1/systems?" + "&".join(f"p{n}=1" for n in range(500))))
    assert [error["parameter"] for error in told["errors"]] == [f"p{n}" for n in range(50)]


@pytest.mark.parametrize("part", ["a", ".", "-", "a.", "="])
def test_opening_a_token(part: str) -> None:
    keys = Keys(["a secret of the tests alone"])

    def opening(count: int) -> Callable[[], object]:
        token = "a." + part * count

        def call() -> None:
            with pytest.raises(NotAToken):
                keys.open(token)

        return call

    assert _twice(opening, 1_900) < MOST_RATIO


@pytest.mark.parametrize("part", TEXTS)
def test_looking_for_hidden_characters(part: str) -> None:
    assert _twice(lambda count: lambda: has_hidden(part * count), 20_000) < MOST_RATIO


@pytest.mark.parametrize("part", ["a", "ab", "abc", "x"])
def test_seeking_the_nearest_name(part: str) -> None:
    known = ["a" * 40, "ab" * 40, "system", "rooms"]
    assert _twice(lambda count: lambda: nearest_name(part * count, known), 10_000) < MOST_RATIO
    assert _twice(lambda count: lambda: UnknownName("sku", seen=part * count, known=known).nearest, 10_000) < MOST_RATIO


def test_seeking_the_nearest_of_many_names() -> None:
    def seeking(count: int) -> Callable[[], object]:
        known = [f"SKU-{n}" for n in range(count)]
        return lambda: UnknownName("sku", seen="SKU-x", known=known).nearest

    assert _twice(seeking, 10 * MOST_COMPARED) < MOST_RATIO
    skus = [f"SKU-{n}" for n in range(10 * MOST_COMPARED)]
    assert [UnknownName("sku", seen=seen, known=skus).nearest for seen in ("SKU-12x", "sku-12", "BAG-12")] == [
        *("SKU-12", "SKU-12", None)
    ]
