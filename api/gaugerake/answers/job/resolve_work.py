"""When and how the work is done: the job's zone, start, temperatures and shifts, and what is taken when unsaid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from datetime import date, datetime, time
from itertools import chain
from operator import attrgetter

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.hours import hours_open
from gaugerake.answers.job.moments import instant_at, instants_of
from gaugerake.answers.job.nominal_week import nominal_basis
from gaugerake.answers.job.remarks import Remark, Remarks, assumption, missing
from gaugerake.answers.job.resolve_air import resolve_air
from gaugerake.answers.job.resolve_crew import resolve_crew
from gaugerake.answers.job.resolved import Basis, ResolvedAir, ResolvedCrew, ResolvedWork
from gaugerake.answers.job.taken import Origin, Taken, asked, assumed, from_catalogue, refused
from gaugerake.answers.job.traffic import traffic_words
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock
from gaugerake.floor.cure.course import Course, DailyCourse, LoggedCourse, SteadyCourse, daily_course, logged_course
from gaugerake.floor.job import Daily, Job, Readings, Shift, Steady, Weekday, Work
from gaugerake.floor.system import System
from gaugerake.floor.values.errors import Contradiction, FloorError, OutOfOrder, UnknownName
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.local_time import Zone, zone_named

USUAL_ZONE = "UTC"
COLDEST_AT = time(5, 0)
WORKING_DAYS = (Weekday.MON, Weekday.TUE, Weekday.WED, Weekday.THU, Weekday.FRI)
USUAL_SHIFTS = (Shift(days=WORKING_DAYS, starts=time(7, 0), ends=time(15, 30)),)


_WHEN = attrgetter(*(field.name for field in fields(Work) if field.name not in ("crew", "material_temperature_k")))
"""The fields of the work that hours and temperatures depend on."""
Known = tuple[Work, ResolvedWork]
"""Other work, and what it resolved to."""


def resolve_work(
    job: Job, system: System, *, known: Known | None = None, crew: ResolvedCrew | None = None
) -> ResolvedWork:
    """The job's work with every value present.

    ``known`` is other work of the same job: a course of temperatures that both share is not read again, as a log is
    long. ``crew`` is that of the job where it is resolved already.
    """
    work = job.work
    zone = _zone(work.zone)
    coldest_at = _coldest_at(work)
    start = resolve_moment(work.start, zone, "/work/start")
    known_air = known[1].air.course if known is not None and known[0].zone == work.zone else None
    air = resolve_air(job.air, zone, start, known=known_air)
    by_start = work.temperatures is None and job.air.readings  # a floor that is taken to be as the air is at the start
    same = known is not None and known[0].temperatures is work.temperatures and known[0].zone == work.zone
    course = (
        known[1].course if known is not None and same and not by_start else _course(job, system, zone, coldest_at, air)
    )
    listed = _listed_shifts(work)
    hours = _hours(listed, work.closed, zone)
    crew = resolve_crew(work.crew, system) if crew is None else crew
    return ResolvedWork(
        zone=zone,
        start=start,
        reopen_by=resolve_moment(work.reopen_by, zone, "/work/reopen_by"),
        traffic=_traffic(work, system),
        coldest_at=coldest_at,
        course=course,
        air=air,
        listed_shifts=listed,
        closed=work.closed,
        hours=hours,
        basis=_basis(start, course, hours, listed),
        crew=crew,
        material_temperature_k=_material_temperature(work, system),
        preparation_s=_preparation(work, crew),
    )


def resolve_other_work(job: Job, system: System, known: Known) -> ResolvedWork:
    """Other work of the same job on the same system: only what depends on a change is resolved again.

    A search changes the crew or the material hundreds of times, and neither moves an hour or a temperature.
    """
    (before, resolved), work = known, job.work
    crew = resolve_crew(work.crew, system, known=(before.crew, resolved.crew))
    if _WHEN(work) != _WHEN(before):
        return resolve_work(job, system, known=known, crew=crew)
    same_material = work.material_temperature_k == before.material_temperature_k
    return replace(
        resolved,
        crew=crew,
        material_temperature_k=(
            resolved.material_temperature_k if same_material else _material_temperature(work, system)
        ),
        preparation_s=_preparation(work, crew),
    )


def begun_at(job: Job, system: System, work: ResolvedWork, start: datetime) -> ResolvedWork:
    """The same work begun at another instant: what depends on the start is taken anew, all else stays as it is."""
    begun: Taken[datetime | None] = asked(start)
    air = resolve_air(job.air, work.zone, begun, known=work.air.course)
    by_start = job.work.temperatures is None and job.air.readings
    course = _held(job, system, air.temperature_k) if by_start else work.course
    return replace(
        work, start=begun, air=air, course=course, basis=_basis(begun, course, work.hours, work.listed_shifts)
    )


def worked_in(asked: Work, work: ResolvedWork) -> ResolvedWork:
    """The same work in the shifts of ``asked``: what depends on them is taken anew, all else stays as it is."""
    listed = _listed_shifts(asked)
    hours = _hours(listed, asked.closed, work.zone)
    return replace(work, listed_shifts=listed, hours=hours, basis=_basis(work.start, work.course, hours, listed))


def _zone(name: str | None) -> Taken[Zone]:
    """The job's zone, else UTC."""
    if name is None:
        return assumed(zone_named(USUAL_ZONE), assumption("zone-utc", "/work/zone", USUAL_ZONE))
    try:
        return asked(zone_named(name))
    except FloorError as error:
        return refused((Fault("/work/zone", error),))


