"""How a figure stands in a sentence: its number as people say it, its unit as people write it."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from fractions import Fraction
from functools import lru_cache

from gaugerake.answers.show.words.feet import INCH_M, INCHES_A_FOOT, feet_text
from gaugerake.answers.show.words.hours import clock_parts, has_days, tenths
from gaugerake.floor.values.figure import Bound, Figure, Kind, Telling, Told
from gaugerake.measure.choice import UnitChoice
from gaugerake.measure.dimension import Dimension
from gaugerake.measure.units import find

Templates = Mapping[str, str]
_WHOLE_DAYS = 60
"""From so many on, a part of a day says nothing."""
_DAYS_A_MONTH = 30.4375
"""The unit mo; what was stated in months, as shelf lives are, is told so: 213.0625 days are 7 months."""
_DAYS_IN_YEARS = 730
"""From so many on, people count years: 4,383 days are 12 years."""
_DAYS_A_YEAR = 365.25
_MINUTES_AN_HOUR = 60
"""Under an hour people count minutes: 0.08333 h are 5 min."""
_SECONDS_A_MINUTE = 60
_BEFORE_THE_NUMBER = ("CSP", "pH")
_LEADING_NUMBER = re.compile("[0-9.,/½¼¾⅛⅜⅝⅞ -]*")
_PACKED = (Dimension.MIX, Dimension.VOLUME, Dimension.MASS, Dimension.PIECE)
"""What a pack's contents may measure."""


def figure_text(figure: Figure, choice: UnitChoice, templates: Templates) -> str:
    """A figure as people say it in a sentence: feet and inches, hours and minutes, else as `decimal_text`.

    >>> from gaugerake.answers.show.words import templates
    >>> from gaugerake.measure.choice import SI, US
    >>> [figure_text(Figure(7.466, Kind.LENGTH), choice, templates()) for choice in (US, SI)]
    ['24 ft 5.9 in', '7.466 m']
    >>> figure_text(Figure(263_100.0, Kind.DURATION), US, templates())
    '3 days 1 h 5 min'
    """
    return _told(figure, None, choice, templates) or decimal_text(figure, choice, templates)


def told_text(told: Told, choice: UnitChoice, templates: Templates) -> str:
    """A length or a time told in its own way; another figure as `figure_text` says it.

    >>> from gaugerake.answers.show.words import templates
    >>> from gaugerake.measure.choice import US
    >>> [told_text(Told(902.0, Kind.MINUTES, how), US, templates()) for how in (Telling.UP, Telling.DOWN)]
    ['15.1 min', '15 min']
    """
    figure = Figure(told.value, told.kind)
    return _told(figure, told.how, choice, templates) or decimal_text(figure, choice, templates)


def _told(figure: Figure, how: Telling | None, choice: UnitChoice, templates: Templates) -> str | None:
    """A length in feet, hours or minutes as people say them; None of any other figure."""
    value, kind = figure
    if how is Telling.DECIMALS:
        return None
    if kind is Kind.MINUTES:
        minutes = tenths(value / 60, how)
        return f"{_number(minutes)} {unit_text('min', templates, minutes)}"
    if kind is Kind.DURATION:
        parts = clock_parts(abs(value), work=how is Telling.WORK)
        return ("-" if value < 0 else "") + " ".join(f"{n:,} {unit_text(unit, templates, n)}" for n, unit in parts)
    if kind is Kind.LENGTH and choice.unit(kind) == "ft":
        return _feet(value, how, templates)
    return None


def _feet(length_m: float, how: Telling | None, templates: Templates) -> str:
    units = {unit: unit_text(unit, templates) for unit in ("ft", "in")}
    if how is Telling.MARK or not 0 < length_m < INCH_M:
        return feet_text(length_m, units, how)
    inches = float(f"{length_m / INCH_M:.9g}")
    if how in (Telling.UP, Telling.DOWN):
        inches = _into_the_range(inches, low=how is Telling.UP)
    return f"{_by_the_rule(inches)} {units['in']}"


def decimal_text(figure: Figure, choice: UnitChoice, templates: Templates) -> str:
    """A figure as one number and one unit, to about 4 significant digits, inches as a rule shows them.

    >>> from gaugerake.answers.show.words import templates
    >>> from gaugerake.measure.choice import US
    >>> decimal_text(Figure(7.466, Kind.LENGTH), US, templates())
    '24.49 ft'
    >>> figure_text(Figure(111.483648, Kind.AREA), US, templates()), figure_text(Figure(5.0, Kind.MIX), US, templates())
    ('1,200 sq ft', '5 mixes')
    >>> figure_text(Figure(0.0047625, Kind.SMALL_LENGTH), US, templates())
    '3/16 in'
    >>> figure_text(Figure(4383 * 86_400.0, Kind.DAYS), US, templates())
    '12 years'
    >>> figure_text(Figure(213.0625 * 86_400, Kind.DAYS), US, templates())
    '7 months'
    >>> figure_text(Figure(300.0, Kind.DURATION), US, templates())
    '5 min'
    """
    value, unit = choice.show(*figure)
    return _shown_text(figure.kind, value, unit, templates)


