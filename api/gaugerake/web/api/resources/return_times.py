"""``POST /v1/return-times``: when may traffic return."""

from __future__ import annotations

from flask import Response

from gaugerake.answers.quote.parts import return_times_alone
from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.web.api.calculation import calculate
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.parameters import CALCULATION
from gaugerake.web.json_in.schemas.job import JOB

resource = Resource("return-times")


@resource.offers(
    id="timeReturns",
    method="POST",
    path="/v1/return-times",
    summary="When may traffic return",
    about="Runs the work and its cures against shifts and temperatures: every step, and when each traffic may return.",
    takes=JOB,
    answer=ReturnTimes,
    parameters=CALCULATION,
)
def time_returns(asked: Asked) -> Response:
    """The steps and returns."""
    return calculate(return_times_alone, JOB, asked)
