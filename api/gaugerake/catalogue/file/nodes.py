"""A YAML text as a tree that knows its places: each node its line, its path, and the notebook for what is wrong there.

The text is foreign: its size, depth, aliases and the size that they unfold to are bounded before anything is built,
nothing is constructed from its tags, and keys that are written twice are told rather than the first one lost.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    MappingEndEvent,
    MappingStartEvent,
    NodeEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)
from ruamel.yaml.nodes import MappingNode, ScalarNode, SequenceNode

from gaugerake.catalogue.file.faults import FileRefused, Notebook, Remark

LONGEST_BYTES = 2_000_000
DEEPEST = 24
MOST_ALIASES = 2_000
MOST_NODES = 400_000
_NAMES = ("code", "sku", "id", "layer", "traffic")
_PLAIN = frozenset({"str", "int", "float", "timestamp"})


class Node:
    """A place in the file."""

    __slots__ = ("line", "notebook", "path")

    def __init__(self, line: int, path: str, notebook: Notebook) -> None:
        self.line, self.path, self.notebook = line, path, notebook

    def fault(self, text: str) -> None:
        """Note what is wrong here and what to write instead."""
        self.notebook.fault(self.line, self.path, text)

    def nearest(self, seen: str, known: Collection[str]) -> str:
        """Which of the known names may have been meant, as a sentence."""
        return self.notebook.nearest(seen, known)

    def caution(self, text: str) -> None:
        """Note what is likely a slip here."""
        self.notebook.caution(self.line, self.path, text)


class Scalar(Node):
    """One value, as it is written; ``kind`` is what YAML takes it for: str, int, float, bool, null or timestamp."""

    __slots__ = ("kind", "text")

    def __init__(self, line: int, path: str, notebook: Notebook, *, text: str, kind: str) -> None:
        super().__init__(line, path, notebook)
        self.text, self.kind = text, kind

    @property
    def written(self) -> bool:
        """Whether it can be read as words or figures, rather than nothing or a truth."""
        return self.kind in _PLAIN


class Items(Node):
    """A list."""

    __slots__ = ("items",)

    def __init__(self, line: int, path: str, notebook: Notebook) -> None:
        super().__init__(line, path, notebook)
        self.items: list[Node] = []


class Entries(Node):
    """Keys and their values."""

    __slots__ = ("entries",)

    def __init__(self, line: int, path: str, notebook: Notebook) -> None:
        super().__init__(line, path, notebook)
        self.entries: dict[str, Node] = {}


def tree(text: str, notebook: Notebook) -> Entries:
    """The whole file.

    Raises
    ------
    FileRefused
        When it is not YAML, is not one table of keys and values, or passes the bounds.
    """
    if len(text.encode("utf-8", "surrogatepass")) > LONGEST_BYTES:
        raise _refused(1, f"the file is longer than {LONGEST_BYTES:,} bytes")
    try:
        _bound(text)
        root = _yaml().compose(text)
    except MarkedYAMLError as error:
        raise _refused(_line_of(error), _problem(error)) from None
    except YAMLError as error:
        raise _refused(1, f"not YAML: {error}") from None
    if not isinstance(root, MappingNode):
        raise _refused(1, "a catalogue begins with keys and values, such as catalogue: My floor systems")
    if _unfolded(root, {}) > MOST_NODES:
        raise _refused(1, f"its aliases unfold to more than {MOST_NODES:,} values")
    return _entries(root, "", 1, notebook)


def _yaml() -> Any:
    return YAML(typ="safe", pure=True)


def _refused(line: int, text: str) -> FileRefused:
    return FileRefused([Remark(line, "", text)])


def _line_of(error: MarkedYAMLError) -> int:
    mark = error.problem_mark or error.context_mark
    return mark.line + 1 if mark else 1


def _problem(error: MarkedYAMLError) -> str:
    parts = (part.strip() for part in (error.context, error.problem) if part)
    return f"not YAML: {', '.join(parts)}"


def _bound(text: str) -> None:
    """Refuse what is too deep or has too many aliases, before anything that is recursive or unfolds them sees it."""
    depth = aliases = 0
    for event in _events(text):
        if isinstance(event, MappingStartEvent | SequenceStartEvent):
            depth += 1
        elif isinstance(event, MappingEndEvent | SequenceEndEvent):
            depth -= 1
        elif isinstance(event, AliasEvent):
            aliases += 1
        if depth > DEEPEST:
            raise _refused(event.start_mark.line + 1, f"nested deeper than {DEEPEST} levels")
        if aliases > MOST_ALIASES:
            raise _refused(event.start_mark.line + 1, f"more than {MOST_ALIASES:,} aliases")


def _events(text: str) -> Iterator[NodeEvent]:
    yield from _yaml().parse(text)


def _unfolded(node: Any, known: dict[int, int | None]) -> int:
    """How many nodes there are once every alias stands for a copy; each shared node is counted once and remembered."""
    place = id(node)
    if place in known:
        total = known[place]
        if total is None:  # still being counted
            raise _refused(node.start_mark.line + 1, "an alias stands within what it names")
        return total
    known[place] = None
    total = 1 + sum(_unfolded(child, known) for child in _children(node))
    known[place] = total
    return total


def _children(node: Any) -> list[Any]:
    if isinstance(node, SequenceNode):
        return list(node.value)
    return [child for pair in node.value for child in pair] if isinstance(node, MappingNode) else []


def _node(node: Any, path: str, line: int, notebook: Notebook) -> Node:
    if isinstance(node, MappingNode):
        return _entries(node, path, line, notebook)
    if isinstance(node, SequenceNode):
        return _items(node, path, line, notebook)
    kind = str(node.tag).rpartition(":")[2]
    return Scalar(line, path, notebook, text=node.value, kind=kind)


def _items(node: Any, path: str, line: int, notebook: Notebook) -> Items:
    made = Items(line, path, notebook)
    for number, item in enumerate(node.value, start=1):
        label = _label(item) or str(number)
        made.items.append(_node(item, f"{path}[{label}]", item.start_mark.line + 1, notebook))
    return made


def _label(node: Any) -> str | None:
    """What people call an item of a list: its code, sku or the like."""
    if not isinstance(node, MappingNode):
        return None
    named: Mapping[str, str] = {
        key.value: value.value
        for key, value in node.value
        if isinstance(key, ScalarNode) and isinstance(value, ScalarNode)
    }
    return next((named[name][:40] for name in _NAMES if named.get(name)), None)


def _entries(node: Any, path: str, line: int, notebook: Notebook) -> Entries:
    made = Entries(line, path, notebook)
    for key, value in node.value:
        where = key.start_mark.line + 1
        if not isinstance(key, ScalarNode):
            notebook.fault(where, path, "a key is a plain word")
            continue
        name = str(key.value)
        place = f"{path}.{name[:40]}" if path else name[:40]
        if name in made.entries:
            notebook.fault(where, place, f'"{name[:40]}" is written twice here: leave one out')
            continue
        made.entries[name] = _node(value, place, where, notebook)
    return made
