"""YAML text as nodes, each with its line: what the parser finds, joined within bounds.

libyaml parses, as it is thirty times faster than PyYAML's parser in Python. A short text that it refuses is parsed by
the other one again, whose sentences say what was found. Plain words are told apart as YAML 1.2 does: ``yes`` and ``on``
are words, not truths. Bytes, depth, aliases and values are bounded while the text is read.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

import yaml
from yaml import CSafeLoader, MarkedYAMLError, SafeLoader, YAMLError
from yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    CollectionStartEvent,
    DocumentStartEvent,
    Event,
    MappingStartEvent,
    ScalarEvent,
)

from gaugerake.catalogue.file.faults import FileRefused, FileRemark
from gaugerake.catalogue.file.pace import rest

LONGEST_BYTES = 2_000_000
LONGEST_PARSED_TWICE = 100_000
DEEPEST = 24
MOST_ALIASES = 2_000
MOST_NODES = 400_000
MOST_TAG_LINES = 100

_TOO_DEEP = f"nested deeper than {DEEPEST} levels"
_ANOTHER = "expected a single document in the stream, but found another document"
_KINDS = {
    **dict.fromkeys(("true", "True", "TRUE", "false", "False", "FALSE"), "bool"),
    **dict.fromkeys(("", "~", "null", "Null", "NULL"), "null"),
}


@dataclass(slots=True, kw_only=True)
class RawScalar:
    """A word as it is written; ``kind`` is bool, null, str, or what its tag says, ``plain`` without quotes or tag."""

    line: int
    text: str
    kind: str
    plain: bool


@dataclass(slots=True, kw_only=True)
class RawList:
    """The nodes of a list."""

    line: int
    parts: list[Raw] = field(default_factory=list)


@dataclass(slots=True, kw_only=True)
class RawMapping:
    """The nodes of a mapping: a key, its value, the next key."""

    line: int
    parts: list[Raw] = field(default_factory=list)

    def pairs(self) -> zip[tuple[Raw, Raw]]:
        """Each key with its value."""
        return zip(self.parts[::2], self.parts[1::2], strict=True)


Raw: TypeAlias = RawScalar | RawList | RawMapping


def compose(text: str) -> Raw | None:
    """The node that a text of one document holds; None when it holds none.

    Raises
    ------
    FileRefused
        When it is not YAML, or passes the bounds.
    """
    if len(text.encode("utf-8", "surrogatepass")) > LONGEST_BYTES:
        raise refused(1, f"the file is longer than {LONGEST_BYTES:,} bytes")
    if text.count("%TAG") > MOST_TAG_LINES:  # each is compared with all before it
        raise refused(1, f"more than {MOST_TAG_LINES} lines that begin with %TAG: leave them out")
    try:
        return _composed(text, CSafeLoader)
    except UnicodeEncodeError as error:
        raise refused(1, f"not YAML: {error}") from None
    except YAMLError as error:
        raise _not_yaml(_in_full(text, error)) from None


def refused(line: int, text: str) -> FileRefused:
    """The refusal of a file for one reason."""
    return FileRefused([FileRemark(line, "", text)])


def _composed(text: str, loader: type[CSafeLoader | SafeLoader]) -> Raw | None:
    composer = _Composer()
    for event in yaml.parse(text, Loader=loader):
        composer.take(event)
        rest()
    return composer.root


def _in_full(text: str, error: YAMLError) -> YAMLError:
    """What the parser in Python says of a text that libyaml refuses; it takes about a second for 100,000 characters."""
    if len(text) <= LONGEST_PARSED_TWICE:
        try:
            _composed(text, SafeLoader)
        except YAMLError as fuller:
            return fuller
    return error


def _not_yaml(error: YAMLError) -> FileRefused:
    if not isinstance(error, MarkedYAMLError):
        return refused(1, f"not YAML: {error}")
    mark = error.problem_mark or error.context_mark
    line = mark.line + 1 if mark else 1
    if "maximum nesting depth" in (error.problem or ""):  # libyaml's own bound, of what it reads ahead
        return refused(line, _TOO_DEEP)
    parts = (part.strip() for part in (error.context, error.problem) if part)
    return refused(line, f"not YAML: {', '.join(parts)}")


class _Composer:
    """Joins the events of one document into nodes."""

    def __init__(self) -> None:
        self.root: Raw | None = None
        self._open: list[RawList | RawMapping] = []
        self._anchors: dict[str | None, Raw] = {}
        self._aliases = 0
        self._nodes = 0

    def take(self, event: Event) -> None:
        """Take the next event.

        Raises
        ------
        FileRefused
        """
        if isinstance(event, ScalarEvent):
            self._add(
                RawScalar(line=_line(event), text=event.value, kind=_kind(event), plain=event.implicit[0]), event.anchor
            )
        elif isinstance(event, CollectionStartEvent):
            made = RawMapping if isinstance(event, MappingStartEvent) else RawList
            self._begin(made(line=_line(event)), event.anchor)
        elif isinstance(event, CollectionEndEvent):
            self._open.pop()
        elif isinstance(event, AliasEvent):
            self._place(self._named(event))
        elif isinstance(event, DocumentStartEvent) and self.root is not None:
            raise refused(_line(event), f"not YAML: {_ANOTHER}")

    def _begin(self, node: RawList | RawMapping, anchor: str | None) -> None:
        self._add(node, anchor)
        self._open.append(node)
        if len(self._open) > DEEPEST:
            raise refused(node.line, _TOO_DEEP)

    def _add(self, node: Raw, anchor: str | None) -> None:
        self._nodes += 1
        if self._nodes > MOST_NODES:
            raise refused(node.line, f"more than {MOST_NODES:,} values")
        if anchor:
            self._anchors[anchor] = node
        self._place(node)

    def _place(self, node: Raw) -> None:
        if self._open:
            self._open[-1].parts.append(node)
        else:
            self.root = node

    def _named(self, event: AliasEvent) -> Raw:
        """The node that an alias stands for."""
        if event.anchor not in self._anchors:
            raise refused(_line(event), f"not YAML: found undefined alias {event.anchor!r}")
        self._aliases += 1
        if self._aliases > MOST_ALIASES:
            raise refused(_line(event), f"more than {MOST_ALIASES:,} aliases")
        return self._anchors[event.anchor]


def _line(event: Event) -> int:
    return event.start_mark.line + 1 if event.start_mark else 1


def _kind(event: ScalarEvent) -> str:
    """Whether a scalar is a bool, null or str; a tag that is written says what else it is."""
    if event.tag and event.tag != "!":
        return event.tag.rpartition(":")[2]
    return _KINDS.get(event.value, "str") if event.implicit[0] else "str"
