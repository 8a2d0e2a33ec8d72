"""Bad input: each request with the exact status, code and place of its problem."""

import copy
import json
from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient

ROOM: dict[str, Any] = {"shape": {"rectangle": {"length": "20 ft", "width": "10 ft"}}}
JOB: dict[str, Any] = {"system": "level-clear", "rooms": [ROOM]}
JSON = {"Content-Type": "application/json"}


def sent(pointer: str, value: Any) -> dict[str, Any]:
    """A sound job with ``value`` at a place of it; what leads there is made."""
    document: Any = copy.deepcopy(JOB)
    *path, last = pointer.split("/")[1:]
    inner = document
    for segment in path:
        inner = inner[int(segment)] if isinstance(inner, list) else inner.setdefault(segment, {})
    inner[last] = value
    result: dict[str, Any] = document
    return result


def shaped(**shape: Any) -> dict[str, Any]:
    return sent("/rooms/0/shape", shape)


def square(*points: Any, unit: Any = "ft") -> dict[str, Any]:
    return {"points": list(points), "unit": unit}


READING = {"at": "2027-03-05T06:00", "temperature": "60 degF"}
SHAPE = "/rooms/0/shape"
LENGTH = "/rooms/0/shape/rectangle/length"
EMISSION = "/slab/moisture_emission"

