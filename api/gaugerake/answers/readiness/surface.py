"""The slab's surface: what lies on it, whether it drinks, its alkalinity, its profile, its hold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from gaugerake.answers.job.context import Context
from gaugerake.answers.readiness.base import (
    Check,
    CheckName,
    Reading,
    check_of,
    limit_of,
    number,
    say,
    untested,
    yes_or_no,
)
from gaugerake.floor.job import PullOffFailure
from gaugerake.floor.slab.pull_off import TESTS, WEAKEST_FRACTION, PullOffJudgement, judge_pull_off
from gaugerake.floor.slab.surface import COVERINGS, Contaminant, contaminant, preparation
from gaugerake.floor.slab.verdict import Side, Verdict, at_least, side, stated
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Say, Value
from gaugerake.floor.values.range import Limits

CONTAMINANTS, PULL_OFF, PROFILE = "/slab/contaminants", "/slab/pull_off", "/slab/profile_csp"


def contaminants_check(context: Context) -> Check:
    """What lies on the concrete, each with its removal; what nobody knows is found out first."""
    name, words = CheckName.CONTAMINANTS, context.job.slab.contaminants
    if words is None:
        return check_of(name, untested(name, CONTAMINANTS))
    limit = limit_of(Limits(high=0.0), "count")
    count = Figure(float(len(words)), "count")
    if not words:
        clean = Reading(
            pointer=CONTAMINANTS,
            measured=count,
            verdict=Verdict.GO,
            because=say("check-contaminants-none"),
            do=None,
        )
        return check_of(name, clean, limit=limit)
    kinds = [contaminant(word) for word in words]
    readings = [_contaminant(index, words[index], kind) for index, kind in enumerate(kinds)]
    first = min(range(len(kinds)), key=lambda index: _turn(kinds[index]))
    decisive = replace(readings[first], measured=count)
    return check_of(name, decisive, limit=limit, readings=readings)


def _turn(kind: Contaminant | None) -> int:
    """What is dealt with first: the unknown, then what must be tested before it is ground, then the rest."""
    if kind is None:
        return 0
    return 1 if kind in COVERINGS else 2


def _contaminant(index: int, words: str, kind: Contaminant | None) -> Reading:
    word = words if kind is None else kind.value
    return Reading(
        pointer=f"{CONTAMINANTS}/{index}",
        measured=word,
        verdict=Verdict.FIX,
        because=say("check-contaminants-unknown" if kind is None else "check-contaminants-found", words=words),
        do=say(f"do-contaminants-{kind or 'unknown'}", words=words),
    )


def absorption_check(context: Context) -> Check:
    """Whether drops of water are drawn in: if not, something closes the surface."""
    seen = context.job.slab.absorbs_water
    return yes_or_no(CheckName.ABSORPTION, seen=seen, good=True, pointer="/slab/absorbs_water")


def ph_check(context: Context) -> Check | None:
    """The alkalinity of the wetted surface."""
    limits = context.system.slab_limits.ph
    if not stated(limits):
        return None
    reading = number(CheckName.PH, value=context.job.slab.ph, kind="ph", limits=limits, pointer="/slab/ph")
    return check_of(CheckName.PH, reading, limit=limit_of(limits, "ph"))


def profile_check(context: Context) -> Check | None:
    """The surface profile, room by room; the one farthest out decides."""
    limits = context.system.slab_limits.profile_csp
    if not stated(limits):
        return None
    readings = [_profile(pointer, csp, limits) for pointer, csp in profiles(context)]
    decisive = max(
        readings, key=lambda reading: (reading.verdict is Verdict.FIX, reading.measured is None, _off(reading, limits))
    )
    shown = readings if len(readings) > 1 else ()
    return check_of(CheckName.PROFILE, decisive, limit=limit_of(limits, "csp"), readings=shown)


def profiles(context: Context) -> Sequence[tuple[str, int | None]]:
    """Each profile said, with its place; the slab's stands for all rooms that do not say their own."""
    own = [
        (f"/rooms/{index}/profile_csp", room.profile_csp)
        for index, room in enumerate(context.job.rooms)
        if room.profile_csp is not None
    ]
    if own and len(own) == len(context.job.rooms):
        return own
    return [(PROFILE, context.job.slab.profile_csp), *own]


