"""One kitchen, worked by hand in feet and inches for four systems, to the last mix.

The kitchen is an L with a trench drain, a column, a joint carried through and some repair::

        18
     +------+                 area       30 x 12 + 18 x 12 = 576 ft2
     |      |                 perimeter  30 + 12 + 12 + 12 + 18 + 24 = 108 ft
  24 |      +----+ 12         column     2 x 2 ft = 4 ft2, 8 ft round
     |           |            trench     10 ft x 6 in = 5 ft2, 21 ft round
     +-----------+            net        576 - 4 - 5 = 567 ft2
          30                  joint      12 ft, 3/8 in wide, 1/2 in deep

Every figure here was worked with pencil, the intermediates written beside it, from the figures of the system that stand
in the comment. Three systems are those of the demonstration catalogue (invented). The fourth has figures of the trade:
common practice, no source.
"""

import math
from dataclasses import dataclass

import pytest
from tests.asked import take_off
from tests.builders import FT, FT2, FT3, GALLON, INCH, MIL, POUND, context, liquid, mixes, system, triple

from gaugerake.catalogue.store.demo import demo_catalogue
from gaugerake.floor.job import (
    Cove,
    Crack,
    Cutout,
    Drain,
    Job,
    Joint,
    JointKind,
    Order,
    Polygon,
    Rectangle,
    Room,
    Slab,
    Spall,
    TrenchDrain,
)
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.product import CountedIn
from gaugerake.floor.room.keyway import Keyway
from gaugerake.floor.system import Catalogue, System, Thickness
from gaugerake.floor.values.range import Triple

BASE = {CountedIn.MIX: 1.0, CountedIn.PIECE: 1.0, CountedIn.LIQUID: GALLON, CountedIn.MASS: POUND}


@dataclass(frozen=True, kw_only=True)
class ByHand:
    """What a layer needs in mixes, gallons, pounds or pieces, and what is used up where it is not measured out."""

    need: tuple[float, float, float]
    used: tuple[float, float, float] | None = None


def kitchen(*, coved: bool) -> Room:
    corners = ((0, 0), (30, 0), (30, 12), (18, 12), (18, 24), (0, 24))
    return Room(
        name="Kitchen",
        shape=Polygon(points_m=tuple((x * FT, y * FT) for x, y in corners)),
        cutouts=(Cutout(shape=Rectangle(length_m=2 * FT, width_m=2 * FT), at_m=(21 * FT, 4 * FT)),),
        drains=(Drain(shape=TrenchDrain(length_m=10 * FT, width_m=6 * INCH), at_m=(4 * FT, 14 * FT)),),
        joints=(
            Joint(
                line_m=((18 * FT, 0), (18 * FT, 12 * FT)),
                kind=JointKind.MOVING,
                width_m=3 / 8 * INCH,
                depth_m=1 / 2 * INCH,
            ),
        ),
        cracks=(Crack(length_m=17 * FT, width_m=1 / 4 * INCH, depth_m=1 / 4 * INCH),),
        spalls=(Spall(area_m2=3 * FT2, depth_m=3 / 8 * INCH),),
        cove=Cove(length_m=60 * FT, height_m=4 * INCH) if coved else None,
    )


def taken(of: Catalogue | System, job: Job) -> Takeoff:
    return context(job, of).shared(take_off)


def demo(system: str, *, thickness_in: float, csp: int, coved: bool = True, primer: bool = False) -> Takeoff:
    job = Job(
        system=system,
        rooms=(kitchen(coved=coved),),
        thickness_m=thickness_in * INCH,
        slab=Slab(profile_csp=csp),
        order=Order(waste_percent=5.0, optional_layers=("primer",) if primer else ()),
    )
    return taken(demo_catalogue(), job)


def spread(low: float, likely: float, high: float) -> Triple:
    """Square feet that a gallon covers."""
    return triple(low * FT2 / GALLON, likely * FT2 / GALLON, high * FT2 / GALLON)


