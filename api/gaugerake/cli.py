"""The command line: serve the API, and look after the catalogue.

Exit codes: 0 done, 1 a file with faults, 2 a command that cannot be read, 3 something else that stands in the way.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from gaugerake import __version__
from gaugerake.catalogue.errors import CatalogueError
from gaugerake.catalogue.file.faults import FileRefused, FileRemark
from gaugerake.cli_keys import add_database, add_keys
from gaugerake.environment import UnreadableSetting, take_files

if TYPE_CHECKING:
    from gaugerake.catalogue.store.revisions import Store

DONE, FAULTS, HINDERED = 0, 1, 3


class Hindered(Exception):
    """Something outside the command stands in its way; its text says what."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    asked = _parser().parse_args(arguments)
    try:
        take_files(os.environ)
        code: int = asked.run(asked)
    except (Hindered, CatalogueError, UnreadableSetting) as error:
        print(f"gaugerake: {error}", file=sys.stderr)
        return HINDERED
    except FileRefused as error:
        print(f"gaugerake: the kept catalogue cannot be read by this version:\n{error}", file=sys.stderr)
        return HINDERED
    except BrokenPipeError:
        sys.stderr.close()
        return HINDERED
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="gaugerake", description="Quotes and plans for seamless resinous floors.")
    parser.add_argument("--version", action="version", version=f"gaugerake {__version__}")
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    _add_serve(commands)
    _add_catalogue(commands.add_parser("catalogue", help="look after systems, products and list prices"))
    _add_prices(commands.add_parser("prices", help="look after the price lists of branches"))
    add_keys(commands.add_parser("key", help="look after the keys of those who may ask"))
    add_database(commands.add_parser("database", help="look after the form of the database"))
    commands.add_parser("openapi", help="write the description of the API (YAML)").set_defaults(run=_openapi)
    return parser


