"""Texts that are not a catalogue, or are made to harm, are refused with a line and without delay."""

from collections.abc import Callable

import pytest

from gaugerake.catalogue.file.composing import DEEPEST, LONGEST_BYTES, MOST_ALIASES, MOST_NODES
from gaugerake.catalogue.file.faults import MOST_COMPARED, MOST_FAULTS, FileRefused, FileRemark, Notebook
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.file.nodes import Scalar, tree

Tell = Callable[[str], tuple[FileRemark, ...]]

BOMB = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]\n" for n in range(1, 10)
)


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("", 1, "begins with keys and values"),
        ("- a list", 1, "begins with keys and values"),
        ("only words", 1, "begins with keys and values"),
        ("a: 1\nb: [1, 2\n", 3, "not YAML"),
        ("a: 1\n\tb: 2", 2, "not YAML"),
        ("a: 1\n---\nb: 2", 2, "not YAML"),
        ("a: *nobody", 1, "not YAML"),
        ("a: \x00", 1, "not YAML"),
        ("a: " + "[" * (DEEPEST + 1) + "]" * (DEEPEST + 1), 1, "nested deeper"),
        ("a: " + "[" * 100_000, 1, "nested deeper"),
        ("a: &x 1\nb: [" + "*x, " * (MOST_ALIASES + 1) + "]", 2, "aliases"),
        (BOMB, 1, "unfold to more than"),
        ("a: 1\nb: &x [*x]", 2, "within what it names"),
        ("#" * (LONGEST_BYTES + 1), 1, "longer than"),
        ("".join(f"%TAG !a{n}! tag:x\n" for n in range(101)) + "---\na: 1", 1, "leave them out"),
        ("a:\n  [" + "1, " * MOST_NODES + "]", 2, "more than 400,000 values"),
        ("a: [" + "{a: *x}, " * 9 + "]", 1, "found undefined alias 'x'"),
        ("a: @x", 1, "found character '@' that cannot start any token"),
        ("a: 'x" + " y" * 100_000, 1, "found unexpected end of stream"),
        ('a: "\ud800"', 1, "not YAML"),
    ],
    ids=lambda value: repr(value)[:24],
)
def test_what_is_no_catalogue_is_refused_at_its_line(text: str, line: int, words: str, faults_of: Tell) -> None:
    (fault,) = faults_of(text)
    assert words in fault.text
    assert fault.line == line


def test_tags_construct_nothing(faults_of: Tell) -> None:
    assert faults_of('catalogue: !!python/object/apply:os.system ["exit 1"]\n') != ()


def test_an_alias_stands_for_what_it_names(spoiled: Callable[..., str], faults_of: Tell) -> None:
    shared = spoiled(
        ("cure: [{at: 70 degF, likely: 7 h}]", "cure: &slow [{at: 70 degF, likely: 7 h}]"),
        ("cure: [{at: 70 degF, likely: 10 h}]", "cure: *slow"),
    )
    assert faults_of(shared) == ()


def test_a_name_given_twice_stands_for_what_it_named_last() -> None:
    entries = tree("a: &x 1\nb: &x 2\nc: *x\n", Notebook()).entries
    assert isinstance(entries["c"], Scalar)
    assert entries["c"].text == "2"


@pytest.mark.parametrize(
    ("written", "kind"),
    [("yes", "str"), ("off", "str"), ("True", "bool"), ('"true"', "str"), ("!!str true", "str"), ("", "null"),
     ("~", "null"), ("''", "str"), ("12", "str"), ("!!binary aGk=", "binary")],
)  # fmt: skip
def test_plain_words_are_told_apart_as_yaml_1_2_does(written: str, kind: str) -> None:
    entry = tree(f"a: {written}\n", Notebook()).entries["a"]
    assert isinstance(entry, Scalar)
    assert entry.kind == kind


def test_a_byte_order_mark_and_windows_lines_do_no_harm(small: str, faults_of: Tell) -> None:
    assert faults_of("\ufeff" + small.replace("\n", "\r\n")) == ()


def test_a_key_that_is_no_word_is_told() -> None:
    notebook = Notebook()
    tree("a: 1\n? [x, y]\n: 2\n", notebook)
    assert [(fault.line, fault.text) for fault in notebook.faults] == [(2, "a key is a plain word")]


def test_a_file_is_read_no_further_than_the_faults_that_are_told() -> None:
    with pytest.raises(FileRefused) as refused:
        load_text("\n".join(f"key{n}: 1" for n in range(3000)))
    assert [fault.path for fault in refused.value.faults] == [f"key{n}" for n in range(MOST_FAULTS)]
    assert refused.value.lines()[-1] == "the file is not read beyond 500 faults: mend these and check it again"


def test_a_file_with_fewer_faults_says_no_more_than_those() -> None:
    with pytest.raises(FileRefused) as refused:
        load_text("\n".join(f"key{n}: 1" for n in range(3)))
    assert refused.value.lines() == [str(fault) for fault in refused.value.faults]


def test_names_are_compared_until_it_would_be_felt() -> None:
    notebook, names = Notebook(), [f"sku-{n}" for n in range(MOST_COMPARED // 4)]
    hints = [notebook.nearest("zzz", names) for _ in range(6)]
    assert [bool(hint) for hint in hints] == [True] * 4 + [False] * 2
    assert hints[0].endswith(" and 49,940 more.")


def test_a_refusal_reads_as_lines() -> None:
    with pytest.raises(FileRefused) as refused:
        tree("- 1", Notebook())
    assert str(refused.value).startswith("1: a catalogue begins")
