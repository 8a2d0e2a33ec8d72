"""The page: the files of the client folder, each under its own name, and what a browser may do with them.

Decision: a file with words in it is in the language of its request, and an unknown ``lang`` is refused, as everywhere;
nothing else of its query is read, as links bring what they please. A file without words reads no query at all.
"""

from __future__ import annotations

import gzip
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from pathlib import Path

from flask import Flask, Response, g, request

from gaugerake.answers.show.reader import LANGUAGES, Language
from gaugerake.shipped import shipped
from gaugerake.web.api.page_words import carries_phrases, page_html, tight, with_phrases, without_comments
from gaugerake.web.api.parameters import read_language
from gaugerake.web.api.replies import named_reply

CLIENT = shipped("client")
Write = Callable[[str, Language], str]
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    # modules and workers are UTF-8 whatever is said (HTML, "fetch a single module script"); embed.js is neither
    ".js": "text/javascript",
    ".mjs": "text/javascript",
    "embed.js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".ico": "image/x-icon",
    ".webmanifest": "application/manifest+json",
}
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
# what a module, a sheet or a picture may do is the page's to say; the service worker fetches on its own
_SPOKEN_FOR = {".css", ".js", ".mjs", ".svg", ".png", ".ico"}
_WORKER = "sw.js"
_EMBED = "embed.js"
VIEWS = {"slab.html": "pouring-", "compare.html": "compare-", "start.html": "begin-"}
"""The views beside the quote, and what the codes of their phrases begin with."""
_COMPRESSED = {".html", ".css", ".js", ".mjs", ".svg", ".webmanifest"}


@dataclass(slots=True)
class _File:
    """One file, read again when it has changed."""

    path: Path
    write: Write | None = None
    """What is written into the file, or left out of it, when it is read."""
    language: Language | None = None
    """The language of the phrases in it; None where there are none."""
    stamp: tuple[int, int] = (0, 0)
    body: bytes = b""
    packed: bytes = b""
    etag: str = ""

    def refresh(self) -> None:
        """Read the file if it is not the one that was read."""
        stat = self.path.stat()
        stamp = (stat.st_mtime_ns, stat.st_size)
        if stamp != self.stamp:
            read = self.path.read_bytes()
            self.body = (
                self.write(read.decode("utf-8"), self.language or LANGUAGES[0]).encode("utf-8") if self.write else read
            )
            self.packed = gzip.compress(self.body, 9, mtime=0) if self.path.suffix in _COMPRESSED else b""
            self.etag, self.stamp = sha256(self.body).hexdigest()[:16], stamp

    def reply(self) -> Response:
        """The file, packed for those who take it so; each form has a tag of its own."""
        self.refresh()
        packed = bool(self.packed) and request.accept_encodings.quality("gzip") > 0
        body, etag = (self.packed, f"{self.etag}-gz") if packed else (self.body, self.etag)
        response = named_reply(body, TYPES.get(self.path.name) or TYPES[self.path.suffix], etag=etag)
        if self.path.suffix not in _SPOKEN_FOR or self.path.name == _WORKER:
            response.headers["Content-Security-Policy"] = POLICY
        if self.packed:
            response.headers["Vary"] = "Accept-Encoding"
        if packed and response.status_code == 200:
            response.headers["Content-Encoding"] = "gzip"
        g.in_words = self.language is not None
        return response


def add_page(app: Flask, folder: Path = CLIENT) -> None:
    """Serve the folder's files. What is there now has an address, and nothing else has."""
    for path in sorted(folder.rglob("*")):
        if path.is_file() and path.suffix in TYPES:
            name = path.relative_to(folder).as_posix()
            _add(app, f"/{name}", _files(path, name))
            if name == "index.html":
                _add(app, "/", _files(path, name))


def _files(path: Path, name: str) -> Mapping[Language, _File]:
    """The file in each language, where it has phrases."""
    write = _written(name)
    if name.endswith(".html") or (write is not None and carries_phrases(path.read_text("utf-8"))):
        return {language: _File(path, write, language) for language in LANGUAGES}
    return dict.fromkeys(LANGUAGES, _File(path, write))


def _written(name: str) -> Write | None:
    if name == _EMBED:
        return with_phrases
    if name.startswith("js/"):
        return lambda script, language: with_phrases(without_comments(script), language)
    if name.endswith(".css"):
        return lambda sheet, _language: tight(sheet)
    return partial(page_html, view=VIEWS.get(name, "")) if name.endswith(".html") else None


def _add(app: Flask, address: str, files: Mapping[Language, _File]) -> None:

    def view() -> Response:
        language = read_language()[0] if in_words else LANGUAGES[0]
        return files[language].reply()

    in_words = files[LANGUAGES[0]].language is not None

    app.add_url_rule(address, f"page:{address}", view, methods=["GET"])
