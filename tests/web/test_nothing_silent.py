"""What was answered without a word although it can hardly be meant."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import document, measured

Problem = Callable[[Any], dict[str, Any]]
NDJSON = "application/x-ndjson"


def test_a_batch_without_a_body_is_refused(client: FlaskClient, problem: Problem) -> None:
    body = problem(client.post("/v1/batches", environ_overrides={"CONTENT_LENGTH": "0"}, content_type=NDJSON))
    assert (body["status"], body["code"]) == (400, "empty-body")


def test_a_batch_of_blank_lines_says_at_its_end_that_it_holds_no_job(client: FlaskClient) -> None:
    response = client.post("/v1/batches", data=b"\n \n\r\n", content_type=NDJSON)
    [told] = map(json.loads, response.data.splitlines())
    assert (told["code"], told["detail"], "line" in told) == ("empty-body", "The batch holds no job.", False)


@pytest.mark.parametrize("endpoint", ["quantities", "readiness", "quotes"])
@pytest.mark.parametrize(
    ("side", "status"),
    [
        (1e-6, 422),  # half a square of 1e-6 ft: 5e-13 sq ft
        (0.46, 422),  # 0.46² / 2 = 0.1058 sq ft, and 0.01 m² are 0.10764
        (0.47, 200),  # 0.47² / 2 = 0.11045
    ],
)
def test_a_polygon_has_at_least_the_area_of_a_measured_room(
    client: FlaskClient, problem: Problem, endpoint: str, side: float, status: int
) -> None:
    room = {"shape": {"polygon": {"points": [[0, 0], [side, 0], [0, side]], "unit": "ft"}}}
    response = client.post(f"/v1/{endpoint}", json=document(room))
    assert response.status_code == status
    if status == 422:
        [error] = problem(response)["errors"]
        assert (error["pointer"], error["code"]) == ("/rooms/0/shape/polygon/points", "out-of-range")
        assert error["hint"] == "Give 0.1076 sq ft at least."


SLABS: dict[str, dict[str, Any]] = {
    "/slab/ph/1/room": {"ph": [{"ph": 9, "room": "Yard"}, {"ph": 9, "room": "Bay"}]},
    "/slab/relative_humidity/0/room": {"relative_humidity": [{"percent": 70, "room": "Bay"}]},
    "/slab/profile_csp/0/room": {"profile_csp": [{"csp": 4, "room": "Bay"}]},
}


@pytest.mark.parametrize("endpoint", ["readiness", "quotes"])
@pytest.mark.parametrize("pointer", SLABS)
def test_a_reading_of_a_name_that_several_rooms_have_says_so(client: FlaskClient, endpoint: str, pointer: str) -> None:
    rooms = [measured("900 ft2", name=name) for name in ("Bay", "Yard", "Bay")]
    answer = client.post(f"/v1/{endpoint}", json=document(*rooms) | {"slab": SLABS[pointer]}).get_json()
    told = [(one["pointer"], one["text"]) for one in answer["cautions"] if one["code"] == "reading-of-several-rooms"]
    said = (
        "2 rooms are called “Bay”. This reading counts for each of them: give the rooms names of their own where it was"
        " taken in one alone."
    )
    assert told == [(pointer, said)]


def test_quantities_say_it_of_the_profile_alone_as_they_read_no_other(client: FlaskClient) -> None:
    rooms = [measured("900 ft2", name="Bay")] * 2
    slab = SLABS["/slab/profile_csp/0/room"] | {"ph": [{"ph": 9, "room": "Bay"}]}
    answer = client.post("/v1/quantities", json=document(*rooms) | {"slab": slab}).get_json()
    told = [one["pointer"] for one in answer["cautions"] if one["code"] == "reading-of-several-rooms"]
    assert told == ["/slab/profile_csp/0/room"]
