"""Readings that say their room: the room that fails is named, and so are those that nobody tested."""

from typing import Any

import pytest

from gaugerake.answers.job.errors import Refused
from gaugerake.floor.job import (
    EmissionReading,
    HumidityReading,
    Measured,
    PhReading,
    ProfileReading,
    PullOff,
    PullOffFailure,
    Room,
)
from gaugerake.floor.values.errors import UnknownRoom

SHAPE = Measured(area_m2=60.0)
THREE = {"rooms": tuple(Room(shape=SHAPE, name=name, joints=(), slope_percent=1) for name in ("Wash", "Pack", None))}


def shown(judged: Any, name: str) -> dict[str, Any]:
    found: dict[str, Any] = next(check for check in judged.shown()["checks"] if check["check"] == name)
    return found


def test_the_wettest_probe_is_named_with_its_room(judge: Any) -> None:
    probes = tuple(
        HumidityReading(percent=percent, depth_m=0.05, room=room)
        for percent, room in ((80, "Wash"), (93, "Pack"), (70, None))
    )
    judged = judge(job=THREE, slab={"relative_humidity": probes})
    check = shown(judged, "relative-humidity")
    assert (check["verdict"], check["room"], check["pointer"]) == ("stop", "Pack", "/slab/relative_humidity/1")
    assert check["because"] == "Probe 2 in Pack reads 93 %, above the limit of 90 %."
    assert [reading["room"] for reading in check["readings"]] == ["Wash", "Pack", None]
    assert judged.shown()["summary"].startswith("Do not pour: humidity probe 2 in Pack reads 93 % ")


def test_the_rooms_that_no_test_that_counts_names_are_listed(judge: Any) -> None:
    probes = (
        HumidityReading(percent=80, depth_m=0.05, room="Wash"),
        HumidityReading(percent=80, depth_m=0.01, room="Pack"),  # too shallow in 125 mm: it does not count
    )
    pulls = (PullOff(strength_pa=2e6, room="Pack"), PullOff(strength_pa=2e6, room="Wash", failure=PullOffFailure.GLUE))
    judged = judge(job=THREE, slab={"relative_humidity": probes, "pull_off": pulls})
    without = {test["test"]: test["rooms_without"] for test in judged.shown()["tests_needed"]}
    assert without == {
        "moisture-emission": None,  # none of its readings says its room
        "relative-humidity": ["Pack", "Room 3"],
        "pull-off": ["Wash", "Room 3"],
    }


def test_an_emission_names_its_room(judge: Any) -> None:
    emissions = (EmissionReading(rate_kg_m2_s=3e-7, room="Wash"), EmissionReading(rate_kg_m2_s=7e-7, room="Pack"))
    check = shown(judge(job=THREE, slab={"moisture_emission": emissions}), "moisture-emission")
    assert (check["verdict"], check["room"]) == ("stop", "Pack")
    assert check["because"].startswith("Emission 2 in Pack is ")


def test_the_weakest_pull_off_names_its_room_and_a_mean_that_holds_none(judge: Any) -> None:
    weak = (PullOff(strength_pa=2e6, room="Wash"), PullOff(strength_pa=0.5e6, room="Pack"))
    check = shown(judge(job=THREE, slab={"pull_off": weak}), "pull-off")
    assert (check["verdict"], check["room"]) == ("fix", "Pack")
    assert "test 2 in Pack" in check["because"]
    good = shown(judge(job=THREE, slab={"pull_off": weak[:1] * 3}), "pull-off")
    assert (good["verdict"], good["room"]) == ("go", None)


@pytest.mark.parametrize(
    ("ph", "verdict", "room", "pointer"),
    [
        ((PhReading(ph=9, room="Wash"), PhReading(ph=12, room="Pack"), PhReading(ph=9)), "fix", "Pack", "/slab/ph/1"),
        ((PhReading(ph=9, room="Wash"), PhReading(ph=9, room="Pack")), "untested", "Room 3", "/slab/ph"),
        ((PhReading(ph=9, room="Wash"), PhReading(ph=9)), "go", "Wash", "/slab/ph/0"),
        ((PhReading(ph=9),), "go", None, "/slab/ph/0"),
        (9.0, "go", None, "/slab/ph"),
    ],
)
def test_a_list_of_ph_is_judged_by_its_worst(judge: Any, ph: Any, verdict: str, room: str | None, pointer: str) -> None:
    """The system takes 7 to 11; a room that no reading is of is untested."""
    check = shown(judge(job=THREE, slab={"ph": ph}), "ph")
    assert (check["verdict"], check["room"], check["pointer"]) == (verdict, room, pointer)


@pytest.mark.parametrize(
    ("profile", "verdict", "room", "pointer"),
    [
        ((ProfileReading(csp=2, room="Pack"), ProfileReading(csp=4)), "fix", "Pack", "/slab/profile_csp/0"),
        ((ProfileReading(csp=4, room="Wash"),), "untested", "Pack", "/slab/profile_csp"),
        ((ProfileReading(csp=4),), "go", None, "/slab/profile_csp/0"),
    ],
)
def test_a_list_of_profiles_too(judge: Any, profile: Any, verdict: str, room: str | None, pointer: str) -> None:
    """The system takes CSP 3 to 5."""
    check = shown(judge(job=THREE, slab={"profile_csp": profile}), "profile")
    assert (check["verdict"], check["room"], check["pointer"]) == (verdict, room, pointer)


def test_every_reading_of_a_room_that_is_not_there_is_told(judge: Any) -> None:
    slab = {
        "moisture_emission": (EmissionReading(rate_kg_m2_s=1e-7, room="Wsh"),),
        "relative_humidity": (HumidityReading(percent=80, room="Wash"), HumidityReading(percent=80, room="wash")),
        "pull_off": (PullOff(strength_pa=2e6, room="Room 3"),),  # a name that we give, and the job does not
        "ph": (PhReading(ph=9, room="Yard"),),
        "profile_csp": (ProfileReading(csp=4, room="Yard"),),
    }
    with pytest.raises(Refused) as refused:
        judge(job=THREE, slab=slab)
    assert [fault.pointer for fault in refused.value.faults] == [
        "/slab/moisture_emission/0/room",
        "/slab/relative_humidity/1/room",
        "/slab/pull_off/0/room",
        "/slab/ph/0/room",
        "/slab/profile_csp/0/room",
    ]
    assert all(isinstance(fault.error, UnknownRoom) for fault in refused.value.faults)
