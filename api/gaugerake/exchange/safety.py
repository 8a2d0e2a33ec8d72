"""What a paper says to take care of: in brief on its first page, in full on the page of cautions.

Decisions:

* Quote and day sheets say it alike: everyday dangers by name, the first cautions of this job, and where all stand in
  full. So the cautions in full have a page of their own and letters that can be read.
"""

from __future__ import annotations

from typing import TypeVar

from gaugerake.answers.job.everyday import EVERYDAY
from gaugerake.answers.show.words import templates
from gaugerake.exchange.beside import Sides, Text
from gaugerake.exchange.paper import Cautioned
from gaugerake.floor.values.note import Note

MOST_CAUTIONS = 4
"""More cautions of one job than this are counted on the first page: it is to hold what a buyer signs."""
_RULE = "data-sheet-rules"
C = TypeVar("C", bound=Cautioned)


def in_brief(sides: Sides[C]) -> list[Text]:
    """What the first page says to take care of: dangers by name, cautions of this job, and where all stand in full."""
    dangers, job = _dangers(sides), _then(sides, everyday=False)
    rule = [note for note in _then(sides, everyday=True) if note.code == _RULE]
    more = len(job) - MOST_CAUTIONS
    return [
        *([] if dangers is None else [sides.phrase("print-dangers", dangers=dangers)]),
        *(sides.says(note) for note in job[:MOST_CAUTIONS]),
        *([sides.phrase(f"print-more-cautions-{'one' if more == 1 else 'other'}", count=more)] if more > 0 else []),
        *(sides.says(note) for note in rule),
        sides.phrase("print-in-full"),
    ]


def in_full(sides: Sides[C]) -> list[tuple[Text, list[Text]]]:
    """The cautions in full: of this job, and those of any job."""
    return [
        (sides.phrase("print-this-job"), [sides.says(note) for note in _then(sides, everyday=False)]),
        (sides.phrase("print-every-job"), [sides.says(note) for note in _then(sides, everyday=True)]),
    ]


def _then(sides: Sides[C], *, everyday: bool) -> list[Note]:
    """The cautions that are not said first, each once: of this job, or of any."""
    paper = sides.paper
    then = {paper.says(note): note for note in paper.envelope.cautions if (note.code in EVERYDAY) is everyday}
    return [note for text, note in then.items() if text not in paper.said_first]


def _dangers(sides: Sides[C]) -> Text | None:
    """What harms people on every job, by name; None where nothing does."""
    codes = [f"client-danger-{note.code}" for note in _then(sides, everyday=True)]
    known = [code for code in codes if code in templates()]
    return sides.write(lambda paper: ", ".join(dict.fromkeys(map(paper.phrase, known)))) if known else None
