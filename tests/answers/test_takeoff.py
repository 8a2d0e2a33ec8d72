"""Rooms measured and layers needed: what is assumed, refused and cautioned, and what may never change a figure."""

import math
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import aggregate, context, liquid, mixes, pieces, system, triple

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Refused
from gaugerake.answers.show.render import render
from gaugerake.answers.takeoff.measure import gross_areas, take_off
from gaugerake.floor.cure.curve import TimePoint, time_curve
from gaugerake.floor.job import (
    Circle,
    Cove,
    Crack,
    Cutout,
    Drain,
    Job,
    Joint,
    JointKind,
    Measured,
    Order,
    Polygon,
    Rectangle,
    Room,
    RoundDrain,
    Slab,
    Spall,
    Termination,
    TrenchDrain,
    Work,
)
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.sundry import SundryBasis, SundryLayer
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.layers.volumes import ProfileAllowance
from gaugerake.floor.room.keyway import Keyway
from gaugerake.floor.system import SlabLimits, System, Thickness
from gaugerake.floor.values.errors import (
    Contradiction,
    CrossingOutline,
    DegenerateOutline,
    FloorError,
    ImpossiblePerimeter,
    NoPlace,
    NotHeld,
    NothingLeft,
    OutOfRange,
    OutsideRoom,
    Overlapping,
    UnknownName,
)
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.range import Limits
from gaugerake.measure.choice import SI, US
from gaugerake.measure.dimension import Dimension
from gaugerake.measure.grammar import read

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


def asked(*rooms: Room, system: System = SYSTEM, **said: object) -> Context:
    job = Job(system=system.code, rooms=rooms or (HALL,), **said)  # type: ignore[arg-type]
    return context(job, system)


def taken(*rooms: Room, system: System = SYSTEM, **said: object) -> Takeoff:
    return asked(*rooms, system=system, **said).shared(take_off)


def layer(takeoff: Takeoff, name: str) -> LayerNeed:
    return next(need for need in takeoff.layers if need.layer.id == name)


def ids(takeoff: Takeoff) -> list[str]:
    return [need.layer.id for need in takeoff.layers]


def codes(context: Context) -> dict[str, set[str]]:
    context.shared(take_off)
    record = context.record
    notes = {"assumed": record.assumptions, "cautions": record.cautions, "missing": record.missing}
    for note in (*record.assumptions, *record.cautions, *record.missing):
        assert render(note, US)["text"]
        assert render(note, SI)["text"]
    return {name: {note.code for note in found} for name, found in notes.items()}


def faults(*rooms: Room, system: System = SYSTEM, **said: object) -> dict[str, FloorError]:
    with pytest.raises(Refused) as caught:
        taken(*rooms, system=system, **said)
    return {fault.pointer: fault.error for fault in caught.value.faults}


