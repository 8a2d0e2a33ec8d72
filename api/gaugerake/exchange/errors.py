"""What goes wrong with a quote in another form. The tree::

ExchangeError
├── NotAToken      not signed by us, or no quote in it: which of the two is not told
├── WeakSecret     a secret that anybody could guess, or none at all
├── QrTooLong      an address that no QR code of ours holds
└── NoSuchForm     a quote that has nothing for a form to hold
    ├── NotIssued      UBL names the day of issue, and the job does not
    └── NothingOrdered UBL has at least one line, and the order has none
"""

from __future__ import annotations

from collections.abc import Mapping

from gaugerake.floor.values.note import Value


class ExchangeError(Exception):
    """The common root; ``params`` are the figures of what is said about it."""

    params: Mapping[str, Value] = {}


class NotAToken(ExchangeError):
    """No token of this service."""


class WeakSecret(ExchangeError):
    """No secret, or one with fewer than ``least`` characters."""

    def __init__(self, least: int) -> None:
        super().__init__(f"a secret for the tokens must have {least} characters or more")
        self.least = least


class QrTooLong(ExchangeError):
    """An address of ``length`` characters, where ``most`` are drawn."""

    def __init__(self, length: int, most: int) -> None:
        super().__init__(f"{length} characters, {most} are drawn")
        self.params = {"length": length, "most": most}


class NoSuchForm(ExchangeError):
    """The quote has nothing for the form to hold."""


class NotIssued(NoSuchForm):
    """A quotation is issued on a day, and ``order.issued`` was not given."""


class NothingOrdered(NoSuchForm):
    """A quotation has a line, and the order has none."""
