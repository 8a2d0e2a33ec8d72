"""The day sheets as a page for print: one page for all days, one of cautions in full, then one for each day.

Decisions:

* A day fits a page: a long list is cut, with a count of what is left out, a full day is written closer, in letters of
  8 points, and a step tells at most three rooms by name. Readings are never cut, and no letter is smaller: names
  of many words on a full day, or a second language, may take a second page.
* What to take care of stands on the first page as on a quote's: in brief, the cautions in full on a page of their own.
* Notes are written beside the packs to bring, where a page is empty, so that they take no page for themselves.
* Of many mixes, every so many are marked, the last one always, 24 in a day: a contractor chalks every few mixes.
* Marks stand to 1/4 in, or 5 mm, as nobody chalks finer.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta
from functools import cache, partial

from jinja2 import Environment, Template, pass_context
from jinja2.runtime import Context as RenderContext
from markupsafe import Markup

from gaugerake.answers.day_sheet.answer import DaySheet, SheetDay, day_sheet
from gaugerake.answers.day_sheet.pours import DayPour
from gaugerake.answers.job.envelope import envelope
from gaugerake.answers.job.remarks import Remarks
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.marks import MixMark
from gaugerake.answers.return_times.run_remarks import layer_name
from gaugerake.answers.show.reader import Language, Reader
from gaugerake.answers.show.words.feet import feet_and_inches, quarters
from gaugerake.exchange.beside import Sides, Text, sides_of
from gaugerake.exchange.day_form import STYLE, TEMPLATE
from gaugerake.exchange.paper import Cautioned, number_of
from gaugerake.exchange.plain_form import policy
from gaugerake.exchange.safety import in_brief, in_full
from gaugerake.floor.values.figure import Figure, Telling, Told
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named
from gaugerake.floor.values.note import Note, Say, Value, Words

MOST_ROWS: Mapping[str, int] = {"steps": 14, "bring": 12, "condition": 12, "pour": 6, "targets": 6, "readings": 100}
"""More of a list than this is cut on paper."""
MOST_ROOMS = 3
MOST_MARKS = 24
MOST_MARKED_ROOMS = 3
MOST_USUAL = 26
"""A day of more rows is written closer, in letters of 8 points."""
SHEET_POLICY = policy(STYLE)
"""What a browser may do with the page."""
_FIRST = {
    "invented-data",
    "other-engine",
    "day-sheet-slab-stops",
    "day-sheet-slab-fix",
    "pour-edge-lost",
    "pour-short-handed",
    "short-handed",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPaper(Cautioned):
    """The day sheets of a job, to be printed; ``layers`` are the names of its layers by id."""

    sheet: DaySheet
    system: Named
    zone: str
    layers: Mapping[str, Named | Say]

    @property
    def number(self) -> str:
        """The number of the quote of the same job."""
        return number_of(self.sheet.fingerprint)

    @property
    def whose(self) -> str:
        """The quote's number, and the job's reference."""
        return ", ".join(filter(None, (self.phrase("print-quote", number=self.number), self.sheet.reference)))

    @property
    def first(self) -> tuple[Note, ...]:
        """What the crew must not miss: what stops the work, or what it is short of."""
        return tuple(note for note in self.envelope.cautions if note.code in _FIRST)

    def layer(self, code: str) -> str:
        """What a layer is called."""
        return self.writes(self.layers.get(code, code))

    def day(self, on: date) -> str:
        """A date with its weekday, in the order that goes with the reader's units."""
        code, month = f"sheet-date-{self.reader.units.name}", self.phrase(f"month-{on.month}")
        return self.phrase(code, weekday=self._weekday(on), day=on.day, month=month)

    def dated(self, on: date) -> str:
        """A date with its weekday and year."""
        return self.phrase(f"sheet-dated-{self.reader.units.name}", date=self.day(on), year=on.year)

    def clock(self, at: datetime, on: date) -> str:
        """A time of day, with its day where it is another; the end of a day is its 24:00."""
        if at.date() == on:
            return f"{at:%H:%M}"
        if f"{at:%H:%M:%S}" == "00:00:00" and at.date() == on + timedelta(days=1):
            return "24:00"
        return self.phrase("sheet-other-day", date=self.day(at.date()), time=f"{at:%H:%M}")

    def _weekday(self, at: date) -> str:
        return self.phrase(f"weekday-{at.isoweekday()}")

    def rooms(self, names: Sequence[Words]) -> str:
        """Names of rooms, the first of them where they are many."""
        text = ", ".join(self.writes(name) for name in names[:MOST_ROOMS])
        more = len(names) - MOST_ROOMS
        return self.phrase("sheet-and-more-rooms", rooms=text, count=more) if more > 0 else text

    def names(self, day: SheetDay) -> str:
        """What is done on a day, each once."""
        return "; ".join(dict.fromkeys(self.writes(step.name) for step in day.steps[: MOST_ROWS["steps"]]))

    def marks_of(self, day: SheetDay) -> Iterator[tuple[DayPour, tuple[str, ...]]]:
        """The marks of each room of a day, every so many of them."""
        marked = [one for one in day.pour if one.marks][:MOST_MARKED_ROOMS]
        for one in marked:
            most = max(3, MOST_MARKS // len(marked))
            yield one, tuple(self._mark(mark) for mark in _thinned(one.marks or (), most))

    def density(self, day: SheetDay, *, twice: bool = False) -> str:
        """How small a day is written, by its rows; packs to bring and to warm up stand side by side.

        A row in two languages may have two lines.
        """
        counts = {name: min(len(getattr(day, name)), most) for name, most in MOST_ROWS.items()}
        beside = min(counts["bring"], counts["condition"])
        rows = sum(counts.values()) - beside + (counts["steps"] + len(counts) if twice else 0)
        rows += sum(len(marks) // 3 + 2 for _, marks in self.marks_of(day))
        return "usual" if rows <= MOST_USUAL else "full"

    def _mark(self, mark: MixMark) -> str:
        low, likely, high = (self._rounded(length) for length in (mark.low, mark.likely, mark.high))
        return self.phrase("sheet-mark", mix=mark.mix, likely=likely, low=low, high=high)

    def _rounded(self, length: Figure) -> str:
        """A length to 1/4 in or 5 mm."""
        if self.reader.units.name == "si":
            return self.phrase("sheet-metres", metres=f"{round(length.value * 200) / 200:.3f}")
        feet, inches = feet_and_inches(quarters(length.value))
        return self.phrase("sheet-feet-and-inches", feet=feet, inches=inches)


def _thinned(marks: Sequence[MixMark], most: int) -> Sequence[MixMark]:
    """Every so many marks, and the last."""
    every = -(-len(marks) // most)
    return [mark for place, mark in enumerate(marks, 1) if place % every == 0 or place == len(marks)]


def sheet_paper(resolved: ResolvedJob, remarks: Remarks, reader: Reader) -> SheetPaper:
    """The day sheets of a job; ``remarks`` are said before their own.

    Raises
    ------
    Refused
        When the job means something that cannot be, or has no start.
    """
    answer = day_sheet(resolved)
    return SheetPaper(
        reader=reader,
        sheet=answer.body,
        envelope=envelope(resolved.supply, (*remarks, *answer.remarks)),
        system=resolved.system.name,
        zone=resolved.work.zone.value.name,
        layers={layer.id: layer_name(resolved, layer.id) for layer in resolved.system.layers},
    )


def sheet_page(paper: SheetPaper, *, beside: Language | None = None) -> bytes:
    """The page; what people read stands in the language ``beside`` as well."""
    sides = sides_of(paper, beside)
    page = _template().render(
        sides=sides,
        paper=paper,
        title=paper.phrase("sheet-title", number=paper.number),
        heading=sides.phrase("sheet-title", number=paper.number),
        sheet=paper.sheet,
        phrase=sides.phrase,
        label=paper.phrase,
        system=paper.writes(paper.system),
        layer=lambda code: sides.write(lambda one: one.layer(code)),
        names=lambda day: sides.write(lambda one: one.names(day)),
        density=lambda day: paper.density(day, twice=sides.other is not None),
        marks_of=paper.marks_of,
        left_out=partial(_left_out, sides),
        said_first=[sides.says(note) for note in paper.first],
        in_brief=in_brief(sides),
        whose=paper.whose,
        of_what=sides.figure(paper.system),
        cautions=in_full(sides),
        assumed=[sides.says(note) for note in paper.envelope.assumptions],
        most=MOST_ROWS,
        style=Markup(STYLE),
    )
    return page.encode()


def _left_out(sides: Sides[SheetPaper], day: SheetDay, name: str) -> Markup:
    """How many rows of a list do not fit the page."""
    more = len(getattr(day, name)) - MOST_ROWS[name]
    return Markup("<p>{}</p>").format(sides.phrase("sheet-left-out", count=more)) if more > 0 else Markup()


@pass_context
def _figure(context: RenderContext, value: Value) -> Text:
    """A figure in the reader's units; a dash where there is none."""
    return _sides(context).figure(value)


@pass_context
def _worked(context: RenderContext, hours: Figure) -> Text:
    """Hours of work, which are never told in days."""
    return _sides(context).figure(Told(*hours, Telling.WORK))


@pass_context
def _day(context: RenderContext, on: date) -> Text:
    return _sides(context).once(lambda paper: paper.day(on))


@pass_context
def _dated(context: RenderContext, on: date) -> Text:
    return _sides(context).once(lambda paper: paper.dated(on))


@pass_context
def _clock(context: RenderContext, at: datetime, on: date) -> Text:
    return _sides(context).once(lambda paper: paper.clock(at, on))


@pass_context
def _rooms(context: RenderContext, names: Sequence[Words]) -> Text:
    return _sides(context).write(lambda paper: paper.rooms(names))


def _sides(context: RenderContext) -> Sides[SheetPaper]:
    sides: Sides[SheetPaper] = context["sides"]
    return sides


@cache
def _template() -> Template:
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    environment.filters |= {
        "figure": _figure,
        "worked": _worked,
        "day": _day,
        "dated": _dated,
        "clock": _clock,
        "rooms": _rooms,
    }
    return environment.from_string(TEMPLATE)
