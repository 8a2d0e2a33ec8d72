"""Sentences: one folder a language, each file a flat table of ``code = "template"``; a code stands once in a language.

What a language does not have yet is said in English, the first of them: a caution in English is better than none. A
test lists what is missing; beside each Spanish sentence stands, as a comment, the English one that it was made from, so
that a sentence that changed is found, and a native speaker corrects the file without looking elsewhere.

Placeholders are ``{name}``; figures are written in the reader's units, so a template never names a unit of a figure.
A sentence that counts may have a second form, ``code-one``, for where its ``count``, ``given``, ``stops`` or ``rooms``
is 1.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from decimal import Decimal
from functools import cache, lru_cache
from importlib.resources import files
from string import Formatter

from gaugerake.answers.show.reader import LANGUAGES, Language, Reader
from gaugerake.answers.show.words.figures import (
    bound_text,
    contents_text,
    decimal_text,
    figure_text,
    told_text,
    unit_text,
)
from gaugerake.floor.values.figure import Bound, Figure, Kind, Rate, Told
from gaugerake.floor.values.money import to_minor
from gaugerake.floor.values.name import Contents, Joined, Name
from gaugerake.floor.values.note import Say, Value
from gaugerake.measure.choice import UnitChoice

_SQUARE_METRES = {"m2": Decimal(1), "ft2": Decimal("0.3048") ** 2}


def templates(language: Language = "en") -> Mapping[str, str]:
    """Every template of a language by its code.

    Raises
    ------
    ValueError
        When a code stands in two files.
    """
    return _read(language)


@cache
def _read(language: Language) -> Mapping[str, str]:
    own = own_templates(language)
    return own if language == LANGUAGES[0] else {**_read(LANGUAGES[0]), **own}


def own_templates(language: Language) -> Mapping[str, str]:
    """The templates that stand in a language's own files.

    Raises
    ------
    ValueError
        When a code stands in two files.
    """
    found: dict[str, str] = {}
    folder = files(__package__).joinpath(language)
    for file in sorted((entry for entry in folder.iterdir() if entry.name.endswith(".toml")), key=lambda one: one.name):
        for code, template in tomllib.loads(file.read_text("utf-8")).items():
            if code in found:
                raise ValueError(f"sentence {code!r} stands twice, again in {file.name}")
            found[code] = template
    return found


def written(value: Value, reader: Reader) -> str:
    """One figure as it stands in a sentence."""
    # by the type itself, the most frequent first: an answer writes hundreds, and of these types only Name has others
    # under it
    if type(value) is Figure:
        return _written_figure(value, reader.units, reader.language)
    if type(value) is Say:
        return sentence(value.code, value.params, reader)
    if isinstance(value, Name):
        return named(value, reader)
    if type(value) is Bound:
        return bound_text(value, reader.units, templates(reader.language))
    if type(value) is Told:
        return _written_told(value, reader.units, reader.language)
    if type(value) is Rate:
        return _written_rate(value, reader)
    if type(value) is bool:
        return templates(reader.language)["written-yes" if value else "written-no"]
    if type(value) is float:
        return f"{value:,.6g}"
    return "" if value is None else str(value)


def named(name: Name, reader: Reader) -> str:
    """A name of the catalogue in the reader's language; what a pack holds with its unit in that language.

    >>> from gaugerake.answers.show.reader import Reader
    >>> from gaugerake.measure.choice import US
    >>> named(Joined(Name("Body", "Capa principal"), Contents("24 mixes")), Reader(units=US, language="es"))
    'Capa principal, 24 mezclas'
    """
    if reader.language == LANGUAGES[0]:
        return str(name)
    if isinstance(name, Joined):
        return ", ".join(_part_named(part, reader) for part in name.parts)
    return name.spanish


def _part_named(part: str | Name, reader: Reader) -> str:
    if isinstance(part, Contents):
        return contents_text(part, templates(reader.language))
    return named(part, reader) if isinstance(part, Name) else part


@lru_cache(maxsize=4096)
def _written_figure(figure: Figure, choice: UnitChoice, language: Language) -> str:
    """A figure in a sentence; cached, as the same limits and hours recur in every answer."""
    return figure_text(figure, choice, templates(language))


@lru_cache(maxsize=4096)
def _written_told(told: Told, choice: UnitChoice, language: Language) -> str:
    """A length or a time in a sentence that rounds it in a way of its own; cached as `_written_figure` is."""
    return told_text(told, choice, templates(language))


def _written_rate(rate: Rate, reader: Reader) -> str:
    amount, unit = rate_shown(rate, reader)
    currency, area = unit.split("/")
    words = {"amount": amount, "currency": currency, "unit": unit_text(area, templates(reader.language))}
    return sentence("written-rate", words, reader)


def rate_shown(rate: Rate, reader: Reader) -> tuple[str, str]:
    """Money by area, rounded once, half up, and its unit.

    >>> from gaugerake.answers.show.reader import US_READER
    >>> rate_shown(Rate(Decimal("34.5"), "USD", 2), US_READER)
    ('3.21', 'USD/ft2')
    """
    unit = reader.units.unit(Kind.AREA)
    amount = to_minor(amount=rate.amount_m2 * _SQUARE_METRES[unit], digits=rate.digits)
    return str(amount), f"{rate.currency}/{unit}"


def sentence(code: str, params: Mapping[str, Value], reader: Reader) -> str:
    """The sentence of ``code`` with its figures in the reader's units.

    Raises
    ------
    KeyError
        When there is no such template, or it asks for a figure that is not given: a defect of ours, never of a job.
    """
    text, names = _parts(_for_one(code, params), reader.language)
    return text % tuple([written(params[name], reader) for name in names]) if names else text


_COUNTED = ("count", "given", "stops", "rooms")
_ONE = (1, Figure(1.0, Kind.COUNT))


def _for_one(code: str, params: Mapping[str, Value]) -> str:
    """The code of the form for one thing, where what is counted is one and the sentence has such a form."""
    if code not in _told_for_one():
        return code
    return f"{code}-one" if any(params.get(name) in _ONE for name in _COUNTED) else code


@cache
def _told_for_one() -> frozenset[str]:
    """The codes of the sentences that have a form for one thing."""
    return frozenset(code.removesuffix("-one") for code in templates() if code.endswith("-one"))


def worked(code: str, params: Mapping[str, Value], reader: Reader) -> str:
    """The sentence of a rule, its figures in decimals: arithmetic is done with one number and one unit.

    Raises
    ------
    KeyError
        As of `sentence`.
    """
    text, names = _parts(code, reader.language)
    return text % tuple([_in_decimals(params[name], reader) for name in names]) if names else text


def _in_decimals(value: Value, reader: Reader) -> str:
    if type(value) is Figure:
        return _decimals_of(value, reader.units, reader.language)
    return written(value, reader)


@lru_cache(maxsize=4096)
def _decimals_of(figure: Figure, choice: UnitChoice, language: Language) -> str:
    return decimal_text(figure, choice, templates(language))


@cache
def _parts(code: str, language: Language) -> tuple[str, tuple[str, ...]]:
    """A template read once: its text, ``%s`` where a value stands, and the names of the values in their order.

    A text without values is as it is said, its percent signs not doubled.
    """
    texts: list[str] = []
    names: list[str] = []
    for text, name, form, conversion in Formatter().parse(templates(language)[code]):
        if form or conversion:
            raise ValueError(f"sentence {code!r} tells a figure how to be written; the reader's units do")
        texts.append(text.replace("%", "%%"))
        if name is not None:
            texts.append("%s")
            names.append(name)
    whole = "".join(texts)
    return (whole, tuple(names)) if names else (whole.replace("%%", "%"), ())
