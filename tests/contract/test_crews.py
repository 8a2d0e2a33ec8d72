"""Two jobs from the counter, crew and all, worked by hand; and what cannot be said of a crew.

Rates and hands are the demonstration's unsaid ones or common practice, no source. Volumes and the yield of 0.55 ft³ a
mix are the demonstration's own.
"""

import pytest
from flask.testing import FlaskClient
from tests.builders import ask, client_of, document, measured, rectangle
from tests.changes import put, with_remedy

from gaugerake.catalogue.store.demo import demo_snapshot


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return client_of(demo_snapshot())


# "12,000 square feet with two people and one mixer"

HALL = document(
    rectangle("150 ft", "80 ft", joints=[], profile_csp=4),
    thickness="1/4 in",
    work={
        "start": "2027-03-01T07:00",
        "zone": "America/Chicago",
        "temperatures": {"steady": "65 degF"},
        "crew": {"people": 2, "mixing_stations": 1},
    },
    order={"waste_percent": 0},
)


def test_two_people_cannot_pour_12000_square_feet(client: FlaskClient) -> None:
    """One mixes, one places, one rolls and one casts: four, not two."""
    plan = ask(client, "pour-plan", HALL)
    assert (plan["feasible"], plan["bottleneck"]) == (False, "people")
    told = next(one for one in plan["cautions"] if one["code"] == "pour-short-handed")
    assert told["pointer"] == "/work/crew/people"
    for remedy in plan["remedies"]:
        mended = with_remedy(HALL, remedy)
        assert mended["work"]["crew"]["people"] >= 4
        assert ask(client, "pour-plan", mended)["feasible"] is True


def test_the_smallest_crew_for_it_is_said_and_does_it(client: FlaskClient) -> None:
    """In strips of 20 ft, at 1,500 ft²/h. Each station takes one who mixes; three more place, roll and cast."""
    crew = {"placing_rate": "1500 ft2/h", "lane_width": "20 ft", "minutes_per_mix": 6}
    least = ask(client, "pour-plan", put(HALL, "/work/crew", crew))["least_crew"]
    assert least["mixing_stations"] > 1
    assert least["people"] == least["mixing_stations"] + 3
    quick = put(HALL, "/work/crew", {**crew, **least})
    assert ask(client, "pour-plan", quick)["feasible"] is True
    fewer = put(quick, "/work/crew/mixing_stations", least["mixing_stations"] - 1)
    assert ask(client, "pour-plan", fewer)["feasible"] is False


def test_its_slab_and_keyway_take_the_first_days(client: FlaskClient) -> None:
    """12,000 ft² at 300 ft²/h are 40 h; a keyway 5 in inside the walls is 2·(150 + 80 − 4·5/12) = 456.67 ft, 7.61 h."""
    times = ask(client, "return-times", HALL)
    rows = {one["task"]: one for one in times["labour"]["tasks"]}
    assert rows["prepare"]["hours"]["value"] == pytest.approx(40)
    assert rows["prepare"]["person_hours"]["value"] == pytest.approx(80)
    assert rows["saw"]["hours"]["value"] == pytest.approx(2 * (150 + 80 - 4 * 5 / 12) / 60, rel=1e-5)
    assert rows["coat"]["person_hours"]["value"] == pytest.approx(2 * 2 * 12)
    assert times["labour"]["people_needed"] == 4


# "About 1,500 square feet, forklift Monday"

COUNTER = document(measured("1500 ft2"), of="double-quartz")


def test_a_counter_without_a_start_is_answered_for_a_crew_that_goes_home(client: FlaskClient) -> None:
    """1,500 ft² at 300 ft²/h are prepared in 5 h, from Monday 07:00.

    Nothing is begun at night: every step begins between 0 and 8.5 h of its day, counted from 07:00 of the first.
    """
    times = ask(client, "return-times", COUNTER)
    first = times["steps"][0]
    assert (first["step"], first["after"]["value"], first["lasts"]["value"]) == ("prepare", 0, pytest.approx(5))
    for step in times["steps"]:
        if step["step"] != "apply" or step["hands"]:
            assert step["after"]["value"] % 24 <= 8.5, step
    assert "nominal-monday" in {one["code"] for one in times["assumptions"]}


def test_round_the_clock_it_is_back_sooner(client: FlaskClient) -> None:
    day = ask(client, "return-times", COUNTER)["returns"]
    night = ask(client, "return-times", put(COUNTER, "/work", {"round_the_clock": True}))["returns"]
    for shifts, hours in zip(day, night, strict=True):
        assert hours["after"]["value"] < shifts["after"]["value"]


