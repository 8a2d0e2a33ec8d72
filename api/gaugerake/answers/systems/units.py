"""The closed table of units: what a measure may be written in."""

from __future__ import annotations

from typing import Annotated

from gaugerake import __version__
from gaugerake.floor.values.figure import Exact
from gaugerake.floor.values.frozen import dataclass
from gaugerake.measure import units as measure
from gaugerake.measure.dimension import BASE_UNITS, EXAMPLES, SIGNED, Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit and how it may be written."""

    unit: Annotated[str, "Its name in answers."]
    spellings: Annotated[tuple[str, ...], "Those that are read, besides other case, full stops and plurals in them."]
    ucum: Annotated[str | None, "Its code in The Unified Code for Units of Measure."]
    rec20: Annotated[str | None, "Its code in UN/ECE Recommendation 20."]
    factor: Annotated[Exact, "What one of it is in the base unit, in all digits; a temperature also has an offset."]
    offset: Annotated[Exact, "The value of its zero in the base unit."]


@dataclass(frozen=True, slots=True, kw_only=True)
class DimensionUnits:
    """The units of one dimension."""

    dimension: Annotated[Dimension, "What the units measure; a temperature and a difference of temperatures are two."]
    base_unit: Annotated[str, "The SI unit in which everything is worked out."]
    signed: Annotated[bool, "Whether a minus can stand before the number."]
    examples: Annotated[tuple[str, ...], "Measures that are read."]
    units: Annotated[tuple[Unit, ...], "Every unit in which such a measure may be written."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """Everything that a measure may be written in."""

    dimensions: Annotated[tuple[DimensionUnits, ...], "Each with its units."]
    engine: Annotated[str, "Version of the arithmetic."]


def units() -> Units:
    """The whole table, by dimension."""
    return Units(dimensions=tuple(_dimension(dimension) for dimension in Dimension), engine=__version__)


def _dimension(dimension: Dimension) -> DimensionUnits:
    return DimensionUnits(
        dimension=dimension,
        base_unit=BASE_UNITS[dimension],
        signed=dimension in SIGNED,
        examples=EXAMPLES[dimension],
        units=tuple(_unit(entry) for entry in measure.units_of(dimension)),
    )


def _unit(entry: measure.Unit) -> Unit:
    return Unit(
        unit=entry.unit,
        spellings=entry.spellings,
        ucum=entry.ucum,
        rec20=entry.rec20,
        factor=Exact(entry.factor),
        offset=Exact(entry.offset),
    )
