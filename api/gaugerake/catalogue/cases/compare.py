"""What an answer holds beside what a worked case says, and by how much they differ."""

from __future__ import annotations

import difflib
import json
from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal, InvalidOperation
from typing import Any

from gaugerake.catalogue.cases.pointers import NothingThere, at, children
from gaugerake.catalogue.cases.values import Case, Expected, Single, Within
from gaugerake.floor.values.frozen import dataclass

_MOST_LISTED = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """Where an answer is not what a case says; ``by`` says how much more or less it holds.

    ``pointer`` leads into the answer, or into the job when that is refused.
    """

    line: int
    case: str
    pointer: str
    text: str
    expected: Single = None
    found: Any = None
    by: str | None = None
    of_answer: bool = True


def differences(case: Case, answer: Any) -> Iterator[Difference]:
    """All that is different from what the case says, in its order.

    Examples
    --------
    >>> gross = Expected(line=9, pointer="/gross", value="84.00", within=None)
    >>> case = Case(line=1, name="Hall", units="us", job={}, lines={}, gives=(gross,))
    >>> [one.text for one in differences(case, {"gross": "85.50"})]
    ['is "85.50", not "84.00": 1.50 more (1.79 %)']
    """
    problem = isinstance(answer, dict) and "errors" in answer and "code" in answer
    for expected in case.gives:
        try:
            found = at(answer, expected.pointer)
        except NothingThere as error:
            if problem:
                yield from _refused(case, answer)
                return
            yield _told(case, expected, _nothing(error))
        else:
            yield from _compared(case, expected, found)


def _refused(case: Case, problem: Any) -> Iterator[Difference]:
    for fault in problem["errors"]:
        words = " ".join(part for part in (fault["detail"], fault["hint"]) if part)
        pointer = fault["pointer"] or ""
        place = f" at {pointer}" if pointer else ""
        line = case.line_of(pointer)
        yield Difference(
            line=line, case=case.name, pointer=pointer, text=f"the job is refused{place}: {words}", of_answer=False
        )


def _nothing(error: NothingThere) -> str:
    known = error.known[:_MOST_LISTED]
    more = ", …" if len(error.known) > len(known) else ""
    if not known:
        return "is nothing in the answer"
    return f"is nothing in the answer; {error.reached or 'it'} has {', '.join(known)}{more}"


def _compared(case: Case, expected: Expected, found: Any) -> Iterator[Difference]:
    if isinstance(found, dict | list):
        yield _told(case, expected, f"holds several values: point at one, such as {_below(expected.pointer, found)}")
        return
    if _same(expected.value, found):
        return
    instants = _instants(expected.value, found)
    figures = _figures(expected.value, found)
    if instants:
        seconds = Decimal((instants[1] - instants[0]).total_seconds())
        near, by = _near_time(seconds, expected.within), _spoken_time(seconds)
    elif figures:
        near, by = _near(figures[0], figures[1] - figures[0], expected.within), _spoken(figures[0], figures[1])
    else:
        near, by = False, None
    if not near:
        yield _told(case, expected, _sentence(expected, found, by), found=found, by=by)


def _below(pointer: str, found: Any) -> str:
    first = next(iter(children(found)), "")
    near = difflib.get_close_matches("value", children(found), n=1)
    return f"{pointer}/{near[0] if near else first}"


def _told(case: Case, expected: Expected, text: str, *, found: Any = None, by: str | None = None) -> Difference:
    return Difference(
        line=expected.line,
        case=case.name,
        pointer=expected.pointer,
        text=text,
        expected=expected.value,
        found=found,
        by=by,
    )


def _sentence(expected: Expected, found: Any, by: str | None) -> str:
    within = f", and within {expected.within.written} is allowed" if expected.within else ""
    told = f"is {_shown(found)}, not {_shown(expected.value)}"
    return f"{told}: {by}{within}" if by else told


def _shown(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def _same(expected: Single, found: Any) -> bool:
    """Whether they are one value; a truth is no number."""
    if isinstance(expected, bool) or isinstance(found, bool):
        return expected is found
    if isinstance(expected, str) and isinstance(found, str):
        return expected == found
    figures = _figures(expected, found)
    return figures[0] == figures[1] if figures else expected == found


def _figures(expected: Single, found: Any) -> tuple[Decimal, Decimal] | None:
    """Both as numbers, when both can be read as such."""
    first, second = _figure(expected), _figure(found)
    return None if first is None or second is None else (first, second)


def _figure(value: Any) -> Decimal | None:
    if value is None or isinstance(value, bool):
        return None
    try:
        read = Decimal(str(value))
    except InvalidOperation:
        return None
    return read if read.is_finite() else None


def _near(expected: Decimal, off: Decimal, within: Within | None) -> bool:
    if within is None or within.of == "seconds":
        return False
    allowed = within.amount if within.of == "unit" else abs(expected) * within.amount / 100
    return abs(off) <= allowed


def _spoken(expected: Decimal, found: Decimal) -> str:
    """How much more or less.

    >>> _spoken(Decimal("80.00"), Decimal("79.00"))
    '1.00 less (1.25 %)'
    """
    off = found - expected
    share = f" ({abs(off / expected) * 100:.3g} %)" if expected else ""
    return f"{abs(off):f} {'more' if off > 0 else 'less'}{share}"


def _instants(expected: Single, found: Any) -> tuple[datetime, datetime] | None:
    """Both as instants, when both are such."""
    if not (isinstance(expected, str) and isinstance(found, str) and "T" in expected and "T" in found):
        return None
    try:
        first, second = datetime.fromisoformat(expected), datetime.fromisoformat(found)
    except ValueError:
        return None
    return (first, second) if first.tzinfo and second.tzinfo else None


def _near_time(seconds: Decimal, within: Within | None) -> bool:
    return within is not None and within.of == "seconds" and abs(seconds) <= within.amount


def _spoken_time(seconds: Decimal) -> str:
    """How much later or earlier.

    >>> _spoken_time(Decimal(-90))
    '1 min 30 s earlier'
    """
    minutes, rest = divmod(int(abs(seconds)), 60)
    hours, minutes = divmod(minutes, 60)
    parts = [f"{count} {unit}" for count, unit in ((hours, "h"), (minutes, "min"), (rest, "s")) if count]
    return f"{' '.join(parts) or '0 s'} {'later' if seconds > 0 else 'earlier'}"
