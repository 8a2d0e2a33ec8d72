"""Shapes: the outline of a room or a cutout, and the points that place things in a room."""

from __future__ import annotations

from typing import Any, ClassVar

from marshmallow import ValidationError

from gaugerake.floor.job import Circle, Measured, Polygon, Rectangle
from gaugerake.floor.values.figure import Kind
from gaugerake.measure.choice import UnitChoice
from gaugerake.measure.dimension import Dimension
from gaugerake.measure.units import unit as unit_named
from gaugerake.web.errors.finding import Finding, refuse
from gaugerake.web.json_in.document import Document, Items, Object
from gaugerake.web.json_in.fields import Number
from gaugerake.web.json_in.fields_measure import LengthUnit, Measure, from_metres, to_metres

SIDE = ("0.01 m", "10 km")
FARTHEST_M = 10_000.0
MOST_POINTS = 100


def place(**options: Any) -> Items:
    """Two measures from the lower left of the room's box."""
    return Items(Measure(Kind.LENGTH, "0 m", "10 km"), least=2, most=2, **options)


class RectangleSchema(Document):
    """A rectangle."""

    makes = Rectangle
    length = Measure(Kind.LENGTH, *SIDE, attribute="length_m", required=True, about="Along x, from left to right.")
    width = Measure(Kind.LENGTH, *SIDE, attribute="width_m", required=True, about="Along y, from bottom to top.")


class PolygonSchema(Document):
    """A simple polygon in any winding, its points plain numbers in `unit`; a repeated closing point is dropped."""

    makes = Polygon
    points = Items(
        Items(Number(-1e9, 1e9), least=2, most=2),
        least=3,
        most=MOST_POINTS + 1,
        attribute="points_m",
        required=True,
        about="Corners as [x, y], one after the other round the room; at most 100.",
    )
    unit = LengthUnit(required=True, about="The unit of length of every point.")

    def make(self, values: dict[str, Any]) -> Polygon:
        """The polygon in metres."""
        points = [(to_metres(x, values["unit"]), to_metres(y, values["unit"])) for x, y in values["points_m"]]
        if points[0] == points[-1]:
            points.pop()
        far = [i for i, point in enumerate(points) if max(map(abs, point)) > FARTHEST_M]
        if far:
            raise ValidationError({"points": {i: [Finding("point-too-far", values["points_m"][i])] for i in far}})
        if not 3 <= len(points) <= MOST_POINTS:
            raise ValidationError({"points": [Finding("corners-out-of-range", len(points), {"most": MOST_POINTS})]})
        return Polygon(points_m=tuple(points))

    def write(self, value: Polygon, choice: UnitChoice) -> dict[str, Any]:
        """The points in the reader's unit of length."""
        name = choice.unit(Kind.LENGTH)
        factor = unit_named(name, Dimension.LENGTH).factor
        points = [[from_metres(x, factor, choice), from_metres(y, factor, choice)] for x, y in value.points_m]
        return {"points": points, "unit": name}


class CircleSchema(Document):
    """A circle."""

    makes = Circle
    diameter = Measure(Kind.LENGTH, *SIDE, attribute="diameter_m", required=True, about="From wall to wall.")


class MeasuredSchema(Document):
    """An area known as a figure, gross; without a perimeter it is taken as a rectangle twice as long as wide."""

    makes = Measured
    area = Measure(
        Kind.AREA, "0.01 m2", "200000 m2", attribute="area_m2", required=True, about="Gross, cutouts and drains in it."
    )
    perimeter = Measure(Kind.LENGTH, "0.1 m", "100 km", attribute="perimeter_m", about="All the way round the outline.")


class ShapeSchema(Document):
    """A shape: exactly one of its fields."""

    makes = Rectangle
    only_one = ("rectangle", "polygon", "circle", "measured")
    kinds: ClassVar[dict[str, type]] = {
        "rectangle": Rectangle,
        "polygon": Polygon,
        "circle": Circle,
        "measured": Measured,
    }
    rectangle = Object(RectangleSchema, about="Four square corners.")
    polygon = Object(PolygonSchema, about="Any outline of straight sides, by its corners.")
    circle = Object(CircleSchema, about="A round outline.")
    measured = Object(MeasuredSchema, about="An area that is known without its outline; nothing of it is drawn.")

    def make(self, values: dict[str, Any]) -> Any:
        """The one shape."""
        (shape,) = values.values()
        return shape

    def part(self, value: Any, attribute: str) -> Any:
        """The shape, at its own name."""
        return value if isinstance(value, self.kinds[attribute]) else None


def place_once(values: dict[str, Any]) -> None:
    """Refuse several things in one place."""
    if values.get("at_m") is not None and values.get("count", 1) != 1:
        raise ValidationError({"count": [Finding("placed-once", values["count"])]})


__all__ = ["ShapeSchema", "place", "place_once", "refuse"]
