"""Headers that are taken apart are short: a server joins 60 lines of one name to 500 kB, which takes seconds to read.

Two spaces side by side mean no more than one, but Werkzeug's reader of ``Accept`` takes a time for them that grows
with their square.
"""

from __future__ import annotations

from gaugerake.web.errors.refusal import HeaderTooLong

MOST_CHARACTERS = 4096
READ = {
    "Accept": "HTTP_ACCEPT",
    "Accept-Encoding": "HTTP_ACCEPT_ENCODING",
    "Authorization": "HTTP_AUTHORIZATION",
    "Content-Type": "CONTENT_TYPE",
    "If-None-Match": "HTTP_IF_NONE_MATCH",
}
"""The headers that are taken apart, and what WSGI calls them."""


def bound(environ: dict[str, str]) -> HeaderTooLong | None:
    """Take out headers that are too long, so that nothing reads them; the refusal of the request, if there are any.

    >>> environ = {"HTTP_ACCEPT": "text/csv  ,  */*", "HTTP_IF_NONE_MATCH": '"a",' * 2000}
    >>> bound(environ), environ
    (HeaderTooLong('HeaderTooLong'), {'HTTP_ACCEPT': 'text/csv , */*'})
    """
    long = [name for name, key in READ.items() if len(environ.get(key, "")) > MOST_CHARACTERS]
    for name in long:
        del environ[READ[name]]
    if "HTTP_ACCEPT" in environ:
        environ["HTTP_ACCEPT"] = " ".join(environ["HTTP_ACCEPT"].split())
    return HeaderTooLong(name=", ".join(long), most=MOST_CHARACTERS) if long else None
