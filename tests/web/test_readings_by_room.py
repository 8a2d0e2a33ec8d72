"""Readings by room in a job document: read, refused, echoed, and what they do to the material."""

from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import document, measured

WASH, PACK = measured("600 sq ft", name="Wash bay"), measured("600 sq ft", name="Packing")
SLAB = {
    "moisture_emission": [
        "4 lb/1000ft2/24h",
        {"emission": "5 lb/1000ft2/24h", "room": "Packing"},
        {"gain": "3.0 g", "hours": 71, "area": "64.06 in2", "room": "Wash bay"},
    ],
    "relative_humidity": [{"percent": 80, "depth": "2 in", "room": "Wash bay"}],
    "pull_off": [{"strength": "300 psi", "room": "Wash bay"}],
    "ph": [{"ph": 9.5, "room": "Wash bay"}, {"ph": 9}],
    "profile_csp": [{"csp": 4, "room": "Wash bay"}, {"csp": 6, "room": "Packing"}, {"csp": 5, "room": "Packing"}],
}


def test_what_was_understood_means_the_same_job(client: FlaskClient) -> None:
    first = client.post("/v1/quotes?echo=true", json=document(WASH, PACK, slab=SLAB)).json
    slab = first["job"]["slab"]
    assert slab["ph"] == SLAB["ph"]
    assert slab["profile_csp"] == SLAB["profile_csp"]
    assert [sorted(one) for one in slab["moisture_emission"]] == [
        ["unit", "value"],
        ["emission", "room"],
        ["area", "gain", "hours", "room"],
    ]
    again = client.post("/v1/quotes", json=first["job"]).json
    assert again["fingerprint"] == first["fingerprint"]


def test_the_roughest_profile_of_a_room_is_filled(client: FlaskClient) -> None:
    """13 mil at CSP 4 and 27 mil at CSP 6, as the demonstration lists."""
    rooms = client.post("/v1/quantities?working=true", json=document(WASH, PACK, slab=SLAB)).json
    assert [room["profile_csp"]["value"] for room in rooms["rooms"]] == [4, 6]
    entry = next(one for one in rooms["working"] if one["figure"] == "/rooms/1/profile_csp")
    assert entry["rule"] == "rule-roughest"
    assert [one["value"]["value"] for one in entry["inputs"]] == [6, 5]


@pytest.mark.parametrize("path", ["readiness", "quantities", "quotes"])
def test_an_unknown_room_is_a_problem_at_its_place(client: FlaskClient, problem: Any, path: str) -> None:
    slab = {"ph": [{"ph": 9, "room": "Wash bay"}, {"ph": 9, "room": "Wash bey"}]}
    (error,) = problem(client.post(f"/v1/{path}", json=document(WASH, PACK, slab=slab)))["errors"]
    assert (error["pointer"], error["code"], error["seen"]) == ("/slab/ph/1/room", "unknown-room", "Wash bey")
    assert "Wash bay, Packing" in error["hint"]


def test_an_unknown_room_of_a_profile_stops_the_material_too(client: FlaskClient, problem: Any) -> None:
    slab = {"profile_csp": [{"csp": 4, "room": "Yard"}]}
    (error,) = problem(client.post("/v1/pour-plan", json=document(WASH, slab=slab)))["errors"]
    assert error["pointer"] == "/slab/profile_csp/0/room"


@pytest.mark.parametrize(
    ("slab", "pointer"),
    [
        ({"ph": []}, "/slab/ph"),
        ({"ph": [9]}, "/slab/ph/0"),
        ({"ph": [{"room": "Packing"}]}, "/slab/ph/0/ph"),
        ({"profile_csp": [{"csp": 4.5}]}, "/slab/profile_csp/0/csp"),
        ({"moisture_emission": [{"emission": "3 psi"}]}, "/slab/moisture_emission/0/emission"),
        ({"moisture_emission": [{"emission": "3 g/m2/24h", "gain": "1 g"}]}, "/slab/moisture_emission/0/gain"),
        ({"relative_humidity": [{"percent": 80, "room": ""}]}, "/slab/relative_humidity/0/room"),
    ],
)
def test_a_reading_that_is_written_wrongly_is_told(client: FlaskClient, problem: Any, slab: Any, pointer: str) -> None:
    found = problem(client.post("/v1/readiness", json=document(PACK, slab=slab)))
    assert [error["pointer"] for error in found["errors"]] == [pointer]
