"""One choice, as a comparison shows it, and which of them are best."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from typing import Annotated

from gaugerake.answers.choosing.comparison.shared import Shared
from gaugerake.answers.job.envelope import Source
from gaugerake.answers.job.problem import Problem
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.quantities.answer import order_blockers
from gaugerake.answers.quantities.lines import Totals, order_lines, totals
from gaugerake.answers.quantities.order import order_of
from gaugerake.answers.quote.faults import job_faults, refusing_all
from gaugerake.answers.quote.fingerprint import fingerprint
from gaugerake.answers.readiness.checked import JudgedCheck, judge
from gaugerake.answers.readiness.facts import facts_of
from gaugerake.answers.readiness.registry import CheckName
from gaugerake.answers.return_times.answer import ReturnTime, returns_of
from gaugerake.answers.return_times.deadline import MOST_STEPS, judge_deadline
from gaugerake.answers.return_times.plan import Timetable, make_timetable
from gaugerake.answers.takeoff.measure import MeasuredTakeoff
from gaugerake.answers.takeoff.remarks import layers_missing
from gaugerake.answers.wet_edge.hands import too_few
from gaugerake.answers.wet_edge.judge import judge as judge_pour
from gaugerake.answers.wet_edge.site import pour_site
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.slab.verdict import Verdict, worst
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note, Say


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceDeadline:
    """The hour when traffic must be back, for one choice."""

    reopen_by: Annotated[datetime, "As `work.reopen_by` says, with the offset of the job's zone."]
    met: Annotated[bool | None, "Whether the latest return is in time; null without `work.start`."]
    slack: Annotated[Figure | None, "Hours from the latest return to the deadline, negative when it is late."]
    latest_start: Annotated[datetime | None, "The last minute from which it still would be; null: none was found."]
    latest_start_found: Annotated[
        bool, "False where the search for it ended before it had looked everywhere: its quote may have one."
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabReason:
    """The first of the checks that the verdict on the slab comes from, as in the quote of the choice."""

    check: Annotated[CheckName, "Which property of the slab or of the air it judges."]
    because: Annotated[Say, "Why, in a sentence."]
    do: Annotated[Say | None, "What mends it, or how to test."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparedChoice:
    """What the quote of one choice says."""

    name: Annotated[str, "As the request calls it."]
    system: Annotated[str, "The code of its system."]
    thickness: Annotated[Figure | None, "Of the first room; null for a system without a body."]
    verdict: Annotated[Verdict, "On the slab."]
    stops: Annotated[tuple[CheckName, ...], "The checks of the slab that stop it."]
    reason: Annotated[SlabReason | None, "What that verdict comes from first; null where it is `go`."]
    orderable: Annotated[
        bool, "False where the slab stops it or the order cannot be filled; its quote's `blockers` say why."
    ]
    totals: Annotated[Totals, "What its order comes to, as in its quote."]
    weight: Annotated[Figure, "That of the totals: what is to be carried."]
    returns: Annotated[
        tuple[ReturnTime, ...], "When each class of traffic may come back, in the order of load, the lightest first."
    ]
    traffic: Annotated[str | None, "The class of traffic that `soonest` and the deadline go by."]
    deadline: Annotated[ChoiceDeadline | None, "Null without `work.reopen_by`, or where no return is stated."]
    holds: Annotated[bool | None, "Whether the pour is feasible; null when nobody can say."]
    lacks: Annotated[tuple[Note, ...], "What the job asks for that no layer of the choice does."]
    fingerprint: Annotated[str, "Of its quote."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Best:
    """The names of the best of those that can be built in time; null where there is none."""

    cheapest: Annotated[
        str | None,
        "By the gross total, of those whose `totals.unpriced` is empty, as any other may cost more than its total says;"
        " of several the first listed.",
    ]
    soonest: Annotated[
        str | None,
        "By the latest return of its traffic, or where no choice has a start by the hours until it; of several the"
        " first listed.",
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedChoice:
    """A choice that makes no sound job."""

    name: Annotated[str, "As the request calls it."]
    problem: Annotated[Problem, "What its quote would be answered; pointers are those of the merged job."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """The choices side by side."""

    choices: Annotated[tuple[ComparedChoice | RefusedChoice, ...], "In the order in which they were asked for."]
    best: Annotated[
        Best, "The cheapest and the soonest of those that the slab does not stop and that meet their deadline."
    ]
    catalogue_revision: Annotated[str, "The SHA-256 of the catalogue that it was answered from."]
    engine: Annotated[str, "Version of the arithmetic that the figures are from."]
    catalogue: Annotated[Source, "The catalogue that the figures are from."]
    assumptions: Annotated[tuple[Note, ...], "Empty here: what a choice assumes stands in its quote."]
    cautions: Annotated[
        tuple[Note, ...], "What to beware of with any of the choices; those of one choice stand in its quote."
    ]
    missing: Annotated[tuple[Note, ...], "Empty here: what would sharpen a choice stands in its quote."]


@refusing_all(job_faults)
def compared(resolved: ResolvedJob, *, name: str, shared: Shared, of: int) -> ComparedChoice:
    """A choice as a comparison shows it; ``of`` is the number of choices, which share the steps of the searches.

    Raises
    ------
    Refused
        As its quote would be.
    """
    survey = shared.survey(resolved)
    takeoff = shared.takeoff(resolved, survey)
    timetable = make_timetable(resolved, MeasuredTakeoff(takeoff=takeoff, remarks=()))
    checks = judge(facts_of(resolved, survey))
    verdict = worst(one.verdict for one in checks)
    order = order_of(resolved, takeoff)
    whole = totals(resolved, order_lines(resolved, order.products), area_m2=takeoff.area_m2)
    return ComparedChoice(
        name=name,
        system=resolved.system.code,
        thickness=_thickness(takeoff),
        verdict=verdict,
        stops=tuple(CheckName(one.entry.name) for one in checks if one.verdict is Verdict.STOP),
        reason=_reason(checks, verdict),
        orderable=not order_blockers(resolved, order, verdict),
        totals=whole,
        weight=whole.weight,
        holds=_holds(timetable),
        returns=returns_of(timetable),
        traffic=resolved.work.traffic.value,
        deadline=_deadline(timetable, steps=MOST_STEPS // of),
        lacks=tuple(remark.note for remark in layers_missing(resolved)),
        fingerprint=fingerprint(resolved),
    )


def _reason(checks: Sequence[JudgedCheck], verdict: Verdict) -> SlabReason | None:
    if verdict is Verdict.GO:
        return None
    first = next(one for one in checks if one.verdict is verdict)
    decisive = first.finding.decisive
    return SlabReason(check=CheckName(first.entry.name), because=decisive.because, do=decisive.do)


def _holds(timetable: Timetable) -> bool | None:
    """Whether the crew has the people for the pour and every wet edge holds."""
    resolved, takeoff = timetable.resolved, timetable.takeoff
    if too_few(resolved, takeoff):
        return False
    return judge_pour(takeoff, pour_site(resolved, takeoff, timetable.runs.likely)).feasible


def _thickness(takeoff: Takeoff) -> Figure | None:
    thickness_m = takeoff.rooms[0].thickness_m
    return None if thickness_m is None else Figure(thickness_m, Kind.SMALL_LENGTH)


def _deadline(timetable: Timetable, *, steps: int) -> ChoiceDeadline | None:
    judged = judge_deadline(timetable, start_steps=steps, mended=False)
    if judged is None:
        return None
    return ChoiceDeadline(
        reopen_by=judged.shown.reopen_by,
        met=judged.shown.met,
        slack=judged.shown.slack,
        latest_start=judged.shown.latest_start,
        latest_start_found=not judged.latest_start_cut_short,
    )


def open_in_time(choices: Sequence[ComparedChoice]) -> list[ComparedChoice]:
    """Those that the slab does not stop and that meet their deadline."""
    return [one for one in choices if one.verdict is not Verdict.STOP and (one.deadline is None or one.deadline.met)]


def best_of(choices: Sequence[ComparedChoice]) -> Best:
    """The best of the choices that have no problem."""
    good = open_in_time(choices)
    timed = any(one.latest is not None for choice in choices for one in choice.returns)
    returning: Callable[[ComparedChoice], float | None] = _instant_s if timed else _hours_s
    priced = [one for one in good if not one.totals.unpriced]
    return Best(
        cheapest=min(priced, key=lambda one: one.totals.gross).name if priced else None,
        soonest=_soonest(good, returning),
    )


def _soonest(choices: Sequence[ComparedChoice], returning: Callable[[ComparedChoice], float | None]) -> str | None:
    found = [(at_s, one.name) for one in choices if (at_s := returning(one)) is not None]
    return min(found, key=lambda pair: pair[0])[1] if found else None


def _asked(choice: ComparedChoice) -> ReturnTime | None:
    return next((one for one in choice.returns if one.traffic == choice.traffic), None)


def _instant_s(choice: ComparedChoice) -> float | None:
    found = _asked(choice)
    return None if found is None or found.latest is None else found.latest.timestamp()


def _hours_s(choice: ComparedChoice) -> float | None:
    found = _asked(choice)
    return None if found is None or found.after is None else found.after.value
