"""A hint that is followed is not followed by a second refusal: its examples and its limits are the field's own."""

from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import document, measured

from gaugerake.answers.show.words import templates
from gaugerake.answers.show.words.figures import bound_text
from gaugerake.floor.values.figure import Bound
from gaugerake.measure.choice import choice
from gaugerake.measure.grammar import read
from gaugerake.web.json_in.document import Document, Either, Items, Object, OneOrSeveral
from gaugerake.web.json_in.fields import Strict
from gaugerake.web.json_in.fields_measure import Measure
from gaugerake.web.json_in.schemas.job import JOB

Problem = Callable[[Any], dict[str, Any]]


def measures(field: Strict | Document, name: str = "") -> dict[str, Measure]:
    """Every measure of a document, by its path."""
    if isinstance(field, Measure):
        return {name: field}
    if isinstance(field, Document):
        inner: list[tuple[str, Any]] = [(f"{name}/{key}", one) for key, one in field.load_fields.items()]
    elif isinstance(field, Object):
        inner = [(name, field.schema)]
    elif isinstance(field, Either):
        inner = [
            (name, field.measure),
            (name, field.inner),
            *((f"{name}/{key}", one) for key, one in field.keyed.items()),
        ]
    elif isinstance(field, Items):
        inner = [(name, field.inner)]
    elif isinstance(field, OneOrSeveral):
        inner = [(name, field.items)]
    else:
        inner = []
    return {at: one for key, below in inner for at, one in measures(below, key).items()}


MEASURES = measures(JOB)


def test_all_measures_of_a_job_are_found() -> None:
    assert len(MEASURES) > 40
    assert {"/thickness", "/slab/moisture_emission/gain", "/rooms/cracks/width"} <= set(MEASURES)


@pytest.mark.parametrize("name", MEASURES)
def test_each_example_of_a_field_is_taken_by_it(name: str) -> None:
    field = MEASURES[name]
    assert field.examples
    assert all(field.low <= read(one, field.dimension) <= field.high for one in field.examples)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", MEASURES)
def test_the_ends_that_a_hint_names_are_taken(name: str, units: str) -> None:

    field = MEASURES[name]
    for end, low in ((field.low, True), (field.high, False)):
        said = bound_text(Bound(end, field.kind, low=low), choice("si" if units == "si" else "us"), templates())
        assert field.low * (1 - 1e-9) <= read(said, field.dimension) <= field.high * (1 + 1e-9), said


@pytest.mark.parametrize(
    ("pointer", "value", "hint"),
    [
        # the demonstration's level-clear is placed at 3/16 to 5/16 in
        ("/thickness", "3 ft", "Write a measure from 3/16 in to 5/16 in."),
        ("/rooms/0/thickness", "9 in", "Write a measure from 3/16 in to 5/16 in."),
        ("/thickness", 5, "Write a number and a unit of length, such as 1/4 in or 6 mm."),
        ("/slab", {"thickness": 5}, "Write a number and a unit of length, such as 4 in or 100 mm."),
        ("/slab", {"age": "300 yr"}, "Write a measure from 0 days to 200 years."),
        # 0.5 mm is 0.0197 in, 1 m is 39.37 in
        (
            "/rooms/0/cracks",
            [{"length": "3 m", "width": "2 m", "depth": "5 mm"}],
            "Write a measure from 0.02 in to 39 in.",
        ),
    ],
)
def test_a_hint_says_what_this_field_of_this_system_takes(
    client: FlaskClient, problem: Problem, pointer: str, value: Any, hint: str
) -> None:
    job = document(measured("900 ft2", thickness=value if "rooms/0/th" in pointer else None))
    if pointer in ("/thickness", "/slab"):
        job[pointer[1:]] = value
    if pointer == "/rooms/0/cracks":
        job["rooms"][0]["cracks"] = value
    [error] = problem(client.post("/v1/quantities", json=job))["errors"]
    assert error["hint"] == hint


def test_an_unknown_system_leaves_the_limits_of_any_floor(client: FlaskClient, problem: Problem) -> None:
    """0.05 mm is 0.00197 in and 150 mm 5.906 in: two digits, rounded into the range."""
    job = document(measured("900 ft2")) | {"system": "nothing", "thickness": "3 ft"}
    [error] = problem(client.post("/v1/quantities", json=job))["errors"]
    assert (error["detail"], error["hint"]) == (
        "The measure is outside 0.002 in to 5.9 in.",
        "Write a measure from 0.002 in to 5.9 in.",
    )


@pytest.mark.parametrize(
    ("slab", "pointer", "fields"),
    [({"ph": ["9"]}, "/slab/ph/0", "ph, room"), ({"profile_csp": [3.5]}, "/slab/profile_csp/0", "csp, room")],
)
def test_a_list_of_figures_is_told_both_ways_of_writing(
    client: FlaskClient, problem: Problem, slab: dict[str, Any], pointer: str, fields: str
) -> None:
    job = document(measured("900 ft2")) | {"slab": slab}
    [error] = problem(client.post("/v1/readiness", json=job))["errors"]
    assert (error["pointer"], error["code"]) == (pointer, "not-an-object")
    assert error["detail"] == "One plain figure, or a list of objects, is read here."
    assert error["hint"] == f"Write one figure without brackets, or a list of objects with these fields: {fields}."
