"""What every answer carries beside its own figures."""

from __future__ import annotations

from typing import Annotated

from gaugerake import __version__
from gaugerake.answers.job.context import Context
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """The catalogue that the figures come from."""

    title: str
    invented: Annotated[bool, "Whether its products, figures and prices are made up for demonstration."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Envelope:
    """Where an answer comes from, what it assumes, what to beware of and what would sharpen it."""

    catalogue_revision: Annotated[str, "The SHA-256 of the catalogue that it was answered from."]
    engine: Annotated[str, "Version of the arithmetic: the same job, revision, price book and engine answer the same."]
    catalogue: Source
    assumptions: Annotated[tuple[Note, ...], "What was left unsaid and how it was taken."]
    cautions: Annotated[tuple[Note, ...], "What to beware of: part of the answer, to be shown with it."]
    missing: Annotated[tuple[Note, ...], "What would sharpen the answer."]


def envelope(context: Context) -> Envelope:
    """The envelope of an answer; call it when the answer itself is made, as making it is what fills the record."""
    catalogue, record = context.catalogue, context.record
    if catalogue.invented:
        record.caution("invented-data")
    record.caution("data-sheet-rules")
    return Envelope(
        catalogue_revision=context.revision,
        engine=__version__,
        catalogue=Source(title=catalogue.title, invented=catalogue.invented),
        assumptions=record.assumptions,
        cautions=record.cautions,
        missing=record.missing,
    )
