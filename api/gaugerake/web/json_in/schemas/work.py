"""The work: when, in which temperatures, by whom, and until when."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any, ClassVar

from marshmallow import ValidationError

from gaugerake.answers.job.resolve_crew import USUAL_HANDS
from gaugerake.floor.clock.shifts import MOST_SHIFTS_A_DAY
from gaugerake.floor.crew.tasks import Task
from gaugerake.floor.job import Crew, Daily, Hands, Readings, Shift, Steady, TemperatureReading, Weekday, Work
from gaugerake.floor.values.figure import Kind
from gaugerake.web.errors.finding import Finding
from gaugerake.web.json_in.document import Document, Items, Object
from gaugerake.web.json_in.fields import Choice, Flag, Money, Number, Text, Whole
from gaugerake.web.json_in.fields_measure import Measure
from gaugerake.web.json_in.fields_time import Clock, Day, Moment, Zone, hold_order
from gaugerake.web.json_in.schemas.slab import MOST_READINGS, TEMPERATURE

RATES: Mapping[Kind, tuple[str, str]] = {
    Kind.AREA_RATE: ("0.1 m2/h", "10000 m2/h"),
    Kind.LENGTH_RATE: ("0.1 m/h", "10000 m/h"),
    Kind.MASS_RATE: ("0.1 kg/h", "100000 kg/h"),
}


def _rate(kind: Kind, attribute: str, *, about: str) -> Measure:
    """How fast a crew does one task."""
    return Measure(kind, *RATES[kind], attribute=attribute, about=about)


def _hands(task: Task, *, where: str = "") -> Whole:
    """How many people do one task."""
    return Whole(1, 200, about=f"{where}{USUAL_HANDS[task]} unless given.")


class DailySchema(Document):
    """A daily wave of the floor's temperature on the wall clock."""

    makes = Daily
    low = Measure(Kind.TEMPERATURE, *TEMPERATURE, attribute="low_k", required=True, about="At the coldest hour.")
    high = Measure(Kind.TEMPERATURE, *TEMPERATURE, attribute="high_k", required=True, about="Twelve hours later.")
    coldest_at = Clock(about="05:00 unless given.")

    def make(self, values: dict[str, Any]) -> Daily:
        """The wave."""
        if values["low_k"] > values["high_k"]:
            raise ValidationError({"high": [Finding("high-under-low")]})
        return Daily(**values)


class ReadingSchema(Document):
    """The floor's temperature at a time."""

    makes = TemperatureReading
    at = Moment(required=True, about="Without an offset, in the job's zone.")
    temperature = Measure(
        Kind.TEMPERATURE, *TEMPERATURE, attribute="temperature_k", required=True, about="Of the floor's surface."
    )


class TemperaturesSchema(Document):
    """The temperature of the floor's surface: exactly one of its fields."""

    makes = Steady
    only_one = ("steady", "daily", "readings")
    kinds: ClassVar[dict[str, type]] = {"steady": Steady, "daily": Daily, "readings": Readings}
    steady = Measure(Kind.TEMPERATURE, *TEMPERATURE, about="The same by day and by night.")
    daily = Object(DailySchema, about="Colder by night and warmer by day, every day alike.")
    readings = Items(
        Object(ReadingSchema),
        least=1,
        most=MOST_READINGS,
        about="A forecast or a logger's file, in the order of time; linear between readings, held at both ends.",
    )

    def make(self, values: dict[str, Any]) -> Steady | Daily | Readings:
        """The one kind."""
        if "steady" in values:
            return Steady(temperature_k=values["steady"])
        if "daily" in values:
            daily: Daily = values["daily"]
            return daily
        hold_order(values["readings"])
        return Readings(readings=values["readings"])

    def part(self, value: Any, attribute: str) -> Any:
        """What the kind holds, at its own name."""
        if not isinstance(value, self.kinds[attribute]):
            return None
        if isinstance(value, Steady):
            return value.temperature_k
        return value.readings if isinstance(value, Readings) else value


class ShiftSchema(Document):
    """Open hours on some weekdays; one that ends at or before its start ends on the next day."""

    makes = Shift
    days = Items(Choice(Weekday), least=1, most=7, required=True, about="The weekdays on which it starts.")
    begin = Clock(data_key="from", attribute="starts", required=True, about="By the wall clock, such as 06:00.")
    end = Clock(
        data_key="to", attribute="ends", required=True, midnight_ends=True, about="By the wall clock, up to 24:00."
    )

    def make(self, values: dict[str, Any]) -> Shift:
        """The shift, each of its days once."""
        return Shift(days=tuple(dict.fromkeys(values["days"])), starts=values["starts"], ends=values["ends"])


