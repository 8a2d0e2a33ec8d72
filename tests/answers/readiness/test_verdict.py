"""The whole answer: its verdict, its order, what it says aloud, and what it says of a slab that nobody has tested."""

from dataclasses import fields, replace
from datetime import date
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from tests.outside.working_values import figures

from gaugerake.answers.readiness.body import Readiness
from gaugerake.answers.readiness.registry import CHECKS, CheckName
from gaugerake.answers.show.describe import Describer
from gaugerake.answers.show.reader import SI_READER
from gaugerake.floor.job import (
    Air,
    DriesFrom,
    EmissionReading,
    HumidityReading,
    Job,
    Measured,
    PullOff,
    PullOffFailure,
    Room,
    Slab,
)
from gaugerake.floor.slab.verdict import Verdict, worst
from gaugerake.floor.system import AirLimits, SlabLimits


def test_a_slab_that_meets_every_limit_is_ready(judge: Any) -> None:
    judged = judge()
    assert [check.check for check in judged.answer.checks if check.verdict != "go"] == []
    assert judged.answer.verdict == "go"
    assert judged.shown()["summary"] == "The slab is ready: all 20 checks are good."
    assert all(test.missing == 0 for test in judged.answer.tests_needed)


def test_a_slab_that_meets_every_limit_leaves_nothing_open(judge: Any) -> None:
    assert judge().record.missing == ()


def test_nothing_tested_is_answered_with_what_to_test(judge_whole: Any, untested_job: Job) -> None:
    judged = judge_whole(untested_job)
    assert {check.verdict for check in judged.answer.checks} == {Verdict.UNTESTED}
    assert all(check.do is not None for check in judged.answer.checks)
    assert judged.answer.verdict == "untested"
    assert judged.shown()["summary"] == "Nothing has been tested yet: begin with the substrate."
    needed = {test.test.value: (test.needed, test.given, test.missing) for test in judged.answer.tests_needed}
    assert needed == {"moisture-emission": (3, 0, 3), "relative-humidity": (3, 0, 3), "pull-off": (3, 0, 3)}
    assert {note.pointer for note in judged.record.assumptions} == {"/slab/substrate"}
    assert [note.pointer for note in judged.record.missing] == [
        "/rooms/0/joints", "/slab/substrate", "/slab/age", "/slab/compressive_strength", "/slab/damp",
        "/slab/moisture_emission", "/slab/relative_humidity", "/slab/thickness", "/slab/contaminants",
        "/slab/absorbs_water", "/slab/ph", "/slab/profile_csp", "/slab/pull_off", "/rooms/0/slope_percent",
        "/slab/temperature", "/air/temperature", "/air/humidity_percent",
    ]  # fmt: skip


def test_a_slab_without_rooms_is_answered_too(judge_whole: Any, judge: Any) -> None:
    assert judge_whole(Job(system="floor", rooms=())).answer.verdict == "untested"
    count = judge(job={"rooms": ()}).check("test-count")
    assert (count.verdict, count.pointer) == ("untested", "/rooms")


def test_checks_stand_in_the_order_in_which_they_are_done(judge: Any) -> None:
    assert judge().names == [name.value for name in CheckName]
    assert judge().names == [entry.name for entry in CHECKS]


@pytest.mark.parametrize(
    ("slab", "verdict", "summary"),
    [
        ({"ph": None}, "untested", "Nothing rules out the pour so far, but the surface's pH is still open."),
        (
            {"ph": None, "damp": None},
            "untested",
            "Nothing rules out the pour so far, but 2 checks are still open, first the damp test.",
        ),
        ({"ph": 12.0}, "fix", "Not yet: the surface's pH must be put right before the pour."),
        (
            {"ph": 12.0, "damp": None},
            "fix",
            "Not yet: the surface's pH must be put right before the pour, and one check is still open.",
        ),
        (
            {"ph": 12.0, "profile_csp": 1, "damp": None, "pull_off": ()},
            "fix",
            "Not yet: 2 things must be put right before the pour, first the surface's pH, and 2 checks are still open.",
        ),
        (
            {"ph": 12.0, "substrate": "plywood"},
            "stop",
            "Do not pour: the system is made for concrete and this is plywood, so ask the product's maker first.",
        ),
        (
            {"compressive_strength_pa": 15e6},
            "stop",
            "Do not pour: the concrete reaches 15 MPa and the system requires 22 MPa, so ask the product's maker first.",  # noqa: E501
        ),
    ],
)
def test_the_worst_check_is_read_out(judge: Any, slab: Any, verdict: str, summary: str) -> None:
    judged = judge(slab=slab)
    assert judged.answer.verdict == verdict
    assert judged.shown(SI_READER)["summary"] == summary


