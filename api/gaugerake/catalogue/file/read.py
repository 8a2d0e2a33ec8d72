"""Reading the values of a file: text, truths, numbers, measures, ranges; each tells what is wrong and what to write.

A reader always gives a value of its type. One that could not be read is told once, and stands in as NaN or an empty
text: no comparison with NaN finds a second fault, and what is made of it never leaves, as the file is refused.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Collection, Iterable, Mapping
from enum import StrEnum
from functools import partial
from typing import TypeVar

from gaugerake.catalogue.file.examples import EXAMPLES
from gaugerake.catalogue.file.nodes import Entries, Items, Node, Scalar
from gaugerake.catalogue.file.pace import rest
from gaugerake.catalogue.file.ranges import AllowedRange
from gaugerake.characters import has_hidden
from gaugerake.floor.values.name import LANGUAGES, Name, Named
from gaugerake.floor.values.range import Limits, Triple
from gaugerake.measure.dimension import EXAMPLES as MEASURES
from gaugerake.measure.errors import NotAMeasure
from gaugerake.measure.grammar import read

T = TypeVar("T")
U = TypeVar("U")
E = TypeVar("E", bound=StrEnum)
_NUMBER = re.compile(r"-?[0-9]{1,12}(\.[0-9]{1,12})?")
_CODE = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}")
_SKU = re.compile(r"[!-~]{1,64}")
NAN = math.nan
_TRIPLE = ("low", "likely", "high")


class Table:
    """Keys and values being read. Unknown and missing keys are told at once, when it is made."""

    def __init__(
        self,
        node: Node,
        *,
        required: Iterable[str] = (),
        optional: Iterable[str] = (),
        examples: Mapping[str, str] = EXAMPLES,
    ) -> None:
        self.node = node
        self._entries: Mapping[str, Node] = {}
        required = tuple(required)
        if not isinstance(node, Entries):
            node.fault(f"write keys and values here: {', '.join(required) or ', '.join(optional)}")
            return
        self._entries = node.entries
        known = (*required, *optional)
        for key, value in node.entries.items():
            if key not in known:
                value.fault(f'"{key[:40]}" is not known here. {_hint(value, key, known)}')
        for key in required:
            if key not in node.entries:
                node.fault(f"{key} is missing: write {examples[key]}")

    def __contains__(self, key: str) -> bool:
        return key in self._entries

    def get(self, key: str) -> Node | None:
        """The value of ``key``, if the file has it."""
        return self._entries.get(key)

    def read(self, key: str, reader: Callable[[Node], T], otherwise: U) -> T | U:
        """The value of ``key`` as ``reader`` understands it, or ``otherwise`` when the file says nothing."""
        rest()
        node = self._entries.get(key)
        return otherwise if node is None else reader(node)

    def fault(self, key: str, text: str) -> None:
        """Note what is wrong with the value of ``key``."""
        (self._entries.get(key) or self.node).fault(text)

    def caution(self, key: str, text: str) -> None:
        """Note what is likely a slip in the value of ``key``."""
        (self._entries.get(key) or self.node).caution(text)


def _hint(node: Node, key: str, known: Collection[str]) -> str:
    """What may have been meant; words with spaces are the rest of a sentence that a comma within braces cut."""
    return "Words with a comma inside braces go in quotes." if " " in key.strip() else node.nearest(key, known)


def items(node: Node) -> list[Node]:
    """The items of a list that must not be empty."""
    if isinstance(node, Items) and node.items:
        return node.items
    node.fault("write a list of one or more here, each beginning with a dash")
    return []


def text(node: Node, *, longest: int = 200) -> str:
    """Words, on one line."""
    if not isinstance(node, Scalar) or not node.written:
        node.fault("write words here; put them in quotes if they look like something else")
        return ""
    words = " ".join(node.text.split())
    if not words or len(words) > longest:
        node.fault(f"write 1 to {longest} characters here")
        return ""
    if has_hidden(words):
        node.fault("write words without control characters or others that nobody sees here")
        return ""
    return words


def description(node: Node) -> Named:
    """Words that may be many, in English or in both languages."""
    return name_of(node, longest=2000)


def name_of(node: Node, *, longest: int = 200) -> Named:
    """Words on one line: in English, or ``{en, es}`` in both languages."""
    if not isinstance(node, Entries):
        return text(node, longest=longest)
    table = Table(node, required=LANGUAGES)
    english, spanish = (table.read(language, partial(text, longest=longest), "") for language in LANGUAGES)
    return Name(english, spanish)


def code(node: Node) -> str:
    """A name that programs use."""
    return _matching(
        node, _CODE, "write 1 to 40 ASCII letters, digits, points, dashes or underscores here, such as clear-2"
    )


def is_code(words: str) -> bool:
    """Whether programs can use ``words`` as a name."""
    return _CODE.fullmatch(words) is not None


def sku(node: Node) -> str:
    """The code of a pack."""
    return _matching(node, _SKU, "write 1 to 64 visible ASCII characters without spaces here, such as CC-2")


def any_items(node: Node) -> list[Node]:
    """The items of a list; an empty list says that there are none."""
    if isinstance(node, Items):
        return node.items
    node.fault("write a list here, each beginning with a dash; an empty list, [], says none")
    return []


def _matching(node: Node, pattern: re.Pattern[str], hint: str) -> str:
    words = node.text if isinstance(node, Scalar) and node.written else ""
    if pattern.fullmatch(words):
        return words
    node.fault(hint)
    return ""


def truth(node: Node) -> bool:
    """Yes or no."""
    if isinstance(node, Scalar) and node.kind == "bool":
        return node.text.lower() == "true"
    node.fault("write true or false here")
    return False


def choice(kind: type[E]) -> Callable[[Node], E | None]:
    """A reader of one word of a closed list."""

    def reader(node: Node) -> E | None:
        words = node.text if isinstance(node, Scalar) else ""
        if words in list(kind):
            return kind(words)
        node.fault(f'"{words[:40]}" is none of the words for this. {node.nearest(words, list(kind))}')
        return None

    return reader


def number(low: float, high: float, *, above: bool = False) -> Callable[[Node], float]:
    """A reader of a plain number from ``low`` (or, with ``above``, more than ``low``) to ``high``."""
    span = f"a number {'above' if above else 'from'} {low:g} {'and up to' if above else 'to'} {high:g}"

    def reader(node: Node) -> float:
        value = _number(node)
        if value is None or value > high or value < low or (above and value == low):
            node.fault(f"write {span} here, without a unit")
            return NAN
        return value

    return reader


def integer(low: int, high: int) -> Callable[[Node], int | None]:
    """A reader of a whole number; None when it could not be read."""

    def reader(node: Node) -> int | None:
        value = _number(node)
        if value is None or not value.is_integer() or not low <= value <= high:
            node.fault(f"write a whole number from {low} to {high} here")
            return None
        return int(value)

    return reader


def _number(node: Node) -> float | None:
    if isinstance(node, Scalar) and node.written and _NUMBER.fullmatch(node.text):
        return float(node.text)
    return None


def measure(span: AllowedRange) -> Callable[[Node], float]:
    """A reader of a measure within ``span``, in SI."""

    def reader(node: Node) -> float:
        if not isinstance(node, Scalar) or not node.written:
            node.fault(f"write one measure here, such as {MEASURES[span.dimension][0]}")
            return NAN
        try:
            value = read(node.text, span.dimension)
        except NotAMeasure as error:
            node.fault(f'"{error.seen}": {error.detail} {error.hint}')
            return NAN
        if not span.holds(value):
            node.fault(f'"{node.text}" is not from {span.low_text} to {span.high_text}: is the unit right?')
            return NAN
        return value

    return reader


def triple(span: AllowedRange) -> Callable[[Node], Triple]:
    """A reader of ``{low, likely, high}``, or of one measure that stands for all three."""
    return range_of(measure(span))


def range_of(one: Callable[[Node], float]) -> Callable[[Node], Triple]:
    """A reader of ``{low, likely, high}``, or of one value that stands for all three; ``one`` reads each."""

    def reader(node: Node) -> Triple:
        if not isinstance(node, Entries):
            value = one(node)
            return Triple(low=value, likely=value, high=value)
        table = Table(node, required=_TRIPLE)
        low, likely, high = (table.read(name, one, NAN) for name in _TRIPLE)
        if low > likely or likely > high:
            node.fault("low, likely and high must rise in this order; write a single measure when there is no range")
        return Triple(low=low, likely=likely, high=high)

    return reader


def limits(one: Callable[[Node], float]) -> Callable[[Node], Limits]:
    """A reader of ``{low, high}``, either of which may be left out."""

    def reader(node: Node) -> Limits:
        table = Table(node, optional=("low", "high"))
        ends = (table.read("low", one, None), table.read("high", one, None))
        if isinstance(node, Entries) and ends == (None, None):
            node.fault("write low, high or both here")
        if ends[0] is not None and ends[1] is not None and ends[0] > ends[1]:
            node.fault("low is above high")
        return Limits(low=ends[0], high=ends[1])

    return reader
