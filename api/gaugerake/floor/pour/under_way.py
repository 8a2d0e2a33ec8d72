"""How far a pour has come, as asked, in SI. A field that the asker left out is None; nothing is assumed here."""

from __future__ import annotations

from datetime import datetime

from gaugerake.floor.job import Job
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PourExtent:
    """What is placed: an area of floor [m²], or a ``room`` (its name, or its number from 1) up to an edge [m]."""

    area_m2: float | None = None
    room: str | int | None = None
    to_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """The mixes that are emptied onto the floor, what they cover, what is left, and when that was."""

    mixes: int
    placed: PourExtent
    layer: str | None = None
    mixes_left: int | None = None
    began: datetime | None = None
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PourUnderWay:
    """A job, and how far its pour has come."""

    job: Job
    progress: Progress
