"""JSON Merge Patch: the examples of RFC 7396, appendix A, as they stand there."""

from typing import Any

import pytest

from gaugerake.web.json_in.merge_patch import merge_patch

APPENDIX_A: list[tuple[Any, Any, Any]] = [
    ({"a": "b"}, {"a": "c"}, {"a": "c"}),
    ({"a": "b"}, {"b": "c"}, {"a": "b", "b": "c"}),
    ({"a": "b"}, {"a": None}, {}),
    ({"a": "b", "b": "c"}, {"a": None}, {"b": "c"}),
    ({"a": ["b"]}, {"a": "c"}, {"a": "c"}),
    ({"a": "c"}, {"a": ["b"]}, {"a": ["b"]}),
    ({"a": {"b": "c"}}, {"a": {"b": "d", "c": None}}, {"a": {"b": "d"}}),
    ({"a": [{"b": "c"}]}, {"a": [1]}, {"a": [1]}),
    (["a", "b"], ["c", "d"], ["c", "d"]),
    ({"a": "b"}, ["c"], ["c"]),
    ({"a": "foo"}, None, None),
    ({"a": "foo"}, "bar", "bar"),
    ({"e": None}, {"a": 1}, {"e": None, "a": 1}),
    ([1, 2], {"a": "b", "c": None}, {"a": "b"}),
    ({}, {"a": {"bb": {"ccc": None}}}, {"a": {"bb": {}}}),
]


@pytest.mark.parametrize(("target", "patch", "result"), APPENDIX_A)
def test_the_examples_of_the_standard(target: Any, patch: Any, result: Any) -> None:
    assert merge_patch(target, patch) == result


def test_neither_document_is_changed_and_what_is_untouched_is_shared() -> None:
    target, patch = {"rooms": [1], "work": {"start": "a", "crew": {"people": 3}}}, {"work": {"start": "b"}}
    merged = merge_patch(target, patch)
    assert target == {"rooms": [1], "work": {"start": "a", "crew": {"people": 3}}}
    assert patch == {"work": {"start": "b"}}
    assert merged["rooms"] is target["rooms"]
    assert merged["work"]["crew"] is target["work"]["crew"]  # type: ignore[index]
