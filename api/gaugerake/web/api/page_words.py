"""What is written into the page's files when they are read: the words of a language. And comments are left out.

The words stand beside those of the answers, in ``answers/show/words/<language>/``: ``page-…`` in the HTML, which is a
Jinja template, ``client-…`` for its scripts, ``embed-…`` for the form on other pages, ``working-…`` for the module that
shows the working, ``late-…`` for the other modules that come when they are wanted. Such a script says whose phrases it
carries: ``/* words late-log- */ {}``. A view of its own has one prefix for its HTML and its scripts, which the first
view does not carry: ``pouring-…`` the page on the slab, ``compare-…`` the choices, ``begin-…`` the hours to begin at.
They go out with the file that needs them: words of their own would be one request more, and the page would change while
one looks.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

from jinja2 import Environment, StrictUndefined
from markupsafe import Markup

from gaugerake.answers.show.reader import Language
from gaugerake.answers.show.words import templates

_PAGES = Environment(autoescape=True, undefined=StrictUndefined, keep_trailing_newline=True)
_WHOLE_LINES = re.compile(r"^[ \t]*(?://[^\n]*|/\*(?:[^*]|\*(?!/))*\*/[ \t]*)$", re.MULTILINE)
_TYPES_AND_INDENTS = re.compile(r"/\*\*[^*\n]*\*/ ?|^[ \t]+", re.MULTILINE)
_INDENTS = re.compile(r"^[ \t]+", re.MULTILINE)
_BLANKS = re.compile(r" ?([{};,]) ?|(?<=:) ")
_PHRASES_HERE = re.compile(r"/\* words ([a-z-]+-) \*/ \{\}")


def page_html(template: str, language: Language = "en", *, view: str = "") -> str:
    """A page in a language, with the phrases of its scripts and without indents; a ``view`` brings phrases of its own.

    Raises
    ------
    jinja2.UndefinedError
        When the template asks for a phrase that the language does not have.
    """
    own = _phrases(view, language) if view else {}
    phrases = Markup(_as_json({**_phrases("client-", language), **own}))
    words = {**_phrases("page-", language), **own}
    written = _PAGES.from_string(template).render(words=words, scripts=phrases, language=language)
    return _INDENTS.sub("", written)


def with_phrases(script: str, language: Language = "en") -> str:
    """A script with the phrases that it carries: those whose codes begin as it says.

    >>> '"embed-floor-system":"Floor system"' in with_phrases("const PHRASES = /* words embed- */ {};")
    True
    """
    return _PHRASES_HERE.sub(lambda found: _as_json(_phrases(found[1], language)), script)


def carries_phrases(script: str) -> bool:
    """Whether phrases are written into a script."""
    return _PHRASES_HERE.search(script) is not None


def tight(style: str) -> str:
    """A style sheet without comments and the blanks that part its signs; each line keeps its number.

    >>> tight("/* look */\\n  .a, .b { color: red; content: ' :'; }")
    "\\n.a,.b{color:red;content:' :'}"
    """
    return _BLANKS.sub(r"\1", without_comments(style)).replace(";}", "}")


def without_comments(script: str) -> str:
    r"""A script or style sheet without comments, types and indents; each line keeps its number, for errors.

    >>> without_comments("// Why.\n/** What.\n * @type {string}\n */\nconst one = /** @type {any} */ ('a'); // stays")
    "\n\n\n\nconst one = ('a'); // stays"
    """
    lines = _WHOLE_LINES.sub(lambda found: "\n" * found.group().count("\n"), script)
    return _TYPES_AND_INDENTS.sub("", lines)


def _phrases(prefix: str, language: Language) -> Mapping[str, str]:
    return {code: text for code, text in templates(language).items() if code.startswith(prefix)}


def _as_json(phrases: Mapping[str, str]) -> str:
    """JSON that may stand in a script element: it holds no ``<``."""
    return json.dumps(phrases, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