class TestRooms:
    def test_the_net_area_is_less_cutouts_and_drains_times_their_count(self) -> None:
        room = replace(
            HALL,
            cutouts=(Cutout(shape=Rectangle(length_m=2, width_m=1), count=3), Cutout(shape=Measured(area_m2=0.5))),
            drains=(
                Drain(shape=RoundDrain(diameter_m=0.2), count=4),
                Drain(shape=TrenchDrain(length_m=5, width_m=0.1)),
            ),
        )
        measured = taken(room).rooms[0]
        assert measured.gross_area_m2 == 80.0
        assert measured.area_m2 == pytest.approx(80 - 6 - 0.5 - 4 * math.pi * 0.01 - 0.5)

    def test_keyways_run_along_round_at_stops_and_on_both_sides(self) -> None:
        room = replace(
            HALL,
            cutouts=(Cutout(shape=Rectangle(length_m=2, width_m=1), count=3),),
            drains=(Drain(shape=RoundDrain(diameter_m=0.2), count=2),),
            joints=(
                Joint(length_m=8.0, kind=JointKind.MOVING),
                Joint(line_m=((0, 1), (3, 5)), kind=JointKind.MOVING),
                Joint(length_m=10.0, kind=JointKind.CONTRACTION),
            ),
            terminations=(Termination(length_m=1.5), Termination(length_m=2.0)),
        )
        walls, pits, drains = 36 - 0.8, 3 * (6 + 0.8), 2 * math.pi * 0.4
        assert taken(room).rooms[0].keyway_length_m == pytest.approx(walls + pits + drains + 2 * (8 + 5) + 3.5)

    def test_a_joint_of_no_kind_is_moving_and_said_to_be_so(self) -> None:
        context = asked(replace(HALL, joints=(Joint(length_m=8.0, width_m=0.01, depth_m=0.012),)))
        assert context.shared(take_off).rooms[0].moving_joint_length_m == 8.0
        said = [note.pointer for note in context.record.assumptions if note.code == "joint-moving"]
        assert said == ["/rooms/0/joints/0/kind"]

    def test_thickness_is_the_rooms_else_the_jobs_else_the_usual(self) -> None:
        rooms = (replace(HALL, thickness_m=0.008), HALL)
        assert [room.thickness_m for room in taken(*rooms, thickness_m=0.006).rooms] == [0.008, 0.006]
        context = asked(*rooms)
        assert [room.thickness_m for room in context.shared(take_off).rooms] == [0.008, 0.005]
        (note,) = [note for note in context.record.assumptions if note.code == "thickness-usual"]
        assert (note.pointer, note.value) == ("/thickness", Figure(0.005, "small-length"))

    def test_profile_is_the_rooms_else_the_slabs_else_the_middle_rounded_up(self) -> None:
        rooms = (replace(HALL, profile_csp=6), HALL)
        assert [room.csp for room in taken(*rooms, slab=Slab(profile_csp=4)).rooms] == [6, 4]
        assert [room.csp for room in taken(*rooms).rooms] == [6, 5]
        assert "profile-middle" in codes(asked(*rooms))["assumed"]

    def test_a_profile_between_two_that_are_listed_takes_the_rougher_and_says_so(self) -> None:
        context = asked(slab=Slab(profile_csp=4))
        rough, listed = (layer(taken(slab=Slab(profile_csp=csp)), "body") for csp in (4, 5))
        assert rough.likely == listed.likely
        assert "profile-not-listed" in codes(context)["cautions"]

    def test_no_profile_is_assumed_where_nothing_hangs_on_it(self) -> None:
        assert taken(system=BARE).rooms[0].csp is None
        assert taken(system=BARE, slab=Slab(profile_csp=4)).rooms[0].csp == 4
        assert "profile-middle" not in codes(asked(system=BARE))["assumed"]

    def test_a_room_without_a_name_is_numbered(self) -> None:
        named, unnamed = taken(replace(HALL, name="Hall"), HALL).rooms
        assert (render(named.name, US), render(unnamed.name, US)) == ("Hall", "Room 2")

    def test_a_room_known_by_its_area_says_what_would_sharpen_it(self) -> None:
        said = codes(asked(Room(shape=Measured(area_m2=100.0))))
        assert "perimeter-two-to-one" in said["assumed"]
        assert {"perimeter-unsaid", "joints-unsaid", "terminations-unsaid"} <= said["missing"]
        assert "joints-unsaid" not in codes(asked(Room(shape=Measured(area_m2=100.0), joints=())))["missing"]

    def test_what_is_placed_is_drawn_where_it_lies(self) -> None:
        room = replace(
            HALL,
            cutouts=(Cutout(shape=Rectangle(length_m=2, width_m=1), at_m=(3, 4)), Cutout(shape=Circle(diameter_m=1))),
            drains=(Drain(shape=TrenchDrain(length_m=5, width_m=0.1), at_m=(1, 1)),),
            joints=(Joint(line_m=((0, 2), (10, 2))),),
        )
        measured = taken(room).rooms[0]
        assert measured.holes_m == (((3, 4), (5, 4), (5, 5), (3, 5)),)
        assert measured.drains_m == (((1, 1), (6, 1), (6, 1.1), (1, 1.1)),)
        assert measured.joint_lines_m == (((0, 2), (10, 2)),)

    def test_a_room_too_narrow_for_its_keyway_has_none_and_says_so(self) -> None:
        passage = Room(shape=Rectangle(length_m=5, width_m=0.19), joints=())
        assert taken(passage).rooms[0].keyway_length_m == 0.0
        assert "keyway-vanishes" in codes(asked(passage))["cautions"]
        alcove = Polygon(points_m=((0, 0), (6, 0), (6, 4), (3.1, 4), (3.1, 5), (3, 5), (3, 4), (0, 4)))
        assert "keyway-part-vanishes" in codes(asked(Room(shape=alcove, joints=())))["cautions"]


