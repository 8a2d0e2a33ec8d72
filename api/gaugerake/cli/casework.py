"""Trying worked cases with a catalogue: for ``gaugerake cases`` and for ``gaugerake catalogue load --cases``."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.cli.files import read_text, the_store
from gaugerake.cli.outcome import DONE, FAULTS, Json, Outcome, RefusedFile
from gaugerake.floor.values.frozen import replace

if TYPE_CHECKING:
    from gaugerake.catalogue.cases.compare import Difference
    from gaugerake.catalogue.cases.values import Case
    from gaugerake.catalogue.store.snapshot import Snapshot


def cases_of(file: str) -> tuple[Case, ...]:
    """The cases of a file.

    Raises
    ------
    Hindered, RefusedFile
    """
    from gaugerake.catalogue.cases.file import read_cases

    try:
        return read_cases(read_text(file))
    except FileRefused as error:
        raise RefusedFile(file, error) from None


def catalogue_in_use() -> Snapshot:
    """What is in use, with the price books of branches.

    Raises
    ------
    CatalogueError
    """
    store = the_store()
    return replace(store.snapshot(store.state()), access=None)


def catalogue_of(file: str, *, with_books: bool) -> Snapshot:
    """A catalogue that is not loaded yet; ``with_books`` adds the price books that would stay in use beside it.

    Raises
    ------
    Hindered, RefusedFile, CatalogueError
    """
    from gaugerake.catalogue.store.snapshot import snapshot_of

    try:
        bare = snapshot_of(read_text(file))
    except FileRefused as error:
        raise RefusedFile(file, error) from None
    return the_store().with_books(bare) if with_books else bare


def tried(file: str, cases: Sequence[Case], snapshot: Snapshot) -> Outcome:
    """What differs between the cases of a file and the answers that a catalogue gives; with code 1 if anything does."""
    from gaugerake.catalogue.cases.compare import differences
    from gaugerake.web.api.one_quote import one_quote

    found: list[Difference] = []
    for case in cases:
        found += differences(case, one_quote(case.job, snapshot, units=case.units, explained=case.explained))
    figures = sum(len(case.gives) for case in cases)
    lines = [f"{file}:{one.line}: {one.case}: {f'{one.pointer} ' if one.of_answer else ''}{one.text}" for one in found]
    summary = f"{file}: cases: {len(cases)}, figures: {figures}, differences: {len(found)}"
    return Outcome(
        lines=(*lines, summary),
        data={
            "file": file,
            "revision": snapshot.revision,
            "cases": len(cases),
            "figures": figures,
            "differences": [_data(one) for one in found],
        },
        code=FAULTS if found else DONE,
    )


def _data(one: Difference) -> dict[str, Json]:
    return {
        "line": one.line,
        "case": one.case,
        "pointer": one.pointer,
        "text": one.text,
        "expected": one.expected,
        "found": one.found,
        "by": one.by,
    }
