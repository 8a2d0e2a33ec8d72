"""From the job as asked to the job as answered: every default is filled here, once, and nowhere else."""

from __future__ import annotations

from dataclasses import replace

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.resolve_layers import resolve_layers
from gaugerake.answers.job.resolve_order import resolve_order
from gaugerake.answers.job.resolve_rooms import resolve_rooms, resolve_thickness
from gaugerake.answers.job.resolve_slab import resolve_dries_from, resolve_substrate
from gaugerake.answers.job.resolve_work import resolve_work
from gaugerake.answers.job.resolved import ResolvedJob, Supply
from gaugerake.floor.job import Job, Work
from gaugerake.floor.values.errors import UnknownName


def resolve(job: Job, supply: Supply) -> ResolvedJob:
    """The job with every value present; what the job says wrong stands as faults in the value that it spoils.

    Raises
    ------
    Refused
        When the catalogue has no such system; the error names those that it has.
    """
    systems = supply.catalogue.systems
    system = systems.get(job.system)
    if system is None:
        raise Refused(Fault("/system", UnknownName("system", seen=job.system, known=systems)))
    layers = resolve_layers(system.layers, job.order.optional_layers)
    poured = any(layer.pour is not None for layer in layers.found or ())
    thickness_m = resolve_thickness(job, system, poured=poured)
    return ResolvedJob(
        asked=job,
        supply=supply,
        system=system,
        slab=job.slab,
        substrate=resolve_substrate(job.slab),
        dries_from=resolve_dries_from(job.slab),
        air=job.air,
        thickness_m=thickness_m,
        rooms=resolve_rooms(job, system, thickness_m, poured=poured),
        layers=layers,
        work=resolve_work(job, system),
        order=resolve_order(job.order, supply.book.currency),
    )


def asked_work(resolved: ResolvedJob) -> Work:
    """The work as the job states it: what a search changes and asks about again."""
    return resolved.asked.work


def with_work(resolved: ResolvedJob, work: Work) -> ResolvedJob:
    """The same job done another way: what a search asks about."""
    job = replace(resolved.asked, work=work)
    known = (resolved.asked.work, resolved.work)
    return replace(resolved, asked=job, work=resolve_work(job, resolved.system, known=known))
