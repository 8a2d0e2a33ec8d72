"""What is not a measure, and the reason that is given for it."""

from typing import Any

import pytest

from gaugerake.measure.errors import DETAILS, BadUnit, NotAMeasure, Reason
from gaugerake.measure.grammar import read, read_json, read_object
from gaugerake.measure.units import Dimension

L, A, V = Dimension.LENGTH, Dimension.AREA, Dimension.VOLUME
T, D = Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE

BAD: dict[str, list[tuple[Any, Dimension]]] = {
    "empty": [("", L), (" ", L), ("\u00a0", L), ("", T)],
    "too-long": [("1" * 33, L), ("1 ft" + " " * 29, L), ("9" * 100_000 + " ft", L), ("(" * 1_000_000, A)],
    "control-character": [
        ("5\tft", L),
        ("5 ft\n", L),
        ("5\x00ft", L),
        ("5\u200bft", L),
        ("5\u00adft", L),
        ("\ufeff5 ft", L),
        ("5 \ud800", L),
        ("5\x1b[31m ft", L),
        ("5\u3000ft", L),
    ],
    "not-text": [
        (None, L),
        (True, L),
        (False, T),
        ([], L),
        (["5 ft"], L),
        ({}, L),
        ({"value": 5}, L),
        ({"unit": "ft"}, L),
        ({"value": 5, "unit": "ft", "extra": 1}, L),
        ({"ft": 5}, L),
    ],
    "not-a-number": [
        ("ft", L),
        ("a ft", L),
        ("NaN ft", L),
        ("nan", L),
        ("inf m", L),
        ("Infinity m", L),
        ("+5 ft", L),
        ("+5 °C", T),
        ("--5 °C", T),
        ("~5 ft", L),
        ("5. ft", L),
        ("1.2.3 ft", L),
        ("1/2/3 in", L),
        ("1/ in", L),
        ("/2 in", L),
        ("½½ in", L),
        ("⅓ in", L),
        ("1⁄2 in", L),
        ("1/2½ in", L),
        ("'6", L),
        ('"', L),
        ("(5) ft", L),
        ("$5", L),
        ("five ft", L),
        (".", L),
        ("-", T),
        (", ft", L),
        ("1, ft", L),
        ("1,250. ft", L),
        ("__import__('os')", L),
        ({"value": "5", "unit": "ft"}, L),
        ({"value": True, "unit": "ft"}, L),
        ({"value": None, "unit": "ft"}, L),
        ({"value": [5], "unit": "ft"}, L),
        ({"value": float("nan"), "unit": "ft"}, L),
        ({"value": float("inf"), "unit": "ft"}, L),
        (float("nan"), L),
    ],
    "non-ascii-digits": [
        ("٣ ft", L),
        ("３ ft", L),
        ("५ m", L),
        ("1٣ ft", L),
        ("5 ft٣", L),
        ("5' ٣\"", L),
        ("² ft\u0663", L),
        ("5 ft⁴", L),
        ("①ft", L),
    ],
    "decimal-comma": [
        ("1,5 m", L),
        ("1,25 m", L),
        ("12,50 m", L),
        ("0,250 m", L),
        ("1,2345 m", L),
        ("1.250,5 m", L),
        ("1234,567 m", L),
        ("1,250,5 m", L),
        (",5 m", L),
        ("-1,5 °C", T),
        ("5' 6,5\"", L),
    ],
    "exponent": [("1e3 ft", L), ("1E3 ft", L), ("1e-3 m", L), ("1.5e+2 m", L), ("5E31", Dimension.SPREADING_RATE)],
    "two-numbers": [
        ("5 6 ft", L),
        ("1 250 ft", L),
        ("5-6 ft", L),
        ("5 – 6 ft", L),
        ("10 x 12 ft", L),
        ("10*12 ft", L),
        ("9**9**9", L),
        ("1 / 2 in", L),
        ("1.5 1/2 in", L),
        ("1.5 1/2/3 in", L),
        ("0x10 ft", L),
        ("1/2 1/2 in", L),
        ("1 1/2 1/2 in", L),
        ("5 77", L),
        ("5 28", Dimension.AREAL_MASS),
        ("5 4H", L),
        ("5' 6'", L),
        ("5' 6 mm", L),
        ({"value": 5, "unit": "5 ft"}, L),
        ("2 1/2 3 gal", V),
    ],
    "negative": [
        ("-5 ft", L),
        ("−5 ft", L),
        ("- 5 ft", L),
        ("-0 ft", L),
        ("-1/2 in", L),
        ("-½ in", L),
        ("-.5 in", L),
        ("-5' 6\"", L),
        ("-1 mix", Dimension.MIX),
        ({"value": -5, "unit": "ft"}, L),
        ({"value": -1e-9, "unit": "gal"}, V),
    ],
    "fraction-not-proper": [
        ("1 3/2 in", L),
        ("1 2/2 in", L),
        ("1-4/4 in", L),
        ("5' 6 3/2\"", L),
        ("1 99/98 gal", V),
    ],
    "zero-denominator": [("1/0 in", L), ("1 1/0 in", L), ("0/0 in", L), ("5' 1/0\"", L), ("1/000 gal", V)],
    "feet-not-whole": [("5.5' 6\"", L), ("5 1/2' 6\"", L), ("5½' 6\"", L), ("1/2' 6\"", L), ("5.5 ft 6 in", L)],
    "inches-over-twelve": [
        ("5' 14\"", L),
        ("5' 12\"", L),
        ("5' 12.0\"", L),
        ("5 ft 12 1/2 in", L),
        ("0' 12\"", L),
        ("5' 25/2\"", L),
    ],
    "too-large": [
        ("10000000000000000000 m", L),
        ({"value": 1e19, "unit": "m"}, L),
        ({"value": 1e308, "unit": "km"}, L),
        ({"value": 10**5000, "unit": "m"}, L),
        ({"value": -(10**400), "unit": "degC"}, T),
        (10**5000, L),
    ],
    "no-unit": [
        ("12", L),
        ("12 ", L),
        ("1 1/2", L),
        ("½", L),
        ("1,250", A),
        ("72", T),
        ("-5", T),
        ("5' 6", L),
        ("5 ft 6", L),
        ("5'6 1/2", L),
        (12, L),
        (1.5, L),
        ({"value": 5, "unit": ""}, L),
        ({"value": 5, "unit": " "}, L),
        ({"value": 5, "unit": None}, L),
        ({"value": 5, "unit": 7}, L),
        ({"value": 5, "unit": ["ft"]}, L),
    ],
    "unknown-unit": [
        ("5 furlongs", L),
        ("5 M", L),
        ("5 Mm", L),
        ("5 Mil", L),
        ("5 f t", L),
        ("5' --6\"", L),
        ("5' 6\"", A),
        ("5 ft ft", L),
        ("5 in ft", L),
        ("5 ft,", L),
        ("5² ft", L),
        ("5 ft²2", L),
        ("5 m!", L),
        ("5 ft and 6 in", L),
        ("5 %", L),
        ("5 ft; drop table", L),
        ("5''", L),
        ("5 mpa", Dimension.PRESSURE),
        ("5 mPa", Dimension.PRESSURE),
        ("1 ton", Dimension.MASS),
        ("1 T", Dimension.MASS),
        ("5 ML", V),
        ("5 ft2/g", Dimension.SPREADING_RATE),
        ("5 gal/ft2", Dimension.SPREADING_RATE),
        ("5 ft2/", Dimension.SPREADING_RATE),
        ("5 /gal", Dimension.SPREADING_RATE),
        ("5 lb/100ft2/24h", Dimension.MOISTURE_EMISSION),
        ("5 lb/1000ft2", Dimension.MOISTURE_EMISSION),
        ("5 lb/1000ft2/24d", Dimension.MOISTURE_EMISSION),
        ("5 M", Dimension.DURATION),
        ("5 °R", T),
        ("5 °", T),
        ({"value": 5, "unit": "furlong"}, L),
    ],
    "wrong-dimension": [
        ("5 ft2", L),
        ("5 ft²", L),
        ("5 ft3", L),
        ("5 lb", L),
        ("5 ft", A),
        ("5 m³", A),
        ("5 gal", A),
        ("8 oz", V),
        ("8 fl oz", Dimension.MASS),
        ("5 m", Dimension.DURATION),
        ("3 lb", Dimension.MOISTURE_EMISSION),
        ("200 ft2", Dimension.SPREADING_RATE),
        ("0.5 lb", Dimension.AREAL_MASS),
        ("900 ft2", Dimension.AREA_RATE),
        ("5 lb/ft2", Dimension.PRESSURE),
        ("5 pieces", Dimension.MIX),
        ("70 °F", L),
        ({"value": 5, "unit": "ft2"}, L),
    ],
    "delta-for-temperature": [("5 delta_degF", T), ("3 Δ°C", T), ({"value": 3, "unit": "delta_K"}, T)],
    "temperature-for-difference": [("5 °F", D), ("5 degF", D), ("3 C", D), ({"value": 3, "unit": "degC"}, D)],
}
CASES = [(seen, dimension, reason) for reason, cases in BAD.items() for seen, dimension in cases]


