"""Commands and groups of commands, put together from what each module offers."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from gaugerake.catalogue.file.faults import Notebook
from gaugerake.cli.outcome import Outcome

Run = Callable[[argparse.Namespace], Outcome]
Arguments = Sequence[tuple[str, str]]
"""The places of a command: what each is called, and what is written there."""


class Group:
    """Commands under one word, or all of them."""

    def __init__(self, parser: argparse.ArgumentParser) -> None:
        self.parser = parser
        self._commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
        self._groups: dict[str, Group | None] = {}
        self._arguments: list[argparse.Action] = []

    def group(self, name: str, about: str) -> Group:
        """A group of commands under a word of its own."""
        made = Group(self._commands.add_parser(name, help=about, description=f"{_sentence(about)}"))
        self._groups[name] = made
        return made

    def command(
        self, name: str, run: Run, about: str, arguments: Arguments = (), *, more: str = "", as_json: bool = True
    ) -> argparse.ArgumentParser:
        """A command; ``more`` is told after what it is about, ``as_json`` offers its outcome to programs."""
        made = self._commands.add_parser(name, help=about, description=f"{_sentence(about)} {more}".rstrip())
        for place, written in arguments:
            self._arguments.append(made.add_argument(place.lower(), metavar=place, help=written))
        if as_json:
            made.add_argument("--json", action="store_true", help="tell it as JSON, for programs")
        made.set_defaults(run=run)
        self._groups[name] = None
        return made

    def check(self, words: Sequence[str]) -> None:
        """End with code 2 and the command that may have been meant, when the first words name none."""
        if not words or words[0].startswith("-"):
            return
        if words[0] not in self._groups:
            near = Notebook().nearest(words[0], self._groups)
            self.parser.error(f'there is no command "{words[0][:40]}". {near}')
        below = self._groups[words[0]]
        if below is not None:
            below.check(words[1:])

    def option(self, command: argparse.ArgumentParser, *names: str, **options: Any) -> None:
        """An option or argument of a command that needs more than a name."""
        self._arguments.append(command.add_argument(*names, **options))

    def arguments(self) -> Iterator[argparse.Action]:
        """What the commands take."""
        yield from self._arguments
        for below in self._groups.values():
            if below is not None:
                yield from below.arguments()

    def names(self, before: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
        """The words of every command."""
        for name, below in self._groups.items():
            if below is None:
                yield (*before, name)
            else:
                yield from below.names((*before, name))


def _sentence(about: str) -> str:
    return f"{about[:1].upper()}{about[1:]}."
