"""What a sound file becomes: values in SI, names as written, prices as decimals."""

import ast
import math
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

import gaugerake.catalogue
from gaugerake.catalogue.file.examples import EXAMPLES
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.demo import demo_catalogue, demo_text
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.kinds import KINDS
from gaugerake.floor.layers.sundry import SundryBasis, SundryLayer
from gaugerake.floor.product import Break, Hazard, Price
from gaugerake.floor.values.range import Limits

FOOT, INCH, GALLON, POUND = 0.3048, 0.0254, 231 * 0.0254**3, 0.45359237  # exact (international foot and pound)


def test_the_head_is_as_written(small: str) -> None:
    catalogue = load_text(small).catalogue
    assert (catalogue.title, catalogue.invented, catalogue.currency, catalogue.valid_days) == (
        "Probe Floors",
        True,
        "USD",
        20,
    )


def test_measures_become_si(small: str) -> None:
    catalogue = load_text(small).catalogue
    body, clear, sand = (catalogue.products[code] for code in ("body", "clear", "sand"))
    assert body.yield_m3 is not None
    assert body.yield_m3.likely == pytest.approx(0.31 * FOOT**3, rel=1e-11)
    assert body.mixing_s == 120
    assert body.temperature_k.low == pytest.approx((51 - 32) / 1.8 + 273.15, rel=1e-11)
    assert [pack.contents for pack in clear.packs] == pytest.approx([2 * GALLON, 8 * GALLON], rel=1e-11)
    assert clear.wet_film_m.high == pytest.approx(12 * INCH / 1000, rel=1e-11)
    assert clear.volume_solids_fraction == 0.9
    assert sand.packs[0].contents == pytest.approx(40 * POUND, rel=1e-11)
    assert body.hazards == (Hazard.WET_CEMENT,)


def test_a_yield_may_be_an_area_at_a_thickness_as_data_sheets_write_it(spoiled: Callable[..., str]) -> None:
    """40 ft2 at 1/8 in are 40/96 ft3, 45 ft2 are 45/96 ft3; a volume may stand beside them."""
    by_area = "{low: {area: 40 ft2, at: 1/8 in}, likely: 0.44 ft3, high: {area: 45 ft2, at: 1/8 in}}"
    made = load_text(spoiled(("{low: 0.30 ft3, likely: 0.31 ft3, high: 0.32 ft3}", by_area))).catalogue
    found = made.products["body"].yield_m3
    assert found is not None
    feet = [value / FOOT**3 for value in (found.low, found.likely, found.high)]
    assert feet == pytest.approx([0.4166667, 0.44, 0.46875], rel=1e-6)


def test_one_area_at_a_thickness_stands_for_the_whole_range(spoiled: Callable[..., str]) -> None:
    one = spoiled(("{low: 0.30 ft3, likely: 0.31 ft3, high: 0.32 ft3}", "{area: 2 m2, at: 5 mm}"))
    found = load_text(one).catalogue.products["body"].yield_m3
    assert found is not None
    assert found.exact
    assert found.likely == pytest.approx(0.01, rel=1e-11)


def test_an_empty_list_of_hazards_says_that_there_are_none(spoiled: Callable[..., str]) -> None:
    loaded = load_text(spoiled(("hazards: [wet-cement]", "hazards: []")))
    assert loaded.catalogue.products["body"].hazards == ()
    assert loaded.cautions == ()


def test_layers_keep_their_order_and_are_numbered_where_a_kind_repeats(small: str) -> None:
    layers = load_text(small).catalogue.systems["probe"].layers
    assert [layer.id for layer in layers] == ["cove", "body", "broadcast", "coat-1", "coat-2", "joint", "sundry"]
    cove, body, broadcast, coat, second = layers[:5]
    assert isinstance(cove, CoveLayer)
    assert (cove.thickness_m, cove.radius_m) == (0.005, 0.02)
    assert isinstance(body, BodyLayer)
    assert body.share_fraction == 1
    assert isinstance(broadcast, BroadcastLayer)
    assert broadcast.rate_kg_m2.high == pytest.approx(0.8 * POUND / FOOT**2, rel=1e-11)
    assert isinstance(coat, CoatLayer)
    assert coat.spreading_rate_m2_m3.low == pytest.approx(140 * FOOT**2 / GALLON, rel=1e-11)
    assert isinstance(second, CoatLayer)
    assert second.spreading_rate_m2_m3.exact


