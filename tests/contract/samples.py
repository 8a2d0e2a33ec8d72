"""Records what the samples of the documentation are answered: ``python -m tests.contract.samples``."""

import json
from pathlib import Path
from typing import Any

import orjson
from flask.testing import FlaskClient
from tests.builders import client_of

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.web.api.operations import JSON
from gaugerake.web.describe.samples.requests import SAMPLES, Request
from gaugerake.web.describe.samples.shown import RECORDED, file_of, media_type_of, operations

SECRET = "the secret of the samples, which signs nothing else"
HEADERS = {"X-Request-Id": "sample", "Accept-Encoding": "identity"}


def client() -> FlaskClient:
    """A service with the demonstration, whose tokens are always the same."""
    return client_of(demo_snapshot(), secrets=lambda: [SECRET])


def answer(asks: FlaskClient, request: Request) -> Any:
    """What a request is answered."""
    path = request.path
    if request.quoted is not None:
        path = path.replace("{token}", asks.post("/v1/quotes", json=request.quoted).get_json()["token"])
    options: dict[str, Any] = {"query_string": dict(request.query), "headers": HEADERS}
    if request.lines:
        lines = b"\n".join(map(orjson.dumps, request.lines))
        return asks.post(path, data=lines, content_type="application/x-ndjson", **options)
    return asks.get(path, **options) if request.body is None else asks.post(path, json=request.body, **options)


def pretty(body: bytes, media_type: str) -> str:
    """A body as it is recorded: JSON with a line for each field, all else as it came."""
    text = body.decode("utf-8")
    return f"{json.dumps(json.loads(text), indent=2, ensure_ascii=False)}\n" if media_type == JSON else text


def recordings() -> dict[Path, str]:
    """What each file holds."""
    asks, found = client(), {}
    for name, sample in SAMPLES.items():
        media_type = media_type_of(operations()[name])
        good, bad = answer(asks, sample.good), answer(asks, sample.bad)
        assert (good.status_code, good.mimetype) == (200, media_type), (name, good.get_data(as_text=True)[:500])
        assert bad.status_code >= 400, name
        found[file_of(name, media_type)] = pretty(good.data, media_type)
        found[file_of(f"{name}.problem", JSON)] = pretty(bad.data, JSON)
    return found


def main() -> None:
    """Record them all, and nothing else."""
    RECORDED.mkdir(exist_ok=True)
    kept = recordings()
    for path in set(RECORDED.iterdir()) - kept.keys():
        path.unlink()
    for path, text in kept.items():
        path.write_text(text, "utf-8")
    print(f"{len(kept)} answers and problems recorded")


if __name__ == "__main__":
    main()
