"""A system of one body, sand and two coats, a crew, and a room worked at 70 °F."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, time

from tests import builders
from tests.asked import Asked, return_times
from tests.builders import FT, FT2, FT3, GALLON, HOUR, POUND, aggregate, curve, fahrenheit, liquid, mixes, triple

from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.floor.clock.timetable import Return
from gaugerake.floor.job import Crew, Job, Measured, Order, Room, Shift, Steady, Weekday, Work
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.system import System, Thickness
from gaugerake.floor.values.note import Note
from gaugerake.floor.values.range import Limits, Triple


def spread(per_gallon: float) -> Triple:
    rate = per_gallon * FT2 / GALLON
    return triple(0.9 * rate, rate, 1.1 * rate)


BODY = mixes(
    yield_m3=triple(0.36 * FT3, 0.375 * FT3, 0.39 * FT3),
    mixing_s=150.0,
    temperature_k=Limits(low=fahrenheit(50), high=fahrenheit(90)),
)
SAND, SEALANT = aggregate(), liquid("sealant")
CLEAR = liquid(temperature_k=Limits(low=fahrenheit(50), high=fahrenheit(95)))
COAT = CoatLayer(
    id="coat-1",
    name="First coat",
    product=CLEAR,
    spreading_rate_m2_m3=spread(200),
    cure=curve((50, 12, 14), (70, 5, 6), (90, 3, 4)),
    recoat_closes=curve((50, 60, 60), (70, 36, 36), (90, 20, 20)),
)
SYSTEM = System(
    code="test",
    name="Test",
    description="",
    reference_temperature_k=fahrenheit(70),
    thickness=Thickness(low_m=0.003, usual_m=0.1875 / 12 * FT, high_m=0.01),
    layers=(
        PrimerLayer(
            id="primer",
            name="Primer",
            product=CLEAR,
            optional=True,
            spreading_rate_m2_m3=spread(250),
            cure=curve((70, 4, 5)),
        ),
        BodyLayer(
            id="body",
            name="Body coat",
            product=BODY,
            broadcast_wait=curve((50, 0.3, 0.4), (70, 0.2, 0.25), (90, 0.1, 0.15)),
        ),
        BroadcastLayer(
            id="broadcast",
            name="Sand",
            product=SAND,
            rate_kg_m2=Triple(low=2.0, likely=2.5, high=3.0),
            cure=curve((50, 24, 30), (70, 12, 15), (90, 8, 10)),
        ),
        COAT,
        replace(COAT, id="coat-2", name="Second coat", recoat_closes=None),
        JointLayer(id="joint", name="Sealant", product=SEALANT, cure=curve((70, 20, 24))),
    ),
    returns=(
        Return(traffic="foot", after=curve((50, 16, 20), (70, 8, 10), (90, 5, 6))),
        Return(traffic="vehicle", after=curve((50, 120, 140), (70, 60, 72), (90, 40, 48))),
    ),
)
ROOM = Room(shape=Measured(area_m2=1200 * FT * FT, perimeter_m=140 * FT))
START = datetime.fromisoformat("2027-03-05T06:00")
CREW = Crew(
    mixing_stations=1,
    minutes_per_mix=4,
    placing_rate_m2_s=600 * FT * FT / HOUR,
    coating_rate_m2_s=1000 * FT * FT / HOUR,
    clearing_rate_m2_s=2000 * FT * FT / HOUR,
    cast_rate_kg_s=900 * POUND / HOUR,
    seal_rate_m_s=60 * FT / HOUR,
)
WORK = Work(
    start=START,
    zone="America/Chicago",
    temperatures=Steady(temperature_k=fahrenheit(70)),
    shifts=(Shift(days=tuple(Weekday)[:5], starts=time(7), ends=time(15, 30)),),
    crew=CREW,
    preparation_s=0.0,
)


def context(work: Work = WORK, *, system: System = SYSTEM, working: bool = False, **job: object) -> Asked:
    described: dict[str, object] = {"system": "test", "rooms": (ROOM,), "work": work, "order": Order(waste_percent=0.0)}
    return builders.context(Job(**(described | job)), system, working=working)  # type: ignore[arg-type]


def answer(work: Work = WORK, **job: object) -> ReturnTimes:
    return return_times(context(work, **job))  # type: ignore[arg-type]


def codes(notes: Iterable[Note]) -> Counter[str]:
    return Counter(note.code for note in notes)


def clock(instant: datetime | None) -> str | None:
    return None if instant is None else instant.strftime("%a %d %H:%M")
