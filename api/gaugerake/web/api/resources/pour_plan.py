"""``POST /v1/pour-plan``: how to pour it."""

from __future__ import annotations

from flask import Response

from gaugerake.answers.pour_plan.answer import PourPlan
from gaugerake.answers.quote.parts import pour_plan_alone
from gaugerake.web.api.calculation import calculate
from gaugerake.web.api.examples import POURED
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.parameters import CALCULATION
from gaugerake.web.json_in.schemas.job import JOB

resource = Resource("pour-plan")


@resource.offers(
    id="planPour",
    method="POST",
    path="/v1/pour-plan",
    summary="How to pour it",
    about=(
        "Says whether the crew can hold a wet edge, mix by mix, and what would let it. Where a room says the way of its"
        " pour as `pour`, each mix has a mark: how far the floor stands when it is placed."
    ),
    takes=JOB,
    answer=PourPlan,
    parameters=CALCULATION,
    examples=POURED,
)
def plan_pour(asked: Asked) -> Response:
    """The plan, with every mix."""
    return calculate(pour_plan_alone, JOB, asked)
