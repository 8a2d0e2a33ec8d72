"""Serving, and what describes the service."""

from __future__ import annotations

import argparse
import gc
from collections.abc import Callable

from gaugerake.cli.commands import Group
from gaugerake.cli.outcome import Hindered, Outcome

SHELLS = ("bash", "fish", "zsh")
OF_A_FILE = frozenset({"FILE", "JOB", "CASES", "NEW", "OLD"})
NO_SHTAB = "what writes completions is not installed (pip install 'gaugerake[completion]')"


def add(commands: Group) -> None:
    """Add ``gaugerake serve``, ``openapi`` and ``completion``."""
    serve = commands.command("serve", _serve, "serve the API and the page", as_json=False)
    commands.option(serve, "--host", default="127.0.0.1", help="address to listen on (%(default)s)")
    commands.option(serve, "--port", type=_whole(1, 65535), default=8080, help="port to listen on (%(default)s)")
    commands.option(serve, "--workers", type=_whole(1, 256), default=2, help="worker processes (%(default)s)")
    commands.command("openapi", _openapi, "write the description of the API, in YAML or JSON")
    completion = commands.command(
        "completion",
        lambda asked: _completion(asked, commands),
        "write what lets a shell complete these commands",
        more='Bash: eval "$(gaugerake completion bash)". Zsh and fish keep it in a file of their own.',
        as_json=False,
    )
    commands.option(completion, "shell", metavar="SHELL", choices=SHELLS, help=f"one of {', '.join(SHELLS)}")


def _completion(asked: argparse.Namespace, commands: Group) -> Outcome:
    try:
        import shtab  # not for the other commands
    except ImportError:
        raise Hindered(NO_SHTAB) from None

    for argument in commands.arguments():
        if argument.metavar in OF_A_FILE:
            argument.complete = shtab.FILE  # type: ignore[attr-defined]  # which shtab looks for
    return Outcome(data=None, raw=f"{shtab.complete(commands.parser, asked.shell)}\n")


def _whole(low: int, high: int) -> Callable[[str], int]:
    """Reads a whole number of a range from the command line."""

    def read(text: str) -> int:
        if not (text.isascii() and text.isdecimal() and len(text) < 9 and low <= int(text) <= high):
            raise argparse.ArgumentTypeError(f"write a whole number from {low} to {high}, not {text[:20]}")
        return int(text)

    return read


def _serve(asked: argparse.Namespace) -> Outcome:
    gc.disable()  # what is loaded now is no garbage; it is looked for again from when the service is ready
    from gaugerake.web.server import serving  # not for the other commands: it loads the whole web edge

    return Outcome(data=None, code=serving.serve(host=asked.host, port=asked.port, workers=asked.workers))


def _openapi(_asked: argparse.Namespace) -> Outcome:
    from gaugerake.web.describe.description import description
    from gaugerake.web.describe.yaml_text import yaml_text

    described = description()
    return Outcome(data=described, raw=yaml_text(described))
