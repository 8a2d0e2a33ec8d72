"""Texts that are not a catalogue, or are made to harm, are refused with a line and without delay."""

from collections.abc import Callable

import pytest

from gaugerake.catalogue.file.faults import FileRefused, Notebook, Remark
from gaugerake.catalogue.file.nodes import DEEPEST, LONGEST_BYTES, MOST_ALIASES, tree

Tell = Callable[[str], tuple[Remark, ...]]

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


def test_a_byte_order_mark_and_windows_lines_do_no_harm(small: str, faults_of: Tell) -> None:
    assert faults_of("\ufeff" + small.replace("\n", "\r\n")) == ()


def test_a_key_that_is_no_word_is_told() -> None:
    notebook = Notebook()
    tree("a: 1\n? [x, y]\n: 2\n", notebook)
    assert [(fault.line, fault.text) for fault in notebook.faults] == [(2, "a key is a plain word")]


def test_the_faults_of_a_file_are_bounded(faults_of: Tell) -> None:
    assert len(faults_of("\n".join(f"key{n}: 1" for n in range(3000)))) == 500


def test_a_refusal_reads_as_lines() -> None:
    with pytest.raises(FileRefused) as refused:
        tree("- 1", Notebook())
    assert str(refused.value).startswith("1: a catalogue begins")
