"""Strict marshmallow fields: a number is a number, a truth value is a truth value, and nothing is turned into another.

A null is a field that was left empty: it says nothing, as if the field were not there. Every field reads (``read``),
writes what it read in the reader's units (``write``) and describes itself (``form``, a JSON schema).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from enum import StrEnum
from typing import Any, NoReturn

from marshmallow import ValidationError, missing
from marshmallow.fields import Field

from gaugerake.characters import HIDDEN_CLASS, escaped, has_hidden
from gaugerake.measure.choice import UnitChoice
from gaugerake.nearest import nearest_name
from gaugerake.web.errors.finding import Finding, refuse

Form = dict[str, Any]


class Strict(Field[Any]):
    """A field that takes nothing for something else. ``about`` is its description."""

    def __init__(self, *, about: str = "", **options: Any) -> None:
        super().__init__(**options)
        self.about = about

    def deserialize(self, value: Any, attr: str | None = None, data: Any = None, **kwargs: Any) -> Any:
        """The value read, or ``missing``.

        Raises
        ------
        ValidationError
        """
        if value is None or value is missing:
            if self.required:
                refuse("required")
            return missing
        return self.read(value)

    def read(self, value: Any) -> Any:
        """The value of what stands in the document."""
        raise NotImplementedError

    def write(self, value: Any, choice: UnitChoice) -> Any:
        """The value as the document has it."""
        return value

    def form(self) -> Form:
        """The JSON schema of the field."""
        raise NotImplementedError


class Flag(Strict):
    """True or false."""

    def read(self, value: Any) -> bool:
        """True or false."""
        if not isinstance(value, bool):
            refuse("not-a-flag", value)
        return value

    def form(self) -> Form:
        """A boolean."""
        return {"type": "boolean"}


class Plain(Strict):
    """An object that is taken as it is."""

    def read(self, value: Any) -> dict[str, Any]:
        """The object."""
        if not isinstance(value, dict):
            refuse("not-a-plain-object", value)
        return value

    def form(self) -> Form:
        """An object of any fields."""
        return {"type": "object", "additionalProperties": True}


class Number(Strict):
    """A plain number from ``low`` to ``high``; with ``exact``, the decimal that was written."""

    def __init__(self, low: float, high: float, *, exact: bool = False, **options: Any) -> None:
        super().__init__(**options)
        self.low, self.high, self.exact = low, high, exact

    def read(self, value: Any) -> float | Decimal:
        """The number."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            refuse("not-a-number", value)
        if not self.low <= value <= self.high:
            refuse("number-out-of-range", value, low=self.low, high=self.high)
        return Decimal(repr(value)) if self.exact else float(value) + 0.0

    def write(self, value: Any, choice: UnitChoice) -> float:
        """The number."""
        return float(value)

    def form(self) -> Form:
        """A number and its range."""
        return {"type": "number", "minimum": self.low, "maximum": self.high}


class Whole(Strict):
    """A whole number from ``low`` to ``high``. As JSON knows no integers, 3.0 is 3."""

    def __init__(self, low: int, high: int, **options: Any) -> None:
        super().__init__(**options)
        self.low, self.high = low, high

    def read(self, value: Any) -> int:
        """The number."""
        if isinstance(value, bool) or not isinstance(value, int | float) or value != value // 1:
            refuse("not-whole", value)
        if not self.low <= value <= self.high:
            refuse("number-out-of-range", value, low=self.low, high=self.high)
        return int(value)

    def form(self) -> Form:
        """An integer and its range."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


class Text(Strict):
    """A line of text of at most ``most`` characters that is not blank and hides nothing."""

    def __init__(self, most: int, **options: Any) -> None:
        super().__init__(**options)
        self.most = most

    def read(self, value: Any) -> str:
        """The text."""
        if not isinstance(value, str):
            refuse("not-text", value)
        if len(value) > self.most:
            refuse("text-too-long", value, most=self.most)
        if has_hidden(value):
            refuse("unseemly-text", escaped(value))
        if not value.strip():
            refuse("blank-text", value)
        return value

    def form(self) -> Form:
        """A string."""
        pattern = f"^[^{HIDDEN_CLASS}]*[^\\s{HIDDEN_CLASS}][^{HIDDEN_CLASS}]*$"
        return {"type": "string", "minLength": 1, "maxLength": self.most, "pattern": pattern}


class Choice(Strict):
    """One of a few words; ``kind`` is their StrEnum."""

    def __init__(self, kind: type[StrEnum], **options: Any) -> None:
        super().__init__(**options)
        self.kind = kind
        self.words: Mapping[str, StrEnum] = {member.value: member for member in kind}

    def read(self, value: Any) -> StrEnum:
        """The member that the word stands for."""
        found = self.words.get(value) if isinstance(value, str) else None
        if found is None:
            _refuse_word(value, self.words)
        return found

    def write(self, value: Any, choice: UnitChoice) -> str:
        """The word."""
        return str(value.value)

    def form(self) -> Form:
        """An enumeration."""
        return {"type": "string", "enum": list(self.words)}


def _refuse_word(value: Any, known: Iterable[str]) -> NoReturn:
    words = list(known)
    near = nearest_name(value, words) if isinstance(value, str) else None
    raise ValidationError([Finding("unknown-word", value, {"known": ", ".join(words), "nearest": near})])


_MONEY = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,4})?")


class Money(Strict):
    """An amount of money as a decimal string, in the price book's currency."""

    def read(self, value: Any) -> Decimal:
        """The amount."""
        if not isinstance(value, str) or not _MONEY.fullmatch(value):
            refuse("not-money", value)
        return Decimal(value)

    def write(self, value: Any, choice: UnitChoice) -> str:
        """The amount as a decimal string."""
        return format(value, "f")

    def form(self) -> Form:
        """A decimal string."""
        return {"type": "string", "pattern": f"^{_MONEY.pattern}$", "examples": ["45.00"]}
