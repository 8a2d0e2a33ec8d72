"""Readings of the air in a job: what they say at the start, and of the work ahead."""

from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import document

READINGS = [
    {"at": "2027-03-12T04:00", "temperature": "18 degC", "humidity_percent": 60},
    {"at": "2027-03-12T08:00", "temperature": "22 degC", "humidity_percent": 70},
    {"at": "2027-03-13T08:00", "temperature": "22 degC", "humidity_percent": 95},
]
WORK = {"start": "2027-03-12T06:00", "zone": "America/Chicago", "temperatures": {"steady": "20 degC"}}
READING = {"at": "2027-03-12T06:00", "temperature": "20 degC", "humidity_percent": 50}


def asked(client: FlaskClient, air: Any, work: Any = WORK, path: str = "readiness") -> Any:
    return client.post(f"/v1/{path}?units=si&working=true", json=document(air=air, work=work)).json


def test_the_air_is_read_at_the_start_between_two_readings(client: FlaskClient) -> None:
    """06:00 is half-way: 20 °C and 65 %, whose dew point is 13.227 °C (psychrolib, CoolProp)."""
    found = asked(client, {"readings": READINGS})
    assert found["air"]["dew_point"]["value"] == pytest.approx(13.227, abs=2e-3)
    assert found["air"]["spread"]["value"] == pytest.approx(6.773, abs=2e-3)
    checks = {check["check"]: check for check in found["checks"]}
    assert checks["air-temperature"]["measured"] == {"value": 20, "unit": "degC"}
    assert checks["air-humidity"]["measured"] == {"value": 65, "unit": "%"}
    assert checks["air-humidity"]["pointer"] == "/air/readings"


def test_the_spread_is_followed_along_the_air(client: FlaskClient) -> None:
    """The floor holds 20 °C: it is under 6 °F over the dew point once that passes 16.667 °C, at 22 °C and some 72 %.

    At 22 °C and 95 % the dew point is 21.162 °C (psychrolib 2.5.0, CoolProp).
    """
    (span,) = asked(client, {"readings": READINGS}, path="quotes")["readiness"]["condensation"]
    assert "2027-03-12T09:00" < span["from"] < "2027-03-12T11:00"
    assert span["least_spread"]["value"] == pytest.approx(20 - 21.162, abs=2e-3)
    still = asked(client, {"temperature": "20 degC", "humidity_percent": 65}, path="quotes")
    assert still["readiness"]["condensation"] == []


def test_an_hour_said_twice_means_the_first_and_is_told(client: FlaskClient) -> None:
    work = {**WORK, "start": "2027-11-07T00:30"}
    readings = [{**READING, "at": "2027-11-07T01:30"}]
    found = asked(client, {"readings": readings}, work)
    assert "/air/readings/0/at" in {note.get("pointer") for note in found["assumptions"]}


def test_without_a_start_nothing_is_known_of_the_air(client: FlaskClient) -> None:
    found = asked(client, {"readings": READINGS}, {"temperatures": {"steady": "20 degC"}})
    assert found["air"]["dew_point"] is None
    assert "air-needs-start" in {note["code"] for note in found["missing"]}
    assert {check["check"]: check["verdict"] for check in found["checks"]}["air-humidity"] == "untested"


def test_a_floor_that_nobody_measured_is_taken_as_the_air_of_the_start(client: FlaskClient) -> None:
    found = asked(client, {"readings": READINGS}, {"start": WORK["start"], "zone": WORK["zone"]})
    assert found["air"]["floor_temperature"] == {"value": 20, "unit": "degC"}


@pytest.mark.parametrize(
    ("air", "pointer", "code"),
    [
        ({"readings": [READING], "temperature": "20 degC"}, "/air/temperature", "air-said-twice"),
        ({"readings": [READING], "humidity_percent": 50}, "/air/humidity_percent", "air-said-twice"),
        ({"readings": []}, "/air/readings", "list-too-short"),
        ({"readings": [READING, READING]}, "/air/readings/1/at", "reading-out-of-order"),
        ({"readings": [{**READING, "at": "2027-03-14T02:30"}]}, "/air/readings/0/at", "no-such-local-time"),
        (
            {"readings": [{"at": READING["at"], "temperature": "20 degC"}]},
            "/air/readings/0/humidity_percent",
            "required",
        ),
        ({"readings": [{**READING, "humidity_percent": 0}]}, "/air/readings/0/humidity_percent", "number-out-of-range"),
    ],
)
@pytest.mark.parametrize("path", ["readiness", "quotes"])
def test_readings_that_cannot_be_are_told(
    client: FlaskClient, problem: Any, air: Any, pointer: str, code: str, path: str
) -> None:
    found = problem(client.post(f"/v1/{path}", json=document(air=air, work=WORK)))
    assert [(error["pointer"], error["code"]) for error in found["errors"]] == [(pointer, code)]


def test_what_was_understood_means_the_same_job(client: FlaskClient) -> None:
    first = client.post("/v1/quotes?echo=true", json=document(air={"readings": READINGS}, work=WORK)).json
    again = client.post("/v1/quotes", json=first["job"]).json
    assert again["fingerprint"] == first["fingerprint"]
