"""Tokens: what is sealed is opened the same, what was not sealed here is nothing, and old secrets still read."""

import json
import string
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.exchange import token as tokens
from gaugerake.exchange.errors import NotAToken, WeakSecret
from gaugerake.exchange.token import MOST_CHARACTERS, Keys, Sealed
from gaugerake.floor.job import Job, Measured, Order, Polygon, Room
from gaugerake.web.json_in.schemas.job import JOB as SCHEMA

from .conftest import JOB, SECRET

OLD, NEW, FOREIGN = "the-secret-of-last-year", "the-secret-of-this-year", "the-secret-of-another-house"
LEAST = Job(system="level-clear", rooms=(Room(shape=Measured(area_m2=111.483648)),))


def sealed(job: Job = LEAST, **others: Any) -> Sealed:
    return Sealed(**{"job": job, "units": "us", "revision": "ab" * 32, "engine": "0.1.0", **others})


def made(what: Sealed, *secrets: str) -> str:
    token = Keys(secrets or (NEW,)).seal(what)
    assert token is not None
    return token


def test_what_is_sealed_is_opened_the_same() -> None:
    what = sealed(SCHEMA.load(json.loads(json.dumps(JOB))), units="si", book="cd" * 32)
    assert Keys([NEW]).open(made(what)) == what


def test_the_same_is_sealed_the_same() -> None:
    assert made(sealed()) == made(sealed())


def test_a_token_needs_no_escaping_in_an_address() -> None:
    assert set(made(sealed())) <= {*string.ascii_letters, *string.digits, *"-_."}


def test_the_newest_secret_signs_and_every_one_reads() -> None:
    before = made(sealed(), OLD)
    assert made(sealed(), NEW, OLD) == made(sealed(), NEW)
    assert Keys([NEW, OLD]).open(before) == sealed()


@pytest.mark.parametrize("secrets", [(FOREIGN,), (NEW, FOREIGN)])
def test_a_token_of_a_secret_that_is_gone_or_was_never_ours_is_none(secrets: tuple[str, ...]) -> None:
    with pytest.raises(NotAToken):
        Keys(secrets).open(made(sealed(), OLD))


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_no_other_spelling_of_a_token_is_one(data: st.DataObject) -> None:
    token = made(sealed())
    at = data.draw(st.integers(0, len(token) - 1))
    letter = data.draw(st.sampled_from(sorted(set(string.printable) - {token[at]})))
    with pytest.raises(NotAToken):
        Keys([NEW]).open(token[:at] + letter + token[at + 1 :])


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=80))
def test_no_text_is_a_token(text: str) -> None:
    with pytest.raises(NotAToken):
        Keys([NEW]).open(text)


@pytest.mark.parametrize("change", ["{}=", "={}", "{}\n", " {}", "{}%3D", "{}.", ".{}", "{}A"])
def test_nothing_may_stand_beside_it(change: str) -> None:
    with pytest.raises(NotAToken):
        Keys([NEW]).open(change.format(made(sealed())))


@pytest.mark.parametrize("text", ["a.b", "x", ".", "a.", ".a", "a.b.c", "AAAA.AAAAA"])
def test_what_is_no_base64_is_no_token(text: str) -> None:
    with pytest.raises(NotAToken):
        Keys([NEW]).open(text)


@pytest.mark.parametrize("payload", [b"", b"{}", b"[1]", b'{"job":{"system":"a"}}', b"not json", b"\xff"])
def test_what_we_signed_and_is_no_quote_is_no_token(payload: bytes) -> None:
    packed = tokens.base64_encode(tokens._deflate(payload))
    token = Keys([NEW])._signer.sign(packed).decode()
    with pytest.raises(NotAToken):
        Keys([NEW]).open(token)


def test_what_we_signed_and_inflates_beyond_any_job_is_no_token() -> None:
    packed = tokens.base64_encode(tokens._deflate(b" " * (2 << 20)))
    assert len(packed) < MOST_CHARACTERS
    with pytest.raises(NotAToken):
        Keys([NEW]).open(Keys([NEW])._signer.sign(packed).decode())


def test_what_is_signed_and_not_deflated_is_no_token() -> None:
    with pytest.raises(NotAToken):
        Keys([NEW]).open(Keys([NEW])._signer.sign(b"AAAA").decode())


def test_a_job_that_packs_into_more_than_four_thousand_characters_has_no_token() -> None:
    random = Random(7)
    keys, rooms, lengths = Keys([NEW]), [], []
    while token := keys.seal(sealed(Job(system="level-clear", rooms=tuple(rooms)))):
        assert keys.open(token).job.rooms == tuple(rooms)
        lengths.append(len(token))
        corners = tuple((random.uniform(0, 99), random.uniform(0, 99)) for _ in range(8))
        rooms.append(Room(shape=Polygon(points_m=corners)))
    assert 3700 < lengths[-1] <= MOST_CHARACTERS


@pytest.mark.parametrize("secrets", [(), ("",), ("short",), (NEW, "short"), ("x" * 15,)])
def test_a_secret_that_anybody_could_guess_is_refused(secrets: tuple[str, ...]) -> None:
    with pytest.raises(WeakSecret, match="16 characters or more"):
        Keys(secrets)


def test_a_token_of_the_first_release_still_opens() -> None:
    """Never to be made anew: what customers hold from the first release must be read for ever, or the salt changes."""
    found = Keys([SECRET]).open(FIRST)
    assert found == sealed(
        SCHEMA.load(json.loads(json.dumps(JOB))),
        revision="0123456789abcdef" * 4,
        book="fedcba9876543210" * 4,
    )


def test_money_comes_back_as_it_was_written() -> None:
    order = SCHEMA.load({**JOB, "order": {"delivery": "45.00", "tax_percent": 8.25}}).order
    found = Keys([NEW]).open(made(sealed(Job(system="s", rooms=(), order=order)))).job.order
    assert isinstance(found, Order)
    assert (str(found.delivery), str(found.tax_percent)) == ("45.00", "8.25")


FIRST = (
    "w-FxXXDti937JLsa7v8AoGlpwHSrADJVCaVgwxqmxhbAUs3AyMTMBMmQ4JL8Ikhdg7tIQK2EKc_g2DKLoREisyBnDOypmGByNTE3"
    "NMSRZGvxRC6wFDY2MTUzt7BMTEpOSU0jlY9IHGmpKclJiZYW5mamJsZGhgak8rEkLgA.-CLgaA8ijsL0jMJBL6D306fJUAiTURrN"
    "gmG1JwqtejE"
)
