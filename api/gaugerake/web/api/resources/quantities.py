"""``POST /v1/quantities``: what to load on the truck."""

from __future__ import annotations

from flask import Response

from gaugerake.answers.quantities.answer import Quantities
from gaugerake.answers.quote.parts import quantities_alone
from gaugerake.web.api.calculation import calculate
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.parameters import CALCULATION
from gaugerake.web.json_in.schemas.job import JOB

resource = Resource("quantities")


@resource.offers(
    id="countPacks",
    method="POST",
    path="/v1/quantities",
    summary="What to load on the truck",
    about="Measures the rooms, works out what each layer needs, and chooses whole packs and their price.",
    takes=JOB,
    answer=Quantities,
    parameters=CALCULATION,
)
def count_packs(asked: Asked) -> Response:
    """The order."""
    return calculate(quantities_alone, JOB, asked)
