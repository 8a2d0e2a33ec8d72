"""The rooms' own shapes, measured: what the checks of the slab and the takeoff both begin with."""

from __future__ import annotations

import math
from collections.abc import Sequence

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.resolved import ResolvedRoom
from gaugerake.floor.job import Measured, Polygon, Rectangle, Shape
from gaugerake.floor.room.shape import Footprint, footprint
from gaugerake.floor.values.errors import FloorError, OutOfRange
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.rounding import GUARD

LEAST_AREA_M2 = 0.01
"""The least that a room of a measured area, or of a drawn one, may be [m²]."""

MOST_AREA_M2 = 200_000.0
"""The most that a whole job may measure [m²]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """The footprint of each room, None where its shape is refused, and the faults found."""

    footprints: tuple[Footprint | None, ...]
    faults: tuple[Fault, ...]

    @property
    def gross_areas_m2(self) -> tuple[float, ...]:
        """The gross area of each room [m²].

        Raises
        ------
        Refused
            When a shape cannot be, or all of them are more than 200,000 m².
        """
        if self.faults:
            raise Refused(*self.faults)
        return tuple(measured.area_m2 for measured in self.footprints if measured is not None)


def survey_rooms(rooms: Sequence[ResolvedRoom]) -> Survey:
    """The rooms' own shapes, measured."""
    footprints: list[Footprint | None] = []
    faults: list[Fault] = []
    for room in rooms:
        try:
            footprints.append(_surveyed(room.shape))
        except FloorError as error:
            footprints.append(None)
            faults.append(Fault(f"{room.pointer}/shape/{refused_field(room.shape)}", error))
    total = math.fsum(measured.area_m2 for measured in footprints if measured is not None)
    if total > MOST_AREA_M2 * (1 + GUARD):
        most = Figure(MOST_AREA_M2, Kind.AREA)
        faults.append(Fault("/rooms", OutOfRange("area", value=Figure(total, Kind.AREA), low=None, high=most)))
    return Survey(footprints=tuple(footprints), faults=tuple(faults))


def _surveyed(shape: Shape) -> Footprint:
    """The footprint of a room; a polygon, whose points have no least distance, has the least area of a measured one."""
    measured = footprint(shape=shape)
    if isinstance(shape, Polygon) and measured.area_m2 < LEAST_AREA_M2 * (1 - GUARD):
        least = Figure(LEAST_AREA_M2, Kind.AREA)
        raise OutOfRange("area", value=Figure(measured.area_m2, Kind.AREA), low=least, high=None)
    return measured


def refused_field(shape: Shape) -> str:
    """The field of a shape that its fault is about, as the document names it."""
    if isinstance(shape, Polygon):
        return "polygon/points"
    if isinstance(shape, Measured):
        return "measured/perimeter"
    return "rectangle" if isinstance(shape, Rectangle) else "circle"
