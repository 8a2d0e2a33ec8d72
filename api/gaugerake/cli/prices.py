"""The commands below ``gaugerake prices``."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.cli.commands import Group
from gaugerake.cli.files import read_prices, read_text, the_store
from gaugerake.cli.outcome import Hindered, Outcome, caution_lines, refused_file, remarks_data, said

if TYPE_CHECKING:
    from gaugerake.floor.product import PriceBook
    from gaugerake.floor.system import Catalogue

_BRANCH = ("BRANCH", "code of the branch")
_BOOK = 'code of a branch, "list" for the catalogue\'s own prices, or beginning of a list that "prices history" names'
_FILE = ("FILE", "prices in CSV, or the first sheet of an XLSX")


def add(commands: Group) -> None:
    """Add the commands."""
    sides = (("OLD", f"{_BOOK}; or a file"), ("NEW", f"{_BOOK}; or a file"))
    check = commands.command("check", _check, "tell all that is wrong with a price list", (_FILE,))
    commands.option(check, "--catalogue", metavar="NEW", help="a catalogue in YAML in place of the one in use")
    commands.command("load", _load, "use a CSV or XLSX of sku,price,from as the prices of a branch", (_BRANCH, _FILE))
    commands.command("list", _list, "list the branches that have prices")
    commands.command("show", _show, "tell each price of a price list", (("BOOK", _BOOK),))
    commands.command("export", _export, "write a price list to the standard output, in CSV", (("BOOK", _BOOK),))
    commands.command("diff", _diff, "tell what differs between two price lists or files", sides)
    commands.command(
        "history", _history, "list all price lists of a branch that are kept, the newest first", (_BRANCH,)
    )
    commands.command("drop", _drop, "use a branch's prices no longer", (_BRANCH,))


def _check(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store.books import check_book

    catalogue = _catalogue(asked.catalogue)
    try:
        loaded = check_book(read_prices(asked.file), catalogue)
    except FileRefused as error:
        return refused_file(asked.file, error)
    count = len(loaded.book.prices)
    return Outcome(
        lines=(f"{asked.file}: sound; prices: {count}",),
        asides=caution_lines(asked.file, loaded.cautions),
        data={"file": asked.file, "sound": True, "prices": count, "cautions": remarks_data(loaded.cautions)},
    )


def _catalogue(file: str | None) -> Catalogue:
    """The catalogue in use, or that of a file."""
    from gaugerake.catalogue.file.format import load_text
    from gaugerake.catalogue.store.books import catalogue_in_use

    if file is None:
        return catalogue_in_use(the_store())
    try:
        return load_text(read_text(file)).catalogue
    except FileRefused as error:
        raise Hindered(f"{file} has faults; see them with: gaugerake catalogue check {file}") from error


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


def _show(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.file.prices import price_line
    from gaugerake.catalogue.file.summary import price_data
    from gaugerake.catalogue.prices.price_book import descriptions
    from gaugerake.catalogue.store.books import catalogue_in_use, named_book

    store = the_store()
    book = named_book(store, asked.book).book
    called = descriptions(catalogue_in_use(store))
    rows = [(sku, called.get(sku), price) for sku, price in sorted(book.prices.items())]
    return Outcome(
        lines=[f"{sku}, {name or 'not in the catalogue in use'}: {price_line(price)}" for sku, name, price in rows],
        data={
            "branch": book.code,
            "currency": book.currency,
            "prices": [{"sku": sku, "description": name, "price": price_data(price)} for sku, name, price in rows],
        },
    )


def _export(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store.books import named_book

    named = named_book(the_store(), asked.book)
    return Outcome(raw=named.source, data={"branch": named.book.code, "source": named.source})


def _diff(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.prices.difference import price_differences

    lines = list(price_differences(_either(asked.old), _either(asked.new)))
    return Outcome(lines=lines or ["no difference"], data={"differences": lines})


def _either(name: str) -> PriceBook:
    """A price book that is kept, or that of a file when there is one of that name."""
    from gaugerake.catalogue.prices.price_book import read_price_book
    from gaugerake.catalogue.store.books import catalogue_in_use, named_book

    if not Path(name).is_file():
        return named_book(the_store(), name).book
    currency = catalogue_in_use(the_store()).currency
    try:
        return read_price_book(read_prices(name), branch="file", currency=currency).book
    except FileRefused as error:
        raise Hindered(f"{name} has faults; see them with: gaugerake prices check {name}") from error


def _history(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store.books import books_of

    found = books_of(the_store(), asked.branch)
    return Outcome(
        lines=[
            f"{'*' if one.in_use else ' '} {one.book[:12]}  {one.created_at:%Y-%m-%d %H:%M} UTC  prices: {one.prices}"
            for one in found
        ],
        data=[
            {
                "book": one.book,
                "created": one.created_at.isoformat(),
                "prices": one.prices,
                "in_use": one.in_use,
            }
            for one in found
        ],
    )


def _drop(asked: argparse.Namespace) -> Outcome:
    the_store().drop_book(asked.branch)
    return said(f"the prices of {asked.branch} are no longer in use", branch=asked.branch)