def short(value: Any) -> str:
    """A name for a case: integers may have more digits than Python shows."""
    return ascii(value)[:40] if isinstance(value, str) else type(value).__name__


def refused(seen: Any, dimension: Dimension) -> NotAMeasure:
    with pytest.raises(NotAMeasure) as caught:
        read_json(seen, dimension)
    return caught.value


def test_the_corpus_is_large_and_has_every_reason() -> None:
    assert sum(isinstance(seen, str) for seen, _, _ in CASES) >= 100
    assert set(BAD) == {reason.value for reason in Reason} == {reason.value for reason in DETAILS}


@pytest.mark.parametrize(("seen", "dimension", "reason"), CASES, ids=short)
def test_is_refused_for_its_reason(seen: Any, dimension: Dimension, reason: str) -> None:
    assert refused(seen, dimension).code == reason


@pytest.mark.parametrize(("seen", "dimension", "reason"), CASES, ids=short)
def test_the_refusal_can_be_shown(seen: Any, dimension: Dimension, reason: str) -> None:
    error = refused(seen, dimension)
    for sentence in (error.seen, error.detail, error.hint):
        assert len(sentence.encode("utf-8")) < 400
    assert error.detail.endswith(".") and error.hint.endswith(".")
    assert error.dimension is dimension


