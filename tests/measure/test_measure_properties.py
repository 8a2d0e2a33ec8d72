"""What holds for every measure, whatever its number, unit and spelling."""

import math
import re
from decimal import Decimal
from fractions import Fraction
from typing import Any
from unittest.mock import patch

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from gaugerake.measure import grammar
from gaugerake.measure.choice import SI, US, UnitChoice
from gaugerake.measure.dimension import KINDS, SIGNED
from gaugerake.measure.errors import NotAMeasure, Reason
from gaugerake.measure.grammar import LONGEST, canonical, read, read_json, read_object
from gaugerake.measure.units import Dimension, Unit, table

DIMENSIONS = st.sampled_from(Dimension)
UNITS = st.sampled_from(table())
CHOICES = st.sampled_from([US, SI])
KIND_NAMES = st.sampled_from(sorted(KINDS))
DECIMALS = st.decimals(min_value=0, max_value=99_999, places=3, allow_nan=False, allow_infinity=False)
WHOLES = st.integers(min_value=0, max_value=9_999)
PROPER = st.integers(min_value=2, max_value=64).flatmap(
    lambda under: st.tuples(st.integers(min_value=1, max_value=under - 1), st.just(under))
)
# pieces of measures, put together wrongly as often as rightly
SCRAPS = st.lists(
    st.sampled_from(
        [
            *"0123456789.,/-'\" ",
            *("½", "⅜", "’", "″", "\u00a0", "−", "²", "٣", "(", "**", "%", "\t", "Δ", "e", "NaN", "1/2", "1,250"),
            *("ft", "in", "m", "mm", "sq", "gal", "per", "°F", "delta_degF", "lb", "1000", "24", "h", "K"),
        ]
    ),
    max_size=14,
).map("".join)
TEXTS = st.one_of(SCRAPS, st.text(max_size=40))
DOCUMENTS = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | TEXTS,
    lambda inner: (
        st.lists(inner, max_size=2)
        | st.dictionaries(st.sampled_from(["value", "unit", "x"]), inner, max_size=3)
        | st.fixed_dictionaries({"value": inner, "unit": inner})
    ),
    max_leaves=6,
)


def reads(text: str, dimension: Dimension) -> float:
    assume(len(text) <= LONGEST)
    return read(text, dimension)


def outcome(text: str, dimension: Dimension) -> tuple[float | None, Reason | None]:
    grammar._read.cache_clear()
    try:
        return read(text, dimension), None
    except NotAMeasure as error:
        return None, error.reason


@settings(max_examples=1500)
@given(text=SCRAPS | st.builds("{}{}".format, DECIMALS | WHOLES, SCRAPS), dimension=DIMENSIONS)
def test_a_plain_number_is_read_as_by_the_whole_grammar(text: str, dimension: Dimension) -> None:
    quick = outcome(text, dimension)
    with patch.object(grammar, "_PLAIN", re.compile("(?!)")):
        assert quick == outcome(text, dimension)


@settings(max_examples=1500)
@given(seen=DOCUMENTS, dimension=DIMENSIONS)
def test_anything_is_a_finite_number_or_a_refusal_that_can_be_shown(seen: Any, dimension: Dimension) -> None:
    try:
        value = read_json(seen, dimension)
    except NotAMeasure as error:
        assert error.detail and error.hint and len(error.seen) <= 33
        assert isinstance(error.reason, Reason)
    else:
        assert math.isfinite(value)
        assert value == canonical(value)
        assert value >= 0 or dimension in SIGNED


@given(text=st.text(min_size=LONGEST + 1, max_size=200), dimension=DIMENSIONS)
def test_what_is_too_long_is_refused_for_that(text: str, dimension: Dimension) -> None:
    try:
        read(text, dimension)
    except NotAMeasure as error:
        assert error.reason is Reason.TOO_LONG
    else:
        raise AssertionError("read in spite of its length")


@settings(max_examples=1000)
@given(unit=UNITS, number=DECIMALS, data=st.data())
def test_every_spelling_in_any_allowed_dress_means_its_unit(unit: Unit, number: Decimal, data: st.DataObject) -> None:
    spelling = data.draw(st.sampled_from(unit.spellings))
    dressed = data.draw(
        st.sampled_from(
            [spelling, spelling.replace(" ", "  "), spelling.replace(" ", ". ") + ".", f"\u00a0{spelling} "]
        )
    )
    over, zero, under = unit.ratio
    exact = (Fraction(number) * over + zero) / under
    assert reads(f"{number} {dressed}", unit.dimension) == canonical(float(exact))


@given(unit=UNITS, number=DECIMALS)
def test_the_object_means_what_the_text_means(unit: Unit, number: Decimal) -> None:
    assert read_object(float(number), unit.unit, unit.dimension) == reads(f"{number} {unit.unit}", unit.dimension)


