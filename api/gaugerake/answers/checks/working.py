"""The working of a readiness: each figure that somebody may be asked to defend, with what went into it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugerake.answers.checks.base import Check, CheckName
from gaugerake.answers.checks.concrete import slab_age
from gaugerake.answers.checks.moisture import needed_depth
from gaugerake.answers.checks.planned import total_area_m2
from gaugerake.answers.context import Context
from gaugerake.floor.caution import Value
from gaugerake.floor.figure import Figure
from gaugerake.floor.job import PullOffFailure

if TYPE_CHECKING:
    from gaugerake.answers.readiness import Readiness


def work_readiness(context: Context, answer: Readiness) -> None:
    """Note how the figures of ``answer`` came about, when that was asked for."""
    if context.record.working is None:
        return
    _air(context, answer)
    _counts(context, answer)
    _age(context, answer)
    for index, check in enumerate(answer.checks):
        if check.check is CheckName.MOISTURE_EMISSION:
            _dishes(context, check, f"/checks/{index}")
        elif check.check is CheckName.PROBE_DEPTH:
            _probes(context, check, f"/checks/{index}")
        elif check.check is CheckName.PULL_OFF:
            _mean(context, check, f"/checks/{index}")


def _air(context: Context, answer: Readiness) -> None:
    air, now = context.job.air, answer.air
    if now.dew_point is None or air.temperature_k is None or air.humidity_percent is None:
        return
    inputs: dict[str, Value] = {
        "temperature": Figure(air.temperature_k, "temperature"),
        "humidity": Figure(air.humidity_percent, "percent"),
    }
    source = "ASHRAE Handbook, Fundamentals, 2017, ch. 1, eq. 5 and 6 (psychrolib)"
    context.record.work("/air/dew_point", "rule-dew-point", inputs, now.dew_point, source)
    if now.spread is not None:
        apart: dict[str, Value] = {"floor": now.floor_temperature, "dew_point": now.dew_point}
        context.record.work("/air/spread", "rule-spread", apart, now.spread, "ISO 8502-4")


def _counts(context: Context, answer: Readiness) -> None:
    area = Figure(total_area_m2(context), "area")
    for index, test in enumerate(answer.tests_needed):
        if test.test is not CheckName.PULL_OFF and test.needed:
            source = "ASTM F1869" if test.test is CheckName.MOISTURE_EMISSION else "ASTM F2170"
            figure, result = f"/tests_needed/{index}/needed", Figure(float(test.needed), "count")
            context.record.work(figure, "rule-test-count", {"area": area}, result, source)


def _age(context: Context, answer: Readiness) -> None:
    age_s, asked_s = context.shared(slab_age).age_s, context.system.slab_limits.age_s
    if answer.days_to_go and age_s is not None and asked_s is not None:
        ages: dict[str, Value] = {"age": Figure(age_s, "days"), "asked": Figure(asked_s, "days")}
        context.record.work("/days_to_go", "rule-days-to-go", ages, answer.days_to_go, "the system's limits")
    expected, tested_pa = answer.expected_strength, context.job.slab.compressive_strength_pa
    if expected is not None and expected.strength is not None and age_s is not None and tested_pa is not None:
        inputs: dict[str, Value] = {
            "tested": Figure(tested_pa, "pressure"),
            "age": Figure(age_s, "days"),
            "later": expected.age,
        }
        figure, source = "/expected_strength/strength", "ACI 209R, eq. 2-1 (moist cured, Type I cement)"
        context.record.work(figure, "rule-expected-strength", inputs, expected.strength, source)


def _dishes(context: Context, check: Check, pointer: str) -> None:
    for index, dish in enumerate(context.job.slab.moisture_emission):
        if dish.rate_kg_m2_s is not None or dish.gain_kg is None:
            continue
        inputs: dict[str, Value] = {
            "gain": Figure(dish.gain_kg, "small-mass"),
            "exposure": Figure((dish.exposure_hours or 0.0) * 3600, "duration"),
            "area": Figure(dish.area_m2 or 0.0, "small-area"),
        }
        result = _shown(check.readings[index].measured)
        context.record.work(f"{pointer}/readings/{index}/measured", "rule-dish", inputs, result, "ASTM F1869")


def _probes(context: Context, check: Check, pointer: str) -> None:
    slab, needed = context.job.slab, context.shared(needed_depth)
    if needed is None or slab.thickness_m is None:
        return
    share = Figure(100 * needed / slab.thickness_m, "percent")
    inputs: dict[str, Value] = {"thickness": Figure(slab.thickness_m, "small-length"), "share": share}
    result = Figure(needed, "small-length")
    context.record.work(f"{pointer}/limit/low", "rule-probe-depth", inputs, result, "ASTM F2170")


def _mean(context: Context, check: Check, pointer: str) -> None:
    counted = [test for test in context.job.slab.pull_off if test.failure is not PullOffFailure.GLUE]
    if not counted:
        return
    inputs: dict[str, Value] = {
        "count": len(counted),
        "sum": Figure(sum(test.strength_pa for test in counted), "pressure"),
    }
    context.record.work(
        f"{pointer}/measured", "rule-pull-off-mean", inputs, _shown(check.measured), "ASTM C1583 or D7234"
    )


def _shown(measured: Figure | str | bool | None) -> Value:
    return measured
