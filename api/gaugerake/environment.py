"""Settings that are secret, from files: ``GAUGERAKE_X_FILE`` names a file whose text is taken for ``GAUGERAKE_X``."""

from __future__ import annotations

from collections.abc import MutableMapping
from pathlib import Path

MAY_BE_FILES = ("GAUGERAKE_DATABASE", "GAUGERAKE_SECRETS", "GAUGERAKE_LIMITS")


class UnreadableSetting(Exception):
    """A file that a setting names cannot be read, or the setting is given twice; the text says which."""


def take_files(environment: MutableMapping[str, str]) -> None:
    """Put the text of each file that is named in the place of its name.

    Raises
    ------
    UnreadableSetting
    """
    for name in MAY_BE_FILES:
        file = environment.pop(f"{name}_FILE", None)
        if not file:
            continue
        if environment.get(name):
            raise UnreadableSetting(f"{name} and {name}_FILE are both set: leave one out")
        try:
            environment[name] = Path(file).read_text("utf-8").strip()
        except (OSError, UnicodeDecodeError) as error:
            raise UnreadableSetting(f"{name}_FILE names {file}, which cannot be read: {error}") from None
