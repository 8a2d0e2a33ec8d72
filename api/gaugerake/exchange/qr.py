"""The address of a quote as a QR code (ISO/IEC 18004), black on white with its quiet zone, as SVG."""

from __future__ import annotations

import io

import segno

from gaugerake.exchange.errors import QrTooLong

MOST_CHARACTERS = 1200
QUIET_ZONE = 4  # modules, as the standard asks


def qr_svg(address: str, *, title: str) -> bytes:
    """The code of an address, with its title.

    Its level of correction is the lowest, or a higher one that takes no more room.

    Raises
    ------
    QrTooLong
        When the address has more than 1,200 characters: its code would be too fine for a telephone to read.
    """
    if not fits(address):
        raise QrTooLong(len(address), MOST_CHARACTERS)
    code = segno.make_qr(address, error="l", boost_error=True)
    drawn = io.BytesIO()
    code.save(
        drawn,
        kind="svg",
        border=QUIET_ZONE,
        dark="#000",
        light="#fff",
        omitsize=True,
        nl=False,
        title=title,
    )
    return drawn.getvalue()


def fits(address: str) -> bool:
    """Whether the address is short enough for a code."""
    return len(address) <= MOST_CHARACTERS
