"""Progress of a pour: values by hand with their steps, what holds of all progress, and what is refused."""

from typing import Any, ClassVar

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.answers.slab_jobs import FROM_LEFT, HALL, PATH, START, ask, feet, job, post
from tests.builders import client_of

from gaugerake.catalogue.store.demo import demo_snapshot


def value(figure: dict[str, Any]) -> Any:
    return figure["value"]


def codes(answer: dict[str, Any]) -> list[str]:
    return [note["code"] for note in answer["advice"]]


class TestTheHall:
    """150 x 80 ft at 1/4 in, 12,000 ft²; 548 mixes ordered and 27 poured, so 521 are left."""

    def test_594_square_feet_are_on_plan_and_two_mixes_over(self) -> None:
        """594 / 27 = 22.000 ft² a mix. The rest, 11,406 ft², takes 11,406 / 594 x 27 = 518.45: 519, and 2 are over."""
        answer = ask(HALL, mixes=27, placed={"area": "594 ft2"}, mixes_left=521)
        assert value(answer["coverage"]["seen"]) == pytest.approx(22.0)
        assert value(answer["coverage"]["planned"]) == pytest.approx(22.0)
        assert answer["yield"]["within"] is True
        assert value(answer["mixes_needed"]["likely"]) == pytest.approx(11_406 / 594 * 27, rel=1e-5)
        assert (answer["mixes_left"], answer["over"]) == (521, 2)
        assert (answer["ends"], answer["stop_at"], answer["stretch"]) == (None, None, None)

    def test_580_square_feet_are_eleven_mixes_short(self) -> None:
        """580 / 27 = 21.481 ft² a mix; 11,420 / 580 x 27 = 531.62: 532, and 11 are short.

        548 x 21.4815 = 11,771.85 ft², / 80 = 147.148 ft = 147 ft 1.8 in. What is left covers 521 x 21.4815 = 11,191.85
        ft² at 1/4 in; over 11,420 ft² that is 0.25 x 0.980022 = 0.2450 in.
        """
        answer = ask(HALL, mixes=27, placed={"area": "580 ft2"}, mixes_left=521)
        assert value(answer["coverage"]["seen"]) == pytest.approx(21.481, abs=5e-4)
        assert value(answer["mixes_needed"]["likely"]) == pytest.approx(531.62, abs=5e-3)
        assert answer["over"] == -11
        assert value(answer["ends"]["to"]) == pytest.approx(147 + 1.8 / 12, abs=0.05 / 12)
        ends = next(note["text"] for note in answer["advice"] if note["code"] == "progress-short")
        assert ends == "Hall: the material ends at 147 ft 1 3/4 in, 11 mixes short."  # 1.78 in, to a quarter
        assert value(answer["stretch"]["thickness"]) == pytest.approx(0.2450, abs=5e-5)
        assert answer["stretch"]["allowed"] is True

    def test_with_no_mix_left_there_is_nothing_to_stretch(self) -> None:
        answer = ask(HALL, mixes=27, placed={"area": "594 ft2"}, mixes_left=0)
        assert answer["stretch"] is None
        assert codes(answer) == ["progress-short", "progress-buy"]

    def test_low_and_high_are_half_a_mix_less_and_more(self) -> None:
        """11,420 / 580 = 19.6897 mixes for each counted: x 26.5 = 521.776, x 27.5 = 541.466; 542 - 521 = 21 to buy."""
        answer = ask(HALL, mixes=27, placed={"area": "580 ft2"}, mixes_left=521)
        assert value(answer["mixes_needed"]["low"]) == pytest.approx(521.776, abs=1e-3)
        assert value(answer["mixes_needed"]["high"]) == pytest.approx(541.466, abs=1e-3)
        assert [(line["sku"], line["packs"], line["amount"]) for line in answer["buy"]] == [("W-1", 21, "1050.00")]

    def test_what_the_job_has_on_hand_counts_where_nobody_says_what_is_left(self) -> None:
        """12,000 / 22 = 545.45: 546 suffice in half of all cases, and 548 stand there: 548 - 27 = 521 are left."""
        on_hand = [{"sku": "W-1", "packs": 548}]
        document = HALL | {"order": {"waste_percent": 0, "confidence": 0.5, "on_hand": on_hand}}
        assert ask(document, mixes=27, placed={"area": "594 ft2"})["mixes_left"] == 521

    def test_the_edge_says_the_same_as_the_area(self) -> None:
        """580 / 80 = 7.25 ft."""
        by_area = ask(HALL, mixes=27, placed={"area": "580 ft2"}, mixes_left=521)
        by_edge = ask(HALL, mixes=27, placed={"room": "Hall", "to": "7 ft 3 in"}, mixes_left=521)
        by_number = ask(HALL, mixes=27, placed={"room": 1, "to": "7 ft 3 in"}, mixes_left=521)
        assert by_area == by_edge == by_number
        assert value(by_area["placed"]["to"]) == pytest.approx(7.25)

    def test_it_is_worst_first(self) -> None:
        short = ask(HALL, mixes=27, placed={"area": "580 ft2"}, mixes_left=521)
        assert codes(short) == ["progress-short", "progress-buy", "progress-stretch"]
        assert codes(ask(HALL, mixes=27, placed={"area": "594 ft2"}, mixes_left=521))[-1] == "progress-suffices"
        assert codes(ask(HALL, mixes=27, placed={"area": "594 ft2"}, mixes_left=519)) == [
            "progress-tight",
            "progress-buy",
            "progress-just-suffices",
        ]
        assert codes(ask(HALL, mixes=600, placed={"area": "12000 ft2"}, mixes_left=3)) == [
            "progress-yield-outside",
            "progress-done",
        ]


