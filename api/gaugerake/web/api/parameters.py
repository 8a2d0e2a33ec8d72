"""Query parameters: a closed list for each address, each with its few words."""

from __future__ import annotations

from dataclasses import field, replace
from typing import Any

from flask import request
from werkzeug.datastructures import MultiDict

from gaugerake.answers.pour_plan.explain import MOST_POURS_EXPLAINED
from gaugerake.answers.quote.asked import PARTS as QUOTE_PARTS
from gaugerake.answers.return_times.explain_steps import MOST_PARTS_EXPLAINED
from gaugerake.answers.show.reader import LANGUAGES, Language
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say
from gaugerake.nearest import nearest_name
from gaugerake.web.api.language import NAME, of_request
from gaugerake.web.errors.finding import MOST_ERRORS, Finding, LocatedFinding
from gaugerake.web.errors.refusal import BadParameter


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameter:
    """One query parameter and the words that it can have; the first is taken when it is left out.

    Of a ``several`` parameter some words may be given, with commas or, as some generated clients do, each by itself;
    left out, it is empty. So is an ``unsaid`` one: something else decides then.
    """

    name: str
    words: tuple[str, ...]
    about: str = field(compare=False)
    several: bool = False
    unsaid: bool = False

    @property
    def default(self) -> str:
        """What is taken when it is left out."""
        return "" if self.several or self.unsaid else self.words[0]

    def form(self) -> dict[str, Any]:
        """The JSON schema of its value."""
        if self.several:
            words = {"type": "string", "enum": list(self.words)}
            return {"type": "array", "items": words, "minItems": 1, "maxItems": len(self.words), "uniqueItems": True}
        if self.words == _FLAG:
            return {"type": "boolean", "default": False}
        usual = {} if self.unsaid else {"default": self.words[0]}
        return {"type": "string", "enum": list(self.words)} | usual


_FLAG = ("false", "true")
UNITS = Parameter(name="units", words=("us", "si"), about="The units of the figures in the answer.")
LANG = Parameter(
    name=NAME,
    words=LANGUAGES,
    about=(
        "The language of all sentences and names in the answer, English or Spanish; left out, the one of these that"
        " `Accept-Language` likes best, else English. Codes, figures and pointers are the same in both."
    ),
    unsaid=True,
)
OPENED_LANG = replace(
    LANG,
    about=(
        "The language of all sentences and names in the answer, English or Spanish; left out, the `lang` that the quote"
        " was asked for with; where it was asked for without, the one of these that `Accept-Language` likes best, else"
        " English. Codes, figures and pointers are the same in both."
    ),
)
"""That of a quote that is opened: its token may carry a language (`gaugerake.web.api.language`)."""
BESIDE = Parameter(
    name="beside",
    words=LANGUAGES,
    about="A second language, in which the printed page (`text/html`) says everything once more, beside the first.",
    unsaid=True,
)
ECHO = Parameter(name="echo", words=_FLAG, about="Whether the answer holds `job`, the document as it was understood.")
MOST_EXPLAINED = 100
"""Rooms of a job whose working is told: that of 2,000 was an answer of 28 MB, which took a worker 8 s or more."""
WORKING = Parameter(
    name="working",
    words=_FLAG,
    about=(
        "Whether the answer holds `working`: how each figure came about."
        f" For jobs of up to {MOST_EXPLAINED} rooms; with more it is a 422. Of a step that is split, the first"
        f" {MOST_PARTS_EXPLAINED} parts are told, and the first {MOST_POURS_EXPLAINED} pours."
    ),
)
CALCULATION = (UNITS, LANG, ECHO, WORKING)
VIEW = Parameter(
    name="view", words=("whole", "names"), about="Whether the answer holds the systems whole, or their names alone."
)
PARTS = Parameter(
    name="parts",
    words=QUOTE_PARTS,
    about=(
        "The parts of the quote that the answer holds, with commas: no other is computed or cautioned about. `order` is"
        " what a cart needs of the quantities. Left out, all but `order`. The token opens the whole."
    ),
    several=True,
)


def read(given: MultiDict[str, str], parameters: tuple[Parameter, ...]) -> dict[str, str]:
    """The word of each parameter.

    Raises
    ------
    BadParameter
        With the parameters that are unknown, given twice, or cannot have their value, as many as are told.
    """
    known = {parameter.name: parameter for parameter in parameters}
    words = {parameter.name: parameter.default for parameter in parameters}
    places: list[LocatedFinding] = []
    for name, values in given.lists():
        if name in known and known[name].several:
            values = [",".join(values)]
        finding = _finding(name, values, known)
        if finding is None:
            words[name] = values[0]
        else:
            places.append(LocatedFinding(None, finding, name[:80]))
        if len(places) == MOST_ERRORS:
            break
    if places:
        raise BadParameter(*places)
    return words


def read_language() -> tuple[Language, bool]:
    """The language of a page to read, and whether ``lang`` asked for it; of such a query nothing else is read.

    Raises
    ------
    BadParameter
        When ``lang`` asks for one that we don't have.
    """
    asked = request.args.getlist(NAME)
    read(MultiDict((NAME, one) for one in asked), (LANG,))
    return of_request(), bool(asked)


def _finding(name: str, values: list[str], known: dict[str, Parameter]) -> Finding | None:
    parameter = known.get(name)
    if parameter is None:
        names = ", ".join(known) or Say(code="known-none")
        return Finding(
            "unknown-parameter",
            name,
            {"known": names, "nearest": nearest_name(name, known)},
        )
    if len(values) > 1:
        return Finding("parameter-twice", ", ".join(values))
    given = values[0].split(",", len(parameter.words)) if parameter.several else [values[0]]
    for index, word in enumerate(given):
        if word not in parameter.words:
            words = ", ".join(parameter.words)
            return Finding("unknown-word", word, {"known": words, "nearest": nearest_name(word, parameter.words)})
        if word in given[:index]:
            return Finding("word-twice", word)
    return None
