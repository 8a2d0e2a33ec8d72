"""Jobs of one invented body for the tests of the pour plan, and how a remedy is put into a job."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import UTC, datetime, time
from functools import reduce
from typing import Any

from tests import builders
from tests.asked import Asked, pour_plan
from tests.builders import (
    FT,
    FT2,
    FT3,
    HOUR,
    MINUTE,
    POUND,
    aggregate,
    curve,
    fahrenheit,
    liquid,
    mixes,
    system,
    triple,
)

from gaugerake.answers.pour_plan.answer import PourPlan
from gaugerake.answers.pour_plan.change import AnyRemedy, PourChange, PourRemedy
from gaugerake.answers.return_times.change import SteadyValue
from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.job import Crew, Daily, Job, Rectangle, Room, Shift, Steady, Weekday, Work
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.system import System, Thickness
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.range import Limits

RATE = FT2 / HOUR  # 1 ft²/h


def in_minutes(*rows: tuple[float, float, float]) -> TimeCurve:
    """(°F, low minutes, high minutes), rising in temperature."""
    return curve(*rows, unit_s=MINUTE)


# a mix covers 24 ft² at 3/16 in: 0.375 ft³; open 30 min at 50 °F, 15 at 70, 7 at 90
BODY = mixes(
    yield_m3=triple(0.36 * FT3, 0.375 * FT3, 0.39 * FT3),
    mixing_s=150.0,
    open_time=in_minutes((50, 30, 40), (70, 15, 20), (90, 7, 10)),
    temperature_k=Limits(low=fahrenheit(45), high=fahrenheit(95)),
)
SAND, CLEAR = aggregate(), liquid()
CURE = in_minutes((50, 900, 1200), (70, 480, 600), (90, 240, 300))
SAND_RATE = triple(2.0, 2.5, 3.0)
WAIT = in_minutes((50, 16, 24), (70, 10, 14), (90, 6, 9))
LEVEL = system(
    BodyLayer(id="body", name="Body coat", product=BODY, broadcast_wait=WAIT),
    BroadcastLayer(id="broadcast", name="Broadcast", product=SAND, cure=CURE, rate_kg_m2=SAND_RATE),
    code="level",
    reference_temperature_k=fahrenheit(70),
    thickness=Thickness(low_m=0.004, usual_m=FT / 64, high_m=0.01),
)
WEEK = tuple(Weekday)
CREW = Crew(mixing_stations=2, minutes_per_mix=4.0, placing_rate_m2_s=900 * RATE, lane_depth_m=3 * FT)
HALL = Room(shape=Rectangle(length_m=60 * FT, width_m=40 * FT), name="Hall")
STORE = Room(shape=Rectangle(length_m=30 * FT, width_m=20 * FT), name="Store")
WORK = Work(
    start=datetime.fromisoformat("2027-03-05T06:00"),
    zone="America/Chicago",
    temperatures=Steady(temperature_k=fahrenheit(70)),
    material_temperature_k=fahrenheit(70),
    shifts=(Shift(days=WEEK, starts=time(6, 0), ends=time(15, 0)),),
    preparation_s=0.0,
    crew=CREW,
)


def context(*rooms: Room, work: Work = WORK, system: System = LEVEL, with_working: bool = False) -> Asked:
    job = Job(system=system.code, rooms=rooms or (HALL,), work=work)
    return builders.context(job, system, working=with_working)


def plan(*rooms: Room, work: Work = WORK, system: System = LEVEL) -> PourPlan:
    return pour_plan(context(*rooms, work=work, system=system))


def cautions(*rooms: Room, work: Work = WORK, system: System = LEVEL) -> dict[str, str | None]:
    asked = context(*rooms, work=work, system=system)
    pour_plan(asked)
    render(asked.record.cautions, US_READER)  # every sentence has what it asks for
    return {note.code: note.pointer for note in asked.record.cautions if note.code.startswith("pour-")}


def with_crew(**changes: Any) -> Work:
    return replace(WORK, crew=replace(CREW, **changes))


def apply(work: Work, pointer: str, value: Any) -> Work:
    """The work with a remedy's value put at its pointer."""
    field = pointer.removeprefix("/work/")
    number = value.value if isinstance(value, Figure) else value
    if field == "crew":
        names = {"placing_rate": "placing_rate_m2_s", "lane_depth": "lane_depth_m", "lane_width": "lane_width_m"}
        members = {
            names.get(name, name): member.value if isinstance(member, Figure) else member
            for name, member in value.items()
        }
        return replace(work, crew=Crew(**members))
    if field.startswith("crew/"):
        name = {
            "mixing_stations": "mixing_stations",
            "placing_rate": "placing_rate_m2_s",
            "cast_rate": "cast_rate_kg_s",
            "people": "people",
            "lane_width": "lane_width_m",
        }[field.removeprefix("crew/")]
        return replace(work, crew=replace(work.crew, **{name: number}))
    if field == "temperatures":
        return replace(work, temperatures=Steady(temperature_k=value.steady.value))
    name = {"material_temperature": "material_temperature_k", "start": "start"}[field]
    return replace(work, **{name: number})


