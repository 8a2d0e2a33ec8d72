"""A job and the choices to be compared for it."""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError

from gaugerake.floor.values.frozen import dataclass
from gaugerake.web.errors.finding import Finding
from gaugerake.web.json_in.document import Document, Items, Object
from gaugerake.web.json_in.fields import Plain, Text

LEAST_CHOICES, MOST_CHOICES = 2, 24


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedChoice:
    """A choice: its name, and the merge patch that makes it of the job."""

    name: str
    change: dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedComparison:
    """A job document that need not be whole, and what is to be compared."""

    job: dict[str, Any]
    choices: tuple[AskedChoice, ...]


class ChoiceSchema(Document):
    """One choice: what it changes of the job."""

    makes = AskedChoice
    name = Text(80, required=True, about="What people call it; no two are alike.")
    change = Plain(
        required=True,
        about="A JSON Merge Patch (RFC 7396) on the job: what it has replaces the job's, null takes a field away.",
    )


class ComparisonSchema(Document):
    """A job, and the choices to be compared for it."""

    makes = AskedComparison
    job = Plain(
        required=True, about="A job as `POST /v1/quotes` takes it. It need not be whole: only the merged ones are read."
    )
    choices = Items(
        Object(ChoiceSchema),
        least=LEAST_CHOICES,
        most=MOST_CHOICES,
        required=True,
        about="What is set side by side; the answer keeps their order.",
    )

    def make(self, values: dict[str, Any]) -> AskedComparison:
        """The comparison."""
        asked = AskedComparison(**values)
        seen: set[str] = set()
        for index, choice in enumerate(asked.choices):
            if choice.name in seen:
                raise ValidationError({"choices": {index: {"name": [Finding("name-twice", choice.name)]}}})
            seen.add(choice.name)
        return asked


COMPARISON = ComparisonSchema()
