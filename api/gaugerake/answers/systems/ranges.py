"""Ranges and tables by temperature, as a maker states them."""

from __future__ import annotations

from typing import Annotated

from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Limits, Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """An inclusive range; an end that is null is open."""

    low: Annotated[Figure | None, "The least that is allowed; null where no least is stated."]
    high: Annotated[Figure | None, "The most that is allowed; null where no most is stated."]


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedRange:
    """A figure as the maker states it; the three are equal where it states a single value."""

    low: Annotated[Figure, "The least that it may be."]
    likely: Annotated[Figure, "What it most likely is."]
    high: Annotated[Figure, "The most that it may be."]


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeRow:
    """One row of a maker's table: how long it takes at a temperature of the floor held throughout."""

    at: Annotated[Figure, "Temperature of the floor."]
    low: Annotated[Figure, "The shortest that it may take there."]
    likely: Annotated[Figure, "What it most likely takes there."]
    high: Annotated[Figure, "The longest that it may take there."]


def bounds_of(limits: Limits, kind: Kind) -> Bounds | None:
    """The range, or None when neither end is stated."""
    if limits.low is None and limits.high is None:
        return None
    return Bounds(low=figure_of(limits.low, kind), high=figure_of(limits.high, kind))


def figure_of(value: float | None, kind: Kind) -> Figure | None:
    """The figure, or None when it is not stated."""
    return None if value is None else Figure(value, kind)


def stated_range(triple: Triple | None, kind: Kind) -> StatedRange | None:
    """The figure, or None when it is not stated."""
    if triple is None:
        return None
    return StatedRange(low=Figure(triple.low, kind), likely=Figure(triple.likely, kind), high=Figure(triple.high, kind))


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
