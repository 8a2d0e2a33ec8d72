"""Whether the slab is ready, as an answer shows it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Annotated

from gaugerake.answers.readiness.age import ExpectedStrength, strength_to_expect
from gaugerake.answers.readiness.ahead import Condensation
from gaugerake.answers.readiness.air import AirNow
from gaugerake.answers.readiness.checked import Check, JudgedCheck, NeededTest, tests_needed
from gaugerake.answers.readiness.checks.concrete import AGE
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.summary import summary_of
from gaugerake.floor.slab.verdict import Verdict, worst
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say


@dataclass(frozen=True, slots=True, kw_only=True)
class Readiness:
    """Whether the slab is ready for the system, check by check."""

    verdict: Annotated[Verdict, "The worst of the checks, in the order go, untested, fix, stop."]
    summary: Annotated[Say, "One sentence, fit to read out."]
    checks: Annotated[tuple[Check, ...], "In the order in which a person would do them."]
    tests_needed: Annotated[
        tuple[NeededTest, ...],
        "Moisture and pull-off tests of the whole floor, of those that the system sets a limit to.",
    ]
    earliest_ready: Annotated[date | None, "When age is all that fails: the day on which the slab is old enough."]
    days_to_go: Annotated[int | None, "Whole days from the start of the work until the slab is old enough."]
    expected_strength: Annotated[
        ExpectedStrength | None, "Null where the slab's age is not known, or it is past gaining strength."
    ]
    air: Annotated[AirNow, "Dew point of the air, and the floor above it."]
    condensation: Annotated[
        tuple[Condensation, ...],
        "Hours of the planned work in which the floor is too near the dew point; empty where it never is.",
    ]


def body_of(facts: Facts, judged: Sequence[JudgedCheck], spans: tuple[Condensation, ...]) -> Readiness:
    """The answer; ``spans`` are those in which water may condense."""
    checks = tuple([one.shown() for one in judged])
    verdict, ready_on = worst([one.verdict for one in judged]), _ready_on(facts, judged)
    return Readiness(
        verdict=verdict,
        summary=summary_of(checks, verdict, ready_on),
        checks=checks,
        tests_needed=tests_needed(facts),
        earliest_ready=ready_on,
        days_to_go=facts.age.days_short,
        expected_strength=strength_to_expect(facts.resolved, facts.age.age_s),
        air=facts.air,
        condensation=spans,
    )


def _ready_on(facts: Facts, judged: Sequence[JudgedCheck]) -> date | None:
    """The day on which the slab is old enough, unless it is so already or something else fails."""
    if facts.age.ready_on is None:
        return None
    by_name = {one.entry.name: one.verdict for one in judged}
    if by_name.pop(AGE, Verdict.GO) is Verdict.GO:
        return None
    if any(verdict in (Verdict.FIX, Verdict.STOP) for verdict in by_name.values()):
        return None
    return facts.age.ready_on
