"""The unit choice out: SI figures in the units that a reader asked for."""

from __future__ import annotations

from typing import Literal

from gaugerake.measure.dimension import KINDS
from gaugerake.measure.units import unit

ChoiceName = Literal["us", "si"]

_TEMPERATURES = frozenset({"temperature", "temperature-difference"})
_TEXT_UNITS = {
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
        self._scales: dict[str, tuple[float, float, str]] = {
            kind: self._scale(kind, shown.us if name == "us" else shown.si) for kind, shown in KINDS.items()
        }

    @staticmethod
    def _scale(kind: str, name: str) -> tuple[float, float, str]:
        dimension = KINDS[kind].dimension
        if dimension is None:
            return 1.0, 0.0, name
        entry = unit(name, dimension)
        return float(1 / entry.exact_factor), float(-entry.exact_offset / entry.exact_factor), name

    def unit(self, kind: str) -> str:
        """The unit in which this choice shows a kind of figure.

        >>> SI.unit("film")
        'um'
        """
        return self._scales[kind][2]

    def show(self, value_si: float, kind: str) -> tuple[float, str]:
        """A figure in the unit of this choice, to 6 significant digits (temperatures: to a millionth of a degree)."""
        scale, offset, name = self._scales[kind]
        value = value_si * scale + offset
        if kind in _TEMPERATURES:
            value = round(value, 6)
        return float(f"{value:.6g}") + 0.0, name

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


def _number(value: float, *, sixty_fourths: bool) -> str:
    """Four significant digits, no whole part shortened, and no 64th of an inch either.

    >>> _number(12345.6, sixty_fourths=False), _number(0.15625, sixty_fourths=True), _number(2.0, sixty_fourths=False)
    ('12,346', '0.15625', '2')
    """
    if abs(value) >= 1000:
        return f"{value:,.0f}"
    if sixty_fourths and (value * 64).is_integer():
        return f"{value:.6f}".rstrip("0").rstrip(".")
    rounded = float(f"{value:.4g}")
    text = f"{rounded:.10f}".rstrip("0").rstrip(".")
    return text if abs(rounded) < 1000 else f"{rounded:,.0f}"


US = UnitChoice("us")
SI = UnitChoice("si")


def choice(name: ChoiceName) -> UnitChoice:
    """The choice of that name.

    >>> choice("si") is SI
    True
    """
    return US if name == "us" else SI
