"""Layers needed: which take part, and how much of each."""

import math
from dataclasses import replace

import pytest
from tests.answers.takeoff.jobs import (
    BODY,
    CAST,
    COAT_1,
    COAT_2,
    GROOVE,
    HALL,
    LAYERS,
    POURED,
    ROLLER,
    SYSTEM,
    TINT,
    asked,
    codes,
    faults,
    ids,
    layer,
    taken,
)
from tests.asked import take_off

from gaugerake.floor.job import Cove, Crack, Joint, JointKind, Order, Slab, Spall
from gaugerake.floor.layers.sundry import SundryBasis, SundryLayer
from gaugerake.floor.values.errors import NotHeld, UnknownName


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