def _add_serve(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = commands.add_parser("serve", help="serve the API and the page")
    command.add_argument("--host", default="127.0.0.1", help="address to listen on (%(default)s)")
    command.add_argument("--port", type=_whole(1, 65535), default=8080, help="port to listen on (%(default)s)")
    command.add_argument("--workers", type=_whole(1, 256), default=2, help="worker processes (%(default)s)")
    command.set_defaults(run=_serve)


def _add_catalogue(parser: argparse.ArgumentParser) -> None:
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    for name, run, what, takes in (
        ("check", _check, "tell all that is wrong with a file", ("FILE",)),
        ("load", _load, "keep a file as a revision and use it", ("FILE",)),
        ("list", _list, "list the revisions, the newest first", ()),
        ("show", _show, "tell what a revision holds", ("REVISION",)),
        ("export", _export, "write a revision's file to the standard output", ("REVISION",)),
        ("use", _use, "use a revision that is kept", ("REVISION",)),
        ("diff", _diff, "tell what differs between two revisions or files", ("OLD", "NEW")),
    ):
        command = commands.add_parser(name, help=what, description=f"{what.capitalize()}.")
        for argument in takes:
            about = {"FILE": "a catalogue in YAML"}.get(argument, 'beginning of a revision, or "current"')
            command.add_argument(argument.lower(), metavar=argument, help=about)
        command.set_defaults(run=run)


def _add_prices(parser: argparse.ArgumentParser) -> None:
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    load = commands.add_parser("load", help="use a CSV or XLSX of sku,price,from as the prices of a branch")
    load.add_argument("branch", metavar="BRANCH", help="code of the branch")
    load.add_argument("file", metavar="FILE", help="prices in CSV, or the first sheet of an XLSX")
    load.set_defaults(run=_load_prices)
    commands.add_parser("list", help="list the branches that have prices").set_defaults(run=_list_prices)
    drop = commands.add_parser("drop", help="use a branch's prices no longer")
    drop.add_argument("branch", metavar="BRANCH", help="code of the branch")
    drop.set_defaults(run=_drop_prices)


def _whole(low: int, high: int) -> Callable[[str], int]:
    """Reads a whole number of a range from the command line."""

    def read(text: str) -> int:
        if not (text.isascii() and text.isdecimal() and len(text) < 9 and low <= int(text) <= high):
            raise argparse.ArgumentTypeError(f"write a whole number from {low} to {high}, not {text[:20]}")
        return int(text)

    return read


def _serve(asked: argparse.Namespace) -> int:
    gc.disable()  # what is loaded now is no garbage; it is looked for again from when the service is ready
    from gaugerake.web.server import serving  # not for the other commands: it loads the whole web edge

    return serving.serve(host=asked.host, port=asked.port, workers=asked.workers)


def _openapi(_asked: argparse.Namespace) -> int:
    from gaugerake.web.describe.description import description
    from gaugerake.web.describe.yaml_text import yaml_text

    sys.stdout.write(yaml_text(description()))
    return DONE


def _check(asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.file.format import load_text

    try:
        loaded = load_text(_read(asked.file))
    except FileRefused as error:
        return _tell(asked.file, error)
    _warn(asked.file, loaded.cautions)
    catalogue = loaded.catalogue
    print(f"{asked.file}: sound; systems: {len(catalogue.systems)}, products: {len(catalogue.products)}")
    return DONE


def _load(asked: argparse.Namespace) -> int:
    try:
        kept = _store().load(_read(asked.file))
    except FileRefused as error:
        return _tell(asked.file, error)
    _warn(asked.file, kept.cautions)
    print(f"revision {kept.revision[:12]} {'is kept' if kept.new else 'was kept already'} and is in use")
    return DONE


def _list(_asked: argparse.Namespace) -> int:
    for listed in _store().revisions():
        mark = "*" if listed.current else " "
        print(f"{mark} {listed.revision[:12]}  {listed.created_at:%Y-%m-%d %H:%M} UTC  {listed.title}")
    return DONE


def _show(asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.file.summary import summary

    store = _store()
    revision = store.resolve(asked.revision)
    print("\n".join(summary(revision, store.source(revision))))
    return DONE


def _export(asked: argparse.Namespace) -> int:
    store = _store()
    sys.stdout.buffer.write(store.source(store.resolve(asked.revision)).encode("utf-8"))
    return DONE


def _use(asked: argparse.Namespace) -> int:
    store = _store()
    revision = store.resolve(asked.revision)
    store.use(revision)
    print(f"revision {revision[:12]} is in use")
    return DONE


def _diff(asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.file.difference import differences

    for line in differences(_either(asked.old), _either(asked.new)) or ["no difference"]:
        print(line)
    return DONE


def _load_prices(asked: argparse.Namespace) -> int:
    try:
        loaded = _store().load_book(asked.branch, _read_prices(asked.file))
    except FileRefused as error:
        return _tell(asked.file, error)
    _warn(asked.file, loaded.cautions)
    print(f"{len(loaded.book.prices)} prices of {asked.branch} are in use")
    return DONE


def _list_prices(_asked: argparse.Namespace) -> int:
    for branch, book in sorted(_store().state().books.items()):
        print(f"{branch}  {book[:12]}")
    return DONE


def _drop_prices(asked: argparse.Namespace) -> int:
    _store().drop_book(asked.branch)
    print(f"the prices of {asked.branch} are no longer in use")
    return DONE


def _store() -> Store:
    from gaugerake.catalogue.store.database import database_url
    from gaugerake.catalogue.store.first_start import ensure_ready

    return ensure_ready(database_url())


def _either(name: str) -> str:
    """The text of a revision, or of a file when there is one of that name."""
    from gaugerake.catalogue.file.format import load_text

    if not Path(name).is_file():
        store = _store()
        return store.source(store.resolve(name))
    text = _read(name)
    try:
        load_text(text)
    except FileRefused as error:
        raise Hindered(f"{name} has faults; see them with: gaugerake catalogue check {name}") from error
    return text


def _read_prices(file: str) -> str:
    """A price list as CSV, whose lines are the rows of the sheet when it is one."""
    from gaugerake.catalogue.prices.sheet import is_sheet, sheet_text

    data = _bytes(file)
    return sheet_text(data) if is_sheet(data) else _text(file, data)


def _read(file: str) -> str:
    return _text(file, _bytes(file))


def _bytes(file: str) -> bytes:
    try:
        return Path(file).read_bytes()
    except OSError as error:
        raise Hindered(f"{file}: {error.strerror}") from None


def _text(file: str, data: bytes) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise Hindered(f"{file}: not UTF-8 at byte {error.start}; save the file as UTF-8") from None


def _tell(file: str, refused: FileRefused) -> int:
    for line in refused.lines():
        print(f"{file}:{line}")
    return FAULTS


def _warn(file: str, cautions: Sequence[FileRemark]) -> None:
    for caution in cautions:
        print(f"{file}:{caution.line}: caution: {caution.path}: {caution.text}", file=sys.stderr)


if __name__ == "__main__":
    sys.exit(main())
