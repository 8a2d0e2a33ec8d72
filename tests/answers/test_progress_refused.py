"""Progress that cannot be: each fault has its place, and says what to write instead."""

from typing import Any

import pytest
from tests.answers.slab_jobs import FROM_LEFT, HALL, PATH, START, ask, feet, job, post


def refused(document: dict[str, Any], **progress: Any) -> tuple[str, str]:
    """Where the one fault is, and its code; it says what to write instead."""
    (error,) = post(PATH, {"job": document, "progress": progress}, status=422)["errors"]
    assert error["hint"]
    return error["pointer"], error["code"]


class TestWhatIsRefused:
    """Each with its place and what to write instead."""

    TWINS = job("plain", feet("9 ft", "9 ft", name="Bay", **FROM_LEFT), feet("9 ft", "9 ft", name="Bay", **FROM_LEFT))

    @pytest.mark.parametrize(
        ("progress", "pointer", "code"),
        [
            ({"mixes": 0, "placed": {"area": "9 ft2"}}, "/progress/mixes", "nothing-placed"),
            ({"mixes": 9, "placed": {"area": "0 ft2"}}, "/progress/placed/area", "nothing-placed"),
            ({"mixes": 9, "placed": {"room": "Hall", "to": "0 ft"}}, "/progress/placed/to", "nothing-placed"),
            ({"mixes": 1_000_000, "placed": {"area": "0.000000000001 ft2"}}, "/progress/placed/area", "nothing-placed"),
            ({"mixes": 9, "placed": {"room": "Hall", "to": "0.000001 mm"}}, "/progress/placed/to", "nothing-placed"),
            ({"mixes": 9, "placed": {"area": "12001 ft2"}}, "/progress/placed/area", "out-of-range"),
            ({"mixes": 9, "placed": {"room": "Hall", "to": "150.1 ft"}}, "/progress/placed/to", "out-of-range"),
            ({"mixes": 9, "placed": {"room": "Hell", "to": "9 ft"}}, "/progress/placed/room", "unknown-room"),
            ({"mixes": 9, "placed": {"room": 2, "to": "9 ft"}}, "/progress/placed/room", "unknown-room"),
            ({"mixes": 9, "placed": {"room": "Hall"}}, "/progress/placed/to", "required"),
            ({"mixes": 9, "placed": {"area": "9 ft2", "to": "9 ft"}}, "/progress/placed/to", "one-too-many"),
            ({"mixes": 9, "placed": {}}, "/progress/placed", "one-of-missing"),
            ({"mixes": 9, "placed": {"area": "9"}}, "/progress/placed/area", "no-unit"),
            ({"mixes": 9.5, "placed": {"area": "9 ft2"}}, "/progress/mixes", "not-whole"),
            ({"mixes": 9, "placed": {"area": "9 ft2"}, "layer": "bodi"}, "/progress/layer", "unknown-name"),
            ({"mixes": 900, "placed": {"area": "9999 ft2"}}, "/progress/mixes", "more-than-ordered"),
            (
                {"mixes": 9, "placed": {"area": "9 ft2"}, "began": "2027-03-08T08:00", "at": "2027-03-08T08:00"},
                "/progress/at",
                "before-began",
            ),
        ],
    )
    def test_progress_that_cannot_be(self, progress: dict[str, Any], pointer: str, code: str) -> None:
        assert refused(HALL, **progress) == (pointer, code)

    def test_an_edge_just_beyond_the_room_does_not_read_as_its_end(self) -> None:
        """The hall is 150 ft long: 0.01 in more is told up to a tenth."""
        asked = {"job": HALL, "progress": {"mixes": 9, "placed": {"room": "Hall", "to": "1800.01 in"}}}
        (error,) = post(PATH, asked, status=422)["errors"]
        assert error["detail"] == "150 ft 0.1 in is outside 0 ft to 150 ft."
        assert error["hint"] == "Give 0 ft to 150 ft."

    def test_a_room_by_a_name_that_two_have(self) -> None:
        placed = {"room": "Bay", "to": "3 ft"}
        assert refused(self.TWINS, mixes=2, placed=placed) == ("/progress/placed/room", "shared-name")
        assert ask(self.TWINS, mixes=2, placed={"room": 2, "to": "3 ft"})["placed"]["room"] == "Bay"

    @pytest.mark.parametrize("room", [1, "1", "Hall"])
    def test_a_number_of_a_room_may_stand_in_quotes(self, room: int | str) -> None:
        assert ask(HALL, mixes=9, placed={"room": room, "to": "9 ft"})["placed"]["room"] == "Hall"

    def test_a_room_that_has_a_number_for_a_name_is_meant_by_it(self) -> None:
        rooms = [feet("9 ft", "9 ft", name=name, **FROM_LEFT) for name in ("2", "Bay")]
        placed = {"room": "2", "to": "3 ft"}
        assert ask(job("plain", *rooms), mixes=2, placed=placed)["placed"]["room"] == "2"

    def test_an_edge_in_a_room_that_says_no_way(self) -> None:
        document = job("plain", feet("9 ft", "9 ft", name="Bay"))
        placed = {"room": "Bay", "to": "3 ft"}
        assert refused(document, mixes=2, placed=placed) == ("/progress/placed/to", "way-unsaid")

    def test_a_system_without_a_body(self) -> None:
        document = job("coated", feet("9 ft", "9 ft"))
        assert refused(document, mixes=2, placed={"area": "9 ft2"}) == ("/job/system", "not-poured")

    def test_faults_of_the_job_stand_below_it(self) -> None:
        placed = {"area": "9 ft2"}
        assert refused(job("plane", feet("9 ft", "9 ft")), mixes=2, placed=placed) == ("/job/system", "unknown-name")
        wrong = job("plain", feet("9 ft", "9"))
        assert refused(wrong, mixes=2, placed=placed) == ("/job/rooms/0/shape/rectangle/width", "no-unit")
        sideless = job("plain", feet("9 ft", "9 ft", pour={}))
        assert refused(sideless, mixes=2, placed=placed) == ("/job/rooms/0/pour/from", "no-side")

    def test_a_local_time_that_the_clocks_skip(self) -> None:
        document = HALL | {"work": START}
        where = refused(document, mixes=9, placed={"area": "9 ft2"}, at="2027-03-14T02:30")
        assert where == ("/progress/at", "no-such-local-time")