def _off(reading: Reading, limits: Limits) -> float:
    """How far a profile is out of the range."""
    if not isinstance(reading.measured, Figure):
        return 0.0
    csp = reading.measured.value
    below = 0.0 if limits.low is None else limits.low - csp
    above = 0.0 if limits.high is None else csp - limits.high
    return max(below, above, 0.0)


def _profile(pointer: str, csp: int | None, limits: Limits) -> Reading:
    method = None if csp is None else preparation(csp=csp, limits=limits)
    value = None if csp is None else float(csp)
    do = None
    if method is not None:
        shown = limit_of(limits, "csp")
        do = say(f"do-profile-{method}", low=shown.low, high=shown.high)
    return number(CheckName.PROFILE, value=value, kind="csp", limits=limits, pointer=pointer, do=do)


def pull_off_check(context: Context) -> Check | None:
    """How hard the surface must be pulled before it lets go: the mean, and the weakest."""
    name, limit_pa = CheckName.PULL_OFF, context.system.slab_limits.pull_off_pa
    if limit_pa is None:
        return None
    limit = limit_of(Limits(low=limit_pa), "pressure")
    tests = context.job.slab.pull_off
    judged = judge_pull_off(tests=tests, limit_pa=limit_pa)
    readings = [_pull(context, index, judged, limit_pa) for index in range(len(tests))]
    if judged.mean_pa is None or judged.weakest is None:
        return check_of(name, untested(name, PULL_OFF), limit=limit, readings=readings)
    if judged.counted < TESTS:
        context.record.caution("few-pull-off-tests", PULL_OFF, given=judged.counted, needed=TESTS)
    return check_of(name, _mean(context, judged, readings, limit_pa), limit=limit, readings=readings)


def _mean(context: Context, judged: PullOffJudgement, readings: Sequence[Reading], limit_pa: float) -> Reading:
    weakest = judged.weakest or 0
    mean = judged.mean_pa or 0.0
    low = not at_least(value=mean, low=limit_pa)
    code = "within" if judged.verdict is Verdict.GO else "below" if low else "weakest"
    pull = context.job.slab.pull_off[weakest]
    figures: dict[str, Value] = {
        "measured": Figure(mean, "pressure"),
        "weakest": Figure(pull.strength_pa, "pressure"),
        "number": weakest + 1,
        "least": Figure(WEAKEST_FRACTION * limit_pa, "pressure"),
        "low": Figure(limit_pa, "pressure"),
    }
    return Reading(
        pointer=PULL_OFF if judged.verdict is Verdict.GO else f"{PULL_OFF}/{weakest}",
        measured=Figure(mean, "pressure"),
        verdict=judged.verdict,
        because=Say(code=f"check-pull-off-{code}", params=figures),
        do=readings[weakest].do,
    )


def _pull(context: Context, index: int, judged: PullOffJudgement, limit_pa: float) -> Reading:
    """One test; where it broke says what is weak."""
    pull, verdict = context.job.slab.pull_off[index], judged.verdicts[index]
    broke = "unsaid" if pull.failure is None else pull.failure.value
    under = side(value=pull.strength_pa, limits=Limits(low=limit_pa)) is Side.BELOW
    code = "glue" if pull.failure is PullOffFailure.GLUE else "under" if under else "over"
    figure = Figure(pull.strength_pa, "pressure")
    return Reading(
        pointer=f"{PULL_OFF}/{index}",
        measured=figure,
        verdict=verdict,
        because=say(f"check-pull-off-one-{code}", measured=figure, low=Figure(limit_pa, "pressure"), number=index + 1),
        do=None if verdict is Verdict.GO else say(f"do-pull-off-{broke}"),
    )
