"""``POST /v1/day-sheets``, and the sheets of a quote from its token: who does what on each day, and with what."""

from __future__ import annotations

from flask import Response

from gaugerake.answers.day_sheet.answer import DaySheet, day_sheet
from gaugerake.web.api.calculation import calculate
from gaugerake.web.api.examples import DATED
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.parameters import CALCULATION
from gaugerake.web.json_in.schemas.job import JOB

resource = Resource("day-sheets")


@resource.offers(
    id="makeDaySheets",
    method="POST",
    path="/v1/day-sheets",
    summary="A sheet for each day of the work",
    about=(
        "For the crew: each day's steps with their hours, rooms and hands, the packs to bring, what must be at its"
        " mixing temperature by when, the pour with its marks, what to aim at, and when to read floor, air and spread."
        " 422 without `work.start`, as days have dates."
    ),
    takes=JOB,
    answer=DaySheet,
    parameters=CALCULATION,
    examples=DATED,
)
def make_day_sheets(asked: Asked) -> Response:
    """The sheets."""
    return calculate(day_sheet, JOB, asked)
