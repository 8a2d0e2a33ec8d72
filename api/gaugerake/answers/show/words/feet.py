"""Lengths as a tape shows them: feet and inches.

Decisions:

* Whole eighths of an inch stand as fractions, as they are what people give and mark; any other length to a tenth, in
  decimals, so that ``1/2`` says an eighth and ``.5`` a figure that was rounded.
* From 1,000 ft on, whole feet: inches say nothing there.
* What a person marks or saws stands to a quarter of an inch, as on the page for the slab and on the day sheets.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from fractions import Fraction

from gaugerake.floor.values.figure import Telling

INCH_M = 0.0254
INCHES_A_FOOT = 12
FEET_ALONE = 1000
"""From so many feet on, no inches are said."""
_NOISE = 1e-6
"""What a length in metres may be off the inches that were meant."""
_ROUNDED: Mapping[Telling | None, Callable[[float], int]] = {Telling.UP: math.ceil, Telling.DOWN: math.floor}


def feet_and_inches(inches: Fraction) -> tuple[int, str]:
    """Whole feet, and the inches that are left as a rule shows them.

    >>> feet_and_inches(Fraction(593, 4)), feet_and_inches(Fraction(24)), feet_and_inches(Fraction(1, 4))
    ((12, '4 1/4'), (2, '0'), (0, '1/4'))
    """
    feet, left = divmod(inches, INCHES_A_FOOT)
    whole, part = divmod(left, 1)
    return int(feet), f"{whole} {part}" if whole and part else f"{part or whole}"


def quarters(length_m: float) -> Fraction:
    """A length in inches, to a quarter, as nobody marks finer.

    >>> quarters(7.25 * 0.3048), quarters(0.1)
    (Fraction(87, 1), Fraction(4, 1))
    """
    return Fraction(round(length_m / INCH_M * 4), 4)


def feet_text(length_m: float, units: Mapping[str, str], how: Telling | None = None) -> str:
    """A length in feet and inches; ``units`` are the words for ``ft`` and ``in``.

    >>> units = {"ft": "ft", "in": "in"}
    >>> [feet_text(feet * 0.3048, units) for feet in (24.4949, 28.5, 12.375, 23.0, 0.8, 0.0, 1234.5)]
    ['24 ft 5.9 in', '28 ft 6 in', '12 ft 4 1/2 in', '23 ft', '9.6 in', '0 ft', '1,234 ft']
    >>> [feet_text(24.4949 * 0.3048, units, how) for how in (Telling.UP, Telling.DOWN, Telling.MARK)]
    ['24 ft 6 in', '24 ft 5.9 in', '24 ft 6 in']
    """
    inches = float(f"{length_m / INCH_M:.9g}")  # without the noise that would be rounded up or down
    if inches >= FEET_ALONE * INCHES_A_FOOT:
        return f"{_ROUNDED.get(how, round)(inches / INCHES_A_FOOT):,} {units['ft']}"
    if how is Telling.MARK:
        feet, left = feet_and_inches(quarters(length_m))
    elif abs(inches * 8 - round(inches * 8)) < _NOISE:
        feet, left = feet_and_inches(Fraction(round(inches * 8), 8))
    else:
        feet, tenths = divmod(_ROUNDED.get(how, round)(inches * 10), INCHES_A_FOOT * 10)
        left = f"{tenths / 10:g}"
    parts = [(f"{feet:,}", "ft") if feet or left == "0" else None, (left, "in") if left != "0" else None]
    return " ".join(f"{part[0]} {units[part[1]]}" for part in parts if part)
