"""The job document: what it loads into, and how it is written again."""

import copy
from datetime import UTC, date, datetime, time, timedelta, timezone
from decimal import Decimal
from typing import Any

import pytest
from marshmallow import ValidationError

from gaugerake.floor.job import (
    Air,
    Circle,
    Cove,
    Crack,
    Crew,
    Cutout,
    Daily,
    Drain,
    DriesFrom,
    HumidityReading,
    Job,
    Joint,
    JointKind,
    Measured,
    Offer,
    OnHand,
    Order,
    Polygon,
    PullOffFailure,
    Readings,
    Rectangle,
    Room,
    RoundDrain,
    Shift,
    Slab,
    Spall,
    TemperatureReading,
    Termination,
    TrenchDrain,
    Weekday,
    Work,
)
from gaugerake.measure.choice import SI, US, UnitChoice
from gaugerake.web.errors.finding import located
from gaugerake.web.json_in.schemas.job import JOB, SLAB_JOB

FULL: dict[str, Any] = {
    "system": "level-clear",
    "thickness": "3/16 in",
    "rooms": [
        {
            "name": "Proofing room",
            "shape": {"rectangle": {"length": "42 ft", "width": "28' 6\""}},
            "cutouts": [{"rectangle": {"length": "6 ft", "width": "4 ft"}, "at": ["10 ft", "8 ft"]}],
            "drains": [
                {"round": {"diameter": "8 in"}, "count": 2},
                {"trench": {"length": "20 ft", "width": "6 in"}},
            ],
            "joints": [
                {"length": "28 ft", "kind": "moving", "width": "3/8 in", "depth": "1/2 in"},
                {"line": [["0 ft", "3 ft"], ["42 ft", "3 ft"]], "kind": "contraction"},
            ],
            "terminations": [{"length": "8 ft"}],
            "cracks": [{"length": "17 ft", "width": "3/8 in", "depth": "1/2 in"}],
            "spalls": [{"area": "3 ft2", "depth": "3/8 in"}],
            "cove": {"length": "120 ft", "height": "4 in"},
            "slope_percent": 1.0,
            "thickness": "1/4 in",
            "profile_csp": 5,
        },
        {"shape": {"polygon": {"points": [[0, 0], [10, 0], [10, 8.5], [0, 8.5], [0, 0]], "unit": "m"}}, "joints": []},
        {"shape": {"circle": {"diameter": "9 m"}}},
        {"shape": {"measured": {"area": "1,200 sq ft", "perimeter": "150 ft"}}},
    ],
    "slab": {
        "substrate": "concrete",
        "age": "45 d",
        "poured": "2027-01-19",
        "compressive_strength": "4200 psi",
        "profile_csp": 4,
        "thickness": "5 in",
        "dries_from": "one-side",
        "moisture_emission": ["6.1 lb/1000ft2/24h", {"gain": "3.0 g", "hours": 72, "area": "64.06 in2"}],
        "relative_humidity": [{"percent": 84, "depth": "2 in"}],
        "pull_off": ["310 psi", {"strength": "295 psi", "failure": "concrete"}],
        "ph": 9.5,
        "absorbs_water": True,
        "damp": False,
        "contaminants": [],
        "temperature": "61 degF",
    },
    "air": {"temperature": "64 degF", "humidity_percent": 55},
    "work": {
        "start": "2027-03-05T06:00",
        "zone": "America/Chicago",
        "temperatures": {"daily": {"low": "58 degF", "high": "70 degF", "coldest_at": "05:30"}},
        "material_temperature": "70 degF",
        "shifts": [{"days": ["mon", "tue", "wed", "thu", "fri"], "from": "06:00", "to": "15:30"}],
        "closed": ["2027-03-08"],
        "crew": {
            "mixing_stations": 2,
            "minutes_per_mix": 4,
            "placing_rate": "900 ft2/h",
            "lane_depth": "3 ft",
            "coating_rate": "1500 ft2/h",
            "clearing_rate": "2500 ft2/h",
        },
        "preparation": "6 h",
        "reopen_by": "2027-03-09T05:00",
        "traffic": "vehicle",
    },
    "order": {
        "waste_percent": 5,
        "confidence": 0.9,
        "optional_layers": ["primer"],
        "colour": "slate",
        "tax_percent": 8.25,
        "discount_percent": 0,
        "delivery": "45.00",
        "on_hand": [{"sku": "LB-1", "packs": 1}],
        "offers": [{"sku": "CC-1.5", "price": "88.10", "available": 40}],
        "reference": "PO 4711",
        "issued": "2027-03-01",
        "price_book": "list",
    },
}

