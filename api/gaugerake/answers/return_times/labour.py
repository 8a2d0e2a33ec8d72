"""The labour of the work: the hands of each step, and the hours that are paid.

Decisions:

* A step's person-hours are its hands times its working hours: who waits for the mixer is paid. Nights between its parts
  are not work.
* A task's hours are those of the steps that it runs in. Chasing and patching take turns, so they share the hours of a
  repair as their own times do, at the hands of the larger. So steps, tasks and the total are equal.
* A broadcast is cast by the hands of the layer that it goes into, and its own step has none.
* People are needed where no night lies between: the most that any one step takes.
* Labour is priced beside the order and is no part of its totals or of its tax.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Annotated

from gaugerake.answers.job.remarks import Remark, assumption, caution
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.answers.return_times.run_remarks import layer_name
from gaugerake.catalogue.file.codes import MINOR_UNITS
from gaugerake.floor.clock.timetable import Step, StepKind
from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.tasks import Manning, Task, TaskWork, make_task_work
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.money import to_minor
from gaugerake.floor.values.note import Say, listed

HOUR_S = 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskLabour:
    """One task of the job, over all steps that it runs in."""

    task: Annotated[Task, "What the hands do, as `work.crew.hands` calls it."]
    quantity: Annotated[Figure, "What is done of it."]
    rate: Annotated[Figure | None, "What its hands do together; null where it goes at no one rate, as mixing."]
    hands: Annotated[int, "That are paid while it goes on; of `mix`, at all stations."]
    hours: Annotated[Figure, "Of work, in the steps that it runs in."]
    person_hours: Annotated[Figure, "What is paid for it: hands times hours, the wait for the mixer included."]


_make_task_labour = maker(TaskLabour)


@dataclass(frozen=True, slots=True, kw_only=True)
class Labour:
    """The work of the crew."""

    people_needed: Annotated[int, "The most that any one step takes."]
    person_hours: Annotated[Figure, "Of all steps, as of all tasks."]
    cost: Annotated[Decimal | None, "At `crew.hourly_cost`, no part of the order; null without one."]
    tasks: Annotated[tuple[TaskLabour, ...], "A row for each task that the job has."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ManWork:
    """The tasks of one step, and the hands that it takes for ``work_s`` [s]."""

    works: tuple[TaskWork, ...]
    hands: int
    work_s: float

    @property
    def person_s(self) -> float:
        """The hours that are paid [s]."""
        return self.hands * self.work_s


_make_man_work = maker(ManWork)


def steps_labour(timetable: Timetable) -> tuple[ManWork, ...]:
    """The hands of each step of the likely run, in its order."""
    crew = CrewOnSite(rooms=timetable.takeoff.rooms, rates=timetable.resolved.work.crew.rates())
    manning = manning_of(timetable)
    return tuple([_step_labour(timetable, crew, manning, step) for step in timetable.runs.likely.steps])


def _step_labour(timetable: Timetable, crew: CrewOnSite, manning: Manning, step: Step) -> ManWork:
    works = _tasks(timetable, crew, step)
    return _make_man_work(works=works, hands=manning.needed(works), work_s=step.work_s)


def manning_of(timetable: Timetable) -> Manning:
    """The hands of the job's crew."""
    return timetable.resolved.work.crew.manning()


def labour_of(timetable: Timetable, steps: Sequence[ManWork]) -> Labour:
    """The labour of the likely run, that of its steps together."""
    person_s, crew = math.fsum(step.person_s for step in steps), timetable.resolved.work.crew
    return Labour(
        people_needed=max((step.hands for step in steps), default=0),
        person_hours=Figure(person_s, Kind.DURATION),
        cost=None if crew.hourly_cost is None else _cost(timetable, person_s, crew.hourly_cost),
        tasks=tuple(_task_rows(steps, manning_of(timetable))),
    )


def _cost(timetable: Timetable, person_s: float, hourly_cost: Decimal) -> Decimal:
    """The hours at their price, rounded once; a millisecond is float noise."""
    digits = MINOR_UNITS[timetable.resolved.supply.book.currency]
    return to_minor(amount=Decimal(str(round(person_s, 3))) * hourly_cost / HOUR_S, digits=digits)


