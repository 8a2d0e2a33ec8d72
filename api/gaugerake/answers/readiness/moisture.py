"""Moisture in the slab: damp, emission, humidity, the probes' depth, and whether there are tests enough."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Annotated

from gaugerake.answers.job.context import Context
from gaugerake.answers.readiness.base import (
    Check,
    CheckName,
    Limit,
    Reading,
    check_of,
    limit_of,
    number,
    say,
    untested,
    yes_or_no,
)
from gaugerake.answers.readiness.planned import total_area_m2
from gaugerake.floor.job import EmissionReading, HumidityReading
from gaugerake.floor.slab.moisture import (
    deep_enough,
    dish_emission,
    exposure_counts,
    moisture_test_count,
    near_emission_limit,
    near_humidity_limit,
    probe_depth,
)
from gaugerake.floor.slab.pull_off import TESTS, judge_pull_off
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Limits

EMISSION, HUMIDITY = "/slab/moisture_emission", "/slab/relative_humidity"


@dataclass(frozen=True, slots=True, kw_only=True)
class NeededTest:
    """How many tests of a kind the whole floor needs, and how many were given that count."""

    test: Annotated[CheckName, "moisture-emission, relative-humidity or pull-off"]
    needed: Annotated[int, "0 when the other kind of moisture test suffices."]
    given: Annotated[
        int, "Those that count: not a dish out of its hours, a probe too shallow or a failure in the glue."
    ]
    missing: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of moisture test: whether it is a check of this job, its readings, and which of them count."""

    name: CheckName
    pointer: str
    stated: bool
    active: bool
    readings: tuple[Reading, ...]
    counts: tuple[bool, ...]

    @property
    def counted(self) -> int:
        """How many of the readings count."""
        return sum(self.counts)


def damp_check(context: Context) -> Check:
    """A plastic sheet taped down overnight, dry beneath."""
    return yes_or_no(CheckName.DAMP, seen=context.job.slab.damp, good=False, pointer="/slab/damp")


def moisture_kinds(context: Context) -> tuple[Kind, Kind]:
    """Both kinds of moisture test. Where the system takes either, the one that nobody did is no check."""
    limits = context.system.slab_limits
    emission_limit, humidity_limit = limits.moisture_emission_kg_m2_s, limits.relative_humidity_percent
    either = emission_limit is not None and humidity_limit is not None
    emission = [] if emission_limit is None else _emission_readings(context, emission_limit)
    humidity = [] if humidity_limit is None else _humidity_readings(context, humidity_limit)
    return (
        Kind(
            name=CheckName.MOISTURE_EMISSION,
            pointer=EMISSION,
            stated=emission_limit is not None,
            active=emission_limit is not None and not (either and humidity and not emission),
            readings=tuple(reading for reading, _ in emission),
            counts=tuple(counts for _, counts in emission),
        ),
        Kind(
            name=CheckName.RELATIVE_HUMIDITY,
            pointer=HUMIDITY,
            stated=humidity_limit is not None,
            active=humidity_limit is not None and not (either and emission and not humidity),
            readings=tuple(reading for reading, _ in humidity),
            counts=tuple(counts for _, counts in humidity),
        ),
    )


def emission_rate(reading: EmissionReading) -> float | None:
    """The emission of a reading [kg/(m²·s)]: as given, or from its dish; None for half a dish."""
    if reading.rate_kg_m2_s is not None:
        return reading.rate_kg_m2_s
    if reading.gain_kg is None or reading.exposure_hours is None or reading.area_m2 is None:
        return None
    return dish_emission(gain_kg=reading.gain_kg, exposure_hours=reading.exposure_hours, area_m2=reading.area_m2)


