"""The slab's age at the start of the work, and the strength to be expected of it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Annotated

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.floor.slab.strength import (
    MATURE_S,
    expected_strength,
    may_still_gain,
    strength_fraction,
    whole_days_short,
)
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabAge:
    """The slab's age at the start of the work [s], and when it has the age asked (both None when not known)."""

    age_s: float | None
    ready_on: date | None
    days_short: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedStrength:
    """Strength to be expected of a young slab by the ACI 209 curve: for planning a retest, never a pass."""

    age: Annotated[Figure, "In days, for which the strength is foreseen: the age that the system asks, else 28 days."]
    of_28_days: Annotated[Figure, "Share of the strength at 28 days."]
    strength: Annotated[Figure | None, "From the strength as tested; null when none was."]


def slab_age(resolved: ResolvedJob) -> SlabAge:
    """The age at the start of the work, as said or from the date of the pour.

    Raises
    ------
    Refused
        When age and date disagree by a day or more, or the slab is poured after the work starts.
    """
    slab, asked_s, start = resolved.slab, resolved.system.slab_limits.age_s, resolved.work.start.value
    on = None if start is None else start.date()
    age_s = resolved.age_s.value
    days_short = None if age_s is None or asked_s is None else whole_days_short(age_s=age_s, asked_s=asked_s)
    ready_on = None
    if slab.poured is not None and asked_s is not None:
        ready_on = slab.poured + timedelta(days=whole_days_short(age_s=0.0, asked_s=asked_s))
    elif on is not None and days_short is not None:
        ready_on = on + timedelta(days=days_short)
    return SlabAge(age_s=age_s, ready_on=ready_on, days_short=days_short)


def strength_to_expect(resolved: ResolvedJob, age_s: float | None) -> ExpectedStrength | None:
    """What the curve lets expect of a slab younger than asked, or than 28 days."""
    if age_s is None or not may_still_gain(age_s):
        return None
    asked_s = resolved.system.slab_limits.age_s
    then_s = asked_s if asked_s is not None and whole_days_short(age_s=age_s, asked_s=asked_s) else MATURE_S
    tested_pa = resolved.slab.compressive_strength_pa
    then_pa = None if tested_pa is None else expected_strength(strength_pa=tested_pa, tested_age_s=age_s, age_s=then_s)
    return ExpectedStrength(
        age=Figure(then_s, Kind.DAYS),
        of_28_days=Figure(100 * strength_fraction(age_s=then_s), Kind.PERCENT),
        strength=None if then_pa is None else Figure(then_pa, Kind.PRESSURE),
    )
