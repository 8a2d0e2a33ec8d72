"""What the tests of faults share: a database each, PostgreSQL once, and the table that a run writes."""

import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from tests.faults.load import ANSWERED, LOST, REFUSED, Load
from tests.faults.processes import ROOT, Deployed, Postgres, Service, allow_open_files

BEGIN, END = "<!-- faults:begin -->", "<!-- faults:end -->"
HEAD = (
    "| fault | sent | answered | refused | lost | in flight then | recovered after |\n"
    "| --- | ---: | ---: | ---: | ---: | ---: | ---: |"
)
rows: dict[str, str] = {}


@pytest.fixture(autouse=True, scope="session")
def many_files() -> None:
    allow_open_files(4096)


@pytest.fixture
def note() -> Callable[..., None]:
    """Writes a row of the table from what the clients counted."""

    def row(fault: str, load: Load, at: float, *, until: float | None = None, in_flight: int | None = None) -> None:
        sent = [one for one in load.sent if until is None or one.began <= until]
        counts = [sum(1 for one in sent if one.outcome == outcome) for outcome in (ANSWERED, REFUSED, LOST)]
        back = "–" if until is not None else f"{load.recovered_after(at):.2f} s"
        flying = "–" if in_flight is None else str(in_flight)
        rows[fault] = f"| {fault} | {len(sent)} | {' | '.join(map(str, counts))} | {flying} | {back} |"

    return row


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    """One replica with a SQLite database of its own; each test leaves it as it was."""
    folder = tmp_path_factory.mktemp("service")
    service = Service(folder, f"sqlite:///{folder / 'catalogue.sqlite3'}")
    yield service
    service.stop()


@pytest.fixture(scope="session")
def postgres() -> Iterator[Postgres]:
    folder = Path(tempfile.mkdtemp(prefix="gaugerake-pg-", dir="/tmp"))
    server = Postgres(folder)
    server.start()
    yield server
    server.stop()
    shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="session")
def deployed(postgres: Postgres) -> Iterator[Deployed]:
    """nginx in front of two replicas with PostgreSQL, as docker/ has them; each test leaves them as they were."""
    missing = [name for name in ("nginx", "openssl") if shutil.which(name) is None]
    if missing:
        (pytest.fail if os.environ.get("CI") else pytest.skip)(f"not installed: {', '.join(missing)}")
    folder = Path(tempfile.mkdtemp(prefix="gaugerake-edge-", dir="/tmp"))
    folder.chmod(0o755)  # nginx's workers are another user where this one is root
    deployed = Deployed(folder, postgres.new("deployed"))
    yield deployed
    deployed.stop()
    shutil.rmtree(folder, ignore_errors=True)


def pytest_sessionfinish() -> None:
    """Write the table where that is asked for: what was not run has no row."""
    if rows and os.environ.get("GAUGERAKE_WRITE_TABLES") == "1":
        file = ROOT / "tests" / "bench" / "results" / "faults.md"
        before, _, rest = file.read_text("utf-8").partition(BEGIN)
        _, _, after = rest.partition(END)
        table = "\n".join([HEAD, *rows.values()])
        file.write_text(f"{before}{BEGIN}\n{table}\n{END}{after}", "utf-8")
