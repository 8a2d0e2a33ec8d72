"""The day sheets of a job: who does what on each day, with what, and what is written down."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date, datetime
from typing import Annotated

from gaugerake.answers.day_sheet.dated import DatedWork, dated_work
from gaugerake.answers.day_sheet.explain import (
    MOST_DAYS_EXPLAINED,
    explain_brought,
    explain_conditioned,
    explain_labour,
    explain_pour,
    explain_readings,
    explain_spread,
    explain_targets,
    pours_told,
)
from gaugerake.answers.day_sheet.packs import (
    BroughtPacks,
    ConditionedPacks,
    brought_rows,
    conditioned,
    conditioned_rows,
    portions,
)
from gaugerake.answers.day_sheet.pours import DayPour, day_pours
from gaugerake.answers.day_sheet.readings import SiteReading, day_readings
from gaugerake.answers.day_sheet.remarks import sheet_remarks
from gaugerake.answers.day_sheet.targets import Coverage, LayerTarget, coverages
from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.working import Working
from gaugerake.answers.pour_plan.marks import mark
from gaugerake.answers.quantities.order import JobOrder, order_of
from gaugerake.answers.quote.faults import job_faults, refusing_all
from gaugerake.answers.quote.fingerprint import fingerprint
from gaugerake.answers.quote.parts import planned_by
from gaugerake.answers.readiness.ahead import NO_PLAN, needs_plan
from gaugerake.answers.readiness.answer import readiness
from gaugerake.answers.return_times.labour import steps_labour
from gaugerake.answers.return_times.plan import make_timetable
from gaugerake.answers.return_times.run_remarks import layer_name
from gaugerake.answers.takeoff.measure import measure_job
from gaugerake.answers.takeoff.survey import survey_rooms
from gaugerake.floor.clock.days import DayPart, WorkDay
from gaugerake.floor.clock.timetable import StepKind
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say, Words


@dataclass(frozen=True, slots=True, kw_only=True)
class DayStep:
    """What is done of one step on a day."""

    step: Annotated[
        StepKind,
        "`prepare` or `saw` the slab, `apply` the layer, `clear` loose aggregate, or `abrade` a coat for the next one.",
    ]
    layer: Annotated[str | None, "The id of the layer; null for preparing the slab and sawing."]
    name: Annotated[Words, "For people."]
    from_: Annotated[datetime, "When the step begins on that day."]
    until: Annotated[datetime, "When the step ends or stops on that day."]
    rooms: Annotated[tuple[Words, ...], "Where, in the job's order."]
    hands: Annotated[int, "The people that it takes; 0 of what is cast by the hands of the layer under it."]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetDay:
    """One day of work."""

    date: Annotated[date, "On which its shift starts, or round the clock the date of its hours."]
    from_: Annotated[datetime, "When its work begins."]
    until: Annotated[datetime, "When its work ends, what runs past the shift included."]
    steps: Annotated[tuple[DayStep, ...], "What is done that day, in the order of the work."]
    people: Annotated[int, "The most that any of its steps takes."]
    person_hours: Annotated[Figure, "Of all its steps; those of all days are those of the labour."]
    bring: Annotated[tuple[BroughtPacks, ...], "The packs that the day takes; over all days, the order."]
    condition: Annotated[tuple[ConditionedPacks, ...], "What must come to its mixing temperature, by the hour."]
    pour: Annotated[tuple[DayPour, ...], "What is poured, room by room."]
    targets: Annotated[
        tuple[LayerTarget, ...],
        "For each pack of the layers of that day, the floor that it is to cover and how thick it then lies.",
    ]
    readings: Annotated[tuple[SiteReading, ...], "The hours at which floor, air and spread are to be written down."]


@dataclass(frozen=True, slots=True, kw_only=True)
class DaySheet:
    """The days of a job, for its crew."""

    reference: Annotated[str | None, "The caller's own, as it came in `order.reference`."]
    fingerprint: Annotated[str, "That of the job's quote."]
    slab: Annotated[Verdict, "On the slab."]
    least_spread: Annotated[Figure | None, "By which the floor must stay above the dew point; null: not stated."]
    days: Annotated[tuple[SheetDay, ...], "A sheet for each day of work, in the order of time."]


@refusing_all(job_faults)
def day_sheet(resolved: ResolvedJob, *, explained: bool = False) -> Answer[DaySheet]:
    """The days of a job.

    Raises
    ------
    Refused
        When the job means something that cannot be, or has no start.
    """
    survey = survey_rooms(resolved.rooms)
    timetable = make_timetable(resolved, measure_job(resolved, survey))
    work = dated_work(timetable)
    planned = planned_by(timetable) if needs_plan(resolved) else NO_PLAN
    slab = readiness(resolved, survey=survey, planned=planned, explained=False)
    order = order_of(resolved, timetable.takeoff)
    sheets = _Sheets(work, order)
    spread_k = resolved.system.air_limits.dew_point_spread_k
    body = DaySheet(
        reference=resolved.order.reference,
        fingerprint=fingerprint(resolved),
        slab=slab.body.verdict,
        least_spread=None if spread_k is None else Figure(spread_k, Kind.TEMPERATURE_DIFFERENCE),
        days=tuple(sheets.day(day) for day in work.days),
    )
    remarks = (*slab.remarks, *sheet_remarks(work, order, sheets.marked, sheets.labour, slab.body))
    working = (*explain_spread(work), *sheets.working()) if explained else ()
    return Answer(body=body, remarks=remarks, working=working)


class _Sheets:
    """Makes the sheet of each day from what is worked out once for all days."""

    def __init__(self, work: DatedWork, order: JobOrder) -> None:
        timetable = work.timetable
        self._work = work
        self.labour = steps_labour(timetable)
        self._hands = [labour.hands for labour in self.labour]
        self._orders = {one.product.code: one for one in order.products}
        self._brought = portions(work, order.products)
        self._conditioned = conditioned(work, self._brought)
        self.marked = mark(timetable.resolved, work.takeoff, work.judged)

    def day(self, day: WorkDay) -> SheetDay:
        """The sheet of one day."""
        work, zone = self._work, self._work.timetable.zone
        poured = work.poured.get(day.date, ())
        return SheetDay(
            date=day.date,
            from_=zone.datetime_at(day.from_s),
            until=zone.datetime_at(day.until_s),
            steps=tuple(self._step(day, part) for part in day.parts),
            people=max(self._hands[part.step] for part in day.parts),
            person_hours=Figure(self._person_s(day), Kind.DURATION),
            bring=brought_rows(self._brought[day.date]),
            condition=conditioned_rows(work, self._conditioned[day.date]),
            pour=day_pours(work, poured, self.marked),
            targets=tuple(one.shown for one in self._coverages(day)),
            readings=day_readings(work, day),
        )

    def working(self) -> Iterator[Working]:
        """How the figures of the first days came about."""
        work, told = self._work, pours_told(self._work, self.marked)
        for place, day in enumerate(work.days[:MOST_DAYS_EXPLAINED]):
            at = f"/days/{place}"
            paid = [(self._hands[part.step], part.lasts_s) for part in day.parts]
            yield from explain_labour(at, paid, self._person_s(day))
            yield from explain_brought(at, self._brought[day.date])
            yield from explain_conditioned(at, work, self._conditioned[day.date])
            yield from explain_pour(at, [one.index for one in work.poured.get(day.date, ())], told)
            yield from explain_targets(at, tuple(self._coverages(day)))
            yield from explain_readings(at, work, day)

    def _person_s(self, day: WorkDay) -> float:
        """The hours of a day that are paid [s]."""
        return math.fsum(self._hands[part.step] * part.lasts_s for part in day.parts)

    def _coverages(self, day: WorkDay) -> Iterator[Coverage]:
        return coverages(self._work, day, self._work.poured.get(day.date, ()), self._orders)

    def _step(self, day: WorkDay, part: DayPart) -> DayStep:
        work, zone = self._work, self._work.timetable.zone
        step = work.steps[part.step]
        return DayStep(
            step=step.kind,
            layer=step.layer,
            name=Say(code=f"step-{step.kind}", params={"layer": layer_name(work.timetable.resolved, step.layer)}),
            from_=zone.datetime_at(part.from_s),
            until=zone.datetime_at(part.until_s),
            rooms=tuple(room.name for room in work.rooms(day, part)),
            hands=self._hands[part.step],
        )
