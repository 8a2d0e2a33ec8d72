"""How long a crew takes: what is done over the rate that it is done at, worked by hand.

Rates of the trade are common practice, no source: cove 15 to 25 ft an hour a hand, keyway sawn at about 40 ft an hour.
"""

from dataclasses import replace

import pytest
from tests.builders import FT, FT2, FT3, HOUR, INCH, MINUTE, POUND, aggregate, curve, liquid, mixes, triple

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind, Rates
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.kinds import KINDS
from gaugerake.floor.layers.needs import layer_needs
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.sundry import SundryBasis, SundryLayer
from gaugerake.floor.layers.takeoff import BuildUp, LayerNeed, Takeoff
from gaugerake.floor.room.takeoff import RoomTakeoff

PASTE = mixes("paste", yield_m3=triple(0.5 * FT3), mixing_s=120.0)
RATE = triple(200 * FT2 / 0.003785411784)
LAYERS: dict[str, Layer] = {
    "repair": RepairLayer(id="repair", name="Repair", product=PASTE),
    "cove": CoveLayer(id="cove", name="Cove", product=PASTE, thickness_m=INCH / 4, radius_m=INCH),
    "primer": PrimerLayer(id="primer", name="Primer", product=liquid(), spreading_rate_m2_m3=RATE),
    "body": BodyLayer(id="body", name="Body", product=PASTE),
    "broadcast": BroadcastLayer(
        id="broadcast", name="Sand", product=aggregate(), rate_kg_m2=triple(0.5 * POUND / FT2), cure=curve((70, 12, 12))
    ),
    "coat": CoatLayer(id="coat", name="Coat", product=liquid(), spreading_rate_m2_m3=RATE),
    "joint": JointLayer(id="joint", name="Sealant", product=liquid("sealant")),
    "sundry": SundryLayer(id="sundry", name="Pads", product=PASTE, basis=SundryBasis.AREA, covers=10.0),
}
ROOM = RoomTakeoff(
    index=0,
    name="Kitchen",
    gross_area_m2=1250 * FT2,
    area_m2=1200 * FT2,
    perimeter_m=140 * FT,
    shorter_side_m=30 * FT,
    thickness_m=INCH / 4,
    csp=None,
    keyway_length_m=207.4 * FT,
    moving_joint_length_m=60 * FT,
    sealant_volume_m3=0.002,
    repair_volume_m3=2 * FT3,
    cove_length_m=110 * FT,
    cove_height_m=6 * INCH,
    outline_m=(),
    inset_m=(),
    sealed_length_m=45 * FT,
    filled_length_m=200 * FT,
    spall_area_m2=10 * FT2,
)
RATES = Rates(
    mixing_stations=2,
    prepare_rate_m2_s=300 * FT2 / HOUR,
    saw_rate_m_s=40 * FT / HOUR,
    chase_rate_m_s=30 * FT / HOUR,
    patch_rate_m2_s=20 * FT2 / HOUR,
    cove_rate_m_s=20 * FT / HOUR,
    placing_rate_m2_s=600 * FT2 / HOUR,
    cast_rate_kg_s=900 * POUND / HOUR,
    coating_rate_m2_s=1000 * FT2 / HOUR,
    clearing_rate_m2_s=2000 * FT2 / HOUR,
    seal_rate_m_s=60 * FT / HOUR,
    cycle_s={"paste": 240.0, "clear": 0.0, "sand": 0.0, "sealant": 0.0},
)
CREW = CrewOnSite(rooms=(ROOM,), rates=RATES)


def takeoff(*names: str) -> Takeoff:
    build = BuildUp(rooms=(ROOM,), layers=tuple(LAYERS[name] for name in names), waste_fraction=0.0)
    return Takeoff(rooms=(ROOM,), layers=layer_needs(build=build), build=build)


def need(name: str) -> LayerNeed:
    return takeoff(name).layers[0]


def hours(name: str, crew: CrewOnSite = CREW) -> float:
    return sum(LAYERS[name].parts_s(need(name), crew)) / HOUR


def with_rates(**rates: float) -> CrewOnSite:
    return replace(CREW, rates=replace(RATES, **rates))  # type: ignore[arg-type]


# By hand


def test_1250_square_feet_gross_at_300_an_hour_are_prepared_in_four_hours_and_ten_minutes() -> None:
    assert CREW.preparing_s() == pytest.approx(4 * HOUR + 10 * MINUTE)


