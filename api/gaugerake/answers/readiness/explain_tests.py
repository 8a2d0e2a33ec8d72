"""How many tests a slab needs, has and lacks, explained."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.sources import JOB, PRACTICE
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.readiness.checked import NeededTest
from gaugerake.answers.readiness.checks.moisture import DISH_TEST, PROBE_TEST, counts_of
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.moisture_tests import EMISSION, MoistureTests
from gaugerake.floor.job import PullOffFailure
from gaugerake.floor.slab.pull_off import TESTS
from gaugerake.floor.values.figure import Figure, Kind


def explain_tests(facts: Facts, needed: Sequence[NeededTest]) -> Iterator[Working]:
    """The working of every count of ``tests_needed``."""
    for index, test in enumerate(needed):
        at = f"/tests_needed/{index}"
        tests = next((tests for tests in facts.moisture if tests.name == test.test), None)
        if tests is None:
            inputs: Inputs = {"needed": TESTS}
            yield working(f"{at}/needed", "rule-pull-off-count", inputs, test.needed, PRACTICE)
            counts = _pulls(facts)
        else:
            yield _moisture(facts, f"{at}/needed", test, tests)
            counts = counts_of(tests)
        yield working(f"{at}/given", "rule-tests-given", counts, test.given, JOB)
        lacking: Inputs = {"needed": test.needed, "given": test.given}
        yield working(f"{at}/missing", "rule-tests-missing", lacking, test.missing, JOB)


def _moisture(facts: Facts, at: str, test: NeededTest, this: MoistureTests) -> Working:
    area = Figure(facts.area_m2 or 0.0, Kind.AREA)
    source = DISH_TEST if this.name == EMISSION else PROBE_TEST
    if test.needed:
        return working(at, "rule-test-count", {"area": area}, Figure(float(test.needed), Kind.COUNT), source)
    other = next(tests for tests in facts.moisture if tests is not this)
    inputs: Inputs = {
        "area": area,
        "readings": len(this.readings),
        "given": this.counted,
        "readings_of_the_other": len(other.readings),
        "given_of_the_other": other.counted,
    }
    return working(at, "rule-test-count-other", inputs, test.needed, source)


def _pulls(facts: Facts) -> Inputs:
    pulls = enumerate(facts.slab.pull_off, 1)
    return {f"test_{number}_counts": pull.failure is not PullOffFailure.GLUE for number, pull in pulls}