# where the value goes, the value, the code; the place of the fault where it is another
AT: list[tuple[str, Any, str] | tuple[str, Any, str, str]] = [
    # unknown, missing and wrongly typed fields
    ("/sytem", "x", "unknown-field"),
    ("/rooms/0/shap", {}, "unknown-field"),
    ("/slab/relative_humidty", [], "unknown-field"),
    ("/work/crew/stations", 2, "unknown-field"),
    ("/constructor", {}, "unknown-field"),
    ("/a~1b", 1, "unknown-field", "/a~01b"),
    ("/system", None, "required"),
    ("/system", 7, "not-text"),
    ("/system", "", "blank-text"),
    ("/system", " \u00a0 ", "blank-text"),
    ("/system", "x" * 65, "text-too-long"),
    ("/system", "level\u0000clear", "unseemly-text"),
    ("/system", "level-claer", "unknown-name"),
    ("/rooms", {}, "not-a-list"),
    ("/rooms", "Floor", "not-a-list"),
    ("/rooms", [None], "null-item", "/rooms/0"),
    ("/rooms", [[]], "not-an-object", "/rooms/0"),
    ("/rooms", [ROOM] * 2001, "list-too-long"),
    ("/rooms/0/shape", None, "required"),
    ("/rooms/0/shape", "rectangle", "not-an-object"),
    ("/rooms/0/name", "a\u202eb", "unseemly-text"),
    ("/rooms/0/name", "two\nlines", "unseemly-text"),
    ("/slab", [], "not-an-object"),
    # one of several
    (SHAPE, {}, "one-of-missing"),
    (SHAPE, {"rectangle": None}, "one-of-missing"),
    (SHAPE, {"rectangle": ROOM["shape"]["rectangle"], "circle": {"diameter": "3 m"}}, "one-too-many"),
    ("/rooms/0/drains", [{"count": 2}], "one-of-missing", "/rooms/0/drains/0"),
    ("/rooms/0/joints", [{"kind": "moving"}], "one-of-missing", "/rooms/0/joints/0"),
    (
        "/rooms/0/joints",
        [{"length": "3 m", "line": [["0 m", "0 m"], ["1 m", "0 m"]]}],
        "one-too-many",
        "/rooms/0/joints/0",
    ),
    ("/work/temperatures", {"steady": "60 degF", "readings": [READING]}, "one-too-many"),
    # measures
    (LENGTH, "20", "no-unit"),
    (LENGTH, 20, "no-unit"),
    (LENGTH, True, "not-text"),
    (LENGTH, "", "empty"),
    (LENGTH, "1,5 m", "decimal-comma"),
    (LENGTH, "5' 14\"", "inches-over-twelve"),
    (LENGTH, "5.5' 6\"", "feet-not-whole"),
    (LENGTH, "1 3/2 in", "fraction-not-proper"),
    (LENGTH, "1/0 in", "zero-denominator"),
    (LENGTH, "1e3 ft", "exponent"),
    (LENGTH, "9**9**9 ft", "two-numbers"),
    (LENGTH, "-20 ft", "negative"),
    (LENGTH, "٣ ft", "non-ascii-digits"),
    (LENGTH, "NaN ft", "not-a-number"),
    (LENGTH, "ft", "not-a-number"),
    (LENGTH, "20 furlongs", "unknown-unit"),
    (LENGTH, "20 lb", "wrong-dimension"),
    (LENGTH, "20 ft2", "wrong-dimension"),
    (LENGTH, "20 ft" + " " * 30, "too-long"),
    (LENGTH, "__import__('os')", "not-a-number"),
    (LENGTH, {"value": 20}, "not-text"),
    (LENGTH, {"value": "20", "unit": "ft"}, "not-a-number"),
    (LENGTH, {"value": True, "unit": "ft"}, "not-a-number"),
    (LENGTH, {"value": 20, "unit": "ft", "note": ""}, "not-text"),
    (LENGTH, {"value": 20, "unit": 7}, "no-unit"),
    (LENGTH, {"value": 1e308, "unit": "km"}, "too-large"),
    (LENGTH, "0.9 cm", "measure-out-of-range"),
    (LENGTH, "10.001 km", "measure-out-of-range"),
    (LENGTH, "0 ft", "measure-out-of-range"),
    ("/thickness", "151 mm", "measure-out-of-range"),
    ("/thickness", "0.04 mm", "measure-out-of-range"),
    ("/slab/temperature", "-41 degC", "measure-out-of-range"),
    ("/slab/temperature", "5 delta_degF", "delta-for-temperature"),
    ("/slab/compressive_strength", "201 MPa", "measure-out-of-range"),
    ("/slab/age", "201 yr", "measure-out-of-range"),
    ("/rooms/0/cracks", [{"length": "3 m", "width": "0.4 mm", "depth": "5 mm"}], "measure-out-of-range",
     "/rooms/0/cracks/0/width"),
    # plain numbers, truth values, words
    ("/rooms/0/slope_percent", "1", "not-a-number"),
    ("/rooms/0/slope_percent", True, "not-a-number"),
    ("/rooms/0/slope_percent", -0.1, "number-out-of-range"),
    ("/rooms/0/profile_csp", 4.5, "not-whole"),
    ("/rooms/0/profile_csp", "4", "not-whole"),
    ("/rooms/0/profile_csp", 0, "number-out-of-range"),
    ("/rooms/0/profile_csp", 10**39, "number-out-of-range"),
    ("/slab/damp", "yes", "not-a-flag"),
    ("/slab/damp", 1, "not-a-flag"),
    ("/slab/ph", 14.1, "number-out-of-range"),
    ("/slab/relative_humidity", [{"percent": 0.84}], "number-out-of-range", "/slab/relative_humidity/0/percent"),
    ("/slab/relative_humidity", [84], "not-an-object", "/slab/relative_humidity/0"),
    ("/slab/dries_from", "one side", "unknown-word"),
    ("/rooms/0/joints", [{"length": "3 m", "kind": "Moving"}], "unknown-word", "/rooms/0/joints/0/kind"),
    (EMISSION, "6 lb/1000ft2/24h", "not-a-list"),
    (EMISSION, [6.1], "no-unit", "/slab/moisture_emission/0"),
    (EMISSION, ["6.1 lb"], "wrong-dimension", "/slab/moisture_emission/0"),
    (EMISSION, [{"gain": "3 g", "hours": 72}], "required", "/slab/moisture_emission/0/area"),
    (EMISSION, [{"gain": "3 g", "hours": 201, "area": "64 in2"}], "number-out-of-range",
     "/slab/moisture_emission/0/hours"),
    ("/slab/pull_off", [{"strength": "300 psi", "failure": "steel"}], "unknown-word", "/slab/pull_off/0/failure"),
    ("/slab/contaminants", ["oil", None], "null-item", "/slab/contaminants/1"),
    ("/work/crew/mixing_stations", 51, "number-out-of-range"),
    ("/work/crew/minutes_per_mix", 0.4, "number-out-of-range"),
    ("/order/confidence", 1, "number-out-of-range"),
    ("/order/waste_percent", "5 %", "not-a-number"),
    ("/order/delivery", 45, "not-money"),
    ("/order/delivery", "45,00", "not-money"),
    ("/order/delivery", "1e999999", "not-money"),
    ("/order/delivery", "-1.00", "not-money"),
    ("/order/reference", "x" * 81, "text-too-long"),
    ("/order/price_book", "no-such-branch", "unknown-name"),
    ("/order/on_hand", [{"sku": "A", "packs": 1}, {"sku": "A", "packs": 2}], "sku-twice", "/order/on_hand/1/sku"),
    # polygons and places
    (SHAPE, {"polygon": {"points": [[0, 0], [1, 0], [1, 1]]}}, "required", "/rooms/0/shape/polygon/unit"),
    (SHAPE, {"polygon": square([0, 0], [9, 0], [9, 9], unit="ft2")}, "unknown-word", "/rooms/0/shape/polygon/unit"),
    (SHAPE, {"polygon": square([0, 0], [9, 0])}, "list-too-short", "/rooms/0/shape/polygon/points"),
    (SHAPE, {"polygon": square([0, 0], [9, 0], [0, 0])}, "corners-out-of-range", "/rooms/0/shape/polygon/points"),
    (SHAPE, {"polygon": square([0, 0], [9, 0], [9])}, "list-too-short", "/rooms/0/shape/polygon/points/2"),
    (SHAPE, {"polygon": square([0, 0], [9, "0"], [9, 9])}, "not-a-number", "/rooms/0/shape/polygon/points/1/1"),
    (SHAPE, {"polygon": square([0, 0], [9, 0], [9, 40_000])}, "point-too-far", "/rooms/0/shape/polygon/points/2"),
    (SHAPE, {"polygon": square(*[[i, i * i] for i in range(102)])}, "list-too-long", "/rooms/0/shape/polygon/points"),
    (
        "/rooms/0/drains",
        [{"round": {"diameter": "8 in"}, "at": ["1 ft", "1 ft"], "count": 2}],
        "placed-once",
        "/rooms/0/drains/0/count",
    ),
    ("/rooms/0/drains", [{"round": {"diameter": "8 in"}, "at": ["1 ft"]}], "list-too-short", "/rooms/0/drains/0/at"),
    # days and times
    ("/slab/poured", "2027-02-30", "no-such-date"),
    ("/slab/poured", "19 Jan 2027", "not-a-date"),
    ("/slab/poured", "1799-12-31", "year-out-of-range"),
    ("/slab/poured", 20270119, "not-a-date"),
    ("/work/start", "2027-03-05", "not-a-moment"),
    ("/work/start", "2027-03-05T25:00", "no-such-moment"),
    ("/work/start", "2027-03-05T06:00+15:00", "no-such-moment"),
    ("/work/start", "2027-03-05T06:00 CST", "not-a-moment"),
    ("/work/start", "٢٠٢٧-03-05T06:00", "not-a-moment"),
    ("/work/start", "1999-12-31T23:59", "year-out-of-range"),
    ("/work/start", "9999-12-31T23:59:59Z", "year-out-of-range"),
    ("/work/zone", "America/Chicgo", "unknown-zone"),
    ("/work/zone", "../../etc/passwd", "unknown-zone"),
    ("/work/zone", "CST6CDT,M3.2.0,M11.1.0", "unknown-zone"),
    ("/work/closed", ["2027-3-8"], "not-a-date", "/work/closed/0"),
    ("/work/shifts", [], "list-too-short"),
    ("/work/shifts", [{"days": ["monday"], "from": "06:00", "to": "15:00"}], "unknown-word", "/work/shifts/0/days/0"),
    ("/work/shifts", [{"days": ["mon"], "from": "6", "to": "15:00"}], "not-a-time", "/work/shifts/0/from"),
    ("/work/shifts", [{"days": ["mon", "tue"], "from": f"{hour:02}:00", "to": f"{hour:02}:30"} for hour in range(9)],
     "shifts-a-day", "/work/shifts"),
    ("/work/shifts", [{"days": ["mon"], "from": "24:00", "to": "15:00"}], "no-such-time", "/work/shifts/0/from"),
    ("/work/temperatures", {"daily": {"low": "70 degF", "high": "60 degF"}}, "high-under-low",
     "/work/temperatures/daily/high"),
    ("/work/temperatures", {"readings": [READING, READING]}, "reading-out-of-order",
     "/work/temperatures/readings/1/at"),
    ("/work/temperatures", {"readings": []}, "list-too-short", "/work/temperatures/readings"),
    ("/work", {"round_the_clock": True, "shifts": [{"days": ["mon"], "from": "06:00", "to": "15:00"}]},
     "shifts-round-the-clock", "/work/shifts"),
]  # fmt: skip


