"""How figures stand in sentences: how many digits, which words for the units."""

import pytest

from gaugerake.answers.show.reader import SI_READER, US_READER, Reader
from gaugerake.answers.show.words import written
from gaugerake.floor.values.figure import Figure, Kind
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
        (US_READER, "28' 6\"", Dimension.LENGTH, "length", "28.5 ft"),
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
        (US_READER, "7 mo", Dimension.DURATION, "days", "213 days"),  # 213.0625
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
