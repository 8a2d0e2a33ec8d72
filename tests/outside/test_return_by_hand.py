"""A week of a floor at 72 °F, worked out with a pencil.

The times of the trade in it, all at 72 °F, are common practice, no source: liquids mixed about 30 s and the powder
about a minute more; aggregate 12 to 15 min after placing; repair dries 8 to 10 h; a body with its broadcast about 24 h;
a coat may be recoated in 3 to 5 h; people on foot after 8 h, normal traffic after 24, vehicles after 72. Room, crew,
packs and prices are made up for the sum.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from math import sqrt
from typing import Any

import pytest
from tests.builders import client_of, rectangle

from gaugerake.catalogue.store.snapshot import snapshot_of

CATALOGUE = """
catalogue: A sum with a pencil
invented: true
currency: USD
valid_days: 20
products:
  - code: body
    name: Body
    counted_in: mix
    yield: {low: 0.375 ft3, likely: 0.375 ft3, high: 0.375 ft3}
    mixing: {minutes: 1.5}
    open_time: [{at: 72 degF, low: 14 min, high: 18 min}]
    packs: [{sku: B-1, contents: 1 mix, unit_code: KT, price: "70.00"}]
  - code: clear
    name: Clear
    counted_in: liquid
    packs: [{sku: C-2, contents: 2 gal, unit_code: KT, price: "99.00"}]
  - code: sand
    name: Sand
    counted_in: mass
    packs: [{sku: S-40, contents: 40 lb, unit_code: XBG, price: "11.00"}]
systems:
  - code: levelled
    name: Levelled floor
    thickness: {low: 1/8 in, usual: 3/16 in, high: 3/8 in}
    reference_temperature: 72 degF
    layers:
      - {layer: repair, product: body, cure: [{at: 72 degF, low: 8 h, high: 10 h}]}
      - {layer: body, product: body, broadcast_wait: [{at: 72 degF, low: 12 min, high: 15 min}]}
      - layer: broadcast
        product: sand
        rate: {low: 0.6 lb/ft2, likely: 0.7 lb/ft2, high: 0.8 lb/ft2}
        retained: 0.5 lb/ft2
        cure: [{at: 72 degF, likely: 24 h}]
      - {layer: coat, product: clear, spreading_rate: 150 ft2/gal, cure: [{at: 72 degF, low: 3 h, high: 5 h}]}
      - {layer: coat, product: clear, spreading_rate: 260 ft2/gal, cure: [{at: 72 degF, low: 3 h, high: 5 h}]}
    returns:
      - {traffic: foot, after: [{at: 72 degF, likely: 8 h}]}
      - {traffic: normal, after: [{at: 72 degF, likely: 24 h}]}
      - {traffic: vehicle, after: [{at: 72 degF, likely: 72 h}]}
"""
JOB: dict[str, Any] = {
    "system": "levelled",
    "rooms": [rectangle("40 ft", "30 ft", name="Bakery", joints=[], spalls=[{"area": "9 ft2", "depth": "1/2 in"}])],
    "work": {
        "start": "2027-03-01T06:00",
        "zone": "America/Chicago",
        "temperatures": {"steady": "72 degF"},
        "round_the_clock": True,
        "crew": {
            "mixing_stations": 1,
            "minutes_per_mix": 4,
            "placing_rate": "600 ft2/h",
            "coating_rate": "1000 ft2/h",
            "clearing_rate": "2000 ft2/h",
        },
    },
    "order": {"waste_percent": 0},
}
START = datetime.fromisoformat("2027-03-01T06:00:00-06:00")
PREPARE, REPAIR, BODY, SAND, CLEAR, COAT = 240, 27, 50 * 4, 15, 36, 72
"""Minutes: 1,200 ft² prepared at 300 ft²/h; 9 ft² patched at 20 ft²/h (the mix takes but 4 min);
1,200 ft² at 3/16 in are fifty mixes, 4 min each; the last sand 15 min after the last of them;
 1,200 ft² cleared at 2,000 ft²/h, coated at 1,000."""
COLUMNS = {"earliest": (8.0, 3.0), "likely": (sqrt(80), sqrt(15)), "latest": (10.0, 5.0)}
"""Hours that the repair and a coat take: the likely ones are the geometric means."""


@pytest.fixture(scope="module")
def answer() -> Any:
    response = client_of(snapshot_of(CATALOGUE)).post("/v1/return-times", json=JOB)
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.get_json()


def work_ends(column: str) -> datetime:
    """When the second coat is down."""
    repair_h, coat_h = COLUMNS[column]
    worked = timedelta(minutes=PREPARE + REPAIR + BODY + SAND + CLEAR + COAT + COAT)
    return START + worked + timedelta(hours=repair_h + 24 + coat_h)


@pytest.mark.parametrize(("traffic", "hours"), [("foot", 8), ("normal", 24), ("vehicle", 72)])
@pytest.mark.parametrize("column", COLUMNS)
def test_traffic_returns_so_long_after_the_last_coat(answer: Any, column: str, traffic: str, hours: int) -> None:
    back = next(one for one in answer["returns"] if one["traffic"] == traffic)
    early = datetime.fromisoformat(back[column]) - (work_ends(column) + timedelta(hours=hours))
    assert timedelta(0) <= early < timedelta(minutes=1)  # rounded up to the minute


def test_the_likely_week_reads_like_this(answer: Any) -> None:
    """Repair on Monday at ten, dry 8 h 56 min 39 s after 10:27; the body by night; coats in the two nights after."""
    rows = [(one["step"], one["layer"], one["from"][8:19], one["until"][8:19]) for one in answer["steps"]]
    assert rows == [
        ("prepare", None, "01T06:00:00", "01T10:00:00"),
        ("apply", "repair", "01T10:00:00", "01T10:27:00"),
        ("apply", "body", "01T19:23:39", "01T22:43:39"),
        ("apply", "broadcast", "01T19:35:39", "01T22:58:39"),
        ("clear", "broadcast", "02T22:58:39", "02T23:34:39"),
        ("apply", "coat-1", "02T23:34:39", "03T00:46:39"),
        ("apply", "coat-2", "03T04:39:02", "03T05:51:02"),
    ]
