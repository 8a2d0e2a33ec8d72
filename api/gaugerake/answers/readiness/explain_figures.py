"""What each check measured and what limits it, worked out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.times import start_of
from gaugerake.answers.readiness.base import Check, CheckName
from gaugerake.answers.readiness.explain_air import Found, floor_found, spread_found
from gaugerake.answers.readiness.explain_tests import JOB, counts_of
from gaugerake.answers.readiness.layout import asked_thicknesses
from gaugerake.answers.readiness.moisture import Kind, moisture_kinds, needed_depth
from gaugerake.answers.readiness.planned import total_area_m2
from gaugerake.answers.readiness.surface import profiles
from gaugerake.floor.job import PullOffFailure
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Value

PULLS = "ASTM C1583 or D7234"


def work_check(context: Context, check: Check, at: str) -> None:
    """Record the working of every figure of a check."""
    _work_readings(context, check, at)
    _work_limits(context, check, at)
    if not isinstance(check.measured, Figure):
        return
    rule, inputs, source = MEASURED.get(check.check, _as_stated)(context, check)
    context.record.work(f"{at}/measured", rule, inputs, check.measured, source)


def _work_readings(context: Context, check: Check, at: str) -> None:
    for index, reading in enumerate(check.readings):
        dish = _dish(context, index) if check.check is CheckName.MOISTURE_EMISSION else None
        if isinstance(reading.measured, Figure) or dish is not None:
            rule, inputs, source = dish or ("rule-as-stated", {"stated": reading.measured}, JOB)
            context.record.work(f"{at}/readings/{index}/measured", rule, inputs, reading.measured, source)


def _dish(context: Context, index: int) -> Found | None:
    dish = context.job.slab.moisture_emission[index]
    if dish.rate_kg_m2_s is not None or dish.gain_kg is None:
        return None
    inputs: Inputs = {
        "gain": Figure(dish.gain_kg, "small-mass"),
        "exposure": Figure((dish.exposure_hours or 0.0) * 3600, "duration"),
        "area": Figure(dish.area_m2 or 0.0, "small-area"),
    }
    return "rule-dish", inputs, "ASTM F1869"


def _work_limits(context: Context, check: Check, at: str) -> None:
    for end in ("low", "high") if check.limit is not None else ():
        limit = getattr(check.limit, end)
        if limit is not None:
            rule, inputs, source = _limit(context, check, limit)
            context.record.work(f"{at}/limit/{end}", rule, inputs, limit, source)


def _limit(context: Context, check: Check, limit: Figure) -> Found:
    if check.check is CheckName.TEST_COUNT:
        return "rule-test-count", {"area": Figure(total_area_m2(context), "area")}, check.source
    if check.check is CheckName.CONTAMINANTS:
        return "rule-limit-none", {}, check.source
    needed, thickness_m = context.shared(needed_depth), context.job.slab.thickness_m
    if check.check is CheckName.PROBE_DEPTH and needed is not None and thickness_m is not None:
        share = Figure(100 * needed / thickness_m, "percent")
        return "rule-probe-depth", {"thickness": Figure(thickness_m, "small-length"), "share": share}, "ASTM F2170"
    return "rule-listed", {"listed": limit}, f"catalogue: system {context.system.code}"


def _as_stated(_context: Context, check: Check) -> Found:
    return "rule-as-stated", {"stated": check.measured}, JOB


def _age(context: Context, check: Check) -> Found:
    slab, start = context.job.slab, context.shared(start_of)
    if slab.poured is None or start is None or slab.age_s is not None:
        return _as_stated(context, check)
    return "rule-age-from-dates", {"poured": slab.poured.isoformat(), "start": start.date().isoformat()}, JOB


def _wettest(kind: Kind, check: Check) -> Found:
    inputs: Inputs = {"limit": None if check.limit is None else check.limit.high}
    inputs |= _numbered(reading.measured for reading in kind.readings)
    return "rule-wettest", inputs | counts_of(kind), check.source


def _shallowest(_context: Context, check: Check) -> Found:
    return "rule-shallowest", _numbered(reading.measured for reading in check.readings), check.source


def _most_tests(context: Context, check: Check) -> Found:
    active = [kind for kind in context.shared(moisture_kinds) if kind.active]
    return "rule-most-tests", {kind.name.value: kind.counted for kind in active}, JOB


def _contaminants(context: Context, _check: Check) -> Found:
    words = enumerate(context.job.slab.contaminants or (), 1)
    return "rule-contaminants-counted", {f"contaminant_{number}": word for number, word in words}, JOB


def _joints(context: Context, _check: Check) -> Found:
    rooms = enumerate(context.job.rooms, 1)
    return (
        "rule-joints-counted",
        {f"room_{number}": len(room.joints) for number, room in rooms if room.joints is not None},
        JOB,
    )


def _profile(context: Context, check: Check) -> Found:
    said = (None if csp is None else Figure(float(csp), "csp") for _, csp in profiles(context))
    return "rule-farthest-out", _ends(check) | _numbered(said), JOB


def _thickness(context: Context, check: Check) -> Found:
    asked = (Figure(value, "small-length") for value in asked_thicknesses(context).values())
    return "rule-first-out", _ends(check) | _numbered(asked), JOB


def _slope(context: Context, _check: Check) -> Found:
    slopes = (room.slope_percent for room in context.job.rooms)
    return "rule-steepest", _numbered(None if slope is None else Figure(slope, "percent") for slope in slopes), JOB


def _mean(context: Context, _check: Check) -> Found:
    counted = {
        f"test_{number}": Figure(pull.strength_pa, "pressure")
        for number, pull in enumerate(context.job.slab.pull_off, 1)
        if pull.failure is not PullOffFailure.GLUE
    }
    whole = Figure(sum(pull.value for pull in counted.values()), "pressure")
    return "rule-pull-off-mean", {"count": len(counted), "sum": whole, **counted}, PULLS


def _ends(check: Check) -> Inputs:
    return {} if check.limit is None else {"low": check.limit.low, "high": check.limit.high}


def _numbered(values: Iterable[Value]) -> Inputs:
    """What was said, by its number; what was not said is left out."""
    return {f"reading_{number}": value for number, value in enumerate(values, 1) if value is not None}


MEASURED: Mapping[CheckName, Callable[[Context, Check], Found]] = {
    CheckName.AGE: _age,
    CheckName.MOISTURE_EMISSION: lambda context, check: _wettest(context.shared(moisture_kinds)[0], check),
    CheckName.RELATIVE_HUMIDITY: lambda context, check: _wettest(context.shared(moisture_kinds)[1], check),
    CheckName.PROBE_DEPTH: _shallowest,
    CheckName.TEST_COUNT: _most_tests,
    CheckName.CONTAMINANTS: _contaminants,
    CheckName.PROFILE: _profile,
    CheckName.PULL_OFF: _mean,
    CheckName.SLOPE: _slope,
    CheckName.JOINTS: _joints,
    CheckName.THICKNESS: _thickness,
    CheckName.SLAB_TEMPERATURE: lambda context, _check: floor_found(context),
    CheckName.DEW_POINT_SPREAD: lambda context, _check: spread_found(context),
}
"""What makes the figure of a check; every other one is as stated."""
