"""``/openapi.json`` for programs, ``/docs`` and ``/problems/{code}`` for people: all made from the description.

``/docs/{operation}`` has the samples of one operation, ``/docs/cart`` a small shop. They are pages to read: each is in
the language of its request, and an unknown ``lang`` is refused here too, though nothing else of their query is read.

Samples ask the service at the address that the reader asked, or at ``GAUGERAKE_ADDRESS``, so that they run as they are
copied. A ``Host`` says what its sender likes, and a sample is pasted into a shell: one that is more than a name or an
address and a port is not repeated, and the samples then ask where ``api/serve`` serves.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable
from functools import cache
from hashlib import sha256
from typing import Any

import orjson
from flask import Flask, Response, g
from jinja2 import Environment
from markupsafe import Markup, escape

from gaugerake.answers.show.reader import Language, Reader
from gaugerake.answers.show.words import sentence
from gaugerake.floor.values.note import Say
from gaugerake.measure.choice import US
from gaugerake.web.api.own_address import own_address
from gaugerake.web.api.parameters import read_language
from gaugerake.web.api.replies import named_reply
from gaugerake.web.describe.bounds import GREATEST_NUMBER
from gaugerake.web.describe.description import PROBLEMS, description
from gaugerake.web.describe.docs_page import CART, OPERATION, STYLE, TEMPLATE
from gaugerake.web.describe.docs_words import code, phrase, summary_of, words_of
from gaugerake.web.describe.samples import cart
from gaugerake.web.describe.samples.programs import ADDRESS, curl
from gaugerake.web.describe.samples.requests import SAMPLES
from gaugerake.web.describe.samples.shown import operations, shown
from gaugerake.web.errors.problems import TABLE, ProblemKind
from gaugerake.web.errors.refusal import NotNamed

_STYLE_HASH = b64encode(sha256(STYLE.encode()).digest()).decode()
POLICY = f"default-src 'none'; style-src 'sha256-{_STYLE_HASH}'; base-uri 'none'; frame-ancestors 'none'"
CART_NAME = "cart"
_PLAIN = re.compile(r"https?://(?:[A-Za-z0-9.-]+|\[[0-9A-Fa-f:.]+\])(?::[0-9]{1,5})?(?:/[A-Za-z0-9._~/-]*)?")
_CODE = re.compile(r"`([^`]+)`")


def add_docs(app: Flask) -> None:
    """Give the description its addresses."""
    app.add_url_rule("/openapi.json", "openapi", lambda: named_reply(_json(), "application/json"))
    app.add_url_rule("/docs", "docs", lambda: _page(_html(*read_language())))
    app.add_url_rule("/docs/<name>", "samples", _samples)
    app.add_url_rule("/problems/<code>", "problem", _problem)


@cache
def _json() -> bytes:
    return orjson.dumps(description())


def _page(html: bytes) -> Response:
    here = str(escape(sample_address(own_address())))
    response = named_reply(html.replace(ADDRESS.encode(), here.encode()), "text/html; charset=utf-8")
    response.headers["Content-Security-Policy"] = POLICY
    g.in_words = True
    return response


def sample_address(address: str) -> str:
    """An address that may stand in a program that is pasted.

    >>> sample_address("https://floors.example:8443"), sample_address("http://[::1]:8080")
    ('https://floors.example:8443', 'http://[::1]:8080')
    >>> sample_address("http://floors.example;reboot"), sample_address("http://$(reboot)")
    ('http://127.0.0.1:8080', 'http://127.0.0.1:8080')
    """
    return address if _PLAIN.fullmatch(address) else ADDRESS


def _samples(name: str) -> Response:
    language, asked = read_language()
    known = (CART_NAME, *SAMPLES)
    if name not in known:
        raise NotNamed(thing=Say(code="thing-page"), name=name[:80], known=", ".join(known))
    return _page(_cart(language, asked) if name == CART_NAME else _operation(name, language, asked))


@cache
def _cart(language: Language, asked: bool) -> bytes:
    words = words_of(language, asked=asked)
    return _rendered(CART, words, title=words["say"]("docs-a-cart"), python=cart.PYTHON, typescript=cart.TYPESCRIPT)


@cache
def _operation(name: str, language: Language, asked: bool) -> bytes:
    operation = operations()[name]
    words = words_of(language, asked=asked)
    title = summary_of(language, operation).striptags()
    return _rendered(OPERATION, words, title=title, operation=operation, shown=shown(name))


def _problem(code: str) -> Response:
    kind = kinds().get(code)
    if kind is None:
        raise NotNamed(thing=Say(code="thing-problem"), name=code[:80], known=", ".join(kinds()))
    g.in_words, reader = True, Reader(units=US, language=read_language()[0])
    title = f"{kind.title(reader.language)} ({kind.status}, {kind.code})."
    text = "\n\n".join((title, sentence("fault-of-the-request", {}, reader))) + "\n"
    return named_reply(text.encode(), "text/plain; charset=utf-8")


@cache
def kinds() -> dict[str, ProblemKind]:
    """Each kind of problem by its code."""
    return {kind.code: kind for kind in TABLE.values()}


@cache
def _html(language: Language, asked: bool) -> bytes:
    schemas = description()["components"]["schemas"]
    return _rendered(
        TEMPLATE,
        words_of(language, asked=asked),
        title=phrase(language, "docs-title"),
        asked={name for name in schemas if name.startswith("Job") or name.endswith("Job")},
        statuses=PROBLEMS,
        kinds=kinds().values(),
        curls={name: curl(sample.good) for name, sample in SAMPLES.items()},
    )


def _rendered(template: str, words: dict[str, Any], **values: object) -> bytes:
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    environment.filters |= {"prose": prose, "inline": inline, "kind": kind_of, "anchor": anchor, "nullable": nullable}
    environment.globals["pretty"] = _pretty
    page = environment.from_string(template)
    return page.render(api=description(), style=Markup(STYLE), address=ADDRESS, **words, **values).encode()


def prose(text: str) -> Markup:
    """Paragraphs and code of a description, as HTML.

    >>> prose("Write `1 ft`.")
    Markup('<p>Write <code>1 ft</code>.</p>')
    """
    return Markup("").join(Markup("<p>{}</p>").format(inline(part)) for part in text.strip().split("\n\n"))


def inline(text: str | None) -> Markup:
    """One line of a description, its code marked up."""
    return Markup(_CODE.sub(r"<code>\1</code>", str(escape(text or ""))))


def anchor(reference: str) -> str:
    """The name at the end of a reference."""
    return reference.rsplit("/", 1)[-1]


def kind_of(schema: dict[str, Any]) -> Markup:
    """A schema in a few words, with links to the objects that it holds."""
    for key, writer in _WRITERS.items():
        if key in schema:
            return writer(schema)
    return Markup("anything")


def nullable(schema: dict[str, Any]) -> bool:
    """Whether a null may stand there.

    >>> nullable({"type": ["string", "null"]}), nullable({"anyOf": [{"type": "string"}, {"type": "null"}]})
    (True, True)
    >>> nullable({"type": "string"})
    False
    """
    return any("null" in _types(part) for part in (schema, *schema.get("anyOf", ()), *schema.get("oneOf", ())))


def _types(schema: dict[str, Any]) -> list[str]:
    kinds: str | list[str] = schema.get("type", [])
    return kinds if isinstance(kinds, list) else [kinds]


def _reference(schema: dict[str, Any]) -> Markup:
    name = escape(anchor(schema["$ref"]))
    return Markup('<a href="#{0}">{0}</a>').format(name)


def _words(schema: dict[str, Any]) -> Markup:
    listed = schema.get("enum") or schema["x-extensible-enum"]
    words = [code(word) for word in listed if word is not None]
    return Markup(", ").join(words)


def _either(key: str) -> Callable[[dict[str, Any]], Markup]:
    def write(schema: dict[str, Any]) -> Markup:
        parts = [kind_of(part) for part in schema[key] if part.get("type") != "null"]
        return Markup(" or ").join(parts)

    return write


def _type(schema: dict[str, Any]) -> Markup:
    kinds = _types(schema)
    if "array" in kinds:
        inner = schema.get("items") or {"anyOf": schema.get("prefixItems", [])}
        return Markup("list of {}").format(kind_of(inner))
    named = Markup(", ").join(kind for kind in kinds if kind != "null")
    if "minimum" in schema and "maximum" in schema and schema["maximum"] != GREATEST_NUMBER:
        return Markup("{} {} to {}").format(named, f"{schema['minimum']:,}", f"{schema['maximum']:,}")
    return named


_WRITERS: dict[str, Callable[[dict[str, Any]], Markup]] = {
    "$ref": _reference,
    "enum": _words,
    "x-extensible-enum": _words,
    "oneOf": _either("oneOf"),
    "anyOf": _either("anyOf"),
    "type": _type,
}


def _pretty(value: object) -> str:
    return orjson.dumps(value, option=orjson.OPT_INDENT_2).decode()
