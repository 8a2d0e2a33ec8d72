"""Rooms: what stands in them, what must be filled in them, and what is carried through them."""

from __future__ import annotations

from typing import Any, ClassVar

from gaugerake.floor.job import (
    Advance,
    Cove,
    Crack,
    Cutout,
    Drain,
    Joint,
    JointKind,
    Room,
    RoundDrain,
    Side,
    Spall,
    Termination,
    TrenchDrain,
)
from gaugerake.floor.values.figure import Kind
from gaugerake.web.json_in.document import Document, Items, Object
from gaugerake.web.json_in.fields import Choice, Number, Text, Whole
from gaugerake.web.json_in.fields_measure import Measure
from gaugerake.web.json_in.schemas.shapes import SIDE, ShapeSchema, place, place_once

FILLED = ("0.5 mm", "1 m")
PLACED = ("0.05 mm", "150 mm")
MOST_PLACED = 200
MOST_LINES = 500
MOST_COUNT = 1000


def thickness(**options: Any) -> Measure:
    """What is placed wet, before the broadcast."""
    return Measure(Kind.SMALL_LENGTH, *PLACED, attribute="thickness_m", **options)


class CutoutSchema(ShapeSchema):
    """Floor that is left out: exactly one shape, and perhaps its place."""

    at = place(attribute="at_m", about="The lower left of its box, from the lower left of the room's box.")
    count = Whole(1, MOST_COUNT, about="How many of them; 1 unless given.")

    def make(self, values: dict[str, Any]) -> Cutout:
        """The cutout."""
        place_once(values)
        placed = {name: values.pop(name) for name in ("at_m", "count") if name in values}
        return Cutout(shape=super().make(values), **placed)

    def part(self, value: Cutout, attribute: str) -> Any:
        """The shape at its own name, or what is said beside it."""
        if attribute in self.kinds:
            return super().part(value.shape, attribute)
        return _said(value, attribute)


class RoundDrainSchema(Document):
    """A round drain."""

    makes = RoundDrain
    diameter = Measure(Kind.SMALL_LENGTH, "1 cm", "10 m", attribute="diameter_m", required=True, about="Of its rim.")


class TrenchDrainSchema(Document):
    """A trench drain, its length along x when it is placed."""

    makes = TrenchDrain
    length = Measure(Kind.LENGTH, *SIDE, attribute="length_m", required=True, about="Of the opening in the floor.")
    width = Measure(
        Kind.SMALL_LENGTH, "1 cm", "100 m", attribute="width_m", required=True, about="Of the opening in the floor."
    )


class DrainSchema(Document):
    """Drains of one size: exactly one of `round` and `trench`, and perhaps a count or a place."""

    makes = Drain
    only_one = ("round", "trench")
    kinds: ClassVar[dict[str, type]] = {"round": RoundDrain, "trench": TrenchDrain}
    round = Object(RoundDrainSchema, about="A round opening.")
    trench = Object(TrenchDrainSchema, about="A long opening with straight sides.")
    at = place(attribute="at_m", about="The lower left of its box, from the lower left of the room's box.")
    count = Whole(1, MOST_COUNT, about="How many of them; 1 unless given.")

    def make(self, values: dict[str, Any]) -> Drain:
        """The drains."""
        place_once(values)
        placed = {name: values.pop(name) for name in ("at_m", "count") if name in values}
        (shape,) = values.values()
        return Drain(shape=shape, **placed)

    def part(self, value: Drain, attribute: str) -> Any:
        """The drain at its own name, or what is said beside it."""
        if attribute in self.kinds:
            return value.shape if isinstance(value.shape, self.kinds[attribute]) else None
        return _said(value, attribute)


def _said(value: Cutout | Drain, attribute: str) -> Any:
    if attribute == "count" and value.count == 1:
        return None
    return getattr(value, attribute)


