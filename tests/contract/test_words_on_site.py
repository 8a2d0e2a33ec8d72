"""Sentences that a tradesman would stop at: what they name, what they advise, and what stands beside them.

Limits and times are the demonstration's own or of the small catalogue here; no expected value is a figure of ours.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import client_of, document

from gaugerake.catalogue.store.demo import demo_snapshot

WAVE = {
    "start": "2027-07-05T07:00",
    "zone": "America/Phoenix",
    "temperatures": {"daily": {"low": "78 degF", "high": "118 degF"}},
}


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return client_of(demo_snapshot())


def ask(client: FlaskClient, path: str, job: dict[str, Any]) -> Any:
    response = client.post(f"/v1/{path}", json=job)
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.get_json()


def told(client: FlaskClient, path: str, job: dict[str, Any], code: str) -> list[str]:
    """The cautions of that code."""
    return [note["text"] for note in ask(client, path, job)["cautions"] if note["code"] == code]


def test_the_limit_of_a_cure_is_that_of_the_body_which_holds_the_sand(client: FlaskClient) -> None:
    """86 °F is the body's highest temperature in the demonstration; sand has none."""
    capped = told(client, "return-times", document(work=WAVE), "cure-capped")
    assert [text.partition(":")[0] for text in capped if "86 °F" in text] == ["Urethane-cement levelling body"]
    assert not [text for text in capped if "sand" in text]
