"""``/healthz`` and ``/readyz``: whether the process lives, and whether it can answer."""

from __future__ import annotations

from flask import Response

from gaugerake import __version__
from gaugerake.web.operations import Asked, Resource
from gaugerake.web.replies import json_reply
from gaugerake.web.shelf import the_shelf

resource = Resource("service")

_ALIVE = {
    "type": "object",
    "properties": {"alive": {"type": "boolean"}},
    "required": ["alive"],
    "additionalProperties": False,
}
_STANDING = {
    "type": "object",
    "properties": {
        "ready": {"type": "boolean"},
        "catalogue_revision": {"type": ["string", "null"]},
        "engine": {"type": "string"},
        "stale": {"type": "boolean", "description": "Whether the store could not be asked in good time."},
        "age_seconds": {"type": ["number", "null"], "description": "Since the store last confirmed the revision."},
    },
    "required": ["ready", "catalogue_revision", "engine", "stale", "age_seconds"],
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
    about="Says which revision is served, and whether it may be out of date. 503 while there is none.",
    answer=_STANDING,
    statuses=(503,),
)
def is_ready(_asked: Asked) -> Response:
    """The standing of the catalogue in this process."""
    shelf = the_shelf()
    snapshot = shelf.current()
    age = shelf.age_s()
    body = {
        "ready": snapshot is not None,
        "catalogue_revision": None if snapshot is None else snapshot.revision,
        "engine": __version__,
        "stale": shelf.is_stale(),
        "age_seconds": None if age is None else round(age, 1),
    }
    return json_reply(body, status=200 if snapshot is not None else 503)
