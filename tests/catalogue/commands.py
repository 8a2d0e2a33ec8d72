"""Runs commands as people type them."""

from collections.abc import Callable
from typing import NamedTuple

import pytest

from gaugerake.cli import main


class End(NamedTuple):
    """How a command ended."""

    code: int
    out: str
    err: str


Run = Callable[..., End]


def runs(capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs ``gaugerake`` in this process."""

    def command(*arguments: str) -> End:
        try:
            code = main(arguments)
        except SystemExit as left:
            code = int(left.code or 0)
        return End(code, *capsys.readouterr())

    return command
