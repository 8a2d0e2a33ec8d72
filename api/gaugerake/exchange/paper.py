"""A quote as people hold it: the answer, what it rests on, and who reads it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from gaugerake.answers.job.envelope import Envelope, envelope
from gaugerake.answers.job.remarks import Remarks
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.taken import Taken
from gaugerake.answers.quote.answer import WholeQuote, quote
from gaugerake.answers.show.reader import Reader
from gaugerake.answers.show.words import sentence, written
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named
from gaugerake.floor.values.note import Note, Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What is written in the language and the units of a reader."""

    reader: Reader

    def phrase(self, code: str, **params: Value) -> str:
        """A phrase in the reader's language."""
        return sentence(code, params, self.reader)

    def says(self, note: Note) -> str:
        """The sentence of a note."""
        return sentence(note.code, {**note.params, "value": note.value}, self.reader)

    def writes(self, value: Value) -> str:
        """A figure in the reader's units."""
        return written(value, self.reader)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cautioned(Written):
    """What is written with cautions: those said first, and where all of them stand."""

    envelope: Envelope

    @property
    def whose(self) -> str:
        """The quote's number and the job's own: what a page that comes loose is known by."""
        raise NotImplementedError

    @property
    def first(self) -> tuple[Note, ...]:
        """The notes of what must not be missed."""
        raise NotImplementedError

    @property
    def said_first(self) -> tuple[str, ...]:
        """What must not be missed, in the reader's language."""
        return tuple(map(self.says, self.first))


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper(Cautioned):
    """A quote to be written in another form; every form says the same of it."""

    quote: WholeQuote
    system: Named
    issued: date | None
    buyer: str | None
    tax_percent: Taken[Decimal]

    @property
    def number(self) -> str:
        """The quote's number as people read it out: twelve digits in fours."""
        return number_of(self.quote.fingerprint)

    @property
    def whose(self) -> str:
        """The quote's number, the job's reference and the buyer."""
        own = (self.phrase("print-quote", number=self.number), self.quote.reference, self.buyer)
        return ", ".join(filter(None, own))

    @property
    def first(self) -> tuple[Note, ...]:
        """What must not be missed in any form: invented data, another engine, totals that leave something out, an
        order that must not be placed."""
        cautions = [note for note in self.envelope.cautions if note.code in _FIRST]
        return (*cautions, *self.quote.quantities.blockers)

    @property
    def orderable(self) -> str:
        """Whether the order may be placed, what of it has no price yet, and what of the slab comes before the pour."""
        order, verdict = self.quote.quantities, self.quote.readiness.verdict
        if not order.orderable:
            return self.phrase("print-not-orderable")
        if order.totals.unpriced:
            return self.phrase(f"print-unpriced-{verdict}")
        return self.phrase(f"print-orderable-{verdict}")


_FIRST = {"invented-data", "other-engine", "no-price"}


def paper_of(resolved: ResolvedJob, remarks: Remarks, reader: Reader, *, token: str | None) -> Paper:
    """The paper of a job; ``remarks`` are said before those of its quote.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    answer = quote(resolved, token=token)
    return Paper(
        quote=answer.body,
        envelope=envelope(resolved.supply, (*remarks, *answer.remarks)),
        reader=reader,
        system=resolved.system.name,
        issued=resolved.order.issued,
        buyer=resolved.order.buyer,
        tax_percent=resolved.order.tax_percent,
    )


def number_of(fingerprint: str) -> str:
    """The first twelve digits of a fingerprint, in fours.

    >>> number_of("1a2b3c4d5e6f70819")
    '1a2b-3c4d-5e6f'
    """
    return "-".join(fingerprint[at : at + 4] for at in (0, 4, 8))
