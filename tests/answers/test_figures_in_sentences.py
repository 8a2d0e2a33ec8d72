"""How figures stand in sentences: how many digits, which words for the units."""

import random

import pytest
from tests.seeds import seed_for

from gaugerake.answers.show.reader import SI_READER, US_READER, Reader
from gaugerake.answers.show.words import written
from gaugerake.floor.values.figure import Bound, Figure, Kind, Telling, Told
from gaugerake.measure.grammar import read
from gaugerake.measure.units import Dimension


@pytest.mark.parametrize(
    ("reader", "measure", "dimension", "kind", "expected"),
    [
        (US_READER, "1200 ft2", Dimension.AREA, "area", "1,200 sq ft"),
        (US_READER, "1234.56 ft2", Dimension.AREA, "area", "1,235 sq ft"),
        (US_READER, "123456 ft2", Dimension.AREA, "area", "123,456 sq ft"),
        (US_READER, "999.96 ft2", Dimension.AREA, "area", "1,000 sq ft"),
        (US_READER, "3/16 in", Dimension.LENGTH, "small-length", "3/16 in"),
        (US_READER, "5/32 in", Dimension.LENGTH, "small-length", "5/32 in"),
        (US_READER, "9/64 in", Dimension.LENGTH, "small-length", "9/64 in"),
        (US_READER, "1 1/2 in", Dimension.LENGTH, "small-length", "1 1/2 in"),
        (US_READER, "3 in", Dimension.LENGTH, "small-length", "3 in"),
        (US_READER, "4 mm", Dimension.LENGTH, "small-length", "0.1575 in"),  # 0.15748
        (SI_READER, "3/16 in", Dimension.LENGTH, "small-length", "4.763 mm"),
        (SI_READER, "20 mil", Dimension.LENGTH, "film", "508 µm"),
        (US_READER, "20 mil", Dimension.LENGTH, "film", "20 mil"),
        (US_READER, "12.015625 ft2", Dimension.AREA, "area", "12.02 sq ft"),
        (SI_READER, "4.015625 mm", Dimension.LENGTH, "small-length", "4.016 mm"),
        (US_READER, "28' 6\"", Dimension.LENGTH, "length", "28 ft 6 in"),
        (US_READER, "24.4949 ft", Dimension.LENGTH, "length", "24 ft 5.9 in"),  # 0.4949 x 12 = 5.9388
        (US_READER, "12 ft 4 1/8 in", Dimension.LENGTH, "length", "12 ft 4 1/8 in"),
        (US_READER, "11.999 ft", Dimension.LENGTH, "length", "12 ft"),  # 11.988 in
        (US_READER, "103.923 ft", Dimension.LENGTH, "length", "103 ft 11.1 in"),  # 0.923 x 12 = 11.076
        (US_READER, "0.8 ft", Dimension.LENGTH, "length", "9.6 in"),
        (US_READER, "3/16 in", Dimension.LENGTH, "length", "3/16 in"),
        (US_READER, "1 mm", Dimension.LENGTH, "length", "0.03937 in"),
        (US_READER, "0 ft", Dimension.LENGTH, "length", "0 ft"),
        (US_READER, "1234.56 ft", Dimension.LENGTH, "length", "1,235 ft"),
        (SI_READER, "24.4949 ft", Dimension.LENGTH, "length", "7.466 m"),
        (US_READER, "15.58 min", Dimension.DURATION, "minutes", "15.6 min"),
        (US_READER, "4 min", Dimension.DURATION, "minutes", "4 min"),
        (US_READER, "0.04583 min", Dimension.DURATION, "minutes", "0.046 min"),
        (US_READER, "12 h", Dimension.DURATION, "duration", "12 h"),
        (US_READER, "5 min", Dimension.DURATION, "duration", "5 min"),
        (US_READER, "72 °F", Dimension.TEMPERATURE, "temperature", "72 °F"),
        (SI_READER, "-5 °C", Dimension.TEMPERATURE, "temperature", "-5 °C"),
        (US_READER, "5 delta_degF", Dimension.TEMPERATURE_DIFFERENCE, "temperature-difference", "5 °F"),
        (US_READER, "4200 psi", Dimension.PRESSURE, "pressure", "4,200 psi"),
        (SI_READER, "30 MPa", Dimension.PRESSURE, "pressure", "30 MPa"),
        (US_READER, "200 ft2/gal", Dimension.SPREADING_RATE, "spreading-rate", "200 sq ft/gal"),
        (US_READER, "6.1 lb/1000ft2/24h", Dimension.MOISTURE_EMISSION, "moisture-emission", "6.1 lb/1,000 sq ft/24 h"),
        (SI_READER, "15 g/m2/24h", Dimension.MOISTURE_EMISSION, "moisture-emission", "15 g/m²/24 h"),
        (US_READER, "1 mix", Dimension.MIX, "mix", "1 mix"),
        (US_READER, "5 mix", Dimension.MIX, "mix", "5 mixes"),
        (US_READER, "0.5 mix", Dimension.MIX, "mix", "0.5 mixes"),
        (US_READER, "1 piece", Dimension.PIECE, "piece", "1 piece"),
        (US_READER, "1200 pieces", Dimension.PIECE, "piece", "1,200 pieces"),
        (US_READER, "28 d", Dimension.DURATION, "days", "28 days"),
        (US_READER, "30 h", Dimension.DURATION, "days", "1.25 days"),
        (US_READER, "7 mo", Dimension.DURATION, "days", "7 months"),  # 213.0625 days
        (SI_READER, "13 mo", Dimension.DURATION, "days", "13 months"),
        (US_READER, "213 d", Dimension.DURATION, "days", "213 days"),
        (US_READER, "213.07 d", Dimension.DURATION, "days", "213 days"),
        (US_READER, "2 mo", Dimension.DURATION, "days", "2 months"),  # 60.875 days
        (US_READER, "1 mo", Dimension.DURATION, "days", "30.44 days"),
        (US_READER, "24 h", Dimension.DURATION, "days", "1 day"),
        (SI_READER, "120 m2", Dimension.AREA, "area", "120 m²"),
    ],
)
def test_stands_in_a_sentence(reader: Reader, measure: str, dimension: Dimension, kind: str, expected: str) -> None:
    text = written(Figure(read(measure, dimension), Kind(kind)), reader)
    assert text == expected
    if dimension is not Dimension.TEMPERATURE_DIFFERENCE:  # whose degrees are bare in a sentence
        read(text, dimension)


