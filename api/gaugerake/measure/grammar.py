"""The grammar of measures: text as people write it in, an SI number out.

::

    measure   = [minus] number unit                    minus for temperatures and their differences alone
              | whole feet ["-" | ","] inches inch     inches below 12
    number    = decimal | fraction | whole (space | "-") fraction | [whole [space | "-"]] vulgar
    decimal   = whole ["." digits] | "." digits
    whole     = digits | groups of three parted by commas
    fraction  = digits "/" digits                      smaller than one after a whole number
    vulgar    = ½ | ¼ | ¾ | ⅛ | ⅜ | ⅝ | ⅞
    feet      = "'" | ’ | ′ | ft | foot | feet
    inch      = '"' | ” | ″ | in | inch | inches       or another spelling of the inch

Spaces may stand between any two of these words, and no-break and thin spaces are spaces. Nothing is evaluated: a text
of at most 32 characters is read once, from left to right, into whole numbers over whole numbers.

Decisions:

* A measure is read into whole number over whole number, divided once, and kept to 12 significant digits. So ``1/8 in``
  and ``3.175 mm``, or ``1 yd2`` and ``9 ft2``, are the same float, and the same job in other units has the same
  fingerprint.
* A Rec 20 code that looks like a number (77, 28, 4H, E31) is listed but not read: ``5 28`` and ``5E31`` are not
  measures.
* ``0,250`` is refused as a decimal comma because a group of three never follows a zero; ``1,250`` is one thousand two
  hundred and fifty.
* A comma between feet and inches is read (``28 feet, 6 inches``): people write it so, and it can mean nothing else.
* Compound units take any spelling of their parts, joined by ``/`` or ``per``. ``24 h`` may be ``day``.
* Bare improper fractions (``5/4 in``) are read; after a whole number the fraction must be proper. Numbers over 10^18
  are refused.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache
from math import isfinite
from typing import NamedTuple, NoReturn

from gaugerake.measure.dimension import SIGNED, Dimension
from gaugerake.measure.errors import BadNumber, BadText, BadUnit, Reason
from gaugerake.measure.units import Unit, find

LONGEST = 32
"""The most characters that a measure has."""

LARGEST = 10**18
"""The largest number that is taken at all, in any unit; each field has narrower bounds of its own."""

_TO_SPACE = str.maketrans(dict.fromkeys("\u00a0\u2007\u2009\u202f", " "))
_SPACES = re.compile(r" {2,}")
_VULGAR = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
# A group of three is not begun by a zero: 0,250 is a quarter to whoever writes it.
_GROUPED = r"[1-9][0-9]{0,2}(?:,[0-9]{3})+"
_WHOLE = rf"(?:{_GROUPED}|[0-9]+)"
_NUMBER = re.compile(
    rf"""([-\u2212]\ ?)?
    (?:(?:({_WHOLE})[\ -])?([0-9]+)/([0-9]+)
      |(?:({_WHOLE})[\ -]?)?([½¼¾⅛⅜⅝⅞])
      |({_WHOLE})(?:\.([0-9]+))?
      |\.([0-9]+))
    (?![0-9.,/⁄½¼¾⅛⅜⅝⅞])\ ?""",
    re.VERBOSE,
)
_PLAIN = re.compile(r"([0-9]+)(?:\.([0-9]+))?\ ?(?=[A-Za-z°])")
"""What most numbers are: digits, perhaps with decimals, before a letter of the unit. ``_NUMBER`` reads them alike."""
_FEET = re.compile(r"(?:['’′]|(?:ft|feet|foot)\.?) ?[-,]? ?(?=\.?[0-9]|[½¼¾⅛⅜⅝⅞])", re.IGNORECASE)
_FEET_BEGIN = frozenset("'’′fF")

_DECIMAL_COMMA = re.compile(rf"[-\u2212]? ?(?!{_GROUPED}(?![0-9,]))[0-9.]*,[0-9]")
_EXPONENT = re.compile(r"[eE][-+\u2212]?[0-9]")
_ANOTHER_NUMBER = re.compile(r"[-–+*/x×_~ ]*[0-9.,½¼¾⅛⅜⅝⅞]")
_MIXED_UP = {
    (Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE): Reason.DELTA_FOR_TEMPERATURE,
    (Dimension.TEMPERATURE_DIFFERENCE, Dimension.TEMPERATURE): Reason.TEMPERATURE_FOR_DIFFERENCE,
}


class _Number(NamedTuple):
    """A number as ``over`` / ``under``, the place of its ``end``, and whether it is written as a ``whole`` number."""

    over: int
    under: int
    end: int
    whole: bool


def canonical(value: float) -> float:
    """The value to 12 significant digits.

    A thickness may come as 1/8 in from one caller and as 3.175 mm from another, or as what a caller's own conversion
    made of either. Twelve digits are a thousandth of a micron in a kilometre: far under anything that is measured on
    a floor, and far over the noise of a conversion. So all of them become one float, and with it one fingerprint, one
    rounding and one answer.

    >>> canonical(0.1 + 0.2)
    0.3
    """
    return float(f"{value:.12g}")


def read(text: str, dimension: Dimension) -> float:
    """The SI value of a measure as people write it.

    Parameters
    ----------
    text
        Such as ``1 1/2 in``, ``5' 6 1/2"``, ``1,250 sq ft`` or ``72 °F``.
    dimension
        What it must measure.

    Returns
    -------
    float
        In the base unit of the dimension, to 12 significant digits (see `canonical`).

    Raises
    ------
    NotAMeasure
        When it is not exactly one measure of the dimension.

    Examples
    --------
    >>> read("1 1/2 in", Dimension.LENGTH)
    0.0381
    >>> read("28' 6\\"", Dimension.LENGTH)
    8.6868
    >>> read("1/8 in", Dimension.LENGTH) == read("3.175 mm", Dimension.LENGTH)
    True
    >>> read("72 °F", Dimension.TEMPERATURE)
    295.372222222
    """
    return _read(text, dimension)


# A form that is filled in bit by bit sends the same few measures again with every keystroke.
@lru_cache(maxsize=4096)
def _read(text: str, dimension: Dimension) -> float:
    line = _line(text, dimension)
    number = _number(line, 0, text, dimension)
    rest = line[number.end :]
    if dimension is Dimension.LENGTH and rest[:1] in _FEET_BEGIN:
        feet = _FEET.match(rest)
        if feet:
            return _feet_and_inches(text, number, rest, feet.end())
    entry = find(rest, dimension) or _refuse_unit(rest, text, dimension)
    return _si(number.over, number.under, entry, text)


def read_object(value: float, unit: str, dimension: Dimension) -> float:
    """The SI value of a measure given as a number and a unit; the number is taken as it is written in decimals.

    Raises
    ------
    NotAMeasure
        When the value is not a finite number, or the unit not one of the dimension.

    Examples
    --------
    >>> read_object(1.5, "in", Dimension.LENGTH)
    0.0381
    >>> read_object(21, "degC", Dimension.TEMPERATURE)
    294.15
    """
    _bounded(value, dimension)
    seen = f"{value} {unit}" if isinstance(unit, str) and unit.strip() else str(value)
    entry = _read_unit(unit, seen, dimension)
    if value < 0 and dimension not in SIGNED:
        raise BadNumber(seen, dimension, Reason.NEGATIVE)
    over, under = Decimal(repr(value)).as_integer_ratio()
    return _si(over, under, entry, repr(value))


def read_json(seen: object, dimension: Dimension) -> float:
    """The SI value of a measure as it stands in a document: a text, or an object with a value and a unit.

    Raises
    ------
    NotAMeasure
        When it is neither, or not exactly one measure of the dimension.

    Examples
    --------
    >>> read_json({"value": 1.5, "unit": "in"}, Dimension.LENGTH) == read_json("1 1/2 in", Dimension.LENGTH)
    True
    """
    if isinstance(seen, str):
        return read(seen, dimension)
    if isinstance(seen, int | float) and not isinstance(seen, bool):
        _bounded(seen, dimension)
        raise BadUnit(str(seen), dimension, Reason.NO_UNIT)
    if not isinstance(seen, Mapping) or set(seen) != {"value", "unit"}:
        raise BadText(seen, dimension, Reason.NOT_TEXT)
    return read_object(seen["value"], seen["unit"], dimension)


def _bounded(value: object, dimension: Dimension) -> None:
    """Refuse what is not a finite number, or absurdly large (an int may have more digits than can be shown)."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise BadNumber(value, dimension, Reason.NOT_A_NUMBER)
    if isinstance(value, float) and not isfinite(value):
        raise BadNumber(str(value), dimension, Reason.NOT_A_NUMBER)
    if not -LARGEST <= value <= LARGEST:
        raise BadNumber("a large number", dimension, Reason.TOO_LARGE)


def _line(text: str, dimension: Dimension) -> str:
    """The text with its spaces made plain, when it is worth reading."""
    if len(text) > LONGEST:
        raise BadText(text, dimension, Reason.TOO_LONG)
    line = (text if text.isascii() else text.translate(_TO_SPACE)).strip(" ")
    if not line:
        raise BadText(text, dimension, Reason.EMPTY)
    if not line.isprintable():
        raise BadText(text, dimension, Reason.CONTROL_CHARACTER)
    return _SPACES.sub(" ", line) if "  " in line else line


def _number(line: str, start: int, text: str, dimension: Dimension) -> _Number:
    """The number that begins at ``start``."""
    plain = _PLAIN.match(line, start)
    if plain:
        whole, decimals = plain.groups("")
        return _Number(int(whole + decimals), 10 ** len(decimals), plain.end(), not decimals)
    match = _NUMBER.match(line, start)
    if not match:
        _refuse_number(line, start, text, dimension)
    minus, mixed, over, under, before, vulgar, whole, decimals, point = match.groups()
    if minus and dimension not in SIGNED:
        raise BadNumber(text, dimension, Reason.NEGATIVE)
    if whole or point:
        digits = decimals or point or ""
        ratio = int((whole or "").replace(",", "") + digits), 10 ** len(digits)
    elif vulgar:
        ratio = _mixed(before, *_VULGAR[vulgar])
    else:
        ratio = _fraction(mixed, int(over), int(under), text, dimension)
    return _Number(-ratio[0] if minus else ratio[0], ratio[1], match.end(), bool(whole) and not decimals)


def _mixed(whole: str | None, over: int, under: int) -> tuple[int, int]:
    return int((whole or "0").replace(",", "")) * under + over, under


def _fraction(whole: str | None, over: int, under: int, text: str, dimension: Dimension) -> tuple[int, int]:
    if under == 0:
        raise BadNumber(text, dimension, Reason.ZERO_DENOMINATOR)
    if whole and over >= under:
        raise BadNumber(text, dimension, Reason.FRACTION_NOT_PROPER)
    return _mixed(whole, over, under)


def _feet_and_inches(text: str, feet: _Number, rest: str, start: int) -> float:
    inches = _number(rest, start, text, Dimension.LENGTH)
    spelling = rest[inches.end :]
    if not spelling:
        # 5 ft2 is an area; 5' 6 lacks the inches' own mark
        _refuse_unit("" if _other(rest, Dimension.LENGTH) is None else rest, text, Dimension.LENGTH)
    if not feet.whole:
        raise BadNumber(text, Dimension.LENGTH, Reason.FEET_NOT_WHOLE)
    entry = _unit(spelling, text, Dimension.LENGTH)
    if entry.unit != "in":
        raise BadNumber(text, Dimension.LENGTH, Reason.TWO_NUMBERS)
    if inches.over >= 12 * inches.under:
        raise BadNumber(text, Dimension.LENGTH, Reason.INCHES_OVER_TWELVE)
    return _si(feet.over * 12 * inches.under + inches.over, inches.under, entry, text)


def _read_unit(unit: object, seen: object, dimension: Dimension) -> Unit:
    if not isinstance(unit, str) or not unit.strip():
        raise BadUnit(seen, dimension, Reason.NO_UNIT)
    return _unit(_line(unit, dimension), seen, dimension)


def _unit(spelling: str, text: object, dimension: Dimension) -> Unit:
    return find(spelling, dimension) or _refuse_unit(spelling, text, dimension)


def _si(over: int, under: int, entry: Unit, text: str) -> float:
    """(over/under) of the unit in SI. Whole numbers are divided once, at the end: the quotient is the nearest float."""
    a, b, c = entry.ratio
    if abs(over) > LARGEST * under:
        raise BadNumber(text, entry.dimension, Reason.TOO_LARGE)
    return canonical((over * a + under * b) / (under * c))


def _refuse_number(line: str, start: int, text: str, dimension: Dimension) -> NoReturn:
    """Say why no number could be read at ``start``."""
    if _has_foreign_digits(line):
        raise BadNumber(text, dimension, Reason.NON_ASCII_DIGITS)
    if _DECIMAL_COMMA.match(line, start):
        raise BadNumber(text, dimension, Reason.DECIMAL_COMMA)
    raise BadNumber(text, dimension, Reason.NOT_A_NUMBER)


def _refuse_unit(spelling: str, text: object, dimension: Dimension) -> NoReturn:
    """Say why what follows the number is not a unit of the dimension."""
    if not spelling:
        raise BadUnit(text, dimension, Reason.NO_UNIT)
    if _has_foreign_digits(spelling):
        raise BadNumber(text, dimension, Reason.NON_ASCII_DIGITS)
    if _EXPONENT.match(spelling):
        raise BadNumber(text, dimension, Reason.EXPONENT)
    if _ANOTHER_NUMBER.match(spelling):
        raise BadNumber(text, dimension, Reason.TWO_NUMBERS)
    other = _other(spelling, dimension)
    if other is None:
        raise BadUnit(text, dimension, Reason.UNKNOWN_UNIT, unit=spelling)
    reason = _MIXED_UP.get((dimension, other), Reason.WRONG_DIMENSION)
    raise BadUnit(text, dimension, reason, unit=spelling, other=other)


def _has_foreign_digits(line: str) -> bool:
    return any(c.isdigit() and not c.isascii() and c not in "²³" for c in line)


def _other(spelling: str, dimension: Dimension) -> Dimension | None:
    """The first other dimension that has a unit of this spelling."""
    return next((other for other in Dimension if other is not dimension and find(spelling, other)), None)
