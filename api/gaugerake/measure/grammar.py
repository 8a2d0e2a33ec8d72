"""The grammar of measures: text as people write it in, an SI number out.

::

    measure   = [minus] number [space] unit            minus for temperatures and their differences alone
              | whole feet-mark [space] ["-"] [space] inches inch-mark
    number    = decimal | fraction | whole (space | "-") fraction | [whole [space | "-"]] vulgar
    decimal   = whole ["." digits] | "." digits
    whole     = digits | groups of three parted by commas
    fraction  = digits "/" digits                       smaller than one after a whole number
    vulgar    = ½ | ¼ | ¾ | ⅛ | ⅜ | ⅝ | ⅞
    inches    = number below 12

Nothing is evaluated. A text has at most 32 characters and is read once, from left to right.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from decimal import Decimal
from typing import NoReturn

from gaugerake.measure.dimension import SIGNED, Dimension
from gaugerake.measure.errors import BadNumber, BadText, BadUnit, Reason
from gaugerake.measure.units import Unit, find

LONGEST = 32
_SPACES = str.maketrans(dict.fromkeys("\u00a0\u202f\u2009\u2007", " "))
_VULGAR = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
_WHOLE = r"(?:[1-9][0-9]{0,2}(?:,[0-9]{3})+|[0-9]+)"
_AFTER = r"(?![0-9.,/⁄½¼¾⅛⅜⅝⅞])"
_NUMBER = re.compile(
    rf"""(?P<minus>[-\u2212]\ ?)?
    (?:(?:(?P<mixed>{_WHOLE})[\ -])?(?P<over>[0-9]+)/(?P<under>[0-9]+)
      |(?:(?P<before>{_WHOLE})[\ -]?)?(?P<vulgar>[½¼¾⅛⅜⅝⅞])
      |(?P<whole>{_WHOLE})(?:\.(?P<decimals>[0-9]+))?
      |\.(?P<point>[0-9]+)){_AFTER}""",
    re.VERBOSE,
)
_FEET = re.compile(r" ?(?:['’′]|(?:ft|feet|foot)\.?) ?-? ?(?=[0-9.½¼¾⅛⅜⅝⅞])", re.IGNORECASE)
_INCH_MARKS = frozenset({'"', "in", "ins", "inch", "inches"})
_NUMERIC = re.compile(r"[0-9.,½¼¾⅛⅜⅝⅞]")
_COMMA = re.compile(r"[-\u2212]? ?[0-9.]*,[0-9]")
_EXPONENT = re.compile(r" ?[eE][-+\u2212]?[0-9]")

Ratio = tuple[int, int]


def canonical(value: float) -> float:
    """The value to 12 significant digits.

    A thickness may come as 1/8 in from one caller and as 3.175 mm from another, or as what a caller's own conversion
    made of either. Twelve digits are a thousandth of a micron in a kilometre, far under anything that is measured on
    a floor and far over the noise of a conversion, so all of them become one float: the same fingerprint, the same
    rounding, the same answer.

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
    line = _line(text, dimension)
    match = _NUMBER.match(line)
    if not match:
        _refuse_number(text, line, dimension)
    if match["minus"] and dimension not in SIGNED:
        raise BadNumber(text, dimension, Reason.NEGATIVE)
    over, under = _ratio(match, text, dimension)
    rest = line[match.end() :]
    if dimension is Dimension.LENGTH:
        feet = _FEET.match(rest)
        if feet:
            return _feet_and_inches(text, match, over, rest[feet.end() :])
    entry = _unit(text, rest, dimension)
    return _si(over, under, entry, text)


def read_object(value: float, unit: str, dimension: Dimension) -> float:
    """The SI value of a measure given as a number and a unit.

    >>> read_object(1.5, "in", Dimension.LENGTH)
    0.0381
    """
    seen = f"{value} {unit}" if _is_number(value) and isinstance(unit, str) and len(unit) <= LONGEST else value
    if not _is_number(value):
        raise BadNumber(seen, dimension, Reason.NOT_A_NUMBER)
    if not isinstance(unit, str):
        raise BadUnit(seen, dimension, Reason.NO_UNIT)
    if value < 0 and dimension not in SIGNED:
        raise BadNumber(seen, dimension, Reason.NEGATIVE)
    entry = _unit(seen, _line(unit, dimension), dimension)
    over, under = (value, 1) if isinstance(value, int) else Decimal(repr(value)).as_integer_ratio()
    return _si(over, under, entry, seen)