def resolve_moment(local: datetime | None, zone: Taken[Zone], pointer: str) -> Taken[datetime | None]:
    """A time of the job in its zone; None when the job does not say."""
    if local is None:
        return asked(None)
    if zone.faults:
        return refused(zone.faults)
    try:
        at_s, twice = instant_at(local, zone.value, pointer)
    except FloorError as error:
        return refused((Fault(pointer, error),))
    return asked(zone.value.datetime_at(at_s), *zone.remarks, *twice)


def _traffic(work: Work, system: System) -> Taken[str | None]:
    """Whose return the deadline is for: as asked, else the last that the system lists."""
    known = [one.traffic for one in system.returns]
    if work.traffic is not None:
        if work.traffic not in known:
            return refused((Fault("/work/traffic", UnknownName("traffic", seen=work.traffic, known=known)),))
        return asked(work.traffic)
    if not known:
        return assumed(None)
    last = known[-1]
    remark = assumption("traffic-last", "/work/traffic", last, traffic=traffic_words(last))
    return assumed(last) if work.reopen_by is None else assumed(last, remark)


def _coldest_at(work: Work) -> Taken[time]:
    """When a daily wave is lowest: as the job says, else 05:00."""
    daily = work.temperatures
    if isinstance(daily, Daily) and daily.coldest_at is not None:
        return asked(daily.coldest_at)
    text = COLDEST_AT.isoformat(timespec="minutes")
    return assumed(COLDEST_AT, assumption("coldest-at", "/work/temperatures/daily/coldest_at", text))


def _course(job: Job, system: System, zone: Taken[Zone], coldest_at: Taken[time], air: ResolvedAir) -> Taken[Course]:
    """The floor's temperature, else the slab's, else the air's, else the system's reference, held."""
    given = job.work.temperatures
    if isinstance(given, Steady):
        return asked(SteadyCourse(temperature_k=given.temperature_k))
    if isinstance(given, Daily):
        return _daily(given, zone, coldest_at)
    if isinstance(given, Readings):
        return _logged(given, zone)
    return _held(job, system, air.temperature_k)


def _held(job: Job, system: System, air_k: Taken[float | None]) -> Taken[Course]:
    slab_k = job.slab.temperature_k
    if slab_k is None and air_k.faults:
        return refused(air_k.faults)
    unsaid = missing("floor-temperatures-unsaid", "/work/temperatures")
    for code, temperature_k in (("floor-as-slab", slab_k), ("floor-as-air", air_k.found)):
        if temperature_k is not None:
            return assumed(SteadyCourse(temperature_k=temperature_k), _floor(code, temperature_k), unsaid)
    temperature_k = system.reference_temperature_k
    return from_catalogue(
        SteadyCourse(temperature_k=temperature_k), _floor("floor-at-reference", temperature_k), unsaid
    )


def _floor(code: str, temperature_k: float) -> Remark:
    return assumption(code, "/work/temperatures", Figure(temperature_k, Kind.TEMPERATURE))


def _daily(given: Daily, zone: Taken[Zone], coldest_at: Taken[time]) -> Taken[Course]:
    if zone.faults:
        return refused(zone.faults)
    at = coldest_at.value
    try:
        course = daily_course(
            low_k=given.low_k,
            high_k=given.high_k,
            coldest_at_s=at.hour * 3600.0 + at.minute * 60.0 + at.second,
            zone=zone.value,
        )
    except FloorError as error:
        return refused((Fault("/work/temperatures/daily/low", error),))
    return asked(course, *coldest_at.remarks, *zone.remarks)


