"""The pour of a day: its mixes, room by room, and where they are to end."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Annotated

from gaugerake.answers.day_sheet.dated import DatedWork, PouredOn
from gaugerake.answers.pour_plan.marks import ListedMarks, MixMark
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class DayPour:
    """What is poured of one room on a day."""

    layer: Annotated[str, "The id of the body layer."]
    room: Annotated[Words, "The room, as the job names it or by its number."]
    first_mix: Annotated[int, "The first mix that is begun for the room that day, numbered from 1 through the layer."]
    last_mix: Annotated[int, "The last mix that is begun for the room that day."]
    from_: Annotated[datetime, "When the first of them is begun."]
    until: Annotated[datetime, "When the mix after the last would be begun."]
    cadence: Annotated[Figure, "From one mix to the next."]
    marks: Annotated[
        tuple[MixMark, ...] | None,
        "How far the floor stands after each mix; null where the room does not say its way, or they are too many.",
    ]


def day_pours(work: DatedWork, poured: Sequence[PouredOn], marked: ListedMarks) -> tuple[DayPour, ...]:
    """The pours of a day."""
    return tuple(_pour(work, one, marked) for one in poured)


def _pour(work: DatedWork, one: PouredOn, marked: ListedMarks) -> DayPour:
    part, zone = one.judged.part, work.timetable.zone
    listed = marked.shown(one.index)
    return DayPour(
        layer=one.layer.site.layer.id,
        room=work.takeoff.rooms[part.pour.room].name,
        first_mix=one.first_mix,
        last_mix=one.last_mix,
        from_=zone.datetime_at(one.from_s),
        until=zone.datetime_at(one.until_s),
        cadence=Figure(part.pour.pace.cadence_s, Kind.MINUTES),
        marks=tuple(mark for mark in listed if one.first_mix <= mark.mix <= one.last_mix) or None,
    )
