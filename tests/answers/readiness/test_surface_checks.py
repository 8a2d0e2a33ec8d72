"""The surface: contaminants, profile by room, pull-off and where it broke; slope and drains."""

from typing import Any

import pytest

from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.words import sentence
from gaugerake.floor.job import Drain, Measured, PullOff, PullOffFailure, Room, RoundDrain
from gaugerake.floor.values.note import Say


def told(do: Say) -> list[Say]:
    """What is to be done, one after another."""
    return [*told(do.params["first"]), do.params["rest"]] if do.code == "contaminants-list" else [do]


@pytest.mark.parametrize(
    "kind", ["laitance", "curing compound", "sealer", "adhesive", "tile", "paint", "oil and grease", "dust"]
)
def test_each_known_kind_has_its_own_removal(judge: Any, kind: str) -> None:
    check = judge(slab={"contaminants": (kind,)}).check("contaminants")
    slug = kind.replace(" ", "-")
    assert (check.verdict, check.do.code) == ("fix", f"do-contaminants-{slug}")
    assert check.readings[0].measured == slug


def test_what_nobody_knows_is_kept_and_found_out_first(judge: Any) -> None:
    check = judge(slab={"contaminants": ("dust", "old paint", "purple slime")}).check("contaminants")
    assert [reading.measured for reading in check.readings] == ["dust", "paint", "purple slime"]
    assert [one.code for one in told(check.do)] == [f"do-contaminants-{kind}" for kind in ("unknown", "paint", "dust")]
    assert check.because.code == "check-contaminants-part-known"
    told_why = sentence(check.because.code, check.because.params, US_READER)
    assert told_why == "Found: dust, old paint, purple slime. It is not known what this is: purple slime."
    assert check.pointer == "/slab/contaminants/2"
    assert check.measured.value == 3


def test_what_several_need_is_told_once(judge: Any) -> None:
    check = judge(slab={"contaminants": ("oil", "grease", "vinyl tile")}).check("contaminants")
    assert [one.code for one in told(check.do)] == ["do-contaminants-tile", "do-contaminants-oil-and-grease"]
    assert sentence(check.because.code, check.because.params, US_READER) == "Found: oil, grease, vinyl tile."


def test_old_coverings_are_tested_before_they_are_ground(judge: Any) -> None:
    judged = judge(slab={"contaminants": ("dust", "carpet glue", "vinyl tile", "paint", "laitance")})
    assert judged.cautions("old-coverings") == [f"/slab/contaminants/{index}" for index in (1, 2, 3)]


def test_looked_at_and_clean_is_not_the_same_as_not_looked_at(judge: Any) -> None:
    clean = judge(slab={"contaminants": ()}).check("contaminants")
    assert (clean.verdict, clean.measured.value) == ("go", 0)


@pytest.mark.parametrize(
    ("csp", "remedy"),
    [(1, "do-profile-blast"), (2, "do-profile-blast"), (6, "do-profile-skim"), (7, "do-profile-skim"),
     (8, "do-profile-repair"), (10, "do-profile-repair")],
)  # fmt: skip
def test_the_remedy_of_a_profile_depends_on_how_far_it_is_out(judge: Any, csp: int, remedy: str) -> None:
    assert judge(slab={"profile_csp": csp}).check("profile").do.code == remedy


def room(**fields: Any) -> Room:
    return Room(**{"shape": Measured(area_m2=40.0), "joints": (), "slope_percent": 1.0, **fields})


def test_a_room_has_a_profile_of_its_own_and_the_worst_decides(judge: Any) -> None:
    rooms = (room(), room(profile_csp=2), room(profile_csp=8))
    check = judge(job={"rooms": rooms}).check("profile")
    assert (check.verdict, check.pointer, check.measured.value) == ("fix", "/rooms/2/profile_csp", 8)
    assert [(reading.pointer, reading.verdict.value) for reading in check.readings] == [
        ("/slab/profile_csp", "go"),
        ("/rooms/1/profile_csp", "fix"),
        ("/rooms/2/profile_csp", "fix"),
    ]


def test_the_profile_farthest_out_decides_on_either_side(judge: Any) -> None:
    """CSP 3 to 5 is asked: 1 is two out, 6 one."""
    rooms = (room(profile_csp=6), room(profile_csp=1))
    assert judge(job={"rooms": rooms}).check("profile").measured.value == 1
    rooms = (room(profile_csp=2), room(profile_csp=7))
    assert judge(job={"rooms": rooms}).check("profile").measured.value == 7


def test_a_room_without_a_profile_keeps_the_check_untested(judge: Any) -> None:
    rooms = (room(profile_csp=4), room())
    assert judge(job={"rooms": rooms}, slab={"profile_csp": None}).check("profile").verdict == "untested"
    both = (room(profile_csp=4), room(profile_csp=3))
    assert judge(job={"rooms": both}, slab={"profile_csp": None}).check("profile").verdict == "go"
    assert judge(job={"rooms": both}, slab={"profile_csp": 9}).check("profile").verdict == "go"


def pulls(*tests: tuple[float, str | None]) -> dict[str, Any]:
    return {
        "pull_off": tuple(
            PullOff(strength_pa=mpa * 1e6, failure=None if broke is None else PullOffFailure(broke))
            for mpa, broke in tests
        )
    }


@pytest.mark.parametrize("broke", ["concrete", "bond-line", "laitance", None])
def test_where_it_broke_says_what_mends_it(judge: Any, broke: str | None) -> None:
    check = judge(slab=pulls((1.0, broke), (1.2, None), (1.3, None))).check("pull-off")
    assert (check.verdict, check.do.code) == ("fix", f"do-pull-off-{broke or 'unsaid'}")
    assert check.pointer == "/slab/pull_off/0"
    assert check.because.code == "check-pull-off-below"


