"""The air over the floor: as it is at the start of the work, and over time where the job has readings of it.

Decisions:

* Checks of the air, and the dew point that the answers show, are those of the start of the work.
* Readings are instants: without a start nothing is known of the air, and a remark asks for one.
"""

from __future__ import annotations

from datetime import datetime

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.moments import instants_of
from gaugerake.answers.job.remarks import missing
from gaugerake.answers.job.resolved import ResolvedAir
from gaugerake.answers.job.taken import Taken, asked, refused
from gaugerake.floor.job import Air
from gaugerake.floor.slab.air_course import AirCourse, air_course
from gaugerake.floor.values.errors import OutOfOrder
from gaugerake.floor.values.local_time import Zone

READINGS_AT = "/air/readings"


def resolve_air(
    air: Air, zone: Taken[Zone], start: Taken[datetime | None], *, known: Taken[AirCourse] | None = None
) -> ResolvedAir:
    """The air at the start, and its course where there are readings; ``known`` is the same course read before."""
    if not air.readings:
        return ResolvedAir(
            temperature_k=asked(air.temperature_k), humidity_percent=asked(air.humidity_percent), course=None
        )
    course = _course(air, zone) if known is None else known
    faults = (*start.faults, *course.faults)
    if faults:
        return ResolvedAir(temperature_k=refused(faults), humidity_percent=refused(faults), course=course)
    if start.value is None:
        unsaid = missing("air-needs-start", "/work/start")
        return ResolvedAir(temperature_k=asked(None, unsaid), humidity_percent=asked(None, unsaid), course=course)
    now = course.value.at(start.value.timestamp())
    remarks = (*start.remarks, *course.remarks)
    return ResolvedAir(
        temperature_k=asked(now.temperature_k, *remarks),
        humidity_percent=asked(now.humidity_percent, *remarks),
        course=course,
    )


def _course(air: Air, zone: Taken[Zone]) -> Taken[AirCourse]:
    instants = instants_of([reading.at for reading in air.readings], zone, READINGS_AT)
    if instants.faults:
        return refused(instants.faults)
    pairs = zip(instants.value, air.readings, strict=True)
    try:
        course = air_course((at_s, one.temperature_k, one.humidity_percent) for at_s, one in pairs)
    except OutOfOrder as error:
        return refused((Fault(f"{READINGS_AT}/{error.index}/at", error),))
    return asked(course, *instants.remarks)
