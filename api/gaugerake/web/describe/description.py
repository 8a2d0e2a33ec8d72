"""The description of the API (OpenAPI 3.1), made from the operations, the job's schemas and the answers' classes."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from inspect import cleandoc
from typing import Any

from gaugerake import __version__
from gaugerake.answers.job.envelope import Envelope
from gaugerake.answers.job.working import Working
from gaugerake.answers.show.describe import Describer, open_list
from gaugerake.exchange.token import MOST_CHARACTERS
from gaugerake.floor.job import Job
from gaugerake.web.api.access import GUARDED
from gaugerake.web.api.examples import EXAMPLES, REFUSED
from gaugerake.web.api.language import CONTENT
from gaugerake.web.api.operations import Operation
from gaugerake.web.api.parameters import ECHO, LANG, Parameter
from gaugerake.web.api.resources import RESOURCES
from gaugerake.web.describe.bounds import HEADERS, LONGEST_BODY, bounded, headers
from gaugerake.web.describe.forms import component_name, job_components
from gaugerake.web.errors import codes
from gaugerake.web.errors.finding import MOST_ERRORS
from gaugerake.web.errors.problems import MEDIA_TYPE
from gaugerake.web.json_in.document import Document

Form = dict[str, Any]

ABOUT = """\
Answers four questions about a seamless resinous floor, from one description of the job: is the slab ready, what to
load on the truck, how to pour it, and when may traffic return.

Every calculation takes the same document, the job, and is a pure function of the job, the catalogue revision and the
price book: the same in, the same out, and safe to repeat. Each answers the HTTP method QUERY (RFC 10008) as it answers
POST. Measures are written as people write them (`1 1/2 in`, `5' 6 1/2"`, `1,250 sq ft`, `72 °F`) or as
`{"value": 1.5, "unit": "in"}`; a bare number is never taken for one. In a job a null says as much as leaving the field
out.

Where keys were made, every request under `/v1` sends one as `Authorization: Bearer` and the key; opening a quote needs
its token alone. A page of another origin may ask with a key that names its origin. `RateLimit` says how many requests
are left; a 429 or 503 says in `Retry-After` in how many seconds to ask again. Each job of a batch counts as a request.

What is refused is a problem (RFC 9457): `errors` names each field by JSON Pointer, what was seen and what to write
instead. Decide by `code`, as sentences may be reworded. Within `/v1` fields and codes are only added.

