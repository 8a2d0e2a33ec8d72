"""Sentences that people read on the page and on paper hold nothing of the interface's language.

All sentences are gone through, in each language, but for those that only programs get: the answer to too many requests,
whose code the page turns into words of its own, and what the form for other pages writes into the console.
"""

import re

import pytest

from gaugerake.answers.show.words import templates

INTERFACE = re.compile(
    r"`"  # code
    r"|[a-z]+_[a-z]+"  # a key of the document
    r"|(?:^|[ (“])/[a-z]+/"  # a pointer
    r"|[Ee]mpty list|lista vacía|\bnull\b"  # values of a document
    r"|\d ?(?:ft2|m2|in2|degF|degC)\b"  # units as programs spell them
)
FOR_PROGRAMS = {"problem-too-many-requests", "embed-tell-origin"}


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_sentence_speaks_the_language_of_the_interface(language: str) -> None:
    said = {code: re.sub(r"\{\w+\}", "", text) for code, text in templates(language).items()}  # type: ignore[arg-type]
    assert len(said) > 1000
    assert {code: text for code, text in said.items() if INTERFACE.search(text) and code not in FOR_PROGRAMS} == {}
