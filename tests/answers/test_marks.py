"""Marks of a pour: values by hand with their steps, and what holds of all marks."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.answers.slab_jobs import START, feet, job, post

ELL = {"polygon": {"points": [[0, 7], [12, 7], [12, 0], [40, 0], [40, 32], [12, 32], [12, 25], [0, 25]], "unit": "ft"}}
FROM_LEFT: dict[str, Any] = {"pour": {"from": "left"}}


def marks(document: dict[str, Any], pour: int = 0) -> dict[int, float]:
    """The likely mark of each mix [ft]."""
    found = post("/v1/pour-plan", document)["pours"][pour]["marks"]
    assert all(mark["likely"]["unit"] == "ft" for mark in found)
    return {mark["mix"]: mark["likely"]["value"] for mark in found}


def feet_and_inches(feet: int, inches: float) -> float:
    return feet + inches / 12


def test_ten_mixes_of_a_plain_room() -> None:
    """10 x 35.2 = 352 ft²; 352 / 28.5 = 12.351 ft = 12 ft 4.2 in."""
    found = marks(job("plain", feet("42 ft", "28.5 ft", **FROM_LEFT)))
    assert found[10] == pytest.approx(352 / 28.5, rel=1e-5)
    assert found[10] == pytest.approx(feet_and_inches(12, 4.2), abs=0.05 / 12)


def test_eight_and_ten_mixes_of_an_ell_from_its_narrow_end() -> None:
    """18 ft wide for 12 ft: 216 ft². 8 x 24.576 = 196.608 ft², / 18 = 10.9227 ft = 10 ft 11.1 in.

    10 x 24.576 = 245.76 ft²: 29.76 ft² beyond, / 32 = 0.93 ft on: 12.93 ft = 12 ft 11.2 in.
    """
    found = marks(job("ell", {"shape": ELL, **FROM_LEFT}))
    assert found[8] == pytest.approx(196.608 / 18, rel=1e-5)
    assert found[8] == pytest.approx(feet_and_inches(10, 11.1), abs=0.05 / 12)
    assert found[10] == pytest.approx(12 + 29.76 / 32, rel=1e-5)
    assert found[10] == pytest.approx(feet_and_inches(12, 11.2), abs=0.05 / 12)


def test_from_the_other_end_the_ell_is_wide_first() -> None:
    """10 x 24.576 / 32 = 7.68 ft."""
    found = marks(job("ell", {"shape": ELL, "pour": {"from": "right"}}))
    assert found[10] == pytest.approx(7.68, rel=1e-5)


def test_keyways_are_filled_by_the_first_body_where_they_lie() -> None:
    """20 x 10 ft at 1/4 in in two bodies: half of 1/48 ft over 10 ft is 10/96 ft³ a foot of the way.

    The keyway is (2/48)² = 1/576 ft² in section, 1 ft inside the walls: 8 ft of it across at 1 ft, 8/576 = 0.0138889
    ft³, then two along, 2/576 = 0.0034722 ft³ a foot. Mixes of 0.11 ft³:
    mix 1: up to 1 ft 0.1041667, with the keyway there 0.1180556, so it ends at 1 ft.
    mix 2: 0.22 - 0.1180556 = 0.1019444, / (0.1041667 + 0.0034722) = 0.947097: 1.947097 ft.
    Of the second body, without keyways, mix 1 ends at 0.11 / 0.1041667 = 1.056 ft.
    """
    document = job("keyed", feet("20 ft", "10 ft", joints=[], **FROM_LEFT))
    first, second = marks(document, 0), marks(document, 1)
    assert (first[1], first[2]) == (pytest.approx(1.0), pytest.approx(1.947097, rel=1e-5))
    assert second[1] == pytest.approx(1.056, rel=1e-5)


def test_a_moving_joint_has_a_keyway_on_both_sides() -> None:
    """The same room with a joint across at 10 ft, its two keyways of 10 ft each at 9 and 11 ft: 10/576 ft³ each.

    Up to 9 ft, the joint's not yet: 9 x 0.1041667 + 0.0138889 + 8 x 0.0034722 = 0.9791667 ft³; 9 mixes are 0.99, within
    the keyway there (0.9791667 to 0.9965278): 9 ft. 10 mixes are 1.10: 0.1034722 / 0.1076389 = 0.961290 on.
    """
    joint = {"line": [["10 ft", "0 ft"], ["10 ft", "10 ft"]], "kind": "moving"}
    found = marks(job("keyed", feet("20 ft", "10 ft", joints=[joint], **FROM_LEFT)))
    assert (found[9], found[10]) == (pytest.approx(9.0), pytest.approx(9.961290, rel=1e-5))


def test_the_next_room_gets_the_rest_of_a_mix() -> None:
    """285 ft² take 8.0966 mixes of 35.2 ft². Of the ninth, 9 x 35.2 - 285 = 31.8 ft² go on: 3.18 ft of 10 ft."""
    rooms = feet("28.5 ft", "10 ft", **FROM_LEFT), feet("20 ft", "10 ft", **FROM_LEFT)
    first, second = marks(job("plain", *rooms), 0), marks(job("plain", *rooms), 1)
    assert (list(first), next(iter(second))) == (list(range(1, 10)), 9)
    assert (first[8], first[9]) == (pytest.approx(28.16), pytest.approx(28.5))
    assert (second[9], second[10]) == (pytest.approx(3.18), pytest.approx(3.18 + 3.52))


def test_waste_moves_no_mark_but_leaves_the_next_room_less() -> None:
    """With 10 % waste the first room takes 8.0966 x 1.1 = 8.90625 mixes, the next 0.09375 of the ninth: 3.3 ft²."""
    rooms = feet("28.5 ft", "10 ft", **FROM_LEFT), feet("20 ft", "10 ft", **FROM_LEFT)
    first, second = (marks(job("plain", *rooms, waste=10), pour) for pour in (0, 1))
    assert first[8] == pytest.approx(28.16)
    assert second[9] == pytest.approx(0.33)


def test_a_room_poured_in_two_shifts_goes_on_where_it_stopped() -> None:
    """One long room and shifts of four hours: the marks of all its parts are those of one pour."""
    long = job("plain", feet("200 ft", "20 ft", **FROM_LEFT))
    shifts = [{"days": ["mon", "tue", "wed", "thu", "fri"], "from": "08:00", "to": "12:00"}]
    parted = post("/v1/pour-plan", long | {"work": START | {"shifts": shifts}})["pours"]
    assert len(parted) > 1
    assert [mark for pour in parted for mark in pour["marks"]] == [
        mark
        for pour in post("/v1/pour-plan", long | {"work": {"round_the_clock": True}})["pours"]
        for mark in pour["marks"]
    ]


def test_a_measured_room_goes_by_its_run() -> None:
    """1,200 ft² in 60 ft are 20 ft wide: 35.2 / 20 = 1.76 ft a mix."""
    found = marks(job("plain", {"shape": {"measured": {"area": "1200 ft2"}}, "pour": {"run": "60 ft"}}))
    assert found[10] == pytest.approx(17.6)


def test_marks_have_their_working() -> None:
    answer = post("/v1/pour-plan?working=true", job("keyed", feet("20 ft", "10 ft", joints=[], **FROM_LEFT)))
    told = {one["figure"]: one for one in answer["working"]}
    for number, pour in enumerate(answer["pours"]):
        assert told[f"/pours/{number}/marks"]["result"] == pour["marks"][-1]["likely"]
    given = {one["name"]: one["value"] for one in told["/pours/0/marks"]["inputs"]}
    assert given["keyway"] == {"value": 52.0, "unit": "ft"}
    assert given["keyway section"] == {"value": 0.25, "unit": "in2"}  # (2 x 1/4 in)²


def test_a_room_without_a_way_has_no_marks_and_a_quote_has_none() -> None:
    plain = job("plain", feet("42 ft", "28.5 ft"))
    assert post("/v1/pour-plan", plain)["pours"][0]["marks"] == []
    marked = job("plain", feet("42 ft", "28.5 ft", **FROM_LEFT))
    assert post("/v1/quotes", marked)["pour_plan"]["pours"][0]["marks"] is None


def test_no_more_marks_are_listed_than_2000_and_the_others_are_told_of() -> None:
    """300 x 300 ft are 90,000 ft²: 2,557 mixes of 35.2 ft²."""
    answer = post("/v1/pour-plan", job("plain", feet("300 ft", "300 ft", **FROM_LEFT)))
    assert sum(len(pour["marks"]) for pour in answer["pours"]) == 2000
    told = {note["code"]: note["text"] for note in answer["cautions"]}
    assert told["pour-marks-unlisted"].startswith("Of 2557 marks, the first 2000 are listed.")


@given(
    length=st.floats(8, 90),
    width=st.floats(6, 40),
    side=st.sampled_from(["left", "right", "bottom", "top"]),
    system=st.sampled_from(["plain", "keyed"]),
)
def test_marks_rise_and_the_last_is_the_length(length: float, width: float, side: str, system: str) -> None:
    room = feet(f"{length:.3f} ft", f"{width:.3f} ft", joints=[], pour={"from": side})
    pours = post("/v1/pour-plan", job(system, room, work={"round_the_clock": True}))["pours"]
    run = float(f"{length if side in ('left', 'right') else width:.3f}")
    for pour in pours:
        likely = [mark["likely"]["value"] for mark in pour["marks"]]
        assert likely == sorted(likely)
        assert likely[-1] == pytest.approx(run, rel=1e-5)
        assert all(
            mark["low"]["value"] <= mark["likely"]["value"] <= mark["high"]["value"] <= run * (1 + 1e-5)
            for mark in pour["marks"]
        )


def test_marks_of_a_round_room_are_its_segments() -> None:
    """A segment of a circle of radius r is r² (a - sin a cos a) with cos a = 1 - x/r; 30 ft across, 35.2 ft² a mix."""
    found = marks(job("plain", {"shape": {"circle": {"diameter": "30 ft"}}, "pour": {"from": "top"}}))
    for mix in (1, 5, 10, 15, 20):
        turn = math.acos(1 - found[mix] / 15)
        assert 225 * (turn - math.sin(turn) * math.cos(turn)) == pytest.approx(35.2 * mix, abs=0.03)


BAD = {
    "a measured room without its run": ({"measured": {"area": "300 ft2"}}, {"from": "left"}, "run", "no-run"),
    "a drawn room without a side": ({"circle": {"diameter": "9 ft"}}, {}, "from", "no-side"),
    "a drawn room with a run": (
        {"circle": {"diameter": "9 ft"}},
        {"from": "top", "run": "9 ft"},
        "run",
        "run-of-drawing",
    ),
}


@pytest.mark.parametrize("path", ["/v1/pour-plan", "/v1/quantities", "/v1/quotes"])
@pytest.mark.parametrize("name", BAD)
def test_a_way_that_cannot_be_is_refused_with_what_to_write(name: str, path: str) -> None:
    shape, pour, field, code = BAD[name]
    (error,) = post(path, job("plain", {"shape": shape, "pour": pour}), status=422)["errors"]
    assert (error["pointer"], error["code"]) == (f"/rooms/0/pour/{field}", code)
    assert error["hint"]
