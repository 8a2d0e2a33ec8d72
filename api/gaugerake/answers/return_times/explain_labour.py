"""How the hands and the paid hours came about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.sources import CREW_RATES
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.return_times.labour import Labour, ManWork, manning_of, steps_labour
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.floor.crew.tasks import Manning, Task
from gaugerake.floor.values.figure import Figure, Kind


def explain_labour(timetable: Timetable, labour: Labour) -> Iterator[Working]:
    """The working of each step's hands and hours, of each task's, and of the totals."""
    manning, steps = manning_of(timetable), steps_labour(timetable)
    for index, one in enumerate(steps):
        yield from _step(f"/steps/{index}", one, manning)
    for index, row in enumerate(labour.tasks):
        yield from _task(f"/labour/tasks/{index}", row.task, steps, manning, labour)
    yield from _totals(timetable, steps, labour)


def _step(at: str, step: ManWork, manning: Manning) -> Iterator[Working]:
    at_once = [one.task for one in step.works if one.share_fraction == 1]
    in_turns = [one.task for one in step.works if one.share_fraction < 1]
    hands: Inputs = {f"at_once_{task.value}": manning.of(task) for task in at_once}
    hands |= {f"in_turns_{task.value}": manning.of(task) for task in in_turns}
    yield working(f"{at}/hands", "rule-labour-hands", hands, step.hands, CREW_RATES)
    paid: Inputs = {"hands": step.hands, "work": Figure(step.work_s, Kind.DURATION)}
    result = Figure(step.person_s, Kind.DURATION)
    yield working(f"{at}/person_hours", "rule-labour-step", paid, result, CREW_RATES)


def _task(at: str, task: Task, steps: Sequence[ManWork], manning: Manning, labour: Labour) -> Iterator[Working]:
    row = next(row for row in labour.tasks if row.task is task)
    runs = [(step, one) for step in steps for one in step.works if one.task is task]
    amounts: Inputs = {f"quantity_{number}": one.quantity for number, (_, one) in enumerate(runs, 1)}
    yield working(f"{at}/quantity", "rule-labour-quantity", amounts, row.quantity, CREW_RATES)
    if row.rate is not None:
        yield working(f"{at}/rate", "rule-labour-rate", {"rate": row.rate}, row.rate, CREW_RATES)
    hands: Inputs = {f"hands_{number}": manning.paid(one, step.works) for number, (step, one) in enumerate(runs, 1)}
    yield working(f"{at}/hands", "rule-labour-task-hands", hands, row.hands, CREW_RATES)
    hours: Inputs = {}
    for number, (step, one) in enumerate(runs, 1):
        hours[f"work_{number}"] = Figure(step.work_s, Kind.DURATION)
        hours[f"share_{number}"] = one.share_fraction
    yield working(f"{at}/hours", "rule-labour-task-hours", hours, row.hours, CREW_RATES)
    yield working(f"{at}/person_hours", "rule-labour-task", hours | hands, row.person_hours, CREW_RATES)


def _totals(timetable: Timetable, steps: Sequence[ManWork], labour: Labour) -> Iterator[Working]:
    hands: Inputs = {f"hands_{number}": step.hands for number, step in enumerate(steps, 1)}
    yield working("/labour/people_needed", "rule-labour-people", hands, labour.people_needed, CREW_RATES)
    paid: Inputs = {f"paid_{number}": Figure(step.person_s, Kind.DURATION) for number, step in enumerate(steps, 1)}
    yield working("/labour/person_hours", "rule-labour-total", paid, labour.person_hours, CREW_RATES)
    hourly_cost = timetable.resolved.work.crew.hourly_cost
    if isinstance(labour.cost, Decimal) and hourly_cost is not None:
        cost: Inputs = {"person_hours": labour.person_hours, "hourly_cost": str(hourly_cost)}
        yield working("/labour/cost", "rule-labour-cost", cost, str(labour.cost), CREW_RATES)
