"""Reads a command, runs it and prints its outcome."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence

from gaugerake import __version__
from gaugerake.catalogue.errors import CatalogueError
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.cli import cases, catalogue, keys, prices, service, steps
from gaugerake.cli.commands import Group
from gaugerake.cli.outcome import HINDERED, Hindered, Outcome, RefusedFile, refused_file
from gaugerake.environment import UnreadableSetting, take_files


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    parser, commands = all_commands()
    words = sys.argv[1:] if arguments is None else arguments
    commands.check(words)
    asked = parser.parse_args(words)
    as_json = getattr(asked, "json", False)
    try:
        take_files(os.environ)
        outcome: Outcome = asked.run(asked)
        return outcome.tell(as_json=as_json)
    except (Hindered, CatalogueError, UnreadableSetting) as error:
        return _hindered(str(error), as_json=as_json)
    except RefusedFile as error:
        return refused_file(error.file, error.refused).tell(as_json=as_json)
    except FileRefused as error:
        return _hindered(f"the kept catalogue cannot be read by this version:\n{error}", as_json=as_json)
    except BrokenPipeError:
        sys.stderr.close()
        return HINDERED


def _hindered(text: str, *, as_json: bool) -> int:
    if as_json:
        print(json.dumps({"hindered": text}, ensure_ascii=False))
    print(f"gaugerake: {text}", file=sys.stderr)
    return HINDERED


def all_commands() -> tuple[argparse.ArgumentParser, Group]:
    """What reads the command line, and the commands that it knows."""
    parser = argparse.ArgumentParser(prog="gaugerake", description="Quotes and plans for seamless resinous floors.")
    parser.add_argument("--version", action="version", version=f"gaugerake {__version__}")
    commands = Group(parser)
    service.add(commands)
    catalogue.add(commands.group("catalogue", "look after systems, products and list prices"))
    cases.add(commands.group("cases", "try a catalogue with jobs whose figures are known"))
    prices.add(commands.group("prices", "look after the price lists of branches"))
    keys.add(commands.group("key", "look after the keys of those who may ask"))
    steps.add(commands.group("database", "look after the form of the database"))
    return parser, commands