def test_a_name_given_to_a_layer_is_its_own_and_else_its_products(spoiled: Callable[..., str]) -> None:
    layers = (
        load_text(spoiled(("- layer: coat", "- name: Grout\n        layer: coat"))).catalogue.systems["probe"].layers
    )
    assert [layers[3].name, layers[4].name] == ["Grout", "Clear"]


def test_a_missing_likely_time_is_the_geometric_mean(small: str) -> None:
    coat = load_text(small).catalogue.systems["probe"].layers[3]
    assert coat.cure is not None
    assert [point.likely_s / 3600 for point in coat.cure.points] == [12, 6]
    assert [point.temperature_k for point in coat.cure.points] == sorted(
        point.temperature_k for point in coat.cure.points
    )


def test_a_time_that_is_said_once_holds_for_all_columns(small: str) -> None:
    (point,) = load_text(small).catalogue.systems["probe"].returns[0].after.points
    assert (point.low_s, point.likely_s, point.high_s) == (11 * 3600,) * 3


def test_rows_may_stand_in_any_order(spoiled: Callable[..., str]) -> None:
    rows = ("{at: 60 degF, low: 16 min, high: 20 min}", "{at: 80 degF, low: 9 min, high: 12 min}")
    turned = spoiled((rows[0], "first"), (rows[1], rows[0]), ("first", rows[1]))
    assert load_text(turned).catalogue.products["body"].open_time is not None


def test_prices_are_decimals_with_the_currencys_own_places(spoiled: Callable[..., str]) -> None:
    book = load_text(spoiled(('"70.00"', "70"))).list_book
    assert (book.code, book.currency) == ("list", "USD")
    assert book.prices["BD-1"] == Price(
        price=Decimal("70.00"),
        breaks=(Break(from_count=10, price=Decimal("66.00")), Break(from_count=30, price=Decimal("61.50"))),
    )
    assert str(book.prices["BD-1"].price) == "70.00"


def test_a_highest_humidity_stands_alone(small: str) -> None:
    assert load_text(small).catalogue.systems["probe"].air_limits.humidity_percent == Limits(high=80)


def test_a_sundry_is_counted_by_mixes_or_by_what_it_covers(spoiled: Callable[..., str]) -> None:
    by_mix = load_text(spoiled()).catalogue.systems["probe"].layers[-1]
    assert isinstance(by_mix, SundryLayer)
    assert (by_mix.basis, by_mix.per_product, by_mix.count) == (SundryBasis.PRODUCT, "body", 1)
    by_wall = load_text(spoiled(("per: {product: body, count: 1}", "of: walls, covers: 90 ft"))).catalogue
    layer = by_wall.systems["probe"].layers[-1]
    assert isinstance(layer, SundryLayer)
    assert layer.covers == pytest.approx(90 * FOOT, rel=1e-11)


def test_names_may_be_in_any_script(metric: str) -> None:
    catalogue = load_text(metric).catalogue
    assert catalogue.products["pohjuste"].name == "Epoksipohjuste, läpinäkyvä"
    assert [pack.colour for pack in catalogue.products["pinnoite"].packs] == ["harmaa", "vihreä"]


def test_a_catalogue_may_lack_body_keyway_returns_and_prices(metric: str) -> None:
    loaded = load_text(metric)
    bare, mortar = loaded.catalogue.systems.values()
    assert bare.thickness is None
    assert bare.keyway is None
    assert mortar.returns == ()
    assert not {"PI-10-H", "PI-10-V"} & loaded.list_book.prices.keys()
    assert loaded.catalogue.products["pohjuste"].smallest_batch == 0.0025


