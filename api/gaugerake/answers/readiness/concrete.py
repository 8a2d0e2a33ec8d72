"""What the slab is: its substrate, its age, its strength."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Annotated

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.readiness.base import Check, CheckName, Reading, check_of, limit_of, number, say, untested
from gaugerake.answers.readiness.planned import start_of_work
from gaugerake.floor.slab.strength import (
    DAY_S,
    MATURE_S,
    expected_strength,
    may_still_gain,
    strength_fraction,
    whole_days_short,
)
from gaugerake.floor.slab.surface import Substrate, substrate
from gaugerake.floor.slab.verdict import GUARD, Verdict
from gaugerake.floor.values.errors import Contradiction
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Limits


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabAge:
    """The slab's age at the start of the work [s], and when it has the age asked (both None when not known)."""

    age_s: float | None
    ready_on: date | None
    days_short: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedStrength:
    """Strength to be expected of a young slab by the ACI 209 curve: for planning a retest, never a pass."""

    age: Figure
    of_28_days: Annotated[Figure, "Share of the strength at 28 days."]
    strength: Annotated[Figure | None, "From the strength as tested; null when none was."]


def substrate_check(context: Context) -> Check:
    """Concrete, or something that the system's limits were not made for."""
    words, pointer = context.take(context.resolved.substrate), "/slab/substrate"
    if context.job.slab.substrate is None:
        return check_of(CheckName.SUBSTRATE, untested(CheckName.SUBSTRATE, pointer))
    kind = substrate(words)
    fine = kind is Substrate.CONCRETE
    reading = Reading(
        pointer=pointer,
        measured=words,
        verdict=Verdict.GO if fine else Verdict.STOP,
        because=say(f"check-substrate-{kind or 'unknown'}", words=words),
        do=None if fine else say("do-substrate-other"),
    )
    return check_of(CheckName.SUBSTRATE, reading)


def slab_age(context: Context) -> SlabAge:
    """The age at the start of the work, as said or from the date of the pour.

    Raises
    ------
    Refused
        When age and date disagree by a day or more, or the slab is poured after the work starts.
    """
    slab, asked_s = context.job.slab, context.system.slab_limits.age_s
    start = start_of_work(context)
    on = None if start is None else start.date()
    age_s = _age(context, on)
    days_short = None if age_s is None or asked_s is None else whole_days_short(age_s=age_s, asked_s=asked_s)
    ready_on = None
    if slab.poured is not None and asked_s is not None:
        ready_on = slab.poured + timedelta(days=whole_days_short(age_s=0.0, asked_s=asked_s))
    elif on is not None and days_short is not None:
        ready_on = on + timedelta(days=days_short)
    return SlabAge(age_s=age_s, ready_on=ready_on, days_short=days_short)


def _age(context: Context, on: date | None) -> float | None:
    slab = context.job.slab
    if slab.poured is None:
        return slab.age_s
    if on is None:
        context.record.lack("age-needs-start", "/work/start")
        return slab.age_s
    days = (on - slab.poured).days
    if days < 0:
        raise Refused(
            Fault("/slab/poured", Contradiction("poured", other="start", expected=f"{on.isoformat()} or earlier"))
        )
    # neither says the hour, so that an age within the day of the date's own agrees with it
    if slab.age_s is not None and abs(slab.age_s / DAY_S - days) > 1 - GUARD:
        raise Refused(Fault("/slab/age", Contradiction("age", other="poured", expected=f"{days} d")))
    return days * DAY_S if slab.age_s is None else slab.age_s


def age_check(context: Context) -> Check | None:
    """Whether the slab is old enough when the work starts."""
    asked_s = context.system.slab_limits.age_s
    if asked_s is None:
        return None
    age = context.shared(slab_age)
    by_date = context.job.slab.poured is not None and context.job.slab.age_s is None
    limits = Limits(low=asked_s)
    wait = None
    if age.ready_on is not None and age.days_short:
        figure = Figure(age.days_short * DAY_S, "days")
        wait = say("do-age-until", days=figure, date=age.ready_on.isoformat())
    reading = number(
        CheckName.AGE,
        value=age.age_s,
        kind="days",
        limits=limits,
        pointer="/slab/poured" if by_date else "/slab/age",
        do=wait,
    )
    return check_of(CheckName.AGE, reading, limit=limit_of(limits, "days"))


def strength_check(context: Context) -> Check | None:
    """Whether the concrete is strong enough; weak concrete that is young may be tested again."""
    asked_pa = context.system.slab_limits.compressive_strength_pa
    if asked_pa is None:
        return None
    young = may_still_gain(context.shared(slab_age).age_s)
    limits = Limits(low=asked_pa)
    reading = number(
        CheckName.STRENGTH,
        value=context.job.slab.compressive_strength_pa,
        kind="pressure",
        limits=limits,
        pointer="/slab/compressive_strength",
        bad=Verdict.FIX if young else Verdict.STOP,
        do=say("do-strength-young") if young else None,
    )
    return check_of(CheckName.STRENGTH, reading, limit=limit_of(limits, "pressure"))


def strength_to_expect(context: Context) -> ExpectedStrength | None:
    """What the curve lets expect of a slab younger than asked, or than 28 days."""
    age_s = context.shared(slab_age).age_s
    if age_s is None or not may_still_gain(age_s):
        return None
    asked_s = context.system.slab_limits.age_s
    then_s = asked_s if asked_s is not None and whole_days_short(age_s=age_s, asked_s=asked_s) else MATURE_S
    tested_pa = context.job.slab.compressive_strength_pa
    then_pa = None if tested_pa is None else expected_strength(strength_pa=tested_pa, tested_age_s=age_s, age_s=then_s)
    return ExpectedStrength(
        age=Figure(then_s, "days"),
        of_28_days=Figure(100 * strength_fraction(age_s=then_s), "percent"),
        strength=None if then_pa is None else Figure(then_pa, "pressure"),
    )
