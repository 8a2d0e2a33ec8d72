"""What can be measured, and in which unit each kind of figure is shown."""

from enum import StrEnum
from typing import NamedTuple

from gaugerake.floor.values.figure import Kind


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
    LENGTH_RATE = "length-rate"
    MASS_RATE = "mass-rate"
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
    Dimension.LENGTH_RATE: "m/s",
    Dimension.MASS_RATE: "kg/s",
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
    Dimension.LENGTH_RATE: ("40 ft/h", "12 m/h"),
    Dimension.MASS_RATE: ("900 lb/h", "400 kg/h"),
    Dimension.MIX: ("1 mix", "12 mixes"),
    Dimension.PIECE: ("1 piece", "4 pieces"),
}
"""Measures to show to somebody whose own could not be read."""


class KindUnits(NamedTuple):
    """A kind of figure: its dimension (none for plain numbers) and the unit of each choice."""

    dimension: Dimension | None
    us: str
    si: str


KINDS: dict[Kind, KindUnits] = {
    Kind.LENGTH: KindUnits(Dimension.LENGTH, "ft", "m"),
    Kind.SMALL_LENGTH: KindUnits(Dimension.LENGTH, "in", "mm"),
    Kind.FILM: KindUnits(Dimension.LENGTH, "mil", "um"),
    Kind.AREA: KindUnits(Dimension.AREA, "ft2", "m2"),
    Kind.SMALL_AREA: KindUnits(Dimension.AREA, "in2", "cm2"),
    Kind.VOLUME: KindUnits(Dimension.VOLUME, "ft3", "L"),
    Kind.LIQUID: KindUnits(Dimension.VOLUME, "gal", "L"),
    Kind.MASS: KindUnits(Dimension.MASS, "lb", "kg"),
    Kind.SMALL_MASS: KindUnits(Dimension.MASS, "g", "g"),
    Kind.PRESSURE: KindUnits(Dimension.PRESSURE, "psi", "MPa"),
    Kind.TEMPERATURE: KindUnits(Dimension.TEMPERATURE, "degF", "degC"),
    Kind.TEMPERATURE_DIFFERENCE: KindUnits(Dimension.TEMPERATURE_DIFFERENCE, "delta_degF", "delta_degC"),
    Kind.DURATION: KindUnits(Dimension.DURATION, "h", "h"),
    Kind.MINUTES: KindUnits(Dimension.DURATION, "min", "min"),
    Kind.DAYS: KindUnits(Dimension.DURATION, "d", "d"),
    Kind.SPREADING_RATE: KindUnits(Dimension.SPREADING_RATE, "ft2/gal", "m2/L"),
    Kind.AREAL_MASS: KindUnits(Dimension.AREAL_MASS, "lb/ft2", "kg/m2"),
    Kind.MOISTURE_EMISSION: KindUnits(Dimension.MOISTURE_EMISSION, "lb/1000ft2/24h", "g/m2/24h"),
    Kind.AREA_RATE: KindUnits(Dimension.AREA_RATE, "ft2/h", "m2/h"),
    Kind.LENGTH_RATE: KindUnits(Dimension.LENGTH_RATE, "ft/h", "m/h"),
    Kind.MASS_RATE: KindUnits(Dimension.MASS_RATE, "lb/h", "kg/h"),
    Kind.MIX: KindUnits(Dimension.MIX, "mix", "mix"),
    Kind.PIECE: KindUnits(Dimension.PIECE, "piece", "piece"),
    Kind.PERCENT: KindUnits(None, "%", "%"),
    Kind.CSP: KindUnits(None, "CSP", "CSP"),
    Kind.PH: KindUnits(None, "pH", "pH"),
    Kind.COUNT: KindUnits(None, "1", "1"),
}
"""Every kind of figure that an answer can hold."""

EXAMPLES_OF_KIND: dict[Kind, tuple[str, ...]] = {
    Kind.LENGTH: ("12 ft", "5' 6 1/2\"", "4 m"),
    Kind.SMALL_LENGTH: ("1/4 in", "6 mm"),
    Kind.FILM: ("10 mil", "250 um"),
    Kind.SMALL_AREA: ("64 in2", "400 cm2"),
    Kind.SMALL_MASS: ("3 g", "0.1 oz"),
    Kind.MINUTES: ("5 min", "15 min"),
    Kind.DAYS: ("28 d", "2 yr"),
}
"""Examples for kinds whose figures are smaller or larger than the usual ones of their dimension."""

LARGER_EXAMPLES: dict[Kind, tuple[str, ...]] = {Kind.SMALL_LENGTH: ("4 in", "100 mm")}
"""For fields that do not take what is so small: a slab's thickness, a drain."""


def examples_of(kind: Kind) -> tuple[str, ...]:
    """Measures of the size of a kind of figure.

    >>> examples_of(Kind.SMALL_MASS)
    ('3 g', '0.1 oz')

    Raises
    ------
    ValueError
        When the kind is a plain number.
    """
    dimension = KINDS[kind].dimension
    if dimension is None:
        raise ValueError(f"{kind} is a plain number")
    return EXAMPLES_OF_KIND.get(kind) or EXAMPLES[dimension]
