"""Sentences that strangers stumbled over, as they read now."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import document, measured

from gaugerake.web.errors.refusal import MOST_BYTES

Problem = Callable[[Any], dict[str, Any]]
JOB = document(measured("900 ft2"))


@pytest.mark.parametrize(
    ("lang", "said"),
    [
        # in saturated air the dew point is the air's own temperature: 70 - 60 = 10
        (
            "en",
            (
                "The floor, at 60 °F, is 10 °F colder than the dew point of 70 °F: water condenses on it."
                " It must be at least 6 °F warmer than the dew point."
            ),
        ),
        (
            "es",
            (
                "El piso, a 60 °F, está 10 °F más frío que el punto de rocío de 70 °F: el agua se condensa en él."
                " Debe estar al menos 6 °F más caliente que el punto de rocío."
            ),
        ),
    ],
)
def test_a_floor_under_the_dew_point_is_colder_than_it(client: FlaskClient, lang: str, said: str) -> None:
    wet = {"slab": {"temperature": "60 degF"}, "air": {"temperature": "70 degF", "humidity_percent": 100}}
    checks = client.post(f"/v1/readiness?lang={lang}", json=JOB | wet).get_json()["checks"]
    [spread] = [check for check in checks if check["check"] == "dew-point-spread"]
    assert (spread["because"], spread["verdict"]) == (said, "fix")


@pytest.mark.parametrize(
    ("method", "path", "said"),
    [
        ("PUT", "/v1/quotes", "This address does not take PUT. It takes POST, QUERY."),
        ("POST", "/v1/units", "This address does not take POST. It takes GET, HEAD."),
    ],
)
def test_a_method_that_is_not_taken_is_named_with_those_that_are(
    client: FlaskClient, problem: Problem, method: str, path: str, said: str
) -> None:
    assert problem(client.open(path, method=method))["detail"] == said


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (b'{"system" 1}', "This line is not JSON: column 11: Expecting ':' delimiter."),
        (b'"' + b"x" * MOST_BYTES + b'"', f"This line has more than {MOST_BYTES} bytes."),
        (b"\xff", "This line is not UTF-8, or begins with a byte order mark."),
        (b"[" * 17 + b"]" * 17, "This line nests deeper than 16 levels."),
        (b'{"system": NaN}', "NaN is not a number that can be read here."),
    ],
)
def test_what_is_wrong_with_a_line_of_a_batch_is_said_of_the_line(client: FlaskClient, line: bytes, said: str) -> None:
    response = client.post("/v1/batches", data=line + b"\n", content_type="application/x-ndjson")
    assert json.loads(response.data)["detail"] == said


def test_a_list_without_anything_is_empty(client: FlaskClient, problem: Problem) -> None:
    body = problem(client.post("/v1/quotes", json=JOB | {"rooms": []}))
    assert (body["title"], body["detail"]) == ("Something in the request must be corrected", "The list is empty.")
    assert (body["errors"][0]["code"], body["errors"][0]["hint"]) == ("list-too-short", "Give at least 1.")
