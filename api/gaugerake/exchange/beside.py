"""Papers in two languages: each text in the first, and beneath or beside it the same in the second.

Decisions:

* ``lang`` says the first language and ``beside`` the second, for print alone: who prints for a crew of two languages
  prints once. One list of languages in ``lang`` would have no meaning for JSON, which has one language.
* Headings, heads of columns and cells carry the second text beneath the first, smaller; sentences to beware of stand
  beside each other in two columns. What is the same in both (figures, names of rooms, skus) stands once.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Generic, NamedTuple, TypeVar

from markupsafe import Markup

from gaugerake.answers.show.reader import Language
from gaugerake.exchange import plain_form
from gaugerake.exchange.paper import Written
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note, Value

_TWICE = Markup(plain_form.TWICE)
P = TypeVar("P", bound=Written)


class Twice(NamedTuple):
    """A text in two languages, ``language`` being that of the second."""

    first: str
    second: str
    language: Language

    def __html__(self) -> str:
        """Both, the second marked with its language.

        >>> Twice("Work", "Labores", "es").__html__()
        Markup('<span class="twice"><span>Work</span><span lang="es">Labores</span></span>')
        """
        return _TWICE.format(self.first, self.language, self.second)


Text = str | Twice


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides(Generic[P]):
    """A paper, and the same in a second language where one is asked for."""

    paper: P
    other: P | None

    def write(self, writes: Callable[[P], str]) -> Text:
        """What a paper writes: once where both write the same."""
        first = writes(self.paper)
        second = first if self.other is None else writes(self.other)
        if self.other is None or first == second:
            return first
        return Twice(first, second, self.other.reader.language)

    def phrase(self, code: str, **params: Value | Twice) -> Text:
        """A phrase with its values, each in the language of its side."""
        return self.write(lambda paper: paper.phrase(code, **{name: self._of(paper, params[name]) for name in params}))

    def says(self, note: Note) -> Text:
        """The sentence of a note."""
        return self.write(lambda paper: paper.says(note))

    def figure(self, value: Value | Twice) -> Text:
        """A figure in the reader's units; a dash where there is none."""
        return self.write(lambda paper: paper.writes(self._of(paper, value)) or "–")

    def _of(self, paper: P, value: Value | Twice) -> Value:
        if isinstance(value, Twice):
            return value.first if paper is self.paper else value.second
        return value


def sides_of(paper: P, beside: Language | None) -> Sides[P]:
    """A paper beside the same in another language; alone where there is none, or where it is the paper's own."""
    if beside is None or beside == paper.reader.language:
        return Sides(paper=paper, other=None)
    return Sides(paper=paper, other=replace(paper, reader=replace(paper.reader, language=beside)))
