"""What is said beside a readiness: what each check rests on, and what can hurt people or the slab on the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from functools import lru_cache

from gaugerake.answers.job.remarks import Remark, caution, missing
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.readiness.ahead import (
    Condensation,
    PlannedSpan,
    condensation_depends_on_plan,
    spread_foreseen,
)
from gaugerake.answers.readiness.checked import JudgedCheck
from gaugerake.answers.readiness.checks.climate import floor_remarks
from gaugerake.answers.readiness.checks.concrete import age_remarks
from gaugerake.answers.readiness.checks.layout import JOINTS
from gaugerake.answers.readiness.checks.surface import contaminants_named
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.product_remarks import product_remarks
from gaugerake.floor.slab.surface import COVERING_SUBSTRATES, COVERINGS, contaminant, substrate
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say

LEAST_FALL_PERCENT = 1.0
"""Towards a drain; less leaves puddles (common practice, no source)."""


def readiness_remarks(
    facts: Facts, judged: Sequence[JudgedCheck], spans: Sequence[Condensation], planned: PlannedSpan
) -> Iterator[Remark]:
    """All remarks on the readiness, in the order in which they are found."""
    for one in judged:
        yield from one.entry.remarks(facts)
    yield from facts.resolved.named_rooms.remarks
    yield from floor_remarks(facts)
    yield from age_remarks(facts)
    yield from _outlook(facts, planned)
    yield from _old_coverings(facts)
    yield from _preparation(facts, judged)
    yield from _condensation(spans)
    yield from _drains(facts.resolved)
    yield from product_remarks(facts, planned)
    yield from _untested(judged)


def _outlook(facts: Facts, planned: PlannedSpan) -> Iterator[Remark]:
    """What the spread over the planned work rests on."""
    if spread_foreseen(facts.resolved, facts.dew_point_k) is not None:
        yield from facts.resolved.work.course.remarks
    if condensation_depends_on_plan(facts.resolved, facts.dew_point_k):
        yield from planned.remarks


def _old_coverings(facts: Facts) -> Iterator[Remark]:
    """What may hold asbestos or lead: found on the slab, or itself what the floor would go on."""
    on = facts.slab.substrate
    if on is not None and (substrate(on) in COVERING_SUBSTRATES or contaminant(on) in COVERINGS):
        yield caution("old-coverings", "/slab/substrate", on)
    for index, word in enumerate(facts.slab.contaminants or ()):
        if contaminant(word) in COVERINGS:
            yield caution("old-coverings", f"/slab/contaminants/{index}", contaminants_named([word]))


def _preparation(facts: Facts, judged: Sequence[JudgedCheck]) -> Iterator[Remark]:
    """What the preparation does to people: sawing, dust, heat."""
    to_mend = [one for one in judged if one.verdict is Verdict.FIX]
    saws = facts.resolved.system.keyway is not None
    if saws:
        yield caution("before-sawing")
    if saws or any(one.entry.ground for one in to_mend):
        yield caution("concrete-dust")
    if any(one.needs_heat for one in to_mend):
        yield caution("indirect-heat")


def _condensation(spans: Sequence[Condensation]) -> Iterator[Remark]:
    if spans:
        first = spans[0]
        begins, ends = _clock(first.from_), _clock(first.until)
        yield caution("condensation-ahead", "/work/temperatures", count=len(spans), begins=begins, ends=ends)


def _clock(instant: datetime) -> str:
    return instant.strftime("%Y-%m-%d %H:%M")


def _drains(resolved: ResolvedJob) -> Iterator[Remark]:
    """A caution on each room where water will stand: it has a drain, and a fall under 1 % or one that is not stated."""
    least = Figure(LEAST_FALL_PERCENT, Kind.PERCENT)
    for room in resolved.rooms:
        slope = room.slope_percent
        if room.drains and (slope is None or slope < LEAST_FALL_PERCENT):
            code = "drain-slope-unsaid" if slope is None else "drain-slope"
            shown = None if slope is None else Figure(slope, Kind.PERCENT)
            yield caution(code, f"{room.pointer}/slope_percent", shown, room=room.name, least=least)


def _untested(judged: Sequence[JudgedCheck]) -> Iterator[Remark]:
    """A missing field for each untested check, but joints, which are listed room by room."""
    for one in judged:
        if one.verdict is Verdict.UNTESTED and one.entry.name != JOINTS:
            yield _untested_check(one.entry.name, one.finding.decisive.pointer)


@lru_cache(maxsize=256)
def _untested_check(name: str, pointer: str) -> Remark:
    """The remark on one untested check: the same in every answer that lacks it, so it is made once."""
    return missing("check-untested", pointer, name=Say(code=f"name-{name}"))
