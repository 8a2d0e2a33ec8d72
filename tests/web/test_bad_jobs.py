"""Jobs that are read well and mean something that cannot be: each with the exact place and code of every fault.

What is expected follows from the document alone: a room of 20 ft by 10 ft, the demonstration's invented systems.
"""

import copy
from collections.abc import Callable, Iterator
from itertools import cycle, islice
from typing import Any

import pytest
from flask.testing import FlaskClient
from marshmallow import fields as marshmallow

from gaugerake.web.json_in.document import Document, Either, Items, Object, OneOrSeveral
from gaugerake.web.json_in.fields import Choice, Flag, Money, Number, Text, Whole
from gaugerake.web.json_in.fields_measure import Measure
from gaugerake.web.json_in.schemas.job import JOB

Read = Callable[[Any], dict[str, Any]]
Document_ = dict[str, Any]

SHAPE = "/rooms/0/shape"
POINTS = "/rooms/0/shape/polygon/points"
DRAIN = {"round": {"diameter": "1 ft"}}
TRENCH = {"trench": {"length": "5 ft", "width": "1 ft"}}
COLUMN = {"rectangle": {"length": "2 ft", "width": "2 ft"}}
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
SHIFT = {"days": ["mon"], "from": "06:00", "to": "15:00"}


def job(**parts: Any) -> Document_:
    """A sound job; names with two underscores lead into it, ``room`` names belong to its only room."""
    document: Document_ = {
        "system": "level-clear",
        "rooms": [{"shape": {"rectangle": {"length": "20 ft", "width": "10 ft"}}}],
    }
    for name, value in parts.items():
        *path, last = name.split("__")
        inner: Any = document
        for segment in path:
            inner = document["rooms"][0] if segment == "room" else inner.setdefault(segment, {})
        inner[last] = copy.deepcopy(value)
    return document


def outline(*points: tuple[float, float]) -> Document_:
    return job(room__shape={"polygon": {"points": [list(point) for point in points], "unit": "ft"}})


def line(x1: str, y1: str, x2: str, y2: str) -> Document_:
    return {"line": [[x1, y1], [x2, y2]], "kind": "contraction"}


def placed(thing: Document_, x: str, y: str) -> Document_:
    return {**thing, "at": [x, y]}


def readings(*times: str) -> Document_:
    return {"readings": [{"at": at, "temperature": "60 degF"} for at in times]}


