"""The working of a readiness: each figure that somebody may be asked to defend, with what went into it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import start_of
from gaugerake.answers.readiness.concrete import slab_age
from gaugerake.answers.readiness.explain_air import work_air
from gaugerake.answers.readiness.explain_figures import work_check
from gaugerake.answers.readiness.explain_tests import work_tests
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Value

if TYPE_CHECKING:
    from gaugerake.answers.readiness.answer import Readiness

ACI = "ACI 209R, eq. 2-1 (moist cured, Type I cement)"
LIMITS = "the system's limits"


def work_readiness(context: Context, answer: Readiness) -> None:
    """Note how the figures of ``answer`` came about, when that was asked for."""
    if context.record.working is None:
        return
    work_air(context, answer.air, answer.condensation)
    work_tests(context, answer.tests_needed)
    _age(context, answer)
    _strength(context, answer)
    for index, check in enumerate(answer.checks):
        work_check(context, check, f"/checks/{index}")


def _age(context: Context, answer: Readiness) -> None:
    age_s, asked_s = context.shared(slab_age).age_s, context.system.slab_limits.age_s
    if asked_s is None:
        return
    asked = Figure(asked_s, "days")
    if answer.days_to_go is not None and age_s is not None:
        ages: dict[str, Value] = {"age": Figure(age_s, "days"), "asked": asked}
        context.record.work("/days_to_go", "rule-days-to-go", ages, answer.days_to_go, LIMITS)
    if answer.earliest_ready is None:
        return
    poured, start = context.job.slab.poured, context.shared(start_of)
    ready = answer.earliest_ready.isoformat()
    if poured is not None:
        dates: dict[str, Value] = {"poured": poured.isoformat(), "asked": asked}
        context.record.work("/earliest_ready", "rule-ready-from-pour", dates, ready, LIMITS)
    elif start is not None:
        dates = {"start": start.date().isoformat(), "days_to_go": answer.days_to_go}
        context.record.work("/earliest_ready", "rule-ready-from-start", dates, ready, LIMITS)


def _strength(context: Context, answer: Readiness) -> None:
    expected, age_s = answer.expected_strength, context.shared(slab_age).age_s
    asked_s, tested_pa = context.system.slab_limits.age_s, context.job.slab.compressive_strength_pa
    if expected is None or age_s is None:
        return
    ages: dict[str, Value] = {"age": Figure(age_s, "days")}
    if asked_s is not None:
        ages["asked"] = Figure(asked_s, "days")
    context.record.work("/expected_strength/age", "rule-expected-age", ages, expected.age, LIMITS)
    later: dict[str, Value] = {"later": expected.age}
    context.record.work("/expected_strength/of_28_days", "rule-strength-share", later, expected.of_28_days, ACI)
    if expected.strength is not None and tested_pa is not None:
        inputs: dict[str, Value] = {"tested": Figure(tested_pa, "pressure"), **ages, **later}
        context.record.work("/expected_strength/strength", "rule-expected-strength", inputs, expected.strength, ACI)
