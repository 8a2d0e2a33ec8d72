"""``GET /v1/units``: the closed table of units."""

from __future__ import annotations

from functools import cache

import orjson
from flask import Response

from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.answers.systems.units import Units, units
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.replies import named_reply

resource = Resource("units")


@cache
def _table() -> bytes:
    return orjson.dumps(render(units(), US_READER))


@resource.offers(
    id="listUnits",
    path="/v1/units",
    summary="What a measure may be written in",
    about="The closed table of units: names, spellings and codes, by dimension.",
    answer=Units,
    statuses=(304,),
)
def list_units(_asked: Asked) -> Response:
    """The table, the same for everybody."""
    return named_reply(_table(), "application/json")