class TestLayers:
    def test_a_layer_that_the_job_gives_nothing_for_is_left_out(self) -> None:
        assert ids(taken()) == ["body", "broadcast", "coat-1", "coat-2"]

    def test_each_part_of_the_job_brings_its_layer(self) -> None:
        assert "repair" in ids(taken(replace(HALL, cracks=(Crack(length_m=3, **GROOVE),))))
        assert "repair" in ids(taken(replace(HALL, spalls=(Spall(area_m2=1, depth_m=0.01),))))
        bridged = Joint(length_m=3, kind=JointKind.CONTRACTION, **GROOVE)
        assert "repair" in ids(taken(replace(HALL, joints=(bridged,))))
        assert "repair" not in ids(taken(replace(HALL, joints=(replace(bridged, width_m=None, depth_m=None),))))
        assert "cove" in ids(taken(replace(HALL, cove=Cove(length_m=9, height_m=0.1))))
        assert "joint" in ids(taken(replace(HALL, joints=(Joint(length_m=3, **GROOVE),))))

    @pytest.mark.parametrize("name", ["primer", "coat-1", "body"])
    def test_an_optional_layer_is_named_by_its_id_and_a_plain_one_may_be(self, name: str) -> None:
        assert ("primer" in ids(taken(order=Order(optional_layers=(name,))))) is (name == "primer")

    def test_an_optional_layer_is_named_by_its_kind_where_that_is_one(self) -> None:
        last = replace(COAT_2, id="finish", optional=True)
        system = replace(SYSTEM, layers=(POURED, CAST, replace(COAT_1, id="seal"), last))
        assert ids(taken(system=system, order=Order(optional_layers=("coat",)))) == [
            "body",
            "broadcast",
            "seal",
            "finish",
        ]

    def test_of_two_optional_layers_the_kind_names_neither(self) -> None:
        system = replace(SYSTEM, layers=(POURED, replace(COAT_1, optional=True), replace(COAT_2, optional=True)))
        error = faults(system=system, order=Order(optional_layers=("coat-1", "coat")))["/order/optional_layers/1"]
        assert isinstance(error, UnknownName)
        assert error.known == ("coat-1", "coat-2")

    def test_an_unknown_layer_is_told_those_that_are_optional(self) -> None:
        error = faults(order=Order(optional_layers=("primmer",)))["/order/optional_layers/0"]
        assert isinstance(error, UnknownName)
        assert (error.seen, error.known, error.nearest) == ("primmer", ("primer",), "primer")

    def test_a_broadcast_is_not_had_without_the_layer_that_holds_it(self) -> None:
        holder, cast = replace(COAT_1, optional=True), replace(CAST, optional=True)
        system = replace(SYSTEM, layers=(POURED, holder, cast))
        both = Order(optional_layers=("coat-1", "broadcast"))
        assert ids(taken(system=system, order=both)) == ["body", "coat-1", "broadcast"]
        error = faults(system=system, order=Order(optional_layers=("broadcast",)))["/order/optional_layers/0"]
        assert isinstance(error, NotHeld)
        assert (error.layer, error.holder) == ("broadcast", "coat-1")

    def test_coats_climb_the_cove_only_where_one_is_made(self) -> None:
        coved = replace(HALL, cove=Cove(length_m=30.0, height_m=0.1))
        coat = layer(taken(coved), "coat-1")
        assert coat.likely == pytest.approx(83 * 1.05 / 3000)
        assert layer(taken(coved), "broadcast").likely == pytest.approx(80 * 1.05 * 3)
        no_cove = replace(SYSTEM, layers=(POURED, COAT_1))
        assert layer(taken(coved, system=no_cove), "coat-1").likely == pytest.approx(80 * 1.05 / 3000)

    def test_whole_mixes_are_counted_layer_by_layer(self) -> None:
        room = replace(HALL, cracks=(Crack(length_m=3, width_m=0.01, depth_m=0.01),))
        repair = layer(taken(room), "repair")
        assert repair.likely == pytest.approx(0.0003 * 1.05 / 0.010)
        assert (repair.rounded_low, repair.rounded_likely, repair.rounded_high) == (1, 1, 1)

    def test_smallest_batches_are_counted_layer_by_layer(self) -> None:
        coat = layer(taken(), "coat-2")
        assert coat.likely == pytest.approx(80 * 1.05 / 5000)  # 16.8 L
        assert coat.rounded_likely == pytest.approx(0.020)  # of 4 L each

    def test_keyways_and_profile_go_with_the_first_body(self) -> None:
        first, second = replace(POURED, id="one", share_fraction=0.6), replace(POURED, id="two", share_fraction=0.4)
        takeoff = taken(system=replace(SYSTEM, layers=(first, second)), slab=Slab(profile_csp=3))
        grooves, texture = 35.2 * 0.01**2, 80 * 0.0002
        assert layer(takeoff, "one").quantity == pytest.approx(80 * 0.003 + grooves + texture)
        assert layer(takeoff, "two").quantity == pytest.approx(80 * 0.002)
        one = taken(slab=Slab(profile_csp=3))
        parts = [layer(takeoff, "one").quantity, layer(takeoff, "two").quantity]
        assert math.fsum(parts) == pytest.approx(layer(one, "body").quantity)

    def test_demand_holds_apart_what_the_thickness_touches(self) -> None:
        demand = layer(taken(slab=Slab(profile_csp=3)), "body").demand
        assert demand is not None
        assert demand.varying == pytest.approx(80 * 0.005 * 1.05)
        assert demand.fixed == pytest.approx((35.2 * 0.01**2 + 80 * 0.0002) * 1.05)
        assert (demand.divisor, demand.step) == (BODY.yield_m3, 1.0)

    def test_sealant_goes_by_the_joints_own_width_and_depth(self) -> None:
        joints = (
            Joint(length_m=8, width_m=0.01, depth_m=0.012),
            Joint(line_m=((0, 1), (3, 5)), width_m=0.02, depth_m=0.01),
        )
        sealant = layer(taken(replace(HALL, joints=joints)), "joint")
        assert sealant.low == sealant.likely == sealant.high == pytest.approx((8 * 0.00012 + 5 * 0.0002) * 1.05)

    def test_rooms_have_their_own_likely_needs(self) -> None:
        body = layer(taken(HALL, replace(HALL, thickness_m=0.009)), "body")
        assert len(body.room_likely) == 2
        assert math.fsum(body.room_likely) == pytest.approx(body.likely)
        assert body.room_likely[1] > body.room_likely[0]

    def test_what_is_cleared_away_is_shown_and_bought(self) -> None:
        cast = layer(taken(), "broadcast")
        assert cast.likely == pytest.approx(80 * 1.05 * 3)
        assert cast.retained_kg == pytest.approx(80 * 1.8)
        assert cast.cleared_away_kg == pytest.approx(80 * 1.2)

    def test_waste_of_nothing_is_nothing(self) -> None:
        context = asked(order=Order(waste_percent=0.0))
        assert layer(context.shared(take_off), "broadcast").likely == pytest.approx(240.0)
        assert "waste" not in codes(context)["assumed"]


