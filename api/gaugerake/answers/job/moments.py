"""Times of the job as instants."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.remarks import Remark, Remarks, assumption
from gaugerake.answers.job.taken import Taken, asked, refused
from gaugerake.floor.values.errors import FloorError
from gaugerake.floor.values.local_time import Zone, instant_of


def instant_at(local: datetime, zone: Zone, pointer: str) -> tuple[float, Remarks]:
    """The instant of a time of the job [s]; of two, the first, and the remark that says so.

    Raises
    ------
    FloorError
        When the clocks skip it.
    """
    instant = instant_of(local, zone=zone, parameter=pointer.rsplit("/", 1)[-1])
    if not instant.twice:
        return instant.at_s, ()
    return instant.at_s, (assumption("first-of-two-times", pointer, local.isoformat(timespec="minutes")),)


def instants_of(times: Iterable[datetime], zone: Taken[Zone], pointer: str) -> Taken[tuple[float, ...]]:
    """The instants of the readings of a list at ``pointer`` [s]."""
    if zone.faults:
        return refused(zone.faults)
    found: list[float] = []
    remarks: list[Remark] = list(zone.remarks)
    faults: list[Fault] = []
    for index, local in enumerate(times):
        at = f"{pointer}/{index}/at"
        try:
            at_s, twice = instant_at(local, zone.value, at)
        except FloorError as error:
            faults.append(Fault(at, error))
        else:
            found.append(at_s)
            remarks += twice
    return refused(tuple(faults)) if faults else asked(tuple(found), *remarks)
