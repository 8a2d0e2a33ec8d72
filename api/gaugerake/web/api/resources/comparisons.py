"""``POST /v1/comparisons``: several choices for one job, side by side."""

from __future__ import annotations

from typing import Any

from flask import Response, g, request

from gaugerake.answers.choosing.comparison.answer import (
    ComparedChoice,
    Comparison,
    RefusedChoice,
    best_of,
    compared,
    open_in_time,
)
from gaugerake.answers.choosing.comparison.shared import Shared
from gaugerake.answers.job.envelope import envelope
from gaugerake.answers.job.problem import Problem
from gaugerake.answers.job.remarks import caution
from gaugerake.answers.job.resolved import ResolvedJob, Supply
from gaugerake.answers.job.taken import assumed
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.web.api.calculation import resolved_of
from gaugerake.web.api.examples import COMPARISONS
from gaugerake.web.api.operations import JSON, Asked, Resource
from gaugerake.web.api.parameters import LANG, UNITS
from gaugerake.web.api.replies import json_reply
from gaugerake.web.errors import problems
from gaugerake.web.errors.finding import Finding, LocatedFinding
from gaugerake.web.errors.refusal import TooManyCompared
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.document import ReadParts
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

MOST_LISTED = 3000
"""Entries of lists in all merged jobs together; 24 jobs of 10 heavy rooms have more, and cost more than 250 quotes."""


@resource.offers(
    id="compareChoices",
    method="POST",
    path="/v1/comparisons",
    summary="Choices side by side",
    about=(
        f"Takes a job and {LEAST_CHOICES} to {MOST_CHOICES} choices, each a JSON Merge Patch (RFC 7396) on it, and"
        " answers the main figures of each: those of the quote of the merged job, or its problem alone, with pointers"
        " into the merged job. A fault of the comparison itself is a problem with pointers into the request. All"
        f" choices together have at most {MOST_LISTED:,} entries in their lists (rooms, corners, cutouts, tests,"
        " offers and so on; readings of the floor and the air don't count). `best` names the cheapest and the soonest"
        " of those that the slab does not stop and that meet their deadline."
    ),
    reads=COMPARISON,
    body={
        "required": True,
        "description": "The job and the choices.",
        "content": {JSON: {"schema": {"$ref": "#/components/schemas/JobComparison"}, "examples": COMPARISONS}},
    },
    answer=Comparison,
    parameters=(UNITS, LANG),
    statuses=(413, 415, 503),
)
def compare_choices(_asked: Asked) -> Response:
    """The choices, in their order."""
    snapshot = the_snapshot()
    g.document = reading.body(request)
    asked: AskedComparison = COMPARISON.load(g.document)
    jobs = [merge_patch(asked.job, choice.change) for choice in asked.choices]
    _hold_listed(jobs)
    beside = _Jobs(snapshot)
    choices = [_choice(choice, job, beside, of=len(jobs)) for choice, job in zip(asked.choices, jobs, strict=True)]
    supply = Supply(catalogue=snapshot.catalogue, revision=snapshot.revision, price_book=assumed(snapshot.list_book))
    judged = [choice for choice in choices if isinstance(choice, ComparedChoice)]
    codes = ["comparison-in-short"]
    if judged and not open_in_time(judged):
        codes.insert(0, "comparison-without-best")
    around = envelope(supply, map(caution, codes))
    answer = Comparison(
        choices=tuple(choices),
        best=best_of(judged),
        catalogue_revision=around.catalogue_revision,
        engine=around.engine,
        catalogue=around.catalogue,
        assumptions=around.assumptions,
        cautions=around.cautions,
        missing=around.missing,
    )
    return json_reply(render(answer, g.reader))


def _hold_listed(jobs: list[Any]) -> None:
    """Refuse more entries than are compared.

    Raises
    ------
    TooManyCompared
    """
    count = sum(map(_listed, jobs))
    if count > MOST_LISTED:
        raise TooManyCompared(
            LocatedFinding("/choices", Finding("too-many-compared", count, {"most": MOST_LISTED})), most=MOST_LISTED
        )


def _listed(value: Any) -> int:
    """How many objects and lists stand in the lists of a document; readings are shared, or as many as the body has."""
    if isinstance(value, dict):
        return sum(_listed(inner) for name, inner in value.items() if name != "readings")
    if isinstance(value, list):
        return sum(1 + _listed(inner) for inner in value if isinstance(inner, dict | list))
    return 0


class _Jobs:
    """The jobs of one comparison, as they are read: what one of them has in common with the others is made once."""

    def __init__(self, snapshot: Snapshot) -> None:
        self.shared = Shared()
        self._snapshot, self._kept = snapshot, ReadParts()
        self._last: ResolvedJob | None = None

    def resolved(self, job: Any) -> ResolvedJob:
        """A job, read and resolved.

        Raises
        ------
        ValidationError, Refused, Refusal
            As its quote would be.
        """
        self._last = resolved_of(JOB.load(job, kept=self._kept), self._snapshot, near=self._last)
        return self._last


def _choice(choice: AskedChoice, job: Any, jobs: _Jobs, *, of: int) -> ComparedChoice | RefusedChoice:
    """One choice; whatever is wrong with it spoils no other."""
    g.document = job
    try:
        return compared(jobs.resolved(job), name=choice.name, shared=jobs.shared, of=of)
    except Exception as error:  # noqa: BLE001 - becomes the problem of its choice, and is logged when the fault is ours
        return RefusedChoice(name=choice.name, problem=Problem(problems.body_of(error)))
