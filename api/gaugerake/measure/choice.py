"""The unit choice out: SI figures in the units that a reader asked for."""

from __future__ import annotations

from decimal import Decimal
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
    "lb/1000ft2/24h": "lb/1000 ft2/24 h",
    "g/m2/24h": "g/m2/24 h",
}
_PLURALS = {"mix": "mixes", "piece": "pieces"}


class UnitChoice:
    """One choice of units, for every kind of figure.

    Examples
    --------
    >>> US.show(0.0047625, "small-length")
    (0.1875, 'in')
    >>> SI.show(0.0047625, "small-length")
    (4.7625, 'mm')
    >>> US.text(111.483648, "area")
    '1,200 ft2'
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
        """A figure as it stands in a sentence, to about 4 significant digits.

        >>> US.text(295.372222222, "temperature"), SI.text(0.84, "count"), US.text(5, "mix"), US.text(84, "percent")
        ('72 °F', '0.84', '5 mixes', '84 %')
        """
        value, name = self.show(value_si, kind)
        number = _number(value, sixty_fourths=kind == "small-length" and name == "in")
        if name == "1":
            return number
        if name in ("CSP", "pH"):
            return f"{name} {number}"
        if name in _PLURALS and value != 1:
            name = _PLURALS[name]
        return f"{number} {_TEXT_UNITS.get(name, name)}"


def _scale(dimension: Dimension | None, name: str) -> tuple[float, float, str, bool]:
    """What an SI value is multiplied by, what is added then, the unit, and whether it may be noise about a zero."""
    if dimension is None:
        return 1.0, 0.0, name, False
    over, zero, under = unit(name, dimension).ratio
    return under / over, -zero / over, name, dimension in SIGNED


def _number(value: float, *, sixty_fourths: bool) -> str:
    """Four significant digits, but no whole part shortened, and no 64th of an inch either.

    >>> _number(12345.6, sixty_fourths=False), _number(0.15625, sixty_fourths=True), _number(2.0, sixty_fourths=False)
    ('12,346', '0.15625', '2')
    """
    if abs(value) >= 1000:
        return f"{value:,.0f}"
    digits = 6 if sixty_fourths and (value * 64).is_integer() else 4
    return f"{Decimal(f'{value:.{digits}g}'):,f}"


US = UnitChoice("us")
SI = UnitChoice("si")
_CHOICES: dict[ChoiceName, UnitChoice] = {"us": US, "si": SI}


def choice(name: ChoiceName) -> UnitChoice:
    """The choice of that name.

    >>> choice("si") is SI
    True
    """
    return _CHOICES[name]