def check(takeoff: Takeoff, expected: dict[str, ByHand]) -> None:
    assert [need.layer.id for need in takeoff.layers] == list(expected)
    for found in takeoff.layers:
        base, hand = BASE[found.layer.product.counted_in], expected[found.layer.id]
        need = [found.low / base, found.likely / base, found.high / base]
        used = [found.rounded_low / base, found.rounded_likely / base, found.rounded_high / base]
        assert need == pytest.approx(list(hand.need), rel=1e-5), found.layer.id
        assert used == pytest.approx(list(hand.used or hand.need), rel=1e-5 if hand.used is None else 1e-12)


def pieces(count: float) -> ByHand:
    return ByHand(need=(count, count, count), used=(count, count, count))


class TestLevelledBroadcastFloor:
    """``level-clear`` at 1/4 in on CSP 5, primed. Keyway 5 in off, 1.75 thicknesses; CSP 5 takes 19 mil."""

    takeoff = demo("level-clear", thickness_in=1 / 4, csp=5, primer=True)

    def test_room(self) -> None:
        room = self.takeoff.rooms[0]
        assert room.gross_area_m2 == pytest.approx(576 * FT2)
        assert room.area_m2 == pytest.approx(567 * FT2)
        assert room.perimeter_m == pytest.approx(108 * FT)
        # 5 in = 0.416667 ft. Walls 108 - 8 x 0.416667 = 104.666667 (five corners out, one in: 8 offsets);
        # column 8 + 3.333333 = 11.333333; trench 21 + 3.333333 = 24.333333; joint 2 x 12 = 24. In all 164.333333 ft
        assert room.keyway_length_m == pytest.approx(164.333333 * FT, rel=1e-8)

    def test_layers(self) -> None:
        check(
            self.takeoff,
            {
                # crack 17 x (1/48)^2 = 0.00737847; spall 3 x 1/32 = 0.09375; 0.10112847 ft3, x 1.05 = 0.10618490;
                # a mix of cove mortar yields 0.295 / 0.31 / 0.325 ft3
                "repair": ByHand(need=(0.3267228, 0.3425319, 0.3599488), used=(1, 1, 1)),
                # 60 x 1/3 x 1/64 = 0.3125; fillet 0.21460184 x (1/16)^2 x 60 = 0.05029731; x 1.05 = 0.38093717
                "cove": ByHand(need=(1.1721144, 1.2288296, 1.2913124), used=(2, 2, 2)),
                # floor and cove 567 + 60 x 1/3 = 587 ft2, x 1.05 = 616.35; 320 / 285 / 255 ft2/gal, batches of 0.75 gal
                "primer": ByHand(need=(1.9260938, 2.1626316, 2.4170588), used=(2.25, 2.25, 3.0)),
                # 567 x 1/48 = 11.8125; texture 567 x 0.019/12 = 0.89775; grooves 1.75 x 1/48 = 0.03645833,
                # squared 0.00132921, x 164.333333 = 0.21843352; 12.92868352, x 1.05 = 13.57511770;
                # 0.575 / 0.55 / 0.52 ft3 a mix
                "body": ByHand(need=(23.6089003, 24.6820322, 26.1059956), used=(24, 25, 27)),
                # 567 x 1.05 = 595.35 ft2 at 0.78 / 0.92 / 1.1 lb/ft2
                "broadcast": ByHand(need=(464.373, 547.722, 654.885)),
                # 616.35 ft2 at 174 / 151 / 132 and at 301 / 262 / 228 ft2/gal, batches of 0.75 gal
                "coat-1": ByHand(need=(3.5422414, 4.0817881, 4.6693182), used=(3.75, 4.5, 5.25)),
                "coat-2": ByHand(need=(2.0476744, 2.3524809, 2.7032895), used=(2.25, 3.0, 3.0)),
                # 12 x 1/32 x 1/24 = 0.015625 ft3 = 27 in3, x 1.05 = 28.35 in3, / 231 = 0.12272727 gal
                "joint": ByHand(need=(0.12272727, 0.12272727, 0.12272727)),
                "tint": ByHand(need=(24, 25, 27), used=(24, 25, 27)),  # one to a mix of body
                "cove-tint": pieces(3),  # one to a mix of cove mortar: repair 1, cove 2
                "spiked-roller": pieces(1),  # 567 / 1400
                "coat-roller": pieces(2),  # 567 / 450 = 1.26
                "wall-tape": pieces(1),  # 108 / 165
                "cove-bead": pieces(8),  # 60 / 7.75 = 7.74
            },
        )

    def test_films_and_what_is_swept_up(self) -> None:
        needs = {need.layer.id: need for need in self.takeoff.layers}
        # 231 in3 over 285 ft2: 231 / (285 x 144) in = 5.628655 mil, 97 % solids 5.459795; over 262 ft2 6.122774 mil,
        # 94 % 5.755407; the first coat lies on sand and has no one film
        assert needs["primer"].wet_film_m == pytest.approx(5.628655 * MIL, rel=1e-6)
        assert needs["primer"].dry_film_m == pytest.approx(5.459795 * MIL, rel=1e-6)
        assert needs["coat-1"].wet_film_m is None
        assert needs["coat-2"].wet_film_m == pytest.approx(6.122774 * MIL, rel=1e-6)
        assert needs["coat-2"].dry_film_m == pytest.approx(5.755407 * MIL, rel=1e-6)
        # 567 ft2 keep 0.56 of 0.92 lb/ft2: 317.52 lb stay, 204.12 lb are cleared away
        assert needs["broadcast"].retained_kg == pytest.approx(317.52 * POUND)
        assert needs["broadcast"].cleared_away_kg == pytest.approx(204.12 * POUND)


