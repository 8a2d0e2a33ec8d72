"""``POST /v1/start-search``: the best hour to begin."""

from __future__ import annotations

from flask import Response, g, request

from gaugerake.answers.choosing.start_search.answer import StartSearch, start_search
from gaugerake.answers.choosing.start_search.resolve import MOST_STARTS
from gaugerake.floor.values.frozen import replace
from gaugerake.web.api.calculation import pointing_into_the_request, resolved_of, shown
from gaugerake.web.api.examples import STARTS
from gaugerake.web.api.operations import Asked, Resource
from gaugerake.web.api.parameters import LANG, UNITS
from gaugerake.web.api.replies import json_reply
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.schemas.start_search import START_SEARCH, AskedSearch
from gaugerake.web.snapshots import the_snapshot

resource = Resource("start-search")


@resource.offers(
    id="searchStart",
    method="POST",
    path="/v1/start-search",
    summary="The best hour to begin",
    about=(
        f"Tries every start from one hour to another, at most {MOST_STARTS:,} of them, and judges each as if the job"
        " were posted with it: the wet edges, the spread above the dew point until the last cure ends, whether the"
        " floor warms during the pour, when traffic returns and whether that is in time. `best` names those that are"
        " ok; where none is, `remedies` say what would mend the nearest. The job's own `work.start` is left aside."
        " How a figure came about is told by the quote of its start. A problem points into the request; remarks and"
        " remedies point into the job."
    ),
    takes=START_SEARCH,
    answer=StartSearch,
    parameters=(UNITS, LANG),
    examples=STARTS,
)
def search_start(_asked: Asked) -> Response:
    """The starts, judged."""
    snapshot = the_snapshot()
    g.document = reading.body(request)
    said: AskedSearch = START_SEARCH.load(g.document)
    with pointing_into_the_request(beside="/search/"):
        job = replace(said.job, work=replace(said.job.work, start=None))
        resolved = resolved_of(job, snapshot)
        return json_reply(shown(resolved, start_search(resolved, said.search)))
