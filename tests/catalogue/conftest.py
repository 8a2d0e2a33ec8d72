"""A small sound catalogue, how to spoil it, and databases that last one test."""

from collections.abc import Callable
from pathlib import Path

import pytest
from tests.catalogue.commands import Run, runs

from gaugerake.catalogue.file.faults import FileRefused, FileRemark
from gaugerake.catalogue.file.format import load_text

DATA = Path(__file__).parent / "data"
Change = tuple[str, str]


@pytest.fixture(scope="session")
def small() -> str:
    return (DATA / "small.yaml").read_text("utf-8")


@pytest.fixture(scope="session")
def metric() -> str:
    return (DATA / "metric.yaml").read_text("utf-8")


@pytest.fixture(scope="session")
def spoiled(small: str) -> Callable[..., str]:
    """Makes the small catalogue with the first of each old text replaced; one that is not there is a slip."""

    def spoil(*changes: Change) -> str:
        text = small
        for old, new in changes:
            assert old in text, f"{old!r} is not in small.yaml"
            text = text.replace(old, new, 1)
        return text

    return spoil


@pytest.fixture(scope="session")
def faults_of() -> Callable[[str], tuple[FileRemark, ...]]:
    """Gives all that is wrong with a text."""

    def told(text: str) -> tuple[FileRemark, ...]:
        try:
            load_text(text)
        except FileRefused as refused:
            return refused.faults
        return ()

    return told


@pytest.fixture()
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of an empty database; a file that is not there yet, unless a test asks for PostgreSQL."""
    if getattr(request, "param", "sqlite") == "postgresql":
        made: str = request.getfixturevalue("new_postgres")()
        return made
    return f"sqlite:///{tmp_path / 'kept' / 'probe.sqlite3'}"


@pytest.fixture()
def run(url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs ``gaugerake`` in this process, in a directory and with a database of the test's own."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GAUGERAKE_DATABASE", url)
    return runs(capsys)


@pytest.fixture()
def file(tmp_path: Path, small: str) -> Path:
    path = tmp_path / "small.yaml"
    path.write_text(small, "utf-8")
    return path