class HandsSchema(Document):
    """How many hands each task has; of `mix`, at each station."""

    makes = Hands
    prepare = _hands(Task.PREPARE)
    saw = _hands(Task.SAW)
    chase = _hands(Task.CHASE)
    patch = _hands(Task.PATCH)
    cove = _hands(Task.COVE)
    mix = _hands(Task.MIX, where="At each station; ")
    place = _hands(Task.PLACE)
    roll = _hands(Task.ROLL)
    cast = _hands(Task.CAST)
    clear = _hands(Task.CLEAR)
    coat = _hands(Task.COAT)
    abrade = _hands(Task.ABRADE)
    seal = _hands(Task.SEAL)


class CrewSchema(Document):
    """Who does the work, and how fast."""

    makes = Crew
    mixing_stations = Whole(1, 50, about="How many mix at once; 1 unless given.")
    minutes_per_mix = Number(
        0.5, 120, about="From one mix to the next at a station; the product's mixing time and 1.5 more unless given."
    )
    placing_rate = _rate(Kind.AREA_RATE, "placing_rate_m2_s", about="Of the body; 600 ft2/h unless given.")
    lane_depth = Measure(
        Kind.LENGTH, "10 cm", "30 m", attribute="lane_depth_m", about="How far each lane goes on; 3 ft unless given."
    )
    lane_width = Measure(
        Kind.LENGTH,
        "10 cm",
        "10 km",
        attribute="lane_width_m",
        about="The widest lane; a wider room is poured in strips.",
    )
    coating_rate = _rate(Kind.AREA_RATE, "coating_rate_m2_s", about="Of primers and coats; 1,000 ft2/h unless given.")
    clearing_rate = _rate(Kind.AREA_RATE, "clearing_rate_m2_s", about="Of loose aggregate; 2,000 ft2/h unless given.")
    prepare_rate = _rate(
        Kind.AREA_RATE,
        "prepare_rate_m2_s",
        about="Of the slab, cutouts in it; 300 ft2/h unless given. `work.preparation` stands for it.",
    )
    saw_rate = _rate(Kind.LENGTH_RATE, "saw_rate_m_s", about="Of keyway; 60 ft/h unless given.")
    chase_rate = _rate(
        Kind.LENGTH_RATE,
        "chase_rate_m_s",
        about="Of cracks and filled joints, opened and filled; 30 ft/h unless given.",
    )
    patch_rate = _rate(Kind.AREA_RATE, "patch_rate_m2_s", about="Of spalls, patched; 20 ft2/h unless given.")
    cove_rate = _rate(Kind.LENGTH_RATE, "cove_rate_m_s", about="Of cove; 20 ft/h unless given.")
    cast_rate = _rate(Kind.MASS_RATE, "cast_rate_kg_s", about="Of aggregate; 900 lb/h unless given.")
    seal_rate = _rate(
        Kind.LENGTH_RATE,
        "seal_rate_m_s",
        about="Of moving joints, sealed; 60 ft/h unless given.",
    )
    people = Whole(1, 200, about="How many there are; without it nobody is found too few.")
    hands = Object(HandsSchema, about="People of each task; the usual ones unless given.")
    hourly_cost = Money(about="Of one person, in the catalogue's currency; it prices the labour beside the order.")


class WorkSchema(Document):
    """When and how the work is done."""

    makes = Work
    start = Moment(about="Without an offset, in `zone`.")
    zone = Zone(about="IANA name; UTC unless given.")
    temperatures = Object(
        TemperaturesSchema,
        about="Of the floor through the work; the slab's, else the air's, else the system's reference unless given.",
    )
    material_temperature = Measure(
        Kind.TEMPERATURE,
        *TEMPERATURE,
        attribute="material_temperature_k",
        about="As it is mixed; the system's reference temperature unless given.",
    )
    shifts = Items(
        Object(ShiftSchema),
        least=1,
        most=50,
        about=(
            f"When work goes on; Monday to Friday 07:00 to 15:30 unless given. At most {MOST_SHIFTS_A_DAY} start on a"
            " weekday."
        ),
    )
    round_the_clock = Flag(about="Work goes on at all hours; not together with `shifts`.")
    closed = Items(Day(), most=1000, about="Days without work.")
    crew = Object(CrewSchema, about="Rates and people; common ones unless given, each told as an assumption.")
    preparation = Measure(
        Kind.DURATION,
        "0 h",
        "2000 h",
        attribute="preparation_s",
        about="Work on the slab before all else; its area by `crew.prepare_rate` unless given. `0 h` is none.",
    )
    reopen_by = Moment(about="When the traffic asked must be back. Without an offset, in `zone`.")
    traffic = Text(64, about="The class of traffic that must be back; the system's last unless given.")

    def make(self, values: dict[str, Any]) -> Work:
        """The work."""
        if values.get("round_the_clock") and "shifts" in values:
            raise ValidationError({"shifts": [Finding("shifts-round-the-clock")]})
        starts = Counter(day for shift in values.get("shifts", ()) for day in shift.days)
        if starts and max(starts.values()) > MOST_SHIFTS_A_DAY:
            busiest = starts.most_common(1)[0][0]
            raise ValidationError({"shifts": [Finding("shifts-a-day", busiest.value, {"most": MOST_SHIFTS_A_DAY})]})
        return Work(**values)
