"""The commands below ``gaugerake cases``."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, get_args

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.cli.casework import cases_of, catalogue_in_use, catalogue_of, tried
from gaugerake.cli.commands import Group
from gaugerake.cli.files import read_text
from gaugerake.cli.outcome import Hindered, Outcome, RefusedFile
from gaugerake.measure.choice import ChoiceName

if TYPE_CHECKING:
    from gaugerake.catalogue.store.snapshot import Snapshot

_RECORDED = (
    "# What the catalogue's revision {} gave on the day of writing: a case is worth what the check of its figures is.\n"
)


def add(commands: Group) -> None:
    """Add the commands."""
    check = commands.command(
        "check",
        _check,
        "tell which figures of worked cases differ, and by how much",
        (("FILE", "worked cases in YAML"),),
        more="The catalogue in use is asked, unless another is named.",
    )
    record = commands.command(
        "record",
        _record,
        "write a file of worked cases from jobs, with the figures that they give now",
        more="The file goes to the standard output. Look each figure over: what is wrong now is recorded as it is.",
    )
    commands.option(record, "jobs", metavar="JOB", nargs="+", help="a job document in JSON or YAML")
    commands.option(
        record, "--at", metavar="POINTER", action="append", default=[], help="a JSON Pointer to record; may be repeated"
    )
    commands.option(record, "--units", choices=get_args(ChoiceName), default="us", help="units of the figures (us)")
    for command in (check, record):
        commands.option(command, "--catalogue", metavar="NEW", help="a catalogue in YAML that need not be loaded")


def _check(asked: argparse.Namespace) -> Outcome:
    cases = cases_of(asked.file)
    return tried(asked.file, cases, _catalogue(asked.catalogue, [case.price_book for case in cases]))


def _record(asked: argparse.Namespace) -> Outcome:
    from gaugerake import __version__
    from gaugerake.web.describe.yaml_text import yaml_text

    jobs = {Path(file).stem: _job(file) for file in asked.jobs}
    if len(jobs) < len(asked.jobs):
        raise Hindered("two jobs have one name: a case is called as its file is, so rename one")
    snapshot = _catalogue(asked.catalogue, [])
    made: dict[str, Any] = {
        "worked_cases": f"Recorded by gaugerake {__version__}",
        "cases": [_case(name, job, snapshot, asked) for name, job in jobs.items()],
    }
    return Outcome(raw=_RECORDED.format(snapshot.revision[:12]) + yaml_text(made), data=made)


def _catalogue(file: str | None, books: Sequence[str | None]) -> Snapshot:
    return catalogue_in_use() if file is None else catalogue_of(file, with_books=any(books))


def _job(file: str) -> Any:
    from gaugerake.catalogue.cases.file import read_job

    try:
        return read_job(read_text(file))
    except FileRefused as error:
        raise RefusedFile(file, error) from None


def _case(name: str, job: Any, snapshot: Snapshot, asked: argparse.Namespace) -> dict[str, Any]:
    from gaugerake.catalogue.cases.pointers import NothingThere
    from gaugerake.catalogue.cases.record import SeveralThere, recorded
    from gaugerake.web.api.one_quote import one_quote

    explained = any(pointer.startswith("/working") for pointer in asked.at)
    answer = one_quote(job, snapshot, units=asked.units, explained=explained)
    try:
        return recorded(name, job, answer, asked.at, units=asked.units)
    except NothingThere as error:
        known = f"; {error.reached or 'the answer'} has {', '.join(error.known[:20])}" if error.known else ""
        raise Hindered(f"{name}: the answer has nothing at {error.pointer}{known}") from None
    except SeveralThere as error:
        raise Hindered(f"{name}: several values stand there: point at one, such as {error}") from None
