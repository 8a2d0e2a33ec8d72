"""What the door for units refuses. The tree, which holds data and no status codes::

    NotAMeasure
    ├── BadText       not looked at: empty, too long, a control character, not text at all
    ├── BadNumber     the number cannot be read, or only in more than one way
    └── BadUnit       no unit, an unknown one, or one of another dimension

Each says what was ``seen`` (cut to 32 characters), which ``dimension`` was wanted, a ``reason`` and, as sentences, the
``detail`` and a ``hint`` of what would be accepted.
"""

from __future__ import annotations

import difflib
from enum import StrEnum
from functools import cached_property

from gaugerake.measure.dimension import EXAMPLES, Dimension

SEEN_CHARACTERS = 32


class Reason(StrEnum):
    """Why something is not a measure."""

    EMPTY = "empty"
    TOO_LONG = "too-long"
    CONTROL_CHARACTER = "control-character"
    NOT_TEXT = "not-text"
    NOT_A_NUMBER = "not-a-number"
    NON_ASCII_DIGITS = "non-ascii-digits"
    DECIMAL_COMMA = "decimal-comma"
    EXPONENT = "exponent"
    TWO_NUMBERS = "two-numbers"
    NEGATIVE = "negative"
    FRACTION_NOT_PROPER = "fraction-not-proper"
    ZERO_DENOMINATOR = "zero-denominator"
    FEET_NOT_WHOLE = "feet-not-whole"
    INCHES_OVER_TWELVE = "inches-over-twelve"
    TOO_LARGE = "too-large"
    NO_UNIT = "no-unit"
    UNKNOWN_UNIT = "unknown-unit"
    WRONG_DIMENSION = "wrong-dimension"
    DELTA_FOR_TEMPERATURE = "delta-for-temperature"
    TEMPERATURE_FOR_DIFFERENCE = "temperature-for-difference"


DETAILS: dict[Reason, str] = {
    Reason.EMPTY: "Nothing is written here.",
    Reason.TOO_LONG: "A measure has at most 32 characters.",
    Reason.CONTROL_CHARACTER: "A measure holds no control characters.",
    Reason.NOT_TEXT: "A measure is a text, or an object with a value and a unit.",
    Reason.NOT_A_NUMBER: "This does not begin with a number that can be read.",
    Reason.NON_ASCII_DIGITS: "Only the digits 0 to 9 can be read.",
    Reason.DECIMAL_COMMA: "A comma only groups thousands (1,250); decimals take a point.",
    Reason.EXPONENT: "Numbers with an exponent are not read.",
    Reason.TWO_NUMBERS: "There is more than one number here.",
    Reason.NEGATIVE: "A {dimension} cannot be negative.",
    Reason.FRACTION_NOT_PROPER: "The fraction after a whole number must be smaller than one.",
    Reason.ZERO_DENOMINATOR: "The fraction divides by zero.",
    Reason.FEET_NOT_WHOLE: "Before inches, feet are a whole number.",
    Reason.INCHES_OVER_TWELVE: "After feet, inches are fewer than 12.",
    Reason.TOO_LARGE: "The number is too large.",
    Reason.NO_UNIT: "The unit is missing.",
    Reason.UNKNOWN_UNIT: "{unit} is not a unit of {dimension} that is known here.",
    Reason.WRONG_DIMENSION: "{unit} measures {other}; this is a {dimension}.",
    Reason.DELTA_FOR_TEMPERATURE: "This is a difference of temperatures; a temperature is asked.",
    Reason.TEMPERATURE_FOR_DIFFERENCE: "This is a temperature; a difference of temperatures is asked.",
}
"""One sentence for each reason."""

_PHRASES = {
    Dimension.PIECE: "number of pieces",
    Dimension.MIX: "number of mixes",
    Dimension.AREAL_MASS: "mass per area",
}


def phrase(dimension: Dimension) -> str:
    """The dimension as words in a sentence.

    >>> phrase(Dimension.SPREADING_RATE)
    'spreading rate'
    """
    return _PHRASES.get(dimension, dimension.value.replace("-", " "))


def shorten(seen: object) -> str:
    """What was seen, short enough to show again.

    >>> shorten("5 furlongs " * 10)
    '5 furlongs 5 furlongs 5 furlongs…'
    """
    text = seen if isinstance(seen, str) else type(seen).__name__
    return text if len(text) <= SEEN_CHARACTERS else text[:SEEN_CHARACTERS] + "…"


class NotAMeasure(ValueError):
    """Something that is not a measure of ``dimension``; ``reason`` says why."""

    def __init__(self, seen: object, dimension: Dimension, reason: Reason) -> None:
        self.seen = shorten(seen)
        self.dimension = dimension
        self.reason = reason
        super().__init__(f"{reason}: {self.seen!r} as {dimension}")

    @property
    def code(self) -> str:
        """The reason as a code."""
        return self.reason.value

    @property
    def detail(self) -> str:
        """What is wrong, as a sentence."""
        return DETAILS[self.reason].format(dimension=phrase(self.dimension))

    @property
    def hint(self) -> str:
        """What would be accepted, as a sentence with examples."""
        examples = EXAMPLES[self.dimension]
        return f"Write a {phrase(self.dimension)} with its unit, such as {' or '.join(examples)}."


class BadText(NotAMeasure):
    """Not looked at: empty, too long, a control character, or not text at all."""


class BadNumber(NotAMeasure):
    """The number cannot be read, or only in more than one way."""


class BadUnit(NotAMeasure):
    """``unit`` is missing, unknown, or of an ``other`` dimension."""

    def __init__(
        self, seen: object, dimension: Dimension, reason: Reason, *, unit: str = "", other: Dimension | None = None
    ) -> None:
        super().__init__(seen, dimension, reason)
        self.unit, self.other = shorten(unit), other

    @property
    def detail(self) -> str:
        """What is wrong, as a sentence."""
        other = phrase(self.other) if self.other else ""
        return DETAILS[self.reason].format(unit=f"“{self.unit}”", dimension=phrase(self.dimension), other=other)

    @cached_property
    def nearest(self) -> str | None:
        """The unit whose name is most like the one seen, if any is; worked out only when asked."""
        from gaugerake.measure.units import spelled

        if self.reason is not Reason.UNKNOWN_UNIT:
            return None
        known = spelled(self.dimension)
        near = difflib.get_close_matches(self.unit.lower(), known, n=1)
        return known[near[0]] if near else None

    @property
    def hint(self) -> str:
        """What would be accepted, as a sentence with examples."""
        near = f"Do you mean {self.nearest}? " if self.nearest else ""
        return near + super().hint
