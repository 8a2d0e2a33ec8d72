"""What may stand in a line of text that people read; one rule for jobs and for catalogues.

Refused is what nobody sees although it changes what is read, searched or shown:

* the Unicode categories Cc, Cf, Cs, Zl and Zp: controls, and formats such as zero widths, marks of direction and tags;
* noncharacters, and code points that Unicode keeps for formats to come;
* letters and symbols that are blank by design, such as fillers.

Everything else stays: letters, marks, digits, punctuation and symbols of every script, emoji, what Unicode does not
know yet. The two joiners (U+200C, U+200D) are of category Cf, but Persian and Indic names and many emoji need them:
they stay between two visible characters beyond ASCII.
"""

from __future__ import annotations

import json
from unicodedata import category

HIDDEN_CLASS = (
    "\\u0000-\\u001f\\u007f-\\u009f\\u00ad\\u034f\\u0600-\\u0605\\u061c\\u06dd\\u070f\\u0890\\u0891\\u08e2"
    "\\u115f\\u1160\\u17b4\\u17b5\\u180e\\u200b\\u200e\\u200f\\u2028-\\u202e\\u2060-\\u206f\\u2800\\u3164"
    "\\ufdd0-\\ufdef\\ufeff\\uffa0\\ufff0-\\ufffb\\ufffe\\uffff"
)
"""The refused characters as the inside of a character class of a regular expression, for the description.

It has those of the basic plane alone, less the joiners.
"""

_CATEGORIES = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
_BLANK = "\u034f\u115f\u1160\u17b4\u17b5\u2800\u3164\uffa0"
_RESERVED = ((0x2065, 0x2065), (0xFDD0, 0xFDEF), (0xFFF0, 0xFFF8), (0xE0000, 0xE00FF), (0xE01F0, 0xE0FFF))
_JOINERS = "\u200c\u200d"


def has_hidden(text: str) -> bool:
    """Whether something stands in the text that nobody sees.

    >>> has_hidden("Café 厨房 👩‍🍳"), has_hidden("a\\u200bb"), has_hidden("a\\u200db"), has_hidden("two\\nlines")
    (False, True, True, True)
    """
    if text.isascii():
        return not text.isprintable()
    return any(map(_is_hidden, " " + text, text, text[1:] + " "))


def escaped(text: str) -> str:
    """The text with what nobody sees in it written as JSON escapes it.

    >>> print(escaped("two\\nlines, Café, a\\u200bb"))
    two\\nlines, Café, a\\u200bb
    """
    triples = zip(" " + text, text, text[1:] + " ", strict=False)
    return "".join(json.dumps(each[1])[1:-1] if _is_hidden(*each) else each[1] for each in triples)


def _is_hidden(before: str, character: str, after: str) -> bool:
    if character in _JOINERS:
        return not (_is_joined(before) and _is_joined(after))
    code = ord(character)
    return (
        category(character) in _CATEGORIES
        or code & 0xFFFE == 0xFFFE  # the last two of each plane are noncharacters
        or character in _BLANK
        or any(first <= code <= last for first, last in _RESERVED)
    )


def _is_joined(neighbour: str) -> bool:
    return not (neighbour.isascii() or neighbour.isspace() or neighbour in _JOINERS)