class TestSundries:
    @pytest.mark.parametrize(
        ("basis", "covers", "expected"),
        [
            (SundryBasis.AREA, 40.0, 2.0),
            (SundryBasis.AREA, 39.0, 3.0),
            (SundryBasis.WALLS, 36.0, 1.0),
            (SundryBasis.COVE, 7.0, 5.0),
            (SundryBasis.JOINTS, 2.0, 4.0),
        ],
    )
    def test_they_go_by_what_they_cover(self, basis: SundryBasis, covers: float, expected: float) -> None:
        sundry = SundryLayer(id="sundry", name="Roller", product=ROLLER, basis=basis, covers=covers)
        room = replace(HALL, cove=Cove(length_m=30, height_m=0.1), joints=(Joint(length_m=8),))
        need = layer(taken(room, system=replace(SYSTEM, layers=(*LAYERS, sundry))), "sundry")
        assert (need.low, need.likely, need.high, need.demand) == (expected, expected, expected, None)

    def test_a_sundry_of_nothing_is_left_out(self) -> None:
        sundry = SundryLayer(id="sundry", name="Roller", product=ROLLER, basis=SundryBasis.COVE, covers=7.0)
        assert "sundry" not in ids(taken(system=replace(SYSTEM, layers=(*LAYERS, sundry))))

    def test_a_sundry_of_cove_is_left_out_where_none_is_made(self) -> None:
        bead = SundryLayer(id="bead", name="Bead", product=ROLLER, basis=SundryBasis.COVE, covers=7.0)
        coved = replace(HALL, cove=Cove(length_m=30.0, height_m=0.1))
        assert ids(taken(coved, system=replace(SYSTEM, layers=(POURED, bead)))) == ["body"]

    def test_one_goes_with_each_mix_of_all_layers_of_a_product_wherever_it_stands(self) -> None:
        tint = SundryLayer(id="tint", name="Tint", product=TINT, basis=SundryBasis.PRODUCT, per_product="body", count=2)
        room = replace(HALL, cracks=(Crack(length_m=3, width_m=0.01, depth_m=0.01),))
        takeoff = taken(room, system=replace(SYSTEM, layers=(tint, *LAYERS)))
        mixes = layer(takeoff, "repair").rounded_likely + layer(takeoff, "body").rounded_likely
        assert layer(takeoff, "tint").likely == 2 * mixes