CAUTIONS = {
    "returns out of order": ("likely: 27 h", "likely: 6 h", "sooner than one before it"),
    "dearer in number": ('"66.00"', '"76.00"', "cost more each"),
    "a rougher profile takes less": ("5: 0.5 mm}", "5: 0.2 mm}", "a rougher profile takes less"),
    "an idle product": ("systems:\n", "  - {code: idle, %s}\nsystems:\n", 'no system uses the product "idle"'),
    "no returns": ("    returns:\n", "", "nobody can be told"),
    "too cold to work": (
        "reference_temperature: 70 degF",
        "reference_temperature: 50 degF",
        "at which body can be worked",
    ),
    "too warm to work": (
        "reference_temperature: 70 degF",
        "reference_temperature: 85 degF",
        "at which body can be worked",
    ),
}
IDLE = "name: Idle, counted_in: piece, packs: [{sku: ID, contents: 1 piece, unit_code: EA}]"
RETURNS = (
    "      - {traffic: foot, after: [{at: 70 degF, likely: 11 h}]}\n",
    "      - {traffic: carts, after: [{at: 70 degF, likely: 27 h}]}\n",
)


@pytest.mark.parametrize("name", CAUTIONS)
def test_a_likely_slip_is_a_caution_and_does_not_refuse(name: str, spoiled: Callable[..., str]) -> None:
    old, new, words = CAUTIONS[name]
    changes = [(old, new.replace("%s", IDLE))]
    if name == "no returns":
        changes += [(line, "") for line in RETURNS]
    (caution,) = load_text(spoiled(*changes)).cautions
    assert words in caution.text


def test_colours_that_differ_within_a_system_are_a_caution(spoiled: Callable[..., str]) -> None:
    text = spoiled(("{sku: SD-40,", "{sku: SD-40, colour: red,"))
    (caution,) = load_text(text).cautions
    assert caution.text.endswith("do not come in the same colours: blue")


def test_a_missing_cure_is_a_caution_naming_what_follows(spoiled: Callable[..., str]) -> None:
    (caution,) = load_text(spoiled(("        cure: [{at: 70 degF, likely: 7 h}]\n", ""))).cautions
    assert caution.text == "no cure: the body after this cove may go on at once. Is that meant?"


def required_keys() -> set[str]:
    """Every key that some reader of the room asks for, from the code itself."""
    found: set[str] = set()
    for path in Path(gaugerake.catalogue.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            asks = isinstance(node, ast.keyword) and node.arg == "required"
            names = isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) in ("_REQUIRED", "_PACK", "_SPREAD")
            if asks or names:
                found |= {part.value for part in ast.walk(node.value) if isinstance(part, ast.Constant)}
    return found


def test_every_key_that_can_be_missing_has_an_example() -> None:
    asked = required_keys() - {"layer"}  # a layer without it is told all kinds
    assert asked <= EXAMPLES.keys()
    of_kinds = {key.name: key.example for kind in KINDS.values() for key in kind.keys if key.required}
    assert all(example.startswith(key) for key, example in (EXAMPLES | of_kinds).items())


def numbers(value: Any) -> list[float]:
    """Every float within a value."""
    if isinstance(value, float):
        return [value]
    if is_dataclass(value):
        return [number for field in fields(value) for number in numbers(getattr(value, field.name))]
    if isinstance(value, dict):
        return [number for item in value.values() for number in numbers(item)]
    return [number for item in value for number in numbers(item)] if isinstance(value, tuple) else []


@pytest.mark.parametrize("name", ["small", "metric", "demo"])
def test_no_figure_of_a_sound_catalogue_is_left_unread(name: str, request: pytest.FixtureRequest) -> None:
    text = demo_text() if name == "demo" else request.getfixturevalue(name)
    found = numbers(load_text(text).catalogue)
    assert len(found) > 50
    assert all(math.isfinite(number) for number in found)


def test_the_demonstration_says_that_it_is_invented_and_needs_no_cautions() -> None:
    loaded = load_text(demo_text())
    assert loaded.catalogue.invented
    assert "invented" in loaded.catalogue.title
    assert loaded.cautions == ()
    assert len(loaded.catalogue.systems) == 3


def test_the_demonstrations_coats_leave_films_within_their_products_limits() -> None:
    for system in demo_catalogue().systems.values():
        for layer in system.layers:
            if isinstance(layer, CoatLayer) and layer.product.wet_film_m.high is not None:
                film = 1 / layer.spreading_rate_m2_m3.likely
                assert (layer.product.wet_film_m.low or 0) <= film <= layer.product.wet_film_m.high, layer.id
