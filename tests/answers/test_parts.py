"""A part of a quote that is asked for alone measures the job once, and not at all where nothing depends on it."""

from typing import Any

import pytest
from tests.asked import resolved
from tests.builders import example

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.quote import parts
from gaugerake.answers.quote.asked import quote_parts
from gaugerake.answers.readiness.ahead import PlannedSpan, needs_plan
from gaugerake.answers.readiness.answer import readiness, slab_verdict
from gaugerake.answers.takeoff import measure
from gaugerake.answers.takeoff.rooms import measure_rooms
from gaugerake.answers.takeoff.survey import survey_rooms
from gaugerake.floor.values.errors import UnknownName


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


def test_an_order_whose_slab_depends_on_the_plan_measures_the_job_once(measured: list[ResolvedJob]) -> None:
    job = resolved(example("winter"))
    assert needs_plan(job)
    parts.quantities_alone(job)
    assert len(measured) == 1


def test_a_slab_on_which_no_plan_hangs_measures_nothing(measured: list[ResolvedJob]) -> None:
    job = resolved(example("least"))
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
    quote_parts(resolved(example("full")), wanted)
    assert len(measured) == 1


def planned_for(job: ResolvedJob) -> PlannedSpan:
    return parts.planned_span(job, survey_rooms(job.rooms), measured=None, timetable=None)


@pytest.mark.parametrize("name", ["least", "counter", "full", "metric", "winter"])
def test_the_verdict_alone_is_that_of_the_whole(name: str) -> None:
    job = resolved(example(name))
    given: dict[str, Any] = {"survey": survey_rooms(job.rooms), "planned": planned_for(job)}
    assert slab_verdict(job, **given) is readiness(job, **given, explained=False).body.verdict


def test_the_verdict_alone_is_refused_where_the_work_that_it_depends_on_cannot_be_planned() -> None:
    job = resolved(example("winter"))
    fault = Fault("/work/shifts", UnknownName("shift", seen="never", known={}))
    given: dict[str, Any] = {"survey": survey_rooms(job.rooms), "planned": PlannedSpan(faults=(fault,))}
    with pytest.raises(Refused) as whole:
        readiness(job, **given, explained=False)
    with pytest.raises(Refused) as alone:
        slab_verdict(job, **given)
    assert alone.value.faults == whole.value.faults == (fault,)
