"""Every code that the service says is in the description's lists, and nothing else is."""

import ast
import gzip
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.contract.golden.record import FOLDER

from gaugerake.answers.show import codes as answers
from gaugerake.answers.show.words import templates
from gaugerake.web.describe.description import description
from gaugerake.web.errors import codes as web
from gaugerake.web.errors.problems import TABLE

PACKAGE = Path(__file__).parents[2] / "api" / "gaugerake"
KINDS = {
    "assume": "assumptions",
    "assumption": "assumptions",
    "caution": "cautions",
    "lack": "missing",
    "missing": "missing",
    "Note": "blockers",
}
Said = tuple[str, ast.expr, str]


def said(folder: Path, names: set[str]) -> Iterator[Said]:
    """Each call of one of these names: the name, its first argument or ``code``, and where it stands."""
    for file in sorted(folder.rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call):
                name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
                code = node.args[0] if node.args else next((k.value for k in node.keywords if k.arg == "code"), None)
                if name in names and code is not None:
                    yield name, code, f"{file.name}:{node.lineno}"


def notes() -> list[Said]:
    return [one for room in ("answers", "web") for one in said(PACKAGE / room, set(KINDS))]


def test_a_code_that_is_written_out_is_listed_with_its_kind() -> None:
    unlisted = [
        f"{where}: {code.value}"
        for name, code, where in notes()
        if isinstance(code, ast.Constant) and code.value not in answers.CODES[KINDS[name]]
    ]
    assert unlisted == [], "add it to gaugerake/answers/show/codes.py"


def test_a_code_that_is_put_together_has_its_beginning_in_the_list() -> None:
    for name, code, where in notes():
        if isinstance(code, ast.JoinedStr):
            (beginning, *_) = code.values
            assert isinstance(beginning, ast.Constant), where
            assert any(one.startswith(beginning.value) for one in answers.CODES[KINDS[name]]), where


def test_a_listed_code_is_said_somewhere_and_has_its_sentence() -> None:
    source = "\n".join(path.read_text("utf-8") for path in PACKAGE.rglob("*.py") if path.name != "codes.py")
    quoted = set(re.findall(r'"([a-z0-9][a-z0-9-]*)"', source))
    stems = set(re.findall(r'caution\(\s*f"([a-z0-9-]+)\{', source))
    for kind, listed in answers.CODES.items():
        assert len(set(listed)) == len(listed), kind
        for code in listed:
            assert code in templates(), code
            assert code in quoted or any(code.startswith(stem) for stem in stems), code


def test_a_fault_that_is_written_out_is_listed() -> None:
    found = [
        code.value for _, code, _ in said(PACKAGE / "web", {"Finding", "refuse"}) if isinstance(code, ast.Constant)
    ]
    assert len(found) > 40
    assert set(found) <= set(web.FAULTS)
    assert {kind.code for kind in TABLE.values()} == set(web.PROBLEMS)


def strays(answer: Any, place: str = "") -> Iterator[str]:
    """Each code in an answer that its kind's list does not have."""
    if isinstance(answer, list):
        for one in answer:
            yield from strays(one, place)
    elif isinstance(answer, dict):
        for name, inner in answer.items():
            listed = {**answers.CODES, "errors": web.FAULTS}.get(name)
            if listed is not None and isinstance(inner, list):
                yield from (f"{place}/{name}: {one['code']}" for one in inner if one["code"] not in listed)
            else:
                yield from strays(inner, f"{place}/{name}")


def test_every_recorded_answer_has_listed_codes() -> None:
    seen = 0
    for file in FOLDER.glob("*/*.json.gz"):
        answer = json.loads(gzip.decompress(file.read_bytes()))
        assert list(strays(answer)) == [], file.name
        seen += len(answer.get("cautions", ())) + len(answer.get("errors", ()))
    assert seen > 500


def test_a_stray_code_is_found() -> None:
    note = {"code": "no-such-code", "text": "…"}
    assert list(strays({"quantities": {"blockers": [note]}, "errors": [note]})) == [
        "/quantities/blockers: no-such-code",
        "/errors: no-such-code",
    ]


@pytest.mark.parametrize(
    ("holder", "field", "listed"),
    [
        ("Assumption", "code", answers.ASSUMPTIONS),
        ("Caution", "code", answers.CAUTIONS),
        ("Missing", "code", answers.MISSING),
        ("Blocker", "code", answers.BLOCKERS),
        ("Problem", "code", web.PROBLEMS),
        ("ProblemError", "code", web.FAULTS),
    ],
)
def test_the_description_lists_them_and_lets_others_come(holder: str, field: str, listed: tuple[str, ...]) -> None:
    schemas = description()["components"]["schemas"]
    code = schemas[schemas[holder]["properties"][field]["$ref"].rsplit("/", 1)[-1]]
    assert code["x-extensible-enum"] == list(listed)
    assert code["type"] == "string"
    assert "enum" not in code