@pytest.mark.parametrize(
    ("hours", "how", "expected"),
    [
        (1.521, None, "1 h 32 min"),  # 91.26 min, none too early
        (47.9, None, "47 h 54 min"),
        (48.0, None, "2 days"),
        (73.08, None, "3 days 1 h 5 min"),  # 72 + 1 h, 0.08 x 60 = 4.8
        (95.25, Telling.WORK, "95 h 15 min"),
        (-3.0, None, "-3 h"),
    ],
)
def test_hours_are_told_as_a_clock_does(hours: float, how: Telling | None, expected: str) -> None:
    figure = Figure(hours * 3600, Kind.DURATION)
    told = figure if how is None else Told(*figure, how)
    assert written(told, US_READER) == written(told, SI_READER) == expected


def test_days_have_their_word_in_spanish() -> None:
    figure = Figure(73.08 * 3600, Kind.DURATION)
    assert written(figure, Reader(units=US_READER.units, language="es")) == "3 días 1 h 5 min"


@pytest.mark.parametrize(
    ("measure", "kind", "expected"),
    [
        ("24.4949 ft", "length", ("24 ft 6 in", "24 ft 5.9 in", "24 ft 6 in")),  # 5.9388 in: by tenths, by quarters
        ("23 ft 6 in", "length", ("23 ft 6 in", "23 ft 6 in", "23 ft 6 in")),
        ("23 ft 5.9 in", "length", ("23 ft 5.9 in", "23 ft 5.9 in", "23 ft 6 in")),
        ("147.148 ft", "length", ("147 ft 1.8 in", "147 ft 1.7 in", "147 ft 1 3/4 in")),  # 0.148 x 12 = 1.776
        ("1234.5 ft", "length", ("1,235 ft", "1,234 ft", "1,234 ft")),
        ("1 mm", "length", ("0.04 in", "0.039 in", "0 ft")),  # 0.03937; down to 0.039 as 0.03 is too far
    ],
)
def test_a_limit_keeps_its_side_and_a_mark_is_one(measure: str, kind: str, expected: tuple[str, str, str]) -> None:
    value = read(measure, Dimension.LENGTH)
    told = (written(Told(value, Kind(kind), how), US_READER) for how in (Telling.UP, Telling.DOWN, Telling.MARK))
    assert tuple(told) == expected


@pytest.mark.parametrize("how", [Telling.UP, Telling.DOWN])
def test_what_is_told_of_a_limit_is_within_it(how: Telling) -> None:
    """Read back as a measure, whatever the length: at the limit to a hundredth of a micron, or on its side."""
    draw = random.Random(seed_for(f"told {how}"))
    for length_m in (10 ** draw.uniform(-3, 5) for _ in range(2000)):
        back = read(written(Told(length_m, Kind.LENGTH, how), US_READER), Dimension.LENGTH)
        over = back - length_m if how is Telling.UP else length_m - back
        assert -1e-8 * max(length_m, 1) <= over <= max(0.0254 / 10, length_m / 1000) * (1 + 1e-6), length_m


@pytest.mark.parametrize("bound", ["0.01 ft", "10 cm", "1 ft 3.3 in", "30 m", "10 km"])
def test_the_ends_of_a_range_of_lengths_are_in_it(bound: str) -> None:
    value = read(bound, Dimension.LENGTH)
    low, high = (read(written(Bound(value, Kind.LENGTH, low), US_READER), Dimension.LENGTH) for low in (True, False))
    assert high * (1 - 1e-9) <= value <= low * (1 + 1e-9)


def test_the_ends_of_a_range_are_told_in_few_words() -> None:
    """30 m are 98.4 ft, 10 cm 3.94 in, 10 km 32,808 ft."""
    ends = ((0.1, True), (30.0, False), (10_000.0, False))
    assert [written(Bound(end_m, Kind.LENGTH, low), US_READER) for end_m, low in ends] == ["4 in", "98 ft", "32,000 ft"]


@pytest.mark.parametrize(
    ("value", "kind", "expected"),
    [
        (84.0, "percent", "84 %"),
        (4.0, "csp", "CSP 4"),
        (9.5, "ph", "pH 9.5"),
        (3.0, "count", "3"),
        (1e-5, "count", "0.00001"),
    ],
)
def test_plain_numbers_stand_in_a_sentence(value: float, kind: str, expected: str) -> None:
    figure = Figure(value, Kind(kind))
    assert written(figure, US_READER) == written(figure, SI_READER) == expected
