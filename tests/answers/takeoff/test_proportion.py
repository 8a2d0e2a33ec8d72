"""Sizes that a room cannot have get one caution with both figures; those that it can have get none."""

from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import client_of, document, measured, rectangle

from gaugerake.catalogue.store.demo import demo_snapshot

DEEP = {"depth": "1/2 in"}


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return client_of(demo_snapshot())


def told(client: FlaskClient, room: dict[str, Any]) -> list[tuple[str, str, str]]:
    """Where each such caution points, and its two figures."""
    response = client.post("/v1/quantities", json=document(room))
    assert response.status_code == 200, response.text
    sentences = [(one["pointer"], one["text"]) for one in response.get_json()["cautions"] if one["code"] == CODE]
    return [(at, *text.removeprefix(BEGINS).split(ENDS)[0].split(BETWEEN)) for at, text in sentences]  # type: ignore[misc]


CODE = "out-of-proportion"
BEGINS, BETWEEN, ENDS = "This comes to ", ", and a room of this size has ", " at the most."

# a room of 40 by 30 ft: 1,200 sq ft of floor, 140 ft of wall, a joint in each foot 1,200 ft
ROOM = rectangle("40 ft", "30 ft")


@pytest.mark.parametrize(
    ("said", "pointer", "figures"),
    [
        ({"spalls": [{"area": "9000 ft2", **DEEP}]}, "/rooms/0/spalls", ("9,000 sq ft", "1,200 sq ft")),
        ({"spalls": [{"area": "700 ft2", **DEEP}] * 2}, "/rooms/0/spalls", ("1,400 sq ft", "1,200 sq ft")),
        ({"cove": {"length": "5900 ft", "height": "4 in"}}, "/rooms/0/cove/length", ("5,900 ft", "140 ft")),
        ({"terminations": [{"length": "9 km"}]}, "/rooms/0/terminations", ("29,528 ft", "140 ft")),
        ({"joints": [{"length": "5900 ft"}]}, "/rooms/0/joints", ("5,900 ft", "1,200 ft")),
        # a strip 6 in wide of 1 sq ft is 2 ft long: 2 (2 + 1/2) = 5 ft all the way round; 90 km are 295,276 ft
        (
            measured("1 sq ft", shape={"measured": {"area": "1 sq ft", "perimeter": "90 km"}}),
            "/rooms/0/shape/measured/perimeter",
            ("295,276 ft", "5 ft"),
        ),
        # a column of 2 by 2 ft has 8 ft of wall: 148 ft in all
        (
            {
                "cove": {"length": "150 ft", "height": "4 in"},
                "cutouts": [{"rectangle": {"length": "2 ft", "width": "2 ft"}}],
            },
            "/rooms/0/cove/length",
            ("150 ft", "148 ft"),
        ),
    ],
)
def test_a_size_out_of_proportion_is_a_caution_with_both_figures(
    client: FlaskClient, said: dict[str, Any], pointer: str, figures: tuple[str, str]
) -> None:
    assert told(client, ROOM | said) == [(pointer, *figures)]


@pytest.mark.parametrize(
    "said",
    [
        {},
        {"spalls": [{"area": "1210 ft2", **DEEP}]},  # 1 % over is rounding
        {"cove": {"length": "141 ft", "height": "4 in"}, "terminations": [{"length": "140 ft"}]},
        {
            "cove": {"length": "149 ft", "height": "4 in"},
            "cutouts": [{"rectangle": {"length": "2 ft", "width": "2 ft"}}],
        },
        {"joints": [{"length": "600 ft"}] * 2},
        measured("100 sq ft", shape={"measured": {"area": "100 sq ft", "perimeter": "401 ft"}}),  # 2 (200 + 1/2)
    ],
)
def test_a_size_that_the_room_can_have_is_none(client: FlaskClient, said: dict[str, Any]) -> None:
    assert told(client, ROOM | said) == []


def test_the_figures_of_the_answer_stay_as_they_are_said(client: FlaskClient) -> None:
    """9,000 sq ft take 7.5 times what 1,200 take; answers have six digits."""
    few, many = (
        client.post("/v1/quantities", json=document(ROOM | {"spalls": [{"area": area, **DEEP}]})).get_json()
        for area in ("1200 ft2", "9000 ft2")
    )
    needs = [next(one for one in said["layers"] if one["layer"] == "repair")["need"]["likely"] for said in (few, many)]
    assert needs[1]["value"] == pytest.approx(needs[0]["value"] * 7.5, rel=1e-5)
