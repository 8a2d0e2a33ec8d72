"""What every answer is made from: the job, its system, the catalogue's revision, the price book; and what they share.

An answer is a pure function of these. What several answers need (the takeoff, the clock's runs) is worked out once
per context, by whichever asks first; what it assumes is then recorded once too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.record import Record
from gaugerake.answers.job.resolve import resolve, with_work
from gaugerake.answers.job.resolved import ResolvedJob, Supply
from gaugerake.answers.job.taken import Taken
from gaugerake.floor.job import Job, Work
from gaugerake.floor.product import PriceBook
from gaugerake.floor.system import Catalogue, System
from gaugerake.floor.values.errors import UnknownName

T = TypeVar("T")


class Context:
    """One job against one catalogue revision and one price book."""

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
        """Look the system up. ``book_id`` names the content of a branch's book, None the revision's own prices.

        Raises
        ------
        Refused
            When the catalogue has no such system; the error names those that it has.
        """
        system = catalogue.systems.get(job.system)
        if system is None:
            raise Refused(Fault("/system", UnknownName("system", seen=job.system, known=catalogue.systems)))
        self.job: Job = job
        self.system: System = system
        self.catalogue = catalogue
        self.revision = revision
        self.book = book
        self.book_id = book_id
        self.record = Record(with_working=with_working)
        supply = Supply(catalogue=catalogue, revision=revision, book=book, book_id=book_id)
        self.resolved: ResolvedJob = resolve(job, supply)
        self._shared: dict[Callable[[Context], object], object] = {}

    def take(self, taken: Taken[T]) -> T:
        """A resolved value; its remarks are recorded."""
        self.record.say(taken.remarks)
        return taken.value

    def shared(self, make: Callable[[Context], T]) -> T:
        """``make(self)``, worked out once: ``context.shared(take_off)``."""
        if make not in self._shared:
            self._shared[make] = make(self)
        return self._shared[make]  # type: ignore[return-value]

    def with_work(self, work: Work, *, keep: Iterable[Callable[[Context], object]] = ()) -> Context:
        """The same job with other work, and a record of its own; ``keep`` names what work does not touch."""
        changed = self._again(with_work(self.resolved, work))
        changed._shared.update((make, self._shared[make]) for make in keep if make in self._shared)
        return changed

    def aside(self, make: Callable[[Context], T]) -> T:
        """``make(self)`` for one answer's use of another: what it says beside its figures is not said again here."""
        if make in self._shared:
            return self._shared[make]  # type: ignore[return-value]
        other = self._again(self.resolved)
        other._shared = dict(self._shared)
        return make(other)

    def _again(self, resolved: ResolvedJob) -> Context:
        """The same catalogue and book, and a record of its own."""
        other = object.__new__(Context)
        other.__dict__.update(self.__dict__)
        other.job, other.resolved, other.record, other._shared = resolved.asked, resolved, Record(), {}
        return other
