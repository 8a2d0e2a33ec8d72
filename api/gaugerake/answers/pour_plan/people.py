"""Whether a pour has the people that it takes, and how many more a remedy takes.

Decisions:

* A pour mixes, places, rolls and casts at once, so it takes the hands of all four together. Too few is as bad as a lost
  edge: the pour is not feasible, and its bottleneck is ``people``, whatever its edges are.
* More people alone are the remedy only where nothing else is wrong. Where an edge is lost, or there are no hours to
  pour in, they mend nothing.
* A remedy with which more people are needed than the crew has says so too: it is combined with them. What would take
  more than 200 people is no remedy.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import cast

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.change import AnyRemedy, CombinedPourRemedy, PourChange, PourRemedy, together
from gaugerake.answers.wet_edge.hands import pour_hands, too_few
from gaugerake.answers.wet_edge.judge import Judged
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.note import Say

MOST_PEOPLE = 200
POINTER = "/work/crew/people"


def people_remarks(resolved: ResolvedJob, takeoff: Takeoff) -> Iterator[Remark]:
    """A caution where the pour has too few people."""
    if too_few(resolved, takeoff):
        hands, people = pour_hands(resolved, takeoff), resolved.work.crew.people
        yield caution("pour-short-handed", POINTER, hands=hands, people=people)


def manned(
    resolved: ResolvedJob, takeoff: Takeoff, judged: Judged, remedies: Iterable[AnyRemedy]
) -> tuple[AnyRemedy, ...]:
    """The remedies, each with the people that it takes; where only people are too few, more people are the remedy."""
    found = [one for remedy in remedies if (one := _with_people(resolved, takeoff, remedy)) is not None]
    if judged.feasible is False or not too_few(resolved, takeoff):
        return tuple(found)
    needed = pour_hands(resolved, takeoff)
    return (_more_people(resolved, needed),) if needed <= MOST_PEOPLE else ()


def _with_people(resolved: ResolvedJob, takeoff: Takeoff, remedy: AnyRemedy) -> AnyRemedy | None:
    people = resolved.work.crew.people
    if people is None:
        return remedy
    needed = pour_hands(resolved, takeoff, station_count=_stations(remedy))
    if needed <= people:
        return remedy
    if needed > MOST_PEOPLE:
        return None
    more = _more_people(resolved, needed)
    if isinstance(remedy, PourRemedy):
        return together([remedy, more])
    changes = Say(code="pour-remedy-list", params={"first": more.text, "rest": remedy.text.params["changes"]})
    also = (*remedy.also, PourChange(kind=more.kind, pointer=more.pointer, value=more.value))
    return replace(remedy, text=Say(code=remedy.text.code, params={"changes": changes}), also=also)


def _more_people(resolved: ResolvedJob, needed: int) -> PourRemedy:
    text = Say(code="pour-remedy-people", params={"people": needed, "now": resolved.work.crew.people})
    return PourRemedy(kind="people", text=text, pointer=POINTER, value=needed)


def _stations(remedy: AnyRemedy) -> int | None:
    """How many stations a remedy asks for; None when it does not change them."""
    own = (remedy.first if isinstance(remedy, CombinedPourRemedy) else remedy.kind, remedy.value)
    also = remedy.also if isinstance(remedy, CombinedPourRemedy) else ()
    for kind, value in (own, *((change.kind, change.value) for change in also)):
        if kind == "mixing-stations":
            return cast(int, value)
        if kind == "stations-and-placing":
            return cast(int, cast(dict[str, object], value)["mixing_stations"])
    return None
