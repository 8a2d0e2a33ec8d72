"""Every error that leaves this service, as an RFC 9457 problem: one table, one builder.

A class of error stands in `TABLE` with its status and code; what is raised is looked up by its own class and then by
those above it. Titles, the codes of single faults and all sentences stand in the sentence files.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from typing import NamedTuple, get_args

import orjson
from flask import Response, g, request
from marshmallow import ValidationError
from werkzeug import exceptions as http

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.show.reader import US_READER, Language, Reader
from gaugerake.answers.show.words import sentence, templates, written
from gaugerake.catalogue.errors import CatalogueError
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.exchange.errors import ExchangeError, NotAToken, NothingOrdered, NotIssued, QrTooLong
from gaugerake.floor.values.note import Say, Value
from gaugerake.web.errors import refusal as errors
from gaugerake.web.errors.finding import MOST_ERRORS, UNSEEN, Finding, LocatedFinding, located, shown
from gaugerake.web.errors.narrowing import narrowed
from gaugerake.web.errors.refusal import MOST_BYTES
from gaugerake.web.errors.refusals import finding_of

MEDIA_TYPE = "application/problem+json"
LINE = "-line"
"""Ends the code of a sentence that says of one line of a batch what another says of a body."""

logger = logging.getLogger("gaugerake.web")


class ProblemKind(NamedTuple):
    """What a class of error becomes."""

    status: int
    code: str

    def title(self, language: Language = "en") -> str:
        """What it is called by people.

        >>> ProblemKind(404, "not-found").title()
        'Nothing is here'
        """
        return templates(language)[f"title-{self.code}"]


TABLE: Mapping[type[BaseException], ProblemKind] = {
    errors.EmptyBody: ProblemKind(400, "empty-body"),
    errors.NotUtf8: ProblemKind(400, "not-utf-8"),
    errors.NotJson: ProblemKind(400, "not-json"),
    errors.BadNumber: ProblemKind(400, "bad-number"),
    errors.TooDeep: ProblemKind(400, "too-deep"),
    errors.DoubledField: ProblemKind(400, "doubled-field"),
    errors.TooLarge: ProblemKind(413, "too-large"),
    errors.WrongMediaType: ProblemKind(415, "media-type"),
    errors.WrongBatchType: ProblemKind(415, "batch-media-type"),
    errors.BatchTooLarge: ProblemKind(413, "batch-too-large"),
    errors.BatchCutShort: ProblemKind(400, "batch-cut-short"),
    errors.EncodedBody: ProblemKind(415, "encoded-body"),
    errors.HeaderTooLong: ProblemKind(400, "header-too-long"),
    errors.NotAcceptable: ProblemKind(406, "not-acceptable"),
    errors.BadParameter: ProblemKind(422, "bad-parameter"),
    errors.NotNamed: ProblemKind(404, "not-named"),
    errors.KeyNeeded: ProblemKind(401, "key-needed"),
    errors.KeyUnknown: ProblemKind(401, "key-unknown"),
    errors.OriginNotAllowed: ProblemKind(403, "origin-not-allowed"),
    errors.OtherPriceBook: ProblemKind(403, "other-price-book"),
    errors.TooManyExplained: ProblemKind(422, "too-many-explained"),
    errors.TooManyCompared: ProblemKind(422, "too-many-compared"),
    errors.QuoteGone: ProblemKind(410, "quote-gone"),
    NotAToken: ProblemKind(404, "no-such-quote"),
    QrTooLong: ProblemKind(404, "qr-too-long"),
    NotIssued: ProblemKind(406, "quote-not-issued"),
    NothingOrdered: ProblemKind(406, "nothing-ordered"),
    CatalogueError: ProblemKind(503, "unavailable"),
    FileRefused: ProblemKind(503, "unavailable"),
    ValidationError: ProblemKind(422, "invalid-job"),
    Refused: ProblemKind(422, "refused-job"),
    http.NotFound: ProblemKind(404, "not-found"),
    http.MethodNotAllowed: ProblemKind(405, "method-not-allowed"),
    http.TooManyRequests: ProblemKind(429, "too-many-requests"),
    http.RequestEntityTooLarge: ProblemKind(413, "too-large"),
    http.HTTPException: ProblemKind(400, "bad-request"),
    Exception: ProblemKind(500, "internal-error"),
}


def kind_of(error: BaseException) -> ProblemKind:
    """The row of an error's class, or of the nearest class above it that has one."""
    return next(TABLE[above] for above in type(error).__mro__ if above in TABLE)


def respond(error: Exception) -> Response:
    """The response to an error."""
    body = body_of(error)
    response = Response(orjson.dumps(body), kind_of(error).status, content_type=MEDIA_TYPE)
    response.headers["Cache-Control"] = "no-store"
    response.headers.update(_headers(error))
    return response


