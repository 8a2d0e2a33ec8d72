"""Cadence, lanes and the wet edge; whole mixes counted through; stops between rooms and at joints."""

import math
from datetime import time
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.clock.schedule import Site
from gaugerake.floor.clock.shifts import Shifts
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.cure.curve import TimeCurve, TimePoint
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.pour.edge import Lane, Pace, PaceTerm, lane, mix_area_m2, pace, wet_edge
from gaugerake.floor.pour.mixes import Handling, mixes_of, open_time_s
from gaugerake.floor.pour.windows import RoomPour, Stop, Stretch, Window, pour_in_shifts
from gaugerake.floor.values.local_time import zone_named

DAY = 86_400
FT2 = 0.09290304
MIX = Pace(mix_area_m2=24 * FT2, mixing_s=120, placing_s=96)
ACROSS = Lane(width_m=8, depth_m=1)
HANDLING = Handling(mixing_s=150, pour_within_s=120, roll_within_s=300)


def rooms(*needs: float, pace: Pace = MIX) -> list[RoomPour]:
    return [RoomPour(room=index, need_mixes=need, pace=pace, lane=ACROSS) for index, need in enumerate(needs)]


def timetable(pours: list[RoomPour], shift_s: int) -> list[Window]:
    """The hours that the timetable gives these rooms, with a shift of so many seconds from midnight every day."""
    ends = time(shift_s // 3600, shift_s // 60 % 60, shift_s % 60)
    shift = Shift(days=tuple(Weekday), starts=time(0), ends=ends)
    hours = Shifts(shifts=[shift], closed=(), zone=zone_named("UTC"))
    site = Site(hours=hours, course=SteadyCourse(temperature_k=295.0), until_s=365 * DAY)
    placed = site.place(0.0, [pour.need_mixes * pour.pace.cadence_s for pour in pours])
    found: list[Window] = []
    for from_s, until_s in placed.stretches if placed else ():
        if found and from_s - found[-1].until_s < 1e-3:
            from_s = found.pop().from_s
        found.append(Window(from_s=from_s, until_s=until_s))
    return found


def spread(pours: list[RoomPour], shift_s: int = DAY) -> tuple[Stretch, ...]:
    windows = [Window(from_s=0, until_s=365 * DAY)] if shift_s == DAY else timetable(pours, shift_s)
    return pour_in_shifts(pours=pours, windows=windows, longest_shift_s=math.inf if shift_s == DAY else shift_s)


def numbers(stretches: tuple[Stretch, ...]) -> list[tuple[int, int, int]]:
    return [(part.pour.room, part.first_mix, part.last_mix) for stretch in stretches for part in stretch.parts]


class TestCadence:
    def test_the_slower_of_mixing_and_placing_sets_it(self) -> None:
        slow_hands = pace(mix_cycle_s=240, station_count=4, placing_rate_m2_s=0.02, mix_area_m2=2)
        assert (slow_hands.cadence_s, slow_hands.slower) == (100.0, PaceTerm.PLACING)

    def test_level_terms_are_mixing(self) -> None:
        assert pace(mix_cycle_s=100, station_count=1, placing_rate_m2_s=0.02, mix_area_m2=2).slower is PaceTerm.MIXING

    def test_twice_the_thickness_is_half_the_floor(self) -> None:
        assert mix_area_m2(yield_m3=0.01, thickness_m=0.01) == mix_area_m2(yield_m3=0.01, thickness_m=0.005) / 2

    @given(st.integers(1, 49), st.floats(0.001, 0.3), st.floats(0.5, 50))
    def test_another_station_is_never_slower(self, stations: int, rate: float, area: float) -> None:
        def cadence(count: int) -> float:
            found = pace(mix_cycle_s=240, station_count=count, placing_rate_m2_s=rate, mix_area_m2=area)
            return found.cadence_s

        assert cadence(stations + 1) <= cadence(stations)


class TestLane:
    def test_a_room_within_the_widest_lane_is_one_strip(self) -> None:
        assert lane(shorter_side_m=6.0, depth_m=1, widest_m=6.0) == Lane(width_m=6.0, depth_m=1)

    def test_float_noise_makes_no_strip(self) -> None:
        assert lane(shorter_side_m=0.1 + 0.2, depth_m=1, widest_m=0.3).strip_count == 1

    @given(st.floats(0.1, 400), st.floats(0.3, 400))
    def test_strips_cover_the_room_and_no_strip_is_spare(self, side: float, widest: float) -> None:
        found = lane(shorter_side_m=side, depth_m=1, widest_m=widest)
        assert found.width_m <= widest * (1 + 1e-8)
        assert found.width_m * found.strip_count >= side * (1 - 1e-8)
        assert found.width_m * (found.strip_count - 1) < side


class TestWetEdge:
    def test_a_lane_smaller_than_a_mix_still_waits_for_the_next_mix(self) -> None:
        edge = wet_edge(lane=Lane(width_m=1, depth_m=1), pace=MIX, pour_within_s=120, open_time_s=900)
        assert edge.overtaken_after_s == 120

    def test_the_open_time_to_the_second_holds(self) -> None:
        edge = wet_edge(lane=Lane(width_m=1, depth_m=1), pace=MIX, pour_within_s=120, open_time_s=120 + 120 + 96)
        assert edge.holds is True

    def test_a_second_less_does_not(self) -> None:
        edge = wet_edge(lane=Lane(width_m=1, depth_m=1), pace=MIX, pour_within_s=120, open_time_s=120 + 120 + 95)
        assert edge.holds is False

    def test_without_an_open_time_nobody_can_say(self) -> None:
        assert wet_edge(lane=ACROSS, pace=MIX, pour_within_s=120, open_time_s=None).holds is None

    def test_the_hotter_of_floor_and_material_rules(self) -> None:
        points = tuple(
            TimePoint(temperature_k=k, low_s=s, likely_s=s, high_s=s) for k, s in ((290.0, 1200.0), (300.0, 600.0))
        )
        curve = TimeCurve(points=points)
        assert open_time_s(curve=curve, floor_k=290, material_k=300) == pytest.approx(600)
        assert open_time_s(curve=curve, floor_k=300, material_k=290) == pytest.approx(600)


class TestCounting:
    def test_the_mix_at_a_boundary_is_shared(self) -> None:
        assert numbers(spread(rooms(10.3, 10.3, 4.4))) == [(0, 1, 11), (1, 11, 21), (2, 21, 25)]

    def test_a_boundary_between_mixes_shares_none(self) -> None:
        stretches = spread(rooms(0.1 + 0.2 + 0.7, 2.0))
        assert numbers(stretches) == [(0, 1, 1), (1, 2, 3)]

    def test_a_closet_may_live_on_its_neighbours_mix(self) -> None:
        stretches = spread(rooms(2.2, 0.3, 0.3, 1.5))
        assert numbers(stretches) == [(0, 1, 3), (1, 3, 3), (2, 3, 3), (3, 3, 5)]
        mixes = list(mixes_of(stretches=stretches, handling=HANDLING, floor_k=lambda _: 295.0, material_k=295.0))
        assert [(m.number, m.room, m.last_room) for m in mixes] == [
            (1, 0, 0),
            (2, 0, 0),
            (3, 0, 3),
            (4, 3, 3),
            (5, 3, 3),
        ]

    @settings(max_examples=60)
    @given(st.lists(st.floats(0.01, 40), min_size=1, max_size=12))
    def test_without_a_stop_no_more_mixes_than_the_whole_needs(self, needs: list[float]) -> None:
        stretches = spread(rooms(*needs), shift_s=DAY)
        mixes = list(mixes_of(stretches=stretches, handling=HANDLING, floor_k=lambda _: 295.0, material_k=295.0))
        total = sum(needs)
        assert math.ceil(total * (1 - 1e-8)) <= len(mixes) <= math.ceil(total * (1 + 1e-8))
        assert [mix.number for mix in mixes] == list(range(1, len(mixes) + 1))
        assert [mix.mix_at_s for mix in mixes] == pytest.approx([120.0 * index for index in range(len(mixes))])

    @settings(max_examples=60)
    @given(st.lists(st.floats(0.01, 60), min_size=1, max_size=8), st.integers(1800, 14_400))
    def test_however_it_is_stopped_every_room_gets_its_need(self, needs: list[float], shift_s: int) -> None:
        stretches = spread(rooms(*needs), shift_s=shift_s)
        mixes = list(mixes_of(stretches=stretches, handling=HANDLING, floor_k=lambda _: 295.0, material_k=295.0))
        assert len(mixes) >= math.ceil(sum(needs) * (1 - 1e-8))
        assert {part.pour.room for stretch in stretches for part in stretch.parts} == set(range(len(needs)))
        starts = [mix.mix_at_s for mix in mixes]
        assert all(later - earlier >= 120 - 1e-6 for earlier, later in pairwise(starts))
        assert all(start % DAY <= shift_s + MIX.cadence_s for start in starts)

    def test_each_room_keeps_its_own_cadence(self) -> None:
        slow = Pace(mix_area_m2=4, mixing_s=120, placing_s=200)
        pours = [
            RoomPour(room=0, need_mixes=2.5, pace=MIX, lane=ACROSS),
            RoomPour(room=1, need_mixes=2.5, pace=slow, lane=ACROSS),
        ]
        stretches = spread(pours)
        mixes = mixes_of(stretches=stretches, handling=HANDLING, floor_k=lambda _: 295.0, material_k=295.0)
        assert [(mix.room, mix.mix_at_s) for mix in mixes] == [(0, 0), (0, 120), (0, 240), (1, 360), (1, 560)]


class TestStops:
    def test_a_room_waits_for_a_shift_that_holds_it(self) -> None:
        stretches = spread(rooms(20.5, 20.5), shift_s=3600)
        assert [stretch.stop for stretch in stretches] == [Stop.ROOM, Stop.END]
        assert [stretch.parts[0].begins_s for stretch in stretches] == [0, DAY]

    def test_the_rest_of_a_mix_is_lost_at_a_stop(self) -> None:
        stretches = spread(rooms(20.5, 20.5), shift_s=3600)
        assert numbers(stretches) == [(0, 1, 21), (1, 22, 42)]

    def test_a_room_longer_than_any_shift_stops_at_a_joint_after_a_whole_mix(self) -> None:
        stretches = spread(rooms(70.5), shift_s=3660)
        assert [stretch.stop for stretch in stretches] == [Stop.JOINT, Stop.JOINT, Stop.END]
        assert numbers(stretches) == [(0, 1, 30), (0, 31, 61), (0, 62, 71)]

    def test_a_long_room_begins_in_what_is_left_of_the_shift(self) -> None:
        stretches = spread(rooms(10.5, 40.0), shift_s=3600)
        assert numbers(stretches) == [(0, 1, 11), (1, 11, 30), (1, 31, 51)]
        assert [stretch.stop for stretch in stretches] == [Stop.JOINT, Stop.END]

    def test_what_a_shift_holds_of_a_mix_is_owed_to_the_next(self) -> None:
        # a shift of 3700 s holds 30.83 mixes: 30, then 31.67 of which 31, then what is left of 100
        assert numbers(spread(rooms(100.0), shift_s=3700)) == [(0, 1, 30), (0, 31, 61), (0, 62, 92), (0, 93, 100)]

    def test_nothing_is_poured_without_hours(self) -> None:
        assert pour_in_shifts(pours=rooms(3.0), windows=[], longest_shift_s=3600) == ()

    def test_a_shift_shorter_than_a_mix_gives_a_mix_now_and_then(self) -> None:
        stretches = spread(rooms(3.0), shift_s=60)
        assert [stretch.parts[0].begins_s / DAY for stretch in stretches] == [1, 3, 5]

    @settings(max_examples=60)
    @given(st.lists(st.floats(0.01, 200), min_size=1, max_size=6), st.integers(900, 14_400))
    def test_the_pour_keeps_within_a_mix_of_the_timetable(self, needs: list[float], shift_s: int) -> None:
        pours = rooms(*needs)
        windows = timetable(pours, shift_s)
        stretches = spread(pours, shift_s=shift_s)
        ends = max(part.ends_s for stretch in stretches for part in stretch.parts)
        assert len(stretches) <= len(windows)
        assert {stretch.parts[0].begins_s for stretch in stretches} <= {window.from_s for window in windows}
        assert ends <= windows[-1].until_s + 2 * MIX.cadence_s
