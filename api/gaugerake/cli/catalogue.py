"""The commands below ``gaugerake catalogue``."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.cli.casework import cases_of, catalogue_of, tried
from gaugerake.cli.commands import Group
from gaugerake.cli.files import read_text, the_store
from gaugerake.cli.outcome import DONE, Hindered, Outcome, caution_lines, refused_file, remarks_data, said
from gaugerake.floor.values.frozen import replace

_FILE = ("FILE", "a catalogue in YAML")
_BEGINNING = 'beginning of a revision, or "current"'


def add(commands: Group) -> None:
    """Add the commands."""
    revision = ("REVISION", _BEGINNING)
    sides = (("OLD", f"{_BEGINNING}, or a file"), ("NEW", f"{_BEGINNING}, or a file"))
    commands.command("check", _check, "tell all that is wrong with a file", (_FILE,))
    load = commands.command("load", _load, "keep a file as a revision and use it", (_FILE,))
    commands.option(load, "--cases", metavar="CASES", help="worked cases that it must give, or it is refused")
    commands.command("list", _list, "list the revisions, the newest first")
    commands.command("show", _show, "tell what a revision holds", (revision,))
    commands.command("export", _export, "write a revision's file to the standard output", (revision,))
    commands.command("use", _use, "use a revision that is kept", (revision,))
    commands.command("diff", _diff, "tell what differs between two revisions or files", sides)
    commands.command("schema", _schema, "write the form of a catalogue's file as a JSON Schema, for editors")


def _schema(_asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.file.schema import catalogue_schema

    made = catalogue_schema()
    return Outcome(raw=f"{json.dumps(made, ensure_ascii=False, indent=2)}\n", data=made)


def _check(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.file.format import load_text

    file = asked.file
    try:
        loaded = load_text(read_text(file))
    except FileRefused as error:
        return refused_file(file, error)
    systems, products = len(loaded.catalogue.systems), len(loaded.catalogue.products)
    return Outcome(
        lines=(f"{file}: sound; systems: {systems}, products: {products}",),
        asides=caution_lines(file, loaded.cautions),
        data={
            "file": file,
            "sound": True,
            "systems": systems,
            "products": products,
            "cautions": remarks_data(loaded.cautions),
        },
    )


def _load(asked: argparse.Namespace) -> Outcome:
    broken = _broken(asked.file, asked.cases) if asked.cases else None
    if broken:
        return broken
    try:
        kept = the_store().load(read_text(asked.file))
    except FileRefused as error:
        return refused_file(asked.file, error)
    return Outcome(
        lines=(f"revision {kept.revision[:12]} {'is kept' if kept.new else 'was kept already'} and is in use",),
        asides=caution_lines(asked.file, kept.cautions),
        data={"revision": kept.revision, "new": kept.new, "cautions": remarks_data(kept.cautions)},
    )


def _broken(file: str, cases_file: str) -> Outcome | None:
    """Why a catalogue is not loaded that must give the figures of worked cases; None when it gives them all."""
    cases = cases_of(cases_file)
    outcome = tried(cases_file, cases, catalogue_of(file, with_books=any(case.price_book for case in cases)))
    if outcome.code == DONE:
        return None
    return replace(outcome, lines=(*outcome.lines, f"{file} is not loaded, and what was in use stays so"))


def _list(_asked: argparse.Namespace) -> Outcome:
    revisions = the_store().revisions()
    return Outcome(
        lines=[
            f"{'*' if one.current else ' '} {one.revision[:12]}  {one.created_at:%Y-%m-%d %H:%M} UTC  {one.title}"
            for one in revisions
        ],
        data=[
            {
                "revision": one.revision,
                "created": one.created_at.isoformat(),
                "title": one.title,
                "in_use": one.current,
            }
            for one in revisions
        ],
    )


def _show(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.file.summary import summary, summary_data

    store = the_store()
    revision = store.resolve(asked.revision)
    source = store.source(revision)
    return Outcome(lines=summary(revision, source), data=summary_data(revision, source))


def _export(asked: argparse.Namespace) -> Outcome:
    store = the_store()
    revision = store.resolve(asked.revision)
    source = store.source(revision)
    return Outcome(raw=source, data={"revision": revision, "source": source})


def _use(asked: argparse.Namespace) -> Outcome:
    store = the_store()
    revision = store.resolve(asked.revision)
    store.use(revision)
    return said(f"revision {revision[:12]} is in use", revision=revision)


def _diff(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.file.difference import differences

    lines = differences(_either(asked.old), _either(asked.new))
    return Outcome(lines=lines or ["no difference"], data={"differences": lines})


def _either(name: str) -> str:
    """The text of a revision, or of a file when there is one of that name."""
    from gaugerake.catalogue.file.format import load_text

    if not Path(name).is_file():
        store = the_store()
        return store.source(store.resolve(name))
    text = read_text(name)
    try:
        load_text(text)
    except FileRefused as error:
        raise Hindered(f"{name} has faults; see them with: gaugerake catalogue check {name}") from error
    return text