class TestCautions:
    def test_what_the_system_has_no_layer_for_is_said(self) -> None:
        room = replace(
            HALL,
            thickness_m=0.006,
            cove=Cove(length_m=3, height_m=0.1),
            cracks=(Crack(length_m=3, **GROOVE),),
            spalls=(Spall(area_m2=1, depth_m=0.01),),
            joints=(Joint(length_m=3, **GROOVE), Joint(length_m=3, kind=JointKind.CONTRACTION, **GROOVE)),
        )
        context = asked(room, system=BARE, thickness_m=0.5)
        assert codes(context)["cautions"] >= {
            "no-layer-for-thickness",
            "no-layer-for-cove",
            "no-layer-for-cracks",
            "no-layer-for-spalls",
            "no-layer-for-joints",
            "no-layer-for-filled-joints",
        }
        pointers = {note.pointer for note in context.record.cautions if note.code == "no-layer-for-thickness"}
        assert pointers == {"/thickness", "/rooms/0/thickness"}
        assert context.shared(take_off).rooms[0].thickness_m is None

    def test_a_layer_that_was_not_chosen_is_named(self) -> None:
        system = replace(SYSTEM, layers=(replace(COVING, optional=True), POURED))
        context = asked(replace(HALL, cove=Cove(length_m=3, height_m=0.1)), system=system)
        context.shared(take_off)
        (note,) = [note for note in context.record.cautions if note.code == "layer-not-chosen-for-cove"]
        assert note.params["layer"] == "cove"

    def test_a_joint_of_unknown_size_is_not_sealed_and_says_so(self) -> None:
        context = asked(replace(HALL, joints=(Joint(length_m=3, width_m=0.01),)))
        said = codes(context)
        assert "joint-not-sealed" in said["cautions"]
        assert [note.pointer for note in context.record.missing] == ["/rooms/0/joints/0/depth", "/slab/profile_csp"]
        assert "joint" not in ids(context.shared(take_off))

    def test_the_size_of_a_joint_is_not_asked_where_no_layer_seals_it(self) -> None:
        said = codes(asked(replace(HALL, joints=(Joint(length_m=3),)), system=BARE))
        assert "no-layer-for-joints" in said["cautions"]
        assert "joint-not-sealed" not in said["cautions"]
        assert not {"joint-width-unsaid", "joint-depth-unsaid"} & said["missing"]

    def test_a_bridged_joint_of_half_a_size_is_not_filled_and_says_so(self) -> None:
        said = codes(asked(replace(HALL, joints=(Joint(length_m=3, kind=JointKind.CONTRACTION, depth_m=0.01),))))
        assert "joint-not-filled" in said["cautions"]
        assert "joint-width-unsaid" in said["missing"]

    def test_films_outside_the_products_limits_are_said_but_not_over_a_broadcast(self) -> None:
        thin = replace(COAT_2, id="thin", spreading_rate_m2_m3=triple(9000, 11000, 12000))
        thick = replace(COAT_2, id="thick", spreading_rate_m2_m3=triple(2500, 3000, 3500))
        system = replace(SYSTEM, layers=(POURED, CAST, COAT_1, thin, thick))
        takeoff = taken(system=system)
        assert layer(takeoff, "coat-1").wet_film_m is None  # a third of a millimetre, but it fills voids
        assert layer(takeoff, "thick").wet_film_m == pytest.approx(1 / 3000)
        assert layer(takeoff, "thick").dry_film_m == pytest.approx(0.75 / 3000)
        context = asked(system=system)
        context.shared(take_off)
        found = {
            note.code: note.params["layer"] for note in context.record.cautions if note.code.startswith("wet-film")
        }
        assert found == {"wet-film-thin": "Second", "wet-film-thick": "Second"}

    @pytest.mark.parametrize(
        ("microns", "code"), [(99.9, "wet-film-thin"), (100, None), (250, None), (250.1, "wet-film-thick")]
    )
    def test_a_film_just_at_the_limit_is_within_it(self, microns: float, code: str | None) -> None:
        rate = 1e6 / microns
        exact = replace(COAT_2, spreading_rate_m2_m3=triple(rate, rate, rate))
        said = codes(asked(system=replace(SYSTEM, layers=(POURED, exact))))["cautions"]
        assert {found for found in said if "wet-film" in found} == ({code} if code else set())

    @pytest.mark.parametrize(("feet_per_hour", "late"), [(200, True), (600, True), (680, False), (1000, False)])
    def test_a_batch_that_sets_before_it_is_spread_is_said(self, feet_per_hour: float, late: bool) -> None:
        """4 L of the second coat covers 20 m²: at 600 ft²/h 21.5 minutes, at 680 ft²/h 19; it lasts 20 at the least."""
        crew = replace(Work().crew, coating_rate_m2_s=feet_per_hour * 0.09290304 / 3600)
        said = codes(asked(work=Work(crew=crew, material_temperature_k=293.15)))
        assert ("batch-outlives-pot-life" in said["cautions"]) is late

    def test_heat_shortens_the_pot_life(self) -> None:
        said = codes(asked(work=Work(material_temperature_k=308.15)))
        assert "batch-outlives-pot-life" in said["cautions"]
        assert "crew-coating-rate" in said["assumed"]


