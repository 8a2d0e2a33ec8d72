"""What those who run the service see: metrics with few labels, readiness with ages, logs without clients' words."""

import json
import logging
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from gaugerake.catalogue.errors import Unavailable
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.web.observe.traces import JsonLines
from gaugerake.web.server.app import create_app

Read = Callable[[Any], dict[str, Any]]
SECRET = "marble-hall-4711"


class Broken:
    """A source that touches nothing, as there is nothing."""

    stale_since: datetime | None = None

    @property
    def current(self) -> Any:
        raise Unavailable("away")


@pytest.fixture
def fresh(app: Flask) -> FlaskClient:
    """A client of an app that has answered nothing yet."""
    return create_app(app.extensions["gaugerake.snapshots"]).test_client()


def counts(client: FlaskClient) -> dict[tuple[str, ...], float]:
    """The requests by route, method and class of status."""
    pattern = re.compile(r'gaugerake_requests_total{method="(.*)",route="(.*)",status="(.*)"} (.*)')
    found = (pattern.match(line) for line in client.get("/metrics").text.splitlines())
    return {(line[1], line[2], line[3]): float(line[4]) for line in found if line}


def test_requests_are_counted_by_route_and_not_by_address(fresh: FlaskClient) -> None:
    for code in ("a", "b", SECRET):
        fresh.get(f"/v1/systems/{code}")
        fresh.get(f"/{code}")
        fresh.open("/v1/units", method=code.upper())
    fresh.post("/v1/quotes", data=b"{", content_type="application/json")
    assert counts(fresh) == {
        ("GET", "/v1/systems/<code>", "4xx"): 3,
        ("GET", "none", "4xx"): 3,
        ("other", "none", "4xx"): 3,
        ("POST", "/v1/quotes", "4xx"): 1,
    }
    assert SECRET not in fresh.get("/metrics").text


def test_every_request_is_timed_once(fresh: FlaskClient) -> None:
    for _ in range(5):
        fresh.get("/v1/units")
    text = fresh.get("/metrics").text
    assert 'gaugerake_request_seconds_count{route="/v1/units"} 5.0' in text
    assert 'gaugerake_request_seconds_bucket{le="+Inf",route="/v1/units"} 5.0' in text


def test_the_figures_are_prometheus_text(fresh: FlaskClient) -> None:
    response = fresh.get("/metrics")
    assert response.content_type == "text/plain; version=0.0.4; charset=utf-8"
    for name in ("requests_total", "request_seconds", "version", "catalogue_workers", "catalogue_age_seconds"):
        assert f"# TYPE gaugerake_{name}" in response.text


def test_the_catalogue_in_use_and_its_ages_are_told(app: Flask) -> None:
    class Aged:
        current = replace(demo_snapshot(), loaded_at=datetime.now(UTC) - timedelta(days=2))
        stale_since = datetime.now(UTC) - timedelta(seconds=90)

    client = create_app(Aged()).test_client()  # type: ignore[arg-type]
    text, standing = client.get("/metrics").text, client.get("/readyz").get_json()
    assert f'gaugerake_catalogue_workers{{revision="{Aged.current.revision[:12]}"}} 1.0' in text
    told = {
        line.split()[0]: float(line.split()[1]) for line in text.splitlines() if "catalogue" in line and line[0] != "#"
    }
    assert 172_800 <= told["gaugerake_catalogue_age_seconds"] < 172_900
    assert 90 <= told["gaugerake_catalogue_stale_seconds"] < 190
    assert standing["catalogue_revision"] == Aged.current.revision
    assert 172_800 <= standing["age_seconds"] < 172_900
    assert 90 <= standing["stale_seconds"] < 190
    assert standing["stale_since"] == Aged.stale_since.isoformat(timespec="seconds")


def test_liveness_touches_nothing_and_readiness_tells(problem: Read) -> None:
    client = create_app(Broken()).test_client()  # type: ignore[arg-type]
    assert client.get("/healthz").get_json() == {"alive": True}
    response = client.get("/readyz")
    assert (response.status_code, problem(response)["code"]) == (503, "unavailable")
    assert response.headers["Retry-After"] == "5"
    assert client.get("/metrics").status_code == 200


def test_an_error_of_ours_is_logged_by_its_places_and_told_to_nobody(
    app: Flask, problem: Read, caplog: pytest.LogCaptureFixture
) -> None:
    broken = create_app(app.extensions["gaugerake.snapshots"])

    def fail() -> Any:
        try:
            raise KeyError(SECRET)
        except KeyError as error:
            raise RuntimeError(f"{SECRET} was sent") from error

    broken.add_url_rule("/fail", "fail", fail)
    with caplog.at_level(logging.ERROR):
        response = broken.test_client().get("/fail", headers={"X-Request-Id": "asked-1"})
    told = problem(response)
    assert (told["code"], told["request_id"], response.status_code) == ("internal-error", "asked-1", 500)
    assert not {SECRET, "RuntimeError", "Traceback", "test_sight"} & set(re.findall(r"[\w-]+", response.text))
    (record,) = [record for record in caplog.records if record.exc_info]
    line = json.loads(JsonLines().format(record))
    assert SECRET not in str(line)
    places = [place for place in line["exception"] if place.endswith(" fail")]
    assert (len(places), {"RuntimeError", "KeyError"} <= set(line["exception"])) == (2, True)


def test_an_error_that_leads_to_itself_ends() -> None:
    error = ValueError()
    error.__cause__ = RuntimeError()
    error.__cause__.__cause__ = error
    record = logging.LogRecord("x", logging.ERROR, "", 0, "said", None, (ValueError, error, None))
    assert json.loads(JsonLines().format(record))["exception"] == ["ValueError", "RuntimeError"]
