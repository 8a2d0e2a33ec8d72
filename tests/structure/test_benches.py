"""A bench says what it asks and starts nothing when it is asked for help, whichever Python reads it first."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

FOLDER = Path(__file__).parents[1] / "bench"
BENCHES = sorted(
    path.name for path in FOLDER.iterdir() if path.is_file() and path.read_bytes().startswith(b"#!/usr/bin/env python3")
)


def test_there_are_benches() -> None:
    assert "against" in BENCHES


@pytest.mark.parametrize("name", BENCHES)
def test_help_tells_and_does_nothing(name: str) -> None:
    """Without any packages (-S), as before the bench goes on in the project's own Python."""
    path = FOLDER / name
    said = subprocess.run([sys.executable, "-S", path, "--help"], capture_output=True, text=True, timeout=60)
    assert (said.stdout.strip(), said.stderr, said.returncode) == (
        (ast.get_docstring(ast.parse(path.read_text("utf-8")), clean=False) or "").strip(),
        "",
        0,
    )
