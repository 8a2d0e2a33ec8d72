"""``POST /v1/batches``: a job a line in, a quote a line out, in order and in bounded memory."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import orjson
from flask import Response, current_app, g, request, stream_with_context
from werkzeug.exceptions import TooManyRequests

from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.floor.values.note import Say
from gaugerake.web.api.calculation import resolved_of, shown
from gaugerake.web.api.examples import COUNTER, LEAST
from gaugerake.web.api.operations import BYTES, OCTETS, Asked, Resource, best
from gaugerake.web.api.parameters import LANG, PARTS, UNITS
from gaugerake.web.api.rates import JobCount
from gaugerake.web.api.tokens import quote_with_token
from gaugerake.web.errors import problems, refusal
from gaugerake.web.errors.refusal import BatchCutShort, BatchTooLarge, EmptyBody, EncodedBody, WrongBatchType
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.intake import Intake, stream_of
from gaugerake.web.json_in.schemas.job import JOB
from gaugerake.web.snapshots import the_snapshot
from gaugerake.web.unread import STREAMS
from gaugerake.web.watched import at_work

resource = Resource("batches")

NDJSON = "application/x-ndjson"
MOST_JOBS = 10_000
MOST_BYTES = 256 << 20


@resource.offers(
    id="makeQuotes",
    method="POST",
    path="/v1/batches",
    summary="A quote for each job",
    about=(
        "Takes a job a line and answers a line for each, in order: what `POST /v1/quotes` answers for that job, or the"
        " problem of that line alone, which has the number of the line as `line`. Each line is sent as soon as it is"
        " made, while the next jobs still come in; behind a proxy, only once all jobs are in."
        " Blank lines are passed over. Each line has at most 256 kB, a batch at most"
        f" {MOST_JOBS:,} jobs and {MOST_BYTES >> 20} MB. All are answered from one catalogue revision."
        " Each job counts as a request. When the rate is used up, the lines that follow are answered"
        " `too-many-requests`, with `retry_after`: those jobs are to be sent again after so many seconds. Jobs of the"
        " same batch that come later than that are answered. `RateLimit` says what was left when the batch began."
        " A last problem without `line` says that the batch had more jobs, was cut short or held none."
        " Clients that are generated from this description mostly know no lines of JSON: they send and get the same"
        " lines as bytes, `application/octet-stream`, and make a `QuoteAnswer` or a `Problem` of each line. With"
        " openapi-python-client, `content_type_overrides: {application/x-ndjson: application/octet-stream}` in its"
        " configuration leaves out the warning."
    ),
    body={
        "required": True,
        "description": "A job a line, as `POST /v1/quotes` takes it.",
        "content": {
            NDJSON: {
                "schema": {"type": "string", "description": "Lines of JSON, each a `Job`."},
                "example": "".join(orjson.dumps(job).decode() + "\n" for job in (LEAST, COUNTER)),
            },
            OCTETS: {"schema": {**BYTES, "description": "The same lines."}},
        },
    },
    media_type=NDJSON,
    answer={**BYTES, "description": "Lines of JSON, each a `QuoteAnswer` or a `Problem`."},
    forms={OCTETS: {**BYTES, "description": "The same lines."}},
    parameters=(UNITS, LANG, PARTS),
    statuses=(413, 415, 503),
)
def make_quotes(_asked: Asked) -> Response:
    """The quotes, as they are made."""
    if request.mimetype not in (NDJSON, OCTETS):
        raise WrongBatchType(seen=request.mimetype or Say(code="known-none"))
    if request.headers.get("Content-Encoding", "identity").strip().lower() != "identity":
        raise EncodedBody
    if (request.content_length or 0) > MOST_BYTES:
        raise _too_large()
    if request.content_length == 0:
        raise EmptyBody
    request.environ[STREAMS] = True
    intake = Intake(
        stream_of(request.environ),
        most_line=refusal.MOST_BYTES,
        most_lines=MOST_JOBS,
        most_bytes=MOST_BYTES,
        length=request.content_length,
        whole_first=current_app.config["PROXY_HOPS"] > 0,
    )
    answers = _answers(intake, the_snapshot(), JobCount())
    response = Response(stream_with_context(answers), content_type=best((NDJSON, OCTETS)))
    response.headers["Cache-Control"] = "no-store"
    response.headers["Accept-Query"] = NDJSON
    response.headers["X-Accel-Buffering"] = "no"  # a proxy that holds it back would undo the streaming
    return response


def _answers(intake: Intake, snapshot: Snapshot, count: JobCount) -> Iterator[bytes]:
    number = 0
    for number, line in intake.lines():
        wait_s = count.another()
        with at_work(request.environ):
            # no answer has a name here: it would live on beside the next one
            answered = _line(_refused(number, wait_s) if wait_s else _answer(number, line, snapshot))
        yield answered
    if intake.cut_short:
        yield _line(problems.body_of(BatchCutShort()))
    elif intake.too_much:
        yield _line(problems.body_of(_too_large()))
    elif not number:
        yield _line(problems.body_of(EmptyBody(), in_line=True))


def _answer(number: int, line: bytes, snapshot: Snapshot) -> dict[str, Any]:
    """What the job of one line is answered; whatever is wrong with it spoils no other."""
    g.document = None
    try:
        g.document = reading.read(line)
        resolved = resolved_of(JOB.load(g.document), snapshot)
        return shown(resolved, quote_with_token(resolved))
    except Exception as error:  # noqa: BLE001 - becomes the problem of its line, and is logged when the fault is ours
        return problems.body_of(error, in_line=True) | {"line": number}


def _refused(number: int, wait_s: int) -> dict[str, Any]:
    """The problem of a job for which nothing is left of the rate."""
    return problems.body_of(TooManyRequests()) | {"line": number, "retry_after": wait_s}


def _line(body: dict[str, Any]) -> bytes:
    return orjson.dumps(body) + b"\n"


def _too_large() -> BatchTooLarge:
    return BatchTooLarge(jobs=MOST_JOBS, bytes=MOST_BYTES)
