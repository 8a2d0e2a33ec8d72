"""Operations: what is done at which address, told once. Routes and the description are both made from it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from functools import lru_cache
from typing import Any

from flask import Blueprint, Response, g, request
from werkzeug.datastructures import MIMEAccept
from werkzeug.http import parse_accept_header

from gaugerake.answers.show.reader import SI_READER, US_READER, Reader
from gaugerake.floor.values.frozen import dataclass, replace
from gaugerake.web.api import language, parameters
from gaugerake.web.api.parameters import LANG, Parameter
from gaugerake.web.errors.problems import MEDIA_TYPE
from gaugerake.web.errors.refusal import NotAcceptable
from gaugerake.web.json_in.document import Document

Asked = dict[str, str]
View = Callable[..., Response]
JSON = "application/json"
OCTETS = "application/octet-stream"
"""A second media type of such answers: some client generators leave out answers of a media type they do not know."""
BYTES: Mapping[str, Any] = {"type": "string", "format": "binary"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One operation: its address and method, what it takes and what it answers.

    ``answer`` is a type that ``answers.show.describe`` knows, or a JSON schema; ``takes`` the schema of the body, or
    else ``body`` its description, and ``reads`` the schema that it refers to; ``forms`` the media types of the answer
    beside the first, and the schema of each. The ``path`` parameters are told in ``path_about``. ``examples`` are
    bodies; where empty, the usual jobs are shown. ``statuses`` are those beside 200 and what every operation can
    answer. A ``keyless`` operation needs no key where others do.
    """

    id: str
    path: str
    summary: str
    about: str
    tag: str
    view: View
    method: str = "GET"
    answer: Any = None
    media_type: str = JSON
    forms: Mapping[str, dict[str, Any]] = field(default_factory=dict)
    takes: Document | None = None
    body: dict[str, Any] | None = None
    reads: Document | None = None
    parameters: tuple[Parameter, ...] = ()
    path_about: dict[str, str] = field(default_factory=dict)
    statuses: tuple[int, ...] = ()
    examples: Mapping[str, object] = field(default_factory=dict)
    keyless: bool = False

    @property
    def endpoint(self) -> str:
        """What Flask calls it."""
        return f"{self.tag}.{self.id}"


class Resource(Blueprint):
    """The operations of one resource, as a blueprint."""

    def __init__(self, name: str) -> None:
        super().__init__(name, __name__)
        self.operations: list[Operation] = []

    def offers(self, **options: Any) -> Callable[[View], View]:
        """Make an operation of the view below: ``view(asked, **path_parameters)``."""

        def take(view: View) -> View:
            operation = Operation(view=view, tag=self.name, **options)
            self.operations.append(operation)
            rule = operation.path.replace("{", "<").replace("}", ">")
            self.add_url_rule(rule, operation.id, _guarded(operation), methods=_methods(operation))
            return view

        return take


def _reader(asked: Asked) -> Reader:
    return replace(
        SI_READER if asked.get("units") == "si" else US_READER,
        language=language.of_request(),
        parts=frozenset(asked["parts"].split(",")) if asked.get("parts") else None,
    )


def accepted() -> MIMEAccept:
    """What the request accepts, without the parameters of its media ranges; empty when it does not say.

    No parameter tells two of our forms apart, and many a client asks for ``application/json; charset=utf-8``. A
    generated client may name the form of problems alone, of all those that it knows: that says nothing of the answer.
    """
    return _ranges(request.headers.get("Accept", ""))


@lru_cache(maxsize=256)
def _ranges(header: str) -> MIMEAccept:
    """The ranges of an ``Accept``, read once, as a client says the same with each request; they cannot be changed."""
    ranges = [(name.partition(";")[0].rstrip(), quality) for name, quality in parse_accept_header(header, MIMEAccept)]
    return MIMEAccept([(name, quality) for name, quality in ranges if name.lower() != MEDIA_TYPE])


def best(forms: Iterable[str]) -> str | None:
    """The form that the request likes best of these, the first when it does not say; None where it likes none."""
    forms, liked = list(forms), accepted()
    return liked.best_match(forms) if liked else next(iter(forms), None)


def _methods(operation: Operation) -> list[str]:
    """A calculation is safe to repeat, so it answers QUERY (RFC 10008) as it answers POST."""
    return [operation.method, "QUERY"] if operation.method == "POST" else [operation.method]


def _guarded(operation: Operation) -> View:
    """The view behind what holds for every operation: its parameters are read, its form is acceptable."""

    def view(**path: str) -> Response:
        asked = parameters.read(request.args, operation.parameters)
        g.reader, g.in_words, g.lang = _reader(asked), LANG in operation.parameters, asked.get("lang") or None
        liked = accepted()
        made = (operation.media_type, *operation.forms)
        if liked and not any(map(liked.quality, made)):
            raise NotAcceptable(made=", ".join(made))
        return operation.view(asked, **path)

    return view
