"""The dew point, the floor and the spread between them, now and over the planned work, explained."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime

from gaugerake.answers.job.course_inputs import Inputs, course_inputs
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.sources import JOB
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.readiness.ahead import Condensation, PlannedSpan
from gaugerake.answers.readiness.derivation import Derivation, as_stated, stated
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import Finding
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say, Value

ASHRAE = Say(code="source-dew-point")
ISO = "ISO 8502-4"


def explain_air(facts: Facts, spans: Sequence[Condensation], planned: PlannedSpan) -> Iterator[Working]:
    """The working of ``air`` and ``condensation``."""
    now = facts.air
    temperature_k, humidity = facts.resolved.air.temperature_k.value, facts.resolved.air.humidity_percent.value
    if now.floor_temperature is not None:
        yield floor_from(facts).of("/air/floor_temperature", now.floor_temperature)
    if now.dew_point is None or temperature_k is None or humidity is None:
        return
    said: Inputs = {
        "temperature": Figure(temperature_k, Kind.TEMPERATURE),
        "humidity": Figure(humidity, Kind.PERCENT),
    }
    yield working("/air/dew_point", "rule-dew-point", said, now.dew_point, ASHRAE)
    if now.spread is not None:
        yield spread_from(facts).of("/air/spread", now.spread)
    yield from _spans(facts, now.dew_point, spans, planned)


def spread_from(facts: Facts, _finding: Finding | None = None) -> Derivation:
    """What the spread between floor and dew point is made of."""
    now = facts.air
    return Derivation("rule-spread", {"floor": now.floor_temperature, "dew_point": now.dew_point}, ISO)


def air_temperature_from(facts: Facts, finding: Finding) -> Derivation:
    """As the job states it, or from its readings at the start of the work."""
    return _air_from(facts, finding, "rule-air-temperature-at")


def air_humidity_from(facts: Facts, finding: Finding) -> Derivation:
    """As the job states it, or from its readings at the start of the work."""
    return _air_from(facts, finding, "rule-air-humidity-at")


def _air_from(facts: Facts, finding: Finding, rule: str) -> Derivation:
    start = facts.resolved.work.start.value
    if facts.resolved.air.course is None or start is None:
        return as_stated(facts, finding)
    return Derivation(rule, {"at": _instant(start), **_air_course(facts.resolved, start, start)}, JOB)


def floor_from(facts: Facts, _finding: Finding | None = None) -> Derivation:
    """Where the floor's temperature at the start of the work comes from."""
    resolved, floor = facts.resolved, facts.floor
    assert floor is not None, "only a figure has a working"
    temperature = Figure(floor.temperature_k, Kind.TEMPERATURE)
    if floor.assumed:
        return Derivation("rule-floor-as-air", {"stated": temperature}, JOB)
    start = resolved.work.start.value
    if start is None or not resolved.work.floor_varies or facts.slab.temperature_k is not None:
        return stated(temperature)
    return Derivation("rule-floor-at", {"at": _instant(start), **_course(resolved, start, start)}, JOB)


def _spans(facts: Facts, dew_point: Figure, spans: Sequence[Condensation], planned: PlannedSpan) -> Iterator[Working]:
    asked_k = facts.resolved.system.air_limits.dew_point_spread_k
    if planned.span is None or asked_k is None:
        return
    begins, ends = planned.span
    begun = [begins, *(span.until for span in spans)]
    for index, (after, span) in enumerate(zip(begun, spans, strict=False)):
        changing = facts.resolved.air.course is not None
        inputs: Inputs = {
            **(_air_course(facts.resolved, after, span.until) if changing else {"dew_point": dew_point}),
            "asked": Figure(asked_k, Kind.TEMPERATURE_DIFFERENCE),
            "after": _instant(after),
            "work_ends": _instant(ends),
            **_course(facts.resolved, after, span.until),
        }
        for figure, result in _figures(span).items():
            rule = f"rule-condensation-{figure.replace('_', '-')}{'-readings' if changing else ''}"
            yield working(f"/condensation/{index}/{figure}", rule, inputs, result, ISO)


def _figures(span: Condensation) -> Mapping[str, Value]:
    return {"from": _instant(span.from_), "until": _instant(span.until), "least_spread": span.least_spread}


def _air_course(resolved: ResolvedJob, after: datetime, until: datetime) -> Inputs:
    """The readings of the air from the last before a span to the first after it."""
    course, zone = resolved.air.course, resolved.work.zone.value
    if course is None:
        return {}
    instants_s = course.value.instants_s
    first = max(0, bisect_right(instants_s, after.timestamp()) - 1)
    last = min(len(instants_s) - 1, bisect_left(instants_s, until.timestamp()))
    inputs: Inputs = {}
    for number, index in enumerate(range(first, last + 1), 1):
        state = course.value.states[index]
        inputs[f"air_{number}_at"] = _instant(zone.datetime_at(instants_s[index]))
        inputs[f"air_{number}_temperature"] = Figure(state.temperature_k, Kind.TEMPERATURE)
        inputs[f"air_{number}_humidity"] = Figure(state.humidity_percent, Kind.PERCENT)
    return inputs


def _course(resolved: ResolvedJob, after: datetime, until: datetime) -> Inputs:
    """The floor's temperature between two instants of the job's zone."""
    work = resolved.work
    zone = work.zone.value

    def shown(instant_s: float) -> str:
        return _instant(zone.datetime_at(instant_s))

    return course_inputs(work.course.value, work.coldest_at.value, shown, after.timestamp(), until.timestamp())


def _instant(at: datetime) -> str:
    return at.isoformat(timespec="seconds")
