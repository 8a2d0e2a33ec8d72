"""The floor's and the air's temperature, the air's humidity, and how far the floor is above the dew point."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark
from gaugerake.answers.readiness.air import air_pointer
from gaugerake.answers.readiness.entry import CheckEntry
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import Finding, limit_of, make_finding
from gaugerake.floor.slab.verdict import Verdict, stated
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.range import Limits


def slab_temperature_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The floor's temperature, measured or planned: the air's does not stand for it."""
    floor, limits = facts.floor, facts.limits.temperature_k
    if floor is None or floor.assumed:
        return _ranged(entry, None, Kind.TEMPERATURE, limits, "/slab/temperature")
    return _ranged(entry, floor.temperature_k, Kind.TEMPERATURE, limits, floor.pointer)


def floor_remarks(facts: Facts) -> Iterator[Remark]:
    """What the floor's temperature at the start rests on, unless it was measured."""
    work = facts.resolved.work
    if facts.slab.temperature_k is not None:
        return
    yield from work.start.remarks
    if work.floor_varies and work.start.value is not None:
        yield from work.course.remarks


def air_temperature_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The temperature of the air."""
    value, limits = facts.resolved.air.temperature_k.value, facts.resolved.system.air_limits.temperature_k
    return _ranged(entry, value, Kind.TEMPERATURE, limits, air_pointer(facts.resolved, "temperature"))


def air_humidity_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The humidity of the air."""
    value, limits = facts.resolved.air.humidity_percent.value, facts.resolved.system.air_limits.humidity_percent
    return _ranged(entry, value, Kind.PERCENT, limits, air_pointer(facts.resolved, "humidity_percent"))


def air_remarks(facts: Facts) -> Iterator[Remark]:
    """What readings of the air rest on."""
    yield from facts.resolved.air.temperature_k.remarks


def _ranged(entry: CheckEntry, value: float | None, kind: Kind, limits: Limits, pointer: str) -> Finding | None:
    if not stated(limits):
        return None
    reading = entry.number(value=value, kind=kind, limits=limits, pointer=pointer)
    return make_finding(decisive=reading, limit=limit_of(limits, kind))


def spread_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """How far the floor is above the dew point; with a floor that is only the air's it can fail, but not pass."""
    asked_k, floor, now = facts.resolved.system.air_limits.dew_point_spread_k, facts.floor, facts.air
    if asked_k is None:
        return None
    limits = Limits(low=asked_k)
    limit = limit_of(limits, Kind.TEMPERATURE_DIFFERENCE)
    if now.spread is None or floor is None:
        return make_finding(decisive=entry.untested(_unsaid(facts)), limit=limit)
    reading = entry.number(
        value=now.spread.value,
        kind=Kind.TEMPERATURE_DIFFERENCE,
        limits=limits,
        pointer=floor.pointer,
        dew_point=now.dew_point,
        floor=now.floor_temperature,
    )
    if now.spread.value < 0:
        colder = Figure(-now.spread.value, Kind.TEMPERATURE_DIFFERENCE)
        reading = replace(reading, because=entry.why("colder", colder=colder, **reading.because.params))
    if floor.assumed and reading.verdict is Verdict.GO:
        because = entry.why("assumed", **reading.because.params)
        reading = replace(reading, verdict=Verdict.UNTESTED, because=because, do=entry.remedy("untested"))
    return make_finding(decisive=reading, limit=limit)


def _unsaid(facts: Facts) -> str:
    """What keeps the spread from being known."""
    if facts.dew_point_k is not None:
        return "/slab/temperature"
    field = "temperature" if facts.resolved.air.temperature_k.value is None else "humidity_percent"
    return air_pointer(facts.resolved, field)


def spread_remarks(facts: Facts) -> Iterator[Remark]:
    """Remarks on what the spread rests on: the floor, which may be taken to be as warm as the air, and the air."""
    yield from floor_remarks(facts)
    yield from air_remarks(facts)
    if facts.air.spread is not None and facts.floor is not None and facts.floor.assumed:
        yield from facts.resolved.work.course.remarks
