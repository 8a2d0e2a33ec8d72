"""The samples of one operation, as its page shows them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from gaugerake.floor.values.frozen import dataclass
from gaugerake.web.api.operations import JSON
from gaugerake.web.describe.description import description
from gaugerake.web.describe.samples.programs import curl, python, typescript
from gaugerake.web.describe.samples.requests import SAMPLES

RECORDED = Path(__file__).with_name("recorded")
_ENDINGS = {JSON: "json", "image/svg+xml": "svg", "application/x-ndjson": "ndjson"}
_BATCHED = 'components["schemas"]["QuoteAnswer" | "Problem"]'


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """The programs of one operation, the curl of its fault, and what both requests are answered."""

    curl: str
    python: str
    typescript: str
    media_type: str
    answer: str
    bad_curl: str
    problem: str


def operations() -> dict[str, dict[str, Any]]:
    """Each operation of the description by its id, with its method and its path beside."""
    return {
        operation["operationId"]: {**operation, "method": method, "path": path}
        for path, item in description()["paths"].items()
        for method, operation in item.items()
    }


def shown(name: str) -> Shown:
    """What the page of an operation shows.

    Raises
    ------
    KeyError
        When there is no such operation.
    """
    operation, sample = operations()[name], SAMPLES[name]
    media_type = media_type_of(operation)
    asked, answered = _types(operation)
    named = f'components["schemas"]["{sample.typed}"]' if sample.typed else answered
    return Shown(
        curl=curl(sample.good),
        python=python(sample),
        typescript=typescript(sample, asked=asked, answered=_BATCHED if sample.good.lines else named),
        media_type=media_type,
        answer=recorded(name, media_type),
        bad_curl=curl(sample.bad),
        problem=recorded(f"{name}.problem", JSON),
    )


def media_type_of(operation: dict[str, Any]) -> str:
    """The form of an answer that is shown: the first."""
    first: str = next(iter(operation["responses"]["200"]["content"]))
    return first


def file_of(name: str, media_type: str) -> Path:
    """Where an answer or a problem is recorded."""
    return RECORDED / f"{name}.{_ENDINGS[media_type]}"


def recorded(name: str, media_type: str) -> str:
    """An answer or a problem as it was recorded."""
    return file_of(name, media_type).read_text("utf-8")


def _types(operation: dict[str, Any]) -> tuple[str, str]:
    """The TypeScript types of body and answer."""
    body = operation.get("requestBody", {}).get("content", {}).get(JSON, {}).get("schema", {})
    answer = operation["responses"]["200"]["content"].get(JSON, {}).get("schema", {})
    return _type(body), _type(answer)


def _type(schema: dict[str, Any]) -> str:
    """The type of a component, or of the flags of a plain object.

    >>> _type({"$ref": "#/components/schemas/Job"}), _type({"properties": {"alive": {"type": "boolean"}}})
    ('components["schemas"]["Job"]', '{ alive: boolean }')
    """
    if "$ref" in schema:
        return f'components["schemas"]["{schema["$ref"].rsplit("/", 1)[-1]}"]'
    flags = [name for name, form in schema.get("properties", {}).items() if form["type"] == "boolean"]
    return f"{{ {'; '.join(f'{name}: boolean' for name in flags)} }}"
