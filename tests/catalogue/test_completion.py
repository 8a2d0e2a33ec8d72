"""Shells complete commands and files."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tests.catalogue.commands import Run

ASKS = 'source complete.sh; COMP_WORDS=({words}); COMP_CWORD={last}; {function}; printf "%s\\n" "${{COMPREPLY[@]}}"'


def completed(run: Run, folder: Path, *words: str) -> set[str]:
    """What Bash offers in the place of the last word."""
    script = run("completion", "bash").out
    (folder / "complete.sh").write_text(script)
    function = next(line.split()[-2] for line in script.splitlines() if line.startswith("complete -o "))
    asks = ASKS.format(words=" ".join(f"'{word}'" for word in words), last=len(words) - 1, function=function)
    end = subprocess.run(["bash", "-c", asks], cwd=folder, capture_output=True, text=True, timeout=30, check=True)
    assert end.stderr == ""
    return set(end.stdout.split())


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no Bash")
@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (("gaugerake", "ca"), {"cases", "catalogue"}),
        (("gaugerake", "prices", "h"), {"history"}),
        (("gaugerake", "catalogue", "check", "--j"), {"--json"}),
        (("gaugerake", "catalogue", "check", "flo"), {"floors.yaml"}),
        (("gaugerake", "cases", "check", "--catalogue", "flo"), {"floors.yaml"}),
    ],
)
def test_bash_completes(run: Run, tmp_path: Path, words: tuple[str, ...], offered: set[str]) -> None:
    (tmp_path / "floors.yaml").touch()
    assert completed(run, tmp_path, *words) == offered


@pytest.mark.parametrize("shell", ["zsh", "fish"])
def test_other_shells_have_a_script_too(run: Run, shell: str) -> None:
    end = run("completion", shell)
    assert (end.code, "history" in end.out) == (0, True)


def test_an_unknown_shell_is_told(run: Run) -> None:
    end = run("completion", "csh")
    assert (end.code, "bash" in end.err) == (2, True)


def test_the_extra_that_writes_completions_is_named(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "shtab", None)
    end = run("completion", "bash")
    assert (end.code, "pip install 'gaugerake[completion]'" in end.err) == (3, True)
