"""What the drawing asks of the slab: its fall, its joints, the thickness to be placed."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.answers.readiness.base import Check, CheckName, Reading, check_of, limit_of, number, say, untested
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Words
from gaugerake.floor.values.range import Limits

LEAST_FALL_PERCENT = 1.0
"""Towards a drain; less leaves puddles (common practice)."""


def room_name(context: Context, index: int) -> Words:
    """A room as a sentence calls it."""
    return context.job.rooms[index].name or say("unnamed-room", number=index + 1)


def slope_check(context: Context) -> Check | None:
    """The steepest room against what the body can be poured on without running."""
    limit, name = context.system.slab_limits.slope_percent, CheckName.SLOPE
    if limit is None:
        return None
    limits, readings, unsaid = Limits(high=limit), [], None
    for index, room in enumerate(context.job.rooms):
        pointer = f"/rooms/{index}/slope_percent"
        if room.slope_percent is None:
            unsaid = unsaid or untested(name, pointer)
            continue
        percent, called = room.slope_percent, room_name(context, index)
        readings.append(number(name, value=percent, kind="percent", limits=limits, pointer=pointer, room=called))
    if unsaid is not None or not readings:
        readings.append(unsaid or untested(name, "/rooms"))
    decisive = max(readings, key=_steepness)
    return check_of(name, decisive, limit=limit_of(limits, "percent"), readings=readings if len(readings) > 1 else ())


def _steepness(reading: Reading) -> tuple[int, float]:
    """Too steep before unsaid before flat enough; the steeper first."""
    rank = {Verdict.FIX: 2, Verdict.UNTESTED: 1}.get(reading.verdict, 0)
    return rank, reading.measured.value if isinstance(reading.measured, Figure) else 0.0


def joints_check(context: Context) -> Check:
    """Whether anybody has looked for joints in the slab."""
    name, rooms = CheckName.JOINTS, context.job.rooms
    for index, room in enumerate(rooms):
        if room.joints is None:
            context.record.lack("joints-unsaid", f"/rooms/{index}/joints")
    said = [index for index, room in enumerate(rooms) if room.joints is not None]
    if not said:
        return check_of(name, untested(name, "/rooms/0/joints" if rooms else "/rooms"))
    count = sum(len(rooms[index].joints or ()) for index in said)
    reading = Reading(
        pointer=f"/rooms/{said[0]}/joints",
        measured=Figure(float(count), "count"),
        verdict=Verdict.GO,
        because=say("check-joints-within" if count else "check-joints-none", count=count),
        do=None,
    )
    return check_of(name, reading)


def thickness_check(context: Context) -> Check | None:
    """The thickness asked against what the system can be placed at; nothing asked, nothing to check."""
    thickness = context.system.thickness
    if thickness is None:
        return None
    asked = asked_thicknesses(context)
    if not asked:
        return None
    limits, name = Limits(low=thickness.low_m, high=thickness.high_m), CheckName.THICKNESS
    readings = [
        number(name, value=value, kind="small-length", limits=limits, pointer=pointer)
        for pointer, value in asked.items()
    ]
    decisive = next((reading for reading in readings if reading.verdict is Verdict.FIX), readings[0])
    shown = readings if len(readings) > 1 else ()
    return check_of(name, decisive, limit=limit_of(limits, "small-length"), readings=shown)


def asked_thicknesses(context: Context) -> dict[str, float]:
    """Each thickness that the job asks [m] by its place; the job's own stands for the rooms that do not say theirs."""
    job = context.job
    asked = {
        f"/rooms/{index}/thickness": room.thickness_m
        for index, room in enumerate(job.rooms)
        if room.thickness_m is not None
    }
    if job.thickness_m is not None and len(asked) < len(job.rooms):
        return {"/thickness": job.thickness_m, **asked}
    return asked


def caution_drains(context: Context) -> None:
    """Say where water will stand: a drain in a floor that falls less than 1 %, or whose fall nobody said."""
    for index, room in enumerate(context.job.rooms):
        slope = room.slope_percent
        if room.drains and (slope is None or slope < LEAST_FALL_PERCENT):
            pointer = f"/rooms/{index}/slope_percent"
            code = "drain-slope-unsaid" if slope is None else "drain-slope"
            least = Figure(LEAST_FALL_PERCENT, "percent")
            shown = None if slope is None else Figure(slope, "percent")
            context.record.caution(code, pointer, shown, room=room_name(context, index), least=least)
