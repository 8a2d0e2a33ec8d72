"""The closed table of units, and the look-up of a unit by any of its spellings.

Decisions:

* Pint gives the factors, for our own rows only. It is asked once, when this module is loaded, and its registry is then
  dropped: no text of a client's ever reaches it. A test holds that, another the factors against exact definitions and
  against Pint's floats. (Pint's ``mil`` is an angle; ours is its ``thou``.)
* Factors are exact fractions: an inch is 127/5000 m and not the float next to it, so that 1 yd2 and 9 ft2 are one
  number.
* A spelling that could mean two units is in no list: ``M``, ``Mm``, ``Mil``, ``mpa``, ``ton``, ``T``, ``ML`` are
  refused and the nearest unit named. Everyday words ignore case; symbols do not, except listed ones such as ``MM``,
  ``CM``, ``ml``, ``Mpa``.
* ``mo`` and ``yr`` are the Julian month and year (30.4375 d, 365.25 d), as in UCUM.
* Differences of temperature carry no codes, since UCUM and Rec 20 use one code for both. ``K`` is read as either.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any

import pint

from gaugerake.measure.definitions import needed_definitions
from gaugerake.measure.dimension import BASE_UNITS, KINDS, Dimension
from gaugerake.measure.rows import ROWS, Row

__all__ = ["Dimension", "Unit", "find", "spelled", "table", "unit", "units_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit: value in ``base`` = value × ``factor`` + ``offset``.

    ``spellings`` are those that the grammar reads, besides other case and full stops; the parts of a compound unit
    may take any of their own spellings as well. ``kinds_us`` and ``kinds_si`` are the kinds of figure that each unit
    choice shows in it. ``ratio`` is (a, b, c), whole numbers that say the same exactly: (value × a + b) / c.
    """

    dimension: Dimension
    unit: str
    base: str
    spellings: tuple[str, ...]
    ucum: str | None
    rec20: str | None
    factor: float
    offset: float
    ratio: tuple[int, int, int]
    kinds_us: tuple[str, ...]
    kinds_si: tuple[str, ...]


_TO_ASCII = str.maketrans(
    {
        "²": "2",
        "³": "3",
        "º": "°",
        "˚": "°",
        "µ": "u",
        "μ": "u",
        "∆": "Δ",
        "\u212a": "K",
        "’": "'",
        "′": "'",
        "”": '"',
        "″": '"',
    }
)
_SPACES = re.compile(r" +")
_STOPS = re.compile(r"\.(?=[ /]|$)")
_SLASHES = re.compile(r" ?/ ?| per ")
_POWER = re.compile(r"([a-z])([23])")
_LIKE_A_NUMBER = re.compile(r"[eE]?[0-9]")
_PART = re.compile(r"(?:(1,?000|24) ?)?(.+)")


def fold(spelling: str) -> str:
    """A spelling with its spaces, full stops and look-alike characters made plain; case is left.

    >>> fold("sq.  ft.")
    'sq ft'
    >>> fold("lbs. / 1000 ft²")
    'lbs/1000 ft2'
    """
    return _SLASHES.sub("/", _STOPS.sub("", _SPACES.sub(" ", spelling.translate(_TO_ASCII)))).strip(" ")


def _codes(row: Row) -> tuple[str, ...]:
    """The codes that may stand for the unit; "5 28" would be no measure to anybody, and "5E31" is a number."""
    return tuple(code for code in (row.ucum, row.rec20) if code and not _LIKE_A_NUMBER.match(code))


def _kinds(row: Row, choice: str) -> tuple[str, ...]:
    return tuple(
        name for name, kind in KINDS.items() if kind.dimension is row.dimension and getattr(kind, choice) == row.unit
    )


def _in_pints_words(base: str) -> str:
    return "dimensionless" if base == "1" else _POWER.sub(r"\1**\2", base)


def _entry(row: Row, registry: Any) -> Unit:
    """The row with its factor, which ``registry`` knows; it also refuses a row that is in the wrong dimension."""
    base = BASE_UNITS[row.dimension]
    in_base = _in_pints_words(base)
    zero, one = (Fraction(registry.Quantity(Fraction(n), row.pint).to(in_base).magnitude) for n in (0, 1))
    factor, offset = (one - zero) * row.scale, zero
    common = math.lcm(factor.denominator, offset.denominator)
    return Unit(
        dimension=row.dimension,
        unit=row.unit,
        base=base,
        spellings=tuple(dict.fromkeys((row.unit, *row.words, *row.symbols, *_codes(row)))),
        ucum=row.ucum,
        rec20=row.rec20,
        factor=float(factor),
        offset=float(offset),
        ratio=(int(factor * common), int(offset * common), common),
        kinds_us=_kinds(row, "us"),
        kinds_si=_kinds(row, "si"),
    )


