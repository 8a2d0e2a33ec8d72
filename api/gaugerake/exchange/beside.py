"""Papers in two languages: each text in the first, and beneath or beside it the same in the second.

Decisions:

* ``lang`` says the first language and ``beside`` the second, for print alone: who prints for a crew of two languages
  prints once. One list of languages in ``lang`` would have no meaning for JSON, which has one language.
* Headings, heads of columns and cells carry the second text beneath the first, smaller; sentences to beware of stand
  beside each other in two columns. What is the same in both (figures, names of rooms, skus) stands once.
* A figure, a date or a time in a cell stands once, and only its words in both: "24 mixes / mezclas", "Tue / mar
  2027-03-09". A unit that is no word is the same in both languages, so one of them stands, the shorter: the sign ft²
  rather than sq ft.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import takewhile
from typing import Generic, NamedTuple, TypeVar

from markupsafe import Markup, escape

from gaugerake.answers.show.reader import Language
from gaugerake.answers.show.words import templates
from gaugerake.answers.show.words.figures import has_words
from gaugerake.exchange import plain_form
from gaugerake.exchange.paper import Written
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass, replace
from gaugerake.floor.values.note import Note, Value

_TWICE, _BOTH = Markup(plain_form.TWICE), Markup(plain_form.BOTH)
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


class Figures(Twice):
    """A figure, a date or a time in two languages: what differs stands in both, the rest once."""

    def __html__(self) -> str:
        """One line, the second of what differs marked with its language.

        >>> Figures("24 mixes", "24 mezclas", "es").__html__()
        Markup('24 <span class="both"><span>mixes</span> / <span lang="es">mezclas</span></span>')
        """
        first, second = self.first.split(), self.second.split()
        begins = _alike(first, second)
        ends = _alike(first[begins:][::-1], second[begins:][::-1])
        differing = [" ".join(words[begins : len(words) - ends]) for words in (first, second)]
        both = _BOTH.format(differing[0], self.language, differing[1])
        return Markup(" ").join((*first[:begins], both, *first[len(first) - ends :]))


class Signed(Twice):
    """A figure in two languages, whose unit is no word: the same in both, so the shorter stands, a sign."""

    def __html__(self) -> str:
        """One of them.

        >>> Signed("1,200 sq ft", "1,200 ft²", "es").__html__()
        Markup('1,200 ft²')
        """
        return escape(min(self.first, self.second, key=len))


def _alike(first: Sequence[str], second: Sequence[str]) -> int:
    """How many words two texts have in common before they differ."""
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(first, second, strict=False)))


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

    def once(self, writes: Callable[[P], str]) -> Text:
        """A figure, a date or a time that a paper writes: its words in both languages, the rest once."""
        text = self.write(writes)
        return Figures(*text) if isinstance(text, Twice) else text

    def phrase(self, code: str, **params: Value | Twice) -> Text:
        """A phrase with its values, each in the language of its side."""
        return self.write(lambda paper: paper.phrase(code, **{name: self._of(paper, params[name]) for name in params}))

    def says(self, note: Note) -> Text:
        """The sentence of a note."""
        return self.write(lambda paper: paper.says(note))

    def figure(self, value: Value | Twice) -> Text:
        """A figure in the reader's units; a dash where there is none."""
        if isinstance(value, Figure):
            return self._measure(value)
        return self.write(lambda paper: paper.writes(self._of(paper, value)) or "–")

    def _measure(self, value: Figure) -> Text:
        text = self.write(lambda paper: paper.writes(value))
        if isinstance(text, Twice):
            return Figures(*text) if has_words(value, self.paper.reader.units, templates()) else Signed(*text)
        return text

    def _of(self, paper: P, value: Value | Twice) -> Value:
        if isinstance(value, Twice):
            return value.first if paper is self.paper else value.second
        return value


def sides_of(paper: P, beside: Language | None) -> Sides[P]:
    """A paper beside the same in another language; alone where there is none, or where it is the paper's own."""
    if beside is None or beside == paper.reader.language:
        return Sides(paper=paper, other=None)
    return Sides(paper=paper, other=replace(paper, reader=replace(paper.reader, language=beside)))
