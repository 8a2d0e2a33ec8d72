"""Every remedy of jobs at random, put back into its job: it mends what it is for, and loses nothing that holds."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

import pytest
from tests.changes import as_said, kind_of, parts, with_remedy
from tests.outside.posted_back import Job, lost, some_crowd, some_job
from tests.outside.working_service import Service
from tests.seeds import seed_for

JOBS = 200
SEEDS = 4
BROKE_THE_SLAB = 453628
"""Its fifth job: an hour in which the slab was too hot to begin was a remedy of the pour."""


def quote(service: Service, job: Job) -> Job:
    return service.ask("quotes", job, working=False)


def due_somewhat_sooner(service: Service, job: Job, random: random.Random) -> Job:
    """The job with a deadline: before its latest return in most jobs, after it in some; in one of ten there is none."""
    back = quote(service, job)["return_times"]["returns"][0]["latest"]
    if back is None or random.random() < 0.1:
        return job
    hours = random.choice([-90, -60, -40, -24, -12, -6, -2, 1, 5])
    by = datetime.fromisoformat(back) + timedelta(hours=hours)
    return {**job, "work": {**job["work"], "reopen_by": by.isoformat()}}


def remedies(quote: Job) -> Iterator[tuple[str, Any]]:
    """Every remedy, and the name of what it mends."""
    yield from (("wet edge", remedy) for remedy in quote["pour_plan"]["remedies"])
    due = quote["return_times"]["deadline"]
    yield from (("deadline", remedy) for remedy in (due or {"remedies": []})["remedies"])


def tried_and_true(service: Service, job: Job) -> tuple[int, int, set[str]]:
    """How many remedies a job has, how many of them say a width, and their kinds; each one is true as a whole."""
    asked, kinds, tried, said = quote(service, job), set[str](), 0, 0
    for mends, remedy in remedies(asked):
        told = as_said(remedy)
        said += told is not None
        for one in (remedy, *([told] if told else ())):
            whole = lost(quote(service, with_remedy(job, one)))
            assert mends not in whole, (job, one)
            assert whole <= lost(asked), (job, one)
        kinds |= set(map(kind_of, parts(remedy)))
        tried += 1
    return tried, said, kinds


@pytest.mark.parametrize("seed", [*(seed_for(f"remedies {part}") for part in range(SEEDS)), BROKE_THE_SLAB])
def test_every_remedy_is_true_as_a_whole(demo: Service, seed: int) -> None:
    draw, kinds, tried, said = random.Random(seed), set[str](), 0, 0
    for _ in range(JOBS // SEEDS):
        counts = tried_and_true(demo, due_somewhat_sooner(demo, some_job(draw), draw))
        tried, said, kinds = tried + counts[0], said + counts[1], kinds | counts[2]
    assert tried > JOBS // SEEDS, f"seed {seed}: hardly any job has a remedy"
    assert said > 0, f"seed {seed}: no remedy says a width"
    assert len(kinds) > 5, f"seed {seed}: {kinds}"


@pytest.mark.parametrize("part", range(2))
def test_every_remedy_of_rooms_and_people_is_true_as_a_whole(demo: Service, part: int) -> None:
    """Where one room loses its edge, those of the others that hold go on holding."""
    draw, tried = random.Random(seed_for(f"remedies of rooms {part}")), 0
    for _ in range(JOBS // SEEDS):
        job = some_crowd(draw, some_job(draw))
        tried += tried_and_true(demo, due_somewhat_sooner(demo, job, draw))[0]
    assert tried > JOBS // SEEDS, "hardly any job has a remedy"