ROOMS = (
    Room(
        name="Proofing room",
        # an inch is 0.0254 m, a foot 0.3048 m, a square foot 0.09290304 m²: by definition
        shape=Rectangle(length_m=12.8016, width_m=8.6868),
        cutouts=(Cutout(shape=Rectangle(length_m=1.8288, width_m=1.2192), at_m=(3.048, 2.4384)),),
        drains=(
            Drain(shape=RoundDrain(diameter_m=0.2032), count=2),
            Drain(shape=TrenchDrain(length_m=6.096, width_m=0.1524)),
        ),
        joints=(
            Joint(length_m=8.5344, kind=JointKind.MOVING, width_m=0.009525, depth_m=0.0127),
            Joint(line_m=((0.0, 0.9144), (12.8016, 0.9144)), kind=JointKind.CONTRACTION),
        ),
        terminations=(Termination(length_m=2.4384),),
        cracks=(Crack(length_m=5.1816, width_m=0.009525, depth_m=0.0127),),
        spalls=(Spall(area_m2=0.27870912, depth_m=0.009525),),
        cove=Cove(length_m=36.576, height_m=0.1016),
        slope_percent=1.0,
        thickness_m=0.00635,
        profile_csp=5,
    ),
    Room(shape=Polygon(points_m=((0.0, 0.0), (10.0, 0.0), (10.0, 8.5), (0.0, 8.5))), joints=()),
    Room(shape=Circle(diameter_m=9.0)),
    Room(shape=Measured(area_m2=111.483648, perimeter_m=45.72)),
)


def test_rooms_load_in_metres() -> None:
    assert JOB.load(FULL).rooms == ROOMS


def test_a_slab_loads() -> None:
    slab: Slab = JOB.load(FULL).slab
    assert slab.age_s == 45 * 86400
    assert slab.poured == date(2027, 1, 19)
    # 1 psi = 6894.757293168 Pa; 1 lb/1000 ft2/24 h = 0.45359237 kg / 92.90304 m² / 86400 s
    assert slab.compressive_strength_pa == pytest.approx(4200 * 6894.757293168, rel=1e-9)
    assert slab.dries_from is DriesFrom.ONE_SIDE
    rate, dish = slab.moisture_emission
    assert rate.rate_kg_m2_s == pytest.approx(6.1 * 0.45359237 / 92.90304 / 86400, rel=1e-9)
    assert (dish.gain_kg, dish.exposure_hours) == (0.003, 72.0)
    assert dish.area_m2 == pytest.approx(64.06 * 0.0254**2, rel=1e-9)
    assert slab.relative_humidity == (HumidityReading(percent=84.0, depth_m=0.0508),)
    assert [pull.failure for pull in slab.pull_off] == [None, PullOffFailure.CONCRETE]
    assert (slab.ph, slab.absorbs_water, slab.damp, slab.contaminants) == (9.5, True, False, ())
    assert slab.temperature_k == pytest.approx((61 + 459.67) * 5 / 9, abs=1e-6)


def test_work_loads() -> None:
    work: Work = JOB.load(FULL).work
    assert work.start == datetime.fromisoformat("2027-03-05T06:00")
    assert work.zone == "America/Chicago"
    assert isinstance(work.temperatures, Daily)
    assert work.temperatures.coldest_at == time(5, 30)
    assert work.shifts == (Shift(days=tuple(Weekday)[:5], starts=time(6), ends=time(15, 30)),)
    assert work.closed == (date(2027, 3, 8),)
    assert work.crew.placing_rate_m2_s == pytest.approx(900 * 0.09290304 / 3600, rel=1e-9)
    assert work.preparation_s == 6 * 3600


def test_an_order_loads_with_exact_money() -> None:
    assert JOB.load(FULL).order == Order(
        waste_percent=5.0,
        confidence=0.9,
        optional_layers=("primer",),
        colour="slate",
        tax_percent=Decimal("8.25"),
        discount_percent=Decimal(0),
        delivery=Decimal("45.00"),
        on_hand=(OnHand(sku="LB-1", packs=1),),
        offers=(Offer(sku="CC-1.5", price=Decimal("88.10"), available=40),),
        reference="PO 4711",
        issued=date(2027, 3, 1),
        price_book="list",
    )


def test_the_least_job() -> None:
    job = JOB.load({"system": "x", "rooms": [{"shape": {"measured": {"area": "1200 sq ft"}}}]})
    room = Room(shape=Measured(area_m2=111.483648))
    assert job == Job(system="x", rooms=(room,), slab=Slab(), air=Air(), work=Work(crew=Crew()), order=Order())


def test_readiness_may_know_no_room() -> None:
    assert SLAB_JOB.load({"system": "x"}) == Job(system="x", rooms=())


def nulled(document: Any) -> Any:
    """The document with a null for every field that its objects lack, as a form half filled in might send it."""
    document = copy.deepcopy(document)
    room = document["rooms"][0]
    room |= dict.fromkeys(("cove", "cracks", "joints", "profile_csp", "slope_percent"))
    room["shape"] |= {"circle": None, "polygon": None}
    document |= {"slab": None, "air": {"temperature": None}, "work": {"start": None, "crew": None}, "thickness": None}
    return document


def test_a_null_says_as_much_as_nothing() -> None:
    least = {"system": "x", "rooms": [{"shape": {"rectangle": {"length": "3 m", "width": "2 m"}}}]}
    assert JOB.load(nulled(least)) == JOB.load(least)


