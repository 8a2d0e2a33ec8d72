"""When and how the work is done: the job's zone, start, temperatures, shifts and crew, and what is taken when unsaid.

Each function is called as ``context.shared(zone_of)``; what it assumes is then noted once.
"""

from __future__ import annotations

from datetime import date, datetime, time
from functools import cached_property, lru_cache

from gaugerake.answers.job import assume
from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Fault, Faults, Refused
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock, Shifts
from gaugerake.floor.cure.course import Course, SteadyCourse, daily_course, logged_course
from gaugerake.floor.job import Crew, Daily, Readings, Shift, Steady, Weekday
from gaugerake.floor.pour.edge import GUARD
from gaugerake.floor.product import Product
from gaugerake.floor.values.errors import Contradiction, FloorError, OutOfOrder
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.local_time import Zone, instant_of, zone_named
from gaugerake.floor.values.note import Say

USUAL_ZONE = "UTC"
COLDEST_AT = time(5, 0)
WORKING_DAYS = (Weekday.MON, Weekday.TUE, Weekday.WED, Weekday.THU, Weekday.FRI)
USUAL_SHIFTS = (Shift(days=WORKING_DAYS, starts=time(7, 0), ends=time(15, 30)),)
ALL_HOURS = (Shift(days=tuple(Weekday), starts=time(0, 0), ends=time(0, 0)),)

STATION_COUNT = 1
CHANGE_S = 90.0  # from the end of one mix to the start of the next
UNSTATED_MIXING_S = 180.0
PLACING_RATE_M2_S = 600 * 0.3048**2 / 3600  # 600 ft²/h
CLEARING_RATE_M2_S = 2000 * 0.3048**2 / 3600  # 2000 ft²/h
LANE_DEPTH_M = 3 * 0.3048  # 3 ft


def zone_of(context: Context) -> Zone:
    """The job's zone, else UTC.

    Raises
    ------
    Refused
        When there is no such zone.
    """
    name = context.job.work.zone
    if name is None:
        context.record.assume("zone-utc", "/work/zone", USUAL_ZONE)
        name = USUAL_ZONE
    try:
        return zone_named(name)
    except FloorError as error:
        raise Refused(Fault("/work/zone", error)) from error


def start_of(context: Context) -> datetime | None:
    """When the work begins, in the job's zone; None when the job does not say."""
    return _moment(context, context.job.work.start, "/work/start")


def reopen_by_of(context: Context) -> datetime | None:
    """When traffic must be back, in the job's zone; None when the job does not say."""
    return _moment(context, context.job.work.reopen_by, "/work/reopen_by")


def _moment(context: Context, local: datetime | None, pointer: str) -> datetime | None:
    if local is None:
        return None
    zone = context.shared(zone_of)
    faults = Faults()
    with faults.at(pointer):
        return zone.datetime_at(_instant(context, local, pointer))
    faults.raise_any()
    return None


def _instant(context: Context, local: datetime, pointer: str) -> float:
    """The instant of a time of the job; of two, the first, which is noted."""
    instant = instant_of(local, zone=context.shared(zone_of), parameter=pointer.rsplit("/", 1)[-1])
    if instant.twice:
        context.record.assume("first-of-two-times", pointer, local.isoformat(timespec="minutes"))
    return instant.at_s


def course_of(context: Context) -> Course:
    """The floor's temperature, else the slab's, else the air's, else the system's reference, held.

    Raises
    ------
    Refused
        When readings are unsorted, doubled or at a time that does not exist, or a daily low is above the high.
    """
    asked = context.job.work.temperatures
    if isinstance(asked, Steady):
        return SteadyCourse(temperature_k=asked.temperature_k)
    if isinstance(asked, Daily):
        return _daily(context, asked)
    if isinstance(asked, Readings):
        return _logged(context, asked)
    return SteadyCourse(temperature_k=_taken_temperature(context))


def _taken_temperature(context: Context) -> float:
    for code, temperature_k in (
        ("floor-as-slab", context.job.slab.temperature_k),
        ("floor-as-air", context.job.air.temperature_k),
        ("floor-at-reference", context.system.reference_temperature_k),
    ):
        if temperature_k is not None:
            context.record.assume(code, "/work/temperatures", Figure(temperature_k, "temperature"))
            break
    context.record.lack("floor-temperatures-unsaid", "/work/temperatures")
    assert temperature_k is not None
    return temperature_k


def coldest_at_of(context: Context, asked: Daily) -> time:
    """When the daily wave is lowest: as the job says, else 05:00."""
    if asked.coldest_at is None:
        text = COLDEST_AT.isoformat(timespec="minutes")
        context.record.assume("coldest-at", "/work/temperatures/daily/coldest_at", text)
        return COLDEST_AT
    return asked.coldest_at


def _daily(context: Context, asked: Daily) -> Course:
    coldest = coldest_at_of(context, asked)
    try:
        return daily_course(
            low_k=asked.low_k,
            high_k=asked.high_k,
            coldest_at_s=coldest.hour * 3600.0 + coldest.minute * 60.0 + coldest.second,
            zone=context.shared(zone_of),
        )
    except FloorError as error:
        raise Refused(Fault("/work/temperatures/daily/low", error)) from error


def _logged(context: Context, asked: Readings) -> Course:
    faults = Faults()
    rows: list[tuple[float, float]] = []
    for index, reading in enumerate(asked.readings):
        pointer = f"/work/temperatures/readings/{index}/at"
        with faults.at(pointer):
            rows.append((_instant(context, reading.at, pointer), reading.temperature_k))
    faults.raise_any()
    try:
        return logged_course(rows)
    except OutOfOrder as error:
        raise Refused(Fault(f"/work/temperatures/readings/{error.index}/at", error)) from error


