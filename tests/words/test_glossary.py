"""The glossary names the words that stand in the sentences, each English term once."""

import re
import unicodedata

from tests.words.compare import WORDS, sentences

ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in (WORDS / "glossary.md").read_text("utf-8").splitlines()
    if line.startswith("| ") and not line.startswith(("| English", "| ---"))
]


def test_it_has_terms_enough_each_once() -> None:
    english = [row[0] for row in ROWS]
    assert len(english) == len(set(english)) >= 60
    assert all(len(row) == 3 for row in ROWS)


def test_each_choice_stands_in_the_sentences() -> None:
    said = _plain(" ".join(sentence.text for sentence in sentences("es").values()))
    words = {word for row in ROWS for word in re.findall(r"\w{4,}", _plain(row[1]))}
    assert len(words) > 100
    assert sorted(word for word in words if word[:-3] not in said) == []  # a plural and a verb's forms end otherwise


def _plain(text: str) -> str:
    """Without accents, which some forms of a verb have and others don't."""
    return "".join(one for one in unicodedata.normalize("NFD", text.lower()) if not unicodedata.combining(one))
