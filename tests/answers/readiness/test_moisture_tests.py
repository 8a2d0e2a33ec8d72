"""Several readings, readings that do not count, and how many are enough."""

from typing import Any

import pytest

from gaugerake.floor.job import EmissionReading, HumidityReading, Measured, Room

FT2 = 0.3048**2
LIMIT = 6e-7  # of the system, kg/(m²·s)


def emissions(*rates: float) -> tuple[EmissionReading, ...]:
    return tuple(EmissionReading(rate_kg_m2_s=rate) for rate in rates)


def dish(rate: float, hours: float) -> EmissionReading:
    """A dish that stood for some hours and shows a rate."""
    return EmissionReading(gain_kg=rate * hours * 3600 * 0.04, exposure_hours=hours, area_m2=0.04)


def probes(*percents: float, depth_m: float | None = 0.05) -> tuple[HumidityReading, ...]:
    return tuple(HumidityReading(percent=percent, depth_m=depth_m) for percent in percents)


def needed(judged: Any) -> dict[str, tuple[int, int, int]]:
    return {test.test.value: (test.needed, test.given, test.missing) for test in judged.answer.tests_needed}


def test_one_of_five_over_the_limit_stops_and_is_named(judge: Any) -> None:
    judged = judge(slab={"moisture_emission": emissions(3e-7, 2e-7, 4e-7, 7e-7, 1e-7)})
    check = judged.check("moisture-emission")
    assert judged.answer.verdict == check.verdict == "stop"
    assert check.pointer == "/slab/moisture_emission/3"
    assert check.measured.value == 7e-7
    assert [reading.verdict.value for reading in check.readings] == ["go", "go", "go", "stop", "go"]
    assert judged.shown()["summary"].startswith("Do not pour: moisture emission 4 is 12.39 lb/1,000 sq ft/24 h ")


def test_of_readings_within_the_limit_the_wettest_is_shown(judge: Any) -> None:
    check = judge(slab={"relative_humidity": probes(70, 82, 75)}).check("relative-humidity")
    assert (check.verdict, check.measured.value, check.pointer) == ("go", 82, "/slab/relative_humidity/1")


@pytest.mark.parametrize(("hours", "given"), [(59.9, 2), (60, 3), (72, 3), (72.1, 2)])
def test_a_dish_out_of_its_hours_is_not_given(judge: Any, hours: float, given: int) -> None:
    judged = judge(slab={"moisture_emission": (*emissions(4e-7, 4e-7), dish(4e-7, hours)), "relative_humidity": ()})
    assert needed(judged)["moisture-emission"] == (3, given, 3 - given)
    assert judged.cautions("dish-exposure") == ([] if given == 3 else ["/slab/moisture_emission/2"])
    assert judged.check("test-count").verdict == ("go" if given == 3 else "untested")


def test_a_dish_out_of_its_hours_stops_but_does_not_pass(judge: Any) -> None:
    over = judge(slab={"moisture_emission": (dish(7e-7, 48),), "relative_humidity": ()})
    assert over.check("moisture-emission").verdict == "stop"
    under = judge(slab={"moisture_emission": (dish(4e-7, 48),), "relative_humidity": ()})
    assert under.check("moisture-emission").verdict == "untested"
    beside = judge(slab={"moisture_emission": (*emissions(3e-7), dish(4e-7, 48)), "relative_humidity": ()})
    assert beside.check("moisture-emission").verdict == "go"
    assert beside.check("moisture-emission").measured.value == 3e-7


def test_a_probe_too_shallow_stops_but_does_not_pass(judge: Any) -> None:
    """125 mm drying from one side asks 50 mm; 47.5 mm is 5 % less."""
    shallow = judge(slab={"relative_humidity": probes(95, depth_m=0.047), "moisture_emission": ()})
    assert shallow.check("relative-humidity").verdict == "stop"
    judged = judge(slab={"relative_humidity": probes(80, depth_m=0.047), "moisture_emission": ()})
    assert judged.check("relative-humidity").verdict == judged.check("probe-depth").verdict == "untested"
    assert needed(judged)["relative-humidity"] == (3, 0, 3)
    enough = judge(slab={"relative_humidity": probes(80, depth_m=0.0475), "moisture_emission": ()})
    assert enough.check("relative-humidity").verdict == enough.check("probe-depth").verdict == "go"


def test_one_shallow_probe_is_named(judge: Any) -> None:
    slab = {"relative_humidity": (*probes(80, 80), *probes(80, depth_m=0.02), *probes(80))}
    check = judge(slab=slab).check("probe-depth")
    assert (check.verdict, check.pointer) == ("untested", "/slab/relative_humidity/2/depth")
    assert check.limit.low.value == pytest.approx(0.05)
    assert check.because.params["number"] == 3
    assert [reading.verdict.value for reading in check.readings] == ["go", "go", "untested", "go"]


def test_a_depth_or_thickness_left_out_leaves_the_depth_untested(judge: Any) -> None:
    unsaid = judge(slab={"relative_humidity": probes(80, 80, 80, depth_m=None)})
    assert unsaid.check("probe-depth").verdict == "untested"
    assert unsaid.check("relative-humidity").verdict == "go"
    unknown = judge(slab={"thickness_m": None})
    assert unknown.check("probe-depth").verdict == "untested"
    assert "/slab/thickness" in {note.pointer for note in unknown.record.missing}