class TestDoubleBroadcastFloor:
    """``double-quartz`` at 150 mil on CSP 4. No keyway, no cove; CSP 4 takes 16 mil; shares 0.55 and 0.45."""

    takeoff = demo("double-quartz", thickness_in=0.150, csp=4, coved=False)

    def test_room(self) -> None:
        room = self.takeoff.rooms[0]
        assert room.area_m2 == pytest.approx(567 * FT2)
        assert room.keyway_length_m == 0.0
        assert room.inset_m == ()

    def test_layers(self) -> None:
        check(
            self.takeoff,
            {
                # 0.10618490 ft3 as above; slurry yields 0.36 / 0.345 / 0.33 ft3 a mix
                "repair": ByHand(need=(0.2949580, 0.3077823, 0.3217724), used=(1, 1, 1)),
                # 595.35 ft2 at 275 / 245 / 215 ft2/gal, batches of 0.75 gal
                "primer": ByHand(need=(2.1649091, 2.43, 2.7690698), used=(2.25, 3.0, 3.0)),
                # 567 x 0.15/12 = 7.0875 ft3; 0.55 of it 3.898125, texture 567 x 0.016/12 = 0.756;
                # 4.654125, x 1.05 = 4.88683125
                "body-1": ByHand(need=(13.5745313, 14.1647283, 14.8085795), used=(14, 15, 15)),
                "broadcast-1": ByHand(need=(297.675, 381.024, 464.373)),  # 0.5 / 0.64 / 0.78 lb/ft2
                # 0.45 of 7.0875 = 3.189375, x 1.05 = 3.34884375
                "body-2": ByHand(need=(9.3023438, 9.7067935, 10.1480114), used=(10, 10, 11)),
                "broadcast-2": ByHand(need=(357.21, 440.559, 523.908)),  # 0.6 / 0.74 / 0.88 lb/ft2
                # 595.35 ft2 at 152 / 133 / 116 ft2/gal, measured out
                "coat": ByHand(need=(3.9167763, 4.4763158, 5.1323276)),
                "joint": ByHand(need=(0.12272727, 0.12272727, 0.12272727)),
                "spiked-roller": pieces(1),  # 567 / 1200
                "coat-roller": pieces(2),  # 567 / 380 = 1.49
                "wall-tape": pieces(1),
            },
        )

    def test_what_is_swept_up(self) -> None:
        swept = [need.cleared_away_kg for need in self.takeoff.layers if need.cleared_away_kg is not None]
        # 567 x (0.64 - 0.37) = 153.09 lb and 567 x (0.74 - 0.43) = 175.77 lb
        assert swept == pytest.approx([153.09 * POUND, 175.77 * POUND])


