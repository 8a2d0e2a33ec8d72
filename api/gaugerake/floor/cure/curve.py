"""Times that depend on temperature: curves through every point of a maker's table, for maturity to accrue on.

Between two rows of the table ln t is linear in 1/T (Arrhenius), so the curve passes through every row and undercuts
none of the maker's own hours. Beyond the ends it goes on with the activation energy that fits the whole table best;
with a single row that energy is assumed.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import field
from itertools import pairwise
from typing import Literal

from gaugerake.floor.values.errors import DoubledTemperature, FasterWhenColder, NoTimeStated, OutOfRange
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass

GAS_CONSTANT_J_MOL_K = 8.314462618
"""R, exact in the SI since 2019 to the digits given."""

ASSUMED_ENERGY_J_MOL = 50_000.0
"""The activation energy of a table with one row: about a doubling per 10 °C."""

Column = Literal["low", "likely", "high"]
COLUMNS: tuple[Column, ...] = ("low", "likely", "high")

Line = tuple[float, float]  # (b, m) of ln t = b + m/T


@dataclass(frozen=True, slots=True, kw_only=True)
class TimePoint:
    """One row of a maker's table: at ``temperature_k`` it takes ``low_s``, ``likely_s`` or ``high_s`` seconds."""

    temperature_k: float
    low_s: float
    likely_s: float
    high_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeCurve:
    """A maker's table, its rows rising in temperature; missing columns already filled (see ``time_curve``).

    ``lines`` is derived: for each column the lines (b, m) of ln t = b + m/T, from the one below the first row to the
    one above the last; ``temperatures_k`` are the rows' own, between which they change.
    """

    points: tuple[TimePoint, ...]
    temperatures_k: tuple[float, ...] = field(init=False, repr=False, compare=False)
    lines: Mapping[Column, tuple[Line, ...]] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Work the lines out once, so that a time costs one division and one exponential."""
        object.__setattr__(self, "temperatures_k", tuple(point.temperature_k for point in self.points))
        energy_k = _energy_k(self.points)
        lines = {
            "low": _lines([(point.temperature_k, point.low_s) for point in self.points], energy_k),
            "likely": _lines([(point.temperature_k, point.likely_s) for point in self.points], energy_k),
            "high": _lines([(point.temperature_k, point.high_s) for point in self.points], energy_k),
        }
        object.__setattr__(self, "lines", lines)

    @property
    def activation_energy_j_mol(self) -> float:
        """What the curve goes on with beyond its ends [J/mol]."""
        return _energy_k(self.points) * GAS_CONSTANT_J_MOL_K

    @property
    def energy_assumed(self) -> bool:
        """Whether the maker states one temperature alone."""
        return len(self.points) == 1


def _energy_k(points: tuple[TimePoint, ...]) -> float:
    """Ea/R [K] of the likely column, by least squares of ln t on 1/T."""
    if len(points) == 1:
        return ASSUMED_ENERGY_J_MOL / GAS_CONSTANT_J_MOL_K
    inverse = [1 / point.temperature_k for point in points]
    logs = [math.log(point.likely_s) for point in points]
    mean_inverse, mean_log = math.fsum(inverse) / len(points), math.fsum(logs) / len(points)
    covariance = math.fsum((x - mean_inverse) * (y - mean_log) for x, y in zip(inverse, logs, strict=True))
    return covariance / math.fsum((x - mean_inverse) ** 2 for x in inverse)


def _lines(rows: list[tuple[float, float]], energy_k: float) -> tuple[Line, ...]:
    inverse = [1 / temperature_k for temperature_k, _time_s in rows]
    logs = [math.log(time_s) for _temperature_k, time_s in rows]
    slopes = [energy_k]
    slopes += [(logs[i + 1] - logs[i]) / (inverse[i + 1] - inverse[i]) for i in range(len(rows) - 1)]
    slopes += [energy_k]
    anchors = [0, *range(len(rows))]
    return tuple((logs[i] - slope * inverse[i], slope) for i, slope in zip(anchors, slopes, strict=True))


def time_point(
    *, temperature_k: float, low_s: float | None = None, likely_s: float | None = None, high_s: float | None = None
) -> TimePoint:
    """One row of a maker's table, its missing columns filled.

    A missing likely time is √(low·high); a missing low or high one is the likely.

    Parameters
    ----------
    temperature_k : float [K]
        Temperature at which the times hold.
    low_s, likely_s, high_s : float [s], optional
        The shortest, the usual and the longest time there; at least one of them.

    Returns
    -------
    TimePoint
        The filled row [s].

    Raises
    ------
    NoTimeStated
        When all three are missing.
    OutOfRange
        When a time or the temperature is not above zero, or low <= likely <= high does not hold.

    Notes
    -----
    The geometric mean is the middle of ln t, in which the curve is straight. With low or high alone, all three columns
    are that one.

    Examples
    --------
    >>> point = time_point(temperature_k=294.26, low_s=4 * 3600, high_s=9 * 3600)
    >>> point.likely_s / 3600
    6.0
    """
    given = [time_s for time_s in (low_s, likely_s, high_s) if time_s is not None]
    if not given:
        raise NoTimeStated("likely_s", temperature_k=temperature_k)
    if temperature_k <= 0:
        raise OutOfRange("temperature_k", value=Figure(temperature_k, Kind.TEMPERATURE), low=None, high=None)
    for name, time_s in (("low_s", low_s), ("likely_s", likely_s), ("high_s", high_s)):
        if time_s is not None and time_s <= 0:
            raise OutOfRange(name, value=Figure(time_s, Kind.DURATION), low=Figure(0.0, Kind.DURATION), high=None)
    least, most = low_s or likely_s or given[-1], high_s or likely_s or given[0]
    likely = likely_s or math.sqrt(least * most)
    if not least <= likely <= most:
        bounds = {"low": Figure(least, Kind.DURATION), "high": Figure(most, Kind.DURATION)}
        raise OutOfRange("likely_s", value=Figure(likely, Kind.DURATION), **bounds)
    return TimePoint(temperature_k=temperature_k, low_s=least, likely_s=likely, high_s=most)


def time_curve(points: Iterable[TimePoint]) -> TimeCurve:
    """The curve through every row of a maker's table.

    Parameters
    ----------
    points : iterable of TimePoint
        The rows, in any order; at least one.

    Returns
    -------
    TimeCurve
        The curve, its rows rising in temperature.

    Raises
    ------
    NoTimeStated
        When there is no row.
    DoubledTemperature
        When two rows have one temperature.
    FasterWhenColder
        When a column falls with falling temperature: heat never slows a cure.

    Notes
    -----
    ln t is linear in 1/T between neighbours, separately for each column.

    Examples
    --------
    >>> curve = time_curve([time_point(temperature_k=305.37, likely_s=7200.0),
    ...                     time_point(temperature_k=297.04, likely_s=10800.0)])
    >>> curve.temperatures_k
    (297.04, 305.37)

    References
    ----------
    ASTM C1074, Standard Practice for Estimating Concrete Strength by the Maturity Method: the Arrhenius form.
    """
    rows = tuple(sorted(points, key=lambda point: point.temperature_k))
    if not rows:
        raise NoTimeStated("points", temperature_k=None)
    for colder, warmer in pairwise(rows):
        if colder.temperature_k == warmer.temperature_k:
            raise DoubledTemperature("points", temperature_k=colder.temperature_k)
        for column in COLUMNS:
            cold_s, warm_s = getattr(colder, f"{column}_s"), getattr(warmer, f"{column}_s")
            if cold_s < warm_s:
                raise FasterWhenColder("points", column=column, colder_k=colder.temperature_k, time_s=cold_s)
    return TimeCurve(points=rows)


def time_at(curve: TimeCurve, *, temperature_k: float, column: Column = "likely") -> float:
    """How long it takes at one temperature held throughout.

    Parameters
    ----------
    curve : TimeCurve
        The maker's table.
    temperature_k : float [K]
        The temperature, above 0.
    column : {"low", "likely", "high"}
        Which of the maker's times.

    Returns
    -------
    float
        The time [s].

    Notes
    -----
    Limits of the product are not looked at here; ``milestone`` does. Times are held between e^-100 and e^700 s.

    Examples
    --------
    >>> curve = time_curve([time_point(temperature_k=293.15, likely_s=3600.0)])
    >>> time_at(curve, temperature_k=283.15) / 3600  # 50 kJ/mol: about a doubling per 10 °C
    2.06

    References
    ----------
    ASTM C1074, equation of the equivalent age (Arrhenius, after Freiesleben Hansen and Pedersen).
    """
    b, m = curve.lines[column][bisect_right(curve.temperatures_k, temperature_k)]
    power = b + m / temperature_k
    return math.exp(-100.0 if power < -100.0 else 700.0 if power > 700.0 else power)
