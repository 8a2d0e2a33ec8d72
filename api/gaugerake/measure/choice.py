"""The unit choice out: SI figures in the units that a reader asked for."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Literal

from gaugerake.measure.dimension import KINDS, SIGNED, Dimension
from gaugerake.measure.units import unit

ChoiceName = Literal["us", "si"]

_TEXT_UNITS = {
    "um": "µm",
    "degF": "°F",
    "degC": "°C",
    "delta_degF": "°F",
    "delta_degC": "°C",
    "ft2": "sq ft",
    "in2": "sq in",
    "ft3": "cu ft",
    "m2": "m²",
    "cm2": "cm²",
    "ft2/h": "sq ft/h",
    "m2/h": "m²/h",
    "ft2/gal": "sq ft/gal",
    "m2/L": "m²/L",
    "lb/ft2": "lb/sq ft",
    "kg/m2": "kg/m²",
    "lb/1000ft2/24h": "lb/1,000 sq ft/24 h",
    "g/m2/24h": "g/m²/24 h",
    "d": "day",
}
_PLURALS = {"mix": "mixes", "piece": "pieces", "d": "days"}
_WHOLE_DAYS = 60
"""From so many on, a part of a day says nothing: seven months are 213 days."""


class UnitChoice:
    """One choice of units, for every kind of figure.

    Examples
    --------
    >>> US.show(0.0047625, "small-length")
    (0.1875, 'in')
    >>> SI.show(0.0047625, "small-length")
    (4.7625, 'mm')
    >>> US.text(111.483648, "area"), US.text(0.0047625, "small-length")
    ('1,200 sq ft', '3/16 in')
    """

    __slots__ = ("_scales", "name")

    def __init__(self, name: ChoiceName) -> None:
        self.name: ChoiceName = name
        self._scales = {
            kind: _scale(shown.dimension, shown.us if name == "us" else shown.si) for kind, shown in KINDS.items()
        }

    def unit(self, kind: str) -> str:
        """The unit in which this choice shows a kind of figure.

        >>> SI.unit("film")
        'um'
        """
        return self._scales[kind][2]

    def show(self, value_si: float, kind: str) -> tuple[float, str]:
        """A figure in the unit of this choice, to 6 significant digits, and the unit.

        What is under a millionth of a degree is 0: 0 °F is not the noise of 459.67 taken from 459.67.
        """
        scale, offset, name, near_zero = self._scales[kind]
        value = value_si * scale + offset
        if near_zero and -1e-6 < value < 1e-6:
            value = 0.0
        # the percent sign is a sixth faster here than an f-string, and an answer shows hundreds of figures
        return float("%.6g" % value) + 0.0, name  # noqa: UP031

    def exact(self, value_si: float, kind: str) -> float:
        """The same figure to 15 significant digits, which are read as the very figure again.

        >>> US.show(0.011, "small-length")[0], US.exact(0.011, "small-length")
        (0.433071, 0.433070866141732)
        """
        scale, offset, _, _ = self._scales[kind]
        return float(f"{value_si * scale + offset:.15g}") + 0.0

    def text(self, value_si: float, kind: str) -> str:
        """A figure as people say it in a sentence, to about 4 significant digits, inches as a rule shows them.

        >>> US.text(295.372222222, "temperature"), SI.text(0.84, "count"), US.text(5, "mix"), US.text(84, "percent")
        ('72 °F', '0.84', '5 mixes', '84 %')
        """
        value, name = self.show(value_si, kind)
        if kind == "small-length" and name == "in":
            number = _by_the_rule(value)
        elif kind == "days" and value >= _WHOLE_DAYS:
            number = f"{value:,.0f}"
        else:
            number = _number(value)
        if name == "1":
            return number
        if name in ("CSP", "pH"):
            return f"{name} {number}"
        if name in _PLURALS and value != 1:
            return f"{number} {_PLURALS[name]}"
        return f"{number} {text_unit(name)}"


def text_unit(name: str) -> str:
    """A unit as people write it.

    >>> text_unit("ft2"), text_unit("mil")
    ('sq ft', 'mil')
    """
    return _TEXT_UNITS.get(name, name)


def _scale(dimension: Dimension | None, name: str) -> tuple[float, float, str, bool]:
    """What an SI value is multiplied by, what is added then, the unit, and whether it may be noise about a zero."""
    if dimension is None:
        return 1.0, 0.0, name, False
    over, zero, under = unit(name, dimension).ratio
    return under / over, -zero / over, name, dimension in SIGNED


def _number(value: float) -> str:
    """Four significant digits, but no whole part shortened.

    >>> _number(12345.6), _number(0.15625), _number(2.0)
    ('12,346', '0.1562', '2')
    """
    if abs(value) >= 1000:
        return f"{value:,.0f}"
    return f"{Decimal(f'{value:.4g}'):,f}"


def _by_the_rule(inches: float) -> str:
    """Whole 64ths of an inch as a fraction; what no rule shows in decimals.

    >>> _by_the_rule(0.15625), _by_the_rule(1.5), _by_the_rule(3.0), _by_the_rule(0.4)
    ('5/32', '1 1/2', '3', '0.4')
    """
    whole, part = divmod(Fraction(inches), 1)
    if part == 0 or 64 % part.denominator:
        return _number(inches)
    return f"{whole} {part}" if whole else f"{part}"


US = UnitChoice("us")
SI = UnitChoice("si")
_CHOICES: dict[ChoiceName, UnitChoice] = {"us": US, "si": SI}


def choice(name: ChoiceName) -> UnitChoice:
    """The choice of that name.

    >>> choice("si") is SI
    True
    """
    return _CHOICES[name]
