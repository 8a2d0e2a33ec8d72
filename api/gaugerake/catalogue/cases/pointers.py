"""JSON Pointers (RFC 6901) into an answer."""

from __future__ import annotations

import re
from typing import Any

POINTER = re.compile(r"(/([^~/]|~[01])*)+")


class NothingThere(LookupError):
    """An answer holds nothing at ``pointer``; ``reached`` is how far it leads, ``known`` what stands there."""

    def __init__(self, pointer: str, reached: str, known: list[str]) -> None:
        self.pointer, self.reached, self.known = pointer, reached, known
        super().__init__(pointer)


def at(answer: Any, pointer: str) -> Any:
    """What stands at a pointer.

    Raises
    ------
    NothingThere

    Examples
    --------
    >>> at({"lines": [{"sku": "A"}, {"sku": "B"}]}, "/lines/1/sku")
    'B'
    """
    reached = ""
    for part in pointer.split("/")[1:]:
        key = part.replace("~1", "/").replace("~0", "~")
        below = _below(answer)
        if key not in below:
            raise NothingThere(pointer, reached, list(below))
        answer = below[key]
        reached += f"/{part}"
    return answer


def children(value: Any) -> list[str]:
    """What may follow in a pointer."""
    return list(_below(value))


def _below(value: Any) -> dict[str, Any]:
    """What stands below a value, by its part of a pointer; a place in a list has no leading zeros."""
    if isinstance(value, list):
        return {str(number): one for number, one in enumerate(value)}
    return value if isinstance(value, dict) else {}
