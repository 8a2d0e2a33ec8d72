"""A pour of 60 mixes, worked out with pencil and wristwatch.

The times of the trade in it (at 72 °F: liquids mixed about 30 s and the powder about a minute more, the broadcast 12 to
15 min after placing) are common practice, no source. Rooms, crew and open times are made up for the sum.
"""

import math
from dataclasses import replace
from datetime import datetime, time

import pytest
from tests.asked import pour_plan
from tests.builders import FT, FT3, INCH, MINUTE, aggregate, context, curve, fahrenheit, mixes, system, triple

from gaugerake.answers.pour_plan.answer import PourPlan
from gaugerake.answers.pour_plan.mix_clock import Mix
from gaugerake.floor.cure.curve import TimeCurve, time_curve, time_point
from gaugerake.floor.job import Crew, Job, Order, Rectangle, Room, Shift, Steady, Weekday, Work
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.pour.mixes import open_time_s
from gaugerake.floor.system import System, Thickness

ROOM_TEMPERATURE = fahrenheit(72)


def at_72(low_minutes: float, high_minutes: float) -> TimeCurve:
    return curve((72, low_minutes, high_minutes), unit_s=MINUTE)


# 0.375 ft³ to a mix at 3/16 in (1/64 ft): 0.375 · 64 = 24 ft² of floor
BODY = mixes(
    yield_m3=triple(0.375 * FT3),
    mixing_s=30.0 + 60.0,
    pour_within_s=120.0,
    roll_within_s=300.0,
    open_time=at_72(12, 15),
)
CAST = {"cure": at_72(24 * 60, 24 * 60), "rate_kg_m2": triple(3.0)}
SYSTEM = system(
    BodyLayer(id="body", name="Body", product=BODY, broadcast_wait=at_72(12, 15)),
    BroadcastLayer(id="broadcast", name="Broadcast", product=aggregate(), **CAST),
    code="level",
    reference_temperature_k=ROOM_TEMPERATURE,
    thickness=Thickness(low_m=INCH / 8, usual_m=3 / 16 * INCH, high_m=INCH / 2),
)
# two stations at four minutes: a mix every 2 min; 24 ft² at 900 ft²/h: 1.6 min to place one; so every 2 min
CREW = Crew(mixing_stations=2, minutes_per_mix=4.0, placing_rate_m2_s=900 * FT**2 / 3600, lane_depth_m=3 * FT)
# 48 ft by 30 ft are 1440 ft²: 60 mixes of 24 ft², no waste, no keyway, no profile
SIXTY = Room(shape=Rectangle(length_m=48 * FT, width_m=30 * FT), name="Sixty mixes")


def plan(*rooms: Room, until: time = time(15, 30), crew: Crew = CREW, laid: System = SYSTEM) -> PourPlan:
    work = Work(
        start=datetime.fromisoformat("2027-03-05T07:00"),
        zone="America/Chicago",
        temperatures=Steady(temperature_k=ROOM_TEMPERATURE),
        material_temperature_k=ROOM_TEMPERATURE,
        shifts=(Shift(days=tuple(Weekday), starts=time(7, 0), ends=until),),
        preparation_s=0.0,
        crew=crew,
    )
    job = Job(system="level", rooms=rooms or (SIXTY,), work=work, order=Order(waste_percent=0.0))
    return pour_plan(context(job, laid))


def row(mix: Mix) -> tuple[str, ...]:
    """A mix as it stands on the foreman's sheet."""
    instants = (mix.mix_at, mix.pour_by, mix.placed, mix.roll_by, mix.broadcast_from, mix.broadcast_by)
    return tuple(f"{at:%H:%M:%S}" for at in instants)


def minutes(figure: object) -> float:
    return figure.value / 60  # type: ignore[attr-defined]


def test_with_a_longer_open_time_the_wait_of_the_aggregate_decides() -> None:
    """Open 20 to 30 min, sqrt(600) = 24.5 likely: placed 3.6 min after mixing, and 12 to 15 min later it is cast."""
    body = replace(SYSTEM.layers[0], product=replace(BODY, open_time=at_72(20, 30)))
    found = plan(laid=replace(SYSTEM, layers=(body, SYSTEM.layers[1]))).mixes or ()
    assert row(found[0])[4:] == ("07:17:06", "07:20:06")


