"""The working of a readiness: each figure of its checks, with its inputs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gaugerake.answers.job.sources import LIMITS
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.readiness.ahead import PlannedSpan
from gaugerake.answers.readiness.body import Readiness
from gaugerake.answers.readiness.checked import JudgedCheck
from gaugerake.answers.readiness.explain_air import explain_air
from gaugerake.answers.readiness.explain_tests import explain_tests
from gaugerake.answers.readiness.facts import Facts
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say, Value

ACI = Say(code="source-later-strength")


def explain_readiness(
    facts: Facts, judged: Sequence[JudgedCheck], body: Readiness, planned: PlannedSpan
) -> Iterator[Working]:
    """How the figures of ``body`` came about."""
    yield from explain_air(facts, body.condensation, planned)
    yield from explain_tests(facts, body.tests_needed)
    yield from _age(facts, body)
    yield from _strength(facts, body)
    for index, one in enumerate(judged):
        yield from _check(facts, one, f"/checks/{index}")


def _age(facts: Facts, body: Readiness) -> Iterator[Working]:
    age_s, asked_s = facts.age.age_s, facts.limits.age_s
    if asked_s is None:
        return
    asked = Figure(asked_s, Kind.DAYS)
    if body.days_to_go is not None and age_s is not None:
        ages: dict[str, Value] = {"age": Figure(age_s, Kind.DAYS), "asked": asked}
        yield working("/days_to_go", "rule-days-to-go", ages, body.days_to_go, LIMITS)
    if body.earliest_ready is None:
        return
    poured, start = facts.slab.poured, facts.resolved.work.start.value
    ready = body.earliest_ready.isoformat()
    if poured is not None:
        dates: dict[str, Value] = {"poured": poured.isoformat(), "asked": asked}
        yield working("/earliest_ready", "rule-ready-from-pour", dates, ready, LIMITS)
    elif start is not None:
        dates = {"start": start.date().isoformat(), "days_to_go": body.days_to_go}
        yield working("/earliest_ready", "rule-ready-from-start", dates, ready, LIMITS)


def _strength(facts: Facts, body: Readiness) -> Iterator[Working]:
    expected, age_s = body.expected_strength, facts.age.age_s
    asked_s, tested_pa = facts.limits.age_s, facts.slab.compressive_strength_pa
    if expected is None or age_s is None:
        return
    ages: dict[str, Value] = {"age": Figure(age_s, Kind.DAYS)}
    if asked_s is not None:
        ages["asked"] = Figure(asked_s, Kind.DAYS)
    yield working("/expected_strength/age", "rule-expected-age", ages, expected.age, LIMITS)
    later: dict[str, Value] = {"later": expected.age}
    yield working("/expected_strength/of_28_days", "rule-strength-share", later, expected.of_28_days, ACI)
    if expected.strength is not None and tested_pa is not None:
        inputs: dict[str, Value] = {"tested": Figure(tested_pa, Kind.PRESSURE), **ages, **later}
        yield working("/expected_strength/strength", "rule-expected-strength", inputs, expected.strength, ACI)


def _check(facts: Facts, judged: JudgedCheck, at: str) -> Iterator[Working]:
    """Every figure of a check: its readings, its limit, what was measured."""
    entry, finding, _ = judged
    for index, reading in enumerate(finding.readings):
        derivation = entry.reading_from(facts, finding, index)
        if derivation is not None:
            yield derivation.of(f"{at}/readings/{index}/measured", reading.measured, entry.source)
    limit = finding.limit
    for end, figure in () if limit is None else (("low", limit.low), ("high", limit.high)):
        if figure is not None:
            yield entry.limit_from(facts, figure).of(f"{at}/limit/{end}", figure, entry.source)
    measured = finding.decisive.measured
    if isinstance(measured, Figure):
        yield entry.measured_from(facts, finding).of(f"{at}/measured", measured, entry.source)
