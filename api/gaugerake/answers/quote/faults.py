"""All that a job says wrong, in one refusal.

Decisions:

* An answer stops at the first value that it cannot take. Only then is the rest of the job asked for its faults, so a
  job without any costs nothing more. Rooms that were measured to find theirs are not measured again.
* A fault that keeps another from being found hides that one alone: an unknown system hides what depends on its layers,
  an unknown zone the times in it, an impossible shape what is placed in it.
* Readiness lists no fault of the thickness or of optional layers: it judges the one as a check and needs no other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields
from functools import wraps
from operator import attrgetter
from typing import Any, Concatenate, ParamSpec, TypeVar

from gaugerake.answers.job.errors import Fault, Refused, RoomsRefused
from gaugerake.answers.job.resolved import ResolvedAir, ResolvedJob, ResolvedRoom, ResolvedWork
from gaugerake.answers.job.taken import Taken
from gaugerake.answers.quantities.offered import order_faults
from gaugerake.answers.takeoff.measure import room_faults
from gaugerake.answers.takeoff.survey import survey_rooms

P = ParamSpec("P")
R = TypeVar("R")
Answering = Callable[Concatenate[ResolvedJob, P], R]


def refusing_all(find: Callable[[ResolvedJob], Iterator[Fault]]) -> Callable[[Answering[P, R]], Answering[P, R]]:
    """Let an answer that refuses a job refuse it with every fault that ``find`` finds."""

    def whole(answer: Answering[P, R]) -> Answering[P, R]:
        @wraps(answer)
        def answered(resolved: ResolvedJob, /, *args: P.args, **kwargs: P.kwargs) -> R:
            if resolved.unknown:
                raise Refused(*_once((*resolved.unknown, *find(resolved))))
            try:
                return answer(resolved, *args, **kwargs)
            except RoomsRefused as error:
                raise Refused(*_once((*error.faults, *unmeasured_faults(resolved)))) from None
            except Refused as error:
                raise Refused(*_once((*find(resolved), *error.faults))) from None

        return answered

    return whole


def job_faults(resolved: ResolvedJob) -> Iterator[Fault]:
    """All faults of a job: of its rooms and layers, its work and slab, and its order."""
    yield from room_faults(resolved, survey_rooms(resolved.rooms))
    yield from unmeasured_faults(resolved)


def unmeasured_faults(resolved: ResolvedJob) -> Iterator[Fault]:
    """The faults of a job that are found without measuring its rooms."""
    yield from _taken_faults(resolved)
    yield from order_faults(resolved)


def slab_faults(resolved: ResolvedJob) -> Iterator[Fault]:
    """The faults that readiness refuses: of the rooms' shapes, the work and the slab."""
    yield from survey_rooms(resolved.rooms).faults
    yield from _taken_faults(resolved.work)
    yield from resolved.age_s.faults
    yield from resolved.named_rooms.faults


_HELD: dict[type, Callable[[Any], tuple[Any, ...]]] = {
    kind: attrgetter(*[field.name for field in fields(kind)])
    for kind in (ResolvedJob, ResolvedRoom, ResolvedWork, ResolvedAir)
}
"""What each kind that holds taken values has in its fields; a plain tuple holds them itself, a named one none."""
_HELD[tuple] = tuple


def _taken_faults(value: object) -> Iterator[Fault]:
    """The faults of every value in a resolved job, or in a part of it."""
    for held in _HELD[type(value)](value):
        if type(held) is Taken:
            yield from held.faults
        elif type(held) in _HELD:
            yield from _taken_faults(held)


def _once(faults: tuple[Fault, ...]) -> Iterator[Fault]:
    """One fault of each kind at each place, in the order of finding."""
    found: dict[tuple[str, type], Fault] = {}
    for fault in faults:
        found.setdefault((fault.pointer, type(fault.error)), fault)
    yield from found.values()