class TestRefusals:
    def test_every_fault_of_every_room_is_told_at_once_with_its_place(self) -> None:
        pit = Rectangle(length_m=2, width_m=1)
        bow = Polygon(points_m=((0, 0), (4, 4), (4, 0), (0, 4)))
        flat = Polygon(points_m=((0, 0), (4, 0), (9, 0)))
        found = faults(
            Room(shape=bow),
            Room(shape=Measured(area_m2=100, perimeter_m=30)),
            replace(HALL, cutouts=(Cutout(shape=flat), Cutout(shape=pit, at_m=(9, 1)))),
            replace(HALL, cutouts=(Cutout(shape=pit, at_m=(1, 1)), Cutout(shape=pit, at_m=(2, 1)))),
            replace(HALL, cutouts=(Cutout(shape=Measured(area_m2=80.0)),)),
            replace(HALL, thickness_m=0.0099),
            replace(HALL, cutouts=(Cutout(shape=pit, at_m=(1, 1), count=2),)),
            replace(HALL, drains=(Drain(shape=RoundDrain(diameter_m=1), at_m=(9.5, 0)),)),
            replace(HALL, joints=(Joint(line_m=((0, 0), (0, 9))), Joint(line_m=((1, 1), (1, 1))))),
            thickness_m=0.001,
        )
        assert {pointer: type(error) for pointer, error in found.items()} == {
            "/rooms/0/shape/polygon/points": CrossingOutline,
            "/rooms/1/shape/measured/perimeter": ImpossiblePerimeter,
            "/rooms/2/cutouts/0/polygon/points": DegenerateOutline,
            "/rooms/2/cutouts/1/at": OutsideRoom,
            "/rooms/3/cutouts/1/at": Overlapping,
            "/rooms/4/cutouts/0": NothingLeft,
            "/rooms/5/thickness": OutOfRange,
            "/rooms/6/cutouts/0/at": Contradiction,
            "/rooms/7/drains/0/at": OutsideRoom,
            "/rooms/8/joints/0/line": OutsideRoom,
            "/rooms/8/joints/1/line": OutOfRange,
            "/thickness": OutOfRange,
        }
        overlapping = found["/rooms/3/cutouts/1/at"]
        assert isinstance(overlapping, Overlapping)
        assert overlapping.other == "/rooms/3/cutouts/0"

    def test_a_thickness_outside_the_range_names_the_range(self) -> None:
        error = faults(thickness_m=0.012)["/thickness"]
        assert isinstance(error, OutOfRange)
        assert [error.value.value, error.low and error.low.value, error.high and error.high.value] == [
            0.012,
            0.004,
            0.009,
        ]

    @pytest.mark.parametrize("thickness", [0.004 * (1 - 1e-12), 0.009 * (1 + 1e-12)])
    def test_the_ends_of_the_range_are_within_it_float_noise_or_not(self, thickness: float) -> None:
        assert taken(thickness_m=thickness).rooms[0].thickness_m == thickness

    def test_a_thickness_outside_the_range_does_not_keep_the_areas_back(self) -> None:
        assert asked(HALL, HALL, thickness_m=0.5).shared(gross_areas) == (80.0, 80.0)

    def test_a_shape_that_cannot_be_keeps_the_areas_back(self) -> None:
        with pytest.raises(Refused, match="/rooms/1/shape/measured/perimeter"):
            asked(HALL, Room(shape=Measured(area_m2=100, perimeter_m=30))).shared(gross_areas)

    def test_no_rooms_have_no_areas(self) -> None:
        job = Job(system="whole", rooms=())
        context = asked()
        context.job = job
        assert context.shared(gross_areas) == ()

    def test_a_job_may_not_be_larger_than_any_floor(self) -> None:
        field = Room(shape=Rectangle(length_m=1000.0, width_m=100.0))
        assert asked(field, field).shared(gross_areas) == (100_000.0, 100_000.0)
        assert isinstance(faults(field, field, HALL)["/rooms"], OutOfRange)

    def test_a_drain_larger_than_its_room_leaves_nothing(self) -> None:
        error = faults(replace(HALL, drains=(Drain(shape=RoundDrain(diameter_m=11.0)),)))["/rooms/0/drains/0"]
        assert isinstance(error, NothingLeft)
        assert error.taken_m2 == pytest.approx(95.0, abs=0.1)

    def test_a_measured_thing_has_no_place_and_a_measured_room_checks_none(self) -> None:
        pit = Measured(area_m2=1.0)
        assert isinstance(
            faults(replace(HALL, cutouts=(Cutout(shape=pit, at_m=(1, 1)),)))["/rooms/0/cutouts/0/at"], NoPlace
        )
        room = Room(shape=Measured(area_m2=90.0), drains=(Drain(shape=RoundDrain(diameter_m=1), at_m=(500, 0)),))
        assert "placed-in-measured-room" in codes(asked(room))["cautions"]


