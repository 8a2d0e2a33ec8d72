"""A figure: an SI number together with what kind of thing it measures, ready to be shown in the reader's units."""

from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple, NewType


class Kind(StrEnum):
    """What kind of thing a figure measures. It chooses the unit in which people see the figure, US or SI.

    The base units are m, m², m³, kg, Pa, K, s and what is made of them (a spreading rate is m²/m³, an emission
    kg/(m²·s)); percent, CSP, pH and counts are plain numbers.

    >>> Kind.SMALL_LENGTH == "small-length"
    True
    """

    LENGTH = "length"  # ft or m
    SMALL_LENGTH = "small-length"  # in or mm
    FILM = "film"  # mil or um
    AREA = "area"
    SMALL_AREA = "small-area"
    VOLUME = "volume"  # ft3 or L
    LIQUID = "liquid"  # gal or L
    MASS = "mass"
    SMALL_MASS = "small-mass"
    PRESSURE = "pressure"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature-difference"
    DURATION = "duration"  # h
    MINUTES = "minutes"  # min
    DAYS = "days"  # d
    SPREADING_RATE = "spreading-rate"
    AREAL_MASS = "areal-mass"
    MOISTURE_EMISSION = "moisture-emission"
    AREA_RATE = "area-rate"
    LENGTH_RATE = "length-rate"
    MASS_RATE = "mass-rate"
    MIX = "mix"
    PIECE = "piece"
    PERCENT = "percent"
    CSP = "csp"  # concrete surface profile
    PH = "ph"
    COUNT = "count"


class Figure(NamedTuple):
    """A number in SI and its kind, which chooses the unit in which people see it.

    Examples
    --------
    >>> Figure(0.0047625, Kind.SMALL_LENGTH)
    Figure(value=0.0047625, kind=<Kind.SMALL_LENGTH: 'small-length'>)
    """

    value: float
    kind: Kind


Exact = NewType("Exact", float)
"""A plain number that is shown in all its digits, such as the factor of a unit; others are shown in six."""


class Bound(NamedTuple):
    """The ``low`` or the high end of a range, in SI, or the least or the most of something: shown rounded inwards.

    Examples
    --------
    >>> Bound(0.00005, Kind.SMALL_LENGTH, low=True).low
    True
    """

    value: float
    kind: Kind
    low: bool


class Telling(StrEnum):
    """How a sentence tells a length or a time that is not simply rounded to the nearest."""

    UP = "up"  # what is needed, or the least that will do
    DOWN = "down"  # what there is, or the most that may be
    MARK = "mark"  # a length that somebody marks or saws: to a quarter of an inch
    WORK = "work"  # hours of work, which are never told in days
    DECIMALS = "decimals"  # one number and one unit, to 4 digits, to be held against another


class Told(NamedTuple):
    """A length or a time as one sentence tells it, in SI; beside the sentence its figure stands as any other.

    Examples
    --------
    >>> Told(933.0, Kind.MINUTES, Telling.UP).how
    <Telling.UP: 'up'>
    """

    value: float
    kind: Kind
    how: Telling


class Rate(NamedTuple):
    """Money for each square metre, with its currency and the digits of its minor unit; shown by the reader's area.

    Examples
    --------
    >>> Rate(Decimal("34.5"), "USD", 2)
    Rate(amount_m2=Decimal('34.5'), currency='USD', digits=2)
    """

    amount_m2: Decimal
    currency: str
    digits: int
