"""From the job as asked to the job as answered: every default is filled here, once, and nowhere else."""

from __future__ import annotations

import math
from datetime import datetime

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.resolve_layers import resolve_layers
from gaugerake.answers.job.resolve_order import resolve_order
from gaugerake.answers.job.resolve_readings import resolve_named_rooms
from gaugerake.answers.job.resolve_rooms import resolve_rooms, resolve_thickness
from gaugerake.answers.job.resolve_slab import resolve_age, resolve_dries_from, resolve_substrate
from gaugerake.answers.job.resolve_work import begun_at, resolve_other_work, resolve_work, worked_in
from gaugerake.answers.job.resolved import ResolvedJob, ResolvedWork, Supply
from gaugerake.answers.job.taken import Taken, asked, refused
from gaugerake.floor.cure.course import Course
from gaugerake.floor.job import Job, Shift, Work
from gaugerake.floor.system import Catalogue, System
from gaugerake.floor.values.errors import UnknownName
from gaugerake.floor.values.frozen import replace

UNKNOWN = System(code="", name="", description="", layers=(), reference_temperature_k=math.nan)
"""Stands for a system that there is not, while the rest of its job is resolved; no answer is made of it."""


def resolve(job: Job, supply: Supply, *, near: ResolvedJob | None = None) -> ResolvedJob:
    """The job with every value present; what the job says wrong stands as faults in the value that it spoils.

    Of a job whose system is unknown all is resolved that does not depend on it. ``near`` is another job, of which the
    readings of floor and air are taken where both jobs hold the same ones.
    """
    chosen = resolve_system(job.system, supply.catalogue)
    system = chosen.found or UNKNOWN
    layers = resolve_layers(system.layers, job.order.optional_layers) if not chosen.faults else refused(chosen.faults)
    poured = any(layer.pour is not None for layer in layers.found or ())
    thickness_m = resolve_thickness(job, system, poured=poured)
    work = resolve_work(job, system, known=None if near is None else _same_readings(job, near))
    named = resolve_named_rooms(job)
    return ResolvedJob(
        asked=job,
        supply=supply,
        chosen=chosen,
        slab=job.slab,
        age_s=resolve_age(job.slab, work.start),
        substrate=resolve_substrate(job.slab),
        dries_from=resolve_dries_from(job.slab),
        named_rooms=named,
        thickness_m=thickness_m,
        rooms=resolve_rooms(job, system, thickness_m, poured=poured, misnamed=named.faults),
        layers=layers,
        work=work if not chosen.faults else replace(work, traffic=refused(chosen.faults)),
        order=resolve_order(job.order, supply.catalogue.currency),
    )


def resolve_system(code: str, catalogue: Catalogue) -> Taken[System]:
    """The system of the catalogue that the job names."""
    system = catalogue.systems.get(code)
    if system is None:
        return refused((Fault("/system", UnknownName("system", seen=code, known=catalogue.systems)),))
    return asked(system)


def asked_work(resolved: ResolvedJob) -> Work:
    """The work as the job states it: what a search changes and asks about again."""
    return resolved.asked.work


def _same_readings(job: Job, near: ResolvedJob) -> tuple[Work, ResolvedWork] | None:
    """The other job's work, where both hold the same air and the floor has temperatures of its own.

    A floor without its own is as warm as the air at the start, and the two jobs may start at different hours.
    """
    same = job.work.temperatures is not None and job.air is near.asked.air
    return (near.asked.work, near.work) if same else None


def with_work(resolved: ResolvedJob, work: Work) -> ResolvedJob:
    """The same job done another way: what a search asks about."""
    job = replace(resolved.asked, work=work)
    other = resolve_other_work(job, resolved.system, (resolved.asked.work, resolved.work))
    return replace(resolved, asked=job, work=other, age_s=resolve_age(resolved.slab, other.start))


def with_start(resolved: ResolvedJob, start: datetime) -> ResolvedJob:
    """The same job as if it asked for another start."""
    return with_work(resolved, replace(asked_work(resolved), start=start))


def with_instant(resolved: ResolvedJob, start: datetime) -> ResolvedJob:
    """The same work begun at another instant; ``asked`` and the slab's age stay, so the clock can be asked at once."""
    return replace(resolved, work=begun_at(resolved.asked, resolved.system, resolved.work, start))


def with_shifts(resolved: ResolvedJob, shifts: tuple[Shift, ...] | None) -> ResolvedJob:
    """The same job as if it asked for other shifts; None is work around the clock."""
    work = replace(asked_work(resolved), shifts=shifts, round_the_clock=shifts is None)
    return replace(resolved, asked=replace(resolved.asked, work=work), work=worked_in(work, resolved.work))


def with_course(resolved: ResolvedJob, course: Course) -> ResolvedJob:
    """The same job on a floor of another temperature; ``asked`` stays, so a course need not be read from it again."""
    work = resolved.work
    basis = replace(work.basis, found=replace(work.basis.value, course=course))
    return replace(resolved, work=replace(work, course=replace(work.course, found=course), basis=basis))