def _task_rows(steps: Sequence[ManWork], manning: Manning) -> Iterator[TaskLabour]:
    runs: dict[Task, list[tuple[ManWork, TaskWork]]] = {}
    for step in steps:
        for work in step.works:
            runs.setdefault(work.task, []).append((step, work))
    return (_task_row(task, runs[task], manning) for task in Task if task in runs)


def _task_row(task: Task, runs: Sequence[tuple[ManWork, TaskWork]], manning: Manning) -> TaskLabour:
    rates = {one.rate for _, one in runs}
    hours = [step.work_s * one.share_fraction for step, one in runs]
    paid = [manning.paid(one, step.works) for step, one in runs]
    person_s = math.fsum([hands * work_s for hands, work_s in zip(paid, hours, strict=True)])
    return _make_task_labour(
        task=task,
        quantity=Figure(math.fsum([one.quantity.value for _, one in runs]), runs[0][1].quantity.kind),
        rate=rates.pop() if len(rates) == 1 else None,
        hands=max(paid),
        hours=Figure(math.fsum(hours), Kind.DURATION),
        person_hours=Figure(person_s, Kind.DURATION),
    )


def _tasks(timetable: Timetable, crew: CrewOnSite, step: Step) -> tuple[TaskWork, ...]:
    """What hands do in a step."""
    takeoff, rates = timetable.takeoff, crew.rates
    if step.kind is StepKind.PREPARE:
        stated = timetable.resolved.work.preparation_s.value is not None
        rate = None if stated else Figure(rates.prepare_rate_m2_s, Kind.AREA_RATE)
        return (make_task_work(task=Task.PREPARE, quantity=Figure(crew.gross_area_m2, Kind.AREA), rate=rate),)
    if step.kind is StepKind.SAW:
        rate = Figure(rates.saw_rate_m_s, Kind.LENGTH_RATE)
        return (make_task_work(task=Task.SAW, quantity=Figure(crew.keyway_m, Kind.LENGTH), rate=rate),)
    area = Figure(crew.area_m2, Kind.AREA)
    if step.kind is StepKind.CLEAR:
        return (make_task_work(task=Task.CLEAR, quantity=area, rate=Figure(rates.clearing_rate_m2_s, Kind.AREA_RATE)),)
    if step.kind is StepKind.ABRADE:
        return (make_task_work(task=Task.ABRADE, quantity=area, rate=Figure(rates.coating_rate_m2_s, Kind.AREA_RATE)),)
    need = next(need for need in takeoff.layers if need.layer.id == step.layer)
    return need.layer.tasks(need, crew.casting(takeoff.cast_kg_m2(need.layer)))


def labour_remarks(timetable: Timetable, steps: Sequence[ManWork]) -> Iterator[Remark]:
    """The hands that are assumed, and the steps that the crew is too few for; the pour's own are the pour plan's."""
    crew = timetable.resolved.work.crew
    taken: dict[Task, int] = {}
    for step, labour in zip(timetable.runs.likely.steps, steps, strict=True):
        taken |= {one.task: crew.hands.value[one.task] for one in labour.works if one.task in crew.hands_unsaid}
        if crew.people is not None and labour.hands > crew.people and not _is_pour(timetable, step):
            layer = layer_name(timetable.resolved, step.layer)
            what = Say(code=f"step-{step.kind}", params={"layer": layer})
            yield caution("short-handed", "/work/crew/people", what=what, hands=labour.hands, people=crew.people)
    if taken:
        hands = [Say(code=f"task-hands-{task}", params={"count": taken[task]}) for task in Task if task in taken]
        yield assumption("crew-hands", "/work/crew/hands", None, hands=listed(code="task-hands-list", phrases=hands))


def _is_pour(timetable: Timetable, step: Step) -> bool:
    poured = [need.layer.id for need in timetable.takeoff.layers if need.layer.pour is not None]
    return step.kind is StepKind.APPLY and step.layer in poured