Case = tuple[str, Document_, list[tuple[str, str]]]
CASES: list[Case] = [
    # outlines
    ("a bow tie", outline((0, 0), (9, 9), (9, 0), (0, 9)), [(POINTS, "crossing-outline")]),
    ("a figure of eight through a corner", outline((0, 0), (4, 4), (8, 0), (8, 8), (4, 4), (0, 8)),
     [(POINTS, "crossing-outline")]),
    ("a side that runs back along itself", outline((0, 0), (9, 0), (9, 9), (9, 2), (0, 9)),
     [(POINTS, "crossing-outline")]),
    ("a corner that touches a far side", outline((0, 0), (10, 0), (10, 10), (5, 0), (0, 10)),
     [(POINTS, "crossing-outline")]),
    ("a straight line", outline((0, 0), (5, 0), (9, 0)), [(POINTS, "degenerate-outline")]),
    ("one point three times", outline((3, 3), (3, 3), (3, 3), (3, 4)), [(POINTS, "degenerate-outline")]),
    ("there and back", outline((0, 0), (9, 0), (0, 0), (9, 0)), [(POINTS, "degenerate-outline")]),
    ("a perimeter shorter than a circle's", job(room__shape={"measured": {"area": "100 m2", "perimeter": "35.44 m"}}),
     [("/rooms/0/shape/measured/perimeter", "impossible-perimeter")]),
    ("more floor than a job may have", job(rooms=[{"shape": {"measured": {"area": "100001 m2"}}}] * 2),
     [("/rooms", "out-of-range")]),
    # what is cut out and placed
    ("a cutout that is a bow tie",
     job(room__cutouts=[{"polygon": {"points": [[0, 0], [2, 2], [2, 0], [0, 2]], "unit": "ft"}}]),
     [("/rooms/0/cutouts/0/polygon/points", "crossing-outline")]),
    ("a cutout with a perimeter too short", job(room__cutouts=[{"measured": {"area": "1 m2", "perimeter": "3.5 m"}}]),
     [("/rooms/0/cutouts/0/measured/perimeter", "impossible-perimeter")]),
    ("a measured cutout in a place", job(room__cutouts=[placed({"measured": {"area": "4 ft2"}}, "1 ft", "1 ft")]),
     [("/rooms/0/cutouts/0/at", "no-place")]),
    ("a cutout in the next room", job(room__cutouts=[placed(COLUMN, "30 ft", "1 ft")]),
     [("/rooms/0/cutouts/0/at", "outside-room")]),
    ("a cutout through the wall", job(room__cutouts=[placed(COLUMN, "19 ft", "1 ft")]),
     [("/rooms/0/cutouts/0/at", "outside-room")]),
    ("a round cutout past the corner", job(room__cutouts=[placed({"circle": {"diameter": "2 ft"}}, "18.5 ft", "1 ft")]),
     [("/rooms/0/cutouts/0/at", "outside-room")]),
    ("a drain on a cutout", job(room__cutouts=[placed(COLUMN, "4 ft", "4 ft")],
                                room__drains=[placed(DRAIN, "5 ft", "5 ft")]),
     [("/rooms/0/drains/0/at", "overlapping")]),
    ("two drains in one place", job(room__drains=[placed(DRAIN, "5 ft", "5 ft"), placed(DRAIN, "5 ft", "5 ft")]),
     [("/rooms/0/drains/1/at", "overlapping")]),
    ("a trench through the wall", job(room__drains=[placed(TRENCH, "16 ft", "1 ft")]),
     [("/rooms/0/drains/0/at", "outside-room")]),
    ("a cutout as large as the room", job(room__cutouts=[{"rectangle": {"length": "20 ft", "width": "10 ft"}}]),
     [("/rooms/0/cutouts/0", "nothing-left")]),
    ("a drain larger than its room", job(room__drains=[DRAIN, {"round": {"diameter": "30 ft"}}]),
     [("/rooms/0/drains/1", "nothing-left")]),
    ("more columns than floor", job(room__cutouts=[{**COLUMN, "count": 50}]),
     [("/rooms/0/cutouts/0", "nothing-left")]),
    ("more drains than floor", job(room__drains=[{**TRENCH, "count": 41}]), [("/rooms/0/drains/0", "nothing-left")]),
    ("columns and drains that together are more", job(room__cutouts=[{**COLUMN, "count": 49}],
                                                      room__drains=[{**TRENCH, "count": 20}]),
     [("/rooms/0", "nothing-left")]),
    ("a joint outside", job(room__joints=[line("1 ft", "11 ft", "9 ft", "11 ft")]),
     [("/rooms/0/joints/0/line", "outside-room")]),
    ("a joint through the wall", job(room__joints=[line("1 ft", "5 ft", "21 ft", "5 ft")]),
     [("/rooms/0/joints/0/line", "outside-room")]),
    ("a joint of no length", job(room__joints=[line("1 ft", "5 ft", "12 in", "60 in")]),
     [("/rooms/0/joints/0/line", "out-of-range")]),
    ("a joint drawn twice",
     job(room__joints=[line("1 ft", "5 ft", "9 ft", "5 ft"), line("7 ft", "5 ft", "12 ft", "5 ft")]),
     [("/rooms/0/joints/1/line", "overlapping")]),
    ("a joint through a column", job(room__cutouts=[placed(COLUMN, "4 ft", "4 ft")],
                                     room__joints=[line("1 ft", "5 ft", "9 ft", "5 ft")]),
     [("/rooms/0/joints/0/line", "overlapping")]),
    # the system's own limits and names
    ("an unknown system", job(system="level_clear"), [("/system", "unknown-name")]),
    ("a floor too thick for the system", job(thickness="1/2 in"), [("/thickness", "out-of-range")]),
    ("a floor too thin for the system", job(thickness="4 mm"), [("/thickness", "out-of-range")]),
    ("a room too thick for the system", job(room__thickness="20 mm"), [("/rooms/0/thickness", "out-of-range")]),
    ("an unknown layer", job(order__optional_layers=["primer", "undercoat"]),
     [("/order/optional_layers/1", "unknown-name")]),
    ("an unknown colour", job(order__colour="Slate"), [("/order/colour", "unknown-name")]),
    ("an unknown sku on hand", job(order__on_hand=[{"sku": "LB-1", "packs": 1}, {"sku": "LB-2", "packs": 1}]),
     [("/order/on_hand/1/sku", "unknown-name")]),
    ("an unknown price book", job(order__price_book="north"), [("/order/price_book", "unknown-name")]),
    ("an unknown traffic", job(work__traffic="lorries"), [("/work/traffic", "unknown-name")]),
    # times
    ("a start that the clocks skip", job(work={"start": "2027-03-14T02:30", "zone": "America/Chicago"}),
     [("/work/start", "no-such-local-time")]),
    ("a deadline that the clocks skip",
     job(work={"start": "2027-03-01T06:00", "reopen_by": "2027-03-28T02:15", "zone": "Europe/Berlin"}),
     [("/work/reopen_by", "no-such-local-time")]),
    ("a reading that the clocks skip",
     job(work={"start": "2027-03-13T06:00", "zone": "America/Chicago",
               "temperatures": readings("2027-03-14T01:00", "2027-03-14T02:00", "2027-03-14T03:00")}),
     [("/work/temperatures/readings/1/at", "no-such-local-time")]),
    ("readings of two kinds of time, doubled",
     job(work={"start": "2027-03-13T06:00", "temperatures": readings("2027-03-14T02:00", "2027-03-14T01:00-01:00")}),
     [("/work/temperatures/readings/1/at", "out-of-order")]),
    ("poured after the start", job(work__start="2027-03-05T06:00", slab__poured="2027-03-06"),
     [("/slab/poured", "too-late")]),
    ("an age that the day of pouring denies",
     job(work__start="2027-03-05T06:00", slab={"age": "28 d", "poured": "2027-01-19"}),
     [("/slab/age", "contradiction")]),
    # several at once, in the order of the document's parts
    ("three rooms, three faults",
     job(rooms=[
         {"shape": {"circle": {"diameter": "3 m"}}, "drains": [placed(DRAIN, "3 m", "0 m")]},
         {"shape": {"rectangle": {"length": "3 m", "width": "3 m"}}, "thickness": "1 mm"},
         {"shape": {"measured": {"area": "5 m2"}}, "cutouts": [{"circle": {"diameter": "9 ft"}}]},
     ]),
     [("/rooms/0/drains/0/at", "outside-room"), ("/rooms/1/thickness", "out-of-range"),
      ("/rooms/2/cutouts/0", "nothing-left")]),
]  # fmt: skip


