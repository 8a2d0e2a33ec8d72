"""The closed table: factors against exact definitions and against Pint, codes and spellings against each other."""

import subprocess
import sys
from collections import Counter
from fractions import Fraction
from importlib.resources import files
from typing import Any

import pint
import pytest

from gaugerake.measure.definitions import FILES, needed_definitions
from gaugerake.measure.dimension import BASE_UNITS, EXAMPLES, KINDS
from gaugerake.measure.errors import NotAMeasure
from gaugerake.measure.grammar import read
from gaugerake.measure.rows import ROWS, Row
from gaugerake.measure.units import Dimension, Unit, find, fold, table, unit, units_of

# International yard and pound, 1959; US gallon of 231 in3 (NIST Handbook 44, appendix C); imperial gallon (UK Weights
# and Measures Act 1985); standard gravity (3rd CGPM, 1901); Fahrenheit (NIST SP 811, appendix B.8); Julian year (UCUM).
FT, IN, YD, LB = Fraction("0.3048"), Fraction("0.0254"), Fraction("0.9144"), Fraction("0.45359237")
GAL, GAL_IMP, G0 = 231 * IN**3, Fraction("0.00454609"), Fraction("9.80665")
DAY = 24 * 60 * 60

EXACT: dict[tuple[str, str], Fraction | int] = {
    ("length", "ft"): FT,
    ("length", "in"): IN,
    ("length", "mil"): IN / 1000,
    ("length", "yd"): YD,
    ("length", "m"): 1,
    ("length", "cm"): Fraction("0.01"),
    ("length", "mm"): Fraction("0.001"),
    ("length", "um"): Fraction("0.000001"),
    ("length", "km"): 1000,
    ("area", "ft2"): FT**2,
    ("area", "in2"): IN**2,
    ("area", "yd2"): YD**2,
    ("area", "m2"): 1,
    ("area", "cm2"): Fraction("0.0001"),
    ("area", "mm2"): Fraction("0.000001"),
    ("volume", "ft3"): FT**3,
    ("volume", "in3"): IN**3,
    ("volume", "yd3"): YD**3,
    ("volume", "gal"): GAL,
    ("volume", "gal_imp"): GAL_IMP,
    ("volume", "qt"): GAL / 4,
    ("volume", "pt"): GAL / 8,
    ("volume", "fl_oz"): GAL / 128,
    ("volume", "L"): Fraction("0.001"),
    ("volume", "mL"): Fraction("0.000001"),
    ("volume", "m3"): 1,
    ("volume", "cm3"): Fraction("0.000001"),
    ("mass", "lb"): LB,
    ("mass", "oz"): LB / 16,
    ("mass", "kg"): 1,
    ("mass", "g"): Fraction("0.001"),
    ("mass", "t"): 1000,
    ("pressure", "psi"): LB * G0 / IN**2,
    ("pressure", "ksi"): 1000 * LB * G0 / IN**2,
    ("pressure", "Pa"): 1,
    ("pressure", "kPa"): 1000,
    ("pressure", "MPa"): 1_000_000,
    ("pressure", "N/mm2"): 1_000_000,
    ("pressure", "bar"): 100_000,
    ("temperature", "degF"): Fraction(5, 9),
    ("temperature", "degC"): 1,
    ("temperature", "K"): 1,
    ("temperature-difference", "delta_degF"): Fraction(5, 9),
    ("temperature-difference", "delta_degC"): 1,
    ("temperature-difference", "delta_K"): 1,
    ("duration", "h"): 3600,
    ("duration", "min"): 60,
    ("duration", "s"): 1,
    ("duration", "d"): DAY,
    ("duration", "wk"): 7 * DAY,
    ("duration", "mo"): Fraction("365.25") * DAY / 12,
    ("duration", "yr"): Fraction("365.25") * DAY,
    ("spreading-rate", "ft2/gal"): FT**2 / GAL,
    ("spreading-rate", "ft2/gal_imp"): FT**2 / GAL_IMP,
    ("spreading-rate", "m2/L"): 1000,
    ("areal-mass", "lb/ft2"): LB / FT**2,
    ("areal-mass", "lb/yd2"): LB / YD**2,
    ("areal-mass", "oz/ft2"): LB / 16 / FT**2,
    ("areal-mass", "oz/yd2"): LB / 16 / YD**2,
    ("areal-mass", "kg/m2"): 1,
    ("areal-mass", "g/m2"): Fraction("0.001"),
    ("moisture-emission", "lb/1000ft2/24h"): LB / 1000 / FT**2 / DAY,
    ("moisture-emission", "g/m2/24h"): Fraction("0.001") / DAY,
    ("area-rate", "ft2/h"): FT**2 / 3600,
    ("area-rate", "m2/h"): Fraction(1, 3600),
    ("length-rate", "ft/h"): FT / 3600,
    ("length-rate", "m/h"): Fraction(1, 3600),
    ("mass-rate", "lb/h"): LB / 3600,
    ("mass-rate", "kg/h"): Fraction(1, 3600),
    ("mix", "mix"): 1,
    ("piece", "piece"): 1,
}
NEVER_ONE = {
    Dimension.SPREADING_RATE,
    Dimension.MOISTURE_EMISSION,
    Dimension.AREA_RATE,
    Dimension.LENGTH_RATE,
    Dimension.MASS_RATE,
}
"""None of their units is the base unit itself: nobody states a rate by the second."""
OFFSETS = {"degF": Fraction("459.67") * 5 / 9, "degC": Fraction("273.15")}


