"""The sentences of another language beside the English ones: ``python -m tests.words.compare`` lists what differs.

It lists sentences that are missing, that stand in another file than the English one or have no English one, that hold
other placeholders or figures, and whose English has changed since they were made: beside each stands, as a comment, the
English sentence that it was made from (``# en = "…"``). ``--record CODE…`` writes today's English there, once somebody
has looked at the sentence again; ``--record`` alone does so for all. ``--moved`` gives sentences whose English has
another code by now that code.

A figure in digits is in digits in every language, so a number is never spelled out in one and in digits in another.
"""

from __future__ import annotations

import json
import re
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from string import Formatter
from typing import NamedTuple

WORDS = Path(__file__).parents[2] / "api" / "gaugerake" / "answers" / "show" / "words"
ENGLISH, OTHERS = "en", ("es",)
SENTENCE = re.compile(r'^(?P<code>[\w-]+|"[^"]+") = ')
MADE_FROM = "# en = "
FIGURE = re.compile(r"[0-9]+(?:[.,:][0-9]+)*")


class Sentence(NamedTuple):
    """A sentence, the name of its file, and the English that it was made from, where that is noted."""

    text: str
    file: str
    made_from: str | None = None


def sentences(language: str) -> dict[str, Sentence]:
    """Every sentence of a language by its code."""
    found: dict[str, Sentence] = {}
    for path in sorted((WORDS / language).glob("*.toml")):
        text = path.read_text("utf-8")
        noted = made_from(text)
        found |= {code: Sentence(said, path.name, noted.get(code)) for code, said in tomllib.loads(text).items()}
    return found


def made_from(text: str) -> dict[str, str]:
    """The English that is noted before the sentences of a file."""
    noted: dict[str, str] = {}
    above = ""
    for line in text.splitlines():
        if (sentence := SENTENCE.match(line)) and above.startswith(MADE_FROM):
            noted[sentence["code"].strip('"')] = tomllib.loads(above.removeprefix("# "))["en"]
        above = line
    return noted


def placeholders(text: str) -> Counter[str]:
    """The names of the values in a sentence, each as often as it stands there."""
    return Counter(name for _, name, _, _ in Formatter().parse(text) if name is not None)


def figures(text: str) -> Counter[str]:
    """The figures in digits that stand in a sentence itself.

    >>> figures("29 CFR 1926.1153, {low} to 1,000 ft²")
    Counter({'29': 1, '1926.1153': 1, '1,000': 1})
    """
    return Counter(FIGURE.findall(re.sub(r"{[^}]*}", " ", text)))


def differences(language: str) -> Iterator[str]:
    """What a translator has to look at, a line each."""
    english, other = sentences(ENGLISH), sentences(language)
    for code, said in english.items():
        if code in other:
            yield from (f"{language}/{other[code].file}: {code}: {what}" for what in _wrong(said, other[code]))
        else:
            yield f"{language}/{said.file}: {code}: is missing: {said.text}"
    for code in other.keys() - english.keys():
        yield f"{language}/{other[code].file}: {code}: has no English sentence"


def _wrong(english: Sentence, other: Sentence) -> Iterator[str]:
    if english.file != other.file:
        yield f"stands in {english.file} in English"
    if placeholders(english.text) != placeholders(other.text):
        yield f"has other placeholders than: {english.text}"
    if figures(english.text) != figures(other.text):
        yield f"has other figures than: {english.text}"
    if other.made_from != english.text:
        yield f"was made from another English sentence than: {english.text}"


def with_notes(text: str, english: Mapping[str, str]) -> str:
    """A file with the English of ``english`` noted before each of its sentences that is in there."""
    lines: list[str] = []
    for line in text.splitlines():
        sentence = SENTENCE.match(line)
        code = sentence["code"].strip('"') if sentence else ""
        if code in english:
            if lines and lines[-1].startswith(MADE_FROM):
                lines.pop()
            lines.append(MADE_FROM + json.dumps(english[code], ensure_ascii=False))
        lines.append(line)
    return "\n".join(lines) + "\n"


def record(language: str, *codes: str) -> None:
    """Note today's English before these sentences of a language, or before all of them."""
    english = {code: said.text for code, said in sentences(ENGLISH).items() if not codes or code in codes}
    for path in (WORDS / language).glob("*.toml"):
        path.write_text(with_notes(path.read_text("utf-8"), english), "utf-8")


def move(language: str) -> None:
    """Give each sentence that has no English one any more the code under which its English stands now."""
    english, other = sentences(ENGLISH), sentences(language)
    left = {said.made_from: code for code, said in other.items() if code not in english}
    codes = {left[said.text]: code for code, said in english.items() if code not in other and said.text in left}
    for path in (WORDS / language).glob("*.toml"):
        lines = path.read_text("utf-8").splitlines()
        path.write_text("\n".join(_renamed(line, codes) for line in lines) + "\n", "utf-8")


def _renamed(line: str, codes: Mapping[str, str]) -> str:
    sentence = SENTENCE.match(line)
    code = sentence["code"].strip('"') if sentence else ""
    return line.replace(code, codes[code], 1) if code in codes else line


def main(*arguments: str) -> int:
    """List what differs, or note that nothing does."""
    if arguments == ("--moved",):
        for language in OTHERS:
            move(language)
        return 0
    if arguments[:1] == ("--record",):
        for language in OTHERS:
            record(language, *arguments[1:])
        return 0
    lines = [line for language in OTHERS for line in differences(language)]
    print("\n".join(lines) or "Nothing differs.")
    return 1 if lines else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