def test_a_mean_that_holds_does_not_carry_a_test_under_three_quarters(judge: Any) -> None:
    check = judge(slab=pulls((3.0, None), (1.0, "laitance"), (3.0, None))).check("pull-off")
    assert (check.verdict, check.because.code) == ("fix", "check-pull-off-weakest")
    assert [reading.verdict.value for reading in check.readings] == ["go", "fix", "go"]
    assert judge(slab=pulls((3.0, None), (1.05, None), (3.0, None))).check("pull-off").verdict == "go"


def test_pull_off_that_holds_is_told_by_its_mean(judge: Any) -> None:
    check = judge(slab=pulls((1.3, None), (2.0, None), (1.8, None))).check("pull-off")
    assert (check.verdict, check.because.code, check.pointer) == ("go", "check-pull-off-within", "/slab/pull_off")
    said = [reading.because.code for reading in check.readings]
    assert said == ["check-pull-off-one-under", "check-pull-off-one-over", "check-pull-off-one-over"]


def test_a_failure_in_the_glue_is_shown_and_left_out(judge: Any) -> None:
    judged = judge(slab=pulls((2.0, None), (0.3, "glue"), (2.0, None), (2.0, None)))
    check = judged.check("pull-off")
    assert (check.verdict, check.measured.value) == ("go", 2.0e6)
    assert check.readings[1].verdict == "untested"
    assert judged.cautions("few-pull-off-tests") == []


def test_fewer_than_three_that_count_are_a_caution(judge: Any) -> None:
    judged = judge(slab=pulls((2.0, None), (2.0, None), (2.0, "glue")))
    assert judged.check("pull-off").verdict == "go"
    assert judged.cautions("few-pull-off-tests") == ["/slab/pull_off"]
    (needed,) = [test for test in judged.answer.tests_needed if test.test == "pull-off"]
    assert (needed.needed, needed.given, needed.missing) == (3, 2, 1)


def test_glue_alone_is_untested(judge: Any) -> None:
    assert judge(slab=pulls((9.0, "glue"))).check("pull-off").verdict == "untested"


def test_the_steepest_room_decides(judge: Any) -> None:
    check = judge(job={"rooms": (room(), room(slope_percent=2.5), room(slope_percent=1.9))}).check("slope")
    assert (check.verdict, check.pointer, check.measured.value) == ("fix", "/rooms/1/slope_percent", 2.5)


def test_a_room_whose_fall_nobody_said_is_untested(judge: Any) -> None:
    check = judge(job={"rooms": (room(), room(slope_percent=None), room(slope_percent=None))}).check("slope")
    assert (check.verdict, check.pointer) == ("untested", "/rooms/1/slope_percent")


@pytest.mark.parametrize(
    ("slope", "drained", "code"),
    [(0.99, True, "drain-slope"), (1.0, True, None), (None, True, "drain-slope-unsaid"), (0.2, False, None)],
)
def test_drains_ask_a_fall(judge: Any, slope: float | None, drained: bool, code: str | None) -> None:
    drains = (Drain(shape=RoundDrain(diameter_m=0.2)),) if drained else ()
    judged = judge(room={"slope_percent": slope, "drains": drains})
    for each in ("drain-slope", "drain-slope-unsaid"):
        assert judged.cautions(each) == (["/rooms/0/slope_percent"] if each == code else [])


def test_one_room_needs_no_list_of_readings(judge: Any) -> None:
    for name in ("profile", "slope", "thickness"):
        assert judge().check(name).readings == ()


def test_a_room_without_a_name_has_its_number(judge: Any) -> None:
    judged = judge(job={"rooms": (room(name="Proofing"), room(slope_percent=4.0))})
    assert judged.check("slope").because.params["room"].params == {"number": 2}
    (steep,) = [check for check in judged.shown()["checks"] if check["check"] == "slope"]
    assert steep["because"].startswith("The floor of Room 2 falls 4 %")
    assert steep["readings"][0]["because"] == "The floor of Proofing falls 1 %."


def test_joints_are_good_when_any_room_has_said_them(judge: Any) -> None:
    judged = judge(job={"rooms": (room(joints=None), room(joints=()))})
    assert judged.check("joints").verdict == "go"
    assert "/rooms/0/joints" in {note.pointer for note in judged.record.missing}
    assert judge(room={"joints": None}).check("joints").verdict == "untested"


def test_a_room_out_of_the_systems_thickness_is_told_and_not_refused(judge: Any) -> None:
    check = judge(job={"rooms": (room(), room(thickness_m=0.02))}).check("thickness")
    assert (check.verdict, check.pointer) == ("fix", "/rooms/1/thickness")
    assert [reading.pointer for reading in check.readings] == ["/thickness", "/rooms/1/thickness"]


def test_sawing_and_grinding_have_their_cautions(judge: Any) -> None:
    assert judge().cautions("before-sawing") == judge().cautions("concrete-dust") == [None]
    plain = {"system": {"keyway": None}}
    assert judge(**plain).cautions("before-sawing") == judge(**plain).cautions("concrete-dust") == []
    assert judge(slab={"profile_csp": 1}, **plain).cautions("concrete-dust") == [None]


@pytest.mark.parametrize(
    "change", [{"slab": {"temperature_k": 280.0}}, {"air": {"temperature_k": 280.0}}, {"slab": {"damp": True}}]
)
def test_where_warmth_is_the_remedy_it_is_indirect(judge: Any, change: Any) -> None:
    assert judge().cautions("indirect-heat") == []
    assert judge(**change).cautions("indirect-heat") == [None]
