"""Times that depend on temperature: curves through every point of a maker's table, and the age that accrues on them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class TimePoint:
    """One row of a maker's table: at ``temperature_k`` it takes ``low_s``, ``likely_s`` or ``high_s`` seconds."""

    temperature_k: float
    low_s: float
    likely_s: float
    high_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeCurve:
    """A maker's table, its rows rising in temperature; missing columns already filled (see ``time_curve``)."""

    points: tuple[TimePoint, ...]
