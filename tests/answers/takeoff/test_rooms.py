"""Rooms measured: what is assumed of them and what is drawn."""

import math
from dataclasses import replace

import pytest
from tests.answers.takeoff.jobs import BARE, HALL, asked, codes, layer, taken
from tests.asked import take_off

from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.job import (
    Circle,
    Cutout,
    Drain,
    Joint,
    JointKind,
    Measured,
    Polygon,
    Rectangle,
    Room,
    RoundDrain,
    Slab,
    Termination,
    TrenchDrain,
)
from gaugerake.floor.values.figure import Figure


class TestRooms:
    def test_the_net_area_is_less_cutouts_and_drains_times_their_count(self) -> None:
        room = replace(
            HALL,
            cutouts=(Cutout(shape=Rectangle(length_m=2, width_m=1), count=3), Cutout(shape=Measured(area_m2=0.5))),
            drains=(
                Drain(shape=RoundDrain(diameter_m=0.2), count=4),
                Drain(shape=TrenchDrain(length_m=5, width_m=0.1)),
            ),
        )
        measured = taken(room).rooms[0]
        assert measured.gross_area_m2 == 80.0
        assert measured.area_m2 == pytest.approx(80 - 6 - 0.5 - 4 * math.pi * 0.01 - 0.5)

    def test_keyways_run_along_round_at_stops_and_on_both_sides(self) -> None:
        room = replace(
            HALL,
            cutouts=(Cutout(shape=Rectangle(length_m=2, width_m=1), count=3),),
            drains=(Drain(shape=RoundDrain(diameter_m=0.2), count=2),),
            joints=(
                Joint(length_m=8.0, kind=JointKind.MOVING),
                Joint(line_m=((0, 1), (3, 5)), kind=JointKind.MOVING),
                Joint(length_m=10.0, kind=JointKind.CONTRACTION),
            ),
            terminations=(Termination(length_m=1.5), Termination(length_m=2.0)),
        )
        walls, pits, drains = 36 - 0.8, 3 * (6 + 0.8), 2 * math.pi * 0.4
        assert taken(room).rooms[0].keyway_length_m == pytest.approx(walls + pits + drains + 2 * (8 + 5) + 3.5)

    def test_a_joint_of_no_kind_is_moving_and_said_to_be_so(self) -> None:
        context = asked(replace(HALL, joints=(Joint(length_m=8.0, width_m=0.01, depth_m=0.012),)))
        assert context.shared(take_off).rooms[0].moving_joint_length_m == 8.0
        said = [note.pointer for note in context.record.assumptions if note.code == "joint-moving"]
        assert said == ["/rooms/0/joints/0/kind"]

    def test_thickness_is_the_rooms_else_the_jobs_else_the_usual(self) -> None:
        rooms = (replace(HALL, thickness_m=0.008), HALL)
        assert [room.thickness_m for room in taken(*rooms, thickness_m=0.006).rooms] == [0.008, 0.006]
        context = asked(*rooms)
        assert [room.thickness_m for room in context.shared(take_off).rooms] == [0.008, 0.005]
        (note,) = [note for note in context.record.assumptions if note.code == "thickness-usual"]
        assert (note.pointer, note.value) == ("/thickness", Figure(0.005, "small-length"))

    def test_profile_is_the_rooms_else_the_slabs_else_the_middle_rounded_up(self) -> None:
        rooms = (replace(HALL, profile_csp=6), HALL)
        assert [room.csp for room in taken(*rooms, slab=Slab(profile_csp=4)).rooms] == [6, 4]
        assert [room.csp for room in taken(*rooms).rooms] == [6, 5]
        assert "profile-middle" in codes(asked(*rooms))["assumed"]

    def test_a_profile_between_two_that_are_listed_takes_the_rougher_and_says_so(self) -> None:
        context = asked(slab=Slab(profile_csp=4))
        rough, listed = (layer(taken(slab=Slab(profile_csp=csp)), "body") for csp in (4, 5))
        assert rough.likely == listed.likely
        assert "profile-not-listed" in codes(context)["cautions"]

    def test_no_profile_is_assumed_where_nothing_depends_on_it(self) -> None:
        assert taken(system=BARE).rooms[0].csp is None
        assert taken(system=BARE, slab=Slab(profile_csp=4)).rooms[0].csp == 4
        assert "profile-middle" not in codes(asked(system=BARE))["assumed"]

    def test_a_room_without_a_name_is_numbered(self) -> None:
        named, unnamed = taken(replace(HALL, name="Hall"), HALL).rooms
        assert (render(named.name, US_READER), render(unnamed.name, US_READER)) == ("Hall", "Room 2")

    def test_a_room_known_by_its_area_says_what_would_sharpen_it(self) -> None:
        said = codes(asked(Room(shape=Measured(area_m2=100.0))))
        assert "perimeter-two-to-one" in said["assumed"]
        assert {"perimeter-unsaid", "joints-unsaid", "terminations-unsaid"} <= said["missing"]
        assert "joints-unsaid" not in codes(asked(Room(shape=Measured(area_m2=100.0), joints=())))["missing"]

    def test_what_is_placed_is_drawn_where_it_lies(self) -> None:
        room = replace(
            HALL,
            cutouts=(Cutout(shape=Rectangle(length_m=2, width_m=1), at_m=(3, 4)), Cutout(shape=Circle(diameter_m=1))),
            drains=(Drain(shape=TrenchDrain(length_m=5, width_m=0.1), at_m=(1, 1)),),
            joints=(Joint(line_m=((0, 2), (10, 2))),),
        )
        measured = taken(room).rooms[0]
        assert measured.holes_m == (((3, 4), (5, 4), (5, 5), (3, 5)),)
        assert measured.drains_m == (((1, 1), (6, 1), (6, 1.1), (1, 1.1)),)
        assert measured.joint_lines_m == (((0, 2), (10, 2)),)

    def test_a_room_too_narrow_for_its_keyway_has_none_and_says_so(self) -> None:
        passage = Room(shape=Rectangle(length_m=5, width_m=0.19), joints=())
        assert taken(passage).rooms[0].keyway_length_m == 0.0
        assert "keyway-vanishes" in codes(asked(passage))["cautions"]
        alcove = Polygon(points_m=((0, 0), (6, 0), (6, 4), (3.1, 4), (3.1, 5), (3, 5), (3, 4), (0, 4)))
        assert "keyway-part-vanishes" in codes(asked(Room(shape=alcove, joints=())))["cautions"]