class TestThePace:
    """27 mixes of the hall from 08:00 to 10:15, one every 5 min. One station, 3 min and 1.5 more: 4.5 min planned."""

    TIMES: ClassVar[dict[str, Any]] = {"began": "2027-03-08T08:00", "at": "2027-03-08T10:15"}
    JOB: ClassVar[dict[str, Any]] = HALL | {"work": START | {"round_the_clock": True}}

    def test_it_ends_so_many_mixes_later(self) -> None:
        """519 x 5 min = 43 h 15 min after 10:15 on the 8th: 05:30 on the 10th."""
        answer = ask(self.JOB, mixes=27, placed={"area": "594 ft2"}, mixes_left=521, **self.TIMES)
        assert value(answer["cadence"]["seen"]) == pytest.approx(5.0)
        assert value(answer["cadence"]["planned"]) == pytest.approx(4.5)
        assert answer["finish"] == "2027-03-10T05:30:00-06:00"

    @pytest.mark.parametrize(
        ("at", "lasts"),
        [("2027-04-07T08:00", "29.96 days"), ("2027-03-09T08:01", "1.001 days"), ("2027-03-09T08:00", "")],
    )
    def test_a_pour_of_more_than_a_day_is_doubted(self, at: str, lasts: str) -> None:
        """8 March to 7 April are 30 days less the hour by which the clocks go forward: 719 / 24 h = 29.96."""
        answer = ask(self.JOB, mixes=27, placed={"area": "594 ft2"}, mixes_left=521, began=self.TIMES["began"], at=at)
        told = [note for note in answer["cautions"] if note["code"] == "progress-long"]
        assert [note["pointer"] for note in told] == (["/progress/at"] if lasts else [])
        assert all(f"the pour has gone on for {lasts}, and" in note["text"] for note in told)

    def test_the_material_ends_at_a_time(self) -> None:
        """521 x 5 min = 43 h 25 min: 05:40 on the 10th."""
        answer = ask(self.JOB, mixes=27, placed={"area": "580 ft2"}, mixes_left=521, **self.TIMES)
        assert answer["ends"]["at"] == "2027-03-10T05:40:00-06:00"

    def test_within_shifts_it_waits_for_the_next_one(self) -> None:
        """Monday 07:00 to 15:30: from 10:15 there are 315 min, 63 mixes of 5 min. The 64th and 65th take 10 on Tuesday.

        130 ft² are left to place at 2 ft² a mix: 65 mixes.
        """
        document = job("wide", feet("10 ft", "18.4 ft", **FROM_LEFT), thickness="1/4 in", work=START)
        answer = ask(document, mixes=27, placed={"area": "54 ft2"}, mixes_left=100, **self.TIMES)
        assert value(answer["mixes_needed"]["likely"]) == pytest.approx(65.0)
        assert answer["finish"] == "2027-03-09T07:10:00-06:00"
        text = next(note["text"] for note in answer["advice"] if note["code"] == "progress-past-shift")
        assert "2027-03-08 15:30" in text

    def test_outside_of_the_shifts_the_crew_stays_until_it_is_done(self) -> None:
        """From 15:30 at 5 min a mix, the shift over: 65 mixes take 5 h 25 min, to 20:55."""
        document = job("wide", feet("10 ft", "18.4 ft", **FROM_LEFT), thickness="1/4 in", work=START)
        times = {"began": "2027-03-08T13:15", "at": "2027-03-08T15:30"}
        answer = ask(document, mixes=27, placed={"area": "54 ft2"}, mixes_left=100, **times)
        assert answer["finish"] == "2027-03-08T20:55:00-06:00"

    def test_no_hour_is_given_that_is_a_year_ahead(self) -> None:
        """519 mixes of a day each."""
        times = {"began": "2027-03-08T08:00", "at": "2027-04-04T08:00"}
        answer = ask(self.JOB, mixes=27, placed={"area": "594 ft2"}, mixes_left=521, **times)
        assert answer["finish"] is None

    def test_the_wet_edge_is_judged_at_the_pace_seen(self) -> None:
        """A lane of 80 x 3 ft is 240 ft², 240 / 22 = 10.9 mixes of 5 min: 54.5 min, and 20 are stated.

        10 ft wide it takes 30 / 22 = 1.364 mixes: 6.82 min, 2 to the pour and 22 / 600 h = 2.2 to place: 11.02 min.
        """
        wide = ask(self.JOB, mixes=27, placed={"area": "594 ft2"}, mixes_left=521, **self.TIMES)
        narrow_job = job("wide", feet("150 ft", "10 ft", **FROM_LEFT), thickness="1/4 in", work=START)
        narrow = ask(narrow_job, mixes=27, placed={"area": "594 ft2"}, mixes_left=521, **self.TIMES)
        assert (wide["edge_holds"], narrow["edge_holds"]) == (False, True)
        text = next(note["text"] for note in wide["advice"] if note["code"] == "progress-edge-lost")
        assert "waits 58.8 min" in text  # 54.545 + 2 + 2.2 = 58.745, up to a tenth

    def test_the_planned_pace_is_the_pour_plans_where_casting_sets_it(self) -> None:
        """A broadcast of the demonstration, cast at 50 lb an hour: neither mixing nor placing takes as long."""
        crew = {"mixing_stations": 4, "placing_rate": "5000 ft2/h", "cast_rate": "50 lb/h"}
        room = feet("30 ft", "20 ft", **FROM_LEFT)
        document = {"system": "double-quartz", "rooms": [room], "work": {"crew": crew}}
        client = client_of(demo_snapshot())
        planned = client.post("/v1/pour-plan", json=document).get_json()["pours"][0]["cadence"]
        progress = {"mixes": 2, "placed": {"area": "50 ft2"}}
        answer = client.post(PATH, json={"job": document, "progress": progress}).get_json()
        assert answer["cadence"]["planned"] == planned
        assert planned["value"] > 4.5

    def test_without_times_nothing_is_said_of_them(self) -> None:
        answer = ask(HALL, mixes=27, placed={"area": "594 ft2"})
        assert (answer["cadence"]["seen"], answer["finish"], answer["edge_holds"]) == (None, None, None)
        assert {"progress-began-unsaid", "progress-at-unsaid"} <= {note["code"] for note in answer["missing"]}