def body_of(error: Exception, *, in_line: bool = False) -> dict[str, object]:
    """The problem of an error, noted in the log when the fault is here; ``in_line``, of one line of a batch."""
    kind = kind_of(error)
    if kind.status >= 500:
        logger.error(kind.code, exc_info=error)
    reader: Reader = g.get("reader", US_READER)
    listed = list(islice(_errors(error, reader), MOST_ERRORS))
    return {
        "type": f"/problems/{kind.code}",
        "title": kind.title(reader.language),
        "status": kind.status,
        "detail": _detail(error, kind, listed, reader, in_line=in_line),
        "code": kind.code,
        "request_id": g.get("request_id"),
        "errors": listed,
    }


def _detail(
    error: Exception, kind: ProblemKind, listed: list[dict[str, object]], reader: Reader, *, in_line: bool
) -> str:
    if kind.status == 500:
        return _INTERNAL[reader.language]
    if isinstance(error, ValidationError | Refused | errors.BadParameter):
        if len(listed) == 1:
            return str(listed[0]["detail"])
        return sentence("problem-several", {"count": len(listed)}, reader)
    code = f"problem-{kind.code}"
    of_line = f"{code}{LINE}"
    return sentence(of_line if in_line and of_line in templates() else code, _params(error), reader)


def _params(error: Exception) -> Mapping[str, Value]:
    """The figures of an error's own sentence."""
    if isinstance(error, errors.Refusal | ExchangeError):
        return error.params
    if isinstance(error, http.MethodNotAllowed):
        # every address takes OPTIONS, of which only a browser asks
        allowed = ", ".join(sorted({*(error.valid_methods or ())} - {"OPTIONS"}))
        return {"method": str(shown(request.method)), "allowed": allowed or Say(code="known-none")}
    return {"most": MOST_BYTES} if isinstance(error, http.RequestEntityTooLarge) else {}


# read at start: what goes wrong later may be in the sentences
_INTERNAL: Mapping[Language, str] = {
    language: templates(language)["problem-internal-error"] for language in get_args(Language)
}


def _headers(error: Exception) -> dict[str, str]:
    if isinstance(error, http.MethodNotAllowed) and error.valid_methods:
        return {"Allow": ", ".join(sorted(error.valid_methods))}
    if isinstance(error, errors.KeyNeeded):
        return {"WWW-Authenticate": 'Bearer realm="gaugerake"'}
    if isinstance(error, errors.KeyUnknown):
        return {"WWW-Authenticate": 'Bearer realm="gaugerake", error="invalid_token"'}
    if isinstance(error, errors.WrongMediaType):
        return {"Accept-Post": "application/json"}
    if isinstance(error, errors.WrongBatchType):
        return {"Accept-Post": "application/x-ndjson"}
    if isinstance(error, errors.EncodedBody):
        return {"Accept-Encoding": "identity"}
    if isinstance(error, CatalogueError | FileRefused):
        return {"Retry-After": "5"}
    return {}


def _errors(error: Exception, reader: Reader) -> Iterator[dict[str, object]]:
    for place in _places(error):
        finding = place.finding
        item: dict[str, object] = {"pointer": place.pointer}
        if place.parameter is not None:
            item["parameter"] = place.parameter
        item["code"] = finding.code
        item["detail"] = written(finding.detail, reader) or _sentence("problem", finding, reader)
        item["seen"] = None if finding.seen is UNSEEN else shown(finding.seen)
        item["hint"] = written(finding.hint, reader) or _hint(finding, reader)
        yield item


def _places(error: Exception) -> Iterable[LocatedFinding]:
    if isinstance(error, ValidationError):
        return map(narrowed, located(error.messages))
    if isinstance(error, Refused):
        return map(_fault, error.faults)  # a fault at a time: what one costs is spent for those that are told alone
    if isinstance(error, errors.Refusal):
        return error.places
    return ()


def _fault(fault: Fault) -> LocatedFinding:
    return LocatedFinding(fault.pointer, finding_of(fault.error, _at(g.get("document"), fault.pointer)))


def _at(document: object, pointer: str) -> object:
    """What stands in the document at a pointer, when anything does."""
    for segment in pointer.split("/")[1:]:
        key = segment.replace("~1", "/").replace("~0", "~")
        if isinstance(document, dict) and key in document:
            document = document[key]
        elif isinstance(document, list) and key.isdecimal() and int(key) < len(document):
            document = document[int(key)]
        else:
            return UNSEEN
    return document


def _sentence(stem: str, finding: Finding, reader: Reader) -> str:
    """The sentence of a finding; the same code may have others for ranges that are open at one end."""
    params = {"seen": None if finding.seen is UNSEEN else str(shown(finding.seen)), **finding.params}
    return sentence(f"{stem}-{params.pop('sentence', None) or finding.code}", params, reader)


def _hint(finding: Finding, reader: Reader) -> str | None:
    if finding.params.get("nearest"):
        return sentence("hint-nearest" if "known" in finding.params else "hint-nearest-alone", finding.params, reader)
    written = f"hint-{finding.params.get('sentence') or finding.code}" in templates(reader.language)
    return _sentence("hint", finding, reader) if written else None
