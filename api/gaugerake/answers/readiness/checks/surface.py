"""The slab's surface: what lies on it, whether it drinks, its alkalinity, its profile, its hold."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import reduce

from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.sources import JOB
from gaugerake.answers.readiness.derivation import Derivation, as_stated, ends, numbered
from gaugerake.answers.readiness.entry import CheckEntry, in_room
from gaugerake.answers.readiness.facts import Facts, SurfaceFigure
from gaugerake.answers.readiness.finding import Finding, Reading, limit_of, make_finding
from gaugerake.floor.job import PullOffFailure
from gaugerake.floor.slab.pull_off import TESTS, WEAKEST_FRACTION, PullOffJudgement
from gaugerake.floor.slab.surface import COVERINGS, Contaminant, contaminant, preparation
from gaugerake.floor.slab.verdict import RangeSide, Verdict, at_least, side, stated
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.note import Say, Value, Words, listed
from gaugerake.floor.values.range import Limits

PULL_OFF = "pull-off"
CONTAMINANTS_AT, PULL_OFF_AT = "/slab/contaminants", "/slab/pull_off"
_CODES = frozenset(Contaminant)
PULL_OFF_TEST = Say(code="source-pull-off-test")


def contaminants_check(entry: CheckEntry, facts: Facts) -> Finding:
    """What lies on the concrete, each with its removal; an unknown one must be identified first."""
    words = facts.slab.contaminants
    if words is None:
        return make_finding(decisive=entry.untested(CONTAMINANTS_AT))
    limit = limit_of(Limits(high=0.0), Kind.COUNT)
    count = Figure(float(len(words)), Kind.COUNT)
    if not words:
        clean = Reading(
            pointer=CONTAMINANTS_AT,
            measured=count,
            verdict=Verdict.GO,
            because=entry.why("none"),
            do=None,
        )
        return make_finding(decisive=clean, limit=limit)
    kinds = [contaminant(word) for word in words]
    readings = tuple(_contaminant(entry, index, words[index], kind) for index, kind in enumerate(kinds))
    turns = sorted(range(len(kinds)), key=lambda index: _turn(kinds[index]))
    whole = replace(
        readings[turns[0]],
        measured=count,
        because=_found(entry, words, kinds),
        do=_one_after_another([readings[index].do for index in turns]),
    )
    return make_finding(decisive=whole, limit=limit, readings=readings)


def _found(entry: CheckEntry, words: Sequence[str], kinds: Sequence[Contaminant | None]) -> Say:
    """The contaminants that lie on the slab, and the words among them that are not known."""
    unknown = [word for word, kind in zip(words, kinds, strict=True) if kind is None]
    named = contaminants_named(words)
    if not unknown:
        return entry.why("found", words=named)
    if len(unknown) == len(words):
        return entry.why("unknown", words=named)
    return entry.why("part-known", words=named, unknown=contaminants_named(unknown))


def contaminants_named(words: Sequence[str]) -> Words:
    """What was found, as the job says it; a kind by its code in the reader's language."""
    return listed(
        code="contaminants-named", phrases=[Say(code=f"contaminant-{one}") if one in _CODES else one for one in words]
    )


def _one_after_another(remedies: Sequence[Say | None]) -> Say | None:
    """What is to be done about each contaminant, in turn; what several need is told once."""
    told = list({one.code: one for one in remedies if one is not None}.values())
    return (
        reduce(lambda done, one: Say(code="contaminants-list", params={"first": done, "rest": one}), told)
        if told
        else None
    )


def _turn(kind: Contaminant | None) -> int:
    """What is dealt with first: the unknown, then what must be tested before it is ground, then the rest."""
    if kind is None:
        return 0
    return 1 if kind in COVERINGS else 2


def _contaminant(entry: CheckEntry, index: int, words: str, kind: Contaminant | None) -> Reading:
    return Reading(
        pointer=f"{CONTAMINANTS_AT}/{index}",
        measured=words if kind is None else kind.value,
        verdict=Verdict.FIX,
        because=entry.why("unknown" if kind is None else "found", words=contaminants_named([words])),
        do=entry.remedy(kind or "unknown", words=words),
    )


def contaminants_from(facts: Facts, _finding: Finding) -> Derivation:
    """The working of the number of contaminants, from those that the job names."""
    words = enumerate(facts.slab.contaminants or (), 1)
    return Derivation("rule-contaminants-counted", {f"contaminant_{number}": word for number, word in words}, JOB)


def no_contaminants(_facts: Facts, _limit: Figure) -> Derivation:
    """The working of the limit of contaminants: none may lie on the slab."""
    return Derivation("rule-limit-none", {})


def absorption_check(entry: CheckEntry, facts: Facts) -> Finding:
    """Whether drops of water are drawn in: if not, something closes the surface."""
    return entry.yes_or_no(seen=facts.slab.absorbs_water, good=True, pointer="/slab/absorbs_water")