class TestSixtyMixes:
    def test_the_wet_edge_by_hand(self) -> None:
        pour = plan().pours[0]
        assert minutes(pour.cadence) == pytest.approx(2.0)  # max(4 / 2, 24 / 900 · 60)
        assert pour.lane.area.value == pytest.approx(90 * FT**2)  # 30 ft · 3 ft
        assert minutes(pour.overtaken_after) == pytest.approx(7.5)  # 90 / 24 = 3.75 mixes of 2 min
        assert minutes(pour.needed) == pytest.approx(11.1)  # 7.5 + 2 to the pour + 1.6 to place
        assert minutes(pour.open_time) == pytest.approx(12.0)
        assert pour.holds is True

    def test_sixty_mixes_in_two_hours(self) -> None:
        pour = plan().pours[0]
        assert (pour.first_mix, pour.last_mix, pour.mixes) == (1, 60, 60)
        assert (f"{pour.from_:%H:%M}", f"{pour.until:%H:%M}") == ("07:00", "09:00")

    # mix n starts at 7:00 + 2(n - 1) min; + 1.5 mixed; + 2 poured; + 1.6 placed; + 5 rolled; placed + 12 … 15 to cast;
    # but mixed + sqrt(12 * 15) = 13.4164 min (13:24.98) is when the body likely closes, before either: 14:54.98
    @pytest.mark.parametrize(
        ("number", "sheet"),
        [
            (1, ("07:00:00", "07:03:30", "07:05:06", "07:10:06", "07:14:54", "07:14:54")),
            (2, ("07:02:00", "07:05:30", "07:07:06", "07:12:06", "07:16:54", "07:16:54")),
            (31, ("08:00:00", "08:03:30", "08:05:06", "08:10:06", "08:14:54", "08:14:54")),
            (60, ("08:58:00", "09:01:30", "09:03:06", "09:08:06", "09:12:54", "09:12:54")),
        ],
    )
    def test_the_foremans_sheet(self, number: int, sheet: tuple[str, ...]) -> None:
        mixes = plan().mixes or ()
        assert (mixes[number - 1].number, row(mixes[number - 1])) == (number, sheet)

    def test_every_mix_comes_two_minutes_after_the_one_before(self) -> None:
        mixes = plan().mixes or ()
        assert [mix.minutes.mix_at for mix in mixes] == [2.0 * index for index in range(60)]
        assert {round(mix.minutes.placed - mix.minutes.mix_at, 4) for mix in mixes} == {5.1}

    def test_the_edge_of_a_mix_is_wet_until_its_open_time_after_mixing(self) -> None:
        first = (plan().mixes or ())[0]
        assert f"{first.wet_until:%H:%M:%S}" == "07:13:30"  # 7:00 + 1.5 + 12


class TestOneStation:
    """A mix every four minutes: 3.75 · 4 + 2 + 1.6 = 18.6 min, and the edge is open for 12."""

    ALONE = replace(CREW, mixing_stations=1)

    def test_it_is_lost_to_mixing(self) -> None:
        found = plan(crew=self.ALONE)
        assert (found.feasible, found.bottleneck) == (False, "mixing")
        assert minutes(found.pours[0].needed) == pytest.approx(18.6)

    def test_two_stations_hold_it(self) -> None:
        remedies = {remedy.kind: remedy.value for remedy in plan(crew=self.ALONE).remedies}
        assert remedies["mixing-stations"] == 2

    def test_so_does_a_pour_16_and_a_half_feet_wide(self) -> None:
        # (12 - 3.6) / 4 = 2.1 mixes of 24 ft² are 50.4 ft²: 16.8 ft at 3 ft deep; in half feet 16.5
        remedies = {remedy.kind: remedy.value for remedy in plan(crew=self.ALONE).remedies}
        assert remedies["narrower-pour"].value == pytest.approx(16.5 * FT)  # type: ignore[union-attr]


class TestTwoRoomsAndAShift:
    """10 by 27 ft are 270 ft²: 11.25 mixes; 10 by 30 are 12.5: 23.75 in all, 24 whole ones."""

    FIRST = Room(shape=Rectangle(length_m=27 * FT, width_m=10 * FT), name="First")
    SECOND = Room(shape=Rectangle(length_m=30 * FT, width_m=10 * FT), name="Second")

    def test_in_one_shift_the_twelfth_mix_is_shared(self) -> None:
        found = plan(self.FIRST, self.SECOND)
        assert [(pour.first_mix, pour.last_mix) for pour in found.pours] == [(1, 12), (12, 24)]
        assert [(mix.number, mix.runs_on_to) for mix in found.mixes or () if mix.runs_on_to] == [(12, "Second")]

    def test_when_the_shift_ends_between_them_it_is_not(self) -> None:
        # 11.25 · 2 = 22.5 min and 12.5 · 2 = 25 min: not 47.5 in a shift of 40; 12 and then 13 mixes
        found = plan(self.FIRST, self.SECOND, until=time(7, 40))
        assert [(pour.first_mix, pour.last_mix) for pour in found.pours] == [(1, 12), (13, 25)]
        assert [f"{pour.from_:%d %H:%M}" for pour in found.pours] == ["05 07:00", "06 07:00"]

    def test_sixty_mixes_do_not_fit_50_minutes(self) -> None:
        # 50 / 2 = 25 mixes a day, at a joint; the last day has 10
        found = plan(until=time(7, 50))
        assert [(pour.first_mix, pour.last_mix, pour.stops_at) for pour in found.pours] == [
            (1, 25, "joint"),
            (26, 50, "joint"),
            (51, 60, "end"),
        ]
        assert f"{found.pours[2].until:%d %H:%M}" == "07 07:20"


def test_halfway_in_one_over_t_the_open_time_is_the_geometric_mean() -> None:
    # ln t is linear in 1/T: at 2 / (1/283.15 + 1/303.15) K it is the square root of 20 · 8 min
    curve = time_curve([time_point(temperature_k=283.15, low_s=1200.0), time_point(temperature_k=303.15, low_s=480.0)])
    halfway = 2 / (1 / 283.15 + 1 / 303.15)
    found = open_time_s(curve=curve, floor_k=halfway, material_k=280.0)
    assert found == pytest.approx(60 * math.sqrt(20 * 8), rel=1e-12)
