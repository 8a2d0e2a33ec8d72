"""The package as built: wheel and sdist, installed away from the checkout, serve page, docs, quotes and catalogue."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import sysconfig
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.metadata import PathDistribution
from pathlib import Path

import pytest
import requests
from tests.service import free_port

import gaugerake

ROOT = Path(__file__).parents[2]
FORMS = ["wheel", "sdist"]
LEAST = json.loads((ROOT / "openapi" / "examples" / "least.json").read_text("utf-8"))


def run(*command: str | Path, **options: object) -> str:
    """What a command says."""
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True, timeout=300, **options)  # type: ignore[call-overload]
    assert done.returncode == 0, done.stdout + done.stderr
    return str(done.stdout)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Both forms, made by the build backend that pyproject.toml names."""
    folder = tmp_path_factory.mktemp("dist")
    run(sys.executable, "-m", "hatchling", "build", "-d", folder, cwd=ROOT)
    return {"wheel": next(folder.glob("*.whl")), "sdist": next(folder.glob("*.tar.gz"))}


@pytest.fixture(scope="module", params=FORMS)
def command(request: pytest.FixtureRequest, built: dict[str, Path], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The command of an environment that has the package from its built form, and the packages that it needs."""
    venv = tmp_path_factory.mktemp(request.param) / "venv"
    run(sys.executable, "-m", "venv", "--without-pip", venv)
    python = venv / "bin" / "python"
    there = Path(run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))").strip())
    # a plain path, whose own .pth files (the checkout's is one) are not read
    (there / "packages.pth").write_text(sysconfig.get_path("purelib") + "\n", "utf-8")
    pip = [sys.executable, "-m", "pip", "--python", python, "install", "--quiet"]
    run(*pip, "--no-deps", "--no-index", "--no-build-isolation", "--force-reinstall", built[request.param])
    return venv / "bin" / "gaugerake"


@contextmanager
def served(command: Path, folder: Path) -> Iterator[str]:
    """The address of the installed service, its state in the folder; it stops without a word."""
    port = free_port()
    environment = {"PATH": os.environ["PATH"], "HOME": str(folder), "XDG_STATE_HOME": str(folder)}
    with subprocess.Popen(
        [command, "serve", "--port", str(port)], cwd=folder, env=environment, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stderr is not None
        assert process.stderr.readline() == f"gaugerake serves on http://127.0.0.1:{port} with 2 workers\n"
        try:
            yield f"http://127.0.0.1:{port}"
        finally:
            process.terminate()
            assert process.wait(timeout=30) == 0


def test_it_serves_away_from_the_checkout(command: Path, tmp_path: Path) -> None:
    where = run(command.with_name("python"), "-c", "import gaugerake; print(gaugerake.__file__)", cwd=tmp_path)
    assert not where.startswith(str(ROOT))
    with served(command, tmp_path) as address:
        page = requests.get(address, timeout=30)
        assert page.headers["Content-Type"].startswith("text/html")
        assert requests.get(f"{address}/style.css", timeout=30).ok
        assert requests.get(f"{address}/docs", timeout=30).ok
        assert requests.get(f"{address}/openapi.json", timeout=30).json()["info"]["version"] == gaugerake.__version__
        assert requests.get(f"{address}/v1/systems", timeout=30).json()["systems"]
        token = requests.post(f"{address}/v1/quotes", json=LEAST, timeout=30).json()["token"]
        assert requests.get(f"{address}/v1/quotes/{token}", headers={"Accept": "text/csv"}, timeout=30).ok
    assert (tmp_path / "gaugerake" / "gaugerake.sqlite3").is_file()


def test_its_commands_work(command: Path, tmp_path: Path) -> None:
    environment = {"PATH": os.environ["PATH"], "XDG_STATE_HOME": str(tmp_path)}
    python = command.with_name("python")
    assert run(python, "-m", "gaugerake", "--version", cwd=tmp_path).strip() == f"gaugerake {gaugerake.__version__}"
    assert run(command, "catalogue", "list", cwd=tmp_path, env=environment).startswith("* ")
    (tmp_path / "kept.yaml").write_text(run(command, "catalogue", "export", "current", env=environment), "utf-8")
    assert "sound" in run(command, "catalogue", "check", "kept.yaml", cwd=tmp_path)


def test_what_is_needed_only_by_some_is_an_extra(built: dict[str, Path]) -> None:
    with zipfile.ZipFile(built["wheel"]) as wheel:
        told = PathDistribution(zipfile.Path(wheel, f"gaugerake-{gaugerake.__version__}.dist-info/"))  # type: ignore[arg-type]
        needs = told.requires or []
    always = {need.split(">")[0].split("[")[0] for need in needs if "extra ==" not in need}
    assert not {"setuptools", "hatchling", "psycopg", "redis", "openpyxl"} & always
    extras = {
        need.split(">")[0].split("[")[0]: need.split("extra == ")[1].strip("'\"")
        for need in needs
        if "extra ==" in need
    }
    assert (extras["psycopg"], extras["redis"], extras["openpyxl"]) == ("postgresql", "redis", "xlsx")