class TestWhereToStop:
    """A hall 100 x 20 ft that 10 mixes cover to 10 ft; what is left ends at 10 ft more for each 10 mixes."""

    @staticmethod
    def hall(*joints: dict[str, Any], **said: Any) -> dict[str, Any]:
        return job("plain", feet("100 ft", "20 ft", name="Hall", joints=list(joints), **FROM_LEFT, **said))

    @staticmethod
    def across(at: str, kind: str, top: str = "20 ft") -> dict[str, Any]:
        return {"line": [[at, "0 ft"], [at, top]], "kind": kind}

    def test_at_the_last_joint_square_to_the_way(self) -> None:
        joints = (
            self.across("20 ft", "contraction"),
            self.across("40 ft", "moving"),
            self.across("60 ft", "contraction"),
            {"line": [["5 ft", "0 ft"], ["45 ft", "20 ft"]], "kind": "contraction"},
        )
        placed = {"room": "Hall", "to": "10 ft"}
        answer = ask(self.hall(*joints), mixes=10, placed=placed, mixes_left=45)
        assert value(answer["ends"]["to"]) == pytest.approx(55.0)
        assert (value(answer["stop_at"]["to"]), answer["stop_at"]["what"]) == (pytest.approx(40.0), "moving")
        nearer = ask(self.hall(*joints), mixes=10, placed=placed, mixes_left=25)
        assert (value(nearer["stop_at"]["to"]), nearer["stop_at"]["what"]) == (pytest.approx(20.0), "contraction")
        assert ask(self.hall(*joints), mixes=10, placed=placed, mixes_left=5)["stop_at"] is None

    def test_at_the_joint_where_the_edge_stands(self) -> None:
        """5 mixes more reach 45 ft; the edge is at the joint at 40 ft, which a tape reads to a quarter of an inch."""
        document = self.hall(self.across("40 ft", "contraction"), self.across("60 ft", "contraction"))
        for to in ("40 ft", "40 ft 1/4 in"):
            answer = ask(document, mixes=40, placed={"room": "Hall", "to": to}, mixes_left=5)
            assert value(answer["stop_at"]["to"]) == pytest.approx(40.0)
        beyond = ask(document, mixes=41, placed={"room": "Hall", "to": "41 ft"}, mixes_left=5)
        assert beyond["stop_at"] is None

    def test_at_the_end_of_the_room_before_where_the_edge_has_not_left_it(self) -> None:
        """20 mixes fill the hall; 5 more go 5 ft into the next room, which has no joint."""
        document = job("plain", *(feet("20 ft", "20 ft", name=name, **FROM_LEFT) for name in ("Hall", "Bay")))
        for placed in ({"room": "Hall", "to": "20 ft"}, {"room": "Bay", "to": "0 ft"}):
            stop = ask(document, mixes=20, placed=placed, mixes_left=5)["stop_at"]
            assert (stop["room"], value(stop["to"]), stop["what"]) == ("Hall", pytest.approx(20.0), "room")

    def test_not_at_one_that_leaves_much_of_the_edge_open(self) -> None:
        part = self.hall(self.across("30 ft", "contraction", top="17 ft"))
        assert ask(part, mixes=10, placed={"room": "Hall", "to": "10 ft"}, mixes_left=45)["stop_at"] is None
        nearly = self.hall(self.across("30 ft", "contraction", top="19 ft"))
        assert ask(nearly, mixes=10, placed={"room": "Hall", "to": "10 ft"}, mixes_left=45)["stop_at"] is not None

    def test_at_the_end_of_a_room_where_the_next_has_no_joint(self) -> None:
        """Both rooms are 20 ft wide; 10 mixes of 20 ft² reach 10 ft, 15 more 5 ft into the next one."""
        document = job("plain", feet("20 ft", "20 ft", name="Hall", **FROM_LEFT), feet("30 ft", "20 ft", name="Bay"))
        answer = ask(document, mixes=10, placed={"room": "Hall", "to": "10 ft"}, mixes_left=15)
        assert (answer["ends"]["room"], answer["ends"]["to"]) == ("Bay", None)
        stop = answer["stop_at"]
        assert (stop["room"], value(stop["to"]), stop["what"]) == ("Hall", pytest.approx(20.0), "room")


