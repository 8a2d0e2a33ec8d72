"""``POST /v1/comparisons``: several choices for one job, side by side."""

from __future__ import annotations

from typing import Any

from flask import Response, g, request

from gaugerake.answers.comparison.answer import ComparedChoice, Comparison, RefusedChoice, best_of, compared
from gaugerake.answers.comparison.shared import Shared
from gaugerake.answers.job.envelope import envelope
from gaugerake.answers.job.problem import Problem
from gaugerake.answers.job.remarks import caution
from gaugerake.answers.job.resolved import Supply
from gaugerake.answers.job.taken import assumed
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.web.api.calculation import resolved_of
from gaugerake.web.api.examples import COMPARISONS
from gaugerake.web.api.operations import JSON, Asked, Resource
from gaugerake.web.api.parameters import UNITS
from gaugerake.web.api.replies import json_reply
from gaugerake.web.errors import problems
from gaugerake.web.errors.finding import Finding, LocatedFinding
from gaugerake.web.errors.refusal import TooManyCompared
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.document import Kept
from gaugerake.web.json_in.merge_patch import merge_patch
from gaugerake.web.json_in.schemas.comparison import (
    COMPARISON,
    LEAST_CHOICES,
    MOST_CHOICES,
    AskedChoice,
    AskedComparison,
)
from gaugerake.web.json_in.schemas.job import JOB
from gaugerake.web.snapshots import the_snapshot

resource = Resource("comparisons")

MOST_ROOMS_COMPARED = 600
"""Rooms of all choices together."""


@resource.offers(
    id="compareChoices",
    method="POST",
    path="/v1/comparisons",
    summary="Choices side by side",
    about=(
        f"Takes a job and {LEAST_CHOICES} to {MOST_CHOICES} choices, each a JSON Merge Patch (RFC 7396) on it, and"
        " answers the main figures of each: those of the quote of the merged job, or its problem alone, with pointers"
        " into the merged job. A fault of the comparison itself is a problem with pointers into the request. All"
        f" choices together have at most {MOST_ROOMS_COMPARED:,} rooms. `best` names the cheapest and the soonest of"
        " those that the slab does not stop and that meet their deadline."
    ),
    reads=COMPARISON,
    body={
        "required": True,
        "description": "The job and the choices.",
        "content": {JSON: {"schema": {"$ref": "#/components/schemas/JobComparison"}, "examples": COMPARISONS}},
    },
    answer=Comparison,
    parameters=(UNITS,),
    statuses=(413, 415, 503),
)
def compare_choices(_asked: Asked) -> Response:
    """The choices, in their order."""
    snapshot = the_snapshot()
    g.document = reading.body(request)
    asked: AskedComparison = COMPARISON.load(g.document)
    jobs = [merge_patch(asked.job, choice.change) for choice in asked.choices]
    _hold_rooms(jobs)
    shared, kept = Shared(), Kept()
    choices = [
        _choice(choice, job, snapshot, shared, kept, of=len(jobs))
        for choice, job in zip(asked.choices, jobs, strict=True)
    ]
    supply = Supply(catalogue=snapshot.catalogue, revision=snapshot.revision, price_book=assumed(snapshot.list_book))
    around = envelope(supply, (caution("comparison-in-short"),))
    answer = Comparison(
        choices=tuple(choices),
        best=best_of([choice for choice in choices if isinstance(choice, ComparedChoice)]),
        catalogue_revision=around.catalogue_revision,
        engine=around.engine,
        catalogue=around.catalogue,
        assumptions=around.assumptions,
        cautions=around.cautions,
        missing=around.missing,
    )
    return json_reply(render(answer, g.reader))


def _hold_rooms(jobs: list[Any]) -> None:
    """Refuse more rooms than are compared.

    Raises
    ------
    TooManyCompared
    """
    lists = [job.get("rooms") for job in jobs]
    count = sum(len(rooms) for rooms in lists if isinstance(rooms, list))
    if count > MOST_ROOMS_COMPARED:
        finding = Finding("too-many-compared", count, {"most": MOST_ROOMS_COMPARED})
        raise TooManyCompared(LocatedFinding("/choices", finding), most=MOST_ROOMS_COMPARED)


def _choice(
    choice: AskedChoice, job: Any, snapshot: Snapshot, shared: Shared, kept: Kept, *, of: int
) -> ComparedChoice | RefusedChoice:
    """One choice; whatever is wrong with it spoils no other."""
    g.document = job
    try:
        resolved = resolved_of(JOB.load(job, kept=kept), snapshot)
        return compared(resolved, choice.name, shared, of=of)
    except Exception as error:  # noqa: BLE001 - becomes the problem of its choice, and is logged when the fault is ours
        return RefusedChoice(name=choice.name, problem=Problem(problems.body_of(error)))