def bound_text(bound: Bound, choice: UnitChoice, templates: Templates) -> str:
    """An end of a range as people say it: in few digits, rounded into the range, so that what is said is taken.

    Two digits where they are within a fortieth of it, else three; what is that short already stays as it is.

    >>> from gaugerake.answers.show.words import templates
    >>> from gaugerake.measure.choice import US
    >>> [
    ...     bound_text(Bound(end_m, Kind.SMALL_LENGTH, low=low), US, templates())
    ...     for end_m, low in ((0.00005, True), (0.150, False), (0.0254, True))
    ... ]
    ['0.002 in', '5.9 in', '1 in']
    >>> bound_text(Bound(300.0, Kind.DURATION, low=True), US, templates())
    '5 min'
    """
    value, unit = choice.show(bound.value, bound.kind)
    if bound.kind is Kind.LENGTH and unit == "ft":
        return _feet_of_a_range(bound, value, templates)
    if bound.kind is Kind.DAYS:  # told in years where there are many, which are whole
        return _shown_text(bound.kind, value, unit, templates)
    if _is_in_minutes(bound.kind, value, unit):  # rounded as they are told: 5 min, which are 0.0833333 h
        minutes = _into_the_range(float(f"{bound.value / _SECONDS_A_MINUTE:.6g}"), low=bound.low)
        return f"{_number(minutes)} {unit_text('min', templates, minutes)}"
    return _shown_text(bound.kind, _into_the_range(value, low=bound.low), unit, templates)


def _feet_of_a_range(bound: Bound, feet: float, templates: Templates) -> str:
    """Whole feet where they are near enough, else feet and inches; under a foot inches."""
    how = Telling.UP if bound.low else Telling.DOWN
    if feet >= 1:
        return _feet(_into_the_range(feet, low=bound.low) * INCH_M * INCHES_A_FOOT, how, templates)
    inches = _into_the_range(float(f"{bound.value / INCH_M:.6g}"), low=bound.low)
    return f"{_by_the_rule(inches)} {unit_text('in', templates)}"


def _into_the_range(value: float, *, low: bool) -> float:
    if float(f"{value:.3g}") == value:
        return value
    exact = Decimal(repr(value))
    rounding = ROUND_CEILING if low else ROUND_FLOOR
    two, three = (float(exact.quantize(Decimal(1).scaleb(exact.adjusted() + 1 - n), rounding)) for n in (2, 3))
    return two if abs(two - value) <= abs(value) / 40 else three


def _is_in_minutes(kind: Kind, value: float, unit: str) -> bool:
    """A part of an hour is told in minutes."""
    return unit == "h" and kind is Kind.DURATION and 0 < abs(value) < 1


def _shown_text(kind: Kind, value: float, unit: str, templates: Templates) -> str:
    if kind is Kind.DAYS and value >= _DAYS_IN_YEARS:
        years = round(value / _DAYS_A_YEAR, 1)
        return f"{_number(years)} {unit_text('yr', templates, years)}"
    if kind is Kind.DAYS and value >= _WHOLE_DAYS and (months := _whole_months(value)):
        return f"{months} {unit_text('mo', templates, months)}"
    if _is_in_minutes(kind, value, unit):
        return f"{_number(value * _MINUTES_AN_HOUR)} {unit_text('min', templates, value)}"
    number = _number_of(kind, value, unit)
    if unit == "1":
        return number
    if unit in _BEFORE_THE_NUMBER:
        return f"{unit} {number}"
    return f"{number} {unit_text(unit, templates, value)}"


def _whole_months(days: float) -> int | None:
    months = round(days / _DAYS_A_MONTH)
    return months if math.isclose(months * _DAYS_A_MONTH, days, rel_tol=1e-5) else None  # shown in six digits


def unit_text(unit: str, templates: Templates, value: float = 1) -> str:
    """A unit as people write it after a number.

    >>> from gaugerake.answers.show.words import templates
    >>> unit_text("ft2", templates()), unit_text("mil", templates()), unit_text("d", templates(), 2.5)
    ('sq ft', 'mil', 'days')
    """
    plural = f"unit-{unit}-{'one' if value == 1 else 'other'}"
    return templates.get(plural) or templates.get(f"unit-{unit}") or unit


@lru_cache(maxsize=1024)
def _split(written: str) -> tuple[str, str]:
    """What a pack holds as a number and the name of its unit, if it has one that we know.

    >>> _split("1/2 gallon"), _split("24 mixes"), _split("0.02 m3")
    (('1/2', 'gal'), ('24', 'mix'), ('0.02', 'm3'))
    """
    number = _LEADING_NUMBER.match(written)
    end = number.end() if number else 0
    spelling = written[end:].strip()
    found = next((unit for one in _PACKED if (unit := find(spelling, one))), None)
    return written[:end].strip(), found.unit if found else spelling


def contents_text(written: str, templates: Templates) -> str:
    """What a pack holds, its number as the maker writes it, its unit as people of this language write it.

    >>> from gaugerake.answers.show.words import templates
    >>> [contents_text(written, templates("es")) for written in ("1 mix", "4 pieces", "5 gallons", "1,250 lb")]
    ['1 mezcla', '4 piezas', '5 gal', '1,250 lb']
    """
    number, unit = _split(written)
    return f"{number} {unit_text(unit, templates, 1 if number == '1' else 2)}"


def has_words(figure: Figure, choice: UnitChoice, templates: Templates) -> bool:
    """Whether a figure is told with a word, which has a plural, and not with signs alone.

    >>> from gaugerake.answers.show.words import templates
    >>> from gaugerake.measure.choice import US
    >>> [has_words(Figure(9.0, kind), US, templates()) for kind in (Kind.MIX, Kind.AREA)]
    [True, False]
    """
    if figure.kind is Kind.DURATION:
        return has_days(figure.value)
    return f"unit-{choice.show(*figure)[1]}-one" in templates


def _number_of(kind: Kind, value: float, unit: str) -> str:
    if kind is Kind.SMALL_LENGTH and unit == "in":
        return _by_the_rule(value)
    if kind is Kind.DAYS and value >= _WHOLE_DAYS:
        return f"{value:,.0f}"
    return _number(value)


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
