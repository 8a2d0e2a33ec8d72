"""The job measured off: its rooms, and what each layer needs."""

from __future__ import annotations

from gaugerake.answers.job.errors import Fault, Faults, RoomsRefused
from gaugerake.answers.job.remarks import Remarks
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.takeoff.remarks import takeoff_remarks
from gaugerake.answers.takeoff.rooms import measure_rooms
from gaugerake.answers.takeoff.survey import Survey
from gaugerake.floor.layers.needs import layer_needs
from gaugerake.floor.layers.takeoff import BuildUp, Takeoff
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredTakeoff:
    """The takeoff of a job, and what is said beside it, wherever its figures are used."""

    takeoff: Takeoff
    remarks: Remarks


def measure_job(resolved: ResolvedJob, survey: Survey) -> MeasuredTakeoff:
    """The takeoff and its remarks.

    Raises
    ------
    RoomsRefused
        With every fault of the rooms, the thickness and the optional layers.
    """
    takeoff = take_off(resolved, survey)
    return MeasuredTakeoff(takeoff=takeoff, remarks=tuple(takeoff_remarks(resolved, takeoff)))


def take_off(resolved: ResolvedJob, survey: Survey) -> Takeoff:
    """Measure the job's rooms and layers.

    Raises
    ------
    RoomsRefused
        With every fault of the rooms, the thickness and the optional layers.
    """
    rooms, faults = _measured_rooms(resolved, survey)
    if faults.found:
        raise RoomsRefused(*faults.found)
    build = BuildUp(
        rooms=rooms,
        layers=resolved.layers.value,
        waste_fraction=resolved.order.waste_fraction.value,
        keyway=resolved.system.keyway,
        profile_allowance=resolved.system.profile_allowance,
        crack_chase=resolved.system.crack_chase,
    )
    return Takeoff(rooms=rooms, layers=layer_needs(build=build), build=build)


def room_faults(resolved: ResolvedJob, survey: Survey) -> tuple[Fault, ...]:
    """What is wrong with the rooms, the thickness and the optional layers."""
    return _measured_rooms(resolved, survey)[1].found


def _measured_rooms(resolved: ResolvedJob, survey: Survey) -> tuple[tuple[RoomTakeoff, ...], Faults]:
    faults = Faults()
    ways = (fault for room in resolved.rooms for fault in room.advance.faults)
    faults.keep((*resolved.layers.faults, *survey.faults, *ways))
    return measure_rooms(resolved, survey, faults), faults