def test_a_slab_is_taken_to_dry_from_one_side(judge: Any) -> None:
    judged = judge(slab={"dries_from": None})
    assert judged.check("probe-depth").limit.low.value == pytest.approx(0.05)
    assert [note.pointer for note in judged.record.assumptions] == ["/slab/dries_from"]
    assert judge(slab={"dries_from": None, "relative_humidity": ()}).record.assumptions == ()


def test_either_kind_in_full_number_satisfies_a_system_that_takes_both(judge: Any) -> None:
    emission = judge(slab={"relative_humidity": ()})
    assert "relative-humidity" not in emission.names
    assert "probe-depth" not in emission.names
    assert needed(emission)["relative-humidity"] == (0, 0, 0)
    assert emission.answer.verdict == "go"
    humidity = judge(slab={"moisture_emission": ()})
    assert "moisture-emission" not in humidity.names
    assert needed(humidity)["moisture-emission"] == (0, 0, 0)
    assert humidity.answer.verdict == "go"


def test_with_neither_kind_both_are_untested(judge: Any) -> None:
    judged = judge(slab={"moisture_emission": (), "relative_humidity": ()})
    for name in ("moisture-emission", "relative-humidity", "probe-depth", "test-count"):
        assert judged.check(name).verdict == "untested"
    assert judged.check("test-count").because.code == "check-test-count-either"


def test_with_both_kinds_both_count(judge: Any) -> None:
    wet = judge(slab={"moisture_emission": emissions(1e-7, 1e-7, 1e-7), "relative_humidity": probes(95)})
    assert wet.check("relative-humidity").verdict == wet.answer.verdict == "stop"
    few = judge(slab={"moisture_emission": emissions(1e-7, 1e-7), "relative_humidity": probes(80)})
    assert needed(few)["moisture-emission"] == (3, 2, 1)
    assert needed(few)["relative-humidity"] == (3, 1, 2)
    assert few.check("test-count").verdict == "untested"
    one_full = judge(slab={"moisture_emission": emissions(1e-7, 1e-7, 1e-7), "relative_humidity": probes(80)})
    assert needed(one_full)["relative-humidity"] == (0, 1, 0)
    assert one_full.check("test-count").verdict == "go"


@pytest.mark.parametrize(
    ("areas_ft2", "count"),
    [((1000,), 3), ((1000.1,), 4), ((600, 600), 4), ((500, 500), 3), ((2500,), 5), ((10_000,), 12), ((30,), 3)],
)
def test_tests_are_counted_over_all_rooms(judge: Any, areas_ft2: tuple[float, ...], count: int) -> None:
    rooms = tuple(Room(shape=Measured(area_m2=area * FT2), joints=(), slope_percent=1.0) for area in areas_ft2)
    judged = judge(job={"rooms": rooms}, slab={"relative_humidity": ()})
    assert needed(judged)["moisture-emission"] == (count, 3, count - 3)
    assert judged.check("test-count").verdict == ("go" if count == 3 else "untested")


@pytest.mark.parametrize(
    ("rate", "near"), [(0.9 * LIMIT, True), (0.89 * LIMIT, False), (LIMIT, True), (1.01 * LIMIT, False)]
)
def test_within_a_tenth_of_an_emission_limit_is_near(judge: Any, rate: float, near: bool) -> None:
    judged = judge(slab={"moisture_emission": emissions(1e-7, rate, 1e-7)})
    assert judged.cautions("near-limit") == (["/slab/moisture_emission/1"] if near else [])


@pytest.mark.parametrize(("percent", "near"), [(88, True), (87.9, False), (90, True), (90.1, False)])
def test_within_two_points_of_a_humidity_limit_is_near(judge: Any, percent: float, near: bool) -> None:
    judged = judge(slab={"relative_humidity": probes(70, 70, percent)})
    assert judged.cautions("near-limit") == (["/slab/relative_humidity/2"] if near else [])


@pytest.mark.parametrize("gone", ["gain_kg", "exposure_hours", "area_m2"])
def test_half_a_dish_is_untested(judge: Any, gone: str) -> None:
    figures = {"gain_kg": 0.003, "exposure_hours": 66.0, "area_m2": 0.04}
    half = EmissionReading(**{name: value for name, value in figures.items() if name != gone})
    judged = judge(slab={"moisture_emission": (half,), "relative_humidity": ()})
    assert judged.check("moisture-emission").verdict == "untested"
    assert needed(judged)["moisture-emission"] == (3, 0, 3)


def test_a_system_that_takes_one_kind_does_not_offer_the_other(judge: Any) -> None:
    only = {"slab_limits": {"relative_humidity_percent": None}}
    judged = judge(slab={"moisture_emission": emissions(1e-7)}, **only)
    assert judged.check("test-count").because.code == "check-test-count-below"
    assert set(needed(judged)) == {"moisture-emission", "pull-off"}
