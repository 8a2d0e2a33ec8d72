"""The language in which a request is answered.

It is the one of ``lang``; else, of an opened quote, the one that its token carries; else the one that was chosen on the
page; else the one of ``Accept-Language`` that we have and that the reader likes best; else English.

Decisions:

* ``lang`` is a closed list, as every parameter is: another word is a 422 with the list. ``Accept-Language`` says what a
  reader would like, and so is never an error: what cannot be read says nothing, and a header that is too long is not
  read. Of two that are liked alike, the one that is named first is taken. Each kind of Spanish (``es-MX``) is our
  Spanish, and each kind of English our English.
* A problem is in the language of its request, also where the request is refused before its address is looked at.
* A token carries a language only when the quote was asked for with ``lang``: the printed page is then the same for
  everybody. Else each reader of a link reads it in a language of their own. The fingerprint knows no language.
* The page keeps what is chosen on it in a cookie, ``lang``, which names a language and nobody: so its files, what they
  ask, its print and its links are all in one language. A cookie that names no language of ours says nothing.
* Every answer in words has ``Content-Language``, and ``Vary`` with ``Accept-Language`` even where ``lang`` decided.
"""

from __future__ import annotations

from functools import lru_cache

from flask import Flask, Response, g, request
from werkzeug.datastructures import LanguageAccept
from werkzeug.http import parse_accept_header

from gaugerake.answers.show.reader import LANGUAGES, US_READER, Language, Reader
from gaugerake.measure.choice import US
from gaugerake.web.api.headers import MOST_CHARACTERS
from gaugerake.web.api.vary import vary
from gaugerake.web.errors.problems import MEDIA_TYPE

NAME = "lang"
HEADER, CONTENT = "Accept-Language", "Content-Language"


def negotiate(app: Flask) -> None:
    """Find the language of each request before anything can refuse it, and say it beside the answer."""
    app.before_request(_find)
    app.after_request(_say)


@lru_cache(maxsize=256)
def liked(header: str) -> Language:
    """Which of our languages an ``Accept-Language`` likes best; English where it says nothing that can be read.

    >>> liked("es-MX, en;q=0.8"), liked("fr, es;q=0.5, en;q=0.4"), liked("de"), liked(";;q=,"), liked("es, en")
    ('es', 'es', 'en', 'en', 'es')
    """
    if len(header) > MOST_CHARACTERS:
        return LANGUAGES[0]
    # Werkzeug takes a time for spaces side by side that grows with their square, and an exact match before a better one
    ranges = parse_accept_header(" ".join(header.split()), LanguageAccept)
    kinds = LanguageAccept([(name.partition("-")[0].lower(), quality) for name, quality in ranges])
    named = [name for name, _ in kinds]
    ours = sorted(LANGUAGES, key=lambda one: named.index(one) if one in named else len(named))
    best = max(ours, key=kinds.quality)
    return best if kinds.quality(best) > 0 else LANGUAGES[0]


def of_request() -> Language:
    """The language of this request, as far as it says one itself."""
    reader: Reader = g.get("reader", US_READER)
    return reader.language


def of_quote(asked: str, carried: Language | None) -> Language:
    """The language of an opened quote: as ``asked``, else as its token ``carried`` it, else as the request likes."""
    return carried if carried is not None and not asked else of_request()


def of_name(name: str) -> Language | None:
    """Our language of that name, if it is one.

    >>> of_name("es"), of_name("fr")
    ('es', None)
    """
    return next((language for language in LANGUAGES if language == name), None)


def _find() -> None:
    given = request.args.getlist(NAME)
    said = [language for language in LANGUAGES if given == [language]]
    language = said[0] if said else _chosen() or liked(request.headers.get(HEADER, ""))
    g.reader = Reader(units=US, language=language)


def _chosen() -> Language | None:
    """The language that was chosen on the page, as its cookie keeps it; few requests have any."""
    return of_name(request.cookies.get(NAME, "")) if "HTTP_COOKIE" in request.environ else None


def _say(response: Response) -> Response:
    if response.mimetype == MEDIA_TYPE or g.get("in_words"):
        response.headers[CONTENT] = of_request()
        vary(response, HEADER, "Cookie")
    return response
