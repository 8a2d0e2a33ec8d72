"""The name that somebody meant who wrote another: offered only where it is near enough to be right.

A wrong suggestion costs more than none, as whoever follows it is refused again or gets another thing. So a name is
offered when nothing but the way of writing differs (``LEVEL CLEAR`` for ``level-clear``), when each word has at most
one slip of the keyboard, or when one of the two has all words of the other (``Chicago`` for ``America/Chicago``); and
only when one name alone is so near. A slip is a letter left out, added or replaced, or two neighbours swapped. A digit
for another is no slip: ``CL-3`` is another product than ``CL-2``. A short word that is another word by one letter is
none either: ``CST`` is not ``EST``. Units, words of a job, names of a catalogue and time zones are all judged here, so
this module stands beside the rooms and imports nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

LONGEST_NAME = 80
"""How much of what was written is looked at."""

_LEAST_ADDED = 3
_LEAST_SWAPPED = 4
_LEAST_REPLACED = 5
_SEPARATORS = str.maketrans("-_/.,", "     ")


def nearest_name(seen: str, known: Iterable[str]) -> str | None:
    """Find the one known name that is near enough to the one seen.

    Parameters
    ----------
    seen : str
        What was written; its first 80 characters count.
    known : Iterable of str
        The names that there are.

    Returns
    -------
    str or None
        None when none is near, or more than one is equally near.

    Examples
    --------
    >>> known = ["level-clear", "mortar-cove", "north"]
    >>> [nearest_name(seen, known) for seen in ("LEVEL-CLEAR", "levle-claer", "mortar", "south")]
    ['level-clear', 'level-clear', 'mortar-cove', None]
    """
    near = near_names(seen, known)
    return near[0] if len(near) == 1 else None


def near_names(seen: str, known: Iterable[str]) -> list[str]:
    """Find all known names that are equally near to the one seen, and near enough.

    Parameters
    ----------
    seen : str
        What was written; its first 80 characters count.
    known : Iterable of str
        The names that there are, or all spellings of them.

    Returns
    -------
    list of str
        Those that differ in the way of writing alone, else by slips, else by words that one of the two lacks.

    Examples
    --------
    >>> near_names("metr", ["meter", "metre", "foot"])
    ['meter', 'metre']
    """
    words = _words(seen[:LONGEST_NAME])
    joined = "".join(words)
    names = [(name, _words(name)) for name in known]
    alike = [name for name, other in names if joined == "".join(other)]
    slipped = alike or [name for name, other in names if _is_slip_in_each(words, other)]
    return slipped or [name for name, other in names if _has_all(words, other)]


def _words(name: str) -> list[str]:
    return name.casefold().translate(_SEPARATORS).split()


def _is_slip_in_each(words: Sequence[str], others: Sequence[str]) -> bool:
    if len(words) == len(others) and all(map(_is_near, words, others)):
        return True
    return _is_near("-".join(words), "-".join(others))


def _is_near(word: str, other: str) -> bool:
    """Whether the two are one slip apart, or none."""
    if word == other:
        return True
    if abs(len(word) - len(other)) > 1:
        return False
    begin = next((i for i, (a, b) in enumerate(zip(word, other, strict=False)) if a != b), min(len(word), len(other)))
    word_rest, other_rest = word[begin:], other[begin:]
    shorter = min(len(word), len(other))
    if len(word) != len(other):
        longer_rest, rest = sorted((word_rest, other_rest), key=len, reverse=True)
        return shorter >= _LEAST_ADDED and longer_rest[1:] == rest
    if word_rest[1:] == other_rest[1:]:
        return shorter >= _LEAST_REPLACED and not (word_rest[0].isdigit() or other_rest[0].isdigit())
    swapped = word_rest[:2] == other_rest[1::-1] and word_rest[2:] == other_rest[2:]
    return swapped and shorter >= _LEAST_SWAPPED and not word_rest[:2].isdigit()


def _has_all(words: Sequence[str], others: Sequence[str]) -> bool:
    """Whether all words of the one stand among those of the other."""
    one, two = set(words), set(others)
    return bool(one and two) and (one <= two or two <= one)
