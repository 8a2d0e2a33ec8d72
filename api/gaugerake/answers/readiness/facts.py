"""What the checks are judged from: the resolved job, and what several of them need, each worked out once."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from gaugerake.answers.job.resolve_readings import PROFILE_AT
from gaugerake.answers.job.resolved import ResolvedJob, ResolvedRoom
from gaugerake.answers.readiness.age import SlabAge, slab_age
from gaugerake.answers.readiness.air import AirNow, FloorNow, air_now, dew_point_now, floor_now
from gaugerake.answers.readiness.moisture_tests import MoistureTests, moisture_tests, needed_depth
from gaugerake.answers.takeoff.survey import Survey
from gaugerake.floor.job import Slab
from gaugerake.floor.slab.moisture import moisture_test_count
from gaugerake.floor.slab.pull_off import PullOffJudgement, judge_pull_off
from gaugerake.floor.system import SlabLimits
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Words

PH_AT = "/slab/ph"


class SurfaceFigure(NamedTuple):
    """A figure of the surface, the RFC 6901 pointer of where the job says it, and the room that it is of.

    The figure is None where nothing is said; the room is None where the figure stands for all rooms.
    """

    pointer: str
    value: float | None
    room: Words | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """The job and what follows from it for more than one check.

    ``area_m2`` is the gross area of all rooms [m²] and ``needed_tests`` how many moisture tests it needs, both None
    where the system states no limit of moisture. ``needed_depth_m`` is how deep probes must sit [m]. ``profiles``,
    ``ph`` and ``thicknesses_m`` are what the job says of them, each with its place. ``pull_off`` is None without one.
    """

    resolved: ResolvedJob
    age: SlabAge
    needed_depth_m: float | None
    emission: MoistureTests
    humidity: MoistureTests
    area_m2: float | None
    needed_tests: int | None
    pull_off: PullOffJudgement | None
    profiles: tuple[SurfaceFigure, ...]
    ph: tuple[SurfaceFigure, ...]
    thicknesses_m: tuple[tuple[str, float], ...]
    dew_point_k: float | None
    floor: FloorNow | None
    air: AirNow

    @property
    def slab(self) -> Slab:
        """What was seen and tested of the slab."""
        return self.resolved.slab

    @property
    def limits(self) -> SlabLimits:
        """What the system asks of the slab."""
        return self.resolved.system.slab_limits

    @property
    def moisture(self) -> tuple[MoistureTests, MoistureTests]:
        """Both kinds of moisture test."""
        return self.emission, self.humidity


def facts_of(resolved: ResolvedJob, survey: Survey) -> Facts:
    """What the checks of the job are judged from.

    Raises
    ------
    Refused
        When statements of the job contradict each other, or the area is needed and a room's shape cannot be.
    """
    resolved.named_rooms.value  # noqa: B018  # refuses readings of rooms that are not there
    age, depth_m = slab_age(resolved), needed_depth(resolved)
    emission, humidity = moisture_tests(resolved, depth_m)
    limited = emission.limit is not None or humidity.limit is not None
    area_m2 = math.fsum(survey.gross_areas_m2) if limited else None
    dew_point_k, floor = dew_point_now(resolved), floor_now(resolved)
    pull_off_pa = resolved.system.slab_limits.pull_off_pa
    return Facts(
        resolved=resolved,
        age=age,
        needed_depth_m=depth_m,
        emission=emission,
        humidity=humidity,
        area_m2=area_m2,
        needed_tests=None if area_m2 is None else moisture_test_count(area_m2),
        pull_off=None if pull_off_pa is None else judge_pull_off(tests=resolved.slab.pull_off, limit_pa=pull_off_pa),
        profiles=_profiles(resolved),
        ph=_ph(resolved),
        thicknesses_m=asked_thicknesses(resolved),
        dew_point_k=dew_point_k,
        floor=floor,
        air=air_now(dew_point_k, floor),
    )


def asked_thicknesses(resolved: ResolvedJob) -> tuple[tuple[str, float], ...]:
    """Each thickness that the job asks for [m], with its place; the job's own holds for rooms that state none."""
    taken = [room.thickness_m for room in resolved.rooms if room.thickness_m is not None]
    asked = {one.at: one.found for one in sorted(taken, key=lambda one: one.at != "/thickness")}
    return tuple((at, found) for at, found in asked.items() if at is not None and found is not None)


def _profiles(resolved: ResolvedJob) -> tuple[SurfaceFigure, ...]:
    """Each profile that is stated, with its place; a figure of the slab holds for all rooms that state none."""
    slab = resolved.slab
    own = tuple(
        SurfaceFigure(one.at, one.csp, room.name)
        for room in resolved.rooms
        for one in room.profiles
        if one.at.startswith(room.pointer)
    )
    if isinstance(slab.profile_csp, tuple):
        said = ((one.csp, one.room) for one in slab.profile_csp)
        speaking = {one.pointer for one in own}
        silent = [room for room in resolved.rooms if f"{room.pointer}/profile_csp" not in speaking]
        return (*_listed(PROFILE_AT, said, silent), *own)
    if own and len(own) == len(resolved.rooms):
        return own
    return SurfaceFigure(PROFILE_AT, slab.profile_csp, None), *own


def _ph(resolved: ResolvedJob) -> tuple[SurfaceFigure, ...]:
    """Each pH that is stated, with its place."""
    ph = resolved.slab.ph
    if isinstance(ph, tuple):
        return _listed(PH_AT, ((one.ph, one.room) for one in ph), resolved.rooms)
    return (SurfaceFigure(PH_AT, ph, None),)


def _listed(
    at: str, said: Iterable[tuple[float, str | None]], rooms: Sequence[ResolvedRoom]
) -> tuple[SurfaceFigure, ...]:
    """The readings of a list; before them, with no figure, the first of the ``rooms`` that none of them is of.

    A reading that names no room is of all.
    """
    listed = tuple(SurfaceFigure(f"{at}/{index}", value, room) for index, (value, room) in enumerate(said))
    named = {one.room for one in listed if isinstance(one.room, str)}
    if any(one.room is None for one in listed):
        return listed
    bare = next((room for room in rooms if not isinstance(room.name, str) or room.name not in named), None)
    if bare is not None:
        return SurfaceFigure(at, None, bare.name if listed else None), *listed
    return listed or (SurfaceFigure(at, None, None),)
