"""The air and the floor at the start of the work: dew point, floor temperature and the spread between them."""

from __future__ import annotations

from typing import Annotated

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.slab.air import dew_point, spread
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class AirNow:
    """The air over the floor at the start; what cannot be known is null."""

    dew_point: Annotated[
        Figure | None, "Of the air at the start; null unless its temperature and its humidity are known."
    ]
    spread: Annotated[Figure | None, "The floor's temperature less the dew point."]
    floor_temperature: Annotated[Figure | None, "As measured, planned, or taken to be the air's."]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorNow:
    """The floor's temperature at the start [K], where it was said, and whether it is only the air's."""

    temperature_k: float
    pointer: str
    assumed: bool


def floor_now(resolved: ResolvedJob) -> FloorNow | None:
    """The floor's temperature at the start: as measured, else as planned for it, else the air's.

    Raises
    ------
    Refused
        When the start or the temperatures that it depends on cannot be.
    """
    measured_k, planned = resolved.slab.temperature_k, resolved.work.course
    if measured_k is not None:
        return FloorNow(temperature_k=measured_k, pointer="/slab/temperature", assumed=False)
    if not planned.stated:
        return _as_air(resolved.air.temperature_k.value)
    if isinstance(planned.found, SteadyCourse):
        return FloorNow(temperature_k=planned.found.temperature_k, pointer="/work/temperatures/steady", assumed=False)
    start = resolved.work.start.value
    if start is None:
        return None
    temperature_k = planned.value.at(start.timestamp())
    return FloorNow(temperature_k=temperature_k, pointer="/work/temperatures", assumed=False)


def _as_air(temperature_k: float | None) -> FloorNow | None:
    if temperature_k is None:
        return None
    return FloorNow(temperature_k=temperature_k, pointer="/slab/temperature", assumed=True)


def dew_point_now(resolved: ResolvedJob) -> float | None:
    """The dew point of the air at the start [K]; None when its temperature or humidity is not known.

    Raises
    ------
    Refused
        When the readings of the air, or the start, cannot be.
    """
    temperature_k, humidity = resolved.air.temperature_k.value, resolved.air.humidity_percent.value
    if temperature_k is None or humidity is None:
        return None
    return dew_point(temperature_k=temperature_k, humidity_percent=humidity)


def air_now(dew_point_k: float | None, floor: FloorNow | None) -> AirNow:
    """Dew point, floor and the spread between them."""
    apart = None
    if dew_point_k is not None and floor is not None:
        apart = spread(floor_temperature_k=floor.temperature_k, dew_point_k=dew_point_k)
    return AirNow(
        dew_point=None if dew_point_k is None else Figure(dew_point_k, Kind.TEMPERATURE),
        spread=None if apart is None else Figure(apart, Kind.TEMPERATURE_DIFFERENCE),
        floor_temperature=None if floor is None else Figure(floor.temperature_k, Kind.TEMPERATURE),
    )


def air_pointer(resolved: ResolvedJob, field: str) -> str:
    """Where the job says a field of the air: its readings, where it has them."""
    return f"/air/{field}" if resolved.air.course is None else "/air/readings"
