"""A part of a quote that is asked for alone measures the job once, and not at all where nothing hangs on it."""

import json
from pathlib import Path
from typing import Any

import pytest

from gaugerake.answers.job.resolve import resolve
from gaugerake.answers.job.resolved import ResolvedJob, Supply
from gaugerake.answers.job.taken import asked
from gaugerake.answers.quote import parts
from gaugerake.answers.quote.asked import quote_parts
from gaugerake.answers.readiness.ahead import needs_plan
from gaugerake.answers.takeoff import measure
from gaugerake.answers.takeoff.rooms import measure_rooms
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.web.json_in.schemas.job import JOB

EXAMPLES = Path(__file__).parents[2] / "openapi" / "examples"


def example(name: str, **work: Any) -> ResolvedJob:
    document = json.loads((EXAMPLES / f"{name}.json").read_bytes())
    document["work"] = document.get("work", {}) | work
    held = demo_snapshot()
    supply = Supply(catalogue=held.catalogue, revision=held.revision, price_book=asked(held.list_book))
    return resolve(JOB.load(document), supply)


@pytest.fixture
def measured(monkeypatch: pytest.MonkeyPatch) -> list[ResolvedJob]:
    """The jobs that were measured."""
    found: list[ResolvedJob] = []
    measure = parts.measure_job

    def counted(resolved: ResolvedJob, survey: Any) -> Any:
        found.append(resolved)
        return measure(resolved, survey)

    monkeypatch.setattr(parts, "measure_job", counted)
    return found


def test_an_order_whose_slab_hangs_on_the_plan_measures_the_job_once(measured: list[ResolvedJob]) -> None:
    job = example("winter")
    assert needs_plan(job)
    parts.quantities_alone(job)
    assert len(measured) == 1


def test_a_slab_on_which_no_plan_hangs_measures_nothing(measured: list[ResolvedJob]) -> None:
    job = example("least")
    assert not needs_plan(job)
    parts.readiness_alone(job)
    assert measured == []


@pytest.mark.parametrize("wanted", [{"order"}, {"readiness", "quantities", "pour_plan", "return_times"}])
def test_parts_of_a_quote_measure_the_rooms_once(wanted: set[str], monkeypatch: pytest.MonkeyPatch) -> None:
    measured: list[ResolvedJob] = []

    def counted(resolved: ResolvedJob, *given: Any) -> Any:
        measured.append(resolved)
        return measure_rooms(resolved, *given)

    monkeypatch.setattr(measure, "measure_rooms", counted)
    quote_parts(example("full"), wanted)
    assert len(measured) == 1