class JointSchema(Document):
    """A joint in the slab: exactly one of `length` and `line`."""

    makes = Joint
    only_one = ("length", "line")
    length = Measure(Kind.LENGTH, *SIDE, attribute="length_m", about="Of a joint whose place is not said.")
    line = Items(place(), least=2, most=2, attribute="line_m", about="Its two ends.")
    kind = Choice(JointKind, about="`moving` is carried through the floor, `contraction` is bridged.")
    width = Measure(Kind.SMALL_LENGTH, *FILLED, attribute="width_m", about="Of the cut that is filled or sealed.")
    depth = Measure(Kind.SMALL_LENGTH, *FILLED, attribute="depth_m", about="Of the cut that is filled or sealed.")


class TerminationSchema(Document):
    """A stop of the floor that the outline does not show."""

    makes = Termination
    length = Measure(Kind.LENGTH, *SIDE, attribute="length_m", required=True, about="Of the free edge.")


class CrackSchema(Document):
    """A crack as it is opened and filled."""

    makes = Crack
    length = Measure(Kind.LENGTH, *SIDE, attribute="length_m", required=True, about="Along the crack.")
    width = Measure(Kind.SMALL_LENGTH, *FILLED, attribute="width_m", required=True, about="As it is opened.")
    depth = Measure(Kind.SMALL_LENGTH, *FILLED, attribute="depth_m", required=True, about="As it is opened.")


class SpallSchema(Document):
    """A patch to fill: its area and mean depth."""

    makes = Spall
    area = Measure(
        Kind.AREA, "1 cm2", "10000 m2", attribute="area_m2", required=True, about="Of the hole, seen from above."
    )
    depth = Measure(Kind.SMALL_LENGTH, *FILLED, attribute="depth_m", required=True, about="On average.")


class CoveSchema(Document):
    """Cove: how much wall, and how far up it."""

    makes = Cove
    length = Measure(Kind.LENGTH, *SIDE, attribute="length_m", required=True, about="Of wall, doorways left out.")
    height = Measure(
        Kind.SMALL_LENGTH, "5 mm", "3 m", attribute="height_m", required=True, about="Up the wall from the floor."
    )


class PourSchema(Document):
    """How the edge of the pour goes through the room: straight across, from one side of its drawing."""

    makes = Advance
    side = Choice(Side, data_key="from", attribute="side", about="The side of the drawing that the pour begins at.")
    run = Measure(
        Kind.LENGTH,
        *SIDE,
        attribute="run_m",
        about="How long a `measured` room is that way; a room with a drawing says it itself.",
    )


class RoomSchema(Document):
    """One room."""

    makes = Room
    name = Text(80, about="What people call it.")
    shape = Object(ShapeSchema, required=True, about="Its outline from wall to wall, or its area.")
    cutouts = Items(
        Object(CutoutSchema),
        most=MOST_PLACED,
        about="Floor that is left out, such as columns and plinths; none unless given.",
    )
    drains = Items(Object(DrainSchema), most=MOST_PLACED, about="Openings that the floor is run to; none unless given.")
    joints = Items(Object(JointSchema), most=MOST_LINES, about="An empty list says that there are none.")
    terminations = Items(
        Object(TerminationSchema),
        most=MOST_LINES,
        about="Free edges that the outline does not show, such as a doorway or a change of floor; none unless given.",
    )
    cracks = Items(Object(CrackSchema), most=MOST_LINES, about="Cracks to open and fill; none unless given.")
    spalls = Items(Object(SpallSchema), most=MOST_LINES, about="Broken places to patch; none unless given.")
    cove = Object(CoveSchema, about="Cove up its walls; none unless given.")
    slope_percent = Number(0, 100, about="Fall of the finished floor, in per cent.")
    thickness = thickness(about="This room's own thickness.")
    profile_csp = Whole(1, 10, about="This room's own concrete surface profile (ICRI 310.2R).")
    pour = Object(
        PourSchema, about="Which way the pour goes: with it `pours` tell how far the floor stands after each mix."
    )