The answers defer to each product's own data sheet, to local codes and to licensed practice.
"""
TAGS = {
    "systems": "What can be quoted.",
    "units": "What a measure may be written in.",
    "readiness": "Is the slab ready.",
    "quantities": "What to load on the truck.",
    "pour-plan": "How to pour it.",
    "pour-progress": "How far the pour has come.",
    "return-times": "When may traffic return.",
    "quotes": "All of it, under one number.",
    "day-sheets": "The crew's days.",
    "comparisons": "Several choices for one job, side by side.",
    "start-search": "The best hour to begin.",
    "batches": "Many jobs at once.",
    "service": "The service itself.",
}
PROBLEMS = {
    400: ("NotRead", "The body is not JSON as it is read here, or the request is not HTTP."),
    401: ("KeyNeeded", "The service asks for a key, and none was sent that is one of its live ones."),
    403: ("NotAllowed", "The key is not for pages of this origin, or has another price book."),
    404: ("NotThere", "There is no such thing."),
    406: ("NotAcceptable", "The answer has no form that the request accepts."),
    410: ("NoLongerThere", "What it was made from is no longer kept."),
    413: ("TooLarge", "The body has more than 256 kB."),
    415: ("WrongMediaType", "The body is not declared as JSON, or has a content coding."),
    422: ("NotUnderstood", "Something is unknown, out of range or cannot be; every fault is listed with its place."),
    429: ("TooManyRequests", "The key or the address has asked more often than it may; Retry-After says when next."),
    503: ("NoCatalogue", "There is no catalogue to answer from; try again shortly."),
}
KEY: Form = {
    "type": "http",
    "scheme": "bearer",
    "description": "Needed where keys were made; an open service looks at none. Its keeper makes one.",
}
_TEXT: Form = {"type": ["string", "null"]}
PROBLEM: Form = {
    "type": "object",
    "description": "What went wrong (RFC 9457). `code` stays the same; title and detail may be reworded.",
    "properties": {
        "type": {"type": "string", "format": "uri-reference", "description": "An address that tells more."},
        "title": {"type": "string", "description": "The kind of problem, in words."},
        "status": {"type": "integer", "minimum": 400, "maximum": 599, "description": "That of the answer."},
        "detail": {"type": "string", "description": "What is wrong with this request."},
        "code": {"$ref": "#/components/schemas/ProblemCode", "description": "The kind of problem, for programs."},
        "request_id": {**_TEXT, "description": "That of the X-Request-Id header."},
        "errors": {
            "type": "array",
            "maxItems": MOST_ERRORS,
            "items": {"$ref": "#/components/schemas/ProblemError"},
            "description": "Every fault that was found, each at its place; empty where no place is to blame.",
        },
        "line": {"type": "integer", "minimum": 1, "description": "In a batch: the line of the job, from 1."},
        "retry_after": {
            "type": "integer",
            "minimum": 1,
            "maximum": 3600,
            "description": "In a batch, with `too-many-requests`: in how many seconds to send the job again.",
        },
    },
    "required": ["type", "title", "status", "detail", "code", "request_id", "errors"],
    "additionalProperties": False,
}
PROBLEM_ERROR: Form = {
    "type": "object",
    "description": "One fault: where, what was seen, and what to write instead.",
    "properties": {
        "pointer": {**_TEXT, "description": "RFC 6901 pointer into the job."},
        "parameter": {"type": "string", "description": "Instead of a pointer: the query parameter."},
        "code": {"$ref": "#/components/schemas/ProblemErrorCode", "description": "The kind of fault, for programs."},
        "detail": {"type": "string", "description": "What is wrong there."},
        "seen": {"description": "What stood there, shortened: a text, a number, yes or no, or null."},
        "hint": {**_TEXT, "description": "What to write instead."},
    },
    "required": ["pointer", "code", "detail", "seen", "hint"],
    "additionalProperties": False,
}
PROBLEM_FORMS: dict[str, Form] = {
    "Problem": PROBLEM,
    "ProblemCode": open_list(codes.PROBLEMS),
    "ProblemError": PROBLEM_ERROR,
    "ProblemErrorCode": open_list(codes.FAULTS),
}


@cache
def description() -> Form:
    """The whole description, as plain values."""
    operations = [operation for resource in RESOURCES for operation in resource.operations]
    describer = Describer()
    components = _components(operations, describer)
    paths: dict[str, Form] = {}
    for operation in operations:
        paths.setdefault(operation.path, {})[operation.method.lower()] = _operation(operation, describer, components)
    components = _referred(components | describer.components, paths)
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "gaugerake",
            "version": __version__,
            "summary": "Quotes for seamless resinous floors",
            "description": ABOUT,
            "license": {"name": "MIT", "identifier": "MIT"},
        },
        "servers": [
            {"url": "/", "description": "Where this description came from, in production or not.", "x-internal": False}
        ],
        "security": [{}, {"key": []}],
        "tags": [{"name": tag, "description": about} for tag, about in TAGS.items() if _used(tag, operations)],
        "paths": paths,
        "components": {
            "schemas": {name: bounded(form) for name, form in components.items()},
            "responses": {name: _problem(about, status) for status, (name, about) in PROBLEMS.items()},
            "headers": HEADERS,
            "securitySchemes": {"key": KEY},
        },
    }


def _used(tag: str, operations: list[Operation]) -> bool:
    return any(operation.tag == tag for operation in operations)


def _referred(components: dict[str, Form], paths: dict[str, Form]) -> dict[str, Form]:
    """Those components that something else refers to, by name."""
    text = str(paths) + str(list(components.values()))
    always = {"Problem"}
    return {
        name: form
        for name, form in sorted(components.items())
        if name in always or f"'#/components/schemas/{name}'" in text
    }


def _components(operations: list[Operation], describer: Describer) -> dict[str, Form]:
    taken = [schema for operation in operations for schema in (operation.takes, operation.reads) if schema is not None]
    describer.schema(Envelope)
    describer.schema(Working)
    envelope = describer.components.pop("Envelope")
    components = job_components(*taken) | PROBLEM_FORMS
    for operation in operations:
        if operation.takes is not None:
            components[f"{operation.answer.__name__}Answer"] = _enveloped(operation, describer, envelope)
    clash = components.keys() & describer.components.keys()
    assert not clash, f"two things are called {clash}"
    return components


def _enveloped(operation: Operation, describer: Describer, envelope: Form) -> Form:
    """An answer beside its envelope, with what may be asked for besides."""
    describer.schema(operation.answer)
    answer = describer.components[operation.answer.__name__]
    extras: Form = {
        "working": {
            "type": "array",
            "items": {"$ref": "#/components/schemas/Working"},
            "description": "With `working`: how each figure came about.",
        },
    }
    if ECHO in operation.parameters:
        extras["job"] = {
            "$ref": f"#/components/schemas/{component_name(_takes(operation))}",
            "description": "With `echo`: the job as it was understood.",
        }
    return {
        **answer,
        "properties": answer["properties"] | envelope["properties"] | extras,
        "required": [*answer["required"], *envelope["required"]],
    }


def _takes(operation: Operation) -> Document:
    assert operation.takes is not None
    return operation.takes


def _operation(operation: Operation, describer: Describer, components: dict[str, Form]) -> Form:
    form: Form = {
        "operationId": operation.id,
        "tags": [operation.tag],
        "summary": operation.summary,
        "description": operation.about,
        "parameters": _parameters(operation),
        "responses": {"200": _success(operation, describer)},
    }
    if operation.takes is not None:
        form["requestBody"] = _body(operation.takes, operation.examples or EXAMPLES)
    elif operation.body is not None:
        form["requestBody"] = bounded(operation.body, longest=LONGEST_BODY)
    for status in _statuses(operation):
        form["responses"][str(status)] = _other(status)
    if operation.keyless or not operation.path.startswith(GUARDED):
        form["security"] = []
    if not form["parameters"]:
        del form["parameters"]
    return form


def _statuses(operation: Operation) -> list[int]:
    always = {406, 422}
    if operation.path.startswith(GUARDED):
        always |= {400, 429, 503} if operation.keyless else {400, 401, 403, 429, 503}
    calculated = {400, 413, 415, 503} if operation.takes is not None else set()
    return sorted(always | calculated | set(operation.statuses))


def _other(status: int) -> Form:
    if status == 304:
        return {"description": "What is named by the tag sent is still so.", "headers": headers("ETag")}
    return {"$ref": f"#/components/responses/{PROBLEMS[status][0]}"}


def _success(operation: Operation, describer: Describer) -> Form:
    if operation.takes is not None:
        schema = {"$ref": f"#/components/schemas/{operation.answer.__name__}Answer"}
    else:
        schema = operation.answer if isinstance(operation.answer, dict) else describer.schema(operation.answer)
    content = {media_type: {"schema": form} for media_type, form in operation.forms.items()}
    told = {"ETag": 304 in operation.statuses, CONTENT: LANG in operation.parameters}
    return {
        "description": operation.summary + ".",
        "headers": headers(*(name for name, tells in told.items() if tells)),
        "content": bounded({operation.media_type: {"schema": schema}} | content, longest=LONGEST_BODY),
    }


_PATH: Form = {"type": "string", "minLength": 1, "maxLength": MOST_CHARACTERS, "pattern": "^[A-Za-z0-9._-]+$"}


def _parameters(operation: Operation) -> list[Form]:
    path = [
        {"name": name, "in": "path", "required": True, "description": about, "schema": _PATH}
        for name, about in operation.path_about.items()
    ]
    return path + [_query(parameter) for parameter in operation.parameters]


def _query(parameter: Parameter) -> Form:
    written = {"style": "form", "explode": False} if parameter.several else {}
    form = {"name": parameter.name, "in": "query", "description": parameter.about, "schema": parameter.form()}
    return form | written


def _body(schema: Document, examples: Mapping[str, object]) -> Form:
    reference = {"$ref": f"#/components/schemas/{component_name(schema)}"}
    return {
        "required": True,
        "description": "The job." if schema.makes is Job else cleandoc(schema.__doc__ or ""),
        "content": {"application/json": {"schema": reference, "examples": dict(examples)}},
    }


_SHOWN: Mapping[int, Form] = {422: {"example": REFUSED}}
_TOLD: Mapping[int, tuple[str, ...]] = {401: ("WWW-Authenticate",), 429: ("Retry-After",), 503: ("Retry-After",)}


def _problem(about: str, status: int) -> Form:
    return {
        "description": about,
        "headers": headers(CONTENT, *_TOLD.get(status, ())),
        "content": {MEDIA_TYPE: {"schema": {"$ref": "#/components/schemas/Problem"}} | _SHOWN.get(status, {})},
    }
