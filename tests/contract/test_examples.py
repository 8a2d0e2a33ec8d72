"""Every filled job is answered by every calculation, in both units, and each answer is what the description says."""

import json
from pathlib import Path
from typing import Any

import pytest
import requests
from jsonschema import Draft202012Validator

from gaugerake.web.describe.description import description

JOBS = sorted((Path(__file__).parents[2] / "openapi" / "examples").glob("*.json"))
BODIES = {
    path: content["application/json"]
    for path, item in description()["paths"].items()
    if "application/json" in (content := item.get("post", {}).get("requestBody", {}).get("content", {}))
}
CALCULATIONS = [path for path, body in BODIES.items() if body["schema"]["$ref"].endswith(("/Job", "/SlabJob"))]
OTHERS = [(path, name) for path, body in BODIES.items() if path not in CALCULATIONS for name in body["examples"]]


def conforms(path: str, method: str, status: str, body: Any) -> None:
    """Hold a body to the description's schema of the response."""
    content = description()["paths"][path][method]["responses"][status]["content"]
    schema = content["application/json"]["schema"]
    validator = Draft202012Validator({**description(), **schema}, format_checker=Draft202012Validator.FORMAT_CHECKER)
    errors = [f"{error.json_path}: {error.message[:200]}" for error in validator.iter_errors(body)]
    assert errors == []


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
@pytest.mark.parametrize("path", CALCULATIONS)
def test_a_filled_job_is_answered(http: requests.Session, path: str, job: Path) -> None:
    if job.stem == "slab-only" and path != "/v1/readiness":
        return
    if job.stem == "least" and path == "/v1/day-sheets":  # days have dates, and it has no start
        return
    for units in ("us", "si"):
        response = http.post(
            f"{http.base}{path}?units={units}&echo=true&working=true",  # type: ignore[attr-defined]
            json=json.loads(job.read_text("utf-8")),
            timeout=30,
        )
        assert response.status_code == 200, response.text
        conforms(path, "post", "200", response.json())


@pytest.mark.parametrize(("path", "name"), OTHERS)
def test_the_examples_of_what_takes_more_than_a_job_are_answered(http: requests.Session, path: str, name: str) -> None:
    takes = {one["name"] for one in description()["paths"][path]["post"]["parameters"] if "name" in one}
    explained = "&working=true" if "working" in takes else ""
    for units in ("us", "si"):
        response = http.post(
            f"{http.base}{path}?units={units}{explained}",  # type: ignore[attr-defined]
            json=BODIES[path]["examples"][name]["value"],
            timeout=30,
        )
        assert response.status_code == 200, response.text
        conforms(path, "post", "200", response.json())


def test_an_example_of_the_pour_plan_has_the_marks_of_a_drawn_room_and_of_a_measured_one(
    http: requests.Session,
) -> None:
    """The last mark of each is its length: 42 ft as drawn, and the run of 30 ft."""
    job = BODIES["/v1/pour-plan"]["examples"]["marks"]["value"]
    answer = http.post(f"{http.base}/v1/pour-plan", json=job, timeout=30).json()  # type: ignore[attr-defined]
    conforms("/v1/pour-plan", "post", "200", answer)
    ends = {pour["room"]: pour["marks"][-1]["likely"] for pour in answer["pours"]}
    assert ends == {"Packing hall": {"value": 42.0, "unit": "ft"}, "Corridor": {"value": 30.0, "unit": "ft"}}


@pytest.mark.parametrize("path", ["/v1/systems", "/v1/units", "/healthz", "/readyz"])
def test_what_can_be_read_is_what_the_description_says(http: requests.Session, path: str) -> None:
    response = http.get(f"{http.base}{path}", timeout=30)  # type: ignore[attr-defined]
    assert response.status_code == 200
    conforms(path, "get", "200", response.json())


def test_each_system_is_what_the_description_says(http: requests.Session) -> None:
    listed = http.get(f"{http.base}/v1/systems", timeout=30).json()["systems"]  # type: ignore[attr-defined]
    for system in listed:
        body = http.get(f"{http.base}/v1/systems/{system['code']}", timeout=30).json()  # type: ignore[attr-defined]
        conforms("/v1/systems/{code}", "get", "200", body)
