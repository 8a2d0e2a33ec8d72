"""What is said beside the layers of a job."""

from dataclasses import replace

import pytest
from tests.answers.takeoff.jobs import (
    BARE,
    CAST,
    COAT_1,
    COAT_2,
    COVING,
    GROOVE,
    HALL,
    POURED,
    SYSTEM,
    asked,
    codes,
    ids,
    layer,
    taken,
)
from tests.asked import take_off
from tests.builders import triple

from gaugerake.floor.job import Cove, Crack, Joint, JointKind, Spall, Work
from gaugerake.floor.product import Pack


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

    @pytest.mark.parametrize(("feet_per_hour", "late"), [(600, True), (680, False)])
    def test_without_a_smallest_batch_the_smallest_pack_is_judged(self, feet_per_hour: float, late: bool) -> None:
        """The same 4 L as above, in the smaller of two packs; 18 L would last for none of these."""
        packs = tuple(
            Pack(sku=f"C-{litres}", contents=litres / 1000, contents_text="", unit_code="KT", description="Clear")
            for litres in (18, 4)
        )
        unbatched = replace(COAT_2, product=replace(COAT_2.product, smallest_batch=None, packs=packs))
        crew = replace(Work().crew, coating_rate_m2_s=feet_per_hour * 0.09290304 / 3600)
        work = Work(crew=crew, material_temperature_k=293.15)
        said = codes(asked(system=replace(SYSTEM, layers=(POURED, unbatched)), work=work))
        assert ("pack-outlives-pot-life" in said["cautions"]) is late
        assert "batch-outlives-pot-life" not in said["cautions"]

    def test_heat_shortens_the_pot_life(self) -> None:
        said = codes(asked(work=Work(material_temperature_k=308.15)))
        assert "batch-outlives-pot-life" in said["cautions"]
        assert "crew-coating-rate" in said["assumed"]
