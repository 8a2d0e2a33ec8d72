"""The unit choice out: SI figures in the units that a reader asked for."""

from __future__ import annotations

from typing import Literal

from gaugerake.floor.values.figure import Kind
from gaugerake.measure.dimension import KINDS, SIGNED, Dimension
from gaugerake.measure.units import unit

ChoiceName = Literal["us", "si"]


class UnitChoice:
    """One choice of units, for every kind of figure.

    Examples
    --------
    >>> US.show(0.0047625, "small-length")
    (0.1875, 'in')
    >>> SI.show(0.0047625, "small-length")
    (4.7625, 'mm')
    """

    __slots__ = ("_scales", "name")

    def __init__(self, name: ChoiceName) -> None:
        self.name: ChoiceName = name
        self._scales = {
            kind: _scale(shown.dimension, shown.us if name == "us" else shown.si) for kind, shown in KINDS.items()
        }

    def unit(self, kind: Kind) -> str:
        """The unit in which this choice shows a kind of figure.

        >>> SI.unit("film")
        'um'
        """
        return self._scales[kind][2]

    def show(self, value_si: float, kind: Kind) -> tuple[float, str]:
        """A figure in the unit of this choice, to 6 significant digits, and the unit.

        What is under a millionth of a degree is 0: 0 °F is not the noise of 459.67 taken from 459.67.
        """
        scale, offset, name, near_zero = self._scales[kind]
        value = value_si * scale + offset
        if near_zero and -1e-6 < value < 1e-6:
            value = 0.0
        # the percent sign is a sixth faster here than an f-string, and an answer shows hundreds of figures
        return float("%.6g" % value) + 0.0, name  # noqa: UP031

    def exact(self, value_si: float, kind: Kind) -> float:
        """A figure in the unit of this choice, to 15 significant digits, which read back as the very same float.

        >>> US.show(0.011, "small-length")[0], US.exact(0.011, "small-length")
        (0.433071, 0.433070866141732)
        """
        scale, offset, _, _ = self._scales[kind]
        return float(f"{value_si * scale + offset:.15g}") + 0.0


def _scale(dimension: Dimension | None, name: str) -> tuple[float, float, str, bool]:
    """What an SI value is multiplied by, what is added then, the unit, and whether it may be noise about a zero."""
    if dimension is None:
        return 1.0, 0.0, name, False
    over, zero, under = unit(name, dimension).ratio
    return under / over, -zero / over, name, dimension in SIGNED


US = UnitChoice("us")
SI = UnitChoice("si")
_CHOICES: dict[ChoiceName, UnitChoice] = {"us": US, "si": SI}


def choice(name: ChoiceName) -> UnitChoice:
    """The choice of that name.

    >>> choice("si") is SI
    True
    """
    return _CHOICES[name]
