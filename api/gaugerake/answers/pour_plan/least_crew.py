"""The fewest mixing stations with which every edge of a pour holds, all else as the job says.

Decisions:

* Counts are looked at from 1 up, each in the hours that the timetable then gives: a slower pour runs into other
  temperatures. Where an open time is not stated nobody can say, and there is none.
* The search has 10,000 steps of the clock. Where it ends early there is none either, and a caution says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.pour_plan.change import with_crew
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.return_times.plan import Timetable, likely_runner, make_plan
from gaugerake.answers.wet_edge.hands import hands_inputs, pour_hands
from gaugerake.answers.wet_edge.judge import MOST_STATIONS, Judged, holds
from gaugerake.answers.wet_edge.site import pour_site
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say

MOST_STEPS = 10_000
PRACTICE = Say(code="source-pour-practice")


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastCrew:
    """The smallest crew that can pour the floor without losing an edge."""

    mixing_stations: Annotated[int, "The fewest with which every wet edge holds, all else as the job says."]
    people: Annotated[int, "The hands that the pour takes with them."]


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundCrew:
    """The least crew, and whether the search for it ended early."""

    crew: LeastCrew | None
    ended_early: bool = False


def least_crew(search: Search, judged: Judged) -> FoundCrew:
    """Look for the fewest stations; what is asked of ``search`` counts in a budget of its own."""
    if any(layer.layer.product.open_time is None for layer in search.site.layers):
        return FoundCrew(crew=None)
    budget = Budget(MOST_STEPS)
    if not search.could_hold_with({"mixing_stations": MOST_STATIONS}):
        return FoundCrew(crew=None)
    for count in range(1, MOST_STATIONS + 1):
        if not budget.allows():
            return FoundCrew(crew=None, ended_early=True)
        own = count == search.crew.mixing_stations
        if judged.feasible is True if own else _holds_with(search, count, budget):
            people = pour_hands(search.resolved, search.takeoff, station_count=count)
            return FoundCrew(crew=LeastCrew(mixing_stations=count, people=people))
    return FoundCrew(crew=None)


def _holds_with(search: Search, count: int, budget: Budget) -> bool:
    """Whether every edge holds with so many stations, in the hours that the timetable then gives."""
    budget.spend(len(search.takeoff.rooms))
    if not search.could_hold_with({"mixing_stations": count}):
        return False
    work = with_crew(search.work, mixing_stations=count)
    always = search.steady or search.holds_always(work)  # at whatever hour it is poured
    if always and search.surely_ends(station_count=count):
        return True
    changed = search.changed(work)
    plan, runner = make_plan(changed, search.takeoff), likely_runner(changed.work.basis.value, budget)
    if always and runner.run(plan, late=False).complete:
        return True
    return holds(search.takeoff, pour_site(changed, search.takeoff, runner.run(plan)))


def least_remarks(found: FoundCrew) -> Iterator[Remark]:
    """A caution where the search ended early."""
    if found.ended_early:
        yield caution("least-crew-search-ended", "/work/crew/mixing_stations")


def explain_least(timetable: Timetable, found: FoundCrew) -> Iterator[Working]:
    """How the least crew came about."""
    if found.crew is None:
        return
    count = found.crew.mixing_stations
    tried = {"stations": count, "most": MOST_STATIONS}
    yield working("/least_crew/mixing_stations", "rule-pour-least-stations", tried, count, PRACTICE)
    inputs = hands_inputs(timetable.resolved, timetable.takeoff, count)
    yield working("/least_crew/people", "rule-labour-hands", inputs, found.crew.people, PRACTICE)
