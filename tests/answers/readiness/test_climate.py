"""The air and the floor: which temperature counts, when water may condense, and what the products stand."""

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from gaugerake.floor.job import Daily, Order, Readings, Shift, Steady, TemperatureReading, Weekday
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.slab.air import dew_point

KELVIN = 273.15
CHICAGO = ZoneInfo("America/Chicago")
DEW_K = dew_point(temperature_k=291.0, humidity_percent=55)  # of the good job's air, 281.85 K


def test_the_measured_floor_goes_before_the_planned_one(judge: Any, friday: Any) -> None:
    judged = judge(work={**friday, "temperatures": Steady(temperature_k=295.0)})
    assert judged.answer.air.floor_temperature.value == 289.0
    assert judged.answer.air.spread.value == pytest.approx(289.0 - DEW_K)
    assert judged.answer.air.dew_point.value == pytest.approx(DEW_K)


def test_the_planned_floor_at_the_start_stands_for_a_measured_one(judge: Any, friday: Any) -> None:
    """10 ± 4 °C, coldest at five: at six it is 10 − 4·cos 15°."""
    wave = Daily(low_k=6 + KELVIN, high_k=14 + KELVIN, coldest_at=time(5))
    judged = judge(slab={"temperature_k": None}, work={**friday, "temperatures": wave})
    expected_k = 10 - 4 * 0.9659258 + KELVIN
    assert judged.answer.air.floor_temperature.value == pytest.approx(expected_k)
    assert judged.check("slab-temperature").measured.value == pytest.approx(expected_k)
    assert judged.check("dew-point-spread").pointer == "/work/temperatures"


def test_a_steady_floor_needs_no_start(judge: Any) -> None:
    judged = judge(slab={"temperature_k": None}, work={"temperatures": Steady(temperature_k=290.0)})
    assert judged.check("dew-point-spread").verdict == judged.check("slab-temperature").verdict == "go"


def test_a_wave_without_a_start_says_nothing_of_now(judge: Any) -> None:
    wave = Daily(low_k=280.0, high_k=290.0, coldest_at=time(5))
    judged = judge(slab={"temperature_k": None}, work={"temperatures": wave})
    assert judged.answer.air.spread is None
    assert judged.check("dew-point-spread").verdict == judged.check("slab-temperature").verdict == "untested"


def test_a_floor_that_is_only_the_airs_cannot_pass(judge: Any) -> None:
    judged = judge(slab={"temperature_k": None})
    assert judged.check("slab-temperature").verdict == "untested"
    check = judged.check("dew-point-spread")
    assert (check.verdict, check.because.code) == ("untested", "check-dew-point-spread-assumed")
    assert check.measured.value == pytest.approx(291.0 - DEW_K)
    assert "floor-as-air" in {note.code for note in judged.record.assumptions}


def test_a_floor_that_is_only_the_airs_can_fail(judge: Any) -> None:
    judged = judge(slab={"temperature_k": None}, air={"humidity_percent": 84})
    assert judged.check("dew-point-spread").verdict == "fix"


@pytest.mark.parametrize(
    ("air", "pointer"),
    [
        ({"temperature_k": None}, "/air/temperature"),
        ({"humidity_percent": None}, "/air/humidity_percent"),
        ({"temperature_k": None, "humidity_percent": None}, "/air/temperature"),
    ],
)
def test_half_an_air_has_no_dew_point(judge: Any, air: Any, pointer: str) -> None:
    judged = judge(air=air)
    check = judged.check("dew-point-spread")
    assert (check.verdict, check.pointer) == ("untested", pointer)
    assert judged.answer.air.dew_point is None


@pytest.fixture
def nights(friday: Any) -> dict[str, Any]:
    """The good air over a floor that is 3 K above its dew point at 01:00 and 09:00, and less between."""
    level = DEW_K + 3.0
    wave = Daily(low_k=level - 2, high_k=level + 6, coldest_at=time(5))  # cos = 1/2 four hours either side
    return {**friday, "temperatures": wave, "round_the_clock": True}


def test_condensation_is_told_in_spans(judge: Any, nights: Any) -> None:
    judged = judge(work=nights)
    first = judged.answer.condensation[0]
    assert first.from_ == datetime(2027, 3, 5, 6, tzinfo=CHICAGO)  # the work begins within it
    assert abs(first.until - datetime(2027, 3, 5, 9, tzinfo=CHICAGO)) <= timedelta(minutes=1)
    # it is warming, so the least is at the start: 1 K at the coldest hour, and 4·(1 − cos 15°) more an hour later
    assert first.least_spread.value == pytest.approx(1 + 4 * (1 - 0.9659258), abs=1e-6)
    assert judged.check("dew-point-spread").verdict == "go"  # of the slab as measured, at 289 K
    assert judged.cautions("condensation-ahead") == ["/work/temperatures"]


def test_condensation_lasts_to_the_end_of_the_last_cure(judge: Any, nights: Any) -> None:
    """Begun at 20:00 the coat of ten hours and more cures through the night."""
    start = datetime(2027, 3, 5, 20)  # noqa: DTZ001
    (span,) = judge(work={**nights, "start": start}).answer.condensation
    assert abs(span.from_ - datetime(2027, 3, 6, 1, tzinfo=CHICAGO)) <= timedelta(minutes=1)
    assert datetime(2027, 3, 6, 6, tzinfo=CHICAGO) < span.until <= datetime(2027, 3, 6, 9, 1, tzinfo=CHICAGO)
    assert span.least_spread.value == pytest.approx(1.0, abs=1e-9)


