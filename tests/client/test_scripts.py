"""The page's scripts: typed, formatted, and tested by Node's own runner."""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from gaugerake.web.api.page_words import page_html, without_comments

ROOT = Path(__file__).parents[2]
CLIENT = ROOT / "client"
Run = Callable[..., str]


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page as it is sent, with its words, and with the words and rows that late modules would bring."""
    file = tmp_path_factory.mktemp("page") / "index.html"
    page, rows = (page_html((CLIENT / name).read_text("utf-8"), view="late-") for name in ("index.html", "rows.html"))
    templates = rows.partition("<body>")[2].partition("</body>")[0]
    file.write_text(page.replace("</body>", f"{templates}</body>"), "utf-8")
    return file


@pytest.fixture(scope="module")
def sent(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The scripts as they are sent, under their paths, as JSON."""
    scripts = {path.relative_to(CLIENT).as_posix(): path for path in (CLIENT / "js").rglob("*.js")}
    file = tmp_path_factory.mktemp("sent") / "scripts.json"
    told = {name: without_comments(path.read_text("utf-8")) for name, path in scripts.items()}
    file.write_text(json.dumps(told), "utf-8")
    return file


def test_the_page_names_the_modules_of_its_first_view() -> None:
    """What ``main.js`` imports, and what that imports, comes side by side and not one after the other."""
    named = re.findall(
        r'<link rel="modulepreload" fetchpriority="low" href="([^"]+)">', (CLIENT / "index.html").read_text("utf-8")
    )
    assert sorted(named) == sorted(_imported(CLIENT / "js/quote/main.js"))


def _imported(script: Path) -> set[str]:
    found: set[Path] = set()
    ahead = [script.resolve()]
    while ahead:
        file = ahead.pop()
        imports = re.findall(r"^(?:import|export)\b[^;]*? from '([^']+)';", file.read_text("utf-8"), re.M)
        new = {(file.parent / name).resolve() for name in imports} - found
        found |= new
        ahead += new
    return {file.relative_to(CLIENT).as_posix() for file in found}


def test_the_types_of_the_scripts_agree_with_the_description(run: Run) -> None:
    run("openapi-typescript", ROOT / "openapi" / "openapi.yaml", "--output", "answers.d.ts")
    run("tsc", "--project", "tsconfig.json")


def test_the_scripts_are_formatted(run: Run) -> None:
    run("prettier", "--check", "--ignore-path", ROOT / ".prettierignore", CLIENT, "unit")


def test_the_scripts_do_what_they_say(run: Run, page: Path, sent: Path) -> None:
    """The tests of ``unit/``: what scripts do, and the house's rules for them."""
    files = sorted((Path(__file__).parent / "unit").glob("*.test.js"))
    told = run("node", "--test", "--test-reporter=tap", *files, PAGE=str(page), SENT=str(sent))
    passed = re.search(r"^# pass (\d+)$", told, re.M)
    assert passed is not None and int(passed[1]) > 30, told