def name(entry: Unit) -> str:
    return f"{entry.dimension}: {entry.unit}"


def test_the_exact_table_holds_every_unit() -> None:
    assert {(entry.dimension.value, entry.unit) for entry in table()} == set(EXACT)


@pytest.mark.parametrize("entry", table(), ids=name)
def test_factor_and_offset_are_exact(entry: Unit) -> None:
    over, zero, under = entry.ratio
    factor = EXACT[entry.dimension.value, entry.unit]
    offset = OFFSETS.get(entry.unit, Fraction(0))
    assert (Fraction(over, under), Fraction(zero, under)) == (factor, offset)
    assert (entry.factor, entry.offset) == (float(factor), float(offset))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.dimension}: {row.unit}")
def test_factor_is_pints_in_ordinary_floats(row: Row, ordinary_pint: Any) -> None:
    entry = unit(row.unit, row.dimension)
    quantity = ordinary_pint.Quantity(1.0, row.pint).to_base_units()
    in_pint = float(quantity.magnitude) * float(row.scale)
    assert entry.factor + entry.offset == pytest.approx(in_pint, rel=1e-14)
    expected = {"Pa": "kg / m / s ** 2", "1": "count", "m2/m3": "1 / m"}.get(entry.base, entry.base)
    in_powers = expected.replace("m2", "m ** 2").replace("m3", "m ** 3")
    assert quantity.units == ordinary_pint.Unit(in_powers)


@pytest.fixture(scope="module")
def ordinary_pint() -> Any:
    return pint.UnitRegistry()


@pytest.mark.parametrize(
    ("value", "dimension", "unit_name", "in_unit"),
    [
        # ASTM F1869: 1 lb/1000 ft2/24 h is 4.88243 g/m2/24 h
        (read("1 lb/1000ft2/24h", Dimension.MOISTURE_EMISSION), Dimension.MOISTURE_EMISSION, "g/m2/24h", 4.88243),
        # NCHRP Synthesis 423: 10 lb/yd2 is 1.1111 lb/ft2 and 5.4249 kg/m2
        (read("10 lb/yd2", Dimension.AREAL_MASS), Dimension.AREAL_MASS, "lb/ft2", 1.11111),
        (read("10 lb/yd2", Dimension.AREAL_MASS), Dimension.AREAL_MASS, "kg/m2", 5.42492),
        # Ohio DOT supplemental specification 512 prints 2.9 m2/L for 120 ft2/gal
        (read("120 ft2/gal", Dimension.SPREADING_RATE), Dimension.SPREADING_RATE, "m2/L", 2.94509),
        # ISO 8502-4: 3 degC of spread are 5.4 degF, and not 5
        (read("3 delta_degC", Dimension.TEMPERATURE_DIFFERENCE), Dimension.TEMPERATURE_DIFFERENCE, "delta_degF", 5.4),
        # NIST SP 811, appendix B.8: 1 psi is 6.894757 kPa
        (read("1 psi", Dimension.PRESSURE), Dimension.PRESSURE, "kPa", 6.89476),
    ],
)
def test_published_conversions(value: float, dimension: Dimension, unit_name: str, in_unit: float) -> None:
    assert value / unit(unit_name, dimension).factor == pytest.approx(in_unit, rel=2e-6)


@pytest.mark.parametrize("code", ["ucum", "rec20"])
def test_no_code_stands_for_two_units(code: str) -> None:
    codes = Counter(getattr(entry, code) for entry in table() if getattr(entry, code))
    assert [repeated for repeated, count in codes.items() if count > 1] == []


def test_package_codes_deleted_from_recommendation_20_are_not_used() -> None:
    # UN/CEFACT Recommendation 20: bag, pallet, drum and box went to Recommendation 21, with an X before them
    assert not {entry.rec20 for entry in table()} & {"BG", "PL", "DR", "BX"}


