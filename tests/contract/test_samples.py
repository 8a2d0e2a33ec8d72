"""The samples of the documentation run, in all three languages, and are answered what stands beside them."""

import json
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any

import pytest
import requests
from jsonschema import Draft202012Validator
from tests.contract.samples import recordings

from gaugerake.web.api.operations import JSON
from gaugerake.web.describe.description import description
from gaugerake.web.describe.samples.cart import PYTHON, TYPESCRIPT
from gaugerake.web.describe.samples.programs import ADDRESS
from gaugerake.web.describe.samples.requests import SAMPLES
from gaugerake.web.describe.samples.shown import RECORDED, media_type_of, operations, recorded, shown

PACKAGES = Path(__file__).parent / "typescript"
ONE = pytest.mark.parametrize("server", ["sqlite"], indirect=True)
EACH = pytest.mark.parametrize("name", SAMPLES)
OF_THE_SERVICE = {"token", "request_id", "loaded_at", "age_seconds"}
"""What another service with the same catalogue answers otherwise."""


def alike(text: str) -> Any:
    """An answer without what depends on the service that gave it; a drawing without its lines."""
    if text.startswith("<"):
        return text.partition(">")[0][:20]
    lines = [text] if text.startswith("{\n") else text.splitlines()
    return [{name: value for name, value in json.loads(line).items() if name not in OF_THE_SERVICE} for line in lines]


@pytest.fixture(scope="module")
def given() -> dict[str, str]:
    """What is answered now, by the name of the file that keeps it."""
    return {path.stem: text for path, text in recordings().items()}


def test_every_operation_has_a_sample() -> None:
    assert list(SAMPLES) == list(operations())


def test_the_answers_that_are_shown_are_those_that_are_given() -> None:
    kept = {path: path.read_text("utf-8") for path in RECORDED.iterdir()}
    given = recordings()
    assert kept.keys() == given.keys()
    changed = [path.name for path in kept if kept[path] != given[path]]
    assert changed == [], "record them again: python -m tests.contract.samples"


@EACH
def test_what_is_shown_is_what_the_description_says(name: str) -> None:
    operation = operations()[name]
    problem = json.loads(recorded(f"{name}.problem", JSON))
    if media_type_of(operation) == JSON:
        schema = operation["responses"]["200"]["content"][JSON]["schema"]
        Draft202012Validator({**description(), **schema}).validate(json.loads(recorded(name, JSON)))
    Draft202012Validator({**description(), "$ref": "#/components/schemas/Problem"}).validate(problem)
    assert str(problem["status"]) in operation["responses"]


@ONE
@EACH
def test_the_page_of_an_operation_has_it_all(server: str, name: str) -> None:
    page = requests.get(f"{server}/docs/{name}", timeout=30)
    assert page.headers["Content-Type"] == "text/html; charset=utf-8"
    blocks = [unescape(block) for block in re.findall(r"<pre[^>]*>(.*?)</pre>", page.text, re.S)]
    one = shown(name)
    assert [block.strip() for block in blocks] == [
        part.strip().replace(ADDRESS, server)
        for part in (one.curl, one.python, one.typescript, one.bad_curl, one.problem, one.answer)
    ]
    assert not re.search(r"<(script|link|img|iframe)\b", page.text)
    assert one.curl.replace(ADDRESS, server) in unescape(requests.get(f"{server}/docs", timeout=30).text)


def curled(command: str, server: str) -> str:
    """What a command of curl prints."""
    done = subprocess.run(
        ["sh", "-c", command.replace(ADDRESS, server)], capture_output=True, text=True, timeout=60, check=True
    )
    assert done.stderr == ""
    return done.stdout


@pytest.mark.skipif(shutil.which("curl") is None, reason="no curl here")
@ONE
@EACH
def test_curl_gets_the_answer_and_the_problem(server: str, name: str, given: dict[str, str]) -> None:
    one = shown(name)
    assert alike(curled(one.curl, server)) == alike(given[name])
    assert alike(curled(one.bad_curl, server)) == alike(given[f"{name}.problem"])


def ran(program: str, server: str, capsys: pytest.CaptureFixture[str]) -> tuple[dict[str, Any], str]:
    """What a program in Python leaves behind, and what it prints."""
    held: dict[str, Any] = {}
    exec(program.replace(ADDRESS, server), held)
    return held, capsys.readouterr().out