class TestTrowelledMortarFloor:
    """``trowelled-mortar`` at 3/8 in on CSP 6. Keyway 3 1/2 in off, 1.25 thicknesses; CSP 6 takes 25 mil."""

    takeoff = demo("trowelled-mortar", thickness_in=3 / 8, csp=6)

    def test_room(self) -> None:
        # 3.5 in = 0.291667 ft. 108 - 2.333333 = 105.666667; 8 + 2.333333; 21 + 2.333333; 24: 163.333333 ft
        assert self.takeoff.rooms[0].keyway_length_m == pytest.approx(163.333333 * FT, rel=1e-8)

    def test_layers(self) -> None:
        check(
            self.takeoff,
            {
                # 0.10618490 ft3; mortar yields 0.67 / 0.64 / 0.61 ft3 a mix
                "repair": ByHand(need=(0.1584849, 0.1659139, 0.1740736), used=(1, 1, 1)),
                # 60 x 1/3 x 1/48 = 0.41666667; fillet 0.21460184 x (1.25/12)^2 x 60 = 0.13971474; x 1.05 = 0.58420047
                "cove": ByHand(need=(1.7975399, 1.8845177, 1.9803406), used=(2, 2, 2)),
                "primer": ByHand(need=(2.3705769, 2.7393333, 3.1607692), used=(3.0, 3.0, 3.75)),  # 260 / 225 / 195
                # 567 x 1/32 = 17.71875; texture 567 x 0.025/12 = 1.18125; grooves (1.25 x 1/32)^2 = 0.00152588,
                # x 163.333333 = 0.24922689; 19.14922689, x 1.05 = 20.10668823. The low need is a hair over 30
                "body": ByHand(need=(30.0099824, 31.4167004, 32.9617840), used=(31, 32, 33)),
                "coat-1": ByHand(need=(3.3137097, 3.7812883, 4.3404930), used=(3.75, 4.5, 4.5)),  # 186 / 163 / 142
                "coat-2": ByHand(need=(1.9382075, 2.2170863, 2.568125)),  # 318 / 278 / 240, measured out
                "joint": ByHand(need=(0.12272727, 0.12272727, 0.12272727)),
                "tint": ByHand(need=(32, 33, 34), used=(32, 33, 34)),  # one to a mix of mortar: repair 1, body 32
                "cove-tint": pieces(2),
                "coat-roller": pieces(2),  # 567 / 420 = 1.35
                "cove-bead": pieces(8),
            },
        )


