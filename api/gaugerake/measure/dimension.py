"""What can be measured, and in which unit each kind of figure is shown."""

from enum import StrEnum
from typing import NamedTuple


class Dimension(StrEnum):
    """What a measure measures. A temperature and a difference of temperatures are two dimensions."""

    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    MASS = "mass"
    PRESSURE = "pressure"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature-difference"
    DURATION = "duration"
    SPREADING_RATE = "spreading-rate"
    AREAL_MASS = "areal-mass"
    MOISTURE_EMISSION = "moisture-emission"
    AREA_RATE = "area-rate"
    MIX = "mix"
    PIECE = "piece"


SIGNED = frozenset({Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE})
"""The dimensions in which a minus makes sense."""

BASE_UNITS: dict[Dimension, str] = {
    Dimension.LENGTH: "m",
    Dimension.AREA: "m2",
    Dimension.VOLUME: "m3",
    Dimension.MASS: "kg",
    Dimension.PRESSURE: "Pa",
    Dimension.TEMPERATURE: "K",
    Dimension.TEMPERATURE_DIFFERENCE: "K",
    Dimension.DURATION: "s",
    Dimension.SPREADING_RATE: "m2/m3",
    Dimension.AREAL_MASS: "kg/m2",
    Dimension.MOISTURE_EMISSION: "kg/m2/s",
    Dimension.AREA_RATE: "m2/s",
    Dimension.MIX: "1",
    Dimension.PIECE: "1",
}
"""The SI unit that every measure of a dimension is turned into."""

EXAMPLES: dict[Dimension, tuple[str, ...]] = {
    Dimension.LENGTH: ("12 ft", "5' 6 1/2\"", "3/16 in", "3 mm"),
    Dimension.AREA: ("1,200 sq ft", "110 m2"),
    Dimension.VOLUME: ("2 gal", "0.5 ft3", "10 L"),
    Dimension.MASS: ("50 lb", "25 kg"),
    Dimension.PRESSURE: ("4200 psi", "30 MPa"),
    Dimension.TEMPERATURE: ("70 degF", "21 °C"),
    Dimension.TEMPERATURE_DIFFERENCE: ("5 delta_degF", "3 delta_degC"),
    Dimension.DURATION: ("90 min", "6 h", "28 d"),
    Dimension.SPREADING_RATE: ("200 ft2/gal", "5 m2/L"),
    Dimension.AREAL_MASS: ("0.5 lb/ft2", "2.5 kg/m2"),
    Dimension.MOISTURE_EMISSION: ("3 lb/1000ft2/24h", "15 g/m2/24h"),
    Dimension.AREA_RATE: ("900 ft2/h", "80 m2/h"),
    Dimension.MIX: ("1 mix", "12 mixes"),
    Dimension.PIECE: ("1 piece", "4 pieces"),
}
"""Measures to show to somebody whose own could not be read."""


class Kind(NamedTuple):
    """A kind of figure: its dimension (none for plain numbers) and the unit of each choice."""

    dimension: Dimension | None
    us: str
    si: str


KINDS: dict[str, Kind] = {
    "length": Kind(Dimension.LENGTH, "ft", "m"),
    "small-length": Kind(Dimension.LENGTH, "in", "mm"),
    "film": Kind(Dimension.LENGTH, "mil", "um"),
    "area": Kind(Dimension.AREA, "ft2", "m2"),
    "small-area": Kind(Dimension.AREA, "in2", "cm2"),
    "volume": Kind(Dimension.VOLUME, "ft3", "L"),
    "liquid": Kind(Dimension.VOLUME, "gal", "L"),
    "mass": Kind(Dimension.MASS, "lb", "kg"),
    "small-mass": Kind(Dimension.MASS, "g", "g"),
    "pressure": Kind(Dimension.PRESSURE, "psi", "MPa"),
    "temperature": Kind(Dimension.TEMPERATURE, "degF", "degC"),
    "temperature-difference": Kind(Dimension.TEMPERATURE_DIFFERENCE, "delta_degF", "delta_degC"),
    "duration": Kind(Dimension.DURATION, "h", "h"),
    "minutes": Kind(Dimension.DURATION, "min", "min"),
    "days": Kind(Dimension.DURATION, "d", "d"),
    "spreading-rate": Kind(Dimension.SPREADING_RATE, "ft2/gal", "m2/L"),
    "areal-mass": Kind(Dimension.AREAL_MASS, "lb/ft2", "kg/m2"),
    "moisture-emission": Kind(Dimension.MOISTURE_EMISSION, "lb/1000ft2/24h", "g/m2/24h"),
    "area-rate": Kind(Dimension.AREA_RATE, "ft2/h", "m2/h"),
    "mix": Kind(Dimension.MIX, "mix", "mix"),
    "piece": Kind(Dimension.PIECE, "piece", "piece"),
    "percent": Kind(None, "%", "%"),
    "csp": Kind(None, "CSP", "CSP"),
    "ph": Kind(None, "pH", "pH"),
    "count": Kind(None, "1", "1"),
}
"""Every kind of figure that an answer can hold."""
