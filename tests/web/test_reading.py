"""The strict JSON reader, by itself."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.answers.show.words import templates
from gaugerake.floor.values.note import Say
from gaugerake.web.errors import refusal as errors
from gaugerake.web.errors.finding import MOST_ERRORS
from gaugerake.web.json_in.reading import MOST_BYTES, MOST_DEPTH, PARSER_SAYS, read

SHALLOW = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**38), 10**38)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=["Cs"]), max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)


@settings(max_examples=150)
@given(SHALLOW, st.booleans())
def test_whatever_json_can_say_is_read_as_it_was_written(value: Any, escaped: bool) -> None:
    assert read(json.dumps(value, ensure_ascii=escaped).encode()) == value


@settings(max_examples=150)
@given(st.binary(max_size=60))
def test_bytes_are_read_or_refused_and_nothing_else_happens(data: bytes) -> None:
    try:
        read(data)
    except errors.Refusal:
        return


def test_the_depth_that_is_read_and_one_more() -> None:
    deepest = b"[" * MOST_DEPTH + b"]" * MOST_DEPTH
    assert read(deepest) is not None
    with pytest.raises(errors.TooDeep):
        read(b"[" + deepest + b"]")


def test_depth_counts_objects_and_lists_alike() -> None:
    half = MOST_DEPTH // 2
    assert read(b'[{"a":' * half + b"1" + b"}]" * half) is not None
    with pytest.raises(errors.TooDeep):
        read(b'{"b":' + b'[{"a":' * half + b"1" + b"}]" * half + b"}")


@pytest.mark.parametrize("text", ['{"a": "[[[[[[[[[[[[[[[[[[[[["}', '["\\\\", "\\"[[[[[[[[[[[[[[[[[[[[[[[{{{{"]'])
def test_brackets_in_text_are_not_depth(text: str) -> None:
    assert read(text.encode()) == json.loads(text)


@pytest.mark.parametrize("opening", [b"[", b'{"a":'])
def test_a_body_of_nothing_but_openings_is_refused(opening: bytes) -> None:
    with pytest.raises((errors.TooDeep, errors.NotJson)):
        read(opening * (MOST_BYTES // len(opening)))


@pytest.mark.parametrize(
    ("data", "error"),
    [
        (b"", errors.EmptyBody),
        (b" \n\t ", errors.EmptyBody),
        (b"\xef\xbb\xbf{}", errors.NotUtf8),
        ('{"a": "é"}'.encode("latin-1"), errors.NotUtf8),
        ('{"a": 1}'.encode("utf-16"), errors.NotUtf8),
        ('{"a": 1}'.encode("utf-16-le"), errors.NotUtf8),
        ('{"a": 1}'.encode("utf-32-be"), errors.NotUtf8),
        (b'{"a": "\\ud800"}', errors.NotJson),
        (b'{"\\udc00": 1}', errors.NotJson),
        (b'{"a": 1,}', errors.NotJson),
        (b"{'a': 1}", errors.NotJson),
        (b'{"a": 1} {"b": 2}', errors.NotJson),
        (b'{"a": 01}', errors.NotJson),
        (b'{"a": +1}', errors.NotJson),
        (b'{"a": .5}', errors.NotJson),
        (b'{"a": "\t"}', errors.NotJson),
        (b'{"a": 1} // job', errors.NotJson),
        (b'{"a": NaN}', errors.BadNumber),
        (b'{"a": -Infinity}', errors.BadNumber),
        (b'{"a": 1e400}', errors.BadNumber),
        (b'{"a": ' + b"9" * 41 + b"}", errors.BadNumber),
        (b'{"a": ' + b"9" * 5000 + b"}", errors.BadNumber),
        (b'{"a": 0.' + b"1" * 100_000 + b"}", errors.BadNumber),
        (b'{"a": 1, "\\u0061": 2}', errors.DoubledField),
        (b'"' + b"x" * MOST_BYTES + b'"', errors.TooLarge),
    ],
)
def test_what_is_not_read(data: bytes, error: type[errors.Refusal]) -> None:
    with pytest.raises(error):
        read(data)


def test_a_doubled_field_is_pointed_at() -> None:
    with pytest.raises(errors.DoubledField) as caught:
        read(b'{"rooms": [{"name": "A"}, {"name": "B", "sh/ape": 1, "sh/ape": 1}], "air": {"a": 1, "a": 1}}')
    assert [place.pointer for place in caught.value.places] == ["/rooms/1/sh~1ape", "/air/a"]


def test_only_the_first_doubled_fields_are_told_and_their_pointers_are_short() -> None:
    with pytest.raises(errors.DoubledField) as caught:
        read(b'{"' + b"k" * 100_000 + b'": [' + b'{"a": 1, "a": 1},' * 9_000 + b"{}]}")
    assert len(caught.value.places) == MOST_ERRORS
    assert all(len(str(place.pointer)) <= 201 for place in caught.value.places)


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        (b'{"a": "\\ud800"}', 1, 8),
        (b'{"a":\n  "x\\udc00y"}', 2, 5),
        ('["é é é", "\\ud83d\\ud83d"]'.encode(), 1, 12),
    ],
)
def test_half_of_a_surrogate_pair_is_told_where_it_stands(data: bytes, line: int, column: int) -> None:
    with pytest.raises(errors.NotJson) as caught:
        read(data)
    assert caught.value.params == {"line": line, "column": column, "what": Say(code="json-half")}


def test_what_is_wrong_before_half_of_a_pair_is_told_first() -> None:
    with pytest.raises(errors.NotJson) as caught:
        read(b'{"a" 1, "b": "\\ud800"}')
    assert caught.value.params == {"line": 1, "column": 6, "what": Say(code="json-colon")}


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b'{"a": }', "json-value"),
        (b"{a: 1}", "json-name"),
        (b'{"a" 1}', "json-colon"),
        (b'{"a": 1 "b": 2}', "json-comma"),
        (b"[1 2]", "json-comma"),
        (b"{} {}", "json-extra"),
        (b'{"a": "b', "json-unended"),
        (b'{"a": "\n"}', "json-control"),
        (b'{"a": "\\x"}', "json-escape"),
        (b'{"a": "\\u12"}', "json-escape-u"),
        (b'{"a": "\\ud800"}', "json-half"),
    ],
)
def test_what_the_parser_says_is_told_in_words_of_ours(data: bytes, code: str) -> None:
    with pytest.raises(errors.NotJson) as caught:
        read(data)
    assert caught.value.params["what"] == Say(code=code)


def test_in_english_it_is_told_as_the_parser_says_it() -> None:
    assert {told: templates("en")[code] for told, code in PARSER_SAYS.items()} == {told: told for told in PARSER_SAYS}


@given(st.data())
def test_a_broken_body_is_never_told_of_by_a_word_we_do_not_have(data: st.DataObject) -> None:
    """One character of a job is lost, doubled or changed; what the parser says of it is one of the known."""
    text = '{"system": "level\\u0041", "rooms": [{"a": -1.5e3, "b": [true, null, {"c": "\\n"}]}], "d": {}}'
    at = data.draw(st.integers(0, len(text) - 1))
    put = data.draw(st.sampled_from(["", text[at] * 2, *'{}[],:"\\u0-.e\n\x01é ']))
    try:
        read((text[:at] + put + text[at + 1 :]).encode())
    except errors.NotJson as error:
        assert error.params["what"] != Say(code="json-otherwise")
    except errors.Unreadable:
        pass


def test_a_pair_of_surrogates_is_one_character() -> None:
    assert read(b'"\\ud83d\\ude00"') == "\U0001f600"
