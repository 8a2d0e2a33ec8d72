"""A large catalogue for the benches: invented, of as many products and systems as are asked for."""

import json
from collections.abc import Iterator

HEAD = """\
catalogue: Many floors (invented)
invented: true
currency: USD
valid_days: 30
"""
MIX = """\
  - code: mix-{n}
    name: Mix {n}
    counted_in: mix
    yield: {{low: 0.5{d} ft3, likely: 0.6{d} ft3, high: 0.7{d} ft3}}
    mixing: {{minutes: 3, note: "Resin first, then the powder."}}
    pour_within: 1.5 min
    open_time:
      - {{at: 50 degF, low: 22.{d} min, likely: 28.{d} min, high: 34.{d} min}}
      - {{at: 68 degF, low: 15 min, likely: 18 min, high: 21 min}}
    temperatures: {{low: 48 degF, high: 86 degF}}
    hazards: [wet-cement]
    packs:
      - sku: M-{n}
        contents: 1 mix
        unit_code: KT
        weight: 6{d} lb
        price: "1{d}5.00"
        breaks: [{{from: 12, price: "90.00"}}]
"""
LIQUID = """\
  - code: liquid-{n}
    name: Liquid {n}
    counted_in: liquid
    volume_solids_percent: 94
    wet_film: {{low: 4.5 mil, high: 13 mil}}
    pot_life:
      - {{at: 55 degF, low: 31.{d} min, high: 43.{d} min}}
    temperatures: {{low: 52 degF, high: 88 degF}}
    packs:
      - {{sku: L-{n}-1, contents: 1.5 gal, unit_code: KT, weight: 14.5 lb, price: "1{d}0.00"}}
      - {{sku: L-{n}-5, contents: 7.5 gal, unit_code: KT, weight: 71 lb, price: "4{d}0.00"}}
"""
SAND = """\
  - code: sand-{n}
    name: Sand {n}
    counted_in: mass
    hazards: [silica-dust]
    packs:
      - {{sku: S-{n}, contents: 55 lb, unit_code: XBG, weight: 55 lb, price: "1{d}.50"}}
"""
KINDS = (MIX, MIX, LIQUID, LIQUID, SAND)
SYSTEM = """\
  - code: floor-{n}
    name: Floor {n}
    description: A floor of the bench, number {n}, invented.
    thickness: {{low: 3/16 in, usual: 7/32 in, high: 5/16 in}}
    reference_temperature: 68 degF
    keyway: {{offset: 5 in, ratio: 1.75}}
    profile_allowance: {{4: 13 mil, 5: 19 mil, 6: 27 mil}}
    slab_limits: {{age: 10 d, compressive_strength: 3100 psi, pull_off: 220 psi, relative_humidity: 92}}
    air_limits: {{temperature: {{low: 50 degF, high: 88 degF}}, humidity: 82, dew_point_spread: 6 delta_degF}}
    layers:
      - {{layer: repair, product: mix-{second}, cure: {cure}}}
      - {{layer: body, product: mix-{first}, broadcast_wait: [{{at: 68 degF, low: 8 min, high: 12 min}}]}}
      - layer: broadcast
        product: sand-{fifth}
        rate: {{low: 0.78 lb/ft2, likely: 0.92 lb/ft2, high: 1.1 lb/ft2}}
        retained: 0.56 lb/ft2
        cure: {cure}
      - {{layer: coat, product: liquid-{third}, spreading_rate: {rate}, cure: {cure}}}
      - {{layer: coat, product: liquid-{fourth}, spreading_rate: {rate}, cure: {cure}}}
    returns:
      - {{traffic: foot, after: {cure}}}
      - {{traffic: carts, after: {later}}}
"""


def catalogue(products: int = 300, systems: int = 60) -> str:
    """Its text; five products make a system."""
    assert products >= 5 * systems
    return HEAD + "products:\n" + "".join(_products(products)) + "systems:\n" + "".join(_systems(systems))


def _products(count: int) -> Iterator[str]:
    for n in range(count):
        yield KINDS[n % len(KINDS)].format(n=n, d=n % 9)


def _systems(count: int) -> Iterator[str]:
    for n in range(count):
        places = dict(zip(("first", "second", "third", "fourth", "fifth"), range(5 * n, 5 * n + 5), strict=True))
        rate = f"{{low: {130 + n} ft2/gal, likely: {150 + n} ft2/gal, high: {170 + n} ft2/gal}}"
        yield SYSTEM.format(n=n, cure=_times(12, n), later=_times(40, n), rate=rate, **places)


def _times(hours: int, n: int) -> str:
    """A table of two temperatures, a little different in each system."""
    rows = [{"at": "50 degF", "low": 2 * hours - 3, "likely": 2 * hours, "high": 2 * hours + 4 + n / 100}]
    rows.append({"at": "68 degF", "low": hours - 2, "likely": hours - 1, "high": hours + n / 100})
    written = [{key: value if key == "at" else f"{value} h" for key, value in row.items()} for row in rows]
    return json.dumps(written).replace('"', "")
