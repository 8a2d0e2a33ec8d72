"""A job of two days, by hand: who does what on each, with what, and what is written down.

A mix makes 0.375 ft³, which at 3/16 in (1/64 ft) covers 0.375 · 64 = 24 ft². One station mixes it in 4 min; 24 ft² are
placed at 600 ft²/h in 2.4 min, so a mix follows every 4 min. Both rooms are 24 ft wide: a mix is 1 ft of the way.

Hall: 60 ft · 24 ft = 1,440 ft² = 60 mixes = 4 h. Store: 96 ft · 24 ft = 2,304 ft² = 96 mixes = 6.4 h. Shifts are 07:00
to 15:30, 8.5 h: both rooms take 10.4 h, so work stops between them. On Thursday the slab is prepared from 07:00 to
09:00, as the job says; the hall is poured from 09:00 to 13:00. The 2.5 h that are left do not hold the store: Friday,
07:00 to 13:24.

Hands (common practice, no source): 2 prepare; a pour takes 1 to mix, 1 to place, 1 to roll. Nothing is wasted, and the
yield and the thickness have no spread, so 156 mixes are ordered.
"""

from dataclasses import replace
from datetime import datetime, time

import pytest
from tests.builders import FT, FT2, FT3, HOUR, INCH, MIL, MINUTE, NO_PRICES, catalogue, curve, fahrenheit, mixes, triple

from gaugerake.answers.day_sheet.answer import DaySheet, SheetDay, day_sheet
from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.errors import Refused
from gaugerake.answers.job.resolve import resolve
from gaugerake.answers.job.resolved import Supply
from gaugerake.answers.job.taken import asked
from gaugerake.floor.job import Advance, Crew, Job, OnHand, Order, Rectangle, Room, Shift, Side, Steady, Weekday, Work
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.product import Pack, Storage
from gaugerake.floor.system import AirLimits, System, Thickness
from gaugerake.floor.values.errors import UndatedWork

KIT = Pack(sku="K-1", contents=1.0, contents_text="1 mix", unit_code="KT", description="Body, 1 mix")
PALLET = replace(KIT, sku="K-24", contents=24.0, contents_text="24 mixes", description="Body, 24 mixes")
BODY = mixes(yield_m3=triple(0.375 * FT3), mixing_s=150.0, packs=(KIT, PALLET), store=Storage(condition_s=18 * HOUR))
SYSTEM = System(
    code="test",
    name="Test",
    description="",
    reference_temperature_k=fahrenheit(70),
    thickness=Thickness(low_m=0.003, usual_m=3 / 16 * INCH, high_m=0.01),
    thickness_sd_fraction=0.0,
    air_limits=AirLimits(dew_point_spread_k=3.0),
    layers=(BodyLayer(id="body", name="Body coat", product=BODY, cure=curve((70, 12, 15))),),
)
FROM_THE_LEFT = Advance(side=Side.LEFT)
HALL = Room(shape=Rectangle(length_m=60 * FT, width_m=24 * FT), name="Hall", pour=FROM_THE_LEFT)
STORE = Room(shape=Rectangle(length_m=96 * FT, width_m=24 * FT), name="Store", pour=FROM_THE_LEFT)
WORK = Work(
    start=datetime.fromisoformat("2027-03-04T07:00"),
    zone="America/Chicago",
    temperatures=Steady(temperature_k=fahrenheit(70)),
    material_temperature_k=fahrenheit(68),
    shifts=(Shift(days=tuple(Weekday)[:5], starts=time(7), ends=time(15, 30)),),
    preparation_s=2 * HOUR,
    crew=Crew(mixing_stations=1, minutes_per_mix=4.0, placing_rate_m2_s=600 * FT2 / HOUR),
)


def answered(work: Work = WORK, *, order: Order | None = None, explained: bool = False) -> Answer[DaySheet]:
    job = Job(system="test", rooms=(HALL, STORE), work=work, order=order or Order(waste_percent=0.0))
    supply = Supply(catalogue=catalogue(SYSTEM, products={"body": BODY}), revision="r", price_book=asked(NO_PRICES))
    return day_sheet(resolve(job, supply), explained=explained)


@pytest.fixture(scope="module")
def days() -> tuple[SheetDay, ...]:
    return answered().body.days


def hours(day: SheetDay) -> list[tuple[str, str, str]]:
    return [(step.step.value, f"{step.from_:%a %H:%M}", f"{step.until:%a %H:%M}") for step in day.steps]


def test_each_step_stands_on_its_day(days: tuple[SheetDay, ...]) -> None:
    assert [hours(day) for day in days] == [
        [("prepare", "Thu 07:00", "Thu 09:00"), ("apply", "Thu 09:00", "Thu 13:00")],
        [("apply", "Fri 07:00", "Fri 13:24")],
    ]
    assert [day.date.isoformat() for day in days] == ["2027-03-04", "2027-03-05"]


def test_a_step_is_worked_in_the_rooms_of_its_hours(days: tuple[SheetDay, ...]) -> None:
    assert [[step.rooms for step in day.steps] for day in days] == [[("Hall", "Store"), ("Hall",)], [("Store",)]]


