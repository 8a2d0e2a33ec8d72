"""What is asked of a pour under way, with what it leaves unsaid filled in."""

from __future__ import annotations

from datetime import datetime

from gaugerake.answers.job.errors import Fault, Faults
from gaugerake.answers.job.remarks import Remark, assumption, missing
from gaugerake.answers.job.resolve_work import resolve_moment
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.taken import Taken, asked, assumed, refused
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.pour.under_way import Progress
from gaugerake.floor.values.errors import BeforeBegan, NothingPlaced, NotPoured, SharedName, UnknownName, UnknownRoom
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedProgress:
    """What is said of a pour under way.

    Either ``area_m2`` is placed, or the edge stands in a ``room`` (its index), ``to_m`` from its side; what is not said
    of them is None. ``mixes_left`` is None where the order counts.
    """

    mix_count: int
    mixes_left: int | None
    area_m2: float | None
    to_m: float | None
    layer: Taken[Layer]
    room: Taken[int | None]
    began: Taken[datetime | None]
    at: Taken[datetime | None]

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """What is taken for unsaid, and what would sharpen the answer."""
        began = (missing("progress-began-unsaid", "/progress/began"),) if self.began.value is None else ()
        at = (missing("progress-at-unsaid", "/progress/at"),) if self.at.value is None else ()
        return (*self.layer.remarks, *self.began.remarks, *self.at.remarks, *began, *at)


def resolve_progress(resolved: ResolvedJob, progress: Progress) -> ResolvedProgress:
    """The progress with every value present.

    Raises
    ------
    Refused
        With every fault of it that needs no measuring.
    """
    zone, faults = resolved.work.zone, Faults()
    found = ResolvedProgress(
        mix_count=progress.mixes,
        mixes_left=progress.mixes_left,
        area_m2=progress.placed.area_m2,
        to_m=progress.placed.to_m,
        layer=_layer(resolved, progress.layer),
        room=_room(resolved, progress.placed.room),
        began=resolve_moment(progress.began, zone, "/progress/began"),
        at=resolve_moment(progress.at, zone, "/progress/at"),
    )
    for taken in (found.layer, found.room, found.began, found.at):
        for fault in taken.faults:
            faults.add(fault.pointer, fault.error)
    if progress.mixes == 0:
        faults.add("/progress/mixes", NothingPlaced("mixes"))
    faults.raise_any()
    if found.began.value is not None and found.at.value is not None and found.at.value <= found.began.value:
        faults.add("/progress/at", BeforeBegan("at"))
    faults.raise_any()
    return found


def _layer(resolved: ResolvedJob, said: str | None) -> Taken[Layer]:
    """The layer that is poured: as said, else the first that is poured."""
    if resolved.layers.faults:
        return refused(resolved.layers.faults)
    poured = [layer for layer in resolved.layers.value if layer.pour is not None]
    if not poured:
        return refused((Fault("/system", NotPoured("system")),))
    known = [layer.id for layer in poured]
    if said is None:
        first = poured[0]
        return assumed(first) if len(poured) == 1 else assumed(first, _first_layer(first))
    if said not in known:
        return refused((Fault("/progress/layer", UnknownName("layer", seen=said, known=known)),))
    return asked(poured[known.index(said)])


def _first_layer(layer: Layer) -> Remark:
    return assumption("progress-first-layer", "/progress/layer", layer.id, name=layer.name)


def _room(resolved: ResolvedJob, said: str | int | None) -> Taken[int | None]:
    """The index of a room by its name, or by its number from 1, which may be written as a text."""
    pointer = "/progress/placed/room"
    if said is None:
        return asked(None)
    if isinstance(said, str) and _is_number(said) and all(room.name != said for room in resolved.rooms):
        said = int(said)
    if isinstance(said, int):
        if said <= len(resolved.rooms):
            return asked(said - 1)
        known = [str(room.index + 1) for room in resolved.rooms]
        return refused((Fault(pointer, UnknownRoom("room", seen=str(said), known=known)),))
    found = [room.index for room in resolved.rooms if room.name == said]
    if len(found) == 1:
        return asked(found[0])
    if found:
        return refused((Fault(pointer, SharedName("room", numbers=[index + 1 for index in found])),))
    names = [room.name if isinstance(room.name, str) else str(room.index + 1) for room in resolved.rooms]
    return refused((Fault(pointer, UnknownRoom("room", seen=said, known=names)),))


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdecimal()