@pytest.mark.parametrize("case", AT, ids=lambda case: f"{case[2]} at {case[0]}"[:60])
def test_a_field_that_is_wrong(client: FlaskClient, problem: Callable[[Any], dict[str, Any]], case: Any) -> None:
    pointer, value, code, *elsewhere = case
    body = problem(client.post("/v1/readiness", json=sent(pointer, value)))
    assert body["status"] == 422
    assert [(error["pointer"], error["code"]) for error in body["errors"]] == [((*elsewhere, pointer)[0], code)]
    assert body["detail"] == body["errors"][0]["detail"]
    assert body["errors"][0]["hint"]


BODIES: list[tuple[str, bytes, dict[str, str], int, str]] = [
    ("nothing", b"", JSON, 400, "empty-body"),
    ("spaces", b"  \n", JSON, 400, "empty-body"),
    ("no media type", b"{}", {}, 415, "media-type"),
    ("text", b"{}", {"Content-Type": "text/plain"}, 415, "media-type"),
    ("a form", b"system=x", {"Content-Type": "application/x-www-form-urlencoded"}, 415, "media-type"),
    ("a file", b"{}", {"Content-Type": "multipart/form-data; boundary=x"}, 415, "media-type"),
    ("nearly JSON's", b"{}", {"Content-Type": "application/jsonp"}, 415, "media-type"),
    ("packed", b"\x1f\x8b", {**JSON, "Content-Encoding": "gzip"}, 415, "encoded-body"),
    ("a mark", b"\xef\xbb\xbf{}", JSON, 400, "not-utf-8"),
    ("UTF-16", '{"system": "x"}'.encode("utf-16"), JSON, 400, "not-utf-8"),
    ("Latin", '{"system": "é"}'.encode("latin-1"), JSON, 400, "not-utf-8"),
    ("half a character", b'{"system": "\\ud800"}', JSON, 400, "not-json"),
    ("broken", b'{"system": "x"', JSON, 400, "not-json"),
    ("two values", b"{}{}", JSON, 400, "not-json"),
    ("single quotes", b"{'system': 'x'}", JSON, 400, "not-json"),
    ("NaN", b'{"thickness": {"value": NaN, "unit": "in"}}', JSON, 400, "bad-number"),
    ("Infinity", b'{"thickness": Infinity}', JSON, 400, "bad-number"),
    ("a huge exponent", b'{"thickness": 1e999}', JSON, 400, "bad-number"),
    ("5,000 digits", b'{"thickness": ' + b"7" * 5000 + b"}", JSON, 400, "bad-number"),
    ("a doubled field", b'{"system": "x", "system": "y"}', JSON, 400, "doubled-field"),
    ("17 deep", b'{"a":' * 17 + b"1" + b"}" * 17, JSON, 400, "too-deep"),
    ("100,000 deep", b"[" * 100_000 + b"]" * 100_000, JSON, 400, "too-deep"),
    ("too long", b'{"system": "' + b"x" * 300_000 + b'"}', JSON, 413, "too-large"),
    ("a list", b"[]", JSON, 422, "invalid-job"),
    ("a text", b'"job"', JSON, 422, "invalid-job"),
    ("null", b"null", JSON, 422, "invalid-job"),
    ("a number", b"7", JSON, 422, "invalid-job"),
]


