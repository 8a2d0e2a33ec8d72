"""Rooms and layers that cannot be, each refused at its place."""

from dataclasses import replace

import pytest
from tests.answers.takeoff.jobs import HALL, asked, codes, faults, taken
from tests.asked import survey

from gaugerake.answers.job.errors import Refused
from gaugerake.answers.takeoff.survey import survey_rooms
from gaugerake.floor.job import Cutout, Drain, Joint, Measured, Polygon, Rectangle, Room, RoundDrain
from gaugerake.floor.values.errors import (
    Contradiction,
    CrossingOutline,
    DegenerateOutline,
    ImpossiblePerimeter,
    NoPlace,
    NothingLeft,
    OutOfRange,
    OutsideRoom,
    Overlapping,
)


class TestRefusals:
    def test_every_fault_of_every_room_is_told_at_once_with_its_place(self) -> None:
        pit = Rectangle(length_m=2, width_m=1)
        bow = Polygon(points_m=((0, 0), (4, 4), (4, 0), (0, 4)))
        flat = Polygon(points_m=((0, 0), (4, 0), (9, 0)))
        found = faults(
            Room(shape=bow),
            Room(shape=Measured(area_m2=100, perimeter_m=30)),
            replace(HALL, cutouts=(Cutout(shape=flat), Cutout(shape=pit, at_m=(9, 1)))),
            replace(HALL, cutouts=(Cutout(shape=pit, at_m=(1, 1)), Cutout(shape=pit, at_m=(2, 1)))),
            replace(HALL, cutouts=(Cutout(shape=Measured(area_m2=80.0)),)),
            replace(HALL, thickness_m=0.0099),
            replace(HALL, cutouts=(Cutout(shape=pit, at_m=(1, 1), count=2),)),
            replace(HALL, drains=(Drain(shape=RoundDrain(diameter_m=1), at_m=(9.5, 0)),)),
            replace(HALL, joints=(Joint(line_m=((0, 0), (0, 9))), Joint(line_m=((1, 1), (1, 1))))),
            thickness_m=0.001,
        )
        assert {pointer: type(error) for pointer, error in found.items()} == {
            "/rooms/0/shape/polygon/points": CrossingOutline,
            "/rooms/1/shape/measured/perimeter": ImpossiblePerimeter,
            "/rooms/2/cutouts/0/polygon/points": DegenerateOutline,
            "/rooms/2/cutouts/1/at": OutsideRoom,
            "/rooms/3/cutouts/1/at": Overlapping,
            "/rooms/4/cutouts/0": NothingLeft,
            "/rooms/5/thickness": OutOfRange,
            "/rooms/6/cutouts/0/at": Contradiction,
            "/rooms/7/drains/0/at": OutsideRoom,
            "/rooms/8/joints/0/line": OutsideRoom,
            "/rooms/8/joints/1/line": OutOfRange,
            "/thickness": OutOfRange,
        }
        overlapping = found["/rooms/3/cutouts/1/at"]
        assert isinstance(overlapping, Overlapping)
        assert overlapping.other == "/rooms/3/cutouts/0"

    def test_a_thickness_outside_the_range_names_the_range(self) -> None:
        error = faults(thickness_m=0.012)["/thickness"]
        assert isinstance(error, OutOfRange)
        assert [error.value.value, error.low and error.low.value, error.high and error.high.value] == [
            0.012,
            0.004,
            0.009,
        ]

    @pytest.mark.parametrize("thickness", [0.004 * (1 - 1e-12), 0.009 * (1 + 1e-12)])
    def test_the_ends_of_the_range_are_within_it_float_noise_or_not(self, thickness: float) -> None:
        assert taken(thickness_m=thickness).rooms[0].thickness_m == thickness

    def test_a_thickness_outside_the_range_does_not_keep_the_areas_back(self) -> None:
        assert asked(HALL, HALL, thickness_m=0.5).shared(survey).gross_areas_m2 == (80.0, 80.0)

    def test_a_shape_that_cannot_be_keeps_the_areas_back(self) -> None:
        with pytest.raises(Refused, match="/rooms/1/shape/measured/perimeter"):
            _ = asked(HALL, Room(shape=Measured(area_m2=100, perimeter_m=30))).shared(survey).gross_areas_m2

    def test_no_rooms_have_no_areas(self) -> None:
        assert survey_rooms(()).gross_areas_m2 == ()

    def test_a_job_may_not_be_larger_than_any_floor(self) -> None:
        field = Room(shape=Rectangle(length_m=1000.0, width_m=100.0))
        assert asked(field, field).shared(survey).gross_areas_m2 == (100_000.0, 100_000.0)
        assert isinstance(faults(field, field, HALL)["/rooms"], OutOfRange)

    def test_a_drain_larger_than_its_room_leaves_nothing(self) -> None:
        error = faults(replace(HALL, drains=(Drain(shape=RoundDrain(diameter_m=11.0)),)))["/rooms/0/drains/0"]
        assert isinstance(error, NothingLeft)
        assert error.taken_m2 == pytest.approx(95.0, abs=0.1)

    def test_a_measured_thing_has_no_place_and_a_measured_room_checks_none(self) -> None:
        pit = Measured(area_m2=1.0)
        assert isinstance(
            faults(replace(HALL, cutouts=(Cutout(shape=pit, at_m=(1, 1)),)))["/rooms/0/cutouts/0/at"], NoPlace
        )
        room = Room(shape=Measured(area_m2=90.0), drains=(Drain(shape=RoundDrain(diameter_m=1), at_m=(500, 0)),))
        assert "placed-in-measured-room" in codes(asked(room))["cautions"]
