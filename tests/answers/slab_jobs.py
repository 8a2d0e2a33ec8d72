"""Jobs of an invented catalogue for the tests of marks and progress: bodies whose mixes cover round areas."""

from functools import cache
from typing import Any

from flask.testing import FlaskClient
from tests.builders import client_of

from gaugerake.catalogue.store.snapshot import snapshot_of

CATALOGUE = """
catalogue: Marks (invented for tests)
invented: true
currency: USD
valid_days: 10

products:
  - code: plain-body  # at 3/16 in, 1/64 ft: 0.55 ft³ x 64 = 35.2 ft² a mix
    name: Plain body
    counted_in: mix
    yield: {low: 0.5 ft3, likely: 0.55 ft3, high: 0.6 ft3}
    mixing: {minutes: 3}
    open_time: [{at: 68 degF, low: 20 min, likely: 24 min, high: 28 min}]
    packs:
      - {sku: P-1, contents: 1 mix, unit_code: KT, weight: 60 lb, price: "50.00"}
      - {sku: P-12, contents: 12 mixes, unit_code: XPX, weight: 720 lb, price: "480.00"}
  - code: ell-body  # at 3/16 in: 0.384 ft³ x 64 = 24.576 ft² a mix
    name: Body of the L
    counted_in: mix
    yield: 0.384 ft3
    mixing: {minutes: 3}
    packs: [{sku: E-1, contents: 1 mix, unit_code: KT, weight: 60 lb, price: "50.00"}]
  - code: small-body
    name: Body of small mixes
    counted_in: mix
    yield: 0.11 ft3
    mixing: {minutes: 3}
    packs: [{sku: S-1, contents: 1 mix, unit_code: KT, weight: 60 lb, price: "50.00"}]
  - code: wide-body  # at 1/4 in, 1/48 ft: 11/24 ft³ x 48 = 22 ft² a mix
    name: Body of the hall
    counted_in: mix
    yield: {low: 0.44 ft3, likely: 0.4583333333333333 ft3, high: 0.48 ft3}
    mixing: {minutes: 3}
    open_time: [{at: 68 degF, low: 20 min, likely: 24 min, high: 28 min}]
    packs: [{sku: W-1, contents: 1 mix, unit_code: KT, weight: 60 lb, price: "50.00"}]
  - code: kits-body  # the same body, its mix in two parts
    name: Body in kits
    counted_in: mix
    yield: 0.55 ft3
    mixing: {minutes: 3}
    packs:
      - contents: 1 mix
        unit_code: KT
        parts:
          - {sku: K-A, description: Resin, unit_code: XBJ, weight: 10 lb, price: "30.00"}
          - {sku: K-B, description: Powder, unit_code: XBG, weight: 50 lb, price: "20.00"}
  - code: clear
    name: Clear coat
    counted_in: liquid
    packs: [{sku: C-5, contents: 5 L, unit_code: KT, weight: 12 lb, price: "90.00"}]

systems:
  - code: keyed
    name: Two bodies with keyways and a profile
    description: Invented for tests.
    thickness: {low: 1/8 in, usual: 1/4 in, high: 1/2 in}
    reference_temperature: 68 degF
    keyway: {offset: 12 in, ratio: 2}
    layers:
      - {layer: body, product: small-body, share: 0.5}
      - {layer: body, product: small-body, share: 0.5}
  - code: coated
    name: A coat alone
    description: Invented for tests.
    reference_temperature: 68 degF
    layers:
      - layer: coat
        product: clear
        spreading_rate: 5 m2/L
""" + "".join(
    f"""\
  - code: {code}
    name: Floor of the {code}-body
    description: Invented for tests.
    thickness: {{low: 1/8 in, usual: 3/16 in, high: 1/2 in}}
    reference_temperature: 68 degF
    layers: [{{layer: body, product: {code}-body}}]
"""
    for code in ("plain", "ell", "wide", "kits")
)
START = {"start": "2027-03-05T06:00", "zone": "America/Chicago", "temperatures": {"steady": "68 degF"}}


@cache
def client() -> FlaskClient:
    """Asks a service that has this catalogue."""
    return client_of(snapshot_of(CATALOGUE))


def job(system: str, *rooms: dict[str, Any], waste: float = 0, **said: Any) -> dict[str, Any]:
    """A job of it, as a rule without waste."""
    return {"system": system, "rooms": list(rooms), "order": {"waste_percent": waste}, **said}


def post(path: str, document: Any, *, status: int = 200) -> dict[str, Any]:
    """The answer, which has this status."""
    response = client().post(path, json=document)
    assert response.status_code == status, response.get_data(as_text=True)
    found: dict[str, Any] = response.get_json()
    return found


def feet(length: str, width: str, **said: Any) -> dict[str, Any]:
    """A rectangular room."""
    return {"shape": {"rectangle": {"length": length, "width": width}}, **said}


PATH = "/v1/pour-progress"
FROM_LEFT: dict[str, Any] = {"pour": {"from": "left"}}
HALL = job("wide", feet("150 ft", "80 ft", name="Hall", **FROM_LEFT), thickness="1/4 in")


def ask(document: dict[str, Any], *, mixes: int, placed: dict[str, Any], **said: Any) -> dict[str, Any]:
    return post(PATH, {"job": document, "progress": {"mixes": mixes, "placed": placed, **said}})