def _ask_pint() -> dict[Dimension, dict[str, Unit]]:
    asked = [row.pint for row in ROWS] + [_in_pints_words(base) for base in BASE_UNITS.values()]
    registry: Any = pint.UnitRegistry(needed_definitions(asked), non_int_type=Fraction)
    found: dict[Dimension, dict[str, Unit]] = {dimension: {} for dimension in Dimension}
    for row in ROWS:
        found[row.dimension][row.unit] = _entry(row, registry)
    return found


_UNITS = _ask_pint()
_EXACT: dict[Dimension, dict[str, Unit]] = {dimension: {} for dimension in Dimension}
_ANY_CASE: dict[Dimension, dict[str, Unit]] = {dimension: {} for dimension in Dimension}
_COMPOUND: dict[Dimension, dict[tuple[str, ...], Unit]] = {dimension: {} for dimension in Dimension}


def _index() -> None:
    for row in ROWS:
        entry = _UNITS[row.dimension][row.unit]
        for spelling in entry.spellings:
            _EXACT[row.dimension][fold(spelling)] = entry
        for word in row.words:
            _ANY_CASE[row.dimension][fold(word).lower()] = entry
        if row.parts:
            _COMPOUND[row.dimension][row.parts] = entry


_index()

PART_DIMENSIONS = (Dimension.AREA, Dimension.VOLUME, Dimension.MASS, Dimension.DURATION)
"""The dimensions of which compound units are made."""


def _simple(folded: str, dimension: Dimension) -> Unit | None:
    return _EXACT[dimension].get(folded) or _ANY_CASE[dimension].get(folded.lower())


def _part(text: str) -> str | None:
    """The canonical name of one part of a compound unit, with the 1000 or 24 before it."""
    match = _PART.fullmatch(text)
    if not match:
        return None
    number, rest = (match[1] or "").replace(",", ""), match[2]
    for dimension in PART_DIMENSIONS:
        entry = _simple(rest, dimension)
        if entry:
            name = number + entry.unit
            return "24h" if name == "d" else name
    return None


@lru_cache(maxsize=1024)
def find(spelling: str, dimension: Dimension) -> Unit | None:
    """The unit of this dimension that is spelled so, or None.

    >>> find("Sq. Ft.", Dimension.AREA).unit
    'ft2'
    >>> find("lbs / 1,000 sq ft / 24 hr", Dimension.MOISTURE_EMISSION).unit
    'lb/1000ft2/24h'
    >>> find("M", Dimension.LENGTH)
    """
    folded = fold(spelling)
    entry = _simple(folded, dimension)
    if entry or not _COMPOUND[dimension]:
        return entry
    parts = tuple(_part(part) or "" for part in folded.split("/"))
    return _COMPOUND[dimension].get(parts)


def unit(name: str, dimension: Dimension) -> Unit:
    """The unit of this dimension whose canonical name this is.

    >>> unit("ft2/gal", Dimension.SPREADING_RATE).factor
    24.542387
    """
    return _UNITS[dimension][name]


def units_of(dimension: Dimension) -> tuple[Unit, ...]:
    """The units of a dimension, in the order of the table.

    >>> [unit.unit for unit in units_of(Dimension.TEMPERATURE)]
    ['degF', 'degC', 'K']
    """
    return tuple(_UNITS[dimension].values())


@cache
def table() -> tuple[Unit, ...]:
    """The whole closed table.

    >>> {unit.dimension for unit in table()} == set(Dimension)
    True
    """
    return tuple(entry for dimension in Dimension for entry in units_of(dimension))


def spelled(dimension: Dimension) -> dict[str, str]:
    """Every spelling of a dimension in lower case, and the unit that it names; for suggestions only.

    >>> spelled(Dimension.MIX)
    {'mix': 'mix', 'mixes': 'mix', '{mix}': 'mix'}
    """
    return {spelling.lower(): entry.unit for entry in units_of(dimension) for spelling in entry.spellings}