def test_keyways_behind_the_edge_are_in_the_yield_seen() -> None:
    """20 x 10 ft in two bodies, as in the marks: up to 5 ft 5 x 10/96 + 8/576 + 4 x 2/576 = 0.5486111 ft³.

    In all 200/96 + 52/576 = 2.1736111 ft³: 1.625 are left, at 0.1097222 a mix 14.8101 mixes.
    """
    document = job("keyed", feet("20 ft", "10 ft", name="Bay", joints=[], **FROM_LEFT))
    answer = ask(document, mixes=5, placed={"room": "Bay", "to": "5 ft"}, mixes_left=13)
    assert value(answer["placed"]["volume"]) == pytest.approx(0.5486111, rel=1e-5)
    assert value(answer["yield"]["seen"]) == pytest.approx(0.1097222, rel=1e-5)
    assert value(answer["mixes_needed"]["likely"]) == pytest.approx(14.8101, abs=1e-4)
    # the keyways stay as sawn: 52 - 8 - 2 x 4 = 36 ft of them take 0.0625 of the 1.625, the floor 1.5625;
    # 13 mixes make 1.4263889, less the keyways 1.3638889: / 1.5625 = 0.872889 of 1/4 in
    assert value(answer["stretch"]["thickness"]) == pytest.approx(0.25 * 0.872889, rel=1e-5)


