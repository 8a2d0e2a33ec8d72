"""``POST /v1/readiness``: is the slab ready."""

from __future__ import annotations

from flask import Response

from gaugerake.answers.quote.parts import readiness_alone
from gaugerake.answers.readiness.body import Readiness
from gaugerake.web.api.calculation import calculate
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.parameters import CALCULATION
from gaugerake.web.json_in.schemas.job import SLAB_JOB

resource = Resource("readiness")


@resource.offers(
    id="judgeSlab",
    method="POST",
    path="/v1/readiness",
    summary="Is the slab ready",
    about="Judges whatever has been tested so far, check by check, and says what is still to be tested.",
    takes=SLAB_JOB,
    answer=Readiness,
    parameters=CALCULATION,
)
def judge_slab(asked: Asked) -> Response:
    """The verdict."""
    return calculate(readiness_alone, SLAB_JOB, asked)
