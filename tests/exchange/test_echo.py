"""A token gives the job back as well, so that a quote on a phone can be gone on from."""

from typing import Any

import pytest
from flask.testing import FlaskClient


@pytest.mark.parametrize("units", ["us", "si"])
def test_with_echo_the_token_gives_the_job_that_the_quote_gave(
    client: FlaskClient, job: dict[str, Any], units: str
) -> None:
    first = client.post(f"/v1/quotes?units={units}&echo=true", json=job)
    again = client.get(f"/v1/quotes/{first.json['token']}?echo=true")  # type: ignore[index]
    assert again.data == first.data


def test_with_and_without_are_two_answers(client: FlaskClient, job: dict[str, Any]) -> None:
    address = f"/v1/quotes/{client.post('/v1/quotes', json=job).json['token']}"  # type: ignore[index]
    bare = client.get(address)
    tag = {"If-None-Match": bare.headers["ETag"]}
    assert "job" not in bare.json  # type: ignore[operator]
    assert client.get(address, headers=tag).status_code == 304
    assert client.get(f"{address}?echo=true", headers=tag).status_code == 200