def test_the_second_body_has_no_keyways() -> None:
    """5 ft of it are 50/96 = 0.5208333 ft³."""
    document = job("keyed", feet("20 ft", "10 ft", name="Bay", joints=[], **FROM_LEFT))
    answer = ask(document, mixes=5, placed={"room": "Bay", "to": "5 ft"}, mixes_left=13, layer="body-2")
    assert (answer["layer"], value(answer["placed"]["volume"])) == ("body-2", pytest.approx(0.5208333, rel=1e-5))
    first = ask(document, mixes=5, placed={"room": "Bay", "to": "5 ft"}, mixes_left=13)
    assert "progress-first-layer" in {note["code"] for note in first["assumptions"]}


def test_packs_are_the_cheapest_that_cover_the_high_need() -> None:
    """11 short of 35.2 ft² mixes at 50.00: a dozen at 480.00 is cheaper than 11 at 550.00."""
    document = job("plain", feet("100 ft", "20 ft", name="Hall", **FROM_LEFT))
    answer = ask(document, mixes=25, placed={"room": "Hall", "to": "44 ft"}, mixes_left=21)
    # 1,120 ft² are left at 35.2: 31.82 likely, x 25.5/25 = 32.45 high: 33 - 21 = 12
    assert [(line["sku"], line["packs"], line["amount"]) for line in answer["buy"]] == [("P-12", 1, "480.00")]


def test_a_kit_is_bought_by_its_parts() -> None:
    """2,000 ft² at 35.2 take 56.82 mixes. 10 cover 352 ft²; 1,648 left take 46.82, 49.16 at the most: 50 - 30 = 20."""
    document = job("kits", feet("100 ft", "20 ft", name="Hall", **FROM_LEFT))
    answer = ask(document, mixes=10, placed={"area": "352 ft2"}, mixes_left=30)
    assert [(line["sku"], line["packs"], line["amount"]) for line in answer["buy"]] == [
        ("K-A", 20, "600.00"),
        ("K-B", 20, "400.00"),
    ]


def test_what_the_order_takes_of_a_stock_is_no_longer_there() -> None:
    """2,000 ft² take 56.82 mixes, at even odds 57 of the 60 in stock; 3 of the 20 to buy are there."""
    order = {"waste_percent": 0, "confidence": 0.5, "offers": [{"sku": "K-A", "available": 60}]}
    document = job("kits", feet("100 ft", "20 ft", name="Hall", **FROM_LEFT)) | {"order": order}
    answer = ask(document, mixes=10, placed={"area": "352 ft2"}, mixes_left=30)
    assert [line["packs"] for line in answer["buy"]] == [3, 3]
    text = next(note["text"] for note in answer["advice"] if note["code"] == "progress-buy-lacking")
    assert "is 17 mixes short of it" in text


def test_a_yield_far_from_the_makers_says_to_count_again() -> None:
    """The maker states 0.5 to 0.6 ft³; 25 % beyond is 0.375 and 0.75. 20 ft² at 3/16 in are 0.3125, 24 ft² 0.375."""
    document = job("plain", feet("100 ft", "20 ft", name="Hall", **FROM_LEFT))
    far = ask(document, mixes=10, placed={"area": "230 ft2"})
    near = ask(document, mixes=10, placed={"area": "245 ft2"})
    assert codes(far)[0] == "progress-count-doubtful"
    assert "progress-yield-doubtful" in {note["code"] for note in far["cautions"]}
    assert "progress-count-doubtful" not in codes(near)
    assert "progress-yield-outside" in codes(near)


