"""Changes to a job document: values put at their pointers, and remedies put back. Nothing of ours is imported here."""

import copy
import re
from functools import reduce
from typing import Any


def put(whole: dict[str, Any], pointer: str, value: Any) -> dict[str, Any]:
    """A copy with ``value`` at an RFC 6901 pointer, objects made on the way; None takes the field away."""
    changed = copy.deepcopy(whole)
    *way, last = pointer.strip("/").split("/")
    here = changed
    for key in way:
        here = here.setdefault(key, {})
    if value is None:
        here.pop(last, None)
    else:
        here[last] = value
    return changed


def parts(remedy: dict[str, Any]) -> list[dict[str, Any]]:
    """All that a remedy changes: the remedy itself, and what goes with it."""
    return [remedy, *remedy.get("also", ())]


def kind_of(part: dict[str, Any]) -> str:
    """What kind of change a part is; of a combined remedy itself, what its own value changes."""
    kind: str = part.get("first", part["kind"])
    return kind


def as_said(remedy: dict[str, Any]) -> dict[str, Any] | None:
    """A remedy with the width of its lanes as its sentence says it; None where it says none."""
    said = re.search(r"no wider than (.+?) instead of", remedy["text"])
    if said is None:
        return None
    changed = copy.deepcopy(remedy)
    for part in parts(changed):
        if kind_of(part) == "narrower-pour":
            part["value"] = said[1]
    return changed


def with_remedy(job: dict[str, Any], remedy: dict[str, Any]) -> dict[str, Any]:
    """The job with a remedy put back as it says, and all that goes with it."""
    return reduce(lambda changed, part: put(changed, part["pointer"], part["value"]), parts(remedy), job)