class TestFiguresOfTheTrade:
    """Common practice, no source: keyways 6 in off every edge, twice as wide and deep as the floor is thick; a mix
    that covers 40 to 45 ft2 at 1/8 in; coats at 200 to 250 and 200 to 400 ft2/gal; cracks opened to 1/4 in."""

    body = mixes(
        # 40 ft2 x 1/96 ft = 0.416667 ft3, 45 x 1/96 = 0.46875 ft3; the middle 0.442708 ft3
        yield_m3=triple(40 / 96 * FT3, 42.5 / 96 * FT3, 45 / 96 * FT3),
    )
    clear = liquid()
    system = system(
        RepairLayer(id="repair", name="Repair", product=body),
        BodyLayer(id="body", name="Body", product=body),
        CoatLayer(id="coat-1", name="First coat", product=clear, spreading_rate_m2_m3=spread(200, 225, 250)),
        CoatLayer(id="coat-2", name="Second coat", product=clear, spreading_rate_m2_m3=spread(200, 300, 400)),
        code="trade",
        reference_temperature_k=295.37,
        thickness=Thickness(low_m=INCH / 8, usual_m=INCH / 4, high_m=INCH / 2),
        keyway=Keyway(offset_m=6 * INCH, ratio=2.0),
    )

    def taken(self, thickness_in: float) -> Takeoff:
        plain = kitchen(coved=False)
        room = Room(
            shape=plain.shape, cutouts=plain.cutouts, drains=plain.drains, joints=plain.joints, cracks=plain.cracks
        )
        job = Job(system="trade", rooms=(room,), thickness_m=thickness_in * INCH, order=Order(waste_percent=5.0))
        return taken(self.system, job)

    def test_room(self) -> None:
        # 6 in = 0.5 ft. Walls 108 - 4 = 104; column 8 + 4 = 12; trench 21 + 4 = 25; joint 24: 165 ft
        assert self.taken(1 / 4).rooms[0].keyway_length_m == pytest.approx(165 * FT)

    def test_layers_at_a_quarter_inch(self) -> None:
        check(
            self.taken(1 / 4),
            {
                # 17 x (1/48)^2 = 0.00737847 ft3, x 1.05 = 0.00774740
                "repair": ByHand(need=(0.01652778, 0.0175, 0.01859375), used=(1, 1, 1)),
                # 567 / 48 = 11.8125; grooves 165 x (1/24)^2 = 0.28645833; 12.09895833, x 1.05 = 12.70390625 ft3
                "body": ByHand(need=(27.1016667, 28.6958824, 30.489375), used=(28, 29, 31)),
                "coat-1": ByHand(need=(2.3814, 2.646, 2.97675)),  # 595.35 / 250, / 225, / 200
                "coat-2": ByHand(need=(1.488375, 1.9845, 2.97675)),  # 595.35 / 400, / 300, / 200
            },
        )

    def test_half_the_thickness_takes_half_the_body_and_a_quarter_of_the_grooves(self) -> None:
        # 567 / 96 = 5.90625; 165 x (1/48)^2 = 0.07161458; 5.97786458, x 1.05 = 6.27675781 ft3, / 0.442708 = 14.178088
        body = self.taken(1 / 8).layers[1]
        assert body.likely == pytest.approx(14.178088, rel=1e-6)
        assert body.rounded_likely == 15

    def test_a_mix_covers_half_as_much_at_twice_the_thickness(self) -> None:
        # 20 to 22.5 ft2 at 1/4 in, without grooves: 567 ft2 / 22.5 = 25.2 mixes, / 20 = 28.35
        body = self.taken(1 / 4).layers[1]
        grooves = 165 * FT * (INCH / 2) ** 2 * 1.05
        assert body.demand is not None
        assert body.demand.fixed == pytest.approx(grooves)
        floor = [body.demand.varying / 1.05 / share / FT3 for share in (45 / 96, 40 / 96)]
        assert floor == pytest.approx([25.2, 28.35])


def test_the_kitchen_is_the_same_drawn_the_other_way_round_and_elsewhere() -> None:
    plain = kitchen(coved=True)
    assert isinstance(plain.shape, Polygon)
    moved = Polygon(points_m=tuple((x + 300.0, y - 70.0) for x, y in reversed(plain.shape.points_m)))
    job = Job(system="level-clear", rooms=(plain,), thickness_m=INCH / 4, slab=Slab(profile_csp=5))
    other = Job(
        system="level-clear",
        rooms=(
            Room(
                shape=moved,
                cutouts=plain.cutouts,
                drains=plain.drains,
                joints=plain.joints,
                cracks=plain.cracks,
                spalls=plain.spalls,
                cove=plain.cove,
            ),
        ),
        thickness_m=INCH / 4,
        slab=Slab(profile_csp=5),
    )
    one, two = taken(demo_catalogue(), job), taken(demo_catalogue(), other)
    assert [need.rounded_likely for need in one.layers] == pytest.approx([need.rounded_likely for need in two.layers])
    assert math.isclose(one.rooms[0].keyway_length_m, two.rooms[0].keyway_length_m)