def test_a_floor_too_thin_is_not_allowed() -> None:
    """The least is 1/8 in, two thirds of 3/16: where 60 % of the need is left, it would take 0.1125 in."""
    document = job("plain", feet("100 ft", "20 ft", name="Hall", **FROM_LEFT))
    answer = ask(document, mixes=10, placed={"area": "352 ft2"}, mixes_left=28)
    # 1,648 ft² take 46.82 mixes; 28 / 46.82 = 0.59806 of 3/16 in = 0.11214 in
    assert value(answer["stretch"]["thickness"]) == pytest.approx(0.11214, abs=1e-5)
    assert answer["stretch"]["allowed"] is False
    assert "progress-no-stretch" in codes(answer)


@pytest.mark.parametrize("system", ["plain", "keyed"])
@given(
    length=st.floats(10, 60),
    width=st.floats(8, 30),
    share=st.floats(0.05, 0.9),
    side=st.sampled_from(["left", "right", "bottom", "top"]),
)
def test_a_pour_on_its_marks_is_on_plan(system: str, length: float, width: float, share: float, side: str) -> None:
    room = feet(f"{length:.3f} ft", f"{width:.3f} ft", name="Hall", joints=[], pour={"from": side})
    document = job(system, room, work={"round_the_clock": True})
    marks = post("/v1/pour-plan", document)["pours"][0]["marks"]
    mark, run = marks[int(share * len(marks))], value(marks[-1]["likely"])
    # at a keyway across, and at the end, more floor waits than the mix has filled
    if any(abs(value(mark["likely"]) - place) < 1e-3 for place in (1.0, run - 1.0, run)):
        return
    answer = ask(document, mixes=mark["mix"], placed={"room": "Hall", "to": mark["likely"]}, mixes_left=9)
    assert value(answer["yield"]["seen"]) == pytest.approx(value(answer["yield"]["likely"]), rel=1e-4)
    assert value(answer["coverage"]["seen"]) == pytest.approx(value(answer["coverage"]["planned"]), rel=1e-4)


@given(
    lengths=st.lists(st.floats(5, 60), min_size=1, max_size=4),
    share=st.floats(0.01, 1.0),
    ways=st.lists(st.booleans(), min_size=4, max_size=4),
    system=st.sampled_from(["plain", "keyed"]),
)
def test_what_is_placed_and_what_is_not_are_what_the_takeoff_counts(
    lengths: list[float], share: float, ways: list[bool], system: str
) -> None:
    rooms = [
        feet(f"{length:.3f} ft", "20 ft", joints=[], **(FROM_LEFT if way else {}))
        for length, way in zip(lengths, ways, strict=False)
    ]
    document = job(system, *rooms)
    whole = sum(float(f"{length:.3f}") for length in lengths) * 20
    answer = ask(document, mixes=10, placed={"area": f"{whole * share:.6f} ft2"}, mixes_left=5)
    counted = post("/v1/quantities", document)
    volume = value(counted["layers"][0]["quantity"])
    assert value(answer["placed"]["volume"]) + value(answer["rest"]["volume"]) == pytest.approx(volume, rel=1e-5)
    assert value(answer["placed"]["area"]) == pytest.approx(whole * share, rel=1e-5)
    assert value(answer["placed"]["area"]) + value(answer["rest"]["area"]) == pytest.approx(whole, rel=1e-5)


def test_units_do_not_matter() -> None:
    metric = job(
        "wide",
        {"name": "Hall", "shape": {"rectangle": {"length": "45.72 m", "width": "24.384 m"}}, **FROM_LEFT},
        thickness="6.35 mm",
    )
    feet_said = ask(HALL, mixes=27, placed={"room": "Hall", "to": "7.25 ft"}, mixes_left=521)
    metres_said = ask(metric, mixes=27, placed={"room": "Hall", "to": "2.2098 m"}, mixes_left=521)
    assert feet_said == metres_said
