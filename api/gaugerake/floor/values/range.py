"""Figures that are uncertain, and ranges that something must lie in."""

from __future__ import annotations

from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Triple:
    """A figure that is uncertain: ``low <= likely <= high``, all in the unit that the field's name says."""

    low: float
    likely: float
    high: float

    @property
    def exact(self) -> bool:
        """Whether the maker states one value rather than a range."""
        return self.low == self.high

    def column(self, name: str) -> float:
        """The figure of a column: low, likely or high."""
        return {"low": self.low, "likely": self.likely, "high": self.high}[name]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """An inclusive range in the unit that the field's name says; an end that is None is open."""

    low: float | None = None
    high: float | None = None