@ONE
@EACH
def test_python_gets_the_answer(
    server: str, name: str, given: dict[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    held, said = ran(shown(name).python, server, capsys)
    assert held["response"].ok
    assert alike(held["response"].text) == alike(given[name])
    assert said == f"{expected(name, held['answer'])}\n"


def expected(name: str, answer: Any) -> Any:
    """What a program prints of an answer."""
    for step in re.findall(r"\w+", SAMPLES[name].prints):
        answer = answer[int(step) if step.isdigit() else step]
    return answer if SAMPLES[name].prints else len(answer)


@ONE
def test_python_tells_what_is_wrong(server: str, capsys: pytest.CaptureFixture[str]) -> None:
    spoiled = shown("makeQuote").python.replace("level-clear", "levle-clear")
    held, said = ran(spoiled, server, capsys)
    assert held["problem"]["code"] == "refused-job"
    assert said.startswith("refused-job [('/system', 'Do you mean level-clear?")


@pytest.fixture(scope="module")
def compiled(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder in which every program in TypeScript is compiled strictly, against the types of the description."""
    modules = PACKAGES / "node_modules"
    if shutil.which("node") is None or not modules.is_dir():
        pytest.skip("no Node, or its packages are not here (./tests/run installs them where npm is)")
    folder = tmp_path_factory.mktemp("samples")
    (folder / "node_modules").symlink_to(modules)
    shutil.copy(PACKAGES / "package.json", folder)
    programs = {name: shown(name).typescript for name in SAMPLES} | {"cart": TYPESCRIPT}
    for name, program in programs.items():
        (folder / f"{name}.ts").write_text(program, "utf-8")
    settings = json.loads((PACKAGES / "tsconfig.json").read_text("utf-8"))
    (folder / "tsconfig.json").write_text(
        json.dumps(settings | {"files": [f"{name}.ts" for name in programs]}), "utf-8"
    )
    (folder / "description.json").write_text(json.dumps(description()), "utf-8")
    tool(modules / ".bin" / "openapi-typescript", "description.json", "--output", "description.ts", cwd=folder)
    tool(modules / ".bin" / "tsc", "--project", "tsconfig.json", cwd=folder)
    yield folder


def tool(*command: str | Path, cwd: Path) -> str:
    """What a tool says, which ends well."""
    done = subprocess.run(command, cwd=cwd, env=os.environ, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def noded(folder: Path, name: str, server: str) -> str:
    """What a compiled program prints."""
    program = folder / f"{name}.js"
    running = program.with_suffix(".mjs")
    running.write_text(program.read_text("utf-8").replace(ADDRESS, server), "utf-8")
    return tool("node", running, cwd=folder)


@ONE
@EACH
def test_typescript_prints_what_python_prints(
    compiled: Path, server: str, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    _, said = ran(shown(name).python, server, capsys)
    assert noded(compiled, name, server) == {"True\n": "true\n"}.get(said, said)


def dollars(amount: str) -> str:
    """An amount of the demonstration, whose currency is the dollar, with the sign and thousands apart."""
    whole, cents = amount.split(".")
    return f"${int(whole):,}.{cents}"


@ONE
def test_the_cart_is_twenty_lines_and_holds_the_order(server: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert max(PYTHON.count("\n"), TYPESCRIPT.count("\n")) <= 20
    held, said = ran(PYTHON, server, capsys)
    quote = requests.post(f"{server}/v1/quotes", json=held["job"], timeout=30).json()
    order = quote["quantities"]
    told = said.splitlines()
    lines = [
        " ".join(map(str, (one["packs"], "x", one["sku"], one["description"], dollars(one["amount"]))))
        for one in order["order_lines"]
    ]
    assert told[: len(lines) + 1] == [*lines, f"Total: {dollars(order['totals']['gross'])}"]
    assert "Total: $7,547.25" in told  # of 7547.25, as people write it
    assert [line for line in told if line.startswith("First: ")] == [
        f"First: {one['text']}" for one in order["blockers"]
    ]
    assert [line for line in told if line.startswith("Beware: ")] == [
        f"Beware: {one['text']}" for one in quote["cautions"]
    ]
    again = requests.get(server + told[-1].removeprefix("The same quote again: "), timeout=30)
    assert again.json() == quote


@ONE
def test_a_cart_says_at_which_field_to_write_what(server: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as told:
        ran(PYTHON.replace("1200 sq ft", "1200"), server, capsys)
    assert str(told.value).startswith("/rooms/0/shape/measured/area The unit is missing")


@ONE
def test_both_carts_say_the_same(compiled: Path, server: str, capsys: pytest.CaptureFixture[str]) -> None:
    _, said = ran(PYTHON, server, capsys)
    assert noded(compiled, "cart", server) == said


@ONE
def test_the_page_of_the_cart_holds_both(server: str) -> None:
    page = requests.get(f"{server}/docs/cart", timeout=30).text
    blocks = [unescape(block) for block in re.findall(r"<pre[^>]*>(.*?)</pre>", page, re.S)]
    assert blocks == [program.replace(ADDRESS, server) for program in (PYTHON, TYPESCRIPT)]
    assert 'href="/docs/cart"' in requests.get(f"{server}/docs", timeout=30).text


@ONE
def test_a_page_that_there_is_not_is_a_problem(server: str) -> None:
    response = requests.get(f"{server}/docs/makeQoute", timeout=30)
    assert (response.status_code, response.json()["code"]) == (404, "not-named")
    assert "makeQuote" in response.json()["detail"]
