"""Measures in a document: a text as people write it, or a value and its unit; and lengths that share a unit."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from marshmallow import ValidationError

from gaugerake.floor.values.figure import Bound, Kind
from gaugerake.floor.values.note import Say, Value, listed
from gaugerake.measure.choice import UnitChoice
from gaugerake.measure.dimension import KINDS, LARGER_EXAMPLES, Dimension, examples_of
from gaugerake.measure.errors import BadUnit, NotAMeasure, phrase
from gaugerake.measure.grammar import LONGEST, canonical, read, read_json
from gaugerake.measure.units import find, units_of
from gaugerake.nearest import nearest_name
from gaugerake.web.errors.finding import Finding, refuse
from gaugerake.web.json_in.fields import Form, Strict

# The same few measures come in every job; reading is pure, so one that was read need not be read again.
_read_text = lru_cache(maxsize=4096)(read)


class Measure(Strict):
    """A measure of the dimension of ``kind`` (a kind of figure, which says its unit in answers), ``low`` to ``high``.

    ``low`` and ``high`` are measures themselves; both ends belong to the range.
    """

    def __init__(self, kind: Kind, low: str, high: str, **options: Any) -> None:
        super().__init__(**options)
        dimension = KINDS[kind].dimension
        if dimension is None:
            raise ValueError(f"{kind} is a plain number")
        self.kind, self.dimension = kind, dimension
        self.range = low, high
        self.low, self.high = read(low, dimension), read(high, dimension)
        self.examples = self._taken(examples_of(kind)) or self._taken(LARGER_EXAMPLES[kind])

    def _taken(self, examples: Sequence[str]) -> list[str]:
        """Those that are within the range."""
        return [one for one in examples if self.low <= read(one, self.dimension) <= self.high]

    def read(self, value: Any) -> float:
        """The measure in SI."""
        try:
            found = _read_text(value, self.dimension) if type(value) is str else read_json(value, self.dimension)
        except NotAMeasure as error:
            raise ValidationError([not_a_measure(error, value, self.examples)]) from None
        if not self.low <= found <= self.high:
            low, high = Bound(self.low, self.kind, low=True), Bound(self.high, self.kind, low=False)
            refuse("measure-out-of-range", value, low=low, high=high)
        return found

    def write(self, value: Any, choice: UnitChoice) -> Any:
        """A value and its unit, in the reader's units, in as many digits as are read as this value again."""
        shown, unit = choice.show(value, self.kind)
        if read_json({"value": shown, "unit": unit}, self.dimension) != value:
            shown = choice.exact(value, self.kind)
        return {"value": shown, "unit": unit}

    def form(self) -> Form:
        """A string or an object, with the range in words."""
        examples = list(examples_of(self.kind))
        return {
            "oneOf": [
                {
                    "type": "string",
                    "format": f"measure-{self.kind}",
                    "minLength": 1,
                    "maxLength": LONGEST,
                    "examples": examples,
                },
                {"$ref": "#/components/schemas/Measure"},
            ],
            "x-range": f"{phrase(self.dimension).capitalize()}, {self.range[0]} to {self.range[1]}.",
        }


def not_a_measure(error: NotAMeasure, value: Any, examples: Sequence[str]) -> Finding:
    """What the door for units found wrong, with ``examples`` of what the field takes."""
    dimension = Say(code=f"dimension-{error.dimension}")
    params: dict[str, Value] = {"dimension": dimension}
    if isinstance(error, BadUnit):
        params |= {"unit": error.unit, "other": Say(code=f"dimension-{error.other}") if error.other else None}
    return Finding(
        error.code, value, detail=Say(code=f"measure-{error.code}", params=params), hint=_instead(error, examples)
    )


def _instead(error: NotAMeasure, examples: Sequence[str]) -> Say:
    """What would be accepted, and the unit whose name is most like the one seen."""
    params: dict[str, Value] = {
        "dimension": Say(code=f"dimension-{error.dimension}"),
        "examples": listed(code="measure-or", phrases=examples),
    }
    nearest_unit = error.nearest if isinstance(error, BadUnit) else None
    if nearest_unit is None:
        return Say(code="measure-hint", params=params)
    return Say(code="measure-hint-nearest", params=params | {"nearest": nearest_unit})


class LengthUnit(Strict):
    """The name of a unit of length, alone; read as its size in metres."""

    def read(self, value: Any) -> float:
        """Metres."""
        if not isinstance(value, str):
            refuse("not-text", value)
        unit = find(value, Dimension.LENGTH) if 0 < len(value) <= LONGEST else None
        if unit is None:
            names = [entry.unit for entry in units_of(Dimension.LENGTH)]
            refuse("unknown-word", value, known=", ".join(names), nearest=nearest_name(value, names))
        return unit.factor

    def form(self) -> Form:
        """A string."""
        return {"type": "string", "format": "unit-of-length", "minLength": 1, "maxLength": 32, "examples": ["ft", "m"]}


def to_metres(value: float, factor: float) -> float:
    """A plain number in a unit of length, as a measure in that unit would be read."""
    return canonical(value * factor) + 0.0


def from_metres(value: float, factor: float, choice: UnitChoice) -> float:
    """The plain number in the reader's unit of length, ``factor`` metres, that is read as this length again."""
    shown = choice.show(value, Kind.LENGTH)[0]
    return shown if to_metres(shown, factor) == value else choice.exact(value, Kind.LENGTH)
