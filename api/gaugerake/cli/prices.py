"""The commands below ``gaugerake prices``."""

from __future__ import annotations

import argparse

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.cli.commands import Group
from gaugerake.cli.files import read_prices, the_store
from gaugerake.cli.outcome import Outcome, caution_lines, refused_file, remarks_data, said

_BRANCH = ("BRANCH", "code of the branch")
_FILE = ("FILE", "prices in CSV, or the first sheet of an XLSX")


def add(commands: Group) -> None:
    """Add the commands."""
    commands.command("load", _load, "use a CSV or XLSX of sku,price,from as the prices of a branch", (_BRANCH, _FILE))
    commands.command("list", _list, "list the branches that have prices")
    commands.command("drop", _drop, "use a branch's prices no longer", (_BRANCH,))


def _load(asked: argparse.Namespace) -> Outcome:
    try:
        loaded = the_store().load_book(asked.branch, read_prices(asked.file))
    except FileRefused as error:
        return refused_file(asked.file, error)
    count = len(loaded.book.prices)
    return Outcome(
        lines=(f"{count} prices of {asked.branch} are in use",),
        asides=caution_lines(asked.file, loaded.cautions),
        data={"branch": asked.branch, "prices": count, "cautions": remarks_data(loaded.cautions)},
    )


def _list(_asked: argparse.Namespace) -> Outcome:
    books = sorted(the_store().state().books.items())
    return Outcome(
        lines=[f"{branch}  {book[:12]}" for branch, book in books],
        data=[{"branch": branch, "book": book} for branch, book in books],
    )


def _drop(asked: argparse.Namespace) -> Outcome:
    the_store().drop_book(asked.branch)
    return said(f"the prices of {asked.branch} are no longer in use", branch=asked.branch)
