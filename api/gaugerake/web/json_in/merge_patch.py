"""JSON Merge Patch (RFC 7396): a document changed by another that has only what is to change.

The one library for it in Python has had a release in five years, and the whole rule is these lines.
"""

from __future__ import annotations

from typing import Any


def merge_patch(target: Any, patch: Any) -> Any:
    """The target with the patch applied; what the patch does not touch is the target's own, not a copy.

    >>> merge_patch({"a": 1, "b": {"c": 2, "d": 3}}, {"a": None, "b": {"c": 4}})
    {'b': {'c': 4, 'd': 3}}
    """
    if not isinstance(patch, dict):
        return patch
    merged = dict(target) if isinstance(target, dict) else {}
    for name, value in patch.items():
        if value is None:
            merged.pop(name, None)
        else:
            merged[name] = merge_patch(merged.get(name), value)
    return merged
