"""Every word of the Spanish sentences is known: to Debian's hunspell with its es_MX list, or to our own list.

``known_words.toml`` is ours, each word with its reason. One that no sentence has any more, or that hunspell knows, is
taken out.
"""

import os
import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
from tests.words.compare import sentences

KNOWN = tomllib.loads((Path(__file__).parent / "known_words.toml").read_text("utf-8"))
ASIDE = re.compile(r"{[^}]*}|`[^`]*`")
WORD = re.compile(r"[^\W\d_]{2,}")


def words() -> dict[str, str]:
    """Each word of the Spanish sentences, with a sentence that has it."""
    return {word: said.text for said in sentences("es").values() for word in WORD.findall(ASIDE.sub(" ", said.text))}


def misspelt(text: str) -> set[str]:
    """The words of a text that hunspell does not know; without hunspell the tests are skipped, and fail in CI."""
    if shutil.which("hunspell") is None:
        if os.environ.get("CI"):
            pytest.fail("the words are read by Debian's hunspell, with hunspell-es")
        pytest.skip("no hunspell here")
    command = ["hunspell", "-d", "es_MX", "-i", "utf-8", "-l"]
    found = subprocess.run(command, input=text, capture_output=True, text=True, check=True)
    return set(found.stdout.split())


def test_every_word_is_spanish_or_known() -> None:
    said = words()
    assert len(said) > 1000
    assert {word: said[word] for word in misspelt("\n".join(said)) & said.keys() if word not in KNOWN} == {}


def test_a_word_that_is_none_is_found() -> None:
    assert misspelt("La loza está lissta.\n") == {"lissta"}


def test_our_own_list_holds_what_is_needed_alone() -> None:
    needed = misspelt("\n".join(words()))
    assert sorted(KNOWN.keys() - needed) == []
    assert all(reason.strip() for reason in KNOWN.values())
