"""What every answer carries beside its own figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Annotated

from gaugerake import __version__
from gaugerake.answers.job.remarks import Remark, caution, sort_remarks
from gaugerake.answers.job.resolved import Supply
from gaugerake.floor.system import Catalogue
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named
from gaugerake.floor.values.note import Note


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """The catalogue that the figures come from."""

    title: Annotated[Named, "As its keeper calls it."]
    invented: Annotated[bool, "Whether its products, figures and prices are made up for demonstration."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Envelope:
    """Where an answer comes from, what it assumes, what to beware of and what would sharpen it."""

    catalogue_revision: Annotated[str, "The SHA-256 of the catalogue that it was answered from."]
    engine: Annotated[str, "Version of the arithmetic: the same job, revision, price book and engine answer the same."]
    catalogue: Annotated[Source, "The catalogue that the figures are from."]
    assumptions: Annotated[tuple[Note, ...], "What was left unsaid and how it was taken."]
    cautions: Annotated[
        tuple[Note, ...],
        "What to beware of, this job's own first: part of the answer, to be shown with it.",
    ]
    missing: Annotated[tuple[Note, ...], "What would sharpen the answer."]


def envelope(supply: Supply, remarks: Iterable[Remark]) -> Envelope:
    """The envelope of an answer from what is said beside its figures."""
    found = sort_remarks((*remarks, *source_remarks(supply.catalogue)))
    return Envelope(
        catalogue_revision=supply.revision,
        engine=__version__,
        catalogue=Source(title=supply.catalogue.title, invented=supply.catalogue.invented),
        assumptions=found.assumptions,
        cautions=found.cautions,
        missing=found.missing,
    )


def source_remarks(catalogue: Catalogue) -> Iterator[Remark]:
    """What is said of every figure of a catalogue."""
    if catalogue.invented:
        yield caution("invented-data")
    yield caution("data-sheet-rules")