def _logged(given: Readings, zone: Taken[Zone]) -> Taken[Course]:
    pointer = "/work/temperatures/readings"
    instants = instants_of([reading.at for reading in given.readings], zone, pointer)
    if instants.faults:
        return refused(instants.faults)
    temperatures_k = [reading.temperature_k for reading in given.readings]
    try:
        return asked(logged_course(zip(instants.value, temperatures_k, strict=True)), *instants.remarks)
    except OutOfOrder as error:
        return refused((Fault(f"{pointer}/{error.index}/at", error),))


def _listed_shifts(work: Work) -> Taken[tuple[Shift, ...] | None]:
    """The shifts as the job lists them, else Monday to Friday 07:00 to 15:30; None round the clock."""
    if work.round_the_clock and work.shifts is not None:
        error = Contradiction("round_the_clock", other="shifts", expected="false")
        return refused((Fault("/work/round_the_clock", error),))
    if work.round_the_clock:
        return asked(None)
    if work.shifts is None:
        return assumed(USUAL_SHIFTS, assumption("shifts-usual", "/work/shifts", None))
    return asked(work.shifts)


def _hours(listed: Taken[tuple[Shift, ...] | None], closed: tuple[date, ...], zone: Taken[Zone]) -> Taken[OpenHours]:
    """When the crew works."""
    if listed.faults:
        return refused(listed.faults)
    if listed.value is None and not closed:
        return Taken(RoundTheClock(), listed.origin, listed.remarks)
    if zone.faults:
        return refused(zone.faults)
    try:
        hours = hours_open(listed.value, closed, zone.value)
    except FloorError as error:
        return refused((Fault("/work/shifts", error),))
    return Taken(hours, listed.origin, (*listed.remarks, *zone.remarks))


def _basis(
    start: Taken[datetime | None],
    course: Taken[Course],
    hours: Taken[OpenHours],
    listed: Taken[tuple[Shift, ...] | None],
) -> Taken[Basis]:
    """The job's hours, temperatures and start; without a start those of a nominal week, or of none round the clock."""
    timed = start.found is not None or bool(start.faults)
    needed: Sequence[Taken[datetime | None] | Taken[Course] | Taken[OpenHours] | Taken[tuple[Shift, ...] | None]]
    needed = (start, course, hours) if timed else (start, course, listed)
    faults = next((one.faults for one in needed if one.faults), ())
    if faults:
        return refused(faults)
    remarks = tuple(chain.from_iterable(one.remarks for one in needed))
    if start.value is None:
        remarks = (*remarks, missing("start-unsaid", "/work/start"))
        shifts = listed.value
        return _untimed(course.value, remarks) if shifts is None else nominal_basis(shifts, course.value, remarks)
    basis = Basis(hours=hours.value, course=course.value, start_s=start.value.timestamp(), timed=True)
    return Taken(basis, Origin.ASKED, remarks)


def _untimed(course: Course, remarks: Remarks) -> Taken[Basis]:
    """Round the clock, from the coldest hour of a daily wave or the first reading of a log."""
    said = [*remarks]
    start_s = 0.0
    if isinstance(course, DailyCourse):
        course, start_s = replace(course, zone=zone_named("UTC")), course.coldest_at_s
        said.append(assumption("start-at-coldest", "/work/start", Figure(course.low_k, Kind.TEMPERATURE)))
    elif isinstance(course, LoggedCourse):
        start_s, first = course.instants_s[0], Figure(course.temperatures_k[0], Kind.TEMPERATURE)
        said.append(assumption("start-at-first-reading", "/work/start", first))
    basis = Basis(hours=RoundTheClock(), course=course, start_s=start_s, timed=False)
    return assumed(basis, *said)


def _material_temperature(work: Work, system: System) -> Taken[float]:
    """The material's temperature [K] that the job states, else the system's reference temperature."""
    if work.material_temperature_k is not None:
        return asked(work.material_temperature_k)
    temperature_k = system.reference_temperature_k
    remark = assumption("material-temperature", "/work/material_temperature", Figure(temperature_k, Kind.TEMPERATURE))
    return from_catalogue(temperature_k, remark)


def _preparation(work: Work, crew: ResolvedCrew) -> Taken[float | None]:
    """How long the slab is prepared before the first layer [s]; None where its area and the crew's rate say it."""
    if work.preparation_s is not None:
        return asked(work.preparation_s)
    return Taken(None, crew.prepare_rate_m2_s.origin, crew.prepare_rate_m2_s.remarks)
