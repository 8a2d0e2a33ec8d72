"""A YAML text as a tree that knows its places: each node its line, its path, and the notebook for what is wrong there.

The text is foreign: its size, depth, aliases and the size that they unfold to are bounded before anything is built,
nothing is constructed from its tags, and keys that are written twice are told rather than the first one lost.
"""

from __future__ import annotations

from collections.abc import Collection

from gaugerake.catalogue.file.composing import MOST_NODES, Raw, RawList, RawMapping, RawScalar, compose, refused
from gaugerake.catalogue.file.faults import Notebook
from gaugerake.catalogue.file.pace import rest

_BEGINS = "a catalogue begins with keys and values, such as catalogue: My floor systems"
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
    """One value, as it is written; ``kind`` is bool, null, str, or what its tag says; ``plain``: no quotes, no tag."""

    __slots__ = ("kind", "plain", "text")

    def __init__(self, line: int, path: str, notebook: Notebook, *, text: str, kind: str, plain: bool) -> None:
        super().__init__(line, path, notebook)
        self.text, self.kind, self.plain = text, kind, plain

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


def tree(text: str, notebook: Notebook, *, begins: str = _BEGINS) -> Entries:
    """The whole file; ``begins`` says how one begins.

    Raises
    ------
    FileRefused
        When it is not YAML, is not one table of keys and values, or passes the bounds.
    """
    root = compose(text)
    if not isinstance(root, RawMapping):
        raise refused(1, begins)
    if _unfolded(root, {}) > MOST_NODES:
        raise refused(1, f"its aliases unfold to more than {MOST_NODES:,} values")
    return _entries(root, "", 1, notebook)


def _unfolded(node: Raw, known: dict[int, int | None]) -> int:
    """How many nodes there are once every alias stands for a copy; each shared node is counted once and remembered."""
    if isinstance(node, RawScalar):
        return 1
    place = id(node)
    if place in known:
        total = known[place]
        if total is None:  # still being counted
            raise refused(node.line, "an alias stands within what it names")
        return total
    known[place] = None
    rest()
    total = 1 + sum(_unfolded(part, known) for part in node.parts)
    known[place] = total
    return total


def _node(node: Raw, path: str, line: int, notebook: Notebook) -> Node:
    rest()
    if isinstance(node, RawMapping):
        return _entries(node, path, line, notebook)
    if isinstance(node, RawList):
        return _items(node, path, line, notebook)
    return Scalar(line, path, notebook, text=node.text, kind=node.kind, plain=node.plain)


def _items(node: RawList, path: str, line: int, notebook: Notebook) -> Items:
    made = Items(line, path, notebook)
    for number, item in enumerate(node.parts, start=1):
        label = _label(item) or str(number)
        made.items.append(_node(item, f"{path}[{label}]", item.line, notebook))
    return made


def _label(node: Raw) -> str | None:
    """What people call an item of a list: its code, sku or the like."""
    if not isinstance(node, RawMapping):
        return None
    named = {
        key.text: value.text
        for key, value in node.pairs()
        if isinstance(key, RawScalar) and isinstance(value, RawScalar)
    }
    return next((named[name][:40] for name in _NAMES if named.get(name)), None)


def _entries(node: RawMapping, path: str, line: int, notebook: Notebook) -> Entries:
    made = Entries(line, path, notebook)
    for key, value in node.pairs():
        if not isinstance(key, RawScalar):
            notebook.fault(key.line, path, "a key is a plain word")
            continue
        name = key.text
        place = f"{path}.{name[:40]}" if path else name[:40]
        if name in made.entries:
            notebook.fault(key.line, place, f'"{name[:40]}" is written twice here: leave one out')
            continue
        made.entries[name] = _node(value, place, key.line, notebook)
    return made
