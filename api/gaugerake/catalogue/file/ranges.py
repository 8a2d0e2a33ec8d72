"""What a catalogue's measures may be: wide enough for any floor, narrow enough that a slip of the unit is seen.

The ends are written as measures and read by the same grammar as everything else.
"""

from __future__ import annotations

from gaugerake.measure.dimension import Dimension
from gaugerake.measure.grammar import read


class AllowedRange:
    """An inclusive range of one dimension; ``low`` and ``high`` are in its SI base unit."""

    __slots__ = ("dimension", "high", "high_text", "low", "low_text")

    def __init__(self, dimension: Dimension, low: str, high: str) -> None:
        self.dimension = dimension
        self.low_text, self.high_text = low, high
        self.low, self.high = read(low, dimension), read(high, dimension)

    def holds(self, value: float) -> bool:
        """Whether ``value`` [SI] lies within, ends included.

        >>> FLOOR.holds(0.005)
        True
        """
        return self.low <= value <= self.high


FLOOR = AllowedRange(Dimension.LENGTH, "0.05 mm", "150 mm")
PROFILE_DEPTH = AllowedRange(Dimension.LENGTH, "0 mm", "20 mm")
KEYWAY_OFFSET = AllowedRange(Dimension.LENGTH, "0 mm", "1 m")
CHASE = AllowedRange(Dimension.LENGTH, "0.1 mm", "200 mm")
FILM = AllowedRange(Dimension.LENGTH, "1 um", "10 mm")
YIELD = AllowedRange(Dimension.VOLUME, "0.1 L", "2 m3")
COVERED = AllowedRange(Dimension.AREA, "1 cm2", "10000 m2")
BATCH = AllowedRange(Dimension.VOLUME, "1 mL", "2 m3")
TEMPERATURE = AllowedRange(Dimension.TEMPERATURE, "-40 degC", "80 degC")
SPREAD = AllowedRange(Dimension.TEMPERATURE_DIFFERENCE, "0 delta_degC", "30 delta_degC")
CURE = AllowedRange(Dimension.DURATION, "1 s", "365 d")
MINUTES = AllowedRange(Dimension.DURATION, "1 s", "120 min")
STORAGE = AllowedRange(Dimension.DURATION, "1 min", "20 yr")
AGE = AllowedRange(Dimension.DURATION, "0 d", "2 yr")
STRENGTH = AllowedRange(Dimension.PRESSURE, "0 MPa", "200 MPa")
EMISSION = AllowedRange(Dimension.MOISTURE_EMISSION, "0 g/m2/24h", "1000 g/m2/24h")
WEIGHT = AllowedRange(Dimension.MASS, "1 g", "20 t")

CONTENTS = {
    Dimension.MIX: AllowedRange(Dimension.MIX, "0.01 mix", "10000 mixes"),
    Dimension.VOLUME: AllowedRange(Dimension.VOLUME, "1 mL", "50 m3"),
    Dimension.MASS: AllowedRange(Dimension.MASS, "1 g", "50 t"),
    Dimension.PIECE: AllowedRange(Dimension.PIECE, "1 piece", "1000000 pieces"),
}
"""What a pack may hold, by what its product is counted in."""
