"""What ``POST /v1/quotes`` answers to a job, without a service: for worked cases, which a catalogue is tried with."""

from __future__ import annotations

from typing import Any

import orjson
from flask import Flask, g
from marshmallow import ValidationError

from gaugerake.answers.job.errors import Refused
from gaugerake.answers.quote.answer import quote
from gaugerake.answers.show.reader import Reader
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.measure.choice import ChoiceName, choice
from gaugerake.web.api.calculation import resolved_of, shown
from gaugerake.web.errors import problems
from gaugerake.web.errors.refusal import Refusal
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.schemas.job import JOB


def one_quote(job: Any, snapshot: Snapshot, *, units: ChoiceName = "us", explained: bool = False) -> dict[str, Any]:
    """The whole quote of a job, or the problem of one that is refused; ``explained`` adds the working.

    The token is empty, as no secret is at hand to sign one. No key is asked for.
    """
    with Flask("gaugerake").app_context():
        g.reader = Reader(units=choice(units))
        try:
            return _quote(job, snapshot, explained)
        except (Refusal, ValidationError, Refused) as error:
            return problems.body_of(error)


def _quote(job: Any, snapshot: Snapshot, explained: bool) -> dict[str, Any]:
    g.document = reading.read(orjson.dumps(job))
    resolved = resolved_of(JOB.load(g.document), snapshot)
    found = quote(resolved, token="", explained=explained)
    body = shown(resolved, found)
    if explained:
        body["working"] = render(found.working, g.reader)
    plain: dict[str, Any] = orjson.loads(orjson.dumps(body))
    return plain