@pytest.mark.parametrize("dimension", Dimension)
def test_every_measure_in_a_hint_is_readable(dimension: Dimension) -> None:
    examples = refused("", dimension).hint.partition("such as ")[2].removesuffix(".").split(" or ")
    assert len(examples) >= 2
    for example in examples:
        read(example, dimension)


@pytest.mark.parametrize(
    ("text", "dimension", "other"),
    [
        ("5 ft2", L, A),
        ("5 ft", A, L),
        ("3 lb", Dimension.MOISTURE_EMISSION, Dimension.MASS),
        ("5 °F", D, T),
        ("5 delta_degF", T, D),
        ("5 m", Dimension.DURATION, L),
    ],
)
def test_a_unit_of_another_dimension_says_which(text: str, dimension: Dimension, other: Dimension) -> None:
    error = refused(text, dimension)
    assert isinstance(error, BadUnit)
    assert error.other is other


@pytest.mark.parametrize(
    ("text", "dimension", "nearest"),
    [
        ("5 inchs", L, "in"),
        ("5 feets", L, "ft"),
        ("5 milimetres", L, "mm"),
        ("5 M", L, "m"),
        ("5 galons", V, "gal"),
        ("5 mpa", Dimension.PRESSURE, "MPa"),
        ("5 Mil", L, "mil"),
        ("5 sqare feet", A, "ft2"),
        ("5 ft2/galon", Dimension.SPREADING_RATE, "ft2/gal"),
        ("5 xyzzy", L, None),
        ("12 squares", A, None),
    ],
)
def test_an_unknown_unit_names_the_nearest(text: str, dimension: Dimension, nearest: str | None) -> None:
    error = refused(text, dimension)
    assert isinstance(error, BadUnit)
    assert error.nearest == nearest
    assert (f"Do you mean {nearest}?" in error.hint) == (nearest is not None)


def test_a_long_text_is_shown_cut_and_what_is_no_text_by_its_name() -> None:
    assert refused("9" * 33, L).seen == "9" * 32 + "…"
    assert refused("9" * 32, L).seen == "9" * 32
    no_texts: list[Any] = [None, True, [], {}]
    assert [refused(seen, L).seen for seen in no_texts] == ["null", "true", "a list", "an object"]
    assert refused({"value": 5, "unit": "furlong"}, L).seen == "5 furlong"


def test_the_sentences_say_what_was_seen_and_what_to_write() -> None:
    error = refused("5 ft2", L)
    assert error.detail == "“ft2” is a unit of area; here, length is asked."
    assert error.hint == "Write a number and a unit of length, such as 12 ft or 5' 6 1/2\" or 3/16 in or 3 mm."


@pytest.mark.parametrize(
    ("unit", "reason"),
    [
        ("furlong", "unknown-unit"),
        ("ft2", "wrong-dimension"),
        ("", "no-unit"),
        (" ", "no-unit"),
        (None, "no-unit"),
        (True, "no-unit"),
        ("f" * 33, "too-long"),
        ("f\t", "control-character"),
    ],
)
def test_a_unit_beside_a_number_is_refused_for_its_reason(unit: Any, reason: str) -> None:
    with pytest.raises(NotAMeasure) as caught:
        read_object(1.5, unit, L)
    assert caught.value.code == reason


@pytest.mark.parametrize(
    ("value", "reason"),
    [(float("nan"), "not-a-number"), (True, "not-a-number"), ("5", "not-a-number"), (10**5000, "too-large")],
    ids=["nan", "true", "text", "large"],
)
def test_a_number_beside_a_unit_is_refused_for_its_reason(value: Any, reason: str) -> None:
    with pytest.raises(NotAMeasure) as caught:
        read_object(value, "ft", L)
    assert caught.value.code == reason