@pytest.mark.parametrize(
    ("slab", "check", "verdict"),
    [
        ({"substrate": "wood"}, "substrate", "stop"),
        ({"substrate": "something odd"}, "substrate", "stop"),
        ({"substrate": "Concrete"}, "substrate", "go"),
        ({"substrate": None}, "substrate", "untested"),
        ({"damp": True}, "damp", "fix"),
        ({"damp": None}, "damp", "untested"),
        ({"absorbs_water": False}, "absorption", "fix"),
        ({"absorbs_water": None}, "absorption", "untested"),
        ({"contaminants": None}, "contaminants", "untested"),
        ({"contaminants": ("dust",)}, "contaminants", "fix"),
    ],
)
def test_checks_without_a_figure(judge: Any, slab: Any, check: str, verdict: str) -> None:
    assert judge(slab=slab).check(check).verdict == verdict


@pytest.mark.parametrize(
    ("words", "code"),
    [("plywood", "check-substrate-wood"), ("Quarry tile", "check-substrate-tile"), ("cork", "check-substrate-unknown")],
)
def test_another_substrate_stops_for_its_own_reason(judge: Any, words: str, code: str) -> None:
    check = judge(slab={"substrate": words}).check("substrate")
    assert (check.because.code, check.measured) == (code, words)


readings = st.builds(
    EmissionReading,
    rate_kg_m2_s=st.one_of(st.none(), st.floats(0, 2e-6)),
    gain_kg=st.just(0.003),
    exposure_hours=st.floats(1, 200),
    area_m2=st.just(0.04),
)
probes = st.builds(HumidityReading, percent=st.floats(1, 100), depth_m=st.one_of(st.none(), st.floats(0.001, 0.2)))
pulls = st.builds(
    PullOff, strength_pa=st.floats(0, 5e6), failure=st.one_of(st.none(), st.sampled_from(list(PullOffFailure)))
)


def maybe(strategy: Any) -> Any:
    return st.one_of(st.none(), strategy)


slabs = st.builds(
    Slab,
    substrate=maybe(st.sampled_from(["concrete", "asphalt", "cork"])),
    age_s=maybe(st.floats(0, 60 * 86_400)),
    poured=st.none(),
    compressive_strength_pa=maybe(st.floats(0, 60e6)),
    profile_csp=maybe(st.integers(1, 10)),
    thickness_m=maybe(st.floats(0.05, 0.3)),
    dries_from=maybe(st.sampled_from(list(DriesFrom))),
    moisture_emission=st.lists(readings, max_size=4).map(tuple),
    relative_humidity=st.lists(probes, max_size=4).map(tuple),
    pull_off=st.lists(pulls, max_size=4).map(tuple),
    ph=maybe(st.floats(0, 14)),
    absorbs_water=maybe(st.booleans()),
    damp=maybe(st.booleans()),
    contaminants=maybe(st.lists(st.sampled_from(["dust", "old paint", "slime"]), max_size=3).map(tuple)),
    temperature_k=maybe(st.floats(250, 320)),
)
airs = st.builds(Air, temperature_k=maybe(st.floats(250, 320)), humidity_percent=maybe(st.floats(1, 100)))
rooms = st.builds(
    Room,
    shape=st.floats(1, 900).map(lambda area: Measured(area_m2=area)),
    joints=maybe(st.just(())),
    slope_percent=maybe(st.floats(0, 5)),
    profile_csp=maybe(st.integers(1, 10)),
    thickness_m=maybe(st.floats(0.001, 0.02)),
)


@given(slabs, airs, rooms)
@example(
    Slab(thickness_m=0.125, moisture_emission=(EmissionReading(rate_kg_m2_s=4e-7),)),
    Air(),
    Room(shape=Measured(area_m2=90.0)),
)  # no probe is asked for, so how the slab dries is not either
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_explaining_says_nothing_more(judge_whole: Any, slab: Slab, air: Air, room: Room) -> None:
    job = Job(system="floor", rooms=(room,), slab=slab, air=air)
    plain, explained = judge_whole(job).record, judge_whole(job, with_working=True).record
    assert (explained.assumptions, explained.cautions, explained.missing) == (
        plain.assumptions, plain.cautions, plain.missing,
    )  # fmt: skip


@given(slabs, airs, st.lists(rooms, min_size=1, max_size=3))
@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_whatever_is_said_is_answered(judge_whole: Any, slab: Slab, air: Air, some: list[Room]) -> None:
    """No check is go without a measurement; the whole is the worst; each has a remedy unless it is go."""
    answer = judge_whole(Job(system="floor", rooms=tuple(some), slab=slab, air=air)).answer
    assert answer.verdict == worst(check.verdict for check in answer.checks)
    for check in answer.checks:
        assert (check.verdict == "go") <= (check.measured is not None)
        assert (check.do is None) is (check.verdict == "go")
        assert all(reading.verdict != "go" or reading.measured is not None for reading in check.readings)


