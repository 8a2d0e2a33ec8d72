"""Is the slab ready: every check, the worst of them, and what to do next."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Annotated

from gaugerake.answers.job.context import Context
from gaugerake.answers.readiness import climate, concrete, layout, moisture, surface
from gaugerake.answers.readiness.base import Check, CheckName
from gaugerake.answers.readiness.cautions import caution_readiness
from gaugerake.answers.readiness.climate import AirNow, Condensation
from gaugerake.answers.readiness.concrete import ExpectedStrength
from gaugerake.answers.readiness.explain import work_readiness
from gaugerake.answers.readiness.moisture import NeededTest
from gaugerake.answers.readiness.summary import summary_of
from gaugerake.floor.slab.verdict import Verdict, worst
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say

CHECKS: Sequence[Callable[[Context], Check | None]] = (
    concrete.substrate_check,
    concrete.age_check,
    concrete.strength_check,
    moisture.damp_check,
    moisture.emission_check,
    moisture.humidity_check,
    moisture.probe_depth_check,
    moisture.test_count_check,
    surface.contaminants_check,
    surface.absorption_check,
    surface.ph_check,
    surface.profile_check,
    surface.pull_off_check,
    layout.slope_check,
    layout.joints_check,
    layout.thickness_check,
    climate.slab_temperature_check,
    climate.air_temperature_check,
    climate.air_humidity_check,
    climate.spread_check,
)
"""In the order in which a person would do them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Readiness:
    """Whether the slab is ready for the system, check by check."""

    verdict: Annotated[Verdict, "The worst of the checks, in the order go, untested, fix, stop."]
    summary: Annotated[Say, "One sentence, fit to read out."]
    checks: Annotated[tuple[Check, ...], "In the order in which a person would do them."]
    tests_needed: tuple[NeededTest, ...]
    earliest_ready: Annotated[date | None, "When age is all that fails: the day on which the slab is old enough."]
    days_to_go: Annotated[int | None, "Whole days from the start of the work until the slab is old enough."]
    expected_strength: ExpectedStrength | None
    air: AirNow
    condensation: tuple[Condensation, ...]


def readiness(context: Context) -> Readiness:
    """Judge the slab for whatever has been tested so far.

    Raises
    ------
    Refused
        When statements of the job contradict each other, or a room's shape cannot be.
    """
    checks = tuple(check for make in CHECKS if (check := make(context)) is not None)
    ready_on = _ready_on(context, checks)
    answer = Readiness(
        verdict=worst(check.verdict for check in checks),
        summary=summary_of(checks, ready_on),
        checks=checks,
        tests_needed=moisture.tests_needed(context),
        earliest_ready=ready_on,
        days_to_go=context.shared(concrete.slab_age).days_short,
        expected_strength=concrete.strength_to_expect(context),
        air=context.shared(climate.air_now),
        condensation=climate.condensation(context),
    )
    caution_readiness(context, answer)
    work_readiness(context, answer)
    return answer


def _ready_on(context: Context, checks: Sequence[Check]) -> date | None:
    """The day on which the slab is old enough, unless it is so already or something else fails."""
    by_name = {check.check: check.verdict for check in checks}
    if by_name.pop(CheckName.AGE, Verdict.GO) is Verdict.GO:
        return None
    if any(verdict in (Verdict.FIX, Verdict.STOP) for verdict in by_name.values()):
        return None
    return context.shared(concrete.slab_age).ready_on
