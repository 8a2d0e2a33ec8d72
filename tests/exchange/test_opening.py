"""Opening a quote again: from last spring's catalogue and prices, with another engine, and when it cannot be."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from flask.testing import FlaskClient

from gaugerake.catalogue.errors import Unavailable
from gaugerake.exchange.token import Keys
from gaugerake.web.api import tokens
from gaugerake.web.server.app import create_app

from .conftest import SECRET

ALL = ["application/json", "text/html", "text/csv", "application/xml"]


def priced(source: Any, factor: str) -> Any:
    """The list prices times a factor."""
    book = source.current.list_book
    prices = {sku: replace(price, price=price.price * Decimal(factor), breaks=()) for sku, price in book.prices.items()}
    return replace(book, prices=prices)


def use_new_prices(source: Any) -> None:
    """Another revision, twice as dear."""
    changed = replace(source.current, revision="f" * 64, books={"list": priced(source, "2")})
    source.revisions[changed.revision] = changed
    source.current = changed


def use_branch(source: Any, factor: str, book_id: str) -> None:
    """The north branch's prices."""
    book = replace(priced(source, factor), code="north")
    source.books[book_id] = book
    source.current = replace(
        source.current,
        books={**source.current.books, "north": book},
        book_ids={**source.current.book_ids, "north": book_id},
    )


def code(response: Any) -> tuple[int, str]:
    return response.status_code, response.get_json(force=True)["code"]


def test_a_quote_opens_with_the_prices_that_it_was_made_from(
    client: FlaskClient, job: dict[str, Any], source: Any
) -> None:
    first = client.post("/v1/quotes", json=job)
    use_new_prices(source)
    later = client.post("/v1/quotes", json=job)
    assert client.get(f"/v1/quotes/{first.get_json()['token']}").data == first.data
    assert client.get(f"/v1/quotes/{later.get_json()['token']}").data == later.data
    assert first.get_json()["quantities"]["totals"] != later.get_json()["quantities"]["totals"]


def test_a_branchs_quote_opens_with_the_branchs_prices_of_the_day(
    client: FlaskClient, job: dict[str, Any], source: Any
) -> None:
    use_branch(source, "1.1", "1" * 64)
    job["order"]["price_book"] = "north"
    first = client.post("/v1/quotes", json=job)
    use_branch(source, "1.3", "2" * 64)
    later = client.post("/v1/quotes", json=job)
    assert client.get(f"/v1/quotes/{first.get_json()['token']}").data == first.data
    assert client.get(f"/v1/quotes/{later.get_json()['token']}").data == later.data


def test_other_prices_under_the_same_name_are_another_quote(
    client: FlaskClient, job: dict[str, Any], source: Any
) -> None:
    job["order"]["price_book"] = "north"
    seen = set()
    for factor, book_id in (("1.1", "1" * 64), ("1.3", "2" * 64)):
        use_branch(source, factor, book_id)
        seen.add(client.post("/v1/quotes", json=job).get_json()["fingerprint"])
    assert len(seen) == 2


@pytest.mark.parametrize("accept", ALL)
def test_another_engine_answers_with_a_caution(
    client: FlaskClient, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch, accept: str
) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    monkeypatch.setattr(tokens, "__version__", "0.2.0")
    response = client.get(f"/v1/quotes/{token}", headers={"Accept": accept})
    assert "made by version 0.1.0 and is answered by version 0.2.0" in response.text


def test_the_same_engine_has_no_such_caution(client: FlaskClient, job: dict[str, Any]) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    codes = [note["code"] for note in client.get(f"/v1/quotes/{token}").get_json()["cautions"]]
    assert "other-engine" not in codes


# names and caches


@pytest.mark.parametrize("accept", ALL)
def test_what_is_still_the_same_is_a_304(client: FlaskClient, job: dict[str, Any], accept: str) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    headers = {"Accept": accept}
    first = client.get(f"/v1/quotes/{token}", headers=headers)
    tag = first.headers["ETag"]
    assert tag.startswith('"')
    assert first.headers["Cache-Control"] == "private, no-cache"
    again = client.get(f"/v1/quotes/{token}", headers=headers | {"If-None-Match": tag})
    assert (again.status_code, again.data, again.headers["ETag"]) == (304, b"", tag)
    other = client.get(f"/v1/quotes/{token}", headers=headers | {"If-None-Match": '"another"'})
    assert (other.status_code, other.data) == (200, first.data)


def test_a_packed_answer_has_a_tag_of_its_own_which_is_known_again(client: FlaskClient, job: dict[str, Any]) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    headers = {"Accept-Encoding": "gzip"}
    first = client.get(f"/v1/quotes/{token}", headers=headers)
    assert first.headers["Content-Encoding"] == "gzip"
    again = client.get(f"/v1/quotes/{token}", headers=headers | {"If-None-Match": first.headers["ETag"]})
    assert again.status_code == 304


def test_each_form_units_and_job_has_a_tag_of_its_own(client: FlaskClient, job: dict[str, Any]) -> None:
    tags = []
    for reference in ("A", "B"):
        job["order"]["reference"] = reference
        for units in ("us", "si"):
            token = client.post(f"/v1/quotes?units={units}", json=job).get_json()["token"]
            tags += [client.get(f"/v1/quotes/{token}", headers={"Accept": form}).headers["ETag"] for form in ALL]
    assert len(set(tags)) == len(tags) == 16


