"""The crew of a job as asked, in SI; what the asker left out is None. ``floor/job.py`` has the rest of the job."""

from __future__ import annotations

from decimal import Decimal

from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """The hands of each task, of which the job says them; of ``mix``, at each station."""

    prepare: int | None = None
    saw: int | None = None
    chase: int | None = None
    patch: int | None = None
    cove: int | None = None
    mix: int | None = None
    place: int | None = None
    roll: int | None = None
    cast: int | None = None
    clear: int | None = None
    coat: int | None = None
    abrade: int | None = None
    seal: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """Who does the work, and how fast: a rate is what all hands of its task do together.

    A room wider than ``lane_width_m`` is poured in strips, stopped at keyways. ``hourly_cost`` is that
    of one person.
    """

    mixing_stations: int | None = None
    minutes_per_mix: float | None = None
    placing_rate_m2_s: float | None = None
    lane_depth_m: float | None = None
    lane_width_m: float | None = None
    coating_rate_m2_s: float | None = None
    clearing_rate_m2_s: float | None = None
    prepare_rate_m2_s: float | None = None
    saw_rate_m_s: float | None = None
    chase_rate_m_s: float | None = None
    patch_rate_m2_s: float | None = None
    cove_rate_m_s: float | None = None
    cast_rate_kg_s: float | None = None
    seal_rate_m_s: float | None = None
    people: int | None = None
    hands: Hands = Hands()
    hourly_cost: Decimal | None = None
