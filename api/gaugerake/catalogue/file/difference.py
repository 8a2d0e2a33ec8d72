"""What differs between two catalogues, in the words of the trade and with figures as the files write them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from gaugerake.catalogue.file.faults import Notebook
from gaugerake.catalogue.file.nodes import Entries, Items, Node, Scalar, tree
from gaugerake.floor.packs.kit import kit_sku
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import LANGUAGES

_KEYS = ("code", "sku", "traffic", "at", "from")
_RANGE = ("low", "usual", "likely", "high")
_THINGS = {"products": "product", "systems": "system"}
_ITEMS = {
    "packs": ("of {}", "pack {}"),
    "parts": ("of {}", "part {}"),
    "breaks": ("from {} packs", "price from {} packs"),
    "layers": ("of {}", "layer {}"),
    "returns": ("for {} traffic", "return of {} traffic"),
    "profile_allowance": ("at CSP {}", "profile allowance at CSP {}"),
}
"""How an item is said when something of it changed, and when it is the whole of what changed."""

_TABLES = frozenset({"cure", "recoat_closes", "open_time", "pot_life", "broadcast_wait", "after"})
_SPOKEN = {"after": "return", "catalogue": "title"}


@dataclass(frozen=True, slots=True)
class _Named:
    """A table of the file, and what its items are called."""

    entries: Mapping[str, _Named | str]


def differences(old: str, new: str) -> list[str]:
    """One line for each thing that changed between two texts that were read without faults.

    Examples
    --------
    >>> differences("currency: USD\\nvalid_days: 30", "currency: USD\\nvalid_days: 21")
    ['catalogue: valid days: 30 -> 21']
    """
    before, after = (_named(tree(text, Notebook()), "") for text in (old, new))
    lines: list[str] = []
    for section, thing in _THINGS.items():
        lines += _things(_child(before, section), _child(after, section), thing)
    rest = [
        _Named({key: value for key, value in side.entries.items() if key not in _THINGS}) for side in (before, after)
    ]
    return [f"catalogue: {line}" for line in _changes(rest[0], rest[1], ())] + lines


def _named(node: Node, section: str) -> _Named:
    if isinstance(node, Entries):
        return _Named({key: _value(value, key) for key, value in node.entries.items()})
    assert isinstance(node, Items)
    return _Named(dict(_item_names(node, section)))


def _value(node: Node, key: str) -> _Named | str:
    return " ".join(node.text.split()) if isinstance(node, Scalar) else _named(node, key)


def _item_names(node: Items, section: str) -> Iterator[tuple[str, _Named | str]]:
    seen: dict[str, int] = {}
    for item in node.items:
        name = _layer_name(item) if section == "layers" else _item_name(item)
        seen[name] = seen.get(name, 0) + 1
        yield (name if seen[name] == 1 else f"{name} ({seen[name]})"), _value(item, section)


def _text(node: Node, key: str) -> str | None:
    entry = node.entries.get(key) if isinstance(node, Entries) else None
    entry = _english(entry)
    return entry.text if isinstance(entry, Scalar) else None


def _english(node: Node | None) -> Node | None:
    """The English words of a name in both languages; anything else as it is."""
    return node.entries.get(LANGUAGES[0]) if isinstance(node, Entries) and LANGUAGES[0] in node.entries else node


def _item_name(node: Node) -> str:
    if isinstance(node, Scalar):
        return node.text
    return next((found for key in _KEYS if (found := _text(node, key))), None) or _kit_name(node) or "?"


def _kit_name(node: Node) -> str | None:
    """A pack that is sold as parts goes by all of their skus."""
    parts = node.entries.get("parts") if isinstance(node, Entries) else None
    return kit_sku([_item_name(part) for part in parts.items]) if isinstance(parts, Items) else None


def _layer_name(node: Node) -> str:
    return _text(node, "name") or _text(node, "id") or f"{_text(node, 'layer')} of {_text(node, 'product')}"


def _child(side: _Named, key: str) -> _Named:
    found = side.entries.get(key)
    return found if isinstance(found, _Named) else _Named({})


def _things(before: _Named, after: _Named, thing: str) -> Iterator[str]:
    """New, gone and changed products or systems, each under the name that people know it by."""
    for code in dict.fromkeys((*before.entries, *after.entries)):
        old, new = before.entries.get(code), after.entries.get(code)
        known = new if isinstance(new, _Named) else old
        name = known.entries.get("name", code) if isinstance(known, _Named) else code
        name = name.entries.get(LANGUAGES[0], code) if isinstance(name, _Named) else name
        if old is None:
            yield f"{name}: new {thing} ({code})"
        elif new is None:
            yield f"{name}: {thing} no longer there ({code})"
        elif isinstance(old, _Named) and isinstance(new, _Named):
            yield from (f"{name}: {line}" for line in _changes(old, new, ()))


def _changes(before: _Named, after: _Named, path: tuple[str, ...]) -> Iterator[str]:
    for key in dict.fromkeys((*before.entries, *after.entries)):
        old, new = before.entries.get(key), after.entries.get(key)
        here = (*path, key)
        if old == new:
            continue
        if isinstance(old, _Named) and isinstance(new, _Named):
            yield from _changes(old, new, here)
        else:
            yield _line(here, old, new)


def _line(path: tuple[str, ...], old: _Named | str | None, new: _Named | str | None) -> str:
    words, name = _words(path), path[-1]
    if old is None:
        return f"new: {words}" + ("" if new == name or new is None else f": {_told(new, name)}")
    if new is None:
        return f"no longer there: {words}" + ("" if old == name else f" (was {_told(old, name)})")
    return f"{words}: {_told(old, name)} -> {_told(new, name)}"


def _told(value: _Named | str, name: str = "") -> str:
    """What stands there, but for what repeats the ``name`` that it goes by.

    >>> _told(_Named({"sku": "B-1", "price": "84.00"}), "B-1")
    'price 84.00'
    >>> _told(_Named({"10": _Named({"from": "10", "price": "79.00"}), "20": _Named({"from": "20", "price": "75.00"})}))
    'from 10, price 79.00; from 20, price 75.00'
    """
    if isinstance(value, str):
        return value
    a_list = all(_says_its_name(inner, key) for key, inner in value.entries.items())
    return ("; " if a_list else ", ").join(
        _told_entry(key, inner) for key, inner in value.entries.items() if inner != name
    )


def _told_entry(key: str, inner: _Named | str) -> str:
    if key == inner or _says_its_name(inner, key):
        return _told(inner)
    spoken = key.replace("_", " ")
    return f"{spoken} {inner}" if isinstance(inner, str) else f"{spoken} ({_told(inner)})"


def _says_its_name(value: _Named | str, name: str) -> bool:
    return isinstance(value, _Named) and name in value.entries.values()


def _words(path: tuple[str, ...]) -> str:
    """The path as people say it: ``packs, B-1, price`` is "price of B-1".

    >>> _words(("layers", "First clear coat", "cure", "68 degF", "likely"))
    'likely cure at 68 degF of First clear coat'
    >>> _words(("packs", "B-1"))
    'pack B-1'
    """
    said: list[str] = []
    of: list[str] = []
    parts = list(path)
    while parts:
        part = parts.pop(0)
        if part in _ITEMS and parts:
            within, whole = _ITEMS[part]
            name = parts.pop(0)
            of.insert(0, (within if parts else whole).format(name))
        elif part in _TABLES and parts:
            said.append(_SPOKEN.get(part, part))
            of.insert(0, f"at {parts.pop(0)}")
        elif part in _RANGE:
            said.insert(0, part)
        else:
            said.append(_SPOKEN.get(part, part))
    return " ".join((*(word.replace("_", " ") for word in said), *of))
