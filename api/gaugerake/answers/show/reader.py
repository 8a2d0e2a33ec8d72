"""Who an answer is shown to: the units and the language that they read, and the parts that they asked for."""

from __future__ import annotations

from typing import Literal, get_args

from gaugerake.floor.values.frozen import dataclass
from gaugerake.measure.choice import SI, US, UnitChoice

Language = Literal["en", "es"]
LANGUAGES: tuple[Language, ...] = get_args(Language)
"""The languages that answers are shown in, the usual one first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """One reader of an answer; ``parts`` are the parts of it that are shown, None all of them."""

    units: UnitChoice
    language: Language = "en"
    parts: frozenset[str] | None = None


US_READER = Reader(units=US)
"""The reader who states nothing: units of the United States, in English."""
SI_READER = Reader(units=SI)
