"""A system with a layer of each kind, and how its rooms are measured."""

from dataclasses import replace
from typing import Any

import pytest
from tests.asked import Asked, take_off
from tests.builders import aggregate, context, liquid, mixes, pieces, system, triple

from gaugerake.answers.job.errors import Refused
from gaugerake.answers.show.reader import SI_READER, US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.cure.curve import TimePoint, time_curve
from gaugerake.floor.job import Job, Rectangle, Room
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.layers.volumes import ProfileAllowance
from gaugerake.floor.room.keyway import Keyway
from gaugerake.floor.system import SlabLimits, System, Thickness
from gaugerake.floor.values.errors import FloorError
from gaugerake.floor.values.range import Limits

BODY = mixes(yield_m3=triple(0.009, 0.010, 0.0125))
COVE = mixes("cove", yield_m3=triple(0.004, 0.005, 0.008))
CLEAR = liquid(
    smallest_batch=0.004,
    volume_solids_fraction=0.75,
    wet_film_m=Limits(low=100e-6, high=250e-6),
    pot_life=time_curve([TimePoint(temperature_k=293.15, low_s=1200, likely_s=1500, high_s=1800)]),
)
SEALANT, SAND = liquid("sealant"), aggregate()
ROLLER, TINT = pieces("roller"), pieces("tint")

REPAIR = RepairLayer(id="repair", name="Repair", product=BODY)
COVING = CoveLayer(id="cove", name="Cove", product=COVE, thickness_m=0.006, radius_m=0.02)
PRIMER = PrimerLayer(
    id="primer", name="Primer", product=CLEAR, optional=True, spreading_rate_m2_m3=triple(4500, 5000, 6000)
)
POURED = BodyLayer(id="body", name="Body", product=BODY)
CAST = BroadcastLayer(id="broadcast", name="Cast", product=SAND, rate_kg_m2=triple(2, 3, 4), retained_kg_m2=1.8)
COAT_1 = CoatLayer(id="coat-1", name="First", product=CLEAR, spreading_rate_m2_m3=triple(2500, 3000, 3500))
COAT_2 = CoatLayer(id="coat-2", name="Second", product=CLEAR, spreading_rate_m2_m3=triple(4500, 5000, 6000))
SEALED = JointLayer(id="joint", name="Sealant", product=SEALANT)
LAYERS: tuple[Layer, ...] = (REPAIR, COVING, PRIMER, POURED, CAST, COAT_1, COAT_2, SEALED)

SYSTEM = system(
    *LAYERS,
    code="whole",
    reference_temperature_k=293.15,
    thickness=Thickness(low_m=0.004, usual_m=0.005, high_m=0.009),
    keyway=Keyway(offset_m=0.1, ratio=2.0),
    profile_allowance=(ProfileAllowance(csp=3, depth_m=0.0002), ProfileAllowance(csp=5, depth_m=0.0006)),
    slab_limits=SlabLimits(profile_csp=Limits(low=3, high=6)),
)
BARE = replace(SYSTEM, layers=(COAT_1, COAT_2), thickness=None, keyway=None, profile_allowance=())
GROOVE: Any = {"width_m": 0.01, "depth_m": 0.01}
HALL = Room(shape=Rectangle(length_m=10.0, width_m=8.0), joints=())


def asked(*rooms: Room, system: System = SYSTEM, **said: object) -> Asked:
    job = Job(system=system.code, rooms=rooms or (HALL,), **said)  # type: ignore[arg-type]
    return context(job, system)


def taken(*rooms: Room, system: System = SYSTEM, **said: object) -> Takeoff:
    return asked(*rooms, system=system, **said).shared(take_off)


def layer(takeoff: Takeoff, name: str) -> LayerNeed:
    return next(need for need in takeoff.layers if need.layer.id == name)


def ids(takeoff: Takeoff) -> list[str]:
    return [need.layer.id for need in takeoff.layers]


def codes(context: Asked) -> dict[str, set[str]]:
    context.shared(take_off)
    record = context.record
    notes = {"assumed": record.assumptions, "cautions": record.cautions, "missing": record.missing}
    for note in (*record.assumptions, *record.cautions, *record.missing):
        assert render(note, US_READER)["text"]
        assert render(note, SI_READER)["text"]
    return {name: {note.code for note in found} for name, found in notes.items()}


def faults(*rooms: Room, system: System = SYSTEM, **said: object) -> dict[str, FloorError]:
    with pytest.raises(Refused) as caught:
        taken(*rooms, system=system, **said)
    return {fault.pointer: fault.error for fault in caught.value.faults}