@given(unit=UNITS, low=DECIMALS, high=DECIMALS)
def test_more_is_never_less(unit: Unit, low: Decimal, high: Decimal) -> None:
    low, high = sorted((low, high))
    assert reads(f"{low} {unit.unit}", unit.dimension) <= reads(f"{high} {unit.unit}", unit.dimension)


@given(whole=WHOLES, fraction=PROPER, separator=st.sampled_from([" ", "-", "  "]))
def test_a_mixed_number_is_the_sum_of_its_parts(whole: int, fraction: tuple[int, int], separator: str) -> None:
    over, under = fraction
    exact = (whole + Fraction(over, under)) * Fraction("0.0254")
    assert read(f"{whole}{separator}{over}/{under} in", Dimension.LENGTH) == canonical(float(exact))


@given(
    feet=WHOLES,
    inches=st.integers(min_value=0, max_value=11),
    fraction=PROPER,
    form=st.sampled_from(
        ["{}' {} {}/{}\"", "{} feet, {} {}/{} in", "{}'-{} {}/{}\"", "{} ft {}-{}/{} in", "{}’{} {}/{}”"]
    ),
)
def test_feet_and_inches_are_the_sum_of_both(feet: int, inches: int, fraction: tuple[int, int], form: str) -> None:
    exact = feet * Fraction("0.3048") + (inches + Fraction(*fraction)) * Fraction("0.0254")
    assert reads(form.format(feet, inches, *fraction), Dimension.LENGTH) == canonical(float(exact))


@given(feet=WHOLES, inches=st.integers(min_value=12, max_value=999))
def test_twelve_inches_are_never_inches_after_feet(feet: int, inches: int) -> None:
    try:
        read(f"{feet}' {inches}\"", Dimension.LENGTH)
    except NotAMeasure as error:
        assert error.reason is Reason.INCHES_OVER_TWELVE
    else:
        raise AssertionError("carried over in silence")


@given(number=st.integers(min_value=0, max_value=10**12))
def test_commas_change_nothing(number: int) -> None:
    assert read(f"{number:,} ft2", Dimension.AREA) == read(f"{number} ft2", Dimension.AREA)


@given(sixty_fourths=st.integers(min_value=1, max_value=64 * 400))
def test_inches_and_millimetres_of_one_length_are_one_float(sixty_fourths: int) -> None:
    # 1/64 in is 0.396875 mm exactly
    millimetres = Decimal(sixty_fourths) * Decimal("0.396875")
    assert read(f"{sixty_fourths}/64 in", Dimension.LENGTH) == read(f"{millimetres} mm", Dimension.LENGTH)


@given(yards=st.integers(min_value=1, max_value=1_000_000))
def test_square_yards_are_nine_square_feet_and_not_a_hair_more(yards: int) -> None:
    assert read(f"{yards} yd2", Dimension.AREA) == read(f"{9 * yards} ft2", Dimension.AREA)


@given(fahrenheit=st.integers(min_value=-400, max_value=400))
def test_a_difference_of_two_temperatures_is_their_difference(fahrenheit: int) -> None:
    warmer, colder = (read(f"{t} degF", Dimension.TEMPERATURE) for t in (fahrenheit, fahrenheit - 9))
    assert math.isclose(warmer - colder, read("9 delta_degF", Dimension.TEMPERATURE_DIFFERENCE), abs_tol=2e-9)


@settings(max_examples=1000)
@given(choice=CHOICES, kind=KIND_NAMES, value=st.floats(min_value=1e-9, max_value=1e9))
def test_what_is_shown_reads_back_to_six_digits(choice: UnitChoice, kind: str, value: float) -> None:
    shown, unit = choice.show(value, kind)
    dimension = KINDS[kind].dimension
    if dimension is None:
        assert math.isclose(shown, value, rel_tol=5.1e-6)
        return
    back = read_object(shown, unit, dimension) if dimension in SIGNED or shown >= 0 else None
    assert back is not None
    tolerance = 5.1e-6 * max(abs(shown), 1e-1) if dimension in SIGNED else 0.0
    assert math.isclose(back, value, rel_tol=5.1e-6, abs_tol=tolerance)
    text = f"{Decimal(repr(shown)):f} {unit}"
    if len(text) <= LONGEST:
        assert read(text, dimension) == back


@given(choice=CHOICES, kind=KIND_NAMES, value=st.floats(min_value=-1e9, max_value=1e9))
def test_what_is_shown_has_at_most_six_digits_and_no_minus_zero(choice: UnitChoice, kind: str, value: float) -> None:
    shown, _ = choice.show(value, kind)
    assert float(f"{shown:.6g}") == shown
    assert math.copysign(1, shown) == 1 or shown < 0


@given(value=st.floats(min_value=1e-3, max_value=1e6), digits=st.integers(min_value=-4, max_value=4))
def test_noise_in_the_last_places_is_no_other_measure(value: float, digits: int) -> None:
    written = float(f"{value:.6g}")
    assert canonical(written * (1 + digits * 2.3e-16)) == canonical(written)