def _emission_readings(context: Context, limit: float) -> list[tuple[Reading, bool]]:
    """Each emission, judged, and whether it counts."""
    found = []
    for index, given in enumerate(context.job.slab.moisture_emission):
        pointer, rate = f"{EMISSION}/{index}", emission_rate(given)
        hours = given.exposure_hours
        in_hours = hours is None or exposure_counts(hours)
        reading = _moisture_reading(CheckName.MOISTURE_EMISSION, index, rate, "moisture-emission", limit, pointer)
        if not in_hours:
            context.record.caution("dish-exposure", pointer, Figure(float(hours or 0) * 3600, "duration"))
            reading = _not_counted(reading, "check-moisture-emission-exposure", "do-moisture-emission-exposure")
        if rate is not None and in_hours and near_emission_limit(rate_kg_m2_s=rate, limit_kg_m2_s=limit):
            context.record.caution("near-limit", pointer, reading.measured, limit=Figure(limit, "moisture-emission"))
        found.append((reading, in_hours and rate is not None))
    return found


def _humidity_readings(context: Context, limit: float) -> list[tuple[Reading, bool]]:
    """Each humidity, judged, and whether it counts."""
    found = []
    for index, given in enumerate(context.job.slab.relative_humidity):
        pointer, percent = f"{HUMIDITY}/{index}", given.percent
        shallow = _shallow(given, context.shared(needed_depth))
        reading = _moisture_reading(CheckName.RELATIVE_HUMIDITY, index, percent, "percent", limit, pointer)
        if shallow:
            reading = _not_counted(reading, "check-relative-humidity-shallow", "do-relative-humidity-shallow")
        elif near_humidity_limit(humidity_percent=percent, limit_percent=limit):
            context.record.caution("near-limit", pointer, reading.measured, limit=Figure(limit, "percent"))
        found.append((reading, not shallow))
    return found


def _moisture_reading(
    name: CheckName, index: int, value: float | None, kind: str, limit: float, pointer: str
) -> Reading:
    return number(
        name, value=value, kind=kind, limits=Limits(high=limit), pointer=pointer, bad=Verdict.STOP, number=index + 1
    )


def _not_counted(reading: Reading, because: str, do: str) -> Reading:
    """A reading that was taken wrongly: it can stop the work, but it cannot let it go on."""
    if reading.verdict is not Verdict.GO:
        return reading
    return replace(
        reading,
        verdict=Verdict.UNTESTED,
        because=replace(reading.because, code=because),
        do=replace(reading.because, code=do),
    )


def _shallow(given: HumidityReading, needed_m: float | None) -> bool:
    known = given.depth_m is not None and needed_m is not None
    return known and not deep_enough(depth_m=given.depth_m or 0.0, needed_m=needed_m or 0.0)


def needed_depth(context: Context) -> float | None:
    """How deep probes must sit in this slab [m]; None when its thickness is not known."""
    slab = context.job.slab
    if slab.thickness_m is None:
        if slab.relative_humidity:
            context.record.lack("slab-thickness-unsaid", "/slab/thickness")
        return None
    dries_from = context.take(context.resolved.dries_from)
    return probe_depth(slab_thickness_m=slab.thickness_m, dries_from=dries_from)


def emission_check(context: Context) -> Check | None:
    """The worst emission against the limit."""
    kind = context.shared(moisture_kinds)[0]
    limit = context.system.slab_limits.moisture_emission_kg_m2_s
    return _worst_check(kind, limit_of(Limits(high=limit), "moisture-emission"))


def humidity_check(context: Context) -> Check | None:
    """The worst humidity against the limit."""
    kind = context.shared(moisture_kinds)[1]
    limit = context.system.slab_limits.relative_humidity_percent
    return _worst_check(kind, limit_of(Limits(high=limit), "percent"))


def _worst_check(kind: Kind, limit: Limit) -> Check | None:
    """One that stops decides; else the worst of those that count; else one that does not count."""
    if not kind.active:
        return None
    for verdict in (Verdict.STOP, Verdict.GO, Verdict.UNTESTED):
        found = [reading for reading in kind.readings if reading.verdict is verdict]
        if found:
            return check_of(kind.name, max(found, key=_height), limit=limit, readings=kind.readings)
    return check_of(kind.name, untested(kind.name, kind.pointer), limit=limit)


def _height(reading: Reading) -> float:
    return reading.measured.value if isinstance(reading.measured, Figure) else 0.0


