"""English that people read stands in the sentence files alone: answers and exchange hold codes."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from gaugerake.exchange import day_form, print_form

PACKAGE = Path(__file__).parents[2] / "api" / "gaugerake"
ROOMS = ("answers", "exchange")
DEVELOPERS = {
    "answers/show/describe.py": "the description of the interface is in English, as its names are",
    "answers/show/render.py": "Python that is compiled",
    "exchange/day_form.py": "the form of the printed day sheets, whose text the test below reads",
    "exchange/dictionary.py": "the text that tokens are packed against",
    "exchange/errors.py": "what errors say in the log; a problem says it in the reader's words",
    "exchange/plain_form.py": "the head and the style of both printed forms, whose text the test below reads",
    "exchange/print_form.py": "the printed page's form, whose text the test below reads",
}
"""Modules whose strings nobody reads as a sentence of an answer, and why."""
PHRASE = re.compile(r"[A-Za-z]{2,}[,:;.]? +[A-Za-z]{2,}")


def children_of(node: ast.AST) -> Iterator[ast.AST]:
    """What may hold a phrase: not what a developer reads, nor the names of inputs, by which rules are filled in."""
    match node:
        case ast.Raise() | ast.Assert():
            return
        case ast.Call(func=ast.Attribute(attr="startswith")):
            return
        case ast.Expr(value=ast.Constant()):  # a docstring, of a module, class, function or name
            return
        case ast.Subscript(value=ast.Name(id="Annotated")):
            return
        case ast.Dict(values=values):
            yield from values
        case ast.Assign(targets=[ast.Subscript()], value=value):
            yield value
        case ast.Yield(value=ast.Tuple(elts=[_, *rest])):
            yield from rest
        case _:
            yield from ast.iter_child_nodes(node)


def phrases(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and PHRASE.search(node.value):
        yield node.value
    for child in children_of(node):
        yield from phrases(child)


MODULES = {
    path.relative_to(PACKAGE).as_posix(): path for room in ROOMS for path in sorted((PACKAGE / room).rglob("*.py"))
}


@pytest.mark.parametrize("name", [name for name in MODULES if name not in DEVELOPERS])
def test_a_module_holds_no_english_that_people_read(name: str) -> None:
    assert list(phrases(ast.parse(MODULES[name].read_text("utf-8")))) == []


def test_a_phrase_is_found_where_people_would_read_it() -> None:
    code = '"""A docstring."""\nSOURCE = "common practice"\ndef told(x):\n    return f"price book {x}" if x else None\n'
    assert list(phrases(ast.parse(code))) == ["common practice", "price book "]


@pytest.mark.parametrize("template", [print_form.TEMPLATE, day_form.TEMPLATE], ids=["quote", "day sheets"])
def test_a_printed_page_has_no_word_of_its_own(template: str) -> None:
    text = re.sub(r"{{.*?}}|{%.*?%}", " ", template, flags=re.S)
    assert re.findall(r"[A-Za-z]{2,}", re.sub(r"<[^>]*>", " ", text)) == []
    assert re.findall(r'(?:alt|title|aria-label)="([^"]*[A-Za-z][^"]*)"', text) == []
