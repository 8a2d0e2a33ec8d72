"""``/healthz`` and ``/readyz``: whether the process lives, and whether it can answer."""

from __future__ import annotations

from datetime import datetime

from flask import Response

from gaugerake import __version__
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.replies import json_reply
from gaugerake.web.observe.metrics import seconds_since
from gaugerake.web.snapshots import the_snapshot, the_source

resource = Resource("service")

_ALIVE = {
    "type": "object",
    "properties": {"alive": {"type": "boolean", "description": "True: a process that is not alive answers nothing."}},
    "required": ["alive"],
    "additionalProperties": False,
}
_STANDING = {
    "type": "object",
    "properties": {
        "ready": {"type": "boolean", "description": "True: without a catalogue the answer is a problem, 503."},
        "catalogue_revision": {"type": "string", "description": "The SHA-256 of the catalogue that answers."},
        "engine": {"type": "string", "description": "Version of the arithmetic."},
        "loaded_at": {
            "type": ["string", "null"],
            "format": "date-time",
            "description": "When the revision was loaded into the store.",
        },
        "age_seconds": {"type": "number", "description": "How long ago that is; 0 when it is not known."},
        "stale_since": {
            "type": ["string", "null"],
            "format": "date-time",
            "description": "Since when the store could not be asked whether another revision is in use.",
        },
        "stale_seconds": {"type": "number", "description": "How long that is; 0 while the store answers."},
    },
    "required": [
        "ready",
        "catalogue_revision",
        "engine",
        "loaded_at",
        "age_seconds",
        "stale_since",
        "stale_seconds",
    ],
    "additionalProperties": False,
}


@resource.offers(
    id="isAlive",
    path="/healthz",
    summary="Whether the process lives",
    about="Touches nothing: neither the catalogue nor its store.",
    answer=_ALIVE,
)
def is_alive(_asked: Asked) -> Response:
    """It does, if it can say so."""
    return json_reply({"alive": True})


@resource.offers(
    id="isReady",
    path="/readyz",
    summary="Whether jobs can be answered",
    about="Says which revision is served, and whether it may be out of date; 503 while there is none.",
    answer=_STANDING,
    statuses=(503,),
)
def is_ready(_asked: Asked) -> Response:
    """The standing of the catalogue in this process; without one it is a problem, 503."""
    snapshot, since = the_snapshot(), the_source().stale_since
    body = {
        "ready": True,
        "catalogue_revision": snapshot.revision,
        "engine": __version__,
        "loaded_at": _instant(snapshot.loaded_at),
        "age_seconds": seconds_since(snapshot.loaded_at),
        "stale_since": _instant(since),
        "stale_seconds": seconds_since(since),
    }
    return json_reply(body)


def _instant(at: datetime | None) -> str | None:
    return None if at is None else at.isoformat(timespec="seconds")
