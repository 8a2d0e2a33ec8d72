"""How many tests a slab needs, has and lacks, worked out."""

from __future__ import annotations

from collections.abc import Sequence

from gaugerake.answers.job.context import Context
from gaugerake.answers.readiness.base import CheckName
from gaugerake.answers.readiness.moisture import Kind, NeededTest, moisture_kinds
from gaugerake.answers.readiness.planned import total_area_m2
from gaugerake.floor.job import PullOffFailure
from gaugerake.floor.slab.pull_off import TESTS
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Value

JOB = "the job"
METHODS = {CheckName.MOISTURE_EMISSION: "ASTM F1869", CheckName.RELATIVE_HUMIDITY: "ASTM F2170"}


def work_tests(context: Context, needed: Sequence[NeededTest]) -> None:
    """Record the working of every count of ``tests_needed``."""
    kinds = {kind.name: kind for kind in context.shared(moisture_kinds)}
    for index, test in enumerate(needed):
        at, kind = f"/tests_needed/{index}", kinds.get(test.test)
        if kind is None:
            inputs: dict[str, Value] = {"needed": TESTS}
            context.record.work(f"{at}/needed", "rule-pull-off-count", inputs, test.needed, "common practice")
            _given(context, at, test, _pulls(context))
        else:
            _moisture(context, at, test, kinds)
            _given(context, at, test, counts_of(kind))
        missing: dict[str, Value] = {"needed": test.needed, "given": test.given}
        context.record.work(f"{at}/missing", "rule-tests-missing", missing, test.missing, JOB)


def _moisture(context: Context, at: str, test: NeededTest, kinds: dict[CheckName, Kind]) -> None:
    area, source = Figure(total_area_m2(context), "area"), METHODS[test.test]
    if test.needed:
        result = Figure(float(test.needed), "count")
        context.record.work(f"{at}/needed", "rule-test-count", {"area": area}, result, source)
        return
    this, other = kinds[test.test], next(kind for name, kind in kinds.items() if name is not test.test)
    inputs: dict[str, Value] = {
        "area": area,
        "readings": len(this.readings),
        "given": this.counted,
        "readings_of_the_other": len(other.readings),
        "given_of_the_other": other.counted,
    }
    context.record.work(f"{at}/needed", "rule-test-count-other", inputs, test.needed, source)


def _given(context: Context, at: str, test: NeededTest, counts: dict[str, Value]) -> None:
    context.record.work(f"{at}/given", "rule-tests-given", counts, test.given, JOB)


def _pulls(context: Context) -> dict[str, Value]:
    pulls = enumerate(context.job.slab.pull_off, 1)
    return {f"test_{number}_counts": pull.failure is not PullOffFailure.GLUE for number, pull in pulls}


def counts_of(kind: Kind) -> dict[str, Value]:
    """Whether each reading of a kind of moisture test counts as given."""
    return {f"reading_{number}_counts": counts for number, counts in enumerate(kind.counts, 1)}
