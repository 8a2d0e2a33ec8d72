"""The marks of a pour as people read them: how far from its side the floor stands when each mix is placed.

Decisions:

* Marks are for a pour plan that is asked for alone, as the clock of every mix is; a quote has none.
* At most 2,000 are listed, those that come first, with a caution: a contractor chalks every few mixes.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.wet_edge.judge import Judged, JudgedLayer
from gaugerake.floor.layers.filling import fill_of
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.marks import Mark, marks
from gaugerake.floor.room.cutting import sweep
from gaugerake.floor.room.sweep import Sweep
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass

MOST_MARKS = 2_000
"""More marks than this are not listed."""

PartMarks = tuple[Mark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixMark:
    """How far from the side that the pour begins at the floor stands when a mix is placed, without waste."""

    mix: Annotated[int, "Its number, from 1 through the layer."]
    low: Annotated[Figure, "Where each mix makes as little as its product may."]
    likely: Annotated[Figure, "Where each mix makes the likely yield."]
    high: Annotated[Figure, "Where each mix makes as much as its product may."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedMarks:
    """The marks of each part of a pour, in the order of the work; ``unlisted_count`` is how many are not listed."""

    parts: tuple[PartMarks, ...]
    unlisted_count: int

    def shown(self, index: int) -> tuple[MixMark, ...]:
        """The marks of a part, as an answer shows them."""
        return tuple(
            MixMark(
                mix=mark.mix,
                low=Figure(mark.low_m, Kind.LENGTH),
                likely=Figure(mark.likely_m, Kind.LENGTH),
                high=Figure(mark.high_m, Kind.LENGTH),
            )
            for mark in self.parts[index]
        )


def swept_room(resolved: ResolvedJob, takeoff: Takeoff, room: int) -> Sweep | None:
    """A room cut along the way of its pour; None where the job does not say the way."""
    asked = resolved.rooms[room]
    advance = asked.advance.value
    return None if advance is None else sweep(shape=asked.shape, room=takeoff.rooms[room], advance=advance)


def mark(resolved: ResolvedJob, takeoff: Takeoff, judged: Judged) -> ListedMarks:
    """The marks of every part of a pour whose room says its way."""
    found: list[PartMarks] = []
    for layer in judged.layers:
        found.extend(_layer_marks(resolved, takeoff, layer, MOST_MARKS - sum(map(len, found))))
    wanted = sum(
        part.part.mix_count
        for _, part in judged.parts()
        if resolved.rooms[part.part.pour.room].advance.value is not None
    )
    return ListedMarks(parts=tuple(found), unlisted_count=wanted - sum(map(len, found)))


def _layer_marks(resolved: ResolvedJob, takeoff: Takeoff, layer: JudgedLayer, left: int) -> Iterator[PartMarks]:
    """The marks of one layer; where a room is poured in parts, each part goes on where the one before it ends."""
    room, swept, before = -1, None, 0.0
    for judged in layer.parts:
        part = judged.part
        if part.pour.room != room:
            room, before = part.pour.room, 0.0
            swept = swept_room(resolved, takeoff, room) if left > 0 else None
        found: PartMarks = ()
        if swept is not None and left > 0:
            fill = fill_of(build=takeoff.build, layer=layer.site.layer, room=takeoff.rooms[room])
            yields = layer.site.pour.yield_m3
            found = marks(swept=swept, fill=fill, yield_m3=yields, part=part, before_mixes=before, most=left)
        before, left = before + part.takes_mixes, left - len(found)
        yield found


def mark_remarks(marked: ListedMarks) -> Iterator[Remark]:
    """A caution where some marks are not listed."""
    if marked.unlisted_count > 0:
        listed = sum(map(len, marked.parts))
        yield caution("pour-marks-unlisted", "/rooms", listed=listed, count=listed + marked.unlisted_count)
