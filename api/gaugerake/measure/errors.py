"""What the door for units refuses. The tree, which holds data and no status codes::

    NotAMeasure
    ├── BadText       not looked at: empty, too long, a control character, not text at all
    ├── BadNumber     the number cannot be read, or only in more than one way
    └── BadUnit       no unit, an unknown one, or one of another dimension

Each says what was ``seen`` (cut to 32 characters), which ``dimension`` was wanted, a ``reason`` and, as sentences, the
``detail`` and a ``hint`` of what would be accepted.
"""

from __future__ import annotations

from enum import StrEnum
from functools import cached_property

from gaugerake.measure.dimension import EXAMPLES, Dimension
from gaugerake.measure.units import PART_DIMENSIONS, find, spelled
from gaugerake.nearest import near_names

SEEN_CHARACTERS = 32
_JSON_NAMES = {"list": "a list", "dict": "an object", "NoneType": "null"}


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
    Reason.NOT_A_NUMBER: "No number can be read here.",
    Reason.NON_ASCII_DIGITS: "Only the digits 0 to 9 can be read.",
    Reason.DECIMAL_COMMA: "A comma only groups thousands (1,250); decimals take a point.",
    Reason.EXPONENT: "Numbers with an exponent are not read.",
    Reason.TWO_NUMBERS: "There is more than one number here.",
    Reason.NEGATIVE: "Only temperatures and their differences can be negative.",
    Reason.FRACTION_NOT_PROPER: "The fraction after a whole number must be smaller than one.",
    Reason.ZERO_DENOMINATOR: "The fraction divides by zero.",
    Reason.FEET_NOT_WHOLE: "Before inches, feet are a whole number.",
    Reason.INCHES_OVER_TWELVE: "After feet, inches are fewer than 12.",
    Reason.TOO_LARGE: "The number is too large.",
    Reason.NO_UNIT: "The unit is missing: a bare number could mean anything.",
    Reason.UNKNOWN_UNIT: "{unit} is not a known unit of {dimension}.",
    Reason.WRONG_DIMENSION: "{unit} is a unit of {other}; here, {dimension} is asked.",
    Reason.DELTA_FOR_TEMPERATURE: "This is a difference of temperatures; a temperature is asked.",
    Reason.TEMPERATURE_FOR_DIFFERENCE: "This is a temperature; a difference of temperatures is asked.",
}
"""One sentence for each reason."""

_PHRASES = {Dimension.PIECE: "pieces", Dimension.MIX: "mixes", Dimension.AREAL_MASS: "mass per area"}


def phrase(dimension: Dimension) -> str:
    """The dimension as words in a sentence.

    >>> phrase(Dimension.SPREADING_RATE)
    'spreading rate'
    """
    return _PHRASES.get(dimension, dimension.value.replace("-", " "))


def shorten(seen: object) -> str:
    """What was seen, short enough and fit to be shown again.

    >>> shorten("5 furlongs " * 10), shorten(True), shorten([])
    ('5 furlongs 5 furlongs 5 furlongs…', 'true', 'a list')
    """
    if not isinstance(seen, str):
        return _JSON_NAMES.get(type(seen).__name__) or str(seen).lower()[:SEEN_CHARACTERS]
    text = seen[:SEEN_CHARACTERS].encode("utf-8", "replace").decode()
    return text + "…" if len(seen) > SEEN_CHARACTERS else text


def _near_unit(spelling: str, dimension: Dimension) -> str | None:
    known = spelled(dimension)
    units = {known[near] for near in near_names(spelling, known)}
    return units.pop() if len(units) == 1 else None


def _near_part(spelling: str) -> str:
    """The unit that a part of a compound one is near to, or the part as it is written."""
    near = (_near_unit(spelling, dimension) for dimension in PART_DIMENSIONS)
    return next(filter(None, near), spelling)


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
        return f"Write a number and a unit of {phrase(self.dimension)}, such as {' or '.join(examples)}."


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
        """The unit with a name near enough to the one seen, if one has; worked out only when asked."""
        if self.reason is not Reason.UNKNOWN_UNIT:
            return None
        near = _near_unit(self.unit, self.dimension)
        if near or "/" not in self.unit:
            return near
        whole = find("/".join(map(_near_part, self.unit.split("/"))), self.dimension)
        return whole.unit if whole else None

    @property
    def hint(self) -> str:
        """What would be accepted, as a sentence with examples."""
        near = f"Do you mean {self.nearest}? " if self.nearest else ""
        return near + super().hint
