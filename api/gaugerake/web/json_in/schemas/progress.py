"""How far a pour has come, beside the job that is poured."""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError

from gaugerake.floor.pour.under_way import PourExtent, PourUnderWay, Progress
from gaugerake.floor.values.figure import Kind
from gaugerake.measure.choice import UnitChoice
from gaugerake.web.errors.finding import Finding
from gaugerake.web.json_in.document import Document, Object
from gaugerake.web.json_in.fields import Form, Strict, Text, Whole
from gaugerake.web.json_in.fields_measure import Measure
from gaugerake.web.json_in.fields_time import Moment
from gaugerake.web.json_in.schemas.job import MOST_ROOMS, JobSchema

MOST_MIXES = 1_000_000
LONGEST_NAME = 80


class RoomOfJob(Strict):
    """A room by its name, or by its number in the job from 1."""

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        self._name, self._number = Text(LONGEST_NAME), Whole(1, MOST_ROOMS)

    def read(self, value: Any) -> str | int:
        """The name or the number."""
        found: str | int = self._name.read(value) if isinstance(value, str) else self._number.read(value)
        return found

    def write(self, value: Any, choice: UnitChoice) -> str | int:
        """The name or the number, as it was given."""
        return value  # type: ignore[no-any-return]

    def form(self) -> Form:
        """A string or a whole number."""
        return {"oneOf": [self._name.form(), self._number.form()]}


class MixCount(Whole):
    """Mixes that are on the floor. None of them is read, as what is wrong then is that nothing is placed."""

    def __init__(self, **options: Any) -> None:
        super().__init__(0, MOST_MIXES, **options)

    def form(self) -> Form:
        """A whole number from 1."""
        return super().form() | {"minimum": 1}


class PourExtentSchema(Document):
    """What is placed: exactly one of `area` and `room`, and with a room how far its floor stands."""

    makes = PourExtent
    only_one = ("area", "room")
    area = Measure(
        Kind.AREA,
        "0 m2",
        "200000 m2",
        attribute="area_m2",
        about="Net floor that is placed, through the rooms in their order.",
    )
    room = RoomOfJob(
        about="The room in which the edge stands, by name or by number from 1; those before it are complete."
    )
    to = Measure(
        Kind.LENGTH, "0 m", "10 km", attribute="to_m", about="How far the floor stands from the side that it began at."
    )

    def make(self, values: dict[str, Any]) -> PourExtent:
        """What is placed."""
        if "room" in values and "to_m" not in values:
            raise ValidationError({"to": [Finding("required")]})
        if "area_m2" in values and "to_m" in values:
            raise ValidationError({"to": [Finding("one-too-many", "area, to", {"known": "area, to"})]})
        return PourExtent(**values)


class ProgressSchema(Document):
    """How far the pour of one layer has come."""

    makes = Progress
    layer = Text(64, about="The id of a layer that is poured; the first unless given.")
    mixes = MixCount(required=True, about="Mixes that are on the floor, counted whole; at least 1.")
    placed = Object(PourExtentSchema, required=True, about="The floor that those mixes made.")
    mixes_left = Whole(
        0, MOST_MIXES, about="Mixes that still stand there; what the order holds less what is poured unless given."
    )
    began = Moment(about="When the first mix was begun. Without an offset, in the job's zone.")
    at = Moment(about="What time it is. Without an offset, in the job's zone.")


class PourUnderWaySchema(Document):
    """A job, and how far its pour has come."""

    makes = PourUnderWay
    job = Object(JobSchema, required=True, about="The job as it was quoted.")
    progress = Object(ProgressSchema, required=True, about="What has been poured of it by now.")


POUR_UNDER_WAY = PourUnderWaySchema()
