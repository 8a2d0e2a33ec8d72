"""``POST /v1/quotes``: all of it, under one number."""

from __future__ import annotations

from flask import Response

from gaugerake.answers.quote import Quote
from gaugerake.web.calculation import calculate
from gaugerake.web.operations import Asked, Resource
from gaugerake.web.parameters import CALCULATION
from gaugerake.web.schemas.job import JOB
from gaugerake.web.tokens import quote_with_token

resource = Resource("quotes")


@resource.offers(
    id="makeQuote",
    method="POST",
    path="/v1/quotes",
    summary="A whole quote",
    about="Slab verdict, order, pour plan and return times of one job, from one catalogue revision and price book.",
    takes=JOB,
    answer=Quote,
    parameters=CALCULATION,
)
def make_quote(asked: Asked) -> Response:
    """The quote."""
    return calculate(quote_with_token, JOB, asked)
