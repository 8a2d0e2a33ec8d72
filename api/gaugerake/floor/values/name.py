"""Names of a catalogue, which may be given in two languages.

A name is a text like any other, so that whatever compares, joins or prints names needs to know nothing of this: it is
the English one. Who shows it to a reader asks for the Spanish one, where there is one.
"""

from __future__ import annotations

from typing import Self

LANGUAGES = ("en", "es")
"""The languages that a name may be given in."""


class Name(str):
    """A name in English that knows its Spanish.

    >>> name = Name("Clear coat", "Capa transparente")
    >>> name, name.spanish
    ('Clear coat', 'Capa transparente')
    """

    __slots__ = ("spanish",)

    spanish: str

    def __new__(cls, english: str, spanish: str) -> Self:
        """A name in both languages."""
        made = super().__new__(cls, english)
        made.spanish = spanish
        return made

    def __getnewargs__(self) -> tuple[str, str]:  # type: ignore[override]
        """What a copy is made from."""
        return str(self), self.spanish


class Contents(str):
    """What a pack holds, as its maker writes it: ``2 gal``, ``1 mix``. Who shows it has words for its unit."""

    __slots__ = ()


class Joined(Name):
    """A name that is made of several, parted by commas.

    >>> name = Joined(Name("Sand", "Arena"), "slate", Contents("55 lb"))
    >>> name, name.spanish
    ('Sand, slate, 55 lb', 'Arena, slate, 55 lb')
    """

    __slots__ = ("parts",)

    parts: tuple[str | Name, ...]

    def __new__(cls, *parts: str | Name) -> Self:
        """The name of these."""
        spanish = [part.spanish if isinstance(part, Name) else part for part in parts]
        made = super().__new__(cls, ", ".join(parts), ", ".join(spanish))
        made.parts = parts
        return made

    def __getnewargs__(self) -> tuple[str | Name, ...]:  # type: ignore[override]
        """What a copy is made from."""
        return self.parts


Named = str | Name
"""A name, in English alone or in both languages."""