def test_codes_known_from_the_lists() -> None:
    # UN/CEFACT Recommendation 20 and UCUM 2.2, table 6 and following
    known = {
        "ft2": ("[ft_i]2", "FTK"),
        "m2": ("m2", "MTK"),
        "gal": ("[gal_us]", "GLL"),
        "gal_imp": ("[gal_br]", "GLI"),
        "L": ("L", "LTR"),
        "lb": ("[lb_av]", "LBR"),
        "kg": ("kg", "KGM"),
        "degF": ("[degF]", "FAH"),
        "degC": ("Cel", "CEL"),
        "psi": ("[psi]", "PS"),
        "yr": ("a", "ANN"),
    }
    assert {entry.unit: (entry.ucum, entry.rec20) for entry in table() if entry.unit in known} == known


@pytest.mark.parametrize("dimension", Dimension)
def test_no_spelling_means_two_units_of_a_dimension(dimension: Dimension) -> None:
    owners = Counter(s for entry in units_of(dimension) for s in {fold(spelling) for spelling in entry.spellings})
    assert [spelling for spelling, count in owners.items() if count > 1] == []


@pytest.mark.parametrize("dimension", Dimension)
def test_other_case_never_makes_another_unit(dimension: Dimension) -> None:
    for entry in units_of(dimension):
        for spelling in entry.spellings:
            for dressed in (spelling.upper(), spelling.lower(), spelling.title(), spelling.swapcase()):
                assert find(dressed, dimension) in (entry, None), (dressed, entry.unit)


@pytest.mark.parametrize(
    ("spelling", "dimension"),
    [
        ("M", Dimension.LENGTH),
        ("Mm", Dimension.LENGTH),
        ("Mil", Dimension.LENGTH),
        ("mpa", Dimension.PRESSURE),
        ("mPa", Dimension.PRESSURE),
        ("ton", Dimension.MASS),
        ("T", Dimension.MASS),
        ("ML", Dimension.VOLUME),
        ("oz", Dimension.VOLUME),
        ("m", Dimension.DURATION),
        ("77", Dimension.LENGTH),
        ("E31", Dimension.SPREADING_RATE),
    ],
)
def test_what_could_mean_two_things_means_none(spelling: str, dimension: Dimension) -> None:
    assert find(spelling, dimension) is None


@pytest.mark.parametrize("entry", table(), ids=name)
def test_every_spelling_is_found_as_listed(entry: Unit) -> None:
    assert entry.unit in entry.spellings
    assert {find(spelling, entry.dimension) for spelling in entry.spellings} == {entry}


def test_every_dimension_has_its_base_unit_its_examples_and_a_kind() -> None:
    assert set(BASE_UNITS) == set(EXAMPLES) == {entry.dimension for entry in table()} == set(Dimension)
    assert {kind.dimension for kind in KINDS.values()} - {None} == set(Dimension)
    for dimension in Dimension:
        assert any((entry.factor, entry.offset) == (1.0, 0.0) for entry in units_of(dimension)) == (
            dimension not in NEVER_ONE
        )


def test_the_kinds_that_are_shown_in_a_unit_stand_beside_it() -> None:
    assert unit("in", Dimension.LENGTH).kinds_us == ("small-length",)
    assert unit("L", Dimension.VOLUME).kinds_si == ("volume", "liquid")
    for kind, (dimension, us, si) in KINDS.items():
        if dimension:
            assert kind in unit(us, dimension).kinds_us and kind in unit(si, dimension).kinds_si


@pytest.mark.parametrize(
    "text", ["9**9**9 ft", "1e9999 ft", "(1).__class__ ft", "5 fl oz", "5'6\"", "1 1/2 in", "5 furlong"]
)
def test_no_text_reaches_pint(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("Pint was asked")

    for method in ("parse_expression", "parse_units", "parse_units_as_container", "Quantity", "Unit", "__call__"):
        monkeypatch.setattr(pint.UnitRegistry, method, refuse)
    monkeypatch.setattr(pint, "UnitRegistry", refuse)
    for dimension in Dimension:
        try:
            read(text, dimension)
        except NotAMeasure:
            continue


def test_pint_is_asked_once_and_not_kept() -> None:
    script = (
        "import gc, pint; made = []; init = pint.UnitRegistry.__init__\n"
        "def count(self, *a, **k): made.append(1); init(self, *a, **k)\n"
        "pint.UnitRegistry.__init__ = count\n"
        "import gaugerake.measure.choice, gaugerake.measure.grammar\n"
        "gc.collect(); kept = sum(type(o).__name__ == 'UnitRegistry' for o in gc.get_objects())\n"
        "print(len(made), kept)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["1", "0"]


def test_the_definitions_are_pints_own_and_no_more_than_are_needed() -> None:
    folder = files("pint")
    theirs = "\n".join(folder.joinpath(name).read_text("utf-8") for name in FILES)
    found = needed_definitions([*(row.pint for row in ROWS), "kilogram"])
    assert all(line in theirs for line in found)
    assert 35 <= len(found) <= 50
    assert needed_definitions(["delta_degF"]) == needed_definitions(["degF"]) != []
    assert needed_definitions(["furlong_of_nobody", "1e3"]) == []
