"""The parts of a quote that are asked for: each as the whole has it, and nothing beside."""

from itertools import combinations
from json import dumps, loads
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import example

from gaugerake.answers.quote import asked as quotes

from .conftest import Quote, Show

PARTS = ("readiness", "quantities", "order", "pour_plan", "return_times")
ALWAYS = {
    *("reference", "fingerprint", "token", "valid_until"),
    *("catalogue_revision", "engine", "catalogue", "assumptions", "cautions", "missing"),
}
ORDER = ("order_lines", "shortage_any", "totals", "orderable", "blockers")
"""The five of an order."""
COMBINED = [",".join(names) for count in (1, 2, 5) for names in combinations(PARTS, count)]
JOBS = {"counter": None, "full": example("full"), "least": example("least")}


@pytest.fixture(params=JOBS)
def posted(request: pytest.FixtureRequest, job: dict[str, Any]) -> dict[str, Any]:
    return JOBS[request.param] or job


def expected(whole: dict[str, Any], parts: str) -> dict[str, Any]:
    """What the whole has of the parts."""
    body = {**whole, "order": {name: whole["quantities"][name] for name in ORDER}}
    return {name: body[name] for name in parts.split(",")}


@pytest.mark.parametrize("parts", COMBINED)
def test_the_parts_asked_for_are_those_of_the_whole(quote: Quote, posted: dict[str, Any], parts: str) -> None:
    whole, found = quote(posted), quote(posted, parts=parts)
    assert {name: found[name] for name in found.keys() - ALWAYS} == expected(whole, parts)
    for name in ("reference", "fingerprint", "token", "valid_until", "catalogue_revision"):
        assert found[name] == whole[name]
    for name in ("assumptions", "cautions"):
        assert all(note in whole[name] for note in found[name])
    # each place is told once, with the first reason to ask for it
    lacking = {note["pointer"] for note in whole["missing"]}
    assert {note["pointer"] for note in found["missing"]} <= lacking


def test_the_parts_together_say_all_that_is_said(quote: Quote, posted: dict[str, Any]) -> None:
    """Each part says alone what it says beside others."""
    whole, alone = quote(posted), [quote(posted, parts=part) for part in PARTS]
    for name in ("assumptions", "cautions"):
        told = {note["code"] for one in alone for note in one[name]}
        assert {note["code"] for note in whole[name]} == told


def test_without_parts_there_is_no_order_beside_the_quantities(quote: Quote, job: dict[str, Any]) -> None:
    assert quote(job).keys() - ALWAYS == {"readiness", "quantities", "pour_plan", "return_times"}


def test_what_is_not_asked_for_is_not_computed(
    quote: Quote, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    def never(*_args: Any, **_kwargs: Any) -> None:
        raise AssertionError("nobody asked for it")

    for name in ("pour_plan", "return_times", "make_timetable", "quantities"):
        monkeypatch.setattr(quotes, name, never)
    assert quote(job, parts="order")["order"]["orderable"]
    monkeypatch.setattr(quotes, "order_alone", never)
    monkeypatch.setattr(quotes, "measure_job", never)
    assert quote(job, parts="readiness")["readiness"]["checks"]


def test_an_order_says_what_quantities_say_and_nothing_of_the_clock(
    client: FlaskClient, quote: Quote, job: dict[str, Any]
) -> None:
    found, quantities = quote(job, parts="order"), client.post("/v1/quantities", json=job).get_json()
    for name in ("assumptions", "cautions", "missing"):
        assert found[name] == quantities[name]
    assert len(found["cautions"]) < len(quote(job)["cautions"])


@pytest.mark.parametrize("parts", COMBINED)
def test_the_working_is_that_of_the_parts(quote: Quote, job: dict[str, Any], parts: str) -> None:
    whole = {one["figure"]: one for one in quote(job, working="true")["working"]}
    found = {one["figure"]: one for one in quote(job, working="true", parts=parts)["working"]}
    names = tuple(parts.split(","))
    ordered = [f"/quantities/{name}" for name in ORDER]
    assert {figure for figure in found if not figure.startswith("/order/")} == {
        figure for figure in whole if figure.split("/")[1] in names
    }
    assert {figure.replace("/order/", "/quantities/", 1) for figure in found if figure.startswith("/order/")} == {
        figure for figure in whole if "order" in names and figure.startswith(tuple(ordered))
    }


def test_the_token_opens_the_whole(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    assert show(quote(job, parts="order")["token"], "application/json").get_json() == quote(job)


def test_a_fault_of_another_part_is_refused_as_the_token_opens_the_whole(
    client: FlaskClient, job: dict[str, Any]
) -> None:
    job["order"]["colour"] = "mauve"
    response = client.post("/v1/quotes?parts=readiness", json=job)
    assert (response.status_code, response.get_json()["errors"][0]["pointer"]) == (422, "/order/colour")


@pytest.mark.parametrize(
    ("parts", "code", "seen"),
    [
        ("orders", "unknown-word", "orders"),
        ("", "unknown-word", ""),
        ("order,", "unknown-word", ""),
        ("order, readiness", "unknown-word", " readiness"),
        ("order,order", "word-twice", "order"),
        ("order," * 2000, "word-twice", "order"),
    ],
)
def test_parts_that_are_none_are_refused(
    client: FlaskClient, job: dict[str, Any], parts: str, code: str, seen: str
) -> None:
    response = client.post("/v1/quotes", json=job, query_string={"parts": parts})
    (error,) = response.get_json()["errors"]
    assert (response.status_code, error["parameter"], error["code"], error["seen"]) == (422, "parts", code, seen)
    assert error["hint"]


def test_parts_may_be_named_one_by_one(client: FlaskClient, quote: Quote, job: dict[str, Any]) -> None:
    response = client.post("/v1/quotes?parts=order&parts=readiness", json=job)
    assert response.get_json() == quote(job, parts="order,readiness")


def test_a_batch_answers_the_parts_of_each_job(client: FlaskClient, quote: Quote, job: dict[str, Any]) -> None:
    lines = "".join(f"{dumps(one)}\n" for one in (job, example("least")))
    response = client.post("/v1/batches?parts=order", data=lines, content_type="application/x-ndjson")
    assert [loads(line) for line in response.text.splitlines()] == [
        quote(job, parts="order"),
        quote(example("least"), parts="order"),
    ]


def test_systems_by_name_are_those_of_the_whole(client: FlaskClient) -> None:
    whole = client.get("/v1/systems").get_json()
    found = client.get("/v1/systems?view=names").get_json()
    assert found["names"] == [{"code": one["code"], "name": one["name"]} for one in whole["systems"]]
    assert found.keys() == {"catalogue_revision", "engine", "catalogue", "names"}
    assert client.get("/v1/systems?view=whole").get_json() == whole
