"""A bakery at 45 °F with a logger's file, worked by hand: the pour, the wait for warmth, the cure, and the day sheets.

The catalogue and its figures are invented. 30 ft by 16 ft are 480 ft2. A mix of 0.5 ft3 covers 0.5 / (1/48) = 24 ft2 at
1/4 in: 20 mixes, one every 5 min (placing 24 ft2 at 600 ft2/h takes 2.4 min). Two prepare, three pour (one to mix, one
to place, one to roll), two coat at 1,000 ft2/h: common practice, no source.

The logger: 45 °F until Tuesday 08:00, when the heaters go on, 65 °F from 09:00 on, straight between.

Monday   07:00 to 09:00 the slab is prepared, as the job says; 09:00 to 10:40 the pour, 20 x 5 min = 100 min.
         It has cured after 12 h at 45 °F: at 22:40.
Tuesday  The coat must not go on under 50 °F: 45 + 20 x = 50 where x = 0.25 h, so at 08:15. 480 / 1,000 h = 28 min 48 s:
         until 08:43:48.

Foot traffic returns when the maturity of the coat is 1 (ASTM C1074): the sum of dt / t(T) with 24 h at 45 °F and 10 h
at 65 °F, between them ln t straight in 1/T. ln 24 = 3.178054, ln 10 = 2.302585, their difference 0.875469.

    °F      K          1/T           share of the way   ln t        t, h      1/t
    45      280.3722   0.003566687   0                  3.178054    24        0.041667
    59.6    288.4833   0.003466404   0.73758            2.532326    12.5828   0.079474
    62.3    289.9833   0.003448474   0.86946            2.416870    11.2107   0.089201
    65      291.4833   0.003430727   1                  2.302585    10        0.1

At 08:43:48 the floor has 45 + 20 x 0.73 = 59.6 °F; halfway to 09:00 it has 62.3 °F. By Simpson's rule the 0.27 h until
09:00 give 0.27 / 6 x (0.079474 + 4 x 0.089201 + 0.1) = 0.045 x 0.536278 = 0.024133. The rest, 0.975867, takes 9.75867 h
at 65 °F: 9 h 45 min 31 s, so 18:45:31, and to the minute up 18:46.
"""

import csv
import io
import re
from datetime import datetime
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import client_of

from gaugerake.catalogue.store.first_start import ensure_ready

CATALOGUE = """
catalogue: Floors for cold rooms (invented)
invented: true
currency: USD
valid_days: 30
products:
  - code: mortar
    name: Cold-room body
    counted_in: mix
    yield: 0.5 ft3
    mixing: {minutes: 3}
    temperatures: {low: 40 degF}
    store: {condition: 24 h}
    hazards: []
    packs: [{sku: CB-1, contents: 1 mix, unit_code: KT, weight: 60 lb, price: "100.00"}]
  - code: clear
    name: Clear coat
    counted_in: liquid
    temperatures: {low: 50 degF}
    hazards: []
    packs: [{sku: CL-1, contents: 1 gal, unit_code: KT, weight: 10 lb, price: "80.00"}]
systems:
  - code: cold-room
    name: Cold-room floor
    reference_temperature: 65 degF
    thickness: {low: 3/16 in, usual: 1/4 in, high: 3/8 in}
    thickness_sd_percent: 0
    air_limits: {dew_point_spread: 5 delta_degF}
    layers:
      - {layer: body, product: mortar, cure: [{at: 45 degF, likely: 12 h}, {at: 65 degF, likely: 5 h}]}
      - {layer: coat, product: clear, spreading_rate: 160 ft2/gal}
    returns: [{traffic: foot, after: [{at: 45 degF, likely: 24 h}, {at: 65 degF, likely: 10 h}]}]
"""
LOGGER = """"Plot title: proofing room, floor"
#,Date Time,"Temp, °F",RH %
1,01/10/2027 06:00:00 AM,45.0,71
2,01/11/2027 06:00:00 AM,45.0,70
3,01/12/2027 08:00:00 AM,45.0,70
4,01/12/2027 09:00:00 AM,65.0,42
5,01/13/2027 09:00:00 AM,65.0,40
"""


def readings() -> list[dict[str, str]]:
    """The logger's file as the job takes it."""
    _, _, *rows = csv.reader(io.StringIO(LOGGER))
    return [
        {"at": datetime.strptime(at, "%m/%d/%Y %I:%M:%S %p").isoformat(), "temperature": f"{temperature} degF"}  # noqa: DTZ007
        for _, at, temperature, _ in rows
    ]