def test_the_figure_holds_for_any_monday(client: FlaskClient) -> None:
    """Posted with a Monday that no change of the clocks is near, at 07:00: hour for hour the same."""
    dated = put(COUNTER, "/work", {"start": "2027-06-07T07:00", "zone": "America/Chicago"})
    without, with_one = (ask(client, "return-times", job) for job in (COUNTER, dated))
    assert [one["after"] for one in without["steps"]] == [one["after"] for one in with_one["steps"]]
    for counted, on_the_day in zip(without["returns"], with_one["returns"], strict=True):
        assert counted["after"]["value"] == pytest.approx(on_the_day["after"]["value"], abs=1 / 60)


REPAIRED = document(
    rectangle(
        *("42 ft", "28 ft"),
        joints=[],
        cracks=[{"length": "300 ft", "width": "1/4 in", "depth": "1/4 in"}],
        cove={"length": "110 ft", "height": "6 in"},
    ),
    work={"start": "2027-03-05T06:00", "zone": "America/Chicago", "crew": {"people": 2}},
)


def test_a_repair_longer_than_a_shift_goes_on_in_the_next_and_stops_at_no_keyway(client: FlaskClient) -> None:
    """300 ft of cracks at 30 ft/h are 10 h, and a shift has 8.5. Repair and cove are of one mortar, and told apart."""
    told = {one["code"]: one["text"] for one in ask(client, "return-times", REPAIRED)["cautions"]}
    assert told["split-over-shifts"].startswith("Repair: Urethane-cement cove mortar takes longer than any shift")
    assert "keyway" not in told["split-over-shifts"]
    assert "split-at-shift-end" not in told
    assert told["short-handed"] == "Cove: Urethane-cement cove mortar: this takes 3 people, and the crew has 2."


def test_the_sheets_of_the_days_tell_repair_and_cove_apart(client: FlaskClient) -> None:
    page = client.post("/v1/day-sheets", json=REPAIRED, headers={"Accept": "text/html"}).get_data(as_text=True)
    assert ">Repair: Urethane-cement cove mortar</th>" in page
    assert ">Cove: Urethane-cement cove mortar</th>" in page
    assert ">Urethane-cement cove mortar</th>" not in page


def test_the_time_of_each_mix_that_nobody_says_is_told(client: FlaskClient) -> None:
    """Mixing states 3.5 min of the cove's mortar and 3 min of the body, and the changeover takes 1.5 min: 5 and 4.5."""
    coved = document(rectangle("20 ft", "12 ft", joints=[], cove={"length": "30 ft", "height": "4 in"}))
    told = [one for one in ask(client, "quotes", coved)["assumptions"] if one["code"] == "crew-minutes-per-mix"]
    assert sorted(one["value"]["value"] for one in told) == [4.5, 5]
    assert {one["pointer"] for one in told} == {"/work/crew/minutes_per_mix"}


def test_no_preparation_is_said_as_zero(client: FlaskClient) -> None:
    times = ask(client, "return-times", put(COUNTER, "/work", {"preparation": "0 h"}))
    assert "prepare" not in {one["step"] for one in times["steps"]}


# What cannot be


@pytest.mark.parametrize(
    ("pointer", "value", "code"),
    [
        ("/work/crew/hands", {"paint": 2}, "unknown-field"),
        ("/work/crew/hands/mix", 0, "number-out-of-range"),
        ("/work/crew/hands/mix", 1.5, "not-whole"),
        ("/work/crew/people", 0, "number-out-of-range"),
        ("/work/crew/people", 201, "number-out-of-range"),
        ("/work/crew/people", "two", "not-whole"),
        ("/work/crew/hourly_cost", 65, "not-money"),
        ("/work/crew/cove_rate", "20 ft2/h", "wrong-dimension"),
        ("/work/crew/cast_rate", "900 ft/h", "wrong-dimension"),
        ("/work/crew/prepare_rate", "300 lb/h", "wrong-dimension"),
        ("/work/crew/saw_rate", "0 ft/h", "measure-out-of-range"),
    ],
)
def test_what_a_crew_cannot_be_is_a_problem_at_its_place(
    client: FlaskClient, pointer: str, value: object, code: str
) -> None:
    response = client.post("/v1/return-times", json=put(COUNTER, pointer, value))
    assert response.status_code == 422
    error = response.get_json()["errors"][0]
    assert error["pointer"].startswith(pointer)
    assert error["code"] == code
    assert error["hint"]


def test_readings_without_a_start_ask_for_one(client: FlaskClient) -> None:
    readings = [{"at": "2027-03-01T07:00", "temperature": "65 degF"}]
    response = client.post("/v1/return-times", json=put(COUNTER, "/work/temperatures", {"readings": readings}))
    assert response.status_code == 422
    error = response.get_json()["errors"][0]
    assert (error["pointer"], error["code"]) == ("/work/start", "no-start")
    assert "work.start" in error["hint"]
