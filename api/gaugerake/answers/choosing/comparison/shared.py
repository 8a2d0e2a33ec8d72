"""What the choices of one comparison have in common, worked out once."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

from gaugerake.answers.job.resolved import ResolvedJob, ResolvedRoom
from gaugerake.answers.job.taken import Taken
from gaugerake.answers.takeoff.measure import take_off
from gaugerake.answers.takeoff.survey import Survey, survey_rooms
from gaugerake.floor.layers.takeoff import Takeoff


class Shared:
    """The surveys and takeoffs of one comparison."""

    def __init__(self) -> None:
        self._surveys: dict[Hashable, Survey] = {}
        self._takeoffs: dict[Hashable, Takeoff] = {}

    def survey(self, resolved: ResolvedJob) -> Survey:
        """The rooms' shapes, measured."""
        shapes = tuple(room.shape for room in resolved.rooms)
        if shapes not in self._surveys:
            self._surveys[shapes] = survey_rooms(resolved.rooms)
        return self._surveys[shapes]

    def takeoff(self, resolved: ResolvedJob, survey: Survey) -> Takeoff:
        """The takeoff of all choices that measure and lay the same.

        Raises
        ------
        Refused
            With every fault of the rooms, the thickness and the optional layers.
        """
        if _has_faults(resolved):
            return take_off(resolved, survey)
        layers = tuple(layer.id for layer in resolved.layers.value)
        rooms = tuple(map(_measured, resolved.rooms))
        key = (resolved.system.code, layers, resolved.order.waste_fraction.value, rooms)
        if key not in self._takeoffs:
            self._takeoffs[key] = take_off(resolved, survey)
        return self._takeoffs[key]


def _has_faults(resolved: ResolvedJob) -> bool:
    """Whether a takeoff refuses any value, also one that no room goes by, as a thickness beside the rooms' own."""
    taken: list[Taken[Any] | None] = [resolved.layers, resolved.thickness_m]
    for room in resolved.rooms:
        taken += (room.profile_csp, room.advance, room.thickness_m)
    return any(one is not None and one.faults for one in taken)


def _measured(room: ResolvedRoom) -> Hashable:
    """The part of a room that its takeoff depends on."""
    placed = (room.shape, room.cutouts, room.drains, room.joints, room.terminations)
    repaired = (room.cracks, room.spalls, room.cove)
    name = room.name if isinstance(room.name, str) else room.index
    thickness_m = None if room.thickness_m is None else room.thickness_m.value
    return name, placed, repaired, thickness_m, room.profile_csp.value