STEPS_BACK: dict[str, Callable[[Any], list[Any]]] = {
    "mixing-stations": lambda value: [value - 1],
    "placing": lambda value: [Figure(value.value - 50 * RATE, value.kind)],
    "casting": lambda value: [Figure(value.value - 100 * POUND / HOUR, value.kind)],
    "people": lambda value: [value - 1],
    "stations-and-placing": lambda value: [
        value | {"mixing_stations": value["mixing_stations"] - 1},
        value | {"placing_rate": Figure(value["placing_rate"].value - 50 * RATE, Kind.AREA_RATE)},
    ],
    "narrower-pour": lambda value: [Figure(value.value + 0.5 * FT, value.kind)],
    "cooler-material": lambda value: [Figure(value.value + 5 / 9, value.kind)],
    "cooler-floor": lambda value: [SteadyValue(steady=Figure(value.steady.value + 5 / 9, Kind.TEMPERATURE))],
    "later-start": lambda value: [datetime.fromtimestamp(value.timestamp() - 3600, tz=UTC)],
    "earlier-start": lambda value: [datetime.fromtimestamp(value.timestamp() + 3600, tz=UTC)],
}

SLOW_MIXING = with_crew(mixing_stations=1)
SLOW_HANDS = with_crew(placing_rate_m2_s=400 * RATE)
SLOW_BOTH = with_crew(mixing_stations=1, placing_rate_m2_s=360 * RATE)
SLOW_CASTING = with_crew(cast_rate_kg_s=200 * POUND / HOUR)
"""Sand of 2.5 kg/m² and 5 % of waste for 24 ft² are 12.9 lb, cast in 3.87 min: a mix is made every 2."""
TOO_FEW = with_crew(people=4)
"""Two mix, one places, one rolls and one casts: five."""
HOT_MATERIAL = replace(WORK, material_temperature_k=fahrenheit(88))
HOT_FLOOR = replace(WORK, temperatures=Steady(temperature_k=fahrenheit(88)))
HOT_DAY = replace(
    WORK,
    start=datetime.fromisoformat("2027-03-05T11:00"),
    temperatures=Daily(low_k=fahrenheit(58), high_k=fahrenheit(88), coldest_at=time(5, 0)),
)
CASES = {
    "slow mixing": SLOW_MIXING,
    "slow hands": SLOW_HANDS,
    "slow at both": SLOW_BOTH,
    "slow casting": SLOW_CASTING,
    "too few": TOO_FEW,
    "hot material": HOT_MATERIAL,
    "hot floor": HOT_FLOOR,
    "hot day": HOT_DAY,
}


def changes(remedy: AnyRemedy) -> list[PourChange]:
    """All that a remedy changes."""
    if isinstance(remedy, PourRemedy):
        return [PourChange(kind=remedy.kind, pointer=remedy.pointer, value=remedy.value)]
    return [PourChange(kind=remedy.first, pointer=remedy.pointer, value=remedy.value), *remedy.also]


def with_changes(work: Work, made: Iterable[PourChange]) -> Work:
    return reduce(lambda work, change: apply(work, change.pointer, change.value), made, work)


def with_remedy(work: Work, remedy: AnyRemedy) -> Work:
    """The work with all that a remedy changes."""
    return with_changes(work, changes(remedy))


def with_a_step_less(work: Work, remedy: AnyRemedy) -> Iterator[Work]:
    """The work with a remedy of which one change is taken a step less far, for each of its changes."""
    made = changes(remedy)
    for index, change in enumerate(made):
        for less in STEPS_BACK[change.kind](change.value):
            yield with_changes(work, [*made[:index], replace(change, value=less), *made[index + 1 :]])


def is_too_late(found: PourPlan) -> bool:
    """Whether some edge needs more than its open time.

    A figure that was shown to six digits and comes back loses no edge, so the answer holds an edge up to 1e-5 over its
    open time (``EDGE_GUARD``). A step that holds by that alone is not the least: it is no remedy at all.
    """
    return found.feasible is False or any(
        pour.open_time is not None and pour.needed.value > pour.open_time.value for pour in found.pours
    )


def as_shown(remedy: AnyRemedy, reader: Any) -> AnyRemedy:
    """The remedy with its values as they stand in the answer, read back."""

    def read(value: Any) -> Any:
        if isinstance(value, SteadyValue):
            return SteadyValue(steady=read(value.steady))
        if isinstance(value, dict):
            return {name: read(member) for name, member in value.items()}
        if not isinstance(value, Figure):
            return value
        shown, _ = reader.units.show(value.value, value.kind)
        one, _ = reader.units.show(1.0, value.kind)
        zero, _ = reader.units.show(0.0, value.kind)
        return Figure((shown - zero) / (one - zero), value.kind)

    if isinstance(remedy, PourRemedy):
        return replace(remedy, value=read(remedy.value))
    also = tuple(replace(change, value=read(change.value)) for change in remedy.also)
    return replace(remedy, value=read(remedy.value), also=also)