def test_207_feet_of_keyway_at_40_an_hour_are_sawn_in_5_hours_11_minutes() -> None:
    """207.4 / 40 = 5.185 h (common practice, no source: about 40 ft an hour)."""
    assert CREW.sawing_s() / HOUR == pytest.approx(5.185)


def test_110_feet_of_cove_at_20_an_hour_take_five_and_a_half_hours() -> None:
    """Common practice, no source: 15 to 25 ft an hour. The mixing of its few mixes is done meanwhile."""
    assert hours("cove") == pytest.approx(5.5)


def test_a_cove_takes_as_long_as_its_mixes_where_mixing_is_slower() -> None:
    """A mix of an hour at one station: its mixes take as many hours, more than 110 ft at 1,000 ft/h."""
    slow = with_rates(mixing_stations=1, cove_rate_m_s=1000 * FT / HOUR, cycle_s={"paste": HOUR})  # type: ignore[arg-type]
    assert hours("cove", slow) == pytest.approx(need("cove").likely)


def test_cracks_are_chased_before_spalls_are_patched() -> None:
    """200 ft at 30 ft/h are 6 2/3 h, 10 ft² at 20 ft²/h half an hour; 4 mixes of 4 min at 2 stations are 8 min."""
    assert need("repair").likely == pytest.approx(2 / 0.5)
    assert hours("repair") == pytest.approx(200 / 30 + 10 / 20)


def test_a_repair_takes_as_long_as_its_mixes_where_mixing_is_slower() -> None:
    """Chased and patched in 0.02 + 0.01 h; 4 mixes of 4 min at one station take 16 min."""
    slow = with_rates(mixing_stations=1, chase_rate_m_s=10_000 * FT / HOUR, patch_rate_m2_s=1000 * FT2 / HOUR)
    assert hours("repair", slow) * HOUR == pytest.approx(16 * MINUTE)


def test_45_feet_of_joint_at_60_an_hour_are_sealed_in_45_minutes() -> None:
    assert hours("joint") == pytest.approx(0.75)


def test_casting_sets_the_pace_where_it_is_the_slowest() -> None:
    """A mix of 0.5 ft³ covers 24 ft² at 1/4 in: mixed in 2 min at two stations, placed in 2.4 at 600 ft²/h.

    Half a pound a square foot and 5 % of waste are 12.6 lb a mix: at 900 lb/h 0.84 min, at 200 lb/h 3.78. 1,200 ft² at
    1/4 in are 25 ft³, 50 mixes.
    """
    cast = replace(CREW, cast_kg_m2=0.525 * POUND / FT2)
    assert hours("body", cast) * 60 == pytest.approx(50 * 2.4)
    slow = replace(with_rates(cast_rate_kg_s=200 * POUND / HOUR), cast_kg_m2=0.525 * POUND / FT2)
    assert hours("body", slow) * 60 == pytest.approx(50 * 3.78)


# What each kind lists


class Watched:
    """The rates of a crew, with a note of which are read."""

    def __init__(self) -> None:
        self.read: set[str] = set()

    def __getattr__(self, name: str) -> object:
        self.read.add(name)
        return getattr(RATES, name)


READ_AS = {
    "mixing_stations": RateKind.STATIONS,
    "seconds_per_mix": RateKind.CYCLE,
    "placing_rate_m2_s": RateKind.PLACING,
    "cast_rate_kg_s": RateKind.CASTING,
    "coating_rate_m2_s": RateKind.COATING,
    "clearing_rate_m2_s": RateKind.CLEARING,
    "chase_rate_m_s": RateKind.CHASING,
    "patch_rate_m2_s": RateKind.PATCHING,
    "cove_rate_m_s": RateKind.COVING,
    "seal_rate_m_s": RateKind.SEALING,
}


def test_every_rate_and_every_kind_is_looked_at() -> None:
    assert set(READ_AS.values()) == set(RateKind)
    assert {type(layer) for layer in LAYERS.values()} == set(KINDS.values())


@pytest.mark.parametrize("name", LAYERS)
def test_a_kind_lists_the_rates_that_its_time_reads(name: str) -> None:
    """A body's casting is at the rate of what is cast into it, which lists it."""
    watched = Watched()
    crew = replace(CREW, rates=watched)  # type: ignore[arg-type]
    laid = takeoff("body", name) if name == "broadcast" else takeoff(name)
    for one in laid.layers:
        one.layer.parts_s(one, replace(crew, cast_kg_m2=laid.cast_kg_m2(one.layer)))
        one.layer.clear_s(crew)
    listed = {rate for one in laid.layers for rate in one.layer.rates}
    assert {READ_AS[read] for read in watched.read} == listed
