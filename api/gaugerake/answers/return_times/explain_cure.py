"""The maturity of a layer in the working: the inputs from which a reader computes a cure by hand."""

from __future__ import annotations

from functools import partial

from gaugerake.answers.job.course_inputs import Inputs, course_inputs
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.floor.cure.curve import Column, TimeCurve, time_at
from gaugerake.floor.cure.maturity import Milestone
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Value
from gaugerake.floor.values.range import Limits


def cure_inputs(
    timetable: Timetable, from_s: float, curve: TimeCurve, column: Column, cure: Milestone, limits_k: Limits
) -> Inputs:
    """What the end of a cure is worked out from, and what held it up."""
    stopped, capped = Figure(cure.stopped_s, Kind.DURATION), Figure(cure.capped_s, Kind.DURATION)
    inputs = maturity_inputs(timetable, from_s, curve, column, cure.at_s, limits_k)
    return {**inputs, "stood_still": stopped, "capped": capped}


def maturity_inputs(
    timetable: Timetable, from_s: float, curve: TimeCurve, column: Column, until_s: float | None, limits_k: Limits
) -> Inputs:
    """The instant that maturity counts from, the floor and the table's time then, the table, and the floor's course."""
    course = timetable.basis.course
    floor_k, last_s = course.at(from_s), from_s if until_s is None else until_s
    return {
        "work_ends": said(timetable, from_s),
        "floor_then": Figure(floor_k, Kind.TEMPERATURE),
        "time_at_that": Figure(time_at(curve, temperature_k=floor_k, column=column), Kind.DURATION),
        **curve_inputs(curve, column),
        **limit_inputs(limits_k),
        **course_inputs(course, timetable.coldest_at, partial(said, timetable), from_s, last_s),
    }


def curve_inputs(curve: TimeCurve, column: Column) -> Inputs:
    """The rows of a maker's table in one of its columns, and what it goes on with beyond them."""
    inputs: Inputs = {"activation_energy_kj_mol": curve.activation_energy_j_mol / 1000}
    for number, point in enumerate(curve.points, start=1):
        inputs[f"row_{number}_at"] = Figure(point.temperature_k, Kind.TEMPERATURE)
        inputs[f"row_{number}_takes"] = Figure(getattr(point, f"{column}_s"), Kind.DURATION)
    return inputs


def limit_inputs(limits_k: Limits) -> Inputs:
    """A product's temperatures, as far as it states them."""
    ends = {"product_low": limits_k.low, "product_high": limits_k.high}
    return {name: Figure(end_k, Kind.TEMPERATURE) for name, end_k in ends.items() if end_k is not None}


def said(timetable: Timetable, instant_s: float | None) -> Value:
    """An instant as it stands in a working: on the wall clock, or as hours from the start."""
    basis = timetable.basis
    if instant_s is None:
        return None
    if not basis.timed:
        return Figure(instant_s - basis.start_s, Kind.DURATION)
    return timetable.zone.datetime_at(instant_s).isoformat(timespec="seconds")
