"""Readings of the slab that say their room.

Decisions:

* A reading belongs to all rooms of the name that it says; names are those that the job gives, as the job writes them.
  Where several rooms have it, a caution at the reading says so: which of them is meant, the job alone can say.
* Of the profiles that are said of a room the roughest fills the most, so that one counts for the material: its own, and
  the slab's readings that name it; where there is none, the slab's readings that name no room.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.taken import Taken, asked, refused
from gaugerake.floor.job import EmissionReading, HumidityReading, Job, PhReading, ProfileReading, PullOff, Room, Slab
from gaugerake.floor.values.errors import UnknownRoom

PROFILE_AT = "/slab/profile_csp"


def resolve_named_rooms(job: Job) -> Taken[frozenset[str]]:
    """The names of the job's rooms; with a fault for each reading that names none of them."""
    names = dict.fromkeys(room.name for room in job.rooms if room.name is not None)
    faults = tuple(
        Fault(pointer, UnknownRoom("room", seen=name, known=names))
        for pointer, name in _named(job.slab)
        if name not in names
    )
    return refused(faults) if faults else asked(frozenset(names), *_shared_names(job))


def _shared_names(job: Job) -> Iterator[Remark]:
    """A caution at each reading whose room is the name of several."""
    counts = Counter(room.name for room in job.rooms if room.name is not None)
    for pointer, name in _named(job.slab):
        if counts[name] > 1:
            yield caution("reading-of-several-rooms", pointer, name=name, count=counts[name])


def _named(slab: Slab) -> Iterator[tuple[str, str]]:
    """Each room that a reading names, and where it stands."""
    lists: dict[str, Sequence[EmissionReading | HumidityReading | PullOff | PhReading | ProfileReading]] = {
        "moisture_emission": slab.moisture_emission,
        "relative_humidity": slab.relative_humidity,
        "pull_off": slab.pull_off,
        "ph": slab.ph if isinstance(slab.ph, tuple) else (),
        "profile_csp": profile_readings(slab),
    }
    for field, readings in lists.items():
        for index, reading in enumerate(readings):
            if reading.room is not None:
                yield f"/slab/{field}/{index}/room", reading.room


def profile_readings(slab: Slab) -> tuple[ProfileReading, ...]:
    """The slab's profiles as a list; empty where it says one figure, or nothing."""
    return slab.profile_csp if isinstance(slab.profile_csp, tuple) else ()


class ProfileOf(NamedTuple):
    """A profile that is said of a room, and the RFC 6901 pointer of where."""

    at: str
    csp: int


def profiles_of(index: int, room: Room, slab: Slab) -> tuple[ProfileOf, ...]:
    """The profiles that are said of a room; empty where none is.

    >>> from gaugerake.floor.job import Measured
    >>> slab = Slab(profile_csp=(ProfileReading(csp=3), ProfileReading(csp=5, room="Wash bay")))
    >>> shape = Measured(area_m2=9.0)
    >>> profiles_of(0, Room(shape=shape, name="Wash bay"), slab), profiles_of(1, Room(shape=shape), slab)
    ((ProfileOf(at='/slab/profile_csp/1', csp=5),), (ProfileOf(at='/slab/profile_csp/0', csp=3),))
    """
    own = () if room.profile_csp is None else (ProfileOf(f"/rooms/{index}/profile_csp", room.profile_csp),)
    if not isinstance(slab.profile_csp, tuple):
        whole = () if slab.profile_csp is None else (ProfileOf(PROFILE_AT, slab.profile_csp),)
        return own or whole
    listed = [(ProfileOf(f"{PROFILE_AT}/{number}", one.csp), one.room) for number, one in enumerate(slab.profile_csp)]
    named = tuple(one for one, name in listed if name is not None and name == room.name)
    return (*own, *named) or tuple(one for one, name in listed if name is None)
