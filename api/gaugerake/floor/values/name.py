"""Names of a catalogue, which may be given in two languages.

A name is a text like any other, so that whatever compares, joins or prints names needs to know nothing of this: it is
the English one. Who shows it to a reader asks for the Spanish one, where there is one.
"""

from __future__ import annotations

LANGUAGES = ("en", "es")
"""Those that a name may be given in."""


class Name(str):
    """A name in English that knows its Spanish.

    >>> name = Name("Clear coat", "Capa transparente")
    >>> name, name.spanish
    ('Clear coat', 'Capa transparente')
    """

    __slots__ = ("spanish",)

    spanish: str

    def __new__(cls, english: str, spanish: str) -> Name:
        """A name in both languages."""
        made = super().__new__(cls, english)
        made.spanish = spanish
        return made

    def __getnewargs__(self) -> tuple[str, str]:  # type: ignore[override]
        """What a copy is made from."""
        return str(self), self.spanish


Named = str | Name
"""A name, in English alone or in both languages."""


def followed(name: Named, *, by: str) -> Named:
    """Set what is the same in both languages behind a name.

    Parameters
    ----------
    name : str or Name
        In one language or in both.
    by : str
        What follows it.

    Returns
    -------
    str or Name
        Both, in as many languages as the name.

    Examples
    --------
    >>> followed(Name("Sand", "Arena"), by=", 55 lb").spanish
    'Arena, 55 lb'

    References
    ----------
    Our own.
    """
    return Name(f"{name}{by}", f"{name.spanish}{by}") if isinstance(name, Name) else f"{name}{by}"
