"""What comes out of the printer: the pages of a PDF, with the size of every letter on them."""

import math
from io import BytesIO
from typing import Any, NamedTuple

from pypdf import PdfReader


class Printed(NamedTuple):
    """One page: its text, and each piece of it with its size in points."""

    text: str
    pieces: tuple[tuple[str, float], ...]

    def smallest(self) -> tuple[float, str]:
        """The smallest letters of the page, and what they say."""
        return min((size, text) for text, size in self.pieces)


def pages_of(pdf: bytes) -> list[Printed]:
    """The pages of what was printed. A browser that makes a page narrower shrinks its letters: that is counted."""
    return [_read(page) for page in PdfReader(BytesIO(pdf)).pages]


def _read(page: Any) -> Printed:
    pieces: list[tuple[str, float]] = []

    def see(text: str, here: list[float], line: list[float], _font: Any, size: float) -> None:
        if text.strip():
            scale = math.hypot(here[0], here[1]) * math.hypot(line[0], line[1])
            pieces.append((text.strip(), size * scale))

    # a font may draw two letters of a quote's number as one
    text = page.extract_text(visitor_text=see).replace("\N{LATIN SMALL LIGATURE FF}", "ff")
    return Printed(text, tuple(pieces))
