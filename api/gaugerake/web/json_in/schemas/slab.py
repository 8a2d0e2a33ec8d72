"""The slab and the air over it: what has been seen and tested."""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError

from gaugerake.floor.job import (
    Air,
    AirReading,
    DriesFrom,
    EmissionReading,
    HumidityReading,
    PhReading,
    ProfileReading,
    PullOff,
    PullOffFailure,
    Slab,
)
from gaugerake.floor.values.figure import Kind
from gaugerake.web.errors.finding import UNSEEN, Finding
from gaugerake.web.json_in.document import Document, Either, Items, Object, OneOrSeveral
from gaugerake.web.json_in.fields import Choice, Flag, Number, Text, Whole
from gaugerake.web.json_in.fields_measure import Measure
from gaugerake.web.json_in.fields_time import Day, Moment, hold_order

MOST_TESTS = 500
MOST_READINGS = 3000
EMISSION = ("0 g/m2/24h", "5000 g/m2/24h")
STRENGTH = ("0 MPa", "200 MPa")
TEMPERATURE = ("-40 degC", "80 degC")


def room() -> Text:
    """The room of a reading."""
    return Text(80, about="The name of one of the job's rooms, where it was taken.")


class EmissionSchema(Document):
    """A moisture emission and where it was measured."""

    makes = EmissionReading
    emission = Measure(
        Kind.MOISTURE_EMISSION, *EMISSION, attribute="rate_kg_m2_s", required=True, about="Of the slab, as tested."
    )
    room = room()


class DishSchema(Document):
    """A calcium chloride dish (ASTM F1869): what it gained, in how many hours, over which net area."""

    makes = EmissionReading
    gain = Measure(
        Kind.SMALL_MASS, "0 g", "1 kg", attribute="gain_kg", required=True, about="By which the salt grew heavier."
    )
    hours = Number(1, 200, attribute="exposure_hours", required=True, about="Hours of exposure.")
    area = Measure(Kind.SMALL_AREA, "1 in2", "1 m2", attribute="area_m2", required=True, about="Net of the dish.")
    room = room()


class HumiditySchema(Document):
    """A relative humidity at a probe's depth in the slab (ASTM F2170)."""

    makes = HumidityReading
    percent = Number(1, 100, required=True, about="Relative humidity that the probe reads, in %.")
    depth = Measure(Kind.SMALL_LENGTH, "1 mm", "3 m", attribute="depth_m", about="Of the probe, below the surface.")
    room = room()


class PullOffSchema(Document):
    """A pull-off test and where it broke."""

    makes = PullOff
    strength = Measure(
        Kind.PRESSURE, *STRENGTH, attribute="strength_pa", required=True, about="At which it came off, over its area."
    )
    failure = Choice(PullOffFailure, about="Where it broke.")
    room = room()


class PhSchema(Document):
    """A pH of the surface and where it was measured."""

    makes = PhReading
    ph = Number(0, 14, required=True, about="As read on the surface, 7 being neutral.")
    room = room()


class ProfileSchema(Document):
    """A concrete surface profile (ICRI 310.2R) and where it was compared."""

    makes = ProfileReading
    csp = Whole(1, 10, required=True, about="The number of the chip that it looks like, 1 to 10.")
    room = room()


class SlabSchema(Document):
    """What has been seen and tested of the slab; what is left out is untested."""

    makes = Slab
    substrate = Text(64, about="What the floor goes on; concrete unless given.")
    age = Measure(Kind.DAYS, "0 d", "200 yr", attribute="age_s", about="Its age at `work.start`.")
    poured = Day(first=1800, about="The day on which it was poured, which gives its age.")
    compressive_strength = Measure(
        Kind.PRESSURE, *STRENGTH, attribute="compressive_strength_pa", about="Of the concrete, as tested."
    )
    profile_csp = OneOrSeveral(
        Whole(1, 10),
        Object(ProfileSchema),
        most=MOST_TESTS,
        about="Concrete surface profile (ICRI 310.2R), one or several readings.",
    )
    thickness = Measure(
        Kind.SMALL_LENGTH, "1 cm", "3 m", attribute="thickness_m", about="Of the slab; it says how deep a probe goes."
    )
    dries_from = Choice(DriesFrom, about="It says how deep a probe goes; one side unless given.")
    moisture_emission = Items(
        Either(
            Measure(Kind.MOISTURE_EMISSION, *EMISSION),
            Object(DishSchema),
            keyed={"emission": Object(EmissionSchema)},
            attribute_alone="rate_kg_m2_s",
        ),
        most=MOST_TESTS,
        about="Each test: the rate, or the dish's figures.",
    )
    relative_humidity = Items(Object(HumiditySchema), most=MOST_TESTS, about="Each test: the reading and its depth.")
    pull_off = Items(
        Either(Measure(Kind.PRESSURE, *STRENGTH), Object(PullOffSchema), attribute_alone="strength_pa"),
        most=MOST_TESTS,
        about="Each test: the strength, or the strength and where it broke.",
    )
    ph = OneOrSeveral(
        Number(0, 14), Object(PhSchema), most=MOST_TESTS, about="Of the surface, one or several readings."
    )
    absorbs_water = Flag(about="Whether drops of water soak in.")
    damp = Flag(about="Whether it is damp to see or to touch.")
    contaminants = Items(Text(64), most=20, about="What was found on it; an empty list says nothing was.")
    temperature = Measure(Kind.TEMPERATURE, *TEMPERATURE, attribute="temperature_k", about="Of the surface.")


class AirReadingSchema(Document):
    """The air over the floor at a time."""

    makes = AirReading
    at = Moment(required=True, about="Without an offset, in the job's zone.")
    temperature = Measure(
        Kind.TEMPERATURE, *TEMPERATURE, attribute="temperature_k", required=True, about="Of the air in the room."
    )
    humidity_percent = Number(1, 100, required=True, about="Relative humidity.")


class AirSchema(Document):
    """The air over the floor: as it stays, or readings of it."""

    makes = Air
    temperature = Measure(
        Kind.TEMPERATURE, *TEMPERATURE, attribute="temperature_k", about="Of the air in the room, as it stays."
    )
    humidity_percent = Number(1, 100, about="Relative humidity.")
    readings = Items(
        Object(AirReadingSchema),
        least=1,
        most=MOST_READINGS,
        about=(
            "A forecast or a logger's file, in the order of time; linear between readings, held at both ends. Stands"
            " alone: checks of the air are read at the start of the work."
        ),
    )

    def make(self, values: dict[str, Any]) -> Air:
        """The air."""
        if "readings" in values:
            hold_order(values["readings"])
            for attribute, field in (("temperature_k", "temperature"), ("humidity_percent", "humidity_percent")):
                if attribute in values:
                    raise ValidationError({field: [Finding("air-said-twice", UNSEEN, {"field": field})]})
        return Air(**values)
