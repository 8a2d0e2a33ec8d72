"""What every answer carries beside its own figures."""

from __future__ import annotations

from typing import Annotated

from gaugerake import __version__
from gaugerake.answers.context import Context
from gaugerake.floor.caution import Note
from gaugerake.floor.value import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """The catalogue that the figures come from."""

    title: str
    invented: Annotated[bool, "Whether its products, figures and prices are made up for demonstration."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Envelope:
    """Where an answer comes from, what it assumes, what to beware of and what would sharpen it."""

    catalogue_revision: str
    engine: Annotated[str, "Version of the arithmetic: the same job, revision, price book and engine answer the same."]
    catalogue: Source
    assumptions: tuple[Note, ...]
    cautions: tuple[Note, ...]
    missing: tuple[Note, ...]


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
