"""When the crew reads the temperatures of floor and air, and how far the floor is above the dew point."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import datetime
from itertools import pairwise
from typing import Annotated

from gaugerake.answers.day_sheet.dated import DatedWork
from gaugerake.floor.clock.days import WorkDay
from gaugerake.floor.clock.timetable import StepKind
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass

LONGEST_GAP_S = 4 * 3600.0
"""The longest time between two readings [s]: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteReading:
    """An hour at which floor, air and spread are to be written down."""

    at: Annotated[datetime, "When to read, with the offset of the job's zone."]
    planned_floor: Annotated[Figure, "The floor's temperature then, as the timetable plans with it."]


def reading_times_s(work: DatedWork, day: WorkDay) -> tuple[float, ...]:
    """The instants of a day's readings [s]: when work and each layer begins, every four hours, when work ends."""
    laid = {need.layer.id for need in work.takeoff.layers if need.layer.laid is Laid.ON}
    fixed = {_minute(day.from_s), _minute(day.until_s)}
    for part in day.parts:
        step = work.steps[part.step]
        if step.kind is StepKind.APPLY and step.layer in laid:
            fixed.add(_minute(part.from_s))
    return tuple(_filled(sorted(fixed)))


def _minute(at_s: float) -> float:
    """The minute in which an instant lies: a reading is taken before the work that it is for."""
    return math.floor((at_s + 1e-3) / 60) * 60.0


def _filled(fixed: list[float]) -> Iterator[float]:
    """The fixed readings, with further ones between any two that are more than four hours apart."""
    for from_s, until_s in pairwise(fixed):
        count = max(1, math.ceil((until_s - from_s) / LONGEST_GAP_S - 1e-9))
        yield from (from_s + step * LONGEST_GAP_S for step in range(count))
    yield fixed[-1]


def day_readings(work: DatedWork, day: WorkDay) -> tuple[SiteReading, ...]:
    """The readings of a day."""
    zone, course = work.timetable.zone, work.timetable.basis.course
    return tuple(
        SiteReading(at=zone.datetime_at(at_s), planned_floor=Figure(course.at(at_s), Kind.TEMPERATURE))
        for at_s in reading_times_s(work, day)
    )