def test_another_engine_is_another_tag(
    client: FlaskClient, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    tag = client.get(f"/v1/quotes/{token}").headers["ETag"]
    monkeypatch.setattr("gaugerake.web.api.resources.quotes.__version__", "0.2.0")
    monkeypatch.setattr(tokens, "__version__", "0.2.0")
    assert client.get(f"/v1/quotes/{token}", headers={"If-None-Match": tag}).status_code == 200


# what cannot be opened


@pytest.mark.parametrize("address", ["/v1/quotes/{}", "/v1/quotes/{}/qr.svg"])
def test_a_token_that_was_changed_is_a_404_that_tells_nothing(
    client: FlaskClient, job: dict[str, Any], address: str
) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    foreign = Keys(["the-secret-of-another-house"]).seal(Keys([SECRET]).open(token))
    bodies = set()
    for wrong in ("A" + token, token[:-1], token.replace(".", "-"), "x", "a.b", "%00", "é", "x" * 5000, foreign):
        response = client.get(address.format(wrong), headers={"X-Request-Id": "same"})
        assert code(response) == (404, "no-such-quote")
        bodies.add(response.data)
    assert len(bodies) == 1


def test_a_quote_whose_catalogue_is_no_longer_kept_is_gone(
    client: FlaskClient, job: dict[str, Any], source: Any
) -> None:
    first = client.get(f"/v1/quotes/{client.post('/v1/quotes', json=job).get_json()['token']}")
    source.revisions.clear()
    address = first.request.path
    assert code(client.get(address)) == (410, "quote-gone")
    assert code(client.get(address, headers={"If-None-Match": first.headers["ETag"]})) == (410, "quote-gone")


def test_a_quote_whose_price_list_is_no_longer_kept_is_gone(
    client: FlaskClient, job: dict[str, Any], source: Any
) -> None:
    use_branch(source, "1.1", "1" * 64)
    job["order"]["price_book"] = "north"
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    source.books.clear()
    assert code(client.get(f"/v1/quotes/{token}")) == (410, "quote-gone")


def test_a_quote_whose_job_is_no_longer_read_is_gone(client: FlaskClient, job: dict[str, Any]) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    held = Keys([SECRET]).open(token)
    assert held.document == job
    older = Keys([SECRET]).seal(replace(held, document=job | {"a_field_of_last_year": 1}))
    assert code(client.get(f"/v1/quotes/{older}")) == (410, "quote-gone")


def test_while_the_store_is_away_an_old_quote_is_to_be_asked_for_again(
    client: FlaskClient, job: dict[str, Any], source: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]

    def away(_revision: str) -> None:
        raise Unavailable("the database does not answer")

    monkeypatch.setattr(source, "revision", away)
    response = client.get(f"/v1/quotes/{token}")
    assert code(response) == (503, "unavailable")
    assert response.headers["Retry-After"] == "5"


@pytest.mark.parametrize("query", ["units=si", "working=true", "token=x"])
def test_an_opened_quote_takes_no_parameter_that_would_change_it(
    client: FlaskClient, job: dict[str, Any], query: str
) -> None:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    assert code(client.get(f"/v1/quotes/{token}?{query}")) == (422, "bad-parameter")


# quotes without a token


def test_a_job_too_long_for_a_link_says_so(client: FlaskClient, job: dict[str, Any]) -> None:
    side = 10.0
    job["rooms"] = [
        {
            "name": f"{n * 7919:x}",
            "shape": {"rectangle": {"length": f"{side + n / 7:.6f} ft", "width": f"{9 + n / 11:.6f} ft"}},
        }
        for n in range(400)
    ]
    answer = client.post("/v1/quotes", json=job).get_json()
    assert answer["token"] is None
    note = next(note for note in answer["cautions"] if note["code"] == "token-too-long")
    assert "4000 characters" in note["text"]


def test_a_service_without_a_secret_says_so(source: Any, job: dict[str, Any]) -> None:
    client = create_app(source).test_client()
    answer = client.post("/v1/quotes", json=job).get_json()
    assert answer["token"] is None
    assert "token-without-secret" in [note["code"] for note in answer["cautions"]]
    assert code(client.get("/v1/quotes/a.b")) == (404, "no-such-quote")


def test_a_secret_that_cannot_be_had_just_now_is_a_503(source: Any, job: dict[str, Any]) -> None:
    def away() -> tuple[str, ...]:
        raise Unavailable("the database does not answer")

    client = create_app(source, secrets=away).test_client()
    assert code(client.post("/v1/quotes", json=job)) == (503, "unavailable")


def test_after_a_new_secret_yesterdays_links_still_open(source: Any, job: dict[str, Any]) -> None:
    before = create_app(source, secrets=lambda: (SECRET,)).test_client()
    after = create_app(source, secrets=lambda: ("the-secret-of-this-year", SECRET)).test_client()
    first = before.post("/v1/quotes", json=job)
    assert after.get(f"/v1/quotes/{first.get_json()['token']}").data == first.data
    assert code(before.get(f"/v1/quotes/{after.post('/v1/quotes', json=job).get_json()['token']}"))[0] == 404


def test_secrets_of_the_environment_are_a_list(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GAUGERAKE_SECRETS", " newest-of-the-secrets , older-of-the-secrets,,")
    assert tokens.given_secrets() == ("newest-of-the-secrets", "older-of-the-secrets")
    monkeypatch.delenv("GAUGERAKE_SECRETS")
    assert tokens.given_secrets() == ()
