"""``POST /v1/pour-progress``: how far the pour has come, and what to do."""

from __future__ import annotations

from flask import Response, g, request

from gaugerake.answers.pour_progress.answer import PourProgress, pour_progress
from gaugerake.answers.show.render import render
from gaugerake.floor.pour.under_way import PourUnderWay
from gaugerake.web.api.calculation import explains, pointing_into_the_request, resolved_of, shown
from gaugerake.web.api.examples import UNDER_WAY
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.parameters import LANG, UNITS, WORKING
from gaugerake.web.api.replies import json_reply
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.schemas.progress import POUR_UNDER_WAY
from gaugerake.web.snapshots import the_snapshot

resource = Resource("pour-progress")


@resource.offers(
    id="followPour",
    method="POST",
    path="/v1/pour-progress",
    summary="How far the pour has come",
    about=(
        "From the mixes that are poured and the floor that they cover: what a mix really covers, how many more it"
        " takes, where the material ends, where to stop or how thin the rest may go, what to buy, and when it is done."
        " Rooms say the way of their pour as `pour`. A problem points into the request; remarks point into the job."
    ),
    takes=POUR_UNDER_WAY,
    answer=PourProgress,
    parameters=(UNITS, LANG, WORKING),
    examples=UNDER_WAY,
)
def follow_pour(asked: Asked) -> Response:
    """The progress."""
    snapshot = the_snapshot()
    g.document = reading.body(request)
    said: PourUnderWay = POUR_UNDER_WAY.load(g.document)
    with pointing_into_the_request(beside="/progress/"):
        explained = explains(asked, said.job)
        resolved = resolved_of(said.job, snapshot)
        found = pour_progress(resolved, said.progress, explained=explained)
    body = shown(resolved, found)
    if explained:
        body["working"] = render(found.working, g.reader)
    return json_reply(body)
