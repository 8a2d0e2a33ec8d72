"""The moisture tests of a slab: what was measured, which readings count, and how many the area needs."""

from __future__ import annotations

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.readiness.moisture_limit import MoistureLimit, moisture_limit
from gaugerake.floor.job import EmissionReading, HumidityReading
from gaugerake.floor.slab.moisture import deep_enough, dish_emission, exposure_counts, probe_depth
from gaugerake.floor.values.frozen import dataclass

EMISSION, HUMIDITY = "moisture-emission", "relative-humidity"


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureReading:
    """One reading [kg/(m²·s) or %], None for half a dish; ``in_order`` is False where it was taken wrongly.

    ``room`` is where it was taken, None where that is not said.
    """

    value: float | None
    in_order: bool
    room: str | None

    @property
    def counts(self) -> bool:
        """Whether it is one of the tests that the area needs."""
        return self.in_order and self.value is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureTests:
    """The tests of one kind; ``limited`` is None where the system states no limit of it.

    ``active`` tells whether the kind is checked: where the system takes either, the one that nobody did is not.
    """

    name: str
    limited: MoistureLimit | None
    active: bool
    readings: tuple[MoistureReading, ...]

    @property
    def limit(self) -> float | None:
        """The limit that holds."""
        return None if self.limited is None else self.limited.holds

    @property
    def counted(self) -> int:
        """How many of the readings count."""
        return sum(reading.counts for reading in self.readings)

    @property
    def rooms(self) -> frozenset[str]:
        """The rooms of the readings that count."""
        return frozenset(one.room for one in self.readings if one.counts and one.room is not None)


def moisture_tests(resolved: ResolvedJob, needed_depth_m: float | None) -> tuple[MoistureTests, MoistureTests]:
    """Emission and humidity; of a kind for which the system states no limit the readings are left out.

    Raises
    ------
    Refused
        When a limit depends on the layers that take part, and the job names one that is not there.
    """
    limits, slab = resolved.system.slab_limits, resolved.slab
    emission_limit = moisture_limit(
        resolved, limits.moisture_emission_kg_m2_s, lambda raised: raised.moisture_emission_kg_m2_s
    )
    humidity_limit = moisture_limit(
        resolved, limits.relative_humidity_percent, lambda raised: raised.relative_humidity_percent
    )
    emission = () if emission_limit is None else tuple(map(_emission, slab.moisture_emission))
    humidity = (
        () if humidity_limit is None else tuple(_humidity(given, needed_depth_m) for given in slab.relative_humidity)
    )
    either = emission_limit is not None and humidity_limit is not None
    return (
        MoistureTests(
            name=EMISSION,
            limited=emission_limit,
            active=emission_limit is not None and not (either and humidity and not emission),
            readings=emission,
        ),
        MoistureTests(
            name=HUMIDITY,
            limited=humidity_limit,
            active=humidity_limit is not None and not (either and emission and not humidity),
            readings=humidity,
        ),
    )


def needed_depth(resolved: ResolvedJob) -> float | None:
    """How deep probes must sit in this slab [m]; None when its thickness is not known."""
    thickness_m = resolved.slab.thickness_m
    if thickness_m is None:
        return None
    return probe_depth(slab_thickness_m=thickness_m, dries_from=resolved.dries_from.value)


def _emission(given: EmissionReading) -> MoistureReading:
    hours = given.exposure_hours
    return MoistureReading(value=_rate(given), in_order=hours is None or exposure_counts(hours), room=given.room)


def _rate(given: EmissionReading) -> float | None:
    """The emission of a reading [kg/(m²·s)]: as given, or from its dish; None for half a dish."""
    if given.rate_kg_m2_s is not None:
        return given.rate_kg_m2_s
    if given.gain_kg is None or given.exposure_hours is None or given.area_m2 is None:
        return None
    return dish_emission(gain_kg=given.gain_kg, exposure_hours=given.exposure_hours, area_m2=given.area_m2)


def _humidity(given: HumidityReading, needed_m: float | None) -> MoistureReading:
    known = given.depth_m is not None and needed_m is not None
    shallow = known and not deep_enough(depth_m=given.depth_m or 0.0, needed_m=needed_m or 0.0)
    return MoistureReading(value=given.percent, in_order=not shallow, room=given.room)
