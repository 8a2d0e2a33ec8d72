"""A catalogue of figures that are easy to follow, and how its orders are asked for."""

from typing import Any

import pytest
from tests import builders
from tests.asked import Asked, quantities

from gaugerake.answers.job.errors import Refused
from gaugerake.answers.show.reader import SI_READER
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.floor.job import Job, Measured, Order, Room

# made up for these tests, with figures that are easy to follow: 10 L to a mix, exact unless it says otherwise
CATALOGUE = """
catalogue: Test figures
invented: true
currency: {currency}
valid_days: 30
products:
  - code: body
    name: Body
    counted_in: mix
    yield: {{low: {low} L, likely: 10 L, high: {high} L}}
    mixing: {{minutes: 3}}
    hazards: [isocyanate, silica-dust]
    store: {{low: 5 degC, condition: 10 h, shelf_life: 6 mo}}
    packs:
      - {{sku: B-1, contents: 1 mix, unit_code: KT, weight: 20 kg, price: "{price}"{breaks}}}
  - code: sand
    name: Sand
    counted_in: mass
    hazards: [silica-dust]
    packs:
      - {{sku: S-20, contents: 20 kg, unit_code: XBG, weight: 20 kg}}
  - code: tint
    name: Tint
    counted_in: piece
    packs:
      - {{sku: T-GREY, colour: grey, contents: 1 piece, unit_code: EA, price: "3"}}
      - {{sku: T-RED, colour: red, contents: 1 piece, unit_code: EA, price: "3"}}
  - code: flake
    name: Flake
    counted_in: piece
    packs:
      - {{sku: F-RED, colour: {flake}, contents: 1 piece, unit_code: EA, price: "1"}}
      - {{sku: F-BLUE, colour: blue, contents: 1 piece, unit_code: EA, price: "1"}}
systems:
  - code: floor
    name: Floor
    thickness: {{low: 4 mm, usual: 5 mm, high: 9 mm}}
    thickness_sd_percent: {sd}
    reference_temperature: 20 degC
    layers:
      - {{layer: body, product: body, broadcast_wait: [{{at: 20 degC, low: 5 min, high: 9 min}}]}}
      - layer: broadcast
        product: sand
        rate: {{low: 4 kg/m2, likely: 4 kg/m2, high: 4 kg/m2}}
        cure: [{{at: 20 degC, likely: 9 h}}]
      - {{layer: sundry, product: tint, per: {{product: body, count: 1}}}}
      - {{layer: sundry, id: flake, product: flake, covers: 50 m2, optional: true}}
    returns: [{{traffic: foot, after: [{{at: 20 degC, likely: 9 h}}]}}]
"""
USD: dict[str, Any] = {
    "currency": "USD",
    "low": 10,
    "high": 10,
    "sd": 0,
    "price": "90.00",
    "breaks": "",
    "flake": "red",
}
ROOM = Room(shape=Measured(area_m2=40.0), joints=())  # 200 L: 20 mixes; with 5 % waste 21. 168 kg of sand: 9 bags.


def context(*, catalogue: dict[str, Any] | None = None, room: Room = ROOM, working: bool = False, **said: Any) -> Asked:
    snapshot = snapshot_of(CATALOGUE.format(**{**USD, **(catalogue or {})}))
    job = Job(system="floor", rooms=(room,), order=Order(**said))
    return builders.context(job, snapshot, working=working)


def answer(**said: Any) -> Any:
    made = context(**said)
    shown = render(quantities(made), SI_READER)
    notes = (*made.record.cautions, *made.record.assumptions)
    return {**shown, "notes": {note["code"]: note for note in render(notes, SI_READER)}}


def packs(shown: Any) -> dict[str, int]:
    return {line["sku"]: line["packs"] for line in shown["order_lines"]}


def refusal(**said: Any) -> Any:
    with pytest.raises(Refused) as refused:
        quantities(context(**said))
    return [(fault.pointer, fault.error) for fault in refused.value.faults]
