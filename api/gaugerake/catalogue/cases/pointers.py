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
    >>> at({"totals": {"gross": "84.00"}}, "/totals/gross")
    '84.00'
    """
    reached = ""
    for part in pointer.split("/")[1:]:
        key = part.replace("~1", "/").replace("~0", "~")
        if isinstance(answer, dict) and key in answer:
            answer = answer[key]
        elif isinstance(answer, list) and key.isascii() and key.isdecimal() and int(key[:6]) < len(answer):
            answer = answer[int(key)]
        else:
            raise NothingThere(pointer, reached, children(answer))
        reached += f"/{part}"
    return answer


def children(value: Any) -> list[str]:
    """What may follow in a pointer."""
    if isinstance(value, dict):
        return list(map(str, value))
    return [str(number) for number in range(len(value))] if isinstance(value, list) else []
