"""Bodies and headers as bytes: each with the status, the code and, where there is one, the place of its problem."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import document, measured

Read = Callable[[Any], dict[str, Any]]

JSON = "application/json"
JOB: Any = document(measured("900 ft2"))
BYTES = json.dumps(JOB).encode()
MOST = 256 * 1024


def with_member(member: str | bytes) -> bytes:
    """The sound job with one more member, as it is written."""
    return BYTES[:-1] + b", " + (member.encode() if isinstance(member, str) else member) + b"}"


Case = tuple[str, bytes, int, str, list[str]]
BODIES: list[Case] = [
    # encodings
    ("UTF-16 without a mark, little end first", BYTES.decode().encode("utf-16-le"), 400, "not-utf-8", []),
    ("UTF-16 without a mark, big end first", BYTES.decode().encode("utf-16-be"), 400, "not-utf-8", []),
    ("UTF-16 with a mark", BYTES.decode().encode("utf-16"), 400, "not-utf-8", []),
    ("UTF-32", BYTES.decode().encode("utf-32"), 400, "not-utf-8", []),
    ("UTF-32 without a mark", BYTES.decode().encode("utf-32-le"), 400, "not-utf-8", []),
    ("a byte order mark", b"\xef\xbb\xbf" + BYTES, 400, "not-utf-8", []),
    ("a byte order mark after a space", b" \xef\xbb\xbf" + BYTES, 400, "not-json", []),
    ("half a byte order mark", b"\xef\xbb" + BYTES, 400, "not-utf-8", []),
    ("an overlong slash", with_member(b'"name": "\xc0\xaf"'), 400, "not-utf-8", []),
    ("an overlong null", with_member(b'"name": "\xc0\x80"'), 400, "not-utf-8", []),
    ("half of a pair, in bytes", with_member(b'"name": "\xed\xa0\x80"'), 400, "not-utf-8", []),
    ("beyond Unicode", with_member(b'"name": "\xf4\x90\x80\x80"'), 400, "not-utf-8", []),
    ("a character cut off", with_member(b'"name": "\xe2\x82"'), 400, "not-utf-8", []),
    ("a byte that goes on with nothing", with_member(b'"name": "\x80"'), 400, "not-utf-8", []),
    ("Windows quotes", with_member(b'"name": "\x93A\x94"'), 400, "not-utf-8", []),
    ("half of a pair, escaped", with_member(r'"name": "\ud83d"'), 400, "not-json", []),
    ("a pair turned round", with_member(r'"name": "\ude00\ud83d"'), 400, "not-json", []),
    ("half of a pair in a name", with_member(r'"\udfff": 1'), 400, "not-json", []),
    # broken JSON
    ("cut off", BYTES[:-1], 400, "not-json", []),
    ("cut off in a text", BYTES[:12], 400, "not-json", []),
    ("one brace too many", BYTES + b"}", 400, "not-json", []),
    ("two jobs", BYTES + b"\n" + BYTES, 400, "not-json", []),
    ("a comma at the end", with_member(""), 400, "not-json", []),
    ("a comment", with_member('"a": 1 /* or 2 */'), 400, "not-json", []),
    ("a comment to the end", BYTES + b" // job", 400, "not-json", []),
    ("a name without quotes", with_member("thickness: 1"), 400, "not-json", []),
    ("single quotes", with_member("'thickness': 1"), 400, "not-json", []),
    ("no colon", with_member('"thickness" 1'), 400, "not-json", []),
    ("Python's None", with_member('"thickness": None'), 400, "not-json", []),
    ("Python's True", with_member('"damp": True'), 400, "not-json", []),
    ("undefined", with_member('"damp": undefined'), 400, "not-json", []),
    ("a line break in a text", with_member('"a": "two\nlines"'), 400, "not-json", []),
    ("a null in a text", with_member('"a": "\x00"'), 400, "not-json", []),
    ("a null after the end", BYTES + b"\x00", 400, "not-json", []),
    ("a null before the start", b"\x00" + BYTES, 400, "not-utf-8", []),
    ("an escape that is none", with_member(r'"a": "\x41"'), 400, "not-json", []),
    ("an escape cut off", with_member(r'"a": "\u00"'), 400, "not-json", []),
    ("a no-break space between", b"\xc2\xa0" + BYTES, 400, "not-json", []),
    ("a form feed between", b"\x0c" + BYTES, 400, "not-json", []),
    ("a mapping of YAML", b"system: level-clear\n", 400, "not-json", []),
    ("XML", b"<job><system>level-clear</system></job>", 400, "not-json", []),
    ("a form", b"system=level-clear&rooms=1", 400, "not-json", []),
    ("packed by gzip", b"\x1f\x8b\x08\x00\x00\x00\x00\x00", 400, "not-utf-8", []),
    ("lines of JSON with a mark of records", b"\x1e" + BYTES + b"\n", 400, "not-json", []),
    ("only a byte that is no text", b"\xff", 400, "not-utf-8", []),
    # numbers
    ("a leading zero", with_member('"a": 01'), 400, "not-json", []),
    ("a plus", with_member('"a": +1'), 400, "not-json", []),
    ("a point first", with_member('"a": .5'), 400, "not-json", []),
    ("a point last", with_member('"a": 5.'), 400, "not-json", []),
    ("hexadecimal", with_member('"a": 0x10'), 400, "not-json", []),
    ("an underscore", with_member('"a": 1_000'), 400, "not-json", []),
    ("a decimal comma", with_member('"a": 1,5'), 400, "not-json", []),
    ("two minus", with_member('"a": --1'), 400, "not-json", []),
    ("digits of another script", with_member('"a": ٣'), 400, "not-json", []),
    ("an exponent cut off", with_member('"a": 1e'), 400, "not-json", []),
    ("NaN", with_member('"a": NaN'), 400, "bad-number", ["/a"]),
    ("Infinity", with_member('"a": Infinity'), 400, "bad-number", ["/a"]),
    ("minus Infinity", with_member('"a": -Infinity'), 400, "bad-number", ["/a"]),
    ("NaN alone", b"NaN", 400, "bad-number", [""]),
    ("an exponent beyond all", with_member('"a": 1e309'), 400, "bad-number", ["/a"]),
    ("an exponent of many digits", with_member('"a": 1e99999999999'), 400, "bad-number", ["/a"]),
    ("41 digits", with_member('"a": ' + "9" * 41), 400, "bad-number", ["/a"]),
    ("5,000 digits", with_member('"a": ' + "9" * 5_000), 400, "bad-number", ["/a"]),
    ("200,000 digits", with_member('"a": ' + "9" * 200_000), 400, "bad-number", ["/a"]),
    ("5,000 decimals", with_member('"a": 0.' + "3" * 5_000), 400, "bad-number", ["/a"]),
    ("two NaN, one within a list", with_member('"a": NaN, "slab": {"ph": [1, -Infinity]}'), 400, "bad-number",
     ["/a", "/slab/ph/1"]),
    ("40 digits, where 10 are too many", with_member('"rooms": [], "slab": {"ph": ' + "9" * 40 + "}"), 400,
     "doubled-field", ["/rooms"]),
    # nesting
    ("17 lists", with_member('"a": ' + "[" * 16 + "]" * 16), 400, "too-deep", []),
    ("100,000 lists", b"[" * 100_000 + b"]" * 100_000, 400, "too-deep", []),
    ("40,000 objects", b'{"a":' * 40_000 + b"1" + b"}" * 40_000, 400, "too-deep", []),
    ("lists and objects by turns", b'[{"a":' * 9 + b"1" + b"}]" * 9, 400, "too-deep", []),
    # doubled fields
    ("two systems", with_member('"system": "level-clear"'), 400, "doubled-field", ["/system"]),
    ("two systems, one in escapes", with_member(r'"\u0073ystem": "x"'), 400, "doubled-field", ["/system"]),
    ("two within", with_member('"air": {"humidity_percent": 50, "humidity_percent": 50}'), 400, "doubled-field",
     ["/air/humidity_percent"]),
    ("two in two places", with_member('"air": {"a": 1, "a": 2}, "slab": {"b/c": 1, "b/c": 1}'), 400, "doubled-field",
     ["/air/a", "/slab/b~1c"]),
    ("two empty names", with_member('"": 1, "": 2'), 400, "doubled-field", ["/"]),
    # length
    ("one byte too many", BYTES + b" " * (MOST + 1 - len(BYTES)), 413, "too-large", []),
    ("a text too long to read", with_member('"name": "' + "x" * MOST + '"'), 413, "too-large", []),
    # JSON, and no job
    ("true", b"true", 422, "invalid-job", [""]),
    ("a text", b'"level-clear"', 422, "invalid-job", [""]),
    ("a list of jobs", b"[" + BYTES + b"]", 422, "invalid-job", [""]),
    ("nothing said", b"{}", 422, "invalid-job", ["/system", "/rooms"]),
    ("everything left empty", b'{"system": null, "rooms": null}', 422, "invalid-job", ["/system", "/rooms"]),
    ("no rooms", b'{"system": "level-clear", "rooms": []}', 422, "invalid-job", ["/rooms"]),
    ("an empty name", with_member('"": 1'), 422, "invalid-job", ["/"]),
    ("a name of a null", with_member(r'"\u0000": 1'), 422, "invalid-job", ["/\x00"]),
    ("a name that is a pointer", with_member('"/rooms/0": 1'), 422, "invalid-job", ["/~1rooms~10"]),
    ("a name with a tilde", with_member('"a~1b": 1'), 422, "invalid-job", ["/a~01b"]),
    ("a name of the language's own", with_member('"__proto__": {"admin": true}'), 422, "invalid-job", ["/__proto__"]),
    ("1,000 unknown fields", with_member(", ".join(f'"f{i}": {i}' for i in range(1000))), 422, "invalid-job",
     [f"/f{i}" for i in range(50)]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("data", "status", "code", "pointers"), [case[1:] for case in BODIES], ids=[case[0] for case in BODIES]
)
def test_a_body_that_is_no_job(
    client: FlaskClient, problem: Read, data: bytes, status: int, code: str, pointers: list[str]
) -> None:
    body = problem(client.post("/v1/quotes", data=data, content_type=JSON))
    assert (body["status"], body["code"]) == (status, code)
    assert [error["pointer"] for error in body["errors"]] == pointers


@pytest.mark.parametrize(
    "data",
    [
        BYTES + b" " * (MOST - len(BYTES)),
        b"\r\n\t " + BYTES + b"\r\n\t ",
        json.dumps(JOB, indent=8).encode(),
        with_member(r'"order": {"reference": "\ud83d\ude00 \u00e9"}'),
        with_member('"order": {"reference": "😀 é"}'),
        with_member('"slab": {"ph": 7.' + "0" * 38 + "}"),
        with_member('"slab": {"ph": 70e-1, "profile_csp": 4.0}'),
    ],
)
def test_what_json_allows_is_read(client: FlaskClient, data: bytes) -> None:
    assert client.post("/v1/quotes", data=data, content_type=JSON).status_code == 200


HEADERS: list[tuple[str, dict[str, str], int, str]] = [
    ("no media type", {}, 415, "media-type"),
    ("an empty one", {"Content-Type": ""}, 415, "media-type"),
    ("no slash", {"Content-Type": "json"}, 415, "media-type"),
    ("a text", {"Content-Type": "text/plain"}, 415, "media-type"),
    ("JSON as text", {"Content-Type": "text/json"}, 415, "media-type"),
    ("JSON of old", {"Content-Type": "application/x-json"}, 415, "media-type"),
    ("JavaScript", {"Content-Type": "application/javascript"}, 415, "media-type"),
    ("a form", {"Content-Type": "application/x-www-form-urlencoded"}, 415, "media-type"),
    ("a form of parts", {"Content-Type": "multipart/form-data; boundary=a"}, 415, "media-type"),
    ("a form of parts without a boundary", {"Content-Type": "multipart/form-data"}, 415, "media-type"),
    ("bytes", {"Content-Type": "application/octet-stream"}, 415, "media-type"),
    ("lines", {"Content-Type": "application/x-ndjson"}, 415, "media-type"),
    ("anything", {"Content-Type": "*/*"}, 415, "media-type"),
    ("two at once", {"Content-Type": "application/json, text/plain"}, 415, "media-type"),
    ("packed", {"Content-Type": JSON, "Content-Encoding": "gzip"}, 415, "encoded-body"),
    ("packed twice", {"Content-Type": JSON, "Content-Encoding": "gzip, br"}, 415, "encoded-body"),
    ("packed in an unknown way", {"Content-Type": JSON, "Content-Encoding": "rot13"}, 415, "encoded-body"),
    ("only a picture is wanted", {"Content-Type": JSON, "Accept": "image/png"}, 406, "not-acceptable"),
    ("nothing that exists is wanted", {"Content-Type": JSON, "Accept": ";;;,,,q=x"}, 406, "not-acceptable"),
    ("JSON is not wanted", {"Content-Type": JSON, "Accept": "application/json;q=0"}, 406, "not-acceptable"),
]


@pytest.mark.parametrize(
    ("headers", "status", "code"), [case[1:] for case in HEADERS], ids=[case[0] for case in HEADERS]
)
def test_headers_with_which_no_job_is_read(
    client: FlaskClient, problem: Read, headers: dict[str, str], status: int, code: str
) -> None:
    body = problem(client.post("/v1/quotes", data=BYTES, headers=headers))
    assert (body["status"], body["code"], body["errors"]) == (status, code, [])


@pytest.mark.parametrize(
    "headers",
    [
        {"Content-Type": "application/json; charset=utf-8"},
        {"Content-Type": "APPLICATION/JSON"},
        {"Content-Type": "application/vnd.job+json"},
        {"Content-Type": JSON, "Content-Encoding": "identity"},
        {"Content-Type": JSON, "Accept": "text/html;q=0.9, */*;q=0.1"},
        {"Content-Type": JSON, "If-None-Match": '"' + "x" * 4000},
        {"Content-Type": JSON, "Range": "bytes=0-0"},
        {"Content-Type": JSON, "Expect": "later"},
        {"Content-Type": JSON, "X-Request-Id": "x" * 5000},
        {"Content-Type": JSON, "Traceparent": "00-" + "z" * 32 + "-00-00"},
        {"Content-Type": JSON, "Cookie": "a=b; ; =; c"},
    ],
)
def test_headers_that_do_no_harm(client: FlaskClient, headers: dict[str, str]) -> None:
    response = client.post("/v1/quotes", data=BYTES, headers=headers)
    assert response.status_code == 200
    assert len(response.headers["X-Request-Id"]) <= 200


ADDRESSES: list[tuple[str, str, int, str]] = [
    ("GET", "/v1/quotes", 405, "method-not-allowed"),
    ("PUT", "/v1/quotes", 405, "method-not-allowed"),
    ("PATCH", "/v1/readiness", 405, "method-not-allowed"),
    ("TRACE", "/v1/readiness", 405, "method-not-allowed"),
    ("BREW", "/v1/readiness", 405, "method-not-allowed"),
    ("POST", "/v1/systems", 405, "method-not-allowed"),
    ("POST", "/healthz", 405, "method-not-allowed"),
    ("POST", "/v1/quote", 404, "not-found"),
    ("POST", "/v2/quotes", 404, "not-found"),
    ("GET", "/v1/systems/..%2f..%2fetc%2fpasswd", 404, "not-found"),
    ("GET", "/../../etc/passwd", 404, "not-found"),
    ("GET", "/v1/systems/%00", 404, "not-named"),
    ("GET", "/v1/systems/%ff%fe", 404, "not-named"),
    ("GET", "/v1/systems/" + "x" * 3000, 404, "not-named"),
    ("GET", "/v1/systems/%D9%A3", 404, "not-named"),
    ("GET", "/v1/systems?limit=5", 422, "bad-parameter"),
    ("GET", "/v1/units?units=si", 422, "bad-parameter"),
]


@pytest.mark.parametrize(("method", "address", "status", "code"), ADDRESSES)
def test_an_address_that_is_wrong(
    client: FlaskClient, problem: Read, method: str, address: str, status: int, code: str
) -> None:
    body = problem(client.open(address, method=method))
    assert (body["status"], body["code"]) == (status, code)


@pytest.mark.parametrize(
    "token",
    ["x", "%00", "-" * 4000, "x" * 8000, "%F0%9F%98%80", "..%2e", "eyJhbGciOiJub25lIn0.e30.", "é"],
)
def test_a_token_that_is_none(client: FlaskClient, problem: Read, token: str) -> None:
    for address in (f"/v1/quotes/{token}", f"/v1/quotes/{token}/qr.svg"):
        body = problem(client.get(address))
        assert (body["status"], body["code"]) == (404, "no-such-quote")
