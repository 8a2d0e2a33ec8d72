"""What ``/docs`` says itself, around the description, and what stands in the gaps: code, links, statuses."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from markupsafe import Markup, escape

from gaugerake.answers.show.reader import LANGUAGES, Language
from gaugerake.answers.show.words import templates
from gaugerake.web.api.language import NAME

NOT_MODIFIED = "304"
"""A status without a problem to tell of."""


def words_of(language: Language, *, asked: bool) -> dict[str, Any]:
    """What the templates call for words in a language; links carry it on where it was ``asked`` for by ``lang``."""
    say = partial(phrase, language)
    return {
        "language": language,
        "say": say,
        "code": code,
        "heads": partial(_heads, say),
        "link": partial(_link, say, f"?{NAME}={language}" if asked else ""),
        "openapi": Markup('<a href="/openapi.json">openapi.json</a>'),
        "other_language": _other_language(say, language),
        "tag_name": partial(tag_name, language),
        "tag_about": partial(tag_about, language),
        "summary_of": partial(summary_of, language),
        "statuses_of": lambda operation: Markup(", ").join(_statuses(operation)),
    }


def phrase(language: Language, name: str, /, **gaps: str) -> Markup:
    """A phrase of the page as HTML; what is no HTML in its gaps is made so.

    >>> phrase("es", "docs-takes", what="1 < 2", media=code("text/csv"))
    Markup('Recibe 1 &lt; 2 como <code>text/csv</code>.')
    """
    return Markup(escape(templates(language)[name])).format(**gaps)


def of_description(language: Language, name: str, in_english: str) -> Markup:
    """A heading of the description in a language; as it stands there, and marked so, where the language has no word.

    >>> of_description("es", "docs-tag-quotes", "quotes"), of_description("es", "docs-tag-new", "new")
    (Markup('cotizaciones'), Markup('<span lang="en">new</span>'))
    """
    if name in templates(language):
        return phrase(language, name)
    return Markup('<span lang="{}">{}</span>').format(LANGUAGES[0], in_english)


def summary_of(language: Language, operation: dict[str, Any]) -> Markup:
    """What an operation does, in a line."""
    return of_description(language, f"docs-operation-{operation['operationId']}", operation["summary"])


def tag_name(language: Language, tag: dict[str, str]) -> Markup:
    """The name of a group of operations."""
    return of_description(language, f"docs-tag-{tag['name']}", tag["name"])


def tag_about(language: Language, tag: dict[str, str]) -> Markup:
    """What a group of operations is for."""
    return of_description(language, f"docs-about-tag-{tag['name']}", tag["description"])


def code(text: str) -> Markup:
    """What is typed or sent as it stands."""
    return Markup("<code>{}</code>").format(text)


def _heads(say: Callable[[str], Markup], *names: str) -> Markup:
    cells = Markup("").join(Markup('<th scope="col">{}</th>').format(say(name)) for name in names)
    return Markup("<thead><tr>{}</tr></thead>").format(cells)


def _link(say: Callable[[str], Markup], query: str, path: str, name: str, *, at: str = "") -> Markup:
    return Markup('<a href="{}{}{}">{}</a>').format(path, query, f"#{at}" if at else "", say(name))


def _other_language(say: Callable[[str], Markup], language: Language) -> Markup:
    """The same page in the other language; where this one isn't English, also that the description is."""
    switch = '<p><a href="?{0}={1}" lang="{1}" hreflang="{1}">{2}</a></p>'
    to = Markup(switch).format(NAME, say("page-other-language-code"), say("page-other-language"))
    return to if language == LANGUAGES[0] else to + Markup("\n<p>{}</p>").format(say("docs-in-english"))


def _statuses(operation: dict[str, Any]) -> Iterator[str]:
    for status in operation["responses"]:
        if status == NOT_MODIFIED:
            yield status
        elif status != "200":
            yield Markup('<a href="#status-{0}">{0}</a>').format(status)