def test_measures_may_be_objects() -> None:
    text = {"system": "x", "rooms": [{"shape": {"circle": {"diameter": "9 m"}}}]}
    plain = {"system": "x", "rooms": [{"shape": {"circle": {"diameter": {"value": 9, "unit": "m"}}}}]}
    assert JOB.load(text) == JOB.load(plain)


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("2027-03-05T06:00", datetime.fromisoformat("2027-03-05T06:00")),
        ("2027-03-05 06:00:30", datetime.fromisoformat("2027-03-05T06:00:30")),
        ("2027-03-05T06:00:00.000Z", datetime(2027, 3, 5, 6, tzinfo=UTC)),
        ("2027-03-05T06:00-06:00", datetime(2027, 3, 5, 6, tzinfo=timezone(timedelta(hours=-6)))),
        ("2027-03-05T06:00+05:30", datetime(2027, 3, 5, 6, tzinfo=timezone(timedelta(hours=5, minutes=30)))),
    ],
)
def test_moments_are_read_with_and_without_offset(written: str, read: datetime) -> None:
    start = SLAB_JOB.load({"system": "x", "work": {"start": written}}).work.start
    assert start == read
    assert start.utcoffset() == read.utcoffset()


def test_a_shift_may_end_at_24_00() -> None:
    shift = {"days": ["sat", "sat"], "from": "16:00", "to": "24:00"}
    work = SLAB_JOB.load({"system": "x", "work": {"shifts": [shift]}}).work
    assert work.shifts == (Shift(days=(Weekday.SAT,), starts=time(16), ends=time(0)),)


def test_readings_load_in_their_order() -> None:
    readings = [{"at": f"2027-03-05T{hour:02}:00", "temperature": f"{50 + hour} degF"} for hour in range(24)]
    loaded = SLAB_JOB.load({"system": "x", "work": {"temperatures": {"readings": readings}}}).work.temperatures
    assert isinstance(loaded, Readings)
    assert len(loaded.readings) == 24
    assert loaded.readings[22] == TemperatureReading(
        at=datetime.fromisoformat("2027-03-05T22:00"), temperature_k=295.372222222
    )


def close(one: Any, other: Any) -> bool:
    """Whether two values are equal but for what six digits leave out."""
    if isinstance(one, float):
        return other == pytest.approx(one, rel=1e-5, abs=1e-5)
    if isinstance(one, tuple):
        return len(one) == len(other) and all(map(close, one, other))
    if hasattr(one, "__dataclass_fields__"):
        same = type(one) is type(other)
        return same and all(close(getattr(one, name), getattr(other, name)) for name in one.__dataclass_fields__)
    return bool(one == other)


STEADY: dict[str, Any] = {**FULL, "work": {**FULL["work"], "temperatures": {"steady": "18 °C"}}}
LOGGED: dict[str, Any] = {
    **FULL,
    "work": {
        "start": "2027-03-05T06:00:00Z",
        "round_the_clock": True,
        "temperatures": {
            "readings": [
                {"at": "2027-03-05T06:00:00Z", "temperature": "-3 degC"},
                {"at": "2027-03-05T08:00:00+01:00", "temperature": "9 degC"},
            ]
        },
    },
}


@pytest.mark.parametrize("choice", [US, SI], ids=["us", "si"])
@pytest.mark.parametrize("document", [FULL, STEADY, LOGGED], ids=["daily", "steady", "logged"])
def test_what_was_understood_is_written_and_loads_again(document: dict[str, Any], choice: UnitChoice) -> None:
    job = JOB.load(document)
    written = JOB.write(job, choice)
    assert close(JOB.load(written), job)
    assert JOB.write(JOB.load(written), choice) == written


def test_what_was_not_said_is_not_written() -> None:
    least = {"system": "x", "rooms": [{"shape": {"measured": {"area": {"value": 1200, "unit": "ft2"}}}}]}
    assert JOB.write(JOB.load(least), US) == least


def test_no_joints_is_said_again_and_nothing_said_is_not() -> None:
    shape = {"circle": {"diameter": {"value": 9.0, "unit": "m"}}}
    rooms = [{"shape": shape, "joints": []}, {"shape": shape}]
    assert JOB.write(JOB.load({"system": "x", "rooms": rooms}), SI)["rooms"] == rooms


def test_every_fault_is_told_at_once() -> None:
    job = {"system": 3, "rooms": [{"shape": {"circle": {"diameter": "9"}}}, {"shape": {}}], "slab": {"ph": "9"}, "x": 1}
    with pytest.raises(ValidationError) as caught:
        JOB.load(job)
    assert {(place.pointer, place.finding.code) for place in located(caught.value.messages)} == {
        ("/system", "not-text"),
        ("/rooms/0/shape/circle/diameter", "no-unit"),
        ("/rooms/1/shape", "one-of-missing"),
        ("/slab/ph", "not-a-number"),
        ("/x", "unknown-field"),
    }
