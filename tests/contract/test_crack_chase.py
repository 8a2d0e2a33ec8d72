"""Cracks that a system requires to be opened to at least 1/4 x 1/4 in (common practice, no source), worked by hand.

The catalogue is invented. A mix of the repair makes 0.05 ft3.

    crack     100 ft, 1/8 x 1/2 in   opened to 1/4 x 1/2    100 x 0.125    / 144 = 0.0868056 ft3
    crack      60 ft, 3/8 x 1/8 in   opened to 3/8 x 1/4     60 x 0.09375  / 144 = 0.0390625 ft3
    crack      48 ft, 1/2 x 1/2 in   as it is                48 x 0.25     / 144 = 0.0833333 ft3
    joint      30 ft, 1/8 x 1/8 in   filled as it is sawn    30 x 0.015625 / 144 = 0.0032552 ft3
    spall       2 ft2, 1/2 in                                 2 / 24             = 0.0833333 ft3

Together 0.2957899 ft3, with 5 % waste 0.3105794 ft3: 6.21 mixes, so 7. As stated, the first two would take 0.0434028
and 0.0195313 ft3: together 0.2328559, with waste 0.2444987 ft3, 4.89 mixes, so 5.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import client_of
from tests.outside.test_takeoff_working import RULES, si

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.snapshot import snapshot_of

FT3 = 0.3048**3
CHASE = "    crack_chase: {width: 1/4 in, depth: 1/4 in}\n"
CATALOGUE = f"""
catalogue: Repairs (invented)
invented: true
currency: USD
valid_days: 30
products:
  - code: filler
    name: Filler
    counted_in: mix
    yield: 0.05 ft3
    packs: [{{sku: FL-1, contents: 1 mix, unit_code: KT, price: "30.00"}}]
  - code: clear
    name: Clear
    counted_in: liquid
    packs: [{{sku: CL-1, contents: 1 gal, unit_code: GLL, price: "80.00"}}]
systems:
  - code: filled
    name: Filled and sealed
    reference_temperature: 70 degF
{CHASE}    layers:
      - {{layer: repair, product: filler, cure: [{{at: 70 degF, likely: 2 h}}]}}
      - {{layer: coat, product: clear, spreading_rate: 250 ft2/gal, cure: [{{at: 70 degF, likely: 8 h}}]}}
    returns: [{{traffic: foot, after: [{{at: 70 degF, likely: 12 h}}]}}]
"""
CRACKS = [
    {"length": "100 ft", "width": "1/8 in", "depth": "1/2 in"},
    {"length": "60 ft", "width": "3/8 in", "depth": "1/8 in"},
    {"length": "48 ft", "width": "1/2 in", "depth": "1/2 in"},
]
JOINT = {"length": "30 ft", "kind": "contraction", "width": "1/8 in", "depth": "1/8 in"}


def asked(text: str, **room: Any) -> dict[str, Any]:
    client: FlaskClient = client_of(snapshot_of(text))
    whole = {
        "shape": {"measured": {"area": "600 ft2", "perimeter": "100 ft"}},
        "cracks": CRACKS,
        "joints": [JOINT],
        "spalls": [{"area": "2 ft2", "depth": "1/2 in"}],
        **room,
    }
    response = client.post("/v1/quantities?working=true&units=si", json={"system": "filled", "rooms": [whole]})
    assert response.status_code == 200, response.get_json()
    found: dict[str, Any] = response.get_json()
    return found


def told(answer: dict[str, Any]) -> list[dict[str, Any]]:
    return [note for note in answer["cautions"] if note["code"] == "cracks-opened-further"]


def test_the_need_counts_the_larger_width_and_the_larger_depth_of_cracks_alone() -> None:
    answer = asked(CATALOGUE)
    repair = answer["layers"][0]
    assert repair["quantity"]["value"] / 1000 / FT3 == pytest.approx(0.2957899, abs=1e-6)
    assert repair["used"]["likely"]["value"] == 7
    assert answer["order_lines"][0]["packs"] == 7


def test_it_is_told_where_it_opens_further() -> None:
    (note,) = told(asked(CATALOGUE))
    assert note["pointer"] == "/rooms/0/cracks"
    assert note["text"].startswith("2 cracks are stated smaller than the system requires.")
    assert "6.35 mm wide and 6.35 mm deep" in note["text"]


def test_one_crack_is_told_as_one() -> None:
    (note,) = told(asked(CATALOGUE, cracks=[{"length": "10 ft", "width": "1/8 in", "depth": "1/8 in"}]))
    assert note["text"].startswith("1 crack is stated smaller than the system requires. It is opened to")


def test_its_working_says_what_was_stated_and_what_it_was_opened_to() -> None:
    answer = asked(CATALOGUE)
    (entry,) = [one for one in answer["working"] if one["figure"] == "/layers/0/quantity"]
    assert entry["rule"] == "rule-quantity-repair-chased"
    given = {one["name"]: si(one["value"]) for one in entry["inputs"]}
    assert given["room 1 crack 1 width"] == pytest.approx(0.0254 / 8, rel=1e-5)
    assert given["chase width"] == given["chase depth"] == pytest.approx(0.0254 / 4, rel=1e-5)
    assert RULES[entry["rule"]](given) == pytest.approx(si(entry["result"]), rel=3e-5)


def test_without_it_cracks_are_filled_as_stated() -> None:
    answer = asked(CATALOGUE.replace(CHASE, ""))
    assert answer["layers"][0]["quantity"]["value"] / 1000 / FT3 == pytest.approx(0.2328559, abs=1e-6)
    assert answer["order_lines"][0]["packs"] == 5
    assert told(answer) == []
    (entry,) = [one for one in answer["working"] if one["figure"] == "/layers/0/quantity"]
    assert entry["rule"] == "rule-quantity-repair"


def test_cracks_that_are_wide_and_deep_enough_are_not_spoken_of() -> None:
    answer = asked(CATALOGUE, cracks=CRACKS[2:])
    assert told(answer) == []
    # 0.0833333 + 0.0032552 + 0.0833333
    assert answer["layers"][0]["quantity"]["value"] / 1000 / FT3 == pytest.approx(0.1699218, abs=1e-6)


def test_it_is_shown_with_its_system() -> None:
    (system,) = client_of(snapshot_of(CATALOGUE)).get("/v1/systems?units=us").get_json()["systems"]
    assert system["crack_chase"] == {"width": {"value": 0.25, "unit": "in"}, "depth": {"value": 0.25, "unit": "in"}}


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("{width: 1/4 in}", "depth is missing: write depth: 1/4 in"),
        ("{depth: 1/4 in}", "width is missing: write width: 1/4 in"),
        ("{width: 1/4 in, depth: 1/4 lb}", "here, length is asked"),
        ("{width: 1/4 in, depth: 0 in}", "is not from 0.1 mm"),
        ("1/4 in", "write keys and values here: width, depth"),
    ],
)
def test_a_chase_that_cannot_be_read_is_a_fault(written: str, words: str) -> None:
    text = CATALOGUE.replace("{width: 1/4 in, depth: 1/4 in}", written)
    with pytest.raises(FileRefused) as refused:
        load_text(text)
    assert [words in fault.text for fault in refused.value.faults] == [True], refused.value.faults


def test_a_chase_without_a_layer_that_fills_cracks_is_cautioned() -> None:
    text = CATALOGUE.replace("      - {layer: repair, product: filler, cure: [{at: 70 degF, likely: 2 h}]}\n", "")
    assert "no layer of this system fills cracks" in " ".join(caution.text for caution in load_text(text).cautions)
    assert told(asked(text)) == []
