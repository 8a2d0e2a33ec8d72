"""The commands below ``gaugerake key``."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from gaugerake.catalogue.keys.key import LIVE_PER_HOLDER, USUAL_RATE, ListedKey
from gaugerake.cli.commands import Group
from gaugerake.cli.files import the_store
from gaugerake.cli.outcome import Json, Outcome, said


def add(commands: Group) -> None:
    """Add the commands."""
    make = commands.command(
        "make",
        _make,
        "make a key and tell it, this once",
        (("HOLDER", "who will have it"),),
        more="It is told on the standard output; only its SHA-256 is kept. From the first key on, nobody is answered"
        f" without one. A holder has at most {LIVE_PER_HOLDER} live keys.",
    )
    commands.option(make, "--book", metavar="BRANCH", help="code of the branch whose prices it has (list prices)")
    commands.option(
        make,
        "--origin",
        metavar="URL",
        action="append",
        default=[],
        help="origin of pages that may use it; may be repeated",
    )
    commands.option(make, "--rate", metavar="N/minute", default=USUAL_RATE, help="how often it may ask (%(default)s)")
    commands.command("list", _list, "list the keys, revoked ones too")
    commands.command(
        "revoke",
        _revoke,
        "take a key back; the service stays closed without keys",
        (("PREFIX", "beginning of the key, as it is listed"),),
    )
    commands.command("open", _open, "forget the revoked keys, so that no key is asked for")


def _make(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store.keys import make_key

    text = make_key(the_store(), asked.holder, book=asked.book, origins=asked.origin, rate=asked.rate)
    return Outcome(
        lines=(text,),
        asides=("Keep it now: it is not shown again. Workers take it within 5 s.", *_of_a_page(asked)),
        data={"key": text, "holder": asked.holder},
    )


def _of_a_page(asked: argparse.Namespace) -> Iterator[str]:
    """A key with origins is for pages, in which everybody can read it."""
    if asked.origin:
        seen = f"the prices of {asked.book}" if asked.book else "the list prices"
        yield f"Whoever opens a page that holds it can read it, and with it {seen}; it can write and order nothing."


def _list(_asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store.keys import list_keys

    listed = list_keys(the_store())
    return Outcome(lines=[_line(one) for one in listed], data=[_data(one) for one in listed])


def _line(listed: ListedKey) -> str:
    key = listed.key
    ended = f"revoked {listed.revoked_at:%Y-%m-%d}" if listed.revoked_at else "live"
    made = f"{listed.created_at:%Y-%m-%d}"
    return "  ".join((key.prefix, made, ended, key.rate, key.book or "list", key.holder, *key.origins))


def _data(listed: ListedKey) -> dict[str, Json]:
    key = listed.key
    return {
        "prefix": key.prefix,
        "holder": key.holder,
        "book": key.book,
        "rate": key.rate,
        "origins": list(key.origins),
        "created": listed.created_at.isoformat(),
        "revoked": listed.revoked_at.isoformat() if listed.revoked_at else None,
    }


def _revoke(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store.keys import revoke_key

    key = revoke_key(the_store(), asked.prefix)
    return said(
        f"{key.prefix} of {key.holder} is revoked; workers refuse it within 5 s", prefix=key.prefix, holder=key.holder
    )


def _open(_asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store.keys import open_again

    count = open_again(the_store())
    keys = "1 revoked key is" if count == 1 else f"{count} revoked keys are"
    return said(f"{keys} forgotten; no key is asked for", forgotten=count)