def test_hands_and_paid_hours(days: tuple[SheetDay, ...]) -> None:
    """Thursday: 2 · 2 h + 3 · 4 h = 16 h. Friday: 3 · 6.4 h = 19.2 h."""
    assert [[step.hands for step in day.steps] for day in days] == [[2, 3], [3]]
    assert [day.people for day in days] == [3, 3]
    assert [day.person_hours.value / HOUR for day in days] == pytest.approx([16.0, 19.2])


def test_packs_come_on_the_day_that_takes_them(days: tuple[SheetDay, ...]) -> None:
    """156 mixes are six packs of 24 and twelve of one. Thursday's 60 take three of 24 (72); Friday brings the rest."""
    assert [[(one.sku, one.packs) for one in day.bring] for day in days] == [[("K-24", 3)], [("K-1", 12), ("K-24", 3)]]


def test_what_is_on_hand_is_used_first() -> None:
    """Twelve are on hand: 144 more are six packs of 24. Thursday's 60 less 12 are 48: two packs; Friday brings four."""
    order = Order(waste_percent=0.0, on_hand=(OnHand(sku="K-1", packs=12),))
    found = answered(order=order).body.days
    assert [[(one.sku, one.packs) for one in day.bring] for day in found] == [[("K-24", 2)], [("K-24", 4)]]


def test_packs_come_in_so_long_before_their_first_use(days: tuple[SheetDay, ...]) -> None:
    """18 h before Thursday 09:00 is Wednesday 15:00, told on the first day; before Friday 07:00, Thursday 13:00."""
    found = [[(one.sku, one.packs, f"{one.by:%a %H:%M}") for one in day.condition] for day in days]
    assert found == [[("K-24", 3, "Wed 15:00"), ("K-1", 12, "Thu 13:00"), ("K-24", 3, "Thu 13:00")], []]
    assert [one.temperature.value for one in days[0].condition] == pytest.approx([fahrenheit(68)] * 3)


def test_the_pour_of_a_day_and_its_marks(days: tuple[SheetDay, ...]) -> None:
    """A mix of 24 ft² is 1 ft of a floor 24 ft wide; mixes are numbered on through the layer."""
    pours = [one for day in days for one in day.pour]
    assert [(one.room, one.first_mix, one.last_mix) for one in pours] == [("Hall", 1, 60), ("Store", 61, 156)]
    assert [f"{one.from_:%a %H:%M}-{one.until:%H:%M}" for one in pours] == ["Thu 09:00-13:00", "Fri 07:00-13:24"]
    assert [one.cadence.value for one in pours] == pytest.approx([4 * MINUTE, 4 * MINUTE])
    for one in pours:
        assert one.marks is not None
        assert [mark.likely.value / FT for mark in one.marks] == pytest.approx(range(1, len(one.marks) + 1))
    assert [len(one.marks or ()) for one in pours] == [60, 96]


def test_what_to_aim_at(days: tuple[SheetDay, ...]) -> None:
    """3/16 in is 187.5 mil; a pack of 24 mixes covers 576 ft²."""
    for day in days:
        found = {one.sku: one for one in day.targets}
        assert {sku: one.area_per_pack.value / FT2 for sku, one in found.items()} == pytest.approx(
            {"K-1": 24, "K-24": 576}
        )
        assert [one.wet_film and one.wet_film.value / MIL for one in found.values()] == pytest.approx([187.5, 187.5])


def test_readings_are_never_more_than_four_hours_apart(days: tuple[SheetDay, ...]) -> None:
    """When the day's work and each layer begins, every four hours, and at the end (common practice, no source)."""
    assert [[f"{one.at:%H:%M}" for one in day.readings] for day in days] == [
        ["07:00", "09:00", "13:00"],
        ["07:00", "11:00", "13:24"],
    ]
    planned = [one.planned_floor.value for day in days for one in day.readings]
    assert planned == pytest.approx([fahrenheit(70)] * 6)


def test_what_holds_for_all_days_is_told_once() -> None:
    found = answered()
    assert found.body.least_spread is not None
    assert found.body.least_spread.value == 3.0
    told = [remark.note for remark in found.remarks if remark.note.code == "pour-open-time-unstated"]
    assert len(told) == 1


def test_work_without_a_start_has_no_days() -> None:
    with pytest.raises(Refused) as refused:
        answered(replace(WORK, start=None))
    assert [(fault.pointer, type(fault.error)) for fault in refused.value.faults] == [("/work/start", UndatedWork)]


def test_each_figure_has_its_working() -> None:
    """Of Friday's packs of 24: the order counts on 156 until that evening, and three came before."""
    told = {one.figure: one for one in answered(explained=True).working}
    packs = told["/days/1/bring/1/packs"]
    assert packs.result == 3
    assert {one.name: getattr(one.value, "value", one.value) for one in packs.inputs} == {
        "through": pytest.approx(156.0),
        "on_hand": 0.0,
        "contents": 24.0,
        "came_before": 3,
    }
    figures = ("people", "person_hours", "condition/0/by", "pour/0/cadence", "pour/0/marks", "targets/0/area_per_pack")
    assert not {f"/days/0/{figure}" for figure in (*figures, "readings", "readings/1/planned_floor")} - told.keys()