sizes = st.floats(1.0, 60.0)
rooms = st.builds(
    lambda length, width, thick, joint, cove: Room(
        shape=Rectangle(length_m=length, width_m=width),
        joints=(Joint(length_m=joint, kind=JointKind.MOVING, width_m=0.01, depth_m=0.01),),
        cove=Cove(length_m=cove, height_m=0.1),
        thickness_m=thick,
        cracks=(Crack(length_m=joint, width_m=0.01, depth_m=0.02),),
    ),
    sizes,
    sizes,
    st.floats(0.004, 0.009),
    sizes,
    sizes,
)


def likely(takeoff: Takeoff) -> dict[str, float]:
    return {need.layer.id: need.likely for need in takeoff.layers}


def rounded(takeoff: Takeoff) -> dict[str, tuple[float, float, float]]:
    return {need.layer.id: (need.rounded_low, need.rounded_likely, need.rounded_high) for need in takeoff.layers}


class TestLaws:
    """In rooms of a metre and more a keyway of 0.1 m vanishes nowhere, which is what these laws ask."""

    @settings(max_examples=40)
    @given(st.lists(rooms, min_size=1, max_size=4), st.randoms(use_true_random=False))
    def test_the_order_of_rooms_changes_nothing(self, job: list[Room], chance: object) -> None:
        shuffled = list(job)
        chance.shuffle(shuffled)  # type: ignore[attr-defined]
        assert likely(taken(*job)) == likely(taken(*shuffled))

    @settings(max_examples=40)
    @given(st.lists(rooms, min_size=1, max_size=3), st.lists(rooms, min_size=1, max_size=3))
    def test_needs_of_two_jobs_add(self, one: list[Room], other: list[Room]) -> None:
        apart = [likely(taken(*one)), likely(taken(*other))]
        together = likely(taken(*one, *other))
        assert together == pytest.approx({name: apart[0][name] + apart[1][name] for name in together}, rel=1e-12)

    @settings(max_examples=40)
    @given(rooms, st.floats(1.0, 2.0), st.sampled_from(["length", "width", "thickness", "waste"]))
    def test_more_of_anything_never_needs_less(self, room: Room, factor: float, grown: str) -> None:
        assert isinstance(room.shape, Rectangle)
        assert room.thickness_m is not None
        shape, waste = room.shape, 5.0
        if grown == "length":
            shape = replace(shape, length_m=shape.length_m * factor)
        elif grown == "width":
            shape = replace(shape, width_m=shape.width_m * factor)
        thick = min(0.009, room.thickness_m * factor) if grown == "thickness" else room.thickness_m
        order = Order(waste_percent=waste * factor if grown == "waste" else waste)
        less = taken(room, order=Order(waste_percent=waste))
        more = taken(replace(room, shape=shape, thickness_m=thick), order=order)
        for name, need in likely(less).items():
            assert likely(more)[name] >= need * (1 - 1e-12)
        for name, needs in rounded(less).items():
            assert all(new >= old for new, old in zip(rounded(more)[name], needs, strict=True))

    @settings(max_examples=60)
    @given(st.integers(2, 200), st.integers(2, 200), st.integers(11, 22), st.integers(1, 120))
    def test_a_job_written_in_feet_is_the_job_written_in_metres(
        self, length: int, width: int, sixty_fourths: int, joint: int
    ) -> None:
        """Both as people write them: a foot is 0.3048 m and 1/64 in is 0.396875 mm, to the last decimal."""

        def feet(count: int) -> str:
            return f"{count} ft"

        def metres(count: int) -> str:
            return f"{count * Decimal('0.3048')} m"

        def written(side: Callable[[int], str], thick: str) -> Room:
            sides_m = [read(side(count), Dimension.LENGTH) for count in (length, width, joint)]
            return Room(
                shape=Rectangle(length_m=sides_m[0], width_m=sides_m[1]),
                joints=(Joint(length_m=sides_m[2], kind=JointKind.MOVING, width_m=0.01, depth_m=0.01),),
                thickness_m=read(thick, Dimension.LENGTH),
            )

        us = taken(written(feet, f"{sixty_fourths}/64 in"))
        si = taken(written(metres, f"{sixty_fourths * Decimal('0.396875')} mm"))
        assert rounded(us) == rounded(si)