def ph_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The alkalinity of the wetted surface; of several readings the one farthest out decides."""
    limits = facts.limits.ph
    if not stated(limits):
        return None
    readings = tuple(
        entry.number(value=one.value, kind=Kind.PH, limits=limits, pointer=one.pointer, taken_in=one.room)
        for one in facts.ph
    )
    return _farthest_out(readings, limits, Kind.PH)


def _farthest_out(readings: tuple[Reading, ...], limits: Limits, kind: Kind) -> Finding:
    """The reading farthest out decides; else one that is not there; else the first."""
    decisive = max(
        readings, key=lambda reading: (reading.verdict is Verdict.FIX, reading.measured is None, _off(reading, limits))
    )
    return make_finding(decisive=decisive, limit=limit_of(limits, kind), readings=readings if len(readings) > 1 else ())


def ph_from(facts: Facts, finding: Finding) -> Derivation:
    """The working of the pH: as the job states it, or of several the one farthest out."""
    if not finding.readings:
        return as_stated(facts, finding)
    said = (None if one.value is None else Figure(one.value, Kind.PH) for one in facts.ph)
    return Derivation("rule-farthest-out", ends(finding) | numbered(said), JOB)


def profile_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """The surface profile, room by room; the one farthest out decides."""
    limits = facts.limits.profile_csp
    if not stated(limits):
        return None
    return _farthest_out(tuple(_profile(entry, one, limits) for one in facts.profiles), limits, Kind.CSP)


def _off(reading: Reading, limits: Limits) -> float:
    """How far a reading is out of the range."""
    if not isinstance(reading.measured, Figure):
        return 0.0
    value = reading.measured.value
    below = 0.0 if limits.low is None else limits.low - value
    above = 0.0 if limits.high is None else value - limits.high
    return max(below, above, 0.0)


def _profile(entry: CheckEntry, said: SurfaceFigure, limits: Limits) -> Reading:
    method = None if said.value is None else preparation(csp=int(said.value), limits=limits)
    value = None if said.value is None else float(said.value)
    do = None
    if method is not None:
        shown = limit_of(limits, Kind.CSP)
        do = entry.remedy(method, low=shown.low, high=shown.high)
    return entry.number(value=value, kind=Kind.CSP, limits=limits, pointer=said.pointer, do=do, taken_in=said.room)


def profile_from(facts: Facts, finding: Finding) -> Derivation:
    """The working of the profile farthest outside the range."""
    said = (None if one.value is None else Figure(float(one.value), Kind.CSP) for one in facts.profiles)
    return Derivation("rule-farthest-out", ends(finding) | numbered(said), JOB)


def pull_off_check(entry: CheckEntry, facts: Facts) -> Finding | None:
    """How hard the surface must be pulled before it lets go: the mean, and the weakest."""
    limit_pa, judged = facts.limits.pull_off_pa, facts.pull_off
    if limit_pa is None or judged is None:
        return None
    limit = limit_of(Limits(low=limit_pa), Kind.PRESSURE)
    readings = tuple(_pull(entry, facts, index, judged, limit_pa) for index in range(len(facts.slab.pull_off)))
    if judged.mean_pa is None or judged.weakest is None:
        return make_finding(decisive=entry.untested(PULL_OFF_AT), limit=limit, readings=readings)
    weakest = (judged.weakest, readings[judged.weakest])
    return make_finding(decisive=_mean(entry, facts, judged, weakest, limit_pa), limit=limit, readings=readings)


def _mean(
    entry: CheckEntry, facts: Facts, judged: PullOffJudgement, weakest: tuple[int, Reading], limit_pa: float
) -> Reading:
    index, reading = weakest
    mean = judged.mean_pa or 0.0
    low = not at_least(value=mean, low=limit_pa)
    ending = "within" if judged.verdict is Verdict.GO else "below" if low else "weakest"
    figures: dict[str, Value] = {
        "measured": Figure(mean, Kind.PRESSURE),
        "weakest": Figure(facts.slab.pull_off[index].strength_pa, Kind.PRESSURE),
        "number": index + 1,
        "least": Figure(WEAKEST_FRACTION * limit_pa, Kind.PRESSURE),
        "low": Figure(limit_pa, Kind.PRESSURE),
    }
    holds = judged.verdict is Verdict.GO
    room = None if holds else facts.slab.pull_off[index].room  # the mean is of the whole slab
    return Reading(
        pointer=PULL_OFF_AT if holds else f"{PULL_OFF_AT}/{index}",
        measured=Figure(mean, Kind.PRESSURE),
        verdict=judged.verdict,
        because=entry.why(ending, **figures, **in_room(room)),
        do=reading.do,
        room=room,
    )


def _pull(entry: CheckEntry, facts: Facts, index: int, judged: PullOffJudgement, limit_pa: float) -> Reading:
    """One test; where it broke says what is weak."""
    pull, verdict = facts.slab.pull_off[index], judged.verdicts[index]
    broke = "unsaid" if pull.failure is None else pull.failure.value
    under = side(value=pull.strength_pa, limits=Limits(low=limit_pa)) is RangeSide.BELOW
    ending = "one-glue" if pull.failure is PullOffFailure.GLUE else "one-under" if under else "one-over"
    figure = Figure(pull.strength_pa, Kind.PRESSURE)
    return Reading(
        pointer=f"{PULL_OFF_AT}/{index}",
        measured=figure,
        verdict=verdict,
        because=entry.why(
            ending, measured=figure, low=Figure(limit_pa, Kind.PRESSURE), number=index + 1, **in_room(pull.room)
        ),
        do=None if verdict is Verdict.GO else entry.remedy(broke),
        room=pull.room,
    )


def pull_off_remarks(facts: Facts) -> Iterator[Remark]:
    """Too few tests for a mean."""
    judged = facts.pull_off
    if judged is not None and 0 < judged.counted < TESTS:
        yield caution("few-pull-off-tests", PULL_OFF_AT, given=judged.counted, needed=TESTS)


def pull_off_from(facts: Facts, _finding: Finding) -> Derivation:
    """The mean of the tests that did not break in the glue."""
    counted: dict[str, Figure] = {
        f"test_{number}": Figure(pull.strength_pa, Kind.PRESSURE)
        for number, pull in enumerate(facts.slab.pull_off, 1)
        if pull.failure is not PullOffFailure.GLUE
    }
    inputs: Inputs = {
        "count": len(counted),
        "sum": Figure(math.fsum(pull.value for pull in counted.values()), Kind.PRESSURE),
    }
    return Derivation("rule-pull-off-mean", {**inputs, **counted}, PULL_OFF_TEST)