def listed_shifts_of(context: Context) -> tuple[Shift, ...] | None:
    """The shifts as the job lists them, else Monday to Friday 07:00 to 15:30; None round the clock.

    Raises
    ------
    Refused
        When the job lists shifts and says that work goes round the clock.
    """
    work = context.job.work
    if work.round_the_clock and work.shifts is not None:
        error = Contradiction("round_the_clock", other="shifts", expected="false")
        raise Refused(Fault("/work/round_the_clock", error))
    if work.round_the_clock:
        return None
    if work.shifts is None:
        context.record.assume("shifts-usual", "/work/shifts", None)
        return USUAL_SHIFTS
    return work.shifts


def open_hours(context: Context, shifts: tuple[Shift, ...] | None) -> OpenHours:
    """The hours that ``shifts`` leave open in the job's zone, but for its closed dates.

    Raises
    ------
    Refused
        When the shifts never open.
    """
    closed = context.job.work.closed
    if shifts is None and not closed:
        return RoundTheClock()
    try:
        return _kept_shifts(ALL_HOURS if shifts is None else shifts, closed, context.shared(zone_of))
    except FloorError as error:
        raise Refused(Fault("/work/shifts", error)) from error


@lru_cache(maxsize=64)
def _kept_shifts(shifts: tuple[Shift, ...], closed: tuple[date, ...], zone: Zone) -> Shifts:
    """Shifts, kept with the days that they have been asked for: whoever fills in a job asks again and again."""
    return Shifts(shifts=shifts, closed=closed, zone=zone)


def shifts_of(context: Context) -> OpenHours:
    """When the crew works.

    Raises
    ------
    Refused
        When the shifts never open, or contradict ``round_the_clock``.
    """
    return open_hours(context, context.shared(listed_shifts_of))


def material_temperature_of(context: Context) -> float:
    """The material's temperature when it is mixed [K]."""
    return assume.material_temperature(context)


def preparation_of(context: Context) -> float:
    """How long the slab is prepared before the first layer [s]."""
    preparation = context.job.work.preparation_s
    if preparation is None:
        context.record.assume("no-preparation", "/work/preparation", Figure(0.0, "duration"))
        return 0.0
    return preparation


class CrewRates:
    """Who does the work and how fast; what is taken for a rate is noted when the rate is first used."""

    def __init__(self, context: Context, crew: Crew) -> None:
        self._context, self._crew = context, crew

    @cached_property
    def mixing_stations(self) -> int:
        """How many mixes are made at once."""
        if self._crew.mixing_stations is None:
            self._assume("crew-stations", "mixing_stations", Figure(STATION_COUNT, "count"))
            return STATION_COUNT
        return self._crew.mixing_stations

    @cached_property
    def placing_rate_m2_s(self) -> float:
        """How fast a body is placed [m²/s]."""
        given = self._crew.placing_rate_m2_s
        return self._rate(given, PLACING_RATE_M2_S, "crew-placing-rate", "placing_rate")

    @cached_property
    def coating_rate_m2_s(self) -> float:
        """How fast a coat is rolled, or a surface abraded [m²/s]."""
        return assume.coating_rate(self._context)

    @cached_property
    def clearing_rate_m2_s(self) -> float:
        """How fast loose aggregate is scraped and vacuumed [m²/s]."""
        given = self._crew.clearing_rate_m2_s
        return self._rate(given, CLEARING_RATE_M2_S, "crew-clearing-rate", "clearing_rate")

    @cached_property
    def lane_depth_m(self) -> float:
        """How deep a lane of the pour is [m]."""
        if self._crew.lane_depth_m is None:
            self._assume("crew-lane-depth", "lane_depth", Figure(LANE_DEPTH_M, "length"))
            return LANE_DEPTH_M
        return self._crew.lane_depth_m

    def seconds_per_mix(self, product: Product) -> float:
        """From one mix of a station to its next [s]: as the crew says, else the mixing and a minute and a half."""
        if self._crew.minutes_per_mix is not None:
            return self._given_cycle(product, self._crew.minutes_per_mix * 60.0)
        mixing_s = UNSTATED_MIXING_S if product.mixing_s is None else product.mixing_s
        stated = "product-mixing-time" if product.mixing_s is not None else "unstated-mixing-time"
        mixing = Say(code=stated, params={"mixing": Figure(mixing_s, "minutes"), "product": product.name})
        self._assume("crew-minutes-per-mix", "minutes_per_mix", Figure(mixing_s + CHANGE_S, "minutes"), mixing=mixing)
        return mixing_s + CHANGE_S

    def _given_cycle(self, product: Product, cycle_s: float) -> float:
        """What the crew says, with a word where the product is mixed for longer: no station can keep that up."""
        if product.mixing_s is not None and cycle_s < product.mixing_s * (1 - GUARD):
            mixing, cycle = Figure(product.mixing_s, "minutes"), Figure(cycle_s, "minutes")
            pointer, name = "/work/crew/minutes_per_mix", product.name
            self._context.record.caution("mixing-cut-short", pointer, product=name, mixing=mixing, cycle=cycle)
        return cycle_s

    def _rate(self, given: float | None, taken: float, code: str, field: str) -> float:
        if given is None:
            self._assume(code, field, Figure(taken, "area-rate"))
            return taken
        return given

    def _assume(self, code: str, field: str, value: Figure, **params: Say) -> None:
        self._context.record.assume(code, f"/work/crew/{field}", value, **params)


def crew_of(context: Context) -> CrewRates:
    """The job's crew."""
    return CrewRates(context, context.job.work.crew)