def test_stops_and_fixes_are_those_of_the_table(judge_whole: Any) -> None:
    """What cannot be mended on site stops; the rest is mended."""
    bad = Slab(
        substrate="wood",
        age_s=0.0,
        compressive_strength_pa=0.0,
        profile_csp=10,
        moisture_emission=(EmissionReading(rate_kg_m2_s=1e-5),),
        relative_humidity=(HumidityReading(percent=100),),
        pull_off=(PullOff(strength_pa=0.0),),
        ph=14.0,
        absorbs_water=False,
        damp=True,
        contaminants=("dust",),
        temperature_k=250.0,
    )
    room = Room(shape=Measured(area_m2=10.0), slope_percent=9.0)
    job = Job(
        system="floor", rooms=(room,), thickness_m=0.1, slab=bad, air=Air(temperature_k=251.0, humidity_percent=99)
    )
    stops = {check.check.value for check in judge_whole(job).answer.checks if check.verdict == "stop"}
    fixes = {check.check.value for check in judge_whole(job).answer.checks if check.verdict == "fix"}
    assert stops == {"substrate", "moisture-emission", "relative-humidity"}
    assert fixes == {
        "age", "strength", "pull-off", "profile", "ph", "absorption", "damp", "contaminants", "slope",
        "slab-temperature", "air-temperature", "air-humidity", "dew-point-spread", "thickness",
    }  # fmt: skip
    older = replace(job, slab=replace(bad, age_s=28 * 86_400.0))
    assert judge_whole(older).check("strength").verdict == "stop"


def test_every_limit_of_a_system_has_its_check(judge: Any) -> None:
    """A limit that is added to the catalogue and not checked would pass every slab."""
    checked = {"age", "strength", "pull-off", "profile", "moisture-emission", "relative-humidity", "ph", "slope"}
    assert len(fields(SlabLimits)) == len(checked | {"slab-temperature"})
    assert len(fields(AirLimits)) == len({"air-temperature", "air-humidity", "dew-point-spread"})
    assert checked <= set(judge().names)


def test_the_answer_has_a_schema() -> None:
    describer = Describer()
    describer.schema(Readiness)
    assert set(describer.components["Condensation"]["properties"]) == {"from", "until", "least_spread"}
    assert {"check", "verdict", "measured", "limit", "because", "do", "source"} <= set(
        describer.components["Check"]["properties"]
    )


def test_the_working_defends_each_figure(judge: Any, friday: Any) -> None:
    dish = EmissionReading(gain_kg=0.003, exposure_hours=72, area_m2=0.0413)
    judged = judge(
        slab={"moisture_emission": (dish,) * 3, "age_s": None, "poured": date(2027, 2, 19)},
        work=friday,
        with_working=True,
    )
    rules = {entry.figure: (entry.rule, entry.result) for entry in judged.record.working}
    assert rules["/air/dew_point"] == ("rule-dew-point", judged.answer.air.dew_point)
    assert rules["/air/spread"] == ("rule-spread", judged.answer.air.spread)
    assert rules["/days_to_go"] == ("rule-days-to-go", 14)
    assert rules["/expected_strength/strength"][1] == judged.answer.expected_strength.strength
    assert rules["/tests_needed/0/needed"][1].value == 3
    for index, check in enumerate(judged.answer.checks):
        if check.check == "moisture-emission":
            assert rules[f"/checks/{index}/readings/2/measured"] == ("rule-dish", check.readings[2].measured)
        if check.check == "probe-depth":
            assert rules[f"/checks/{index}/limit/low"] == ("rule-probe-depth", check.limit.low)
        if check.check == "pull-off":
            assert rules[f"/checks/{index}/measured"] == ("rule-pull-off-mean", check.measured)
    shown = {name: part for name, part in judged.shown().items() if name != "notes"}
    assert set(rules) == {pointer for pointer, _ in figures(shown)}
    assert judge().record.working is None


@pytest.mark.parametrize(
    ("change", "gone"),
    [
        ({"air": {"humidity_percent": None}}, "/air/dew_point"),
        ({"air": {"temperature_k": None}}, "/air/dew_point"),
        ({"slab": {"pull_off": ()}}, "/checks/12/measured"),
        ({"slab_limits": {"age_s": None}}, "/days_to_go"),
    ],
)
def test_what_is_not_known_has_no_working(judge: Any, change: Any, gone: str) -> None:
    young = {"slab": {"age_s": 20 * 86_400.0}, "with_working": True}
    assert gone in {entry.figure for entry in judge(**young).record.working}
    changed = {**young, **change, "slab": {**young["slab"], **change.get("slab", {})}}
    assert gone not in {entry.figure for entry in judge(**changed).record.working}


def test_a_rate_that_was_given_has_no_working(judge: Any) -> None:
    both = EmissionReading(rate_kg_m2_s=4e-7, gain_kg=0.003, exposure_hours=72, area_m2=0.0413)
    judged = judge(slab={"moisture_emission": (both,)}, with_working=True)
    assert "rule-dish" not in {entry.rule for entry in judged.record.working}
    assert judged.check("moisture-emission").measured.value == 4e-7