JOB: dict[str, Any] = {
    "system": "cold-room",
    "rooms": [{"name": "Proofing", "shape": {"rectangle": {"length": "30 ft", "width": "16 ft"}}, "joints": []}],
    "work": {
        "start": "2027-01-11T07:00",
        "zone": "America/Chicago",
        "temperatures": {"readings": readings()},
        "shifts": [{"days": ["mon", "tue", "wed"], "from": "07:00", "to": "15:30"}],
        "preparation": "2 h",
        "crew": {"minutes_per_mix": 5, "placing_rate": "600 ft2/h", "coating_rate": "1000 ft2/h"},
        "reopen_by": "2027-01-12T17:00",
        "traffic": "foot",
    },
    "order": {"waste_percent": 0},
}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> FlaskClient:
    """A service of this catalogue, kept in a database and read from it."""
    store = ensure_ready(f"sqlite:///{tmp_path_factory.mktemp('cold') / 'kept.sqlite3'}")
    store.load(CATALOGUE)
    return client_of(store.snapshot(store.state()))


def asked(client: FlaskClient, path: str) -> dict[str, Any]:
    response = client.post(path, json=JOB)
    assert response.status_code == 200, response.get_json()
    found: dict[str, Any] = response.get_json()
    return found


def test_the_coat_waits_until_the_heaters_have_warmed_the_floor(client: FlaskClient) -> None:
    prepare, body, coat = asked(client, "/v1/return-times")["steps"]
    assert [(one["from"][:19], one["until"][:19]) for one in (prepare, body, coat)] == [
        ("2027-01-11T07:00:00", "2027-01-11T09:00:00"),
        ("2027-01-11T09:00:00", "2027-01-11T10:40:00"),
        ("2027-01-12T08:15:00", "2027-01-12T08:43:48"),
    ]
    assert body["cured"] == "2027-01-11T22:40:00-06:00"
    assert [wait["cause"] for wait in coat["waits_for"]] == ["cure", "shift", "temperature"]


def test_foot_traffic_returns_by_the_maturity_of_the_coat(client: FlaskClient) -> None:
    times = asked(client, "/v1/return-times")
    (foot,) = times["returns"]
    assert {foot[run] for run in ("earliest", "likely", "latest")} == {"2027-01-12T18:46:00-06:00"}
    assert times["deadline"]["met"] is False
    assert times["deadline"]["slack"] == {"value": pytest.approx(-1 - 46 / 60, abs=1e-4), "unit": "h"}


def test_the_labour_is_that_of_three_steps(client: FlaskClient) -> None:
    """2 x 2 h + 3 x 100 min + 2 x 28.8 min = 4 + 5 + 0.96 h."""
    assert asked(client, "/v1/return-times")["labour"]["person_hours"] == {"value": 9.96, "unit": "h"}


def test_the_crew_gets_two_sheets(client: FlaskClient) -> None:
    """20 mixes; 480 / 160 = 3 gal. The body is mixed on Monday at 09:00, so it is in by Sunday 09:00."""
    monday, tuesday = asked(client, "/v1/day-sheets")["days"]
    assert (monday["date"], tuesday["date"]) == ("2027-01-11", "2027-01-12")
    assert [day["person_hours"]["value"] for day in (monday, tuesday)] == [9.0, 0.96]
    assert [[(one["sku"], one["packs"]) for one in day["bring"]] for day in (monday, tuesday)] == [
        [("CB-1", 20)],
        [("CL-1", 3)],
    ]
    assert [(one["sku"], one["by"]) for one in monday["condition"]] == [("CB-1", "2027-01-10T09:00:00-06:00")]
    assert tuesday["condition"] == []


def test_paper_tells_what_is_paid_in_hours_and_minutes(client: FlaskClient) -> None:
    """9 h on Monday; on Tuesday 2 x 28.8 min are 57.6, no less than which are paid."""
    printed = client.post("/v1/day-sheets", json=JOB, headers={"Accept": "text/html"}).text
    assert re.findall("Paid: (.+?)[.]", printed) == ["9 h", "58 min"]


def test_beside_each_reading_stands_the_floor_of_the_log(client: FlaskClient) -> None:
    """Tuesday 08:15 is 50 °F; 08:43 is 45 + 20 x 43 / 60 = 59.3333 °F."""
    sheet = asked(client, "/v1/day-sheets")
    found = [(one["at"][5:16], one["planned_floor"]["value"]) for day in sheet["days"] for one in day["readings"]]
    assert found == [
        ("01-11T07:00", 45.0),
        ("01-11T09:00", 45.0),
        ("01-11T10:40", 45.0),
        ("01-12T08:15", 50.0),
        ("01-12T08:43", 59.3333),
    ]
    assert sheet["least_spread"] == {"value": 5.0, "unit": "delta_degF"}
