"""A system with every limit, a slab that meets them all, and a judge of both."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

import pytest
from tests.asked import Said, readiness
from tests.builders import catalogue, context, liquid, triple

from gaugerake.answers.readiness.body import Readiness
from gaugerake.answers.readiness.checked import Check
from gaugerake.answers.show.reader import SI_READER, US_READER, Reader
from gaugerake.answers.show.render import render
from gaugerake.floor.cure.curve import TimeCurve, TimePoint
from gaugerake.floor.job import (
    Air,
    DriesFrom,
    EmissionReading,
    HumidityReading,
    Job,
    Measured,
    PullOff,
    Room,
    Slab,
    Work,
)
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.product import Pack
from gaugerake.floor.room.keyway import Keyway
from gaugerake.floor.system import AirLimits, SlabLimits, System, Thickness
from gaugerake.floor.values.range import Limits

DAY_S = 86_400.0
KELVIN = 273.15

CLEAR = liquid(
    name="Clear coat",
    packs=(Pack(sku="C", contents=0.01, contents_text="10 L", unit_code="LTR", description="Clear coat"),),
    temperature_k=Limits(low=280.0, high=305.0),
    humidity_percent=Limits(low=20, high=80),
)
CURE = TimeCurve(points=(TimePoint(temperature_k=293.15, low_s=8 * 3600, likely_s=10 * 3600, high_s=12 * 3600),))
SYSTEM = System(
    code="floor",
    name="Floor",
    description="",
    layers=(
        CoatLayer(
            id="coat",
            name="Coat",
            product=CLEAR,
            cure=CURE,
            spreading_rate_m2_m3=triple(4000, 5000, 6000),
        ),
    ),
    reference_temperature_k=294.0,
    thickness=Thickness(low_m=0.004, usual_m=0.005, high_m=0.009),
    keyway=Keyway(offset_m=0.1, ratio=1.5),
    slab_limits=SlabLimits(
        age_s=28 * DAY_S,
        compressive_strength_pa=22e6,
        pull_off_pa=1.4e6,
        profile_csp=Limits(low=3, high=5),
        moisture_emission_kg_m2_s=6e-7,
        relative_humidity_percent=90,
        ph=Limits(low=7, high=11),
        slope_percent=1.5,
        temperature_k=Limits(low=283.15, high=303.15),
    ),
    air_limits=AirLimits(
        temperature_k=Limits(low=283.15, high=303.15),
        humidity_percent=Limits(low=25, high=85),
        dew_point_spread_k=3.0,
    ),
)
ROOM = Room(shape=Measured(area_m2=90.0), joints=(), slope_percent=1.0)
SLAB = Slab(
    substrate="concrete",
    age_s=45 * DAY_S,
    compressive_strength_pa=29e6,
    profile_csp=4,
    thickness_m=0.125,
    dries_from=DriesFrom.ONE_SIDE,
    moisture_emission=(EmissionReading(rate_kg_m2_s=4e-7),) * 3,
    relative_humidity=(HumidityReading(percent=80, depth_m=0.05),) * 3,
    pull_off=(PullOff(strength_pa=2e6),) * 3,
    ph=9.5,
    absorbs_water=True,
    damp=False,
    contaminants=(),
    temperature_k=289.0,
)
AIR = Air(temperature_k=291.0, humidity_percent=55)


@dataclass(frozen=True)
class Judged:
    """An answer, what stands beside it, and the job that it answers."""

    answer: Readiness
    record: Said

    def check(self, name: str) -> Check:
        return next(check for check in self.answer.checks if check.check == name)

    @property
    def names(self) -> list[str]:
        return [check.check.value for check in self.answer.checks]

    def cautions(self, code: str) -> list[str | None]:
        """The pointers of the cautions of a code."""
        return [note.pointer for note in self.record.cautions if note.code == code]

    def shown(self, reader: Reader = US_READER) -> dict[str, Any]:
        """The answer and all notes as they are sent, every sentence written."""
        record = self.record
        notes = (*record.assumptions, *record.cautions, *record.missing, *(record.working or ()))
        return {**render(self.answer, reader), "notes": [render(note, reader) for note in notes]}


Judge = Callable[..., Judged]


def judge_job(job: Job, system: System = SYSTEM, *, with_working: bool = False) -> Judged:
    held = catalogue(replace(system, code="floor"), products={"clear": CLEAR})
    asked = context(job, held, working=with_working)
    judged = Judged(readiness(asked), asked.record)
    for reader in (US_READER, SI_READER):
        judged.shown(reader)  # no job may leave a sentence without a figure that it asks for
    return judged


@pytest.fixture
def judge() -> Judge:
    """Judge the good slab with some fields changed, against the system with some limits changed.

    ``slab``, ``air``, ``work``, ``room``, ``slab_limits`` and ``air_limits`` are changes; ``job`` and ``system`` change
    the rest.
    """

    def judged(
        *, slab: Any = None, air: Any = None, work: Any = None, room: Any = None, job: Any = None, **other: Any
    ) -> Judged:
        asked = Job(
            system="floor",
            rooms=(replace(ROOM, **(room or {})),),
            thickness_m=0.005,
            slab=replace(SLAB, **(slab or {})),
            air=replace(AIR, **(air or {})),
            work=Work(**(work or {})),
        )
        system = replace(
            SYSTEM,
            slab_limits=replace(SYSTEM.slab_limits, **other.pop("slab_limits", {})),
            air_limits=replace(SYSTEM.air_limits, **other.pop("air_limits", {})),
            **other.pop("system", {}),
        )
        return judge_job(replace(asked, **(job or {})), system, **other)

    return judged


@pytest.fixture
def untested_job() -> Job:
    return Job(system="floor", rooms=(Room(shape=Measured(area_m2=90.0)),))


@pytest.fixture
def judge_whole() -> Callable[..., Judged]:
    """Judge a job as it stands."""
    return judge_job


@pytest.fixture
def coat() -> CoatLayer:
    """The one layer of the system."""
    (layer,) = SYSTEM.layers
    assert isinstance(layer, CoatLayer)
    return layer


@pytest.fixture
def friday() -> dict[str, Any]:
    """A start at six in the morning of a Friday in Chicago."""
    return {"start": datetime(2027, 3, 5, 6), "zone": "America/Chicago"}  # noqa: DTZ001
