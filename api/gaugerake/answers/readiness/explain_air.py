"""The dew point, the floor and the spread between them, now and over the planned work, worked out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.course_inputs import Inputs, Told, course_inputs
from gaugerake.answers.job.times import zone_of
from gaugerake.answers.readiness.climate import AirNow, Condensation, air_now, floor_now
from gaugerake.answers.readiness.planned import floor_course, planned_span, start_of_work
from gaugerake.floor.job import Steady
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Value

Found = tuple[str, Inputs, str]
"""The rule, what goes into it, the source."""
JOB = "the job"
ASHRAE = "ASHRAE Handbook, Fundamentals, 2017, ch. 1, eq. 5 and 6 (psychrolib)"
ISO = "ISO 8502-4"


def work_air(context: Context, now: AirNow, spans: Sequence[Condensation]) -> None:
    """Record the working of ``air`` and ``condensation``."""
    air = context.job.air
    if now.floor_temperature is not None:
        rule, inputs, source = floor_found(context)
        context.record.work("/air/floor_temperature", rule, inputs, now.floor_temperature, source)
    if now.dew_point is None or air.temperature_k is None or air.humidity_percent is None:
        return
    said: Inputs = {
        "temperature": Figure(air.temperature_k, "temperature"),
        "humidity": Figure(air.humidity_percent, "percent"),
    }
    context.record.work("/air/dew_point", "rule-dew-point", said, now.dew_point, ASHRAE)
    if now.spread is not None:
        rule, inputs, source = spread_found(context)
        context.record.work("/air/spread", rule, inputs, now.spread, source)
    _work_spans(context, now.dew_point, spans)


def spread_found(context: Context) -> Found:
    """What the spread between floor and dew point is made of."""
    now = context.shared(air_now)
    return "rule-spread", {"floor": now.floor_temperature, "dew_point": now.dew_point}, ISO


def floor_found(context: Context) -> Found:
    """Where the floor's temperature at the start of the work comes from."""
    floor, start = context.shared(floor_now), context.shared(start_of_work)
    assert floor is not None, "only a figure has a working"
    stated: Inputs = {"stated": Figure(floor.temperature_k, "temperature")}
    if floor.assumed:
        return "rule-floor-as-air", stated, JOB
    planned = isinstance(context.job.work.temperatures, Steady)
    if start is None or planned or context.job.slab.temperature_k is not None:
        return "rule-as-stated", stated, JOB
    at_s = start.timestamp()
    course = course_inputs(floor_course(context), context.resolved.work.coldest_at.value, _teller(context), at_s, at_s)
    return "rule-floor-at", {"at": start.isoformat(timespec="seconds"), **course}, JOB


def _work_spans(context: Context, dew_point: Figure, spans: Sequence[Condensation]) -> None:
    planned, asked_k = context.shared(planned_span) if spans else None, context.system.air_limits.dew_point_spread_k
    if planned is None or asked_k is None:
        return
    begun = [planned[0], *(span.until for span in spans)]
    for index, (after, span) in enumerate(zip(begun, spans, strict=False)):
        inputs: Inputs = {
            "dew_point": dew_point,
            "asked": Figure(asked_k, "temperature-difference"),
            "after": _told(after),
            "work_ends": _told(planned[1]),
            **_floor(context, after, span.until),
        }
        for figure, result in _figures(span).items():
            rule = f"rule-condensation-{figure.replace('_', '-')}"
            context.record.work(f"/condensation/{index}/{figure}", rule, inputs, result, ISO)


def _figures(span: Condensation) -> dict[str, Value]:
    return {"from": _told(span.from_), "until": _told(span.until), "least_spread": span.least_spread}


def _floor(context: Context, after: datetime, until: datetime) -> Inputs:
    coldest_at = context.resolved.work.coldest_at.value
    return course_inputs(floor_course(context), coldest_at, _teller(context), after.timestamp(), until.timestamp())


def _told(at: datetime) -> str:
    return at.isoformat(timespec="seconds")


def _teller(context: Context) -> Told:
    return lambda instant_s: _told(context.shared(zone_of).datetime_at(instant_s))
