"""A bridge, while answers move from ``Context`` to ``ResolvedJob``: reads a resolved value and records its remarks."""

from __future__ import annotations

from datetime import datetime

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.resolve_work import hours_open
from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.cure.course import Course
from gaugerake.floor.job import Shift
from gaugerake.floor.product import Product
from gaugerake.floor.values.errors import FloorError
from gaugerake.floor.values.local_time import Zone

UNSTATED_MIXING_S = 180.0


def zone_of(context: Context) -> Zone:
    """The job's zone."""
    return context.take(context.resolved.work.zone)


def start_of(context: Context) -> datetime | None:
    """When the work begins."""
    return context.take(context.resolved.work.start)


def course_of(context: Context) -> Course:
    """The floor's temperature over time."""
    return context.take(context.resolved.work.course)


def open_hours(context: Context, shifts: tuple[Shift, ...] | None) -> OpenHours:
    """The hours that ``shifts`` leave open."""
    try:
        return hours_open(shifts, context.job.work.closed, context.shared(zone_of))
    except FloorError as error:
        raise Refused(Fault("/work/shifts", error)) from error


def material_temperature_of(context: Context) -> float:
    """The material's temperature when it is mixed [K]."""
    return context.take(context.resolved.work.material_temperature_k)


class CrewRates:
    """The crew's rates, each recorded when it is read."""

    def __init__(self, context: Context) -> None:
        self._context, self._crew = context, context.resolved.work.crew

    @property
    def mixing_stations(self) -> int:
        """How many mixes are made at once."""
        return self._context.take(self._crew.mixing_stations)

    @property
    def placing_rate_m2_s(self) -> float:
        """How fast a body is placed [m²/s]."""
        return self._context.take(self._crew.placing_rate_m2_s)

    @property
    def coating_rate_m2_s(self) -> float:
        """How fast a coat is rolled, or a surface abraded [m²/s]."""
        return self._context.take(self._crew.coating_rate_m2_s)

    @property
    def clearing_rate_m2_s(self) -> float:
        """How fast loose aggregate is scraped and vacuumed [m²/s]."""
        return self._context.take(self._crew.clearing_rate_m2_s)

    @property
    def lane_depth_m(self) -> float:
        """How deep a lane of the pour is [m]."""
        return self._context.take(self._crew.lane_depth_m)

    def seconds_per_mix(self, product: Product) -> float:
        """From one mix of a station to its next [s]."""
        return self._context.take(self._crew.seconds_per_mix(product))


def crew_of(context: Context) -> CrewRates:
    """The job's crew."""
    return CrewRates(context)
