"""What the slab is: its substrate, its age, its strength."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark, missing
from gaugerake.answers.job.sources import JOB
from gaugerake.answers.readiness.derivation import Derivation, as_stated
from gaugerake.answers.readiness.entry import CheckEntry
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import Finding, Reading, limit_of, make_finding
from gaugerake.floor.slab.strength import DAY_S, may_still_gain
from gaugerake.floor.slab.surface import Substrate, substrate
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.range import Limits

AGE = "age"


def substrate_check(entry: CheckEntry, facts: Facts) -> Finding:
    """Concrete, or something that the system's limits were not made for."""
    words, pointer = facts.slab.substrate, "/slab/substrate"
    if words is None:
        return make_finding(decisive=entry.untested(pointer))
    kind = substrate(words)
    fine = kind is Substrate.CONCRETE
    reading = Reading(
        pointer=pointer,
        measured=words,
        verdict=Verdict.GO if fine else Verdict.STOP,
        because=entry.why(kind or "unknown", words=words),
        do=None if fine else entry.remedy("other"),
    )
    return make_finding(decisive=reading)


def substrate_remarks(facts: Facts) -> Iterator[Remark]:
    """A substrate that nobody named is taken to be concrete."""
    yield from facts.resolved.substrate.remarks


def age_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """Whether the slab is old enough when the work starts."""
    asked_s, age, slab = facts.limits.age_s, facts.age, facts.slab
    if asked_s is None:
        return None
    by_date = slab.poured is not None and slab.age_s is None
    limits = Limits(low=asked_s)
    wait = None
    if age.days_short and age.ready_on is not None:
        wait = entry.remedy("until", days=Figure(age.days_short * DAY_S, Kind.DAYS), date=age.ready_on.isoformat())
    reading = entry.number(
        value=age.age_s,
        kind=Kind.DAYS,
        limits=limits,
        pointer="/slab/poured" if by_date else "/slab/age",
        do=wait,
    )
    return make_finding(decisive=reading, limit=limit_of(limits, Kind.DAYS))


def age_remarks(facts: Facts) -> Iterator[Remark]:
    """What the start of the work rests on; without one the date of the pour gives no age."""
    start = facts.resolved.work.start
    yield from start.remarks
    if start.value is None and facts.slab.poured is not None:
        yield missing("age-needs-start", "/work/start")


def age_from(facts: Facts, finding: Finding) -> Derivation:
    """The working of the slab's age: from the dates of its pour and of the start, unless the job states it."""
    slab, start = facts.slab, facts.resolved.work.start.value
    if slab.poured is None or start is None or slab.age_s is not None:
        return as_stated(facts, finding)
    return Derivation(
        "rule-age-from-dates", {"poured": slab.poured.isoformat(), "start": start.date().isoformat()}, JOB
    )


def strength_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """Whether the concrete is strong enough; weak concrete that is young may be tested again."""
    asked_pa = facts.limits.compressive_strength_pa
    if asked_pa is None:
        return None
    young = may_still_gain(facts.age.age_s)
    limits = Limits(low=asked_pa)
    reading = entry.number(
        value=facts.slab.compressive_strength_pa,
        kind=Kind.PRESSURE,
        limits=limits,
        pointer="/slab/compressive_strength",
        bad=Verdict.FIX if young else Verdict.STOP,
        do=entry.remedy("young") if young else None,
    )
    return make_finding(decisive=reading, limit=limit_of(limits, Kind.PRESSURE))
