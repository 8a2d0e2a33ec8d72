"""What the drawing asks of the slab: its fall, its joints, the thickness to be placed."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark
from gaugerake.answers.job.sources import JOB
from gaugerake.answers.readiness.derivation import Derivation, ends, numbered
from gaugerake.answers.readiness.entry import CheckEntry
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import Finding, Reading, limit_of, make_finding
from gaugerake.answers.takeoff.room_remarks import joints_unsaid
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.range import Limits

JOINTS = "joints"


def slope_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The steepest room against what the body can be poured on without running."""
    limit = facts.limits.slope_percent
    if limit is None:
        return None
    limits, readings, unsaid = Limits(high=limit), [], None
    for room in facts.resolved.rooms:
        pointer, percent = f"{room.pointer}/slope_percent", room.slope_percent
        if percent is None:
            unsaid = unsaid or replace(entry.untested(pointer), room=room.name)
            continue
        judged = entry.number(value=percent, kind=Kind.PERCENT, limits=limits, pointer=pointer, room=room.name)
        readings.append(replace(judged, room=room.name))
    if unsaid is not None or not readings:
        readings.append(unsaid or entry.untested("/rooms"))
    decisive = max(readings, key=_steepness)
    shown = tuple(readings) if len(readings) > 1 else ()
    return make_finding(decisive=decisive, limit=limit_of(limits, Kind.PERCENT), readings=shown)


def _steepness(reading: Reading) -> tuple[int, float]:
    """Sorts too steep after not stated after flat enough, and the steeper last."""
    rank = {Verdict.FIX: 2, Verdict.UNTESTED: 1}.get(reading.verdict, 0)
    return rank, reading.measured.value if isinstance(reading.measured, Figure) else 0.0


def steepest(facts: Facts, _finding: Finding) -> Derivation:
    """The working of the steepest slope of the rooms."""
    slopes = (room.slope_percent for room in facts.resolved.rooms)
    said = (None if slope is None else Figure(slope, Kind.PERCENT) for slope in slopes)
    return Derivation("rule-steepest", numbered(said), JOB)


def joints_check(entry: CheckEntry, facts: Facts) -> Finding:
    """Whether anybody has looked for joints in the slab."""
    rooms = facts.resolved.rooms
    said = [index for index, room in enumerate(rooms) if room.joints is not None]
    if not said:
        return make_finding(decisive=entry.untested("/rooms/0/joints" if rooms else "/rooms"))
    count = sum(len(rooms[index].joints or ()) for index in said)
    reading = Reading(
        pointer=f"/rooms/{said[0]}/joints",
        measured=Figure(float(count), Kind.COUNT),
        verdict=Verdict.GO,
        because=entry.why("within" if count else "none", count=count),
        do=None,
    )
    return make_finding(decisive=reading)


def joints_remarks(facts: Facts) -> Iterator[Remark]:
    """A remark on each room whose joints nobody has listed."""
    for room in facts.resolved.rooms:
        if room.joints is None:
            yield joints_unsaid(facts.resolved.system, room)


def joints_from(facts: Facts, _finding: Finding) -> Derivation:
    """The working of the number of joints, from those of each room."""
    rooms = enumerate(facts.resolved.rooms, 1)
    return Derivation(
        "rule-joints-counted",
        {f"room_{number}": len(room.joints) for number, room in rooms if room.joints is not None},
        JOB,
    )


def thickness_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The thickness asked against what the system can be placed at; nothing asked, nothing to check."""
    thickness = facts.resolved.system.thickness
    if thickness is None or not facts.thicknesses_m:
        return None
    limits = Limits(low=thickness.low_m, high=thickness.high_m)
    readings = tuple(
        entry.number(value=value, kind=Kind.SMALL_LENGTH, limits=limits, pointer=pointer)
        for pointer, value in facts.thicknesses_m
    )
    decisive = next((reading for reading in readings if reading.verdict is Verdict.FIX), readings[0])
    shown = readings if len(readings) > 1 else ()
    return make_finding(decisive=decisive, limit=limit_of(limits, Kind.SMALL_LENGTH), readings=shown)


def thickness_from(facts: Facts, finding: Finding) -> Derivation:
    """The first thickness that is out of range, else the first."""
    asked = (Figure(value, Kind.SMALL_LENGTH) for _, value in facts.thicknesses_m)
    return Derivation("rule-first-out", ends(finding) | numbered(asked), JOB)
