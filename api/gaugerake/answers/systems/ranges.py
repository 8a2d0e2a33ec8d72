"""Ranges, spreads and tables by temperature, as answers show what a maker states."""

from __future__ import annotations

from typing import Annotated

from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Limits, Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """An inclusive range; an end that is null is open."""

    low: Figure | None
    high: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A figure with its spread; the three are one when the maker states a single value."""

    low: Figure
    likely: Figure
    high: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeRow:
    """One row of a maker's table: how long it takes at a temperature of the floor held throughout."""

    at: Annotated[Figure, "Temperature of the floor."]
    low: Figure
    likely: Figure
    high: Figure


def bounds_of(limits: Limits, kind: Kind) -> Bounds | None:
    """The range, or None when neither end is stated."""
    if limits.low is None and limits.high is None:
        return None
    return Bounds(low=figure_of(limits.low, kind), high=figure_of(limits.high, kind))


def figure_of(value: float | None, kind: Kind) -> Figure | None:
    """The figure, or None when it is not stated."""
    return None if value is None else Figure(value, kind)


def spread_of(triple: Triple | None, kind: Kind) -> Spread | None:
    """The spread, or None when it is not stated."""
    if triple is None:
        return None
    return Spread(low=Figure(triple.low, kind), likely=Figure(triple.likely, kind), high=Figure(triple.high, kind))


def rows_of(curve: TimeCurve | None, kind: Kind = Kind.DURATION) -> tuple[TimeRow, ...] | None:
    """The rows of a table, rising in temperature, or None when there is none."""
    if curve is None:
        return None
    return tuple(
        TimeRow(
            at=Figure(point.temperature_k, Kind.TEMPERATURE),
            low=Figure(point.low_s, kind),
            likely=Figure(point.likely_s, kind),
            high=Figure(point.high_s, kind),
        )
        for point in curve.points
    )
