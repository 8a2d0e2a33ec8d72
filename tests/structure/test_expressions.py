"""Every regular expression in the code is listed here, with texts on which backtracking would show, or with the reason
why no text of a client's reaches it.

Python's expressions backtrack in C and hold all threads of a worker meanwhile. Each is run over texts of one part many
times repeated, and over twice as many.
"""

import ast
import re
from collections.abc import Callable, Iterator
from importlib import import_module
from itertools import product
from pathlib import Path

import pytest
from tests.growth import MOST_RATIO, ratio

CODE = Path(__file__).parents[2] / "api" / "gaugerake"
LENGTH = 4_000

FULLMATCH, MATCH, SUB = "fullmatch", "match", "sub"
MEETS_TEXT = {
    ("answers.show.words.figures", "_LEADING_NUMBER"): MATCH,
    ("catalogue.cases.file", "_AMOUNT"): FULLMATCH,
    ("catalogue.cases.file", "_NUMBER"): FULLMATCH,
    ("catalogue.cases.file", "_PERCENT"): FULLMATCH,
    ("catalogue.cases.pointers", "POINTER"): FULLMATCH,
    ("catalogue.file.prices", "_AMOUNT"): FULLMATCH,
    ("catalogue.file.prices", "_WITH_CODE"): FULLMATCH,
    ("catalogue.file.read", "_CODE"): FULLMATCH,
    ("catalogue.file.read", "_NUMBER"): FULLMATCH,
    ("catalogue.file.read", "_SKU"): FULLMATCH,
    ("catalogue.keys.key", "_HOST"): FULLMATCH,
    ("catalogue.keys.key", "_KEY"): FULLMATCH,
    ("catalogue.keys.key", "_RATE"): FULLMATCH,
    ("exchange.token", "_FORM"): FULLMATCH,
    ("measure.grammar", "_ANOTHER_NUMBER"): MATCH,
    ("measure.grammar", "_DECIMAL_COMMA"): MATCH,
    ("measure.grammar", "_EXPONENT"): MATCH,
    ("measure.grammar", "_FEET"): MATCH,
    ("measure.grammar", "_NUMBER"): MATCH,
    ("measure.grammar", "_PLAIN"): MATCH,
    ("measure.grammar", "_SPACES"): SUB,
    ("measure.units", "_PART"): FULLMATCH,
    ("measure.units", "_SLASHES"): SUB,
    ("measure.units", "_SPACES"): SUB,
    ("measure.units", "_STOPS"): SUB,
    ("web.describe.docs", "_PLAIN"): FULLMATCH,
    ("web.errors.narrowing", "_THICKNESS"): FULLMATCH,
    ("web.json_in.fields", "_MONEY"): FULLMATCH,
    ("web.json_in.fields_time", "_DATE"): FULLMATCH,
    ("web.json_in.fields_time", "_INSTANT"): FULLMATCH,
    ("web.json_in.fields_time", "_TIME"): FULLMATCH,
    ("web.observe.traces", "_ID"): FULLMATCH,
    ("web.observe.traces", "_TRACE"): FULLMATCH,
    ("web.server.edge", "_PAGE"): FULLMATCH,
}
"""The module and the name of each expression that meets a text from outside, and how it is asked."""

OWN_TEXT = {
    ("measure.definitions", "_DEFINITION"): "Pint's own file of units, at start",
    ("measure.definitions", "_IN_BRACKETS"): "Pint's own file of units, at start",
    ("measure.definitions", "_NAME"): "Pint's own file of units, at start",
    ("measure.units", "_LIKE_A_NUMBER"): "our own rows of units, at start",
    ("measure.units", "_POWER"): "our own rows of units, at start",
    ("web.api.page_words", "_BLANKS"): "the page's own style sheets",
    ("web.api.page_words", "_INDENTS"): "the page's own HTML",
    ("web.api.page_words", "_PHRASES_HERE"): "the page's own scripts",
    ("web.api.page_words", "_TYPES_AND_INDENTS"): "the page's own scripts",
    ("web.api.page_words", "_WHOLE_LINES"): "the page's own scripts",
    ("web.describe.docs", "_CODE"): "our own description",
}
"""Those that never meet one, and what they meet."""

BEGINNINGS = (
    "", "1", "-", "USD ", "http://a", "http://[", "2027-03-05T06:00", "1/", "1,", "a.", "/", "/rooms/1", "1e", "1 ft",
)  # fmt: skip
PARTS = (
    *" 01a-.,/_:~½'eE", "1,", "111,", "1.", "1 ", "a.", "a-", ". ", " /", "/ ", " per ", "--", "0-", "ft ", "' ", "a/",
    "1000 ", "24 ", "00-", "- ", "USD", "[", "?", "a?", "~1", "½", "ft, ", "a:",
)  # fmt: skip
ENDS = ("", "\n", "1", "a", "~", " %")


def _expressions() -> Iterator[tuple[str, str]]:
    """Each use of the module ``re``: the module where it stands, and the name that is given to it there."""
    for path in sorted(CODE.rglob("*.py")):
        module = ".".join(path.relative_to(CODE).with_suffix("").parts)
        tree = ast.parse(path.read_text("utf-8"))
        named = {
            id(part): statement.targets[0].id
            for statement in tree.body
            if isinstance(statement, ast.Assign) and isinstance(statement.targets[0], ast.Name)
            for part in ast.walk(statement.value)
        }
        for part in ast.walk(tree):
            if _is_of_re(part):
                yield module, named.get(id(part), f"line {part.lineno}")


def _is_of_re(part: ast.AST) -> bool:
    """Whether an expression is made or used through the module itself; ``re.Pattern`` in annotations is neither."""
    if isinstance(part, ast.ImportFrom):
        return part.module == "re"
    called = part.func if isinstance(part, ast.Call) else None
    return isinstance(called, ast.Attribute) and isinstance(called.value, ast.Name) and called.value.id == "re"


def test_each_expression_has_a_name_and_is_listed() -> None:
    assert sorted(_expressions()) == sorted([*MEETS_TEXT, *OWN_TEXT])


def _asked(place: tuple[str, str]) -> Callable[[str], object]:
    pattern: re.Pattern[str] = getattr(import_module(f"gaugerake.{place[0]}"), place[1])
    ask = getattr(pattern, MEETS_TEXT[place])
    return (lambda text: ask("", text)) if MEETS_TEXT[place] == SUB else ask


def _steep(ask: Callable[[str], object]) -> list[str]:
    """The texts on which the cost grows faster than their length."""
    found = []
    for beginning, part, end in product(BEGINNINGS, PARTS, ENDS):
        once, twice = (beginning + part * (length // len(part)) + end for length in (LENGTH, 2 * LENGTH))
        if ratio(lambda once=once: ask(once), lambda twice=twice: ask(twice)) >= MOST_RATIO:
            found.append(f"{beginning!r} + {part!r} * n + {end!r}")
    return found


@pytest.mark.parametrize("place", MEETS_TEXT, ids=".".join)
def test_an_expression_takes_no_more_than_twice_as_long_for_twice_as_much(place: tuple[str, str]) -> None:
    assert _steep(_asked(place)) == []


def test_an_expression_that_backtracks_would_be_found() -> None:
    ask = re.compile("[0-9]*[0-9]*[0-9]*;").match
    assert ratio(lambda: ask("1" * 300), lambda: ask("1" * 600)) >= MOST_RATIO
