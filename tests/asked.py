"""A job about to be answered, for tests that ask for one part of an answer and look at what is said beside it."""

from collections.abc import Callable, Iterable
from datetime import datetime
from typing import Any, TypeVar

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.remarks import Remark, sort_remarks
from gaugerake.answers.job.resolve import resolve
from gaugerake.answers.job.resolved import ResolvedJob, Supply
from gaugerake.answers.job.taken import asked
from gaugerake.answers.job.working import Working
from gaugerake.answers.pour_plan import answer as pour_plans
from gaugerake.answers.pour_plan.answer import PourPlan
from gaugerake.answers.quantities.answer import Quantities
from gaugerake.answers.quote import answer as quotes
from gaugerake.answers.quote.answer import WholeQuote
from gaugerake.answers.quote.parts import quantities_alone, readiness_alone
from gaugerake.answers.readiness.body import Readiness
from gaugerake.answers.return_times import answer as timetables
from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.answers.return_times.plan import Timetable, make_timetable, timetable_remarks
from gaugerake.answers.takeoff import measure
from gaugerake.answers.takeoff.remarks import takeoff_remarks
from gaugerake.answers.takeoff.survey import Survey, survey_rooms
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.floor.job import Job
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.product import PriceBook
from gaugerake.floor.system import Catalogue
from gaugerake.floor.values.note import Note
from gaugerake.web.json_in.schemas.job import JOB

T = TypeVar("T")


def resolved(document: dict[str, Any]) -> ResolvedJob:
    """A job document resolved against the demonstration."""
    held = demo_snapshot()
    supply = Supply(catalogue=held.catalogue, revision=held.revision, price_book=asked(held.list_book))
    return resolve(JOB.load(document), supply)


class Said:
    """What has been said so far, and the working where it is asked for."""

    def __init__(self, *, with_working: bool = False) -> None:
        self.working: list[Working] | None = [] if with_working else None
        self._remarks: list[Remark] = []

    def say(self, remarks: Iterable[Remark]) -> None:
        self._remarks += remarks

    @property
    def assumptions(self) -> tuple[Note, ...]:
        return sort_remarks(self._remarks).assumptions

    @property
    def cautions(self) -> tuple[Note, ...]:
        return sort_remarks(self._remarks).cautions

    @property
    def missing(self) -> tuple[Note, ...]:
        return sort_remarks(self._remarks).missing


class Asked:
    """One job against one catalogue; each part is made once."""

    def __init__(
        self,
        *,
        job: Job,
        catalogue: Catalogue,
        revision: str,
        book: PriceBook,
        book_id: str | None = None,
        with_working: bool = False,
    ) -> None:
        supply = Supply(catalogue=catalogue, revision=revision, price_book=asked(book), book_id=book_id)
        self.job, self.catalogue, self.book = job, catalogue, book
        self.resolved = resolve(job, supply)
        self.system = self.resolved.system
        self.record = Said(with_working=with_working)
        self._shared: dict[object, object] = {}

    @property
    def explained(self) -> bool:
        return self.record.working is not None

    def shared(self, make: "Callable[[Asked], T]") -> T:
        if make not in self._shared:
            self._shared[make] = make(self)
        return self._shared[make]  # type: ignore[return-value]

    def say(self, answer: Answer[T]) -> T:
        self.record.say(answer.remarks)
        if self.record.working is not None:
            self.record.working.extend(answer.working)
        return answer.body


def survey(asked: Asked) -> Survey:
    return survey_rooms(asked.resolved.rooms)


def take_off(asked: Asked) -> Takeoff:
    takeoff = measure.take_off(asked.resolved, asked.shared(survey))
    asked.record.say(takeoff_remarks(asked.resolved, takeoff))
    return takeoff


def timetable(asked: Asked) -> Timetable:
    return make_timetable(asked.resolved, measure.measure_job(asked.resolved, asked.shared(survey)))


def work_span(asked: Asked) -> tuple[datetime, datetime] | None:
    asked.record.say(timetable_remarks(asked.shared(timetable)))
    return timetables.work_span(asked.shared(timetable))


def readiness(asked: Asked) -> Readiness:
    return asked.say(readiness_alone(asked.resolved, explained=asked.explained))


def quantities(asked: Asked) -> Quantities:
    return asked.say(quantities_alone(asked.resolved, explained=asked.explained))


def pour_plan(asked: Asked, *, with_mixes: bool = True) -> PourPlan:
    made = asked.shared(timetable)
    return asked.say(pour_plans.pour_plan(made, with_mixes=with_mixes, explained=asked.explained))


def return_times(asked: Asked) -> ReturnTimes:
    return asked.say(timetables.return_times(asked.shared(timetable), explained=asked.explained))


def quote(asked: Asked) -> WholeQuote:
    return asked.say(quotes.quote(asked.resolved, explained=asked.explained))
