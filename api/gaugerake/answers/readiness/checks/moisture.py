"""Moisture in the slab: damp, emission, humidity, the probes' depth, and whether there are tests enough."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.remarks import Remark, caution, missing
from gaugerake.answers.job.sources import JOB, system_source
from gaugerake.answers.readiness.derivation import Derivation, as_listed, as_stated_reading, numbered
from gaugerake.answers.readiness.entry import CheckEntry
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import Finding, Reading, limit_of, make_finding
from gaugerake.answers.readiness.moisture_tests import MoistureTests
from gaugerake.floor.job import HumidityReading
from gaugerake.floor.slab.moisture import deep_enough, near_emission_limit, near_humidity_limit
from gaugerake.floor.slab.verdict import Verdict, at_most
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.range import Limits

EMISSION_AT, HUMIDITY_AT = "/slab/moisture_emission", "/slab/relative_humidity"
DISH_TEST, PROBE_TEST = "ASTM F1869", "ASTM F2170"


def damp_check(entry: CheckEntry, facts: Facts) -> Finding:
    """A plastic sheet taped down overnight, dry beneath."""
    return entry.yes_or_no(seen=facts.slab.damp, good=False, pointer="/slab/damp")


def emission_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The worst emission against the limit."""
    return _worst(entry, facts.emission, Kind.MOISTURE_EMISSION, EMISSION_AT, "exposure")


def humidity_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The worst humidity against the limit."""
    return _worst(entry, facts.humidity, Kind.PERCENT, HUMIDITY_AT, "shallow")


def _worst(entry: CheckEntry, tests: MoistureTests, kind: Kind, pointer: str, wrong: str) -> Finding | None:
    """One over the limit decides; else the worst of those that count; else one that does not count."""
    if not tests.active:
        return None
    limits = Limits(high=tests.limit)
    limit, readings = limit_of(limits, kind), tuple(_readings(entry, tests, kind, pointer, wrong))
    for verdict in (Verdict.STOP, Verdict.FIX, Verdict.GO, Verdict.UNTESTED):
        found = [reading for reading in readings if reading.verdict is verdict]
        if found:
            return make_finding(decisive=max(found, key=_height), limit=limit, readings=readings)
    return make_finding(decisive=entry.untested(pointer), limit=limit)


def _readings(entry: CheckEntry, tests: MoistureTests, kind: Kind, pointer: str, wrong: str) -> Iterator[Reading]:
    """Each reading, judged; one that was taken wrongly can stop the work, but it cannot let it go on."""
    limits = Limits(high=tests.limit)
    for index, given in enumerate(tests.readings):
        reading = entry.number(
            value=given.value,
            kind=kind,
            limits=limits,
            pointer=f"{pointer}/{index}",
            bad=Verdict.STOP,
            number=index + 1,
            taken_in=given.room,
        )
        if not given.in_order and reading.verdict is Verdict.GO:
            figures = reading.because.params
            because, do = entry.why(wrong, **figures), entry.remedy(wrong, **figures)
            reading = replace(reading, verdict=Verdict.UNTESTED, because=because, do=do)
        yield _mended(entry, reading, tests, kind)


def _mended(entry: CheckEntry, reading: Reading, tests: MoistureTests, kind: Kind) -> Reading:
    """A reading over the limit is mended by a layer that does not take part and goes up to it."""
    if reading.verdict is not Verdict.STOP or tests.limited is None:
        return reading
    offer = tests.limited.offer_for(_height(reading))
    if offer is None:
        return reading
    figures = {**reading.because.params, "layer": offer.layer.name, "raised": Figure(offer.to, kind)}
    because, do = entry.why("raised", **figures), entry.remedy("raised", **figures)
    return replace(reading, verdict=Verdict.FIX, because=because, do=do)


def _height(reading: Reading) -> float:
    return reading.measured.value if isinstance(reading.measured, Figure) else 0.0


def emission_remarks(facts: Facts) -> Iterator[Remark]:
    """Dishes that stood too short or too long, and emissions just within the limit."""
    yield from _layer_remarks(facts, facts.emission)
    limit = facts.emission.limit or 0.0
    shown = Figure(limit, Kind.MOISTURE_EMISSION)
    for index, (given, dish) in enumerate(zip(facts.emission.readings, facts.slab.moisture_emission, strict=True)):
        pointer, rate = f"{EMISSION_AT}/{index}", given.value
        if not given.in_order:
            hours = float(dish.exposure_hours or 0)
            over = None if rate is None or at_most(value=rate, high=limit) else Say(code="dish-over-limit")
            yield caution("dish-exposure", pointer, Figure(hours * 3600, Kind.DURATION), hours=hours, over=over)
        elif rate is not None and near_emission_limit(rate_kg_m2_s=rate, limit_kg_m2_s=limit):
            yield caution("near-limit", pointer, Figure(rate, Kind.MOISTURE_EMISSION), limit=shown)


def humidity_remarks(facts: Facts) -> Iterator[Remark]:
    """What the probes' depth rests on, and humidities just within the limit."""
    yield from _layer_remarks(facts, facts.humidity)
    if facts.slab.thickness_m is not None:
        yield from facts.resolved.dries_from.remarks
    elif facts.humidity.readings:
        yield missing("slab-thickness-unsaid", "/slab/thickness")
    limit = facts.humidity.limit or 0.0
    for index, given in enumerate(facts.humidity.readings):
        percent = given.value or 0.0
        if given.in_order and near_humidity_limit(humidity_percent=percent, limit_percent=limit):
            pointer, measured = f"{HUMIDITY_AT}/{index}", Figure(percent, Kind.PERCENT)
            yield caution("near-limit", pointer, measured, limit=Figure(limit, Kind.PERCENT))


