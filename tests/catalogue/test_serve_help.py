"""``./api/serve --help`` tells its options at once, on a machine where nothing is set up."""

import contextlib
import re
import subprocess
from pathlib import Path

import pytest

from gaugerake.cli.main import main

SERVE = Path(__file__).parents[2] / "api" / "serve"
OPTION = re.compile(r"^  (?:-h, )?(--[a-z]+).*?\(?([0-9.]*)\)?$", re.M)


@pytest.mark.parametrize("word", ["--help", "-h"])
def test_the_help_needs_nothing_and_sets_up_nothing(word: str, tmp_path: Path) -> None:
    """Without a Python: whatever were set up would need one."""
    told = subprocess.run(
        [str(SERVE), "--port", "9", word],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env={"PATH": "/usr/bin:/bin", "GAUGERAKE_PYTHON": "/there/is/none"},
        check=False,
    )
    assert (told.returncode, told.stderr) == (0, "")
    assert told.stdout.startswith("usage: ./api/serve ")


def test_it_tells_the_options_and_defaults_of_the_command_that_it_runs(capsys: pytest.CaptureFixture[str]) -> None:
    told = subprocess.run([str(SERVE), "--help"], capture_output=True, text=True, check=True).stdout
    with contextlib.suppress(SystemExit):
        main(["serve", "--help"])
    assert dict(OPTION.findall(told)) == dict(OPTION.findall(capsys.readouterr().out))
    assert len(OPTION.findall(told)) == 4
