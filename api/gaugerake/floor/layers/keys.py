"""What a kind of layer says in the catalogue: its keys, what each may be, and where it is shown again.

The catalogue's reader understands the forms that stand here, so a kind only names them. Ranges are written as
measures, wide enough for any floor and narrow enough that a slip of the unit is seen.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Any, Literal, Protocol

from gaugerake.floor.product import CountedIn
from gaugerake.floor.values.figure import Kind
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One measure from ``low`` to ``high``; ``dimension`` is the word of the measures' grammar, ``figure`` the kind."""

    dimension: str
    low: str
    high: str
    figure: Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranged:
    """``{low, likely, high}``, or one measure that stands for all three."""

    each: Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A plain number from ``low`` to ``high``; with ``above``, more than ``low``."""

    low: float
    high: float
    above: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """A whole number from ``low`` to ``high``."""

    low: int
    high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """A table of times by temperature: ``minutes`` (two hours at most) or ``duration`` (a cure)."""

    figure: Literal[Kind.MINUTES, Kind.DURATION]


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """One word of a closed list."""

    words: type[StrEnum]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductCode:
    """The code of a product that is counted in ``counted_in``; ``taker`` is who takes it, in a fault's words."""

    counted_in: CountedIn
    taker: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Keys of their own; its value maps their fields to what was read, None where one is left out that may be."""

    keys: tuple[Key, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A value that is shown as it is; no file holds one."""


Form = Measure | Ranged | Number | Whole | Times | Word | ProductCode | Group | Ready


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key of a kind of layer.

    ``field`` is the field of the class that holds its value in SI. ``example`` is what a fault tells to write where a
    required key is missing. ``shown`` is the field in which GET /v1/systems shows it, None where it shows it otherwise.
    """

    name: str
    field: str
    form: Form
    required: bool = False
    example: str = ""
    shown: str | None = None


class Entry(Protocol):
    """A layer's place in the catalogue's file."""

    def __contains__(self, key: str) -> bool: ...

    def read(self, key: Key) -> Any:
        """The value of a key; None or not-a-number where it is missing or cannot be read, which is told."""

    def fault(self, key: str | None, text: str) -> None:
        """Tell what is wrong with the value of a key, or with the whole entry, and what to write instead."""