@pytest.mark.parametrize("method", ["POST", "QUERY"])
@pytest.mark.parametrize(("data", "headers", "status", "code"), [case[1:] for case in BODIES],
                         ids=[case[0] for case in BODIES])  # fmt: skip
def test_a_body_that_is_not_a_job(
    client: FlaskClient,
    problem: Callable[[Any], dict[str, Any]],
    data: bytes,
    headers: dict[str, str],
    status: int,
    code: str,
    method: str,
) -> None:
    body = problem(client.open("/v1/readiness", method=method, data=data, headers=headers))
    assert (body["status"], body["code"]) == (status, code)


@pytest.mark.parametrize(
    ("query", "parameter", "code"),
    [
        ("unit=si", "unit", "unknown-parameter"),
        ("units=metric", "units", "unknown-word"),
        ("units=", "units", "unknown-word"),
        ("units=SI", "units", "unknown-word"),
        ("units=us&units=si", "units", "parameter-twice"),
        ("echo=1", "echo", "unknown-word"),
        ("echo", "echo", "unknown-word"),
        ("working=yes", "working", "unknown-word"),
        ("%ff=1", "%FF", "unknown-parameter"),
    ],
)
def test_a_parameter_that_is_wrong(
    client: FlaskClient, problem: Callable[[Any], dict[str, Any]], query: str, parameter: str, code: str
) -> None:
    body = problem(client.post(f"/v1/readiness?{query}", json=JOB))
    assert (body["status"], body["code"]) == (422, "bad-parameter")
    assert [(error["parameter"], error["code"]) for error in body["errors"]] == [(parameter, code)]