def probe_depth_check(context: Context) -> Check | None:
    """Whether every probe sits deep enough."""
    if not context.shared(moisture_kinds)[1].active:
        return None
    needed, probes = context.shared(needed_depth), context.job.slab.relative_humidity
    name = CheckName.PROBE_DEPTH
    limit = None if needed is None else limit_of(Limits(low=needed), "small-length")
    if needed is None:
        return check_of(name, replace(untested(name, "/slab/thickness"), because=say("check-probe-depth-thickness")))
    shown = Figure(needed, "small-length")
    if not probes:
        return check_of(name, untested(name, HUMIDITY, needed=shown), limit=limit)
    readings = [_probe(index, probe, needed) for index, probe in enumerate(probes)]
    decisive = max(readings, key=lambda reading: (reading.verdict is Verdict.UNTESTED, -_height(reading)))
    return check_of(name, decisive, limit=limit, readings=readings)


def _probe(index: int, probe: HumidityReading, needed_m: float) -> Reading:
    name, pointer = CheckName.PROBE_DEPTH, f"{HUMIDITY}/{index}/depth"
    needed, depth = Figure(needed_m, "small-length"), probe.depth_m
    if depth is None:
        unsaid = untested(name, pointer, needed=needed)
        return replace(unsaid, because=say("check-probe-depth-unsaid", number=index + 1))
    deep = deep_enough(depth_m=depth, needed_m=needed_m)
    figure = Figure(depth, "small-length")
    return Reading(
        pointer=pointer,
        measured=figure,
        verdict=Verdict.GO if deep else Verdict.UNTESTED,
        because=say(
            "check-probe-depth-within" if deep else "check-probe-depth-below",
            number=index + 1,
            measured=figure,
            needed=needed,
        ),
        do=None if deep else say("do-probe-depth-below", needed=needed),
    )


def tests_needed(context: Context) -> tuple[NeededTest, ...]:
    """Moisture tests for the whole area and pull-off tests, of those for which the system states a limit."""
    found = [*_moisture_tests(context)]
    limit = context.system.slab_limits.pull_off_pa
    if limit is not None:
        counted = judge_pull_off(tests=context.job.slab.pull_off, limit_pa=limit).counted
        found.append(_needed(CheckName.PULL_OFF, TESTS, counted))
    return tuple(found)


def _moisture_tests(context: Context) -> Sequence[NeededTest]:
    kinds = context.shared(moisture_kinds)
    if not any(kind.stated for kind in kinds):
        return ()
    count = moisture_test_count(total_area_m2(context))
    enough = any(kind.active and kind.counted >= count for kind in kinds)
    # where either kind will do, one in full number leaves nothing to be asked of the other
    return tuple(
        _needed(kind.name, 0 if not kind.active or (enough and kind.counted < count) else count, kind.counted)
        for kind in kinds
        if kind.stated
    )


def _needed(name: CheckName, needed: int, given: int) -> NeededTest:
    return NeededTest(test=name, needed=needed, given=given, missing=max(0, needed - given))


def test_count_check(context: Context) -> Check | None:
    """Whether there are moisture tests enough for the area, of either kind where the system takes either."""
    active = [kind for kind in context.shared(moisture_kinds) if kind.active]
    if not active:
        return None
    count = moisture_test_count(total_area_m2(context))
    best = max(active, key=lambda kind: kind.counted)
    finding = _count_finding(context, best.counted >= count, len(active) > 1)
    enough = finding == "within"
    given, needed = Figure(best.counted, "count"), Figure(count, "count")
    figures = {"given": given, "needed": needed, "more": Figure(max(0, count - best.counted), "count")}
    reading = Reading(
        pointer="/rooms" if finding == "area" else best.pointer,
        measured=given,
        verdict=Verdict.GO if enough else Verdict.UNTESTED,
        because=say(f"check-test-count-{finding}", **figures),
        do=None if enough else say(f"do-test-count-{finding}", **figures),
    )
    return check_of(CheckName.TEST_COUNT, reading, limit=limit_of(Limits(low=float(count)), "count"))


def _count_finding(context: Context, full: bool, either: bool) -> str:
    if full:
        return "within" if context.job.rooms else "area"
    return "either" if either else "below"