def read_json(seen: object, dimension: Dimension) -> float:
    """The SI value of a measure as it stands in a JSON document: a text, or an object with a value and a unit.

    >>> read_json({"value": 1.5, "unit": "in"}, Dimension.LENGTH)
    0.0381
    """
    if isinstance(seen, str):
        return read(seen, dimension)
    if _is_number(seen):
        raise BadUnit(str(seen), dimension, Reason.NO_UNIT)
    if not isinstance(seen, Mapping) or set(seen) != {"value", "unit"}:
        raise BadText(seen, dimension, Reason.NOT_TEXT)
    return read_object(seen["value"], seen["unit"], dimension)


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def _line(text: str, dimension: Dimension) -> str:
    """The text with its spaces made plain, when it is worth reading."""
    if len(text) > LONGEST:
        raise BadText(text, dimension, Reason.TOO_LONG)
    line = text.translate(_SPACES).strip(" ")
    if not line:
        raise BadText(text, dimension, Reason.EMPTY)
    if not line.isprintable():
        raise BadText(text, dimension, Reason.CONTROL_CHARACTER)
    return line


def _digits(whole: str) -> int:
    return int(whole.replace(",", ""))


def _ratio(match: re.Match[str], text: str, dimension: Dimension) -> Ratio:
    """The number that was matched, as an exact ratio."""
    if match["under"]:
        ratio = _fraction(match, text, dimension)
    elif match["vulgar"]:
        over, under = _VULGAR[match["vulgar"]]
        ratio = _digits(match["before"] or "0") * under + over, under
    else:
        decimals = match["decimals"] or match["point"] or ""
        ratio = int((match["whole"] or "0").replace(",", "") + decimals), 10 ** len(decimals)
    return (-ratio[0], ratio[1]) if match["minus"] else ratio


def _fraction(match: re.Match[str], text: str, dimension: Dimension) -> Ratio:
    over, under = int(match["over"]), int(match["under"])
    if under == 0:
        raise BadNumber(text, dimension, Reason.ZERO_DENOMINATOR)
    if match["mixed"] is None:
        return over, under
    if over >= under:
        raise BadNumber(text, dimension, Reason.FRACTION_NOT_PROPER)
    return _digits(match["mixed"]) * under + over, under


def _feet_and_inches(text: str, feet: re.Match[str], over: int, rest: str) -> float:
    match = _NUMBER.match(rest)
    if not match or match["minus"]:
        _refuse_number(text, rest, Dimension.LENGTH)
    if feet["whole"] is None or feet["decimals"]:
        raise BadNumber(text, Dimension.LENGTH, Reason.FEET_NOT_WHOLE)
    inches, under = _ratio(match, text, Dimension.LENGTH)
    entry = _unit(text, rest[match.end() :], Dimension.LENGTH)
    if entry.unit != "in":
        raise BadNumber(text, Dimension.LENGTH, Reason.TWO_NUMBERS)
    if inches >= 12 * under:
        raise BadNumber(text, Dimension.LENGTH, Reason.INCHES_OVER_TWELVE)
    return _si(over * 12 * under + inches, under, entry, text)


def _unit(text: object, spelling: str, dimension: Dimension) -> Unit:
    spelling = spelling.strip(" ")
    entry = find(spelling, dimension)
    if entry is None:
        _refuse_unit(text, spelling, dimension)
    return entry


def _si(over: int, under: int, entry: Unit, seen: object) -> float:
    factor, offset = entry.exact_factor, entry.exact_offset
    try:
        value = (over * factor.numerator) / (under * factor.denominator)
        if offset:
            value = float(factor * over / under + offset)
    except OverflowError:
        raise BadNumber(seen, entry.dimension, Reason.TOO_LARGE) from None
    return canonical(value)


def _refuse_number(text: str, line: str, dimension: Dimension) -> NoReturn:
    """Say why no number could be read at the beginning of the line."""
    if any(c.isdigit() and not c.isascii() for c in line):
        raise BadNumber(text, dimension, Reason.NON_ASCII_DIGITS)
    if _COMMA.match(line):
        raise BadNumber(text, dimension, Reason.DECIMAL_COMMA)
    raise BadNumber(text, dimension, Reason.NOT_A_NUMBER)


def _refuse_unit(text: object, spelling: str, dimension: Dimension) -> NoReturn:
    """Say why what follows the number is not a unit of the dimension."""
    if not spelling:
        raise BadUnit(text, dimension, Reason.NO_UNIT)
    if _EXPONENT.match(spelling):
        raise BadNumber(text, dimension, Reason.EXPONENT)
    if _NUMERIC.match(spelling.lstrip("-–+*/ ")):
        raise BadNumber(text, dimension, Reason.TWO_NUMBERS)
    other = next((d for d in Dimension if d is not dimension and find(spelling, d)), None)
    if other is None:
        raise BadUnit(text, dimension, Reason.UNKNOWN_UNIT, unit=spelling)
    raise BadUnit(
        text, dimension, _MIXED_UP.get((dimension, other), Reason.WRONG_DIMENSION), unit=spelling, other=other
    )


_MIXED_UP = {
    (Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE): Reason.DELTA_FOR_TEMPERATURE,
    (Dimension.TEMPERATURE_DIFFERENCE, Dimension.TEMPERATURE): Reason.TEMPERATURE_FOR_DIFFERENCE,
}