def _layer_remarks(facts: Facts, tests: MoistureTests) -> Iterator[Remark]:
    """A remark on an optional layer that the job does not take, where it would raise the limit."""
    if tests.limited is not None and tests.limited.offers:
        yield from facts.resolved.layers.remarks


def emission_limit_from(facts: Facts, limit: Figure) -> Derivation:
    """As the system states it, or as a layer raises it."""
    return _limit_from(facts, facts.emission, limit)


def humidity_limit_from(facts: Facts, limit: Figure) -> Derivation:
    """As the system states it, or as a layer raises it."""
    return _limit_from(facts, facts.humidity, limit)


def _limit_from(facts: Facts, tests: MoistureTests, limit: Figure) -> Derivation:
    limited = tests.limited
    if limited is None or limited.raised is None:
        return as_listed(facts, limit)
    inputs: Inputs = {
        "listed": Figure(limited.listed, limit.kind),
        "layer": limited.raised.layer.name,
        "raised": Figure(limited.raised.to, limit.kind),
    }
    return Derivation("rule-limit-raised", inputs, system_source(facts.resolved.system.code))


def wettest_emission(facts: Facts, finding: Finding) -> Derivation:
    """The working of the emission that decides the check."""
    return _wettest(facts.emission, finding)


def wettest_humidity(facts: Facts, finding: Finding) -> Derivation:
    """The working of the humidity that decides the check."""
    return _wettest(facts.humidity, finding)


def _wettest(tests: MoistureTests, finding: Finding) -> Derivation:
    inputs: Inputs = {"limit": None if finding.limit is None else finding.limit.high}
    inputs |= numbered(reading.measured for reading in finding.readings)
    return Derivation("rule-wettest", inputs | counts_of(tests))


def counts_of(tests: MoistureTests) -> Inputs:
    """Whether each reading of a kind of moisture test counts as given."""
    return {f"reading_{number}_counts": reading.counts for number, reading in enumerate(tests.readings, 1)}


def emission_from(facts: Facts, finding: Finding, index: int) -> Derivation | None:
    """The working of an emission: from its dish, unless its rate was given."""
    dish = facts.slab.moisture_emission[index]
    if dish.rate_kg_m2_s is not None or dish.gain_kg is None:
        return as_stated_reading(facts, finding, index)
    inputs: Inputs = {
        "gain": Figure(dish.gain_kg, Kind.SMALL_MASS),
        "exposure": Figure((dish.exposure_hours or 0.0) * 3600, Kind.DURATION),
        "area": Figure(dish.area_m2 or 0.0, Kind.SMALL_AREA),
    }
    return Derivation("rule-dish", inputs, DISH_TEST)


