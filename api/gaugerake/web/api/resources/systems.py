"""``GET /v1/systems`` and ``/v1/systems/{code}``: what can be quoted."""

from __future__ import annotations

from hashlib import sha256
from typing import Any

import orjson
from flask import Response, g

from gaugerake.answers.show.render import render
from gaugerake.answers.systems.answer import OneSystem, SystemNames, Systems, one_system, system_names, systems
from gaugerake.floor.values.note import Say
from gaugerake.web.api.access import book_code
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.parameters import LANG, UNITS, VIEW
from gaugerake.web.api.replies import named_reply
from gaugerake.web.errors.refusal import NotNamed
from gaugerake.web.snapshots import the_snapshot

resource = Resource("systems")


@resource.offers(
    id="listSystems",
    path="/v1/systems",
    summary="What can be quoted",
    about=(
        "Every floor system: layers, products, packs, limits and cure data, at list prices or those of the key. With"
        " `view=names` its code and name alone, as `names`."
    ),
    answer=Systems | SystemNames,
    parameters=(UNITS, LANG, VIEW),
    statuses=(304, 503),
)
def list_systems(asked: Asked) -> Response:
    """All of them, in the order of the catalogue."""
    snapshot = the_snapshot()
    if asked["view"] == "names":
        return _named(system_names(snapshot.catalogue, revision=snapshot.revision))
    return _named(systems(snapshot.catalogue, revision=snapshot.revision, book=snapshot.books[book_code(snapshot)]))


@resource.offers(
    id="showSystem",
    path="/v1/systems/{code}",
    summary="One system",
    about="One floor system of the catalogue, at list prices or those of the key.",
    answer=OneSystem,
    parameters=(UNITS, LANG),
    path_about={"code": "The code of a system, as `GET /v1/systems` lists it."},
    statuses=(304, 404, 503),
)
def show_system(_asked: Asked, code: str) -> Response:
    """The system of that code."""
    snapshot = the_snapshot()
    known = snapshot.catalogue.systems
    if code not in known:
        raise NotNamed(thing=Say(code="thing-system"), name=code[:80], known=", ".join(known))
    return _named(
        one_system(snapshot.catalogue, code, revision=snapshot.revision, book=snapshot.books[book_code(snapshot)])
    )


def _named(answer: Any) -> Response:
    body = orjson.dumps(render(answer, g.reader))
    tag = sha256(g.reader.language.encode() + body).hexdigest()[
        :32
    ]  # of each language, also where the words are the same
    return named_reply(body, "application/json", etag=tag)
