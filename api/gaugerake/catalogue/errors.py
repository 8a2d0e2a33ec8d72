"""What can go wrong with the kept catalogues. The tree::

    CatalogueError
    ├── BadDatabase           an address that names no database we can use
    ├── Unavailable           the database does not answer, or holds no catalogue yet
    ├── UnknownRevision       no revision begins so, or more than one does
    ├── UnknownBook           no such price book
    ├── BookInUse             a price book that a live key has
    ├── BadBranch             a branch's code that cannot be used
    ├── BadKeyDetail          something about a key that cannot be so
    ├── UnknownKey            no key begins so, or more than one does
    ├── UnknownStep           no step of the database is called so
    └── OtherCurrency         a catalogue whose currency is not that of the branches' price books

Faults of a file are `gaugerake.catalogue.file.faults.FileRefused`.
"""

from __future__ import annotations

from collections.abc import Iterable


class CatalogueError(Exception):
    """Something that the keeper of the catalogue can mend; its text says how."""


class BadDatabase(CatalogueError):
    """The address of the database cannot be used."""


class Unavailable(CatalogueError):
    """The database does not answer, or is empty."""


class UnknownRevision(CatalogueError):
    """No revision has this name, or several begin with it."""

    def __init__(self, seen: str, found: Iterable[str] = ()) -> None:
        self.seen, self.found = seen, tuple(found)
        several = ", ".join(name[:16] for name in self.found)
        super().__init__(
            f'several revisions begin with "{seen}": {several}; write more of it'
            if several
            else f'there is no revision "{seen}"; see them with: gaugerake catalogue list'
        )


class UnknownBook(CatalogueError):
    """There is no such price book."""

    def __init__(self, seen: str) -> None:
        self.seen = seen
        super().__init__(f'there is no price book "{seen}"')


class BookInUse(CatalogueError):
    """A live key has these prices."""

    def __init__(self, branch: str, prefixes: Iterable[str]) -> None:
        self.branch, self.prefixes = branch, tuple(prefixes)
        super().__init__(f"these keys have the prices of {branch}: {', '.join(self.prefixes)}; revoke them first")


class BadBranch(CatalogueError):
    """A branch cannot be called so."""

    def __init__(self, seen: str) -> None:
        self.seen = seen
        super().__init__(
            f'a branch cannot be called "{seen}": write 1 to 40 ASCII letters, digits, points, dashes or underscores,'
            " such as north; list is the catalogue's own prices"
        )


class UnknownStep(CatalogueError):
    """No step of the database is called so."""

    def __init__(self, seen: str) -> None:
        self.seen = seen
        super().__init__(f'there is no step "{seen}"; see them with: gaugerake database steps')


class OtherCurrency(CatalogueError):
    """Price books of branches are in another currency than the catalogue that is to be used."""

    def __init__(self, currency: str, branches: Iterable[str]) -> None:
        self.currency, self.branches = currency, tuple(branches)
        super().__init__(
            f"the catalogue is in {currency} and these price books are not: {', '.join(self.branches)};"
            " drop them first, and load them again once it is in use"
        )


class BadKeyDetail(CatalogueError):
    """Something about a key that cannot be so."""


class UnknownKey(CatalogueError):
    """No live key has this prefix, or several begin with it."""

    def __init__(self, seen: str, found: Iterable[str] = ()) -> None:
        self.seen, self.found = seen, tuple(found)
        several = ", ".join(self.found)
        super().__init__(
            f'several keys begin with "{seen}": {several}; write more of it'
            if several
            else f'there is no live key "{seen}"; see them with: gaugerake key list'
        )