def probe_depth_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """Whether every probe sits deep enough."""
    if not facts.humidity.active:
        return None
    needed_m, probes = facts.needed_depth_m, facts.slab.relative_humidity
    if needed_m is None:
        unknown = replace(entry.untested("/slab/thickness"), because=entry.why("thickness"))
        return make_finding(decisive=unknown)
    limit = limit_of(Limits(low=needed_m), Kind.SMALL_LENGTH)
    if not probes:
        return make_finding(
            decisive=entry.untested(HUMIDITY_AT, needed=Figure(needed_m, Kind.SMALL_LENGTH)), limit=limit
        )
    readings = tuple(_probe(entry, index, probe, needed_m) for index, probe in enumerate(probes))
    decisive = max(readings, key=lambda reading: (reading.verdict is Verdict.UNTESTED, -_height(reading)))
    return make_finding(decisive=decisive, limit=limit, readings=readings)


def _probe(entry: CheckEntry, index: int, probe: HumidityReading, needed_m: float) -> Reading:
    pointer, number = f"{HUMIDITY_AT}/{index}/depth", index + 1
    needed, depth = Figure(needed_m, Kind.SMALL_LENGTH), probe.depth_m
    if depth is None:
        unsaid = entry.untested(pointer, needed=needed)
        return replace(unsaid, because=entry.why("unsaid", number=number), room=probe.room)
    deep = deep_enough(depth_m=depth, needed_m=needed_m)
    figure = Figure(depth, Kind.SMALL_LENGTH)
    return Reading(
        pointer=pointer,
        measured=figure,
        verdict=Verdict.GO if deep else Verdict.UNTESTED,
        because=entry.why("within" if deep else "below", number=number, measured=figure, needed=needed),
        do=None if deep else entry.remedy("below", needed=needed),
        room=probe.room,
    )


def shallowest(_facts: Facts, finding: Finding) -> Derivation:
    """The working of the depth of the probe that decides the check."""
    return Derivation("rule-shallowest", numbered(reading.measured for reading in finding.readings))


def depth_limit_from(facts: Facts, limit: Figure) -> Derivation:
    """A share of the slab's thickness."""
    thickness_m = facts.slab.thickness_m
    if thickness_m is None:
        return as_listed(facts, limit)
    share = Figure(100 * limit.value / thickness_m, Kind.PERCENT)
    inputs: Inputs = {"thickness": Figure(thickness_m, Kind.SMALL_LENGTH), "share": share}
    return Derivation("rule-probe-depth", inputs)


def test_count_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """Whether there are moisture tests enough for the area, of either kind where the system takes either."""
    active, count = [tests for tests in facts.moisture if tests.active], facts.needed_tests
    if not active or count is None:
        return None
    best = max(active, key=lambda tests: tests.counted)
    ending = _count_ending(facts, full=best.counted >= count, either=len(active) > 1)
    enough = ending == "within"
    given, needed = Figure(best.counted, Kind.COUNT), Figure(count, Kind.COUNT)
    figures = {"given": given, "needed": needed, "more": Figure(max(0, count - best.counted), Kind.COUNT)}
    at = EMISSION_AT if best is facts.emission else HUMIDITY_AT
    reading = Reading(
        pointer="/rooms" if ending == "area" else at,
        measured=given,
        verdict=Verdict.GO if enough else Verdict.UNTESTED,
        because=entry.why(ending, **figures),
        do=None if enough else entry.remedy(ending, **figures),
    )
    return make_finding(decisive=reading, limit=limit_of(Limits(low=float(count)), Kind.COUNT))


def _count_ending(facts: Facts, *, full: bool, either: bool) -> str:
    if full:
        return "within" if facts.resolved.rooms else "area"
    return "either" if either else "below"


def most_tests(facts: Facts, _finding: Finding) -> Derivation:
    """The larger count of the kinds that are checked."""
    return Derivation("rule-most-tests", {tests.name: tests.counted for tests in facts.moisture if tests.active}, JOB)


def count_limit_from(facts: Facts, _limit: Figure) -> Derivation:
    """The working of how many tests the area needs."""
    return Derivation("rule-test-count", {"area": Figure(facts.area_m2 or 0.0, Kind.AREA)})