def test_at_most_fifty_faults_are_listed(client: FlaskClient, problem: Callable[[Any], dict[str, Any]]) -> None:
    body = problem(client.post("/v1/readiness", json={**JOB, "rooms": [{}] * 200}))
    assert len(body["errors"]) == 50


def test_what_was_seen_is_shown_short(client: FlaskClient, problem: Callable[[Any], dict[str, Any]]) -> None:
    body = problem(client.post("/v1/readiness", json=sent("/slab/ph", "x" * 10_000)))
    assert body["errors"][0]["seen"] == "x" * 80 + "…"
    body = problem(client.post("/v1/readiness", json=sent("/slab/age", [10**30, {"a": None}])))
    assert json.loads(body["errors"][0]["seen"]) == [10**30, {"a": None}]


@pytest.mark.parametrize(
    ("pointer", "value", "seen"),
    [
        (SHAPE, {"polygon": square([0, 0], [1e9, 0], [0, 4])}, "[1000000000.0,0.0]"),
        ("/rooms/0/name", "two\nlines", "two\\nlines"),
        ("/rooms/0/name", "a\u202eb", "a\\u202eb"),
        ("/rooms/0/name", ["a", None, True], '["a",null,true]'),
    ],
)
def test_what_was_seen_is_shown_as_json_writes_it(
    client: FlaskClient, problem: Callable[[Any], dict[str, Any]], pointer: str, value: Any, seen: str
) -> None:
    body = problem(client.post("/v1/quantities", json=sent(pointer, value)))
    assert [error["seen"] for error in body["errors"]] == [seen]


def test_a_name_of_a_field_may_be_long(client: FlaskClient, problem: Callable[[Any], dict[str, Any]]) -> None:
    body = problem(client.post("/v1/readiness", json={**JOB, "x" * 200_000: 1}))
    assert body["errors"][0]["code"] == "unknown-field"
    assert len(json.dumps(body)) < 2000