def test_a_logged_floor_is_cut_where_it_crosses(judge: Any, nights: Any) -> None:
    level = DEW_K + 3.0
    log = Readings(
        readings=tuple(
            TemperatureReading(at=datetime(2027, 3, 5, hour), temperature_k=level + apart)  # noqa: DTZ001
            for hour, apart in ((6, 2.0), (10, -2.0), (14, 2.0))
        )
    )
    (span,) = judge(work={**nights, "temperatures": log}).answer.condensation
    assert (span.from_, span.until) == (
        datetime(2027, 3, 5, 8, tzinfo=CHICAGO),
        datetime(2027, 3, 5, 12, tzinfo=CHICAGO),
    )
    assert span.least_spread.value == pytest.approx(1.0)


def test_shifts_are_not_condensation(judge: Any, nights: Any) -> None:
    """Nothing is open yet, but the span begins with the start of the work as asked."""
    shift = Shift(days=tuple(Weekday), starts=time(12), ends=time(18))
    judged = judge(work={**nights, "round_the_clock": None, "shifts": (shift,)})
    assert judged.answer.condensation[0].from_ == datetime(2027, 3, 5, 6, tzinfo=CHICAGO)


@pytest.mark.parametrize(
    "change",
    [
        {"air": {"humidity_percent": None}},
        {"air_limits": {"dew_point_spread_k": None}},
        {"job": {"rooms": ()}},
        {"job": {"thickness_m": 0.1}},
    ],
)
def test_no_spans_without_air_limit_or_work(judge: Any, nights: Any, change: Any) -> None:
    assert judge(work=nights, **change).answer.condensation == ()


def test_no_spans_without_a_start(judge: Any, nights: Any) -> None:
    assert judge(work={**nights, "start": None}).answer.condensation == ()


def test_a_floor_warm_enough_at_every_hour_has_none(judge: Any, friday: Any) -> None:
    wave = Daily(low_k=DEW_K + 3.0, high_k=300.0, coldest_at=time(5))
    assert judge(work={**friday, "temperatures": wave}).answer.condensation == ()


@pytest.mark.parametrize(
    ("low_k", "high_k", "codes"),
    [
        (284.0, 300.0, set()),
        (279.0, 300.0, {"product-temperature-below"}),
        (284.0, 306.0, {"product-temperature-above"}),
        (279.0, 306.0, {"product-temperature-below", "product-temperature-above"}),
    ],
)
def test_a_floor_beyond_a_products_temperatures_is_a_caution(
    judge: Any, friday: Any, low_k: float, high_k: float, codes: set[str]
) -> None:
    """The product stands 280 to 305 K; the work lasts a day and more."""
    wave = Daily(low_k=low_k, high_k=high_k, coldest_at=time(5))
    start = datetime(2027, 3, 5, 4)  # noqa: DTZ001
    judged = judge(work={**friday, "start": start, "temperatures": wave})
    assert {note.code for note in judged.record.cautions if note.code.startswith("product-temperature")} == codes


def test_the_products_own_limit_is_told(judge: Any) -> None:
    for floor_k, limit_k in ((279.0, 280.0), (306.0, 305.0)):
        notes = judge(slab={"temperature_k": floor_k}).record.cautions
        (note,) = [note for note in notes if note.code.startswith("product-temperature")]
        assert (note.params["limit"].value, note.params["measured"].value) == (limit_k, floor_k)


@pytest.mark.parametrize(("chosen", "count"), [(None, 0), (("top",), 1), (("coat",), 1), (("other",), 0)])
def test_an_optional_product_counts_when_it_is_asked_for(judge: Any, coat: CoatLayer, chosen: Any, count: int) -> None:
    layers = (replace(coat, id="top", optional=True),)
    judged = judge(
        system={"layers": layers}, job={"order": Order(optional_layers=chosen)}, air={"humidity_percent": 81}
    )
    assert len(judged.cautions("product-humidity-above")) == count


def test_only_the_hours_of_the_work_count(judge: Any, friday: Any) -> None:
    """The afternoon is too warm for the product, and the work is over before it: ten hours from midnight."""
    wave = Daily(low_k=285.0, high_k=306.0, coldest_at=time(1))
    work = {"zone": "UTC", "temperatures": wave, "round_the_clock": True}
    night = judge(work={**work, "start": datetime(2027, 3, 5, 20)})  # noqa: DTZ001
    assert night.cautions("product-temperature-above") == []
    noon = judge(work={**work, "start": datetime(2027, 3, 5, 12)})  # noqa: DTZ001
    assert noon.cautions("product-temperature-above") == ["/work/temperatures"]


@pytest.mark.parametrize(("humidity", "code"), [(19, "product-humidity-below"), (81, "product-humidity-above")])
def test_air_beyond_a_products_humidity_is_a_caution(judge: Any, humidity: float, code: str) -> None:
    judged = judge(air={"humidity_percent": humidity})
    assert judged.cautions(code) == ["/air/humidity_percent"]
    assert "Clear coat" in next(note["text"] for note in judged.shown()["notes"] if note.get("code") == code)
    assert judge(air={"humidity_percent": 80}).cautions("product-humidity-above") == []
