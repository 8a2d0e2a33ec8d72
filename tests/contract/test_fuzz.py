"""Random requests, sound and unsound, against the running service: nothing breaks, and answers are as described.

A sound job may still mean something that cannot be, so a 422 is no failure; and QUERY is answered,
although the description, being of 3.1, cannot say so.
"""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

HOOKS = Path(__file__).with_name("fuzz_hooks.py")
EXCLUDED = "positive_data_acceptance,unsupported_method"


# once is enough: what is kept where is not what a request can break
@pytest.mark.parametrize("server", ["sqlite"], indirect=True)
@pytest.mark.parametrize(
    ("phases", "chosen", "most"),
    [
        ("examples,fuzzing", (), 30),
        # each field at, within and beyond its bounds, one at a time; all calculations read the job alike
        ("coverage", ("--include-operation-id", "makeQuote", "--include-operation-id", "showSystem"), 1),
    ],
    ids=["drawn at random", "every bound"],
)
def test_nothing_breaks(server: str, tmp_path: Path, phases: str, chosen: tuple[str, ...], most: int) -> None:
    command = [sys.executable, "-m", "schemathesis.cli", "run", f"{server}/openapi.json"]
    options = f"--checks all --exclude-checks {EXCLUDED} --phases {phases} --max-examples {most} --workers 1 --seed 11"
    lengths = {"FUZZ_LENGTHS": "1"} if phases == "coverage" else {}
    quiet = ["--generation-database", "none", "--request-timeout", "20", "--no-color"]
    quiet += ["--suppress-health-check", "too_slow"]  # how fast it draws depends on who else works on this machine
    done = subprocess.run(
        [*command, *options.split(), *quiet, *chosen],
        cwd=tmp_path,
        env={**os.environ, "SCHEMATHESIS_HOOKS": str(HOOKS)} | lengths,
        capture_output=True,
        text=True,
        timeout=600,
    )
    assert done.returncode == 0, done.stdout[-6000:] + done.stderr[-2000:]
    tested = re.search(r"(\d+) generated, (\d+) passed", done.stdout)
    assert tested, done.stdout[-2000:]
    assert int(tested[1]) > 100
