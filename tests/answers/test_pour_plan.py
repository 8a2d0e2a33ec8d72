"""The pour plan of a job: what holds, what would make it hold, and where it stops."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.answers.pour_jobs import (
    BODY,
    CASES,
    CLEAR,
    CREW,
    CURE,
    HALL,
    HOT_DAY,
    HOT_FLOOR,
    LEVEL,
    RATE,
    SLOW_BOTH,
    SLOW_HANDS,
    SLOW_MIXING,
    STEPS_BACK,
    STORE,
    WEEK,
    WORK,
    as_shown,
    cautions,
    context,
    in_minutes,
    is_too_late,
    plan,
    with_a_step_less,
    with_crew,
    with_remedy,
)
from tests.asked import pour_plan, return_times
from tests.builders import FT, fahrenheit

from gaugerake.answers.job import resolve_work
from gaugerake.answers.pour_plan.answer import PourPlan
from gaugerake.answers.show.describe import Describer
from gaugerake.answers.show.reader import SI_READER, US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.cure.course import LoggedCourse, logged_course
from gaugerake.floor.job import Daily, Measured, Readings, Rectangle, Room, Shift, Steady, TemperatureReading
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.product import Hazard
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.range import Triple

KINDS = {
    "slow mixing": {"mixing-stations", "narrower-pour"},
    "slow hands": {"placing", "narrower-pour"},
    "slow at both": {"stations-and-placing", "narrower-pour"},
    "slow casting": {"casting", "narrower-pour"},
    "too few": {"people"},
    "hot material": {"stations-and-placing", "narrower-pour", "cooler-material"},
    "hot floor": {"stations-and-placing", "narrower-pour", "cooler-floor"},
    "hot day": {"narrower-pour", "later-start", "earlier-start"},
}


class TestFeasibility:
    def test_two_stations_hold_the_hall(self) -> None:
        found = plan()
        assert (found.feasible, found.bottleneck, found.remedies) == (True, None, ())

    def test_the_larger_term_is_the_bottleneck(self) -> None:
        assert plan(work=SLOW_MIXING).bottleneck == "mixing"
        assert plan(work=SLOW_HANDS).bottleneck == "placing"

    def test_when_no_crew_could_hold_it_the_open_time_is(self) -> None:
        quick = replace(BODY, open_time=in_minutes((70, 1.5, 2)))
        layers = (replace(LEVEL.layers[0], product=quick), LEVEL.layers[1])
        found = plan(system=replace(LEVEL, layers=layers))
        assert (found.feasible, found.bottleneck) == (False, "open-time")
        assert not {remedy.kind for remedy in found.remedies} & {"mixing-stations", "placing", "stations-and-placing"}

    def test_one_room_that_fails_fails_the_plan(self) -> None:
        found = plan(STORE, HALL, work=with_crew(mixing_stations=1))
        assert [pour.holds for pour in found.pours] == [True, False]
        assert found.feasible is False

    def test_without_an_open_time_nobody_can_say(self) -> None:
        layers = (replace(LEVEL.layers[0], product=replace(BODY, open_time=None)), LEVEL.layers[1])
        system = replace(LEVEL, layers=layers)
        found = plan(system=system, work=SLOW_MIXING)
        assert (found.feasible, found.bottleneck, found.remedies) == (None, None, ())
        assert [pour.holds for pour in found.pours] == [None]
        assert "pour-open-time-unstated" in cautions(system=system)

    def test_a_system_without_a_body_has_nothing_to_fail(self) -> None:
        rate = Triple(low=4.0, likely=5.0, high=6.0)
        coats = (CoatLayer(id="coat", name="Coat", product=CLEAR, cure=CURE, spreading_rate_m2_m3=rate),)
        found = plan(system=replace(LEVEL, layers=coats))
        assert found == PourPlan(
            feasible=True, bottleneck=None, remedies=(), least_crew=None, cadence=None, pours=(), mixes=()
        )

    def test_the_slowest_room_gives_the_cadence(self) -> None:
        thin = replace(STORE, thickness_m=0.004)
        found = plan(HALL, thin, work=SLOW_HANDS)
        assert found.cadence == max(pour.cadence for pour in found.pours)

    def test_thicker_rooms_take_smaller_lanes_to_hold(self) -> None:
        usual, thick = plan(HALL).pours[0], plan(replace(HALL, thickness_m=FT / 48)).pours[0]
        assert thick.overtaken_after.value > usual.overtaken_after.value


class TestRemedies:
    @pytest.mark.parametrize("name", CASES)
    def test_the_kinds_that_help_are_found(self, name: str) -> None:
        assert KINDS[name] <= {remedy.kind for remedy in plan(work=CASES[name]).remedies}

    @pytest.mark.parametrize("name", CASES)
    def test_each_remedy_frees_the_pour_and_a_step_less_does_not(self, name: str) -> None:
        work = CASES[name]
        for remedy in plan(work=work).remedies:
            assert plan(work=with_remedy(work, remedy)).feasible is True, remedy.kind
            for less in with_a_step_less(work, remedy):
                assert plan(work=less).feasible is False, remedy.kind

    @pytest.mark.parametrize("name", CASES)
    @pytest.mark.parametrize("reader", [US_READER, SI_READER])
    def test_a_remedy_rounded_as_it_is_shown_frees_it_too(self, name: str, reader: Any) -> None:
        work = CASES[name]
        for remedy in plan(work=work).remedies:
            assert plan(work=with_remedy(work, as_shown(remedy, reader))).feasible is True, remedy.kind

    @settings(max_examples=25, deadline=None)
    @given(
        stations=st.integers(1, 4),
        minutes=st.floats(2, 8),
        rate=st.floats(300, 1500),
        floor=st.floats(48, 92),
        material=st.floats(48, 92),
        width=st.floats(8, 80),
    )
    def test_whatever_the_crew_a_remedy_frees_it_and_a_step_less_does_not(
        self, stations: int, minutes: float, rate: float, floor: float, material: float, width: float
    ) -> None:
        crew = replace(CREW, mixing_stations=stations, minutes_per_mix=minutes, placing_rate_m2_s=rate * RATE)
        work = replace(
            WORK,
            crew=crew,
            temperatures=Steady(temperature_k=fahrenheit(floor)),
            material_temperature_k=fahrenheit(material),
        )
        room = Room(shape=Rectangle(length_m=80 * FT, width_m=width * FT))
        found = plan(room, work=work)
        assert found.feasible is not None
        for remedy in found.remedies:
            assert plan(room, work=with_remedy(work, remedy)).feasible is True, remedy.kind
            for less in with_a_step_less(work, remedy):
                assert is_too_late(plan(room, work=less)), remedy.kind

    @settings(max_examples=25, deadline=None)
    @given(minutes=st.floats(2, 8), floor=st.floats(48, 90), width=st.floats(8, 80), warmer=st.floats(0.1, 5))
    def test_another_station_or_a_cooler_floor_never_loses_an_edge(
        self, minutes: float, floor: float, width: float, warmer: float
    ) -> None:
        room = Room(shape=Rectangle(length_m=80 * FT, width_m=width * FT))
        work = replace(with_crew(minutes_per_mix=minutes), temperatures=Steady(temperature_k=fahrenheit(floor)))
        if not plan(room, work=replace(work, temperatures=Steady(temperature_k=fahrenheit(floor + warmer)))).feasible:
            return
        assert plan(room, work=work).feasible is True
        assert plan(room, work=replace(work, crew=replace(work.crew, mixing_stations=3))).feasible is True

    def test_stations_are_tried_one_by_one(self) -> None:
        found = {remedy.kind: remedy.value for remedy in plan(work=SLOW_MIXING).remedies}
        assert found["mixing-stations"] == 2

    def test_a_log_is_read_once_however_many_changes_are_tried(self, monkeypatch: pytest.MonkeyPatch) -> None:
        read: list[LoggedCourse] = []

        def logged(readings: Iterable[tuple[float, float]]) -> LoggedCourse:
            read.append(logged_course(readings))
            return read[-1]

        monkeypatch.setattr(resolve_work, "logged_course", logged)
        at = datetime.fromisoformat("2027-03-05T00:00")
        rows = [
            TemperatureReading(at=at + timedelta(hours=3 * hour), temperature_k=291.0 + hour % 3) for hour in range(30)
        ]
        work = replace(with_crew(mixing_stations=1), temperatures=Readings(readings=tuple(rows)))
        assert len(plan(work=work).remedies) > 1
        assert len(read) == 1

    def test_material_no_hotter_than_the_floor_is_not_to_be_cooled(self) -> None:
        assert "cooler-material" not in {remedy.kind for remedy in plan(work=HOT_FLOOR).remedies}

    def test_without_a_start_no_hour_is_proposed(self) -> None:
        kinds = {remedy.kind for remedy in plan(work=replace(HOT_DAY, start=None)).remedies}
        assert not kinds & {"later-start", "earlier-start"}

    def test_every_remedy_has_its_sentence(self) -> None:
        texts = {
            remedy.kind: render(remedy, US_READER)["text"]
            for name in CASES
            for remedy in plan(work=CASES[name]).remedies
        }
        assert set(texts) == set(STEPS_BACK)
        assert texts["mixing-stations"] == "Mix at 2 stations instead of 1."


class TestMixes:
    def test_the_clock_of_a_mix(self) -> None:
        """The wait ends 3.6 + 14 min after mixing, the likely open time of sqrt(15 * 20) = 17.3205 min before it."""
        mix = plan().mixes[1]  # type: ignore[index]
        assert (mix.number, mix.room, mix.layer, mix.runs_on_to) == (2, "Hall", "body", None)
        assert [
            f"{at:%H:%M:%S}"
            for at in (mix.mix_at, mix.pour_by, mix.placed, mix.roll_by, mix.broadcast_from, mix.broadcast_by)
        ] == ["06:02:00", "06:06:30", "06:08:06", "06:13:06", "06:18:06", "06:21:49"]

    def test_the_same_in_minutes_from_the_first_mix(self) -> None:
        minutes = plan(work=replace(WORK, start=None)).mixes[1].minutes  # type: ignore[index]
        assert (minutes.mix_at, minutes.pour_by, minutes.placed, minutes.roll_by) == (2.0, 6.5, 8.1, 13.1)
        assert (minutes.broadcast_from, minutes.broadcast_by) == (18.1, 21.8205)  # 4.5 + 17.3205

    def test_without_a_start_there_are_no_instants(self) -> None:
        found = plan(work=replace(WORK, start=None))
        assert found.pours[0].from_ is None
        assert {mix.mix_at for mix in found.mixes or ()} == {None}

    def test_a_quote_has_no_mixes_and_the_same_pours(self) -> None:
        quoted = pour_plan(context(), with_mixes=False)
        assert quoted.mixes is None
        unlisted = [replace(one, marks=None) for one in plan().pours]
        assert replace(quoted, mixes=()) == replace(plan(), mixes=(), pours=tuple(unlisted))

    def test_a_mix_shared_at_a_boundary_names_both_rooms(self) -> None:
        longer = replace(HALL, shape=Rectangle(length_m=61 * FT, width_m=40 * FT))
        found = plan(longer, STORE)
        assert found.pours[0].last_mix == found.pours[1].first_mix
        shared = found.mixes[found.pours[0].last_mix - 1]  # type: ignore[index]
        assert (shared.room, shared.runs_on_to) == ("Hall", "Store")

    def test_the_warmer_hour_has_the_earlier_broadcast(self) -> None:
        warming = replace(
            WORK,
            temperatures=Daily(low_k=fahrenheit(50), high_k=fahrenheit(80), coldest_at=time(5, 0)),
            material_temperature_k=fahrenheit(50),
            crew=replace(CREW, mixing_stations=6, placing_rate_m2_s=4000 * RATE),
        )
        waits = [(mix.minutes.broadcast_by or 0) - mix.minutes.placed for mix in plan(work=warming).mixes or ()]
        assert waits == sorted(waits, reverse=True)
        assert waits[0] - waits[-1] > 1

    def test_a_body_without_a_broadcast_has_no_window(self) -> None:
        found = plan(system=replace(LEVEL, layers=(replace(LEVEL.layers[0], cure=CURE),)))
        assert {mix.broadcast_by for mix in found.mixes or ()} == {None}

    def test_very_many_mixes_are_counted_but_not_all_listed(self) -> None:
        works = Room(shape=Measured(area_m2=30_000.0), name="Works")
        asked = context(works, work=replace(WORK, round_the_clock=True, shifts=None))
        found = pour_plan(asked)
        assert len(found.mixes or ()) == 5000
        assert found.pours[-1].last_mix > 14_000
        assert "pour-mixes-unlisted" in {note.code for note in asked.record.cautions}


class TestStops:
    SHORT = replace(WORK, shifts=(Shift(days=WEEK, starts=time(6, 0), ends=time(8, 0)),))
    SHORTER = replace(WORK, shifts=(Shift(days=WEEK, starts=time(6, 0), ends=time(7, 0)),))
    SECOND = replace(STORE, name="Second")

    def test_a_room_that_no_longer_fits_waits_for_the_next_shift(self) -> None:
        found = plan(STORE, self.SECOND, work=self.SHORTER)
        assert [(pour.room, f"{pour.from_:%a %H:%M}", pour.stops_at) for pour in found.pours] == [
            ("Store", "Fri 06:00", "room"),
            ("Second", "Sat 06:00", "end"),
        ]

    def test_what_a_stop_loses_is_said(self) -> None:
        assert cautions(STORE, self.SECOND, work=self.SHORTER)["pour-stops-lose-mixes"] == "/work/shifts"

    def test_a_room_longer_than_any_shift_stops_at_a_joint_and_says_so(self) -> None:
        found = plan(HALL, work=self.SHORT)
        assert [pour.stops_at for pour in found.pours] == ["joint", "end"]
        assert found.pours[0].last_mix + 1 == found.pours[1].first_mix
        assert cautions(HALL, work=self.SHORT)["pour-stops-at-joint"] == "/rooms/0/terminations"

    def test_strips_are_new_terminations(self) -> None:
        work = with_crew(lane_width_m=15 * FT)
        found = plan(work=work)
        assert found.pours[0].lane.strips == 3
        assert found.pours[0].lane.width.value == pytest.approx(15 * FT)
        assert cautions(work=work)["pour-strips"] == "/work/crew/lane_width"

    def test_a_floor_that_warms_during_the_pour_is_a_caution(self) -> None:
        warming = replace(WORK, temperatures=Daily(low_k=fahrenheit(60), high_k=fahrenheit(70), coldest_at=time(5, 0)))
        assert cautions(work=warming)["pour-floor-warms"] == "/work/temperatures"

    def test_a_floor_that_cools_is_none(self) -> None:
        cooling = replace(WORK, temperatures=Daily(low_k=fahrenheit(60), high_k=fahrenheit(70), coldest_at=time(18, 0)))
        assert "pour-floor-warms" not in cautions(work=cooling)

    def test_a_peak_within_the_pour_is_seen(self) -> None:
        def at(hour: int, minute: int, degrees: float) -> TemperatureReading:
            return TemperatureReading(
                at=datetime.fromisoformat(f"2027-03-05T{hour:02}:{minute:02}"), temperature_k=fahrenheit(degrees)
            )

        peak = replace(WORK, temperatures=Readings(readings=(at(6, 0, 60), at(6, 45, 75), at(7, 30, 60))))
        found = plan(work=peak)
        assert found.pours[0].temperature.value == pytest.approx(fahrenheit(75))

    def test_a_floor_for_ever_under_the_limit_is_never_poured(self) -> None:
        cold = replace(WORK, temperatures=Steady(temperature_k=fahrenheit(40)))
        found = plan(work=cold)
        assert (found.feasible, found.bottleneck, found.remedies, found.pours) == (False, None, (), ())
        assert "pour-never" in cautions(work=cold)
        asked = context(work=cold)
        pour_plan(asked)
        why = next(note for note in asked.record.cautions if note.code == "never-within-limits")
        assert "No shift that is long enough has the floor at 45 °F to 95 °F" in render(why, US_READER)["text"]


class TestTwoBodies:
    DOUBLE = replace(
        LEVEL,
        layers=(
            replace(LEVEL.layers[0], id="body-1", share_fraction=0.25),
            replace(LEVEL.layers[1], id="broadcast-1"),
            replace(LEVEL.layers[0], id="body-2", share_fraction=0.75),
            replace(LEVEL.layers[1], id="broadcast-2"),
        ),
    )

    def test_each_body_is_a_pour_of_its_own_and_numbers_its_own_mixes(self) -> None:
        found = plan(system=self.DOUBLE)
        assert [(pour.layer, pour.first_mix) for pour in found.pours] == [("body-1", 1), ("body-2", 1)]
        assert [mix.layer for mix in found.mixes or () if mix.number == 1] == ["body-1", "body-2"]

    def test_the_second_waits_for_the_first_to_cure(self) -> None:
        first, second = plan(system=self.DOUBLE).pours
        assert first.until is not None and second.from_ is not None
        assert (second.from_ - first.until).total_seconds() > 8 * 3600

    def test_the_thinner_body_goes_further(self) -> None:
        first, second = plan(system=self.DOUBLE).pours
        assert first.mix_area.value == pytest.approx(3 * second.mix_area.value)

    def test_the_pour_begins_when_the_timetable_says(self) -> None:
        asked = context(system=self.DOUBLE)
        bodies = [step for step in return_times(asked).steps if step.layer in ("body-1", "body-2")]
        assert [pour.from_ for pour in pour_plan(asked).pours] == [step.from_ for step in bodies]


class TestNotes:
    def test_a_room_known_by_its_area_is_taken_for_one_twice_as_long_as_wide(self) -> None:
        asked = context(HALL, Room(shape=Measured(area_m2=50.0)))
        found = pour_plan(asked)
        taken = [note for note in asked.record.assumptions if note.code == "pour-across-measured-room"]
        assert [(note.pointer, note.value) for note in taken] == [("/rooms/1/shape", Figure(5.0, "length"))]
        assert found.pours[1].lane.width.value == pytest.approx(5.0)

    def test_the_hazards_of_what_is_poured_are_told_but_not_again_in_a_quote(self) -> None:
        warm = replace(BODY, hazards=(Hazard.EXOTHERM, Hazard.ISOCYANATE))
        system = replace(LEVEL, layers=(replace(LEVEL.layers[0], product=warm), LEVEL.layers[1]))
        alone, quoted = context(system=system), context(system=system)
        pour_plan(alone)
        pour_plan(quoted, with_mixes=False)
        of_casting = ["cast-late", "cast-wet-edge-last"]
        codes = [note.code for note in alone.record.cautions]
        assert codes == [*of_casting, "hazard-isocyanate", "hazard-exotherm"]
        render(alone.record.cautions, US_READER)
        assert [note.code for note in quoted.record.cautions] == of_casting


class TestForm:
    def test_the_answer_is_what_its_schema_says(self) -> None:
        describer = Describer()
        describer.schema(PourPlan)
        shown = render(plan(work=SLOW_BOTH), US_READER)
        assert list(shown) == list(describer.components["PourPlan"]["properties"])
        assert set(shown["pours"][0]) == set(describer.components["Pour"]["properties"])

    def test_every_figure_that_may_be_questioned_has_its_working(self) -> None:
        asked = context(HALL, STORE, with_working=True)
        pour_plan(asked)
        figures = {entry.figure: entry for entry in asked.record.working or ()}
        render(tuple(figures.values()), US_READER)
        for at in ("/pours/0", "/pours/1"):
            wanted = ("mix_area", "cadence", "overtaken_after", "needed", "open_time", "mixes")
            assert {f"{at}/{name}" for name in wanted} <= set(figures)
        assert figures["/pours/0/overtaken_after"].result == pour_plan(context(HALL, STORE)).pours[0].overtaken_after
        assert "/cadence" in figures

    def test_two_thousand_rooms_stay_within_bounds(self) -> None:
        rooms = tuple(Room(shape=Rectangle(length_m=10.0, width_m=10.0), name=f"Room {n}") for n in range(2000))
        found = plan(*rooms, work=replace(HOT_DAY, round_the_clock=True, shifts=None))
        assert len(found.pours) == 2000
