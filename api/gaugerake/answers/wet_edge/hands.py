"""The people that a pour takes at once: to mix, place, roll and cast."""

from __future__ import annotations

from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.tasks import Manning, TaskWork
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.values.frozen import replace


def pour_hands(resolved: ResolvedJob, takeoff: Takeoff, *, station_count: int | None = None) -> int:
    """The people that the largest pour takes at once; 0 where nothing is poured."""
    works, manning = _poured(resolved, takeoff, station_count)
    return max((manning.needed(one) for one in works), default=0)


def hands_inputs(resolved: ResolvedJob, takeoff: Takeoff, station_count: int) -> Inputs:
    """The hands of each task of the largest pour."""
    works, manning = _poured(resolved, takeoff, station_count)
    largest = max(works, key=manning.needed, default=())
    return {f"at_once_{one.task.value}": manning.of(one.task) for one in largest}


def _poured(
    resolved: ResolvedJob, takeoff: Takeoff, station_count: int | None
) -> tuple[list[tuple[TaskWork, ...]], Manning]:
    crew = CrewOnSite(rooms=takeoff.rooms, rates=resolved.work.crew.rates())
    needs = [need for need in takeoff.layers if need.layer.pour is not None]
    works = [need.layer.tasks(need, replace(crew, cast_kg_m2=takeoff.cast_kg_m2(need.layer))) for need in needs]
    return works, resolved.work.crew.manning(station_count)


def too_few(resolved: ResolvedJob, takeoff: Takeoff) -> bool:
    """Whether the crew has fewer people than the pour takes."""
    people = resolved.work.crew.people
    return people is not None and people < pour_hands(resolved, takeoff)
