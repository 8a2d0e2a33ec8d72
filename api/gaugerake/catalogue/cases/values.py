"""The values of a worked case: its job, and what the answer must hold where."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, Literal, TypeAlias

from gaugerake.floor.values.frozen import dataclass
from gaugerake.measure.choice import ChoiceName

Single: TypeAlias = "str | int | float | bool | None"


@dataclass(frozen=True, slots=True, kw_only=True)
class Within:
    """How far a figure may be off: so much of its own unit, per cent of what is expected, or seconds of time."""

    amount: Decimal
    of: Literal["unit", "percent", "seconds"]
    written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What the answer must hold at a JSON Pointer; ``line`` is where the file says so."""

    line: int
    pointer: str
    value: Single
    within: Within | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A job and what it must give; ``lines`` tells where each value of the job stands in the file, by its pointer."""

    line: int
    name: str
    units: ChoiceName
    job: Any
    lines: Mapping[str, int]
    gives: tuple[Expected, ...]

    def line_of(self, pointer: str) -> int:
        """Where a place of the job stands in the file, or the nearest place around it that the file has."""
        while pointer and pointer not in self.lines:
            pointer = pointer.rpartition("/")[0]
        return self.lines.get(pointer, self.line)

    @property
    def explained(self) -> bool:
        """Whether it looks at the working."""
        return any(one.pointer.startswith("/working") for one in self.gives)

    @property
    def price_book(self) -> str | None:
        """The branch whose prices it asks for."""
        order = self.job.get("order") if isinstance(self.job, dict) else None
        book = order.get("price_book") if isinstance(order, dict) else None
        return book if isinstance(book, str) else None