@pytest.mark.parametrize(("document", "faults"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_a_job_that_cannot_be(
    client: FlaskClient, problem: Read, document: Document_, faults: list[tuple[str, str]]
) -> None:
    body = problem(client.post("/v1/quotes", json=document))
    assert (body["status"], body["code"]) == (422, "refused-job")
    assert [(error["pointer"], error["code"]) for error in body["errors"]] == faults
    assert all(error["hint"] and error["detail"] for error in body["errors"])


ITEM: Any = {"length": "1 m"}
LISTS: list[tuple[str, int, Any]] = [
    ("room__cutouts", 200, COLUMN),
    ("room__drains", 200, DRAIN),
    ("room__joints", 500, ITEM),
    ("room__terminations", 500, ITEM),
    ("room__cracks", 500, {**ITEM, "width": "1 mm", "depth": "1 mm"}),
    ("room__spalls", 500, {"area": "1 cm2", "depth": "1 mm"}),
    ("slab__moisture_emission", 500, "3 lb/1000ft2/24h"),
    ("slab__relative_humidity", 500, {"percent": 80}),
    ("slab__pull_off", 500, "300 psi"),
    ("slab__contaminants", 20, "oil"),
    ("work__shifts", 50, [{**SHIFT, "days": [day]} for day in DAYS]),  # at most eight start on one day
    ("work__closed", 1000, "2027-03-08"),
    ("order__optional_layers", 50, "primer"),
]


@pytest.mark.parametrize(("name", "most", "item"), LISTS, ids=[name for name, _, _ in LISTS])
def test_a_list_may_be_as_long_as_it_says_and_no_longer(
    client: FlaskClient, problem: Read, name: str, most: int, item: Any
) -> None:
    items = list(islice(cycle(item if isinstance(item, list) else [item]), most + 1))
    assert client.post("/v1/readiness", json=job(**{name: items[:most]})).status_code == 200
    body = problem(client.post("/v1/readiness", json=job(**{name: items})))
    pointer = "/" + name.replace("room", "rooms/0").replace("__", "/")
    assert [(error["pointer"], error["code"], error["seen"]) for error in body["errors"]] == [
        (pointer, "list-too-long", most + 1)
    ]


@pytest.mark.parametrize(
    ("pointer", "document"),
    [
        ("/order/on_hand", job(order__on_hand=[{"sku": f"S{i}", "packs": 1} for i in range(501)])),
        ("/order/offers", job(order__offers=[{"sku": f"S{i}"} for i in range(2001)])),
        ("/work/temperatures/readings", job(work__temperatures={"readings": [{}] * 3001})),
        ("/work/shifts/0/days", job(work__shifts=[{**SHIFT, "days": ["mon"] * 8}])),
        ("/rooms/0/joints/0/line", job(room__joints=[{"line": [["1 m", "1 m"]] * 3}])),
        ("/rooms/0/joints/0/line/1", job(room__joints=[{"line": [["1 m", "1 m"], ["1 m", "1 m", "1 m"]]}])),
        ("/rooms/0/drains/0/at", job(room__drains=[placed(DRAIN, "1 m", "1 m") | {"at": ["1 m"] * 3}])),
        (POINTS, job(room__shape={"polygon": {"points": [[0, 0]] * 102, "unit": "m"}})),
    ],
)
def test_a_list_that_is_too_long_is_not_looked_into(
    client: FlaskClient, problem: Read, pointer: str, document: Document_
) -> None:
    body = problem(client.post("/v1/readiness", json=document))
    assert [(error["pointer"], error["code"]) for error in body["errors"]] == [(pointer, "list-too-long")]


# Each field of the document by its kind: the values that its kind never takes, and the code of the refusal.
NEVER: dict[type, list[tuple[Any, str]]] = {
    Flag: [("true", "not-a-flag"), (1, "not-a-flag"), ([], "not-a-flag"), ({}, "not-a-flag")],
    Number: [("5", "not-a-number"), (True, "not-a-number"), ([5], "not-a-number"), ({}, "not-a-number")],
    Whole: [("5", "not-whole"), (True, "not-whole"), (5.5, "not-whole"), ([5], "not-whole"), ({}, "not-whole")],
    Text: [(5, "not-text"), (True, "not-text"), ([], "not-text"), ({}, "not-text"), ("\t", "unseemly-text")],
    Choice: [(5, "unknown-word"), (True, "unknown-word"), ([], "unknown-word"), ("MON", "unknown-word")],
    Money: [(5, "not-money"), (True, "not-money"), ([], "not-money"), ("٥.00", "not-money"), ("5.", "not-money")],
    Measure: [(5, "no-unit"), (True, "not-text"), ([], "not-text"), ({}, "not-text"), ("5 furlongs", "unknown-unit")],
    Object: [(5, "not-an-object"), (True, "not-an-object"), ([], "not-an-object"), ("{}", "not-an-object")],
    Items: [(5, "not-a-list"), (True, "not-a-list"), ({}, "not-a-list"), ("[]", "not-a-list")],
}


def fields(field: Any, *path: str | int) -> Iterator[tuple[tuple[str | int, ...], Any]]:
    """Every field below one, with a path to it; lists are entered at their first item."""
    if isinstance(field, Document):
        for name, inner in field.load_fields.items():
            key = inner.data_key or name
            yield (*path, key), inner
            yield from fields(inner, *path, key)
    elif isinstance(field, Object):
        yield from fields(field.schema, *path)
    elif isinstance(field, Either):
        yield from fields(field.inner, *path)
    elif isinstance(field, OneOrSeveral):
        yield from fields(field.items, *path)
    elif isinstance(field, Items):
        yield (*path, 0), field.inner
        yield from fields(field.inner, *path, 0)


LEAST = {path: field.least for path, field in fields(JOB) if isinstance(field, Items)}


def with_value(path: tuple[str | int, ...], value: Any) -> Any:
    """A document that holds nothing but ``value`` at a path; a list of two or three holds it as often."""
    for length in reversed(range(len(path))):
        value = [value] * max(1, LEAST.get(path[:length], 1)) if path[length] == 0 else {path[length]: value}
    return value


@pytest.mark.parametrize("kind", NEVER, ids=lambda kind: kind.__name__)
def test_no_field_takes_what_its_kind_never_takes(client: FlaskClient, problem: Read, kind: type) -> None:
    found = [path for path, field in fields(JOB) if type(field) is kind]
    assert len(found) > 1
    for path in found:
        for value, code in NEVER[kind]:
            body = problem(client.post("/v1/quotes", json=with_value(path, value)))
            errors = {error["pointer"]: error["code"] for error in body["errors"]}
            assert body["status"] == 422
            assert errors["/" + "/".join(map(str, path))] == code, (path, value)


def test_every_field_of_the_document_is_of_a_kind_that_was_tried() -> None:
    others = {type(field).__name__ for _, field in fields(JOB)} - {kind.__name__ for kind in NEVER}
    assert others == {"Either", "OneOrSeveral", "LengthUnit", "Day", "Clock", "Moment", "Zone"}


def test_no_object_takes_a_field_that_it_does_not_know(client: FlaskClient, problem: Read) -> None:
    objects = [()] + [path for path, field in fields(JOB) if isinstance(field, Object | Either)]
    assert len(objects) > 30
    for path in objects:
        body = problem(client.post("/v1/quotes", json=with_value(path, {"colours/~": None})))
        errors = {error["pointer"]: error["code"] for error in body["errors"]}
        assert errors["/" + "/".join(map(str, (*path, "colours~1~0")))] == "unknown-field", path


def test_an_empty_field_says_nothing_and_a_required_one_says_that_it_is_empty(
    client: FlaskClient, problem: Read
) -> None:
    for path, field in fields(JOB):
        if path[-1] == 0 or not isinstance(field, marshmallow.Field):
            continue
        body = problem(client.post("/v1/quotes", json=with_value(path, None)))
        errors = {error["pointer"]: error["code"] for error in body["errors"]}
        assert errors.get("/" + "/".join(map(str, path))) == ("required" if field.required else None), path
