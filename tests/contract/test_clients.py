"""Clients generated from the description, by tools that others use, get on with the service.

The Python one is made by openapi-python-client, the TypeScript one by openapi-typescript and openapi-fetch; both are
made anew here, without any configuration, and compiled or imported, and then ask for a quote. Those that take longer
to make are in `tests/bench/clients`.
"""

import importlib
import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
import requests
from tests.builders import example

from gaugerake.web.describe.description import description

ROOT = Path(__file__).parents[2]
DESCRIPTION = ROOT / "openapi" / "openapi.yaml"
TYPESCRIPT = Path(__file__).parent / "typescript"
JOB = example("full")
NAME = "generated_from_the_description"
ONE = pytest.mark.parametrize("server", ["sqlite"], indirect=True)
"""Which database the service has makes no difference to a client."""


def run(*command: str | Path, cwd: Path) -> str:
    """What a tool says, which ends well."""
    environment = {**os.environ, "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"}
    done = subprocess.run(command, cwd=cwd, env=environment, capture_output=True, text=True, timeout=300)
    said = done.stdout + done.stderr
    assert done.returncode == 0, said
    return said


@pytest.fixture(scope="module")
def python(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ModuleType]:
    """The generated package."""
    folder = tmp_path_factory.mktemp("python")
    said = run(
        *(sys.executable, "-m", "openapi_python_client", "generate", "--path", DESCRIPTION, "--meta", "none"),
        *("--output-path", NAME),
        cwd=folder,
    )
    # it knows no lines of JSON, and takes the same lines as bytes
    assert (said.count("WARNING"), said.count("Unsupported content type application/x-ndjson")) == (1, 1), said
    sys.path.insert(0, str(folder))
    yield importlib.import_module(NAME)
    sys.path.remove(str(folder))
    for name in [name for name in sys.modules if name.split(".")[0] == NAME]:
        del sys.modules[name]


def part(name: str) -> Any:
    return importlib.import_module(f"{NAME}.{name}")


@ONE
def test_a_python_client_gets_a_quote_and_reads_all_of_it(python: ModuleType, server: str) -> None:
    job = part("models.job").Job.from_dict(JOB)
    assert job.to_dict() == JOB
    with python.Client(base_url=server, raise_on_unexpected_status=True) as client:
        quote = part("api.quotes.make_quote").sync(client=client, body=job)
        plain = requests.post(f"{server}/v1/quotes", json=JOB, timeout=30).json()
        assert quote.to_dict() == plain
        assert quote.quantities.totals.gross == plain["quantities"]["totals"]["gross"]
        (known, *_) = quote.cautions
        assert known.code == plain["cautions"][0]["code"]
        again = part("api.quotes.open_quote").sync_detailed(quote.token, client=client)
        assert json.loads(again.content) == plain
        systems = part("api.systems.list_systems").sync(client=client)
        assert JOB["system"] in [system.code for system in systems.systems]


@ONE
def test_a_python_client_reads_what_is_to_be_mended(python: ModuleType, server: str) -> None:
    job = part("models.job").Job.from_dict({**JOB, "system": "levle-clear"})
    with python.Client(base_url=server) as client:
        problem = part("api.quotes.make_quote").sync(client=client, body=job)
    assert isinstance(problem, part("models.problem").Problem)
    assert problem.code == "refused-job"
    assert [error.pointer for error in problem.errors] == ["/system"]


@ONE
def test_a_python_client_builds_the_least_job_of_types(python: ModuleType, server: str) -> None:
    models = part("models")
    shape = models.JobShapeMeasured(measured=models.JobMeasured(area="1200 sq ft"))
    job = models.Job(system="level-clear", rooms=[models.JobRoom(name="Floor", shape=shape)])
    assert job.to_dict() == example("least")
    with python.Client(base_url=server) as client:
        asked = [part("models.make_quote_parts_item").MakeQuotePartsItem(name) for name in ("order", "readiness")]
        order = part("api.quotes.make_quote").sync(client=client, body=job, parts=asked).order
        lines = BytesIO(json.dumps(job.to_dict()).encode() + b"\n")
        batch = part("api.batches.make_quotes").sync(client=client, body=part("types").File(payload=lines))
        token = models.QuoteAnswer.from_dict(json.loads(batch.payload.read())).token
        code = part("api.quotes.draw_quote_code").sync(token, client=client)
    plain = requests.post(f"{server}/v1/quotes", json=job.to_dict(), timeout=30).json()
    assert order.totals.to_dict() == plain["quantities"]["totals"]
    assert token == plain["token"]
    assert code.payload.read().endswith(b"</svg>")


def test_what_the_description_says_of_batches_leaves_out_the_warning(tmp_path: Path) -> None:
    about = description()["paths"]["/v1/batches"]["post"]["description"]
    (told,) = re.findall(r"`(content_type_overrides: .*?)`", about)
    (tmp_path / "settings.yaml").write_text(told, "utf-8")
    said = run(
        *(sys.executable, "-m", "openapi_python_client", "generate", "--path", DESCRIPTION, "--meta", "none"),
        *("--config", "settings.yaml", "--fail-on-warning"),
        cwd=tmp_path,
    )
    assert "WARNING" not in said


def test_a_python_client_reads_a_code_that_came_after_it_was_made(python: ModuleType) -> None:
    later = part("models.caution").Caution.from_dict({"code": "not-known-yet", "text": "Beware."})
    assert (later.code, later.text) == ("not-known-yet", "Beware.")


@ONE
def test_a_typescript_client_gets_a_quote(server: str, tmp_path: Path) -> None:
    modules = TYPESCRIPT / "node_modules"
    if shutil.which("node") is None or not modules.is_dir():
        pytest.skip("no Node, or its packages are not here (./tests/run installs them where npm is)")
    for file in ("client.ts", "tsconfig.json", "package.json"):
        shutil.copy(TYPESCRIPT / file, tmp_path)
    (tmp_path / "node_modules").symlink_to(modules)
    (tmp_path / "job.json").write_text(json.dumps(JOB), "utf-8")
    bin_folder = modules / ".bin"
    said = run(bin_folder / "openapi-typescript", DESCRIPTION, "--output", "description.ts", cwd=tmp_path)
    assert "warn" not in said.lower(), said
    run(bin_folder / "tsc", "--project", "tsconfig.json", cwd=tmp_path)
    told = json.loads(run("node", "client.js", server, cwd=tmp_path))
    plain = requests.post(f"{server}/v1/quotes", json=JOB, timeout=30).json()
    least = requests.post(f"{server}/v1/quotes", json=example("least"), timeout=30).json()
    assert told == {
        "least": least["quantities"]["totals"]["gross"],
        "gross": plain["quantities"]["totals"]["gross"],
        "cautions": [caution["code"] for caution in plain["cautions"]],
        "pointers": ["/system"],
        "again": plain["fingerprint"],
    }
